// Package series finds what a thread, a gear or a taper was meant to be: the
// member of a standard or customary series that its readings came from.
//
// Each candidate's probability is its prior, from the machine's country and
// year, times the likelihood of all the readings together. A worn or loosely
// made surface is the basic size plus the maker's error less what it has lost:
// a normal and a half-normal, as for single sizes. Shares, scales and
// tolerances of this package are our choice, common practice without a source,
// where no source is named. Every answer says which reading would settle it.
package series

import (
	"cmp"
	"math"
	"slices"
)

// Measured is a size as it was found: its value and standard uncertainty, in mm
// or rad. The zero Measured is a size that was not taken.
type Measured struct {
	Value, U float64
}

// Given reports whether the size was taken.
func (m Measured) Given() bool { return m != Measured{} }

// Mean returns the mean of several findings of one size, weighted by their
// uncertainties, and by how many of their standard deviations the two farthest
// apart differ. Findings that are not given do not count.
func Mean(list ...Measured) (mean Measured, apart float64) {
	var weights, sum float64
	for i, m := range list {
		if !m.Given() {
			continue
		}
		w := 1 / (m.U * m.U)
		weights, sum = weights+w, sum+w*m.Value
		for _, other := range list[:i] {
			if other.Given() {
				apart = max(apart, math.Abs(m.Value-other.Value)/math.Hypot(m.U, other.U))
			}
		}
	}
	if weights == 0 {
		return Measured{}, 0
	}
	return Measured{Value: sum / weights, U: 1 / math.Sqrt(weights)}, apart
}

// settledOdds is how far a leader must be ahead for the matter to be settled.
const settledOdds = 20

// faintest is the smallest probability worth showing.
const faintest = 0.001

// probable turns logarithms of unnormalised probabilities into probabilities.
func probable(logs []float64) []float64 {
	most := slices.Max(logs)
	sum := 0.0
	list := make([]float64, len(logs))
	for i, l := range logs {
		list[i] = math.Exp(l - most)
		sum += list[i]
	}
	for i := range list {
		list[i] /= sum
	}
	return list
}

// likeliest drops faint candidates, but never the likeliest, and sorts the rest
// by falling probability.
func likeliest[T any](list []T, p func(*T) float64) []T {
	most := 0.0
	for i := range list {
		most = max(most, p(&list[i]))
	}
	list = slices.DeleteFunc(list, func(t T) bool { return p(&t) < min(faintest, most) })
	slices.SortStableFunc(list, func(a, b T) int { return cmp.Compare(p(&b), p(&a)) })
	return list
}

// logNormal is the logarithm of the normal density at d.
func logNormal(d, sigma float64) float64 {
	z := d / sigma
	return -z*z/2 - math.Log(sigma*math.Sqrt(2*math.Pi))
}

// logSum is the logarithm of the sum of two numbers given by theirs.
func logSum(a, b float64) float64 {
	return max(a, b) + math.Log1p(math.Exp(-math.Abs(a-b)))
}

// logPhi is the logarithm of the normal distribution function. Far below zero,
// where the function itself would vanish, it is Mills' ratio to two terms.
func logPhi(z float64) float64 {
	if z > -20 {
		return math.Log(math.Erfc(-z/math.Sqrt2) / 2)
	}
	return logNormal(z, 1) - math.Log(-z) - 1/(z*z)
}
