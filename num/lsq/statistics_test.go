package lsq

import (
	"math"
	"math/rand/v2"
	"testing"
)

// simulated is a linear problem of three unknowns and eight readings, one of
// them checked by little, with one exact constraint.
type simulated struct {
	problem Problem
	truth   []float64
}

func newSimulated() *simulated {
	s := &simulated{truth: []float64{12, 30, 18}} // keeps the constraint x1 - x0 = x2
	for i, row := range [][3]float64{
		{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {1, 1, 0}, {0, 1, -1}, {2, 0, 1}, {1, 1, 1}, {0, 30, 0},
	} {
		e := &linear{}
		for c, v := range row {
			e.row.Add(c, v)
		}
		s.problem.Observations = append(s.problem.Observations, Observation{e, 0.01 * float64(1+i%3)})
	}
	tie := &linear{}
	for c, v := range []float64{-1, 1, -1} {
		tie.row.Add(c, v)
	}
	s.problem.Constraints = []Equation{tie}
	s.problem.Start = make([]float64, 3)
	return s
}

// read sets the readings to the truth with errors, in σ, from the source.
func (s *simulated) read(errors func(i int) float64) {
	for i, o := range s.problem.Observations {
		e := o.Equation.(*linear)
		e.less = e.row.times(s.truth) + o.Sigma*errors(i)
	}
}

// TestChi2IsThatOfItsDof simulates: the mean of chi2 is the degrees of freedom,
// each normalised misclosure has variance 1, and x scatters as its cofactor
// says. Bounds are 4 standard errors.
func TestChi2IsThatOfItsDof(t *testing.T) {
	const runs = 4000
	r := rand.New(rand.NewPCG(11, 4))
	s := newSimulated()
	var v *Solution
	chi2, spread := 0.0, 0.0
	squares := make([]float64, len(s.problem.Observations))
	for range runs {
		s.read(func(int) float64 { return r.NormFloat64() })
		v = mustSolve(t, s.problem)
		chi2 += v.Chi2 / runs
		spread += (v.X[0] - s.truth[0]) * (v.X[0] - s.truth[0]) / v.Cofactor(0, 0) / runs
		for i := range squares {
			squares[i] += v.Normalised(i) * v.Normalised(i) / runs
		}
	}
	if v.Dof != 6 { // 8 readings, 3 unknowns, 1 constraint
		t.Fatalf("dof %d, want 6", v.Dof)
	}
	near(t, "mean of chi2", chi2, 6, 4*math.Sqrt(2*6.0/runs))
	near(t, "variance of x over its cofactor", spread, 1, 4*math.Sqrt(2.0/runs))
	for _, square := range squares {
		near(t, "variance of a normalised misclosure", square, 1, 4*math.Sqrt(2.0/runs))
	}
}

// TestSmallestCatchable: the factor is z(0.9995) + z(0.8) = 3.29053 + 0.84162
// (normal quantiles, from memory), and simulated blunders of that size are
// found four times in five. The bound is 4 standard errors.
func TestSmallestCatchable(t *testing.T) {
	const runs, blundered = 4000, 3
	r := rand.New(rand.NewPCG(12, 5))
	s := newSimulated()
	found := 0
	for range runs {
		v := mustSolve(t, s.problem)
		sigma, share := s.problem.Observations[blundered].Sigma, v.Redundancy[blundered]
		size := v.SmallestCatchable(blundered, 0.001, 0.8)
		near(t, "smallest catchable", size, 4.13215*sigma/math.Sqrt(share), 1e-5*size)
		s.read(func(i int) float64 {
			if i == blundered {
				return r.NormFloat64() + size/sigma
			}
			return r.NormFloat64()
		})
		if math.Abs(mustSolve(t, s.problem).Normalised(blundered)) > 3.29053 {
			found++
		}
	}
	near(t, "power", float64(found)/runs, 0.8, 4*math.Sqrt(0.8*0.2/runs))
}

// TestResponse moves each reading by one σ and looks at what moves: by the
// redundancy, the test correlations and the influence it should.
func TestResponse(t *testing.T) {
	s := newSimulated()
	s.read(func(int) float64 { return 0 })
	before := mustSolve(t, s.problem)
	for k := range s.problem.Observations {
		s.read(func(i int) float64 {
			if i == k {
				return 1
			}
			return 0
		})
		after := mustSolve(t, s.problem)
		for i, o := range s.problem.Observations {
			moved := -(after.Misclosures[i] - before.Misclosures[i]) / o.Sigma
			want := before.TestCorrelation(i, k) * math.Sqrt(before.Redundancy[i]*before.Redundancy[k])
			near(t, "response of a misclosure", moved, want, 1e-9)
		}
		for j := range s.truth {
			near(t, "influence", after.X[j]-before.X[j], before.Influence(j)[k], 1e-12)
			near(t, "influence of one", after.X[j]-before.X[j], before.InfluenceOf(k, j), 1e-12)
		}
	}
	for j := range s.truth {
		sum := 0.0
		for _, v := range before.Influence(j) {
			sum += v * v
		}
		near(t, "sum of squared influence", sum, before.Cofactor(j, j), 1e-12*sum)
	}
}

// TestUncheckedObservation: what is read once is believed.
func TestUncheckedObservation(t *testing.T) {
	s := mustSolve(t, Problem{make([]float64, 2), seen(0.1, sumOf(5, 0), sumOf(5.3, 0), sumOf(7, 1)), nil})
	if s.Redundancy[2] != 0 || s.Normalised(2) != 0 || !math.IsInf(s.SmallestCatchable(2, 0.001, 0.8), 1) {
		t.Errorf("redundancy %g, normalised %g of a reading that nothing checks", s.Redundancy[2], s.Normalised(2))
	}
	if c := s.TestCorrelation(0, 2); c != 0 {
		t.Errorf("correlation with it %g, want 0", c)
	}
	// Constructed: two readings of one size check each other alone.
	near(t, "correlation of two readings of one size", s.TestCorrelation(0, 1), -1, 1e-12)
	near(t, "normalised", s.Normalised(0), 0.15/(0.1*math.Sqrt(0.5)), 1e-12)
	near(t, "chi2", s.Chi2, 4.5, 1e-12)
	near(t, "s²", s.S2(), 4.5, 1e-12)
	near(t, "P", s.P(), 0.033894853524689, 1e-14) // python3-scipy: scipy.stats.chi2.sf(4.5, 1)
}

func TestWithoutDof(t *testing.T) {
	s := mustSolve(t, Problem{make([]float64, 1), seen(0.1, sumOf(5, 0)), nil})
	if s.Dof != 0 || s.P() != 1 || !math.IsNaN(s.S2()) {
		t.Errorf("dof %d, P %g, s² %g", s.Dof, s.P(), s.S2())
	}
}

func TestBadSigmaPanics(t *testing.T) {
	for _, sigma := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("σ = %g is accepted", sigma)
				}
			}()
			_, _ = Solve(Problem{make([]float64, 1), seen(sigma, sumOf(5, 0)), nil})
		}()
	}
}
