package unit

import (
	"math"
	"testing"
)

func TestShow(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{ShowLength(12.7, Millimetre), "12.700 mm"},
		{ShowLength(12.7, Inch), "0.5000 in"},
		{ShowLength(-0.0001, Millimetre), "0.000 mm"},
		{ShowLength(math.NaN(), Millimetre), "? mm"},
		{ShowLength(math.Inf(-1), Inch), "? in"},
		{ThouText(63.518), "2.5007 in"},  // bc 1.07: 63.518/25.4 = 2.50070866
		{ShowAngle(0.0873881), "5.007°"}, // bc -l 1.07: 0.0873881*45/a(1) = 5.00696930
		{ShowAngle(-math.Pi / 2), "-90.000°"},
	} {
		if c.got != c.want {
			t.Errorf("shown as %q, want %q", c.got, c.want)
		}
	}
}

// TestWithUncertainty: all cases constructed from the rule of two significant
// digits.
func TestWithUncertainty(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		value, U float64
		v, u     string
	}{
		{63.518, 0.0137, "63.518", "0.014"},
		{63.5184, 0.0996, "63.52", "0.10"},
		{63.5184, 0.0994, "63.518", "0.099"},
		{63.5184, 1.37, "63.5", "1.4"},
		{63.5184, 9.96, "64", "10"},
		{63.5184, 13.7, "64", "14"},
		{1234.5678, 137.4, "1235", "137"},
		{12.6954051, 0.00055, "12.69541", "0.00055"},
		{-0.001, 0.13, "0.00", "0.13"},
		{1e-9, 2.5e-12, "0.0000000010000", "0.0000000000025"},
		{12.7, 0, "12.7", "0"},
		{12, 0, "12", "0"},
		{120, 0, "120", "0"},
		{1. / 3, 0, "0.333333", "0"},
		{12.7, nan, "12.7", "?"},
		{12.7, inf, "12.7", "?"},
		{nan, 0.0137, "?", "0.014"},
		{inf, nan, "?", "?"},
		{1, 1e-300, "1", "0"},
	} {
		if v, u := WithUncertainty(c.value, c.U); v != c.v || u != c.u {
			t.Errorf("%g ± %g is shown %q ± %q, want %q ± %q", c.value, c.U, v, u, c.v, c.u)
		}
	}
}

func TestInchWithUncertainty(t *testing.T) {
	for _, c := range []struct {
		mm, Umm float64
		want    string
	}{
		{63.518, 0.0140, "2.5007 ± 0.0006 in"}, // bc 1.07: 63.518/25.4 = 2.50070866, 0.0140/25.4 = 0.00055118
		{63.518, 0.35, "2.501 ± 0.014 in"},     // bc 1.07: 0.35/25.4 = 0.01377953
		{63.518, 0.001, "2.500709 ± 0.000039 in"},
		{12.7, 0, "0.5 ± 0 in"},
		{12.7, math.NaN(), "0.5 ± ? in"},
	} {
		if got := InchWithUncertainty(c.mm, c.Umm); got != c.want {
			t.Errorf("%g ± %g mm is shown %q, want %q", c.mm, c.Umm, got, c.want)
		}
	}
}

func TestNearestFraction(t *testing.T) {
	for _, c := range []struct {
		mm    float64
		den   int64
		want  string
		above float64
	}{
		{63.518, 64, "2 1/2 in", 0.018},
		{54.4, 64, "2 9/64 in", 0.028125}, // bc 1.07: 54.4 - 25.4*137/64
		{54.4, 16, "2 1/8 in", 0.425},     // bc 1.07: 54.4 - 25.4*17/8
		{-5.5, 128, "-7/32 in", 0.05625},  // bc 1.07: -5.5 + 25.4*7/32
		{0.05, 64, "0 in", 0.05},
	} {
		q, above := NearestFraction(c.mm, c.den)
		if q.String() != c.want || math.Abs(above-c.above) > 1e-14*math.Abs(c.mm) {
			t.Errorf("%g mm is %v and %.15g mm, want %s and %g mm", c.mm, q, above, c.want, c.above)
		}
	}
	for _, mm := range []float64{math.NaN(), math.Inf(1), 1e300} {
		if q, above := NearestFraction(mm, 64); q.Given() || !math.IsNaN(above) {
			t.Errorf("%g mm is %v and %g mm, want none", mm, q, above)
		}
	}
}

func TestFractionText(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		den  int64
		want string
	}{
		{63.518, 64, "2 1/2 in +0.7 thou"}, // 0.018/0.0254 = 0.709
		{63.48, 64, "2 1/2 in -0.8 thou"},  // 0.020/0.0254 = 0.787
		{12.7, 64, "1/2 in +0.0 thou"},
		{25.4, 64, "1 in +0.0 thou"},
		{54.4, 64, "2 9/64 in +1.1 thou"},  // 0.028125/0.0254 = 1.107
		{5.36, 128, "27/128 in +0.1 thou"}, // 5.36 - 25.4*27/128 = 0.0021875, over 0.0254 = 0.086
		{5.36, 64, "7/32 in -7.7 thou"},    // 5.36 - 25.4*7/32 = -0.19625, over 0.0254 = -7.726
		{math.NaN(), 64, ""},
	} {
		if got := FractionText(c.mm, c.den); got != c.want {
			t.Errorf("%g mm in parts of 1/%d in is %q, want %q", c.mm, c.den, got, c.want)
		}
	}
}
