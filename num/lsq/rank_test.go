package lsq

import (
	"errors"
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/num/grad"
)

// sumOf is Σ x over the columns less what it should be.
func sumOf(saw float64, columns ...int) *linear {
	e := &linear{less: saw}
	for _, c := range columns {
		e.row.Add(c, 1)
	}
	return e
}

// lessThan is x_a - x_b less what it should be.
func lessThan(saw float64, a, b int) *linear {
	e := &linear{less: saw}
	e.row.Add(a, 1)
	e.row.Add(b, -1)
	return e
}

func seen(sigma float64, equations ...Equation) []Observation {
	var list []Observation
	for _, e := range equations {
		list = append(list, Observation{e, sigma})
	}
	return list
}

// ranked are constructed problems: what each determines is plain to see.
var ranked = []struct {
	name         string
	p            Problem
	rank, defect int
	determined   []bool
}{
	{
		"the sum of two only",
		Problem{make([]float64, 3), seen(0.1, sumOf(5, 0, 1), sumOf(2, 2)), nil},
		2, 1,
		[]bool{false, false, true},
	},
	{
		"an unknown never touched",
		Problem{[]float64{0, 7}, seen(0.1, sumOf(5, 0)), nil},
		1, 1,
		[]bool{true, false},
	},
	{
		"a constraint passes a value on",
		Problem{make([]float64, 3), seen(0.1, sumOf(5, 0)), []Equation{lessThan(1, 0, 1), lessThan(2, 1, 2)}},
		1, 0,
		[]bool{true, true, true},
	},
	{
		"a constraint splits a sum",
		Problem{make([]float64, 2), seen(0.1, sumOf(5, 0, 1)), []Equation{lessThan(0, 0, 1)}},
		1, 0,
		[]bool{true, true},
	},
	{
		"a constraint ties two that cannot be found",
		Problem{make([]float64, 3), seen(0.1, sumOf(5, 0, 1, 2)), []Equation{lessThan(0, 0, 1)}},
		1, 1,
		[]bool{false, false, false},
	},
	{
		"constraints leave nothing to find",
		Problem{make([]float64, 2), seen(0.1, sumOf(5.05, 0, 1)), []Equation{sumOf(2, 0), sumOf(3, 1)}},
		0, 0,
		[]bool{true, true},
	},
	{
		"no observations",
		Problem{make([]float64, 2), nil, []Equation{sumOf(2, 0)}},
		0, 1,
		[]bool{true, false},
	},
	{
		"no unknowns",
		Problem{nil, seen(0.1, sumOf(-0.05)), []Equation{sumOf(1e-13)}},
		0, 0, nil,
	},
	{"nothing at all", Problem{}, 0, 0, nil},
}

func TestRank(t *testing.T) {
	for _, c := range ranked {
		t.Run(c.name, func(t *testing.T) {
			s := mustSolve(t, c.p)
			if s.Rank != c.rank || s.Defect != c.defect || s.Dof != len(c.p.Observations)-c.rank {
				t.Errorf("rank %d, defect %d, dof %d; want %d, %d", s.Rank, s.Defect, s.Dof, c.rank, c.defect)
			}
			for j, want := range c.determined {
				if s.Determined(j) != want {
					t.Errorf("unknown %d: determined %v, want %v", j, s.Determined(j), want)
				}
			}
			checkNull(t, c.p, s)
		})
	}
}

// checkNull checks that neither observations nor constraints change along the
// null directions.
func checkNull(t *testing.T, p Problem, s *Solution) {
	t.Helper()
	equations := append([]Equation(nil), p.Constraints...)
	for _, o := range p.Observations {
		equations = append(equations, o.Equation)
	}
	for k := range s.Defect {
		direction := make([]float64, len(s.X))
		for j := range direction {
			direction[j] = s.Null.At(j, k)
		}
		if norm(direction) == 0 {
			t.Errorf("null direction %d is zero", k)
		}
		for i, e := range equations {
			var row Row
			e.Eval(s.X, &row)
			if change := row.times(direction); math.Abs(change) > 1e-12*norm(direction) {
				t.Errorf("equation %d changes by %g along null direction %d", i, change, k)
			}
		}
	}
}

// TestSumOfUndetermined: what the observations do determine keeps its variance
// though its parts cannot be found.
func TestSumOfUndetermined(t *testing.T) {
	s := mustSolve(t, Problem{make([]float64, 2), seen(0.3, sumOf(5, 0, 1), sumOf(5.6, 0, 1)), nil})
	near(t, "variance of the sum", s.Cofactor(0, 0)+2*s.Cofactor(0, 1)+s.Cofactor(1, 1), 0.3*0.3/2, 1e-15) // constructed: mean of two
	near(t, "sum", s.X[0]+s.X[1], 5.3, 1e-14)
	near(t, "redundancy", s.Redundancy[0], 0.5, 1e-15)
}

// TestEstimable has two sums of two whose parts cannot be found, and one
// unknown that can; constructed.
func TestEstimable(t *testing.T) {
	s := mustSolve(t, Problem{make([]float64, 5), seen(0.1, sumOf(5, 0, 1), sumOf(7, 2, 3), sumOf(2, 4)), nil})
	for _, c := range []struct {
		gradient []float64
		want     bool
	}{
		{[]float64{1, 1, 0, 0, 0}, true},
		{[]float64{0, 0, 3, 3, 1}, true},
		{[]float64{1, 1, -2, -2, 0}, true},
		{[]float64{0, 0, 0, 0, 1}, true},
		{[]float64{1, 0, 0, 0, 0}, false},
		{[]float64{1, 1, 0, 1, 0}, false},
		{[]float64{1, 0.999, 0, 0, 5}, false},
	} {
		var row Row
		for j, v := range c.gradient {
			row.Add(j, v)
		}
		if got := s.Estimable(&row); got != c.want {
			t.Errorf("gradient %v: estimable %v, want %v", c.gradient, got, c.want)
		}
	}
}

func TestContradictionIsNamed(t *testing.T) {
	circle := func(r float64) Equation {
		return model{over(0, 1), func(b []grad.Number) grad.Number { return b[0].Sq().Add(b[1].Sq()).Plus(-r * r) }}
	}
	observations := seen(0.1, sumOf(3, 0), sumOf(4, 1))
	for _, c := range []struct {
		name        string
		constraints []Equation
		culprits    []int
	}{
		{"two values for one unknown", []Equation{sumOf(3, 0), sumOf(3.0001, 0)}, []int{0, 1}},
		{"a third that does not follow from two", []Equation{sumOf(3, 0), sumOf(4, 1), lessThan(0, 0, 1)}, []int{0, 1, 2}},
		{"one of several", []Equation{sumOf(4, 1), sumOf(3, 0), sumOf(3, 0), sumOf(2, 0)}, []int{1, 2, 3}},
		{"a line that misses a circle", []Equation{circle(1), sumOf(5, 0, 1)}, []int{0, 1}},
		{"two circles about one centre", []Equation{circle(1), circle(2)}, []int{0, 1}},
		{"a square below zero", []Equation{model{[]int{0}, func(b []grad.Number) grad.Number { return b[0].Sq().Plus(1) }}}, []int{0}},
		{"no unknown in it", []Equation{sumOf(4, 1), sumOf(0.001)}, []int{1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Solve(Problem{[]float64{1, 2}, observations, c.constraints})
			var contradiction *ContradictionError
			if !errors.As(err, &contradiction) {
				t.Fatalf("error %v, want a contradiction", err)
			}
			for _, k := range c.culprits {
				if contradiction.Constraint == k {
					return
				}
			}
			t.Errorf("constraint %d is blamed, want one of %v", contradiction.Constraint, c.culprits)
		})
	}
}

// TestAgreeingConstraintsChangeNothing adds constraints that follow from
// others, in other words and with rounding.
func TestAgreeingConstraintsChangeNothing(t *testing.T) {
	p := Problem{make([]float64, 3), seen(0.1, sumOf(1.01, 0), sumOf(2.03, 1), sumOf(2.98, 2)), []Equation{lessThan(-0.1, 0, 1), lessThan(-0.2, 1, 2)}}
	plain := mustSolve(t, p)
	double := func(b []grad.Number) grad.Number { return b[0].Sub(b[1]).Plus(0.1 + 0.2).Times(25.4) }
	p.constrain([]int{0, 2}, double)
	p.constrain([]int{0, 1}, func(b []grad.Number) grad.Number { return b[0].Sub(b[1]).Exp().Plus(-math.Exp(-0.1)) })
	more := mustSolve(t, p)
	if more.Rank != plain.Rank || more.Dof != plain.Dof || more.Defect != 0 {
		t.Errorf("rank %d, dof %d, defect %d; want %d, %d, 0", more.Rank, more.Dof, more.Defect, plain.Rank, plain.Dof)
	}
	for j := range plain.X {
		near(t, "unknown", more.X[j], plain.X[j], 1e-13)
		near(t, "variance", more.Cofactor(j, j), plain.Cofactor(j, j), 1e-15)
	}
}

// TestPointOnCircle: the point of a circle nearest to (3, 4), from starts on,
// off and in the middle of it, where the constraint has no gradient.
func TestPointOnCircle(t *testing.T) {
	for _, start := range [][]float64{{1, 0}, {100, -3}, {1e-3, 0}, {-0.1, 40}, {0, 0}} {
		p := Problem{Start: start, Observations: seen(0.1, sumOf(3, 0), sumOf(4, 1))}
		p.constrain(over(0, 1), func(b []grad.Number) grad.Number { return b[0].Sq().Add(b[1].Sq()).Plus(-1) })
		s := mustSolve(t, p)
		// Constructed. Only along the circle, (-0.8, 0.6), is there any freedom.
		for name, pair := range map[string][2]float64{
			"x": {s.X[0], 0.6}, "y": {s.X[1], 0.8},
			"variance of x": {s.Cofactor(0, 0), 0.01 * 0.64}, "covariance": {s.Cofactor(0, 1), -0.01 * 0.48},
		} {
			if digits(pair[0], pair[1]) < 10 {
				t.Errorf("from %v: %s = %.14g, want %g", start, name, pair[0], pair[1])
			}
		}
		if s.Dof != 1 || s.Rank != 1 {
			t.Errorf("from %v: dof %d, rank %d", start, s.Dof, s.Rank)
		}
	}
}

// TestEdgeOfDomain starts so that the first undamped step would leave the
// domain of a square root.
func TestEdgeOfDomain(t *testing.T) {
	p := Problem{Start: []float64{100}}
	p.observe(0.01, []int{0}, func(b []grad.Number) grad.Number { return b[0].Plus(-1).Sqrt().Plus(-0.1) })
	p.observe(0.01, []int{0}, func(b []grad.Number) grad.Number { return b[0].Plus(-1).Sqrt().Plus(-0.3) })
	s := mustSolve(t, p)
	near(t, "x", s.X[0], 1.04, 1e-13) // constructed: root 0.2
}

func TestStartMustBeFinite(t *testing.T) {
	root := func(b []grad.Number) grad.Number { return b[0].Sqrt().Plus(-1) }
	observed, tied, driven := Problem{Start: []float64{-1}}, Problem{Start: []float64{-1}}, Problem{Start: []float64{1}}
	observed.observe(1, []int{0}, root)
	tied.constrain([]int{0}, root)
	driven.observe(1, []int{0}, root)
	driven.Constraints = []Equation{sumOf(-4, 0)}
	for name, p := range map[string]Problem{"observation": observed, "constraint": tied, "held by a constraint": driven} {
		if s, err := Solve(p); !errors.Is(err, ErrStart) {
			t.Errorf("%s: solution %v, error %v, want ErrStart", name, s, err)
		}
	}
	if _, err := SolveByNormals(observed); !errors.Is(err, ErrStart) {
		t.Errorf("by normals: error %v, want ErrStart", err)
	}
}

// TestNoMinimum: where chi2 falls for ever the result says so.
func TestNoMinimum(t *testing.T) {
	p := Problem{Start: []float64{0}}
	p.observe(1, []int{0}, func(b []grad.Number) grad.Number { return b[0].Neg().Exp().Plus(1) })
	s, err := Solve(p)
	if err != nil || s.Converged && s.Determined(0) {
		t.Errorf("x = %v is taken for the answer (%v)", s.X, err)
	}
}
