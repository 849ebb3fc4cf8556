package inspect

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestTakeByHand, constructed: a shaft 20 ± 0.02 read to 0.003 mm.
func TestTakeByHand(t *testing.T) {
	for _, c := range []struct {
		name       string
		c          cutting
		conforms   bool
		off, now   float64
		cuts       int
		gone, mind bool
	}{
		{"one cut", cutting{toGo: 0.08, past: 0.10, u: 0.003}, false, 0.08, 0.08, 1, false, false},
		// By the spring of the tool 1.02/(1 + 2.326·0.03) = 0.953 is safe, which leaves more
		// than a cut: half first, and of the other half 0.52/1.070 = 0.486 at once.
		{"two cuts", cutting{toGo: 1, past: 1.02, u: 0.003}, false, 1, 0.5, 2, false, false},
		{"by a dial of 0.05", cutting{toGo: 0.08, past: 0.12, u: 0.003, step: 0.05}, false, 0.08, 0.075, 1, false, false},
		{"right already", cutting{toGo: 0.005, past: 0.025, u: 0.003}, true, 0, 0, 0, false, false},
		{"below the middle", cutting{toGo: -0.01, past: 0.01, u: 0.003}, false, 0, 0, 0, false, false},
		{"past the limit", cutting{toGo: -0.03, past: -0.01, u: 0.003}, false, 0, 0, 0, true, false},
		{"thinner than a tool cuts, and safe", cutting{toGo: 0.01, past: 0.03, u: 0.003}, false, 0.01, 0.02, 1, false, false},
		{"read too coarsely", cutting{toGo: 0.03, past: 0.04, u: 0.02}, false, 0.03, 0, 0, false, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got Take
			got.plan(&c.c, c.conforms)
			if math.Abs(got.Off-c.off) > 1e-12 || math.Abs(got.Now-c.now) > 1e-12 || got.Cuts != c.cuts || got.Gone != c.gone || (got.Mind != "") != c.mind {
				t.Errorf("got %+v", got)
			}
			if got.Past > risk {
				t.Errorf("the next cut goes past the limit with a chance of %g", got.Past)
			}
		})
	}
}

// parts is how many parts are cut.
const parts = 10_000

// TestNeverPastTheLimit cuts 10,000 parts as advised: past the limit no more often
// than promised (99.9 % bound of a binomial count), each read by an instrument
// whose zero is off the same way every time, cut by a tool that springs and a dial
// that is set to half a division. How many cuts it takes is logged.
func TestNeverPastTheLimit(t *testing.T) {
	for _, c := range []struct {
		name                     string
		tolerance, start, u, dia float64
	}{
		{"close, by a micrometer", 0.04, 0.4, 0.004, 0.02},
		{"close, by a coarse dial", 0.04, 0.4, 0.004, 0.1},
		{"wide, by a caliper", 0.2, 2, 0.015, 0.04},
		{"without a dial known", 0.05, 0.5, 0.005, 0},
		{"too close for the instrument", 0.02, 0.4, 0.006, 0.02},
	} {
		t.Run(c.name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(8, 3))
			past, cuts, done, stuck := 0, 0, 0, 0
			for range parts {
				end, n, right := turn(random, c.tolerance, c.start*(1+random.Float64()), c.u, c.dia)
				cuts += n
				switch {
				case end < -c.tolerance/2:
					past++
				case right:
					done++
				default:
					stuck++
				}
			}
			t.Logf("%d past the limit, %d conforming, %d left to a file or a closer reading; %.2f cuts on average", past, done, stuck, float64(cuts)/parts)
			if most := risk*parts + 3.09*math.Sqrt(risk*(1-risk)*parts); float64(past) > most {
				t.Errorf("%d of %d are past the limit, promised %g", past, parts, risk*parts)
			}
		})
	}
}

// turn cuts one part as advised, from so much above its target, and returns where
// it ends, after how many cuts, and whether it is said to be right.
func turn(random *rand.Rand, tolerance, at, u, division float64) (end float64, cuts int, right bool) {
	limits := Limits{-tolerance / 2, tolerance / 2}
	zero := u / math.Sqrt2 * random.NormFloat64()
	for ; cuts < mostCuts; cuts++ {
		saw := at + zero + u/math.Sqrt2*random.NormFloat64()
		conforms := limits.Decide(saw, u, Proven) == Conforming
		var take Take
		take.plan(&cutting{toGo: saw, past: saw - limits.Low, u: u, step: division}, conforms)
		if take.Now == 0 {
			return at, cuts, conforms
		}
		at -= take.Now*(1+spring*random.NormFloat64()) + division*(random.Float64()-0.5)
	}
	return at, cuts, false
}
