package series

import "math"

// surface is one diameter that was measured, with what may have happened to it
// since it was drawn: seen = basic + making - sense·loss + error.
type surface struct {
	seen  Measured
	sense float64 // 1 where loss makes it smaller, -1 where it makes it larger
	make  float64 // standard deviation of the maker's error, mm
	scale float64 // of the half-normal loss, mm
	heavy float64 // the same of a surface that is worn heavily
}

// heavyShare is how many surfaces are worn heavily.
const heavyShare = 0.1

// logLikelihood returns the logarithm of the density of what was seen, if this
// is the basic size.
func (s surface) logLikelihood(basic float64) float64 {
	return logSum(s.mixed(basic))
}

// mixed returns the logarithms of the densities of usual and of heavy loss, each
// with its share.
func (s surface) mixed(basic float64) (light, heavy float64) {
	return math.Log(1-heavyShare) + s.halfNormal(basic, s.scale), math.Log(heavyShare) + s.halfNormal(basic, s.heavy)
}

// halfNormal is the logarithm of the density of a normal error with a
// half-normal loss of this scale taken from it: with τ² = σ² + s² and d = seen
// - basic it is 2/τ·φ(d/τ)·Φ(-sense·d·s/(σ·τ)).
func (s surface) halfNormal(basic, scale float64) float64 {
	sigma := math.Hypot(s.seen.U, s.make)
	tau := math.Hypot(sigma, scale)
	d := s.seen.Value - basic
	return math.Ln2 + logNormal(d, tau) + logPhi(-s.sense*d*scale/(sigma*tau))
}

// loss returns the mean of the loss, if this is the basic size: never negative.
func (s surface) loss(basic float64) float64 {
	light, heavy := s.mixed(basic)
	p := probable([]float64{light, heavy})
	return p[0]*s.lossOf(basic, s.scale) + p[1]*s.lossOf(basic, s.heavy)
}

// lossOf is the mean of the normal N(-sense·d·s²/τ², σ²·s²/τ²) cut off below 0.
func (s surface) lossOf(basic, scale float64) float64 {
	sigma := math.Hypot(s.seen.U, s.make)
	tau := math.Hypot(sigma, scale)
	if scale == 0 {
		return 0
	}
	middle := -s.sense * (s.seen.Value - basic) * (scale / tau) * (scale / tau)
	spread := sigma * scale / tau
	z := middle / spread
	return max(0, middle+spread*math.Exp(logNormal(z, 1)-logPhi(z)))
}

// beyond returns by how many standard deviations of error and making the
// reading lies on the side of the basic size to which no loss leads.
func (s surface) beyond(basic float64) float64 {
	return max(0, s.sense*(s.seen.Value-basic)/math.Hypot(s.seen.U, s.make))
}
