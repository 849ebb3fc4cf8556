package inspect

import "math"

// Proven is how likely something must be to be proved: the default of ISO
// 14253-1:2017, 95 %.
const Proven = 0.95

// Limits are what a size must lie between; of one that is not limited to a side
// that side is infinite.
type Limits struct {
	Low, High float64
}

// Width returns the tolerance.
func (l Limits) Width() float64 { return l.High - l.Low }

// Chance returns the probability that a size found as y, normal with standard
// uncertainty u, lies within the limits (JCGM 106:2012, 7):
//
//	p = Φ((High - y)/u) - Φ((Low - y)/u)
//
// Nothing is assumed of what the shop usually makes. With u = 0 it is 0 or 1.
func (l Limits) Chance(y, u float64) float64 {
	if u == 0 {
		if l.Low <= y && y <= l.High {
			return 1
		}
		return 0
	}
	return normal((l.High-y)/u) - normal((l.Low-y)/u)
}

// Saying is what a reading says of a size.
type Saying string

// The sayings.
const (
	Conforming    Saying = "conforming"
	NotConforming Saying = "not conforming"
	CannotTell    Saying = "cannot tell"
	NoVerdict     Saying = "no verdict"
)

// Decide says what a size found as y with standard uncertainty u is, with this
// probability: that of Proven, or Φ(2) = 97.7 % for a guard band of 2u.
func (l Limits) Decide(y, u, proven float64) Saying {
	switch p := l.Chance(y, u); {
	case math.IsNaN(p):
		return NoVerdict
	case p >= proven:
		return Conforming
	case p <= 1-proven:
		return NotConforming
	}
	return CannotTell
}

// Within returns the limits for what is read, so that all between them is
// conforming: narrower by a guard band on each side, which is Guard(proven)·u
// where u is small beside the tolerance. It returns false where the uncertainty
// leaves nothing.
func (l Limits) Within(u, proven float64) (Limits, bool) {
	middle := (l.Low + l.High) / 2
	if math.IsInf(middle, 0) || math.IsNaN(middle) {
		band := Guard(proven) * u
		return Limits{l.Low + band, l.High - band}, true
	}
	if l.Chance(middle, u) < proven {
		return Limits{}, false
	}
	in, out := middle, l.High
	for range 60 { // halvings: to the last bit
		y := (in + out) / 2
		if l.Chance(y, u) >= proven {
			in = y
		} else {
			out = y
		}
	}
	return Limits{2*middle - in, in}, true
}

// Guard returns the guard band at one limit in standard uncertainties: 1.645 for
// 95 %.
func Guard(proven float64) float64 { return math.Sqrt2 * math.Erfinv(2*proven-1) }

// normal returns Φ(x).
func normal(x float64) float64 { return math.Erfc(-x/math.Sqrt2) / 2 }
