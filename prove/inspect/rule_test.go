package inspect_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/testdata/certified"
)

// TestPublishedRules holds the rule against JCGM 106:2012 and ISO 14253-1:2017 as
// testdata/certified/examples.yaml has them.
func TestPublishedRules(t *testing.T) {
	t.Run("u-jcgm106-zener", func(t *testing.T) {
		e := certified.Example(t, "u-jcgm106-zener")
		var in struct{ Y, U, Limit float64 }
		e.Read(t, &in)
		below := inspect.Limits{Low: math.Inf(-1), High: in.Limit}
		e.Figures(t, map[string]float64{"conformance probability": below.Chance(in.Y, in.U)})
		// 0.92 is not 95 %: nobody can tell.
		if got := below.Decide(in.Y, in.U, inspect.Proven); got != inspect.CannotTell {
			t.Errorf("said %s", got)
		}
	})
	t.Run("u-jcgm106-guard-2u", func(t *testing.T) {
		e := certified.Example(t, "u-jcgm106-guard-2u")
		var in struct{ K float64 }
		e.Read(t, &in)
		const u = 0.01
		above := inspect.Limits{Low: 5, High: math.Inf(1)}
		e.Figures(t, map[string]float64{"risk": 1 - above.Chance(5+in.K*u, u)})
	})
	t.Run("u-iso14253-guard-factor", func(t *testing.T) {
		e := certified.Example(t, "u-iso14253-guard-factor")
		e.Figures(t, map[string]float64{"guard factor g": inspect.Guard(inspect.Proven)})
		// The example in its notes: limit 20.021, u 0.002: accepted up to 20.0177.
		in, ok := inspect.Limits{Low: 20, High: 20.021}.Within(0.002, inspect.Proven)
		if want := 20.0177; !ok || math.Abs(in.High-want) > 5e-5 {
			t.Errorf("accepted up to %.6f, want %.4f", in.High, want)
		}
	})
}

// TestDecisions, constructed: limits 10 ± 0.1.
func TestDecisions(t *testing.T) {
	limits := inspect.Limits{Low: 9.9, High: 10.1}
	for _, c := range []struct {
		name      string
		y, u      float64
		proven    float64
		want      inspect.Saying
		withinAny bool
	}{
		{"in the middle", 10, 0.01, inspect.Proven, inspect.Conforming, true},
		{"just inside the guard band of 1.645 u", 10.0835, 0.01, inspect.Proven, inspect.Conforming, true},
		{"just outside of it", 10.0836, 0.01, inspect.Proven, inspect.CannotTell, true},
		{"inside that of 2 u", 10.0799, 0.01, 0.97725, inspect.Conforming, true},
		{"outside of it", 10.0801, 0.01, 0.97725, inspect.CannotTell, true},
		{"beyond the limit and not proved to be", 10.1164, 0.01, inspect.Proven, inspect.CannotTell, true},
		{"proved to be beyond", 10.1165, 0.01, inspect.Proven, inspect.NotConforming, true},
		{"below", 9.88, 0.01, inspect.Proven, inspect.NotConforming, true},
		{"nothing could prove it", 10, 0.06, inspect.Proven, inspect.CannotTell, false},
		{"exact, at the limit", 10.1, 0, inspect.Proven, inspect.Conforming, true},
		{"exact, beyond it", 10.100001, 0, inspect.Proven, inspect.NotConforming, true},
		{"not found", math.NaN(), 0.01, inspect.Proven, inspect.NoVerdict, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := limits.Decide(c.y, c.u, c.proven); got != c.want {
				t.Errorf("said %s, want %s (chance %.5f)", got, c.want, limits.Chance(c.y, c.u))
			}
			if _, ok := limits.Within(c.u, c.proven); ok != c.withinAny {
				t.Errorf("something can be conforming: %v", ok)
			}
		})
	}
}

// TestPromisedRisks draws parts and readings: of what is read at the edge of
// acceptance 5 % lie beyond the limit, of what is read at the edge of rejection 5 %
// lie within (JCGM 106:2012, 8 and 9). Sizes are anywhere, so that nothing but the
// reading tells of them. Bounds are 99.9 % of a binomial count.
func TestPromisedRisks(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 1))
	for _, u := range []float64{0.002, 0.01, 0.02} {
		limits := inspect.Limits{Low: 10, High: 10.1}
		in, ok := limits.Within(u, inspect.Proven)
		if !ok {
			t.Fatal("nothing is conforming")
		}
		const n = 100_000
		bad := 0
		for range n {
			// What is read as in.High was, with even chances beforehand, normal about it.
			if x := in.High + u*random.NormFloat64(); x < limits.Low || x > limits.High {
				bad++
			}
		}
		if promised, off := 0.05*n, 3.29*math.Sqrt(0.05*0.95*n); math.Abs(float64(bad)-promised) > off {
			t.Errorf("u = %g: %d of %d accepted at the edge do not conform, want %.0f ± %.0f", u, bad, n, promised, off)
		}
	}
}

// TestRatesOfAShop draws parts as a shop makes them and reads them: whatever it
// makes, no more than 5 % of what does not conform is accepted, and no more than 5 %
// of what does is rejected.
func TestRatesOfAShop(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 2))
	limits := inspect.Limits{Low: 9.9, High: 10.1}
	for _, c := range []struct{ spread, u float64 }{{0.05, 0.01}, {0.05, 0.03}, {0.1, 0.02}, {0.2, 0.01}} {
		counts := map[inspect.Saying]int{}
		falseAccept, falseReject, sound := 0, 0, 0
		const n = 50_000
		for range n {
			x := 10 + c.spread*random.NormFloat64()
			says := limits.Decide(x+c.u*random.NormFloat64(), c.u, inspect.Proven)
			counts[says]++
			conforms := limits.Low <= x && x <= limits.High
			if conforms {
				sound++
			}
			if says == inspect.Conforming && !conforms {
				falseAccept++
			}
			if says == inspect.NotConforming && conforms {
				falseReject++
			}
		}
		t.Logf("spread %g, u %g: %d accepted, %d of them wrongly; %d rejected, %d wrongly; %d undecided", c.spread, c.u,
			counts[inspect.Conforming], falseAccept, counts[inspect.NotConforming], falseReject, counts[inspect.CannotTell])
		if float64(falseAccept) > 0.05*float64(n-sound) {
			t.Errorf("spread %g, u %g: %d of %d accepted wrongly", c.spread, c.u, falseAccept, n-sound)
		}
		if float64(falseReject) > 0.05*float64(sound) {
			t.Errorf("spread %g, u %g: %d of %d rejected wrongly", c.spread, c.u, falseReject, sound)
		}
	}
}
