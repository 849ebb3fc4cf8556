package unit

import (
	"math"
	"testing"
)

func made(t *testing.T, num, den int64, u Unit) Quantity {
	t.Helper()
	q, err := New(num, den, u)
	if err != nil {
		t.Fatalf("New(%d, %d, %v): %v", num, den, u, err)
	}
	return q
}

func TestNewReduces(t *testing.T) {
	for _, c := range []struct{ num, den, wantNum, wantDen int64 }{
		{6, 8, 3, 4},
		{6, -8, -3, 4},
		{-6, -8, 3, 4},
		{0, -5, 0, 1},
		{math.MinInt64, 2, -1 << 62, 1},
		{math.MinInt64, math.MinInt64, 1, 1},
	} {
		q := made(t, c.num, c.den, Millimetre)
		if q.num != c.wantNum || q.den != c.wantDen {
			t.Errorf("New(%d, %d) = %d/%d, want %d/%d", c.num, c.den, q.num, q.den, c.wantNum, c.wantDen)
		}
	}
}

func TestNewRefuses(t *testing.T) {
	for _, c := range []struct {
		num, den int64
		unit     Unit
		want     error
	}{
		{1, 0, Millimetre, errOverZero},
		{math.MinInt64, 1, Millimetre, errOverflow},
		{math.MinInt64, -1, Millimetre, errOverflow},
		{1, math.MinInt64, Millimetre, errOverflow},
		{0, 3, ThreadsPerInch, errNoPitch},
	} {
		if q, err := New(c.num, c.den, c.unit); err != c.want || q.Given() {
			t.Errorf("New(%d, %d, %v) = %v, %v, want the error %q", c.num, c.den, c.unit, q, err, c.want)
		}
	}
}

func TestInside(t *testing.T) {
	for _, c := range []struct {
		num, den int64
		unit     Unit
		want     float64
	}{
		{137, 64, Inch, 54.371875},                                // bc 1.07: 25.4*137/64
		{1, 10, Inch, 2.54},                                       // the inch is 25.4 mm exactly, ISO 31-1
		{3, 10, Inch, 7.62},                                       // one rounding: 0.3*25.4 in float64 is 7.619999999999999
		{14, 1, ThreadsPerInch, 25.4 / 14},                        // bc 1.07: 1.814285714285714285
		{1, 20, TaperRatio, .024994793618920159501717373649},      // bc -l 1.07: a(1/40)
		{602, 1000, InchPerFoot, .025078074727865432206115619746}, // bc -l 1.07: a(0.602/24)
		{5367, 3600, Degree, .026019950265148796775970689873},     // bc -l 1.07: 4*a(1)*5367/3600/180
		{90, 1, Degree, math.Pi / 2},
		{1, 50, Radian, 0.02},
		{5, 4, One, 1.25},
		{-19, 2, Millimetre, -9.5},
		{5, 2, Kilonewton, 2500},
		{1, 1, PoundForce, 4.4482216152605},       // 0.45359237 kg by 9.80665 m/s²; bc 1.07
		{25, 1, NewtonMetre, 25000},               // N mm
		{1, 1, PoundForceInch, 112.9848290276167}, // bc 1.07: 4.4482216152605*25.4
		{1, 1, PoundForceFoot, 1355.8179483314004},
	} {
		got := made(t, c.num, c.den, c.unit).Inside()
		within := 0.0
		if c.unit.Dimension() == Angle {
			within = 0x1p-52 // one unit in the last place: π and the arc tangent are rounded
		}
		if math.Abs(got-c.want) > within*math.Abs(c.want) {
			t.Errorf("%d/%d %v inside = %.17g, want %.17g", c.num, c.den, c.unit, got, c.want)
		}
	}
}

// TestTaperIncludedAngle checks the half angle against a printed table: 1:20
// on the diameter includes 2.86419°, and 0.6 in/ft is the same taper (metric
// and Jarno tapers, public trade tables).
func TestTaperIncludedAngle(t *testing.T) {
	for _, q := range []Quantity{made(t, 1, 20, TaperRatio), made(t, 6, 10, InchPerFoot)} {
		if got := math.Round(2*q.Inside()*180/math.Pi*1e5) / 1e5; got != 2.86419 {
			t.Errorf("%v includes %g°, want 2.86419°", q, got)
		}
	}
}

func TestEqual(t *testing.T) {
	var none Quantity
	for _, c := range []struct {
		a, b Quantity
		want bool
	}{
		{made(t, 254, 10, Millimetre), made(t, 1, 1, Inch), true},
		{made(t, 14, 1, ThreadsPerInch), made(t, 1, 14, Inch), true},
		{made(t, 127, 70, Millimetre), made(t, 14, 1, ThreadsPerInch), true},
		{made(t, 1, 20, TaperRatio), made(t, 6, 10, InchPerFoot), true},
		{made(t, 90, 1, Degree), made(t, 90, 1, Degree), true},
		{made(t, 0, 1, Degree), made(t, 0, 1, Radian), true},
		{made(t, 12, 1, PoundForceInch), made(t, 1, 1, PoundForceFoot), true},
		{made(t, 25, 1, NewtonMetre), made(t, 25000, 1, NewtonMillimetre), true},
		{made(t, 2, 1, Kilonewton), made(t, 2000, 1, Newton), true},
		{made(t, 1, 1, Newton), made(t, 1, 1, NewtonMillimetre), false},
		{made(t, 0, 1, Degree), made(t, 0, 1, TaperRatio), true},
		{none, none, true},
		{none, made(t, 0, 1, One), false},
		{made(t, 1, 1, Millimetre), made(t, 1, 1, One), false},
		{made(t, 1, 1, Degree), made(t, 1, 1, Radian), false},
		// One part in 9·10¹⁸ apart: float64 cannot tell these from each other.
		{made(t, math.MaxInt64, 1, Millimetre), made(t, math.MaxInt64-1, 1, Millimetre), false},
	} {
		if got := c.a.Equal(c.b); got != c.want {
			t.Errorf("%v equal to %v: %t, want %t", c.a, c.b, got, c.want)
		}
		if c.b.Equal(c.a) != c.want {
			t.Errorf("%v and %v: equality depends on the order", c.a, c.b)
		}
	}
}

func TestSign(t *testing.T) {
	for q, want := range map[Quantity]int{{}: 0, made(t, 0, 1, Inch): 0, made(t, -1, 2, Inch): -1, made(t, 1, 2, Inch): 1} {
		if q.Sign() != want {
			t.Errorf("sign of %v = %d, want %d", q, q.Sign(), want)
		}
	}
}

func TestString(t *testing.T) {
	for _, c := range []struct {
		num, den int64
		unit     Unit
		want     string
	}{
		{137, 64, Inch, "2 9/64 in"},
		{-137, 64, Inch, "-2 9/64 in"},
		{7, 32, Inch, "7/32 in"},
		{-7, 32, Inch, "-7/32 in"},
		{6, 1, Inch, "6 in"},
		{0, 1, Inch, "0 in"},
		{1, 100000, Inch, "0.00001 in"},
		{1, 256, Inch, "0.00390625 in"},
		{1, 14, Inch, "1/14 in"},
		{127, 10, Millimetre, "12.7 mm"},
		{-1, 3, Millimetre, "-1/3 mm"},
		{1, 1 << 62, Millimetre, "1/4611686018427387904 mm"},
		{60, 1, Degree, "60 deg"},
		{3, 2, Degree, "1.5 deg"},
		{5367, 3600, Degree, "1d 29m 27s"},
		{-1, 12, Degree, "-0d 5m 0s"},
		{1, 7200, Degree, "0d 0m 0.5s"},
		{1, 7, Degree, "1/7 deg"},
		{1, 50, Radian, "0.02 rad"},
		{1, 20, TaperRatio, "1:20"},
		{-1, 20, TaperRatio, "-1:20"},
		{250, 4803, TaperRatio, "1:19.212"},
		{3, 1, TaperRatio, "3:1"},
		{7, 24, TaperRatio, "7:24"},
		{0, 1, TaperRatio, "0:1"},
		{602, 1000, InchPerFoot, "0.602 in/ft"},
		{14, 1, ThreadsPerInch, "14 tpi"},
		{23, 2, ThreadsPerInch, "11.5 tpi"},
		{5, 4, One, "1.25"},
		{1, 3, One, "1/3"},
	} {
		if got := made(t, c.num, c.den, c.unit).String(); got != c.want {
			t.Errorf("%d/%d %v is written %q, want %q", c.num, c.den, c.unit, got, c.want)
		}
	}
	if got := (Quantity{}).String(); got != "" {
		t.Errorf("a quantity not given is written %q, want nothing", got)
	}
}

func TestInsideOfNothingPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("Inside of a quantity not given returned")
		}
	}()
	Quantity{}.Inside()
}

func TestNeg(t *testing.T) {
	if got, want := made(t, 3, 4, Inch).Neg(), made(t, -3, 4, Inch); got != want {
		t.Errorf("%v, want %v", got, want)
	}
	if (Quantity{}).Neg().Given() {
		t.Error("nothing became something")
	}
}
