package meant

import "math"

// scatter is how far a size found may lie from what was meant: y = s·(n - x),
// what the surface seems to have lost, is wear plus a normal error of making and
// reading.
type scatter struct {
	variance float64 // of making and reading, mm²
	wear     float64 // scale of the half-normal, mm
	side     float64 // 1 outside, -1 inside, 0 for no wear
}

// finest keeps a size that is exact and exactly made from being impossible.
const finest = 1e-6 // mm

// newScatter takes an error of reading and of making, both standard deviations.
func newScatter(u, making, wear, side float64) scatter {
	if wear == 0 || side == 0 {
		wear, side = 0, 0
	}
	return scatter{variance: max(u*u+making*making, finest*finest), wear: wear, side: side}
}

// density returns the density, per mm, of finding x where n was meant, d = n - x.
// The sum of a normal and a half-normal has a skew normal density
// 2/τ·φ(y/τ)·Φ(σ·y/(√v·τ)), τ² = v + σ² (A. Azzalini, Scand. J. Statist. 12
// (1985) 171, from memory).
func (s scatter) density(d float64) float64 {
	total := s.variance + s.wear*s.wear
	normal := math.Exp(-d*d/(2*total)) / math.Sqrt(2*math.Pi*total)
	if s.wear == 0 {
		return normal
	}
	return 2 * normal * cumulative(s.side*d*s.wear/math.Sqrt(s.variance*total))
}

// worn returns the mean of the wear where n was meant, d = n - x: that of a
// normal cut off at 0.
func (s scatter) worn(d float64) float64 {
	if s.wear == 0 {
		return 0
	}
	total := s.variance + s.wear*s.wear
	mean := s.side * d * s.wear * s.wear / total
	sigma := math.Sqrt(s.variance*s.wear*s.wear) / math.Sqrt(total)
	z := mean / sigma
	if z < -30 { // z + φ/Φ by its asymptotic series
		return sigma * (-1 / z) * (1 - 2/(z*z))
	}
	return mean + sigma*math.Exp(-z*z/2)/math.Sqrt(2*math.Pi)/cumulative(z)
}

// beyond returns how many standard deviations d = n - x is beyond what the
// scatter explains: wear explains a loss, not a gain.
func (s scatter) beyond(d float64) float64 {
	loss := s.side * d
	if s.wear > 0 && loss > 0 {
		return loss / math.Sqrt(s.variance+s.wear*s.wear)
	}
	return math.Abs(d) / math.Sqrt(s.variance)
}

// reach returns how far below and above x what was meant can lie.
func (s scatter) reach() (below, above float64) {
	const far = 6 // standard deviations
	below = far * math.Sqrt(s.variance)
	above = below
	if s.side > 0 {
		above += far * s.wear
	} else if s.side < 0 {
		below += far * s.wear
	}
	return below, above
}

// cumulative is the normal distribution function.
func cumulative(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// nearest returns a length in whole nanometres.
func nearest(mm float64) int64 { return int64(math.Round(mm * nanometres)) }
