package meant

import (
	"math"
)

// Quantum is a second opinion, which knows nothing of systems or priors: of the
// steps tried, the one whose whole multiples the sizes lie nearest to.
type Quantum struct {
	Step     string
	Sizes    int     // how many were fine enough to tell
	Phi      float64 // Kendall's statistic
	Lumped   float64 // Broadbent's criterion, in its standard deviations
	Chance   float64 // of a Phi as large among the steps tried, were the sizes random
	InInches bool
}

// quantum statistics need this many sizes to be worth showing.
const fewestSizes = 4

// quanta are the steps tried, in nanometres.
var quanta = []struct {
	n        int64
	inInches bool
}{
	{inch / 4, true},
	{inch / 8, true},
	{inch / 16, true},
	{inch / 32, true},
	{inch / 64, true},
	{inch / 20, true},
	{5 * millimetre, false},
	{millimetre, false},
	{millimetre / 2, false},
}

// quantum returns the step with the largest Kendall statistic.
func (j *job) quantum() *Quantum {
	var best *Quantum
	for _, step := range quanta {
		q := float64(step.n) / nanometres
		x := j.fineEnough(q)
		if len(x) < fewestSizes {
			continue
		}
		phi := quantogram(x, q)
		if best == nil || phi > best.Phi {
			best = &Quantum{
				Step: lengthText(step.n, step.inInches), Sizes: len(x), Phi: phi, Lumped: lumped(x, q) / lumpedSigma,
				InInches: step.inInches,
			}
		}
	}
	if best != nil {
		best.Chance = 1 - math.Pow(cumulative(best.Phi), float64(len(quanta)))
	}
	return best
}

// fineEnough returns the sizes known well enough to tell multiples of q, as they
// were before they wore, on average.
func (j *job) fineEnough(q float64) []float64 {
	var list []float64
	for _, a := range j.asked {
		if math.Sqrt(a.scatter.variance+a.scatter.wear*a.scatter.wear) < q/4 {
			list = append(list, a.x+a.scatter.side*a.scatter.wear*math.Sqrt(2/math.Pi))
		}
	}
	return list
}

// quantogram returns Kendall's statistic φ(q) = √(2/N)·Σ cos(2π·x/q) for the
// quantum q: nearly N(0, 1) for sizes that are random, about √(2N) for whole
// multiples (D. G. Kendall, Phil. Trans. R. Soc. A 276 (1974) 231).
func quantogram(x []float64, q float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += math.Cos(2 * math.Pi * v / q)
	}
	return math.Sqrt(2/float64(len(x))) * sum
}

// lumpedSigma is the standard deviation of Broadbent's criterion for random sizes.
var lumpedSigma = math.Sqrt(4.0 / 45)

// lumped returns Broadbent's criterion √n·(1/3 - s²/d²) for a quantum 2d known
// beforehand, s² the mean square of what is left over from whole multiples: 0 on
// average for sizes that are random, large for whole multiples (S. R. Broadbent,
// Biometrika 42 (1955) 45, from memory).
func lumped(x []float64, q float64) float64 {
	sum := 0.0
	for _, v := range x {
		rest := math.Remainder(v, q)
		sum += rest * rest
	}
	n := float64(len(x))
	return math.Sqrt(n) * (1.0/3 - sum/n/(q*q/4))
}
