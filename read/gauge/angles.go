package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/grad"
)

// cot returns the cotangent of a in radians.
func cot(a grad.Number) grad.Number { return grad.Const(1).Div(a.Tan()) }

// csc returns 1/sin a, a in radians.
func csc(a grad.Number) grad.Number { return grad.Const(1).Div(a.Sin()) }

// involute returns inv a = tan a - a, a in radians.
func involute(a grad.Number) grad.Number { return a.Tan().Sub(a) }

// involuteAngle returns the angle φ in (0, π/2) with inv φ = y, NaN for
// y <= 0. Its derivative follows from d(inv φ) = tan²φ dφ.
func involuteAngle(y grad.Number) grad.Number {
	phi := invertInvolute(y.X)
	r := y.Times(1 / math.Pow(math.Tan(phi), 2))
	r.X = phi
	return r
}

// invertInvolute is Newton's iteration. The function is convex and both start
// values lie right of the root (inv φ >= φ³/3, and inv φ > tan φ - π/2), so the
// iteration falls steadily until rounding stops it.
func invertInvolute(y float64) float64 {
	if !(y > 0) {
		return math.NaN()
	}
	phi := min(math.Cbrt(3*y), math.Atan(y+math.Pi/2))
	for {
		t := math.Tan(phi)
		next := phi - (t-phi-y)/(t*t)
		if !(next < phi) {
			return phi
		}
		phi = next
	}
}
