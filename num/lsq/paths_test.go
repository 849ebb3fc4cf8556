package lsq

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/num/grad"
)

// bent is a sum of multiples of some unknowns, bent by a sine, less a constant.
type bent struct {
	linear
	bend, scale float64
}

func (e *bent) Eval(x []float64, row *Row) float64 {
	value := e.linear.Eval(x, row)
	first := e.row.Columns[0]
	row.Add(first, e.bend/e.scale*math.Cos(x[first]/e.scale))
	return value + e.bend*math.Sin(x[first]/e.scale)
}

// randomProblem has 2 to 14 unknowns of sizes 1e-2 to 1e3, up to 6 in a row,
// σ from 1e-4 to 1, and perhaps constraints; it starts a little off.
func randomProblem(r *rand.Rand) Problem {
	n := 2 + r.IntN(13)
	scale, truth := make([]float64, n), make([]float64, n)
	p := Problem{Start: make([]float64, n)}
	for j := range n {
		scale[j] = math.Pow(10, -2+5*r.Float64())
		truth[j] = scale[j] * (1 + r.Float64())
		p.Start[j] = truth[j] + 0.1*scale[j]*r.NormFloat64()
	}
	equation := func(error float64) Equation {
		e := &bent{bend: 0.1 * r.Float64()}
		for k, c := range r.Perm(n)[:1+r.IntN(min(6, n))] {
			e.row.Add(c, r.NormFloat64()/scale[c])
			if k == 0 {
				e.scale = scale[c]
			}
		}
		var row Row
		e.less = e.Eval(truth, &row) + error
		return e
	}
	for range n + 2 + r.IntN(3*n) {
		sigma := math.Pow(10, -4*r.Float64())
		p.Observations = append(p.Observations, Observation{equation(0.01 * sigma * r.NormFloat64()), sigma})
	}
	for range r.IntN(1 + n/2) {
		p.Constraints = append(p.Constraints, equation(0))
	}
	return p
}

// TestTwoPathsAgree solves random problems by orthogonal factors and by
// bordered normal equations.
func TestTwoPathsAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 26))
	compared := 0
	for round := range 300 {
		p := randomProblem(r)
		s, err := Solve(p)
		if err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		independent := s.Rank == len(p.Start)-len(p.Constraints)
		if !independent || s.Condition > 1e3 {
			continue
		}
		compared++
		other, err := SolveByNormals(p)
		if err != nil || !s.Converged || !other.Converged {
			t.Fatalf("round %d: %v, or not converged", round, err)
		}
		agree(t, s, other)
		if t.Failed() {
			t.Fatalf("round %d", round)
		}
	}
	if compared < 150 {
		t.Errorf("only %d problems were fit to compare", compared)
	}
}

// agree compares two solutions: unknowns to 1e-9 and cofactors to 1e-8, both
// relative, constraints held in both.
func agree(t *testing.T, s, other *Solution) {
	t.Helper()
	for i, x := range s.X {
		near(t, "unknown", other.X[i], x, 1e-9*math.Abs(x))
		for j := range s.X {
			size := math.Sqrt(s.Cofactor(i, i) * s.Cofactor(j, j))
			rounding := 1e-18 * math.Abs(x*s.X[j]) // of one that the constraints pin
			near(t, "cofactor", other.Cofactor(i, j), s.Cofactor(i, j), 1e-8*size+rounding)
		}
	}
	sum := 0.0
	for i, v := range s.Redundancy {
		near(t, "redundancy", other.Redundancy[i], v, 1e-8)
		near(t, "normalised", other.Normalised(i), s.Normalised(i), 1e-5)
		sum += v
	}
	near(t, "sum of redundancy", sum, float64(s.Dof), 1e-7)
	near(t, "chi2", other.Chi2, s.Chi2, 1e-8*s.Chi2)
	if s.Dof != other.Dof || s.Rank != other.Rank {
		t.Errorf("dof %d and %d, rank %d and %d", s.Dof, other.Dof, s.Rank, other.Rank)
	}
}

func TestTwoPathsAgreeOnRegressions(t *testing.T) {
	for _, r := range regressions {
		t.Run(r.id, func(t *testing.T) {
			var inputs regression
			published(t, r.id, &inputs)
			p := inputs.problem(t, r.f, inputs.Start2)
			other, err := SolveByNormals(p)
			if err != nil {
				t.Fatal(err)
			}
			agree(t, mustSolve(t, p), other)
		})
	}
}

func TestNormalsRefuseShortRank(t *testing.T) {
	for name, p := range map[string]Problem{
		"sum of two":        {make([]float64, 2), seen(1, sumOf(5, 0, 1)), nil},
		"constraint twice":  {make([]float64, 2), seen(1, sumOf(5, 0), sumOf(5, 1)), []Equation{sumOf(1, 0), sumOf(1, 0)}},
		"no unknowns":       {nil, seen(1, sumOf(5)), nil},
		"an untouched one":  {make([]float64, 2), seen(1, sumOf(5, 0)), nil},
		"empty constraints": {make([]float64, 1), seen(1, sumOf(5, 0)), []Equation{sumOf(0)}},
	} {
		if _, err := SolveByNormals(p); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// TestUnitsDoNotMatter states the same problem with every unknown in another
// unit, from 1e-6 to 1e6 of the first.
func TestUnitsDoNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 50 {
		p := randomProblem(r)
		s := mustSolve(t, p)
		factor := make([]float64, len(p.Start))
		q := Problem{Start: make([]float64, len(p.Start))}
		for j := range factor {
			factor[j] = math.Pow(10, -6+12*r.Float64())
			q.Start[j] = p.Start[j] / factor[j]
		}
		for _, o := range p.Observations {
			q.Observations = append(q.Observations, Observation{inOtherUnits{o.Equation, factor}, o.Sigma})
		}
		for _, e := range p.Constraints {
			q.Constraints = append(q.Constraints, inOtherUnits{e, factor})
		}
		other := mustSolve(t, q)
		if other.Rank != s.Rank || other.Defect != s.Defect {
			t.Fatalf("rank %d and %d", s.Rank, other.Rank)
		}
		for j, f := range factor {
			if s.Determined(j) != other.Determined(j) {
				t.Errorf("unknown %d is determined in one unit only", j)
			}
			if s.Determined(j) {
				near(t, "unknown", other.X[j]*f, s.X[j], 1e-9*math.Abs(s.X[j]))
				near(t, "deviation", math.Sqrt(other.Cofactor(j, j))*f, math.Sqrt(s.Cofactor(j, j)), 1e-8*math.Abs(s.X[j]))
			}
		}
	}
}

type inOtherUnits struct {
	Equation
	factor []float64
}

func (e inOtherUnits) Eval(x []float64, row *Row) float64 {
	first := make([]float64, len(x))
	for j, f := range e.factor {
		first[j] = x[j] * f
	}
	value := e.Equation.Eval(first, row)
	for i, c := range row.Columns {
		row.Values[i] *= e.factor[c]
	}
	return value
}

// TestBentValley walks down a long curved valley to a sum of squares of zero.
func TestBentValley(t *testing.T) {
	p := Problem{Start: []float64{-1.2, 1}}
	p.observe(1, over(0, 1), func(b []grad.Number) grad.Number { return b[1].Sub(b[0].Sq()).Times(10) })
	p.observe(1, []int{0}, func(b []grad.Number) grad.Number { return b[0].Neg().Plus(1) })
	s := mustSolve(t, p) // Rosenbrock's function, from memory: least, 0, at (1, 1)
	near(t, "x", s.X[0], 1, 1e-12)
	near(t, "y", s.X[1], 1, 1e-12)
	if s.Dof != 0 || s.Redundancy[0] != 0 || s.Redundancy[1] != 0 || s.P() != 1 {
		t.Errorf("dof %d, redundancy %v", s.Dof, s.Redundancy)
	}
}
