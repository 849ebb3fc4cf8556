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

	// Cofactors is n × n: the covariance of X where every σ is a true standard
	// deviation. Where the rank is short it is a generalised inverse, true for
	// every function of the unknowns that the observations determine.
	Cofactors *mat.SymDense

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
	rows       []Row     // gradients of the misfits
}

const (
	noRedundancy = 1e-9
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
	return math.Max(-1, math.Min(1, -quadratic(&s.rows[i], s.Cofactors, &s.rows[j])/spread))
}

// Influence returns for each observation how far unknown j moves when what was
// observed is one σ more: (Cofactors·Aᵀ·W)·σ. For an unknown that is determined the squares add up to its
// cofactor.
func (s *Solution) Influence(j int) []float64 {
	cofactors := make([]float64, len(s.X))
	for c := range cofactors {
		cofactors[c] = s.Cofactors.At(j, c)
	}
	moved := make([]float64, len(s.rows))
	for i := range s.rows {
		moved[i] = s.rows[i].times(cofactors)
	}
	return moved
}

// newSolution fills in what follows from the place where a search ended.
func newSolution(p *Problem, at *place) *Solution {
	s := &Solution{
		X: at.x, Chi2: at.chi2, misfits: at.misfits, rows: at.rows,
		Misclosures: make([]float64, len(at.rows)),
		Redundancy:  make([]float64, len(at.rows)),
		sigma:       make([]float64, len(at.rows)),
		determined:  make([]bool, len(at.x)),
		Cofactors:   &mat.SymDense{},
	}
	for i, o := range p.Observations {
		s.sigma[i] = o.Sigma
		s.Misclosures[i] = at.misfits[i] * o.Sigma
	}
	return s
}

// checked returns a redundancy number freed of rounding.
func checked(r float64) float64 {
	if r < noRedundancy {
		return 0
	}
	return math.Min(r, 1)
}

// quadratic returns a·m·bᵀ.
func quadratic(a *Row, m *mat.SymDense, b *Row) float64 {
	sum := 0.0
	for i, c := range a.Columns {
		for k, d := range b.Columns {
			sum += a.Values[i] * m.At(c, d) * b.Values[k]
		}
	}
	return sum
}
