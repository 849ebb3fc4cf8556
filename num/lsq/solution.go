package lsq

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Solution is the answer to a Problem of n unknowns.
type Solution struct {
	X           []float64
	Misclosures []float64 // g_i at X, in the units of the observations

	// Redundancy holds for each observation the share, 0 to 1, of an error in
	// it that shows in its own misclosure. Below 1e-9 it is 0: nothing checks
	// that observation. The sum is Dof.
	Redundancy []float64

	Chi2 float64 // Σ (g_i/σ_i)²
	Dof  int     // observations less Rank

	// Rank is that of the weighted Jacobian among the steps that keep the
	// constraints, a diagonal element of its pivoted orthogonal factor counting
	// where it is over 1e-10 of the largest (or of 1, the norm of the scaled
	// columns, where that is more); Defect is how many such steps no
	// observation sees, and the columns of Null (n × Defect, nil without a
	// defect) are these steps, at right angles to each other when each unknown
	// is divided by its scale.
	Rank, Defect int
	Null         *mat.Dense

	// Condition is the condition number (estimated, 1-norm) of that Jacobian,
	// columns scaled, within its rank: from about 1e6 on, some unknown is all
	// but undetermined.
	Condition float64

	Iterations int
	Converged  bool // false: X is the best that was found, not a minimum

	determined []bool
	sigma      []float64
	misfits    []float64 // g_i/σ_i

	// With Q·R the orthogonal factors of the weighted Jacobian: of each
	// observation its row of Q, and of each unknown its row of the matrix F that
	// makes FFᵀ the cofactors. Few of the places are not 0.
	seen, moved []sparse
	places      int
	work        int // multiplications that were needed, counted roughly
}

const (
	noRedundancy = 1e-9
	roundings    = 64   // ulp of the condition that a redundancy number may be off
	nullShare    = 1e-6 // in a null direction of length 1, scaled
)

// Determined reports whether unknown j can be found: whether it stays put
// along every null direction.
func (s *Solution) Determined(j int) bool { return s.determined[j] }

// Estimable reports whether a function with this gradient at X can be found:
// whether it keeps its value along the null directions, as judged beside the
// steps that these make of the gradient's own unknowns.
func (s *Solution) Estimable(gradient *Row) bool {
	change, size := 0.0, 0.0
	for k := range s.Defect {
		sum := 0.0
		for i, c := range gradient.Columns {
			if s.determined[c] {
				continue
			}
			step := gradient.Values[i] * s.Null.At(c, k)
			sum += step
			size = math.Hypot(size, step)
		}
		change = math.Hypot(change, sum)
	}
	return change <= nullShare*size
}

// S2 returns Chi2/Dof, the factor by which the scatter of the observations
// differs from σ². It is NaN without degrees of freedom.
func (s *Solution) S2() float64 {
	if s.Dof == 0 {
		return math.NaN()
	}
	return s.Chi2 / float64(s.Dof)
}

// P returns the probability of a Chi2 as large as this or larger, the σ being
// true and the errors normal; 1 without degrees of freedom.
func (s *Solution) P() float64 {
	if s.Dof == 0 {
		return 1
	}
	return distuv.ChiSquared{K: float64(s.Dof)}.Survival(s.Chi2)
}

// Normalised returns the misclosure of observation i over its own standard
// deviation, g/(σ√r): Baarda's w, with the sign of the misclosure. It is 0
// where nothing checks the observation.
func (s *Solution) Normalised(i int) float64 {
	if s.Redundancy[i] == 0 {
		return 0
	}
	return s.misfits[i] / math.Sqrt(s.Redundancy[i])
}

// SmallestCatchable returns the smallest error of observation i, in its own
// units, that the two-sided test of its normalised misclosure at level alpha
// finds with the given power: σ(z(1-alpha/2) + z(power))/√r, infinite where
// nothing checks the observation. (Baarda, A Testing Procedure for Use in
// Geodetic Networks, 1968; the far tail is neglected.)
func (s *Solution) SmallestCatchable(i int, alpha, power float64) float64 {
	if s.Redundancy[i] == 0 {
		return math.Inf(1)
	}
	z := distuv.UnitNormal.Quantile(1-alpha/2) + distuv.UnitNormal.Quantile(power)
	return z * s.sigma[i] / math.Sqrt(s.Redundancy[i])
}

// TestCorrelation returns the correlation of the normalised misclosures of
// observations i and j: near ±1 an error in one cannot be told from an error
// in the other. It is 0 where nothing checks one of them.
func (s *Solution) TestCorrelation(i, j int) float64 {
	switch {
	case s.Redundancy[i] == 0 || s.Redundancy[j] == 0:
		return 0
	case i == j:
		return 1
	}
	spread := math.Sqrt(s.Redundancy[i] * s.Redundancy[j])
	return math.Max(-1, math.Min(1, -s.seen[i].dot(s.seen[j])/spread))
}

// Shared returns Σ ρ_kl·√(r_k·r_l) over the observations k of one list and l of
// another, with ρ their TestCorrelation and r their redundancy: how an error that
// all of the one share shows in the misclosures of the other. No observation
// stands twice in a list.
func (s *Solution) Shared(a, b []int) float64 {
	const few = 16 // pairs, which are not worth writing vectors out for
	if len(a)*len(b) <= few {
		return s.sharedByPairs(a, b)
	}
	sum := 0.0
	full := make([]float64, s.places)
	in := make(map[int]bool, len(a))
	for _, k := range a {
		if s.Redundancy[k] > 0 {
			s.seen[k].addTo(full, 1)
			in[k] = true
		}
	}
	for _, l := range b {
		if s.Redundancy[l] == 0 {
			continue
		}
		sum -= s.seen[l].times(full)
		if in[l] {
			sum += s.Redundancy[l] + s.seen[l].square()
		}
	}
	return sum
}

func (s *Solution) sharedByPairs(a, b []int) float64 {
	sum := 0.0
	for _, k := range a {
		for _, l := range b {
			switch {
			case k == l:
				sum += s.Redundancy[k]
			case s.Redundancy[k] > 0 && s.Redundancy[l] > 0:
				sum -= s.seen[k].dot(s.seen[l])
			}
		}
	}
	return sum
}

// Cofactor returns the covariance of unknowns i and j where every σ is a true
// standard deviation. Where the rank is short it is that of a generalised
// inverse, true for every function of the unknowns that the observations
// determine.
func (s *Solution) Cofactor(i, j int) float64 { return s.moved[i].dot(s.moved[j]) }

// Image is a function of the unknowns, to first order at X, as what it takes from
// the observations: few numbers, from which its covariances follow.
type Image struct{ sparse }

// Image returns the image of a function with this gradient at X.
func (s *Solution) Image(gradient *Row) Image {
	var sum sparse
	for i, c := range gradient.Columns {
		sum = sum.plus(s.moved[c], gradient.Values[i])
	}
	return Image{sum}
}

// Variance returns the cofactor of the function.
func (m Image) Variance() float64 { return m.square() }

// CovarianceWith returns the cofactor of unknown j with a function.
func (s *Solution) CovarianceWith(j int, m Image) float64 { return s.moved[j].dot(m.sparse) }

// ShownIn returns the covariance of what the unknowns imply observation i should
// be, in its σ, with a function: one figure of Shown.
func (s *Solution) ShownIn(i int, m Image) float64 { return s.seen[i].dot(m.sparse) }

// Apply sets into to the cofactors times v, a value of each unknown. Space holds
// what is worked with in between, Rank long or more.
func (s *Solution) Apply(v, into, space []float64) {
	full := space[:s.places]
	clear(full)
	for j, x := range v {
		if x != 0 {
			s.moved[j].addTo(full, x)
		}
	}
	for j := range into {
		into[j] = s.moved[j].times(full)
	}
}

// Shown returns for each observation the covariance of what the unknowns imply it
// should be, in its σ, with a function of this gradient at X.
func (s *Solution) Shown(gradient *Row) []float64 { return s.follow(s.seen, gradient) }

func (s *Solution) follow(list []sparse, gradient *Row) []float64 {
	full := make([]float64, s.places)
	for i, c := range gradient.Columns {
		s.moved[c].addTo(full, gradient.Values[i])
	}
	out := make([]float64, len(list))
	for k, v := range list {
		out[k] = v.times(full)
	}
	return out
}

// Influence returns for each observation how far unknown j moves when what was
// observed is one σ more. For an unknown that is determined the squares add up to
// its cofactor.
func (s *Solution) Influence(j int) []float64 {
	return s.Shown(&Row{Columns: []int{j}, Values: []float64{1}})
}

// InfluenceOf returns how far unknown j moves when observation i is one σ more: one
// figure of Influence.
func (s *Solution) InfluenceOf(i, j int) float64 { return s.seen[i].dot(s.moved[j]) }

// newSolution fills in what follows from the place where a search ended.
func newSolution(p *Problem, at *place) *Solution {
	s := &Solution{
		X: at.x, Chi2: at.chi2, misfits: at.misfits,
		Misclosures: make([]float64, len(at.rows)),
		Redundancy:  make([]float64, len(at.rows)),
		sigma:       make([]float64, len(at.rows)),
		determined:  make([]bool, len(at.x)),
		seen:        make([]sparse, len(at.rows)),
		moved:       make([]sparse, len(at.x)),
	}
	for i, o := range p.Observations {
		s.sigma[i] = o.Sigma
		s.Misclosures[i] = at.misfits[i] * o.Sigma
	}
	return s
}

// markRedundancy sets the redundancy numbers, 1 less what each observation has
// its own way, freed of rounding: that grows with the condition.
func (s *Solution) markRedundancy() {
	least := math.Max(noRedundancy, roundings*ulp*s.Condition)
	for i, seen := range s.seen {
		if r := 1 - seen.square(); r >= least {
			s.Redundancy[i] = math.Min(r, 1)
		}
	}
}
