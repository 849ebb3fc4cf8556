package fit

import "math"

// spread is how a clearance scatters about its mean: the sum of a normal part
// of standard deviation u and a rectangular one ±t.
type spread struct{ u, t float64 }

// narrow is the ratio t/u under which the rectangle counts by its variance
// alone: the series then leaves out (t/u)⁴/120.
const narrow = 1e-4

// below returns the chance of lying less than x above the mean, exactly:
//
//	F(x) = (G(x+t) - G(x-t)) / 2t,  G(y) = y·Φ(y/u) + u·φ(y/u)
//
// being the normal distribution function averaged over the rectangle. A
// clearance without any spread lies below x only where x > 0.
func (s spread) below(x float64) float64 {
	switch {
	case x > 0:
		return 1 - s.below(-x)
	case s.u == 0 && s.t == 0:
		return 0
	case s.u == 0:
		return max(0, (x+s.t)/(2*s.t))
	case s.t < narrow*s.u:
		z, ratio := x/s.u, s.t/s.u
		return phi(z) - z*density(z)*ratio*ratio/6
	}
	return max(0, (s.integral(x+s.t)-s.integral(x-s.t))/(2*s.t))
}

// integral is G, the integral of Φ(y/u).
func (s spread) integral(y float64) float64 {
	z := y / s.u
	return y*phi(z) + s.u*density(z)
}

// phi is the normal distribution function.
func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// farthest is beyond how many standard deviations of the normal part nothing
// is looked for: the chance there is under 1e-300.
const farthest = 38

// at returns x with below(x) = p, 0 < p < 1, by halving the range in which it
// lies until that has no width left.
func (s spread) at(p float64) float64 {
	high := s.t + farthest*s.u
	low := -high
	for {
		middle := low + (high-low)/2
		if !(low < middle && middle < high) {
			return middle
		}
		if s.below(middle) < p {
			low = middle
		} else {
			high = middle
		}
	}
}

// deviation is the standard deviation, √(u² + t²/3).
func (s spread) deviation() float64 { return math.Hypot(s.u, s.t/math.Sqrt(3)) }
