package lsq

import (
	"errors"
	"math"
	"testing"
)

// FuzzSolve solves linear problems of small whole coefficients, of any rank and
// with constraints that may follow from each other or contradict: nothing may
// panic, and what every solution has must hold.
func FuzzSolve(f *testing.F) {
	f.Add(uint8(2), uint8(1), []byte{1, 1, 5, 1, 255, 0})
	f.Add(uint8(3), uint8(2), []byte{1, 0, 0, 9, 0, 1, 0, 8, 1, 1, 0, 7, 2, 2, 0, 6})
	f.Add(uint8(1), uint8(2), []byte{1, 3, 1, 4})
	f.Add(uint8(4), uint8(0), []byte{0, 0, 0, 0, 1})
	f.Add(uint8(0), uint8(1), []byte{0, 1, 2})
	f.Add(uint8(2), uint8(1), []byte{49, 49, 0, 49, 49, 48}) // all that is left is rounding
	f.Fuzz(func(t *testing.T, unknowns, tied uint8, data []byte) {
		p := linearProblem(int(unknowns%8), int(tied%6), data)
		s, err := Solve(p)
		var contradiction *ContradictionError
		if errors.As(err, &contradiction) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		checkLinear(t, p, s)
	})
}

// linearProblem takes one equation from every unknowns+1 bytes; the first tied
// of them are constraints.
func linearProblem(unknowns, tied int, data []byte) Problem {
	p := Problem{Start: make([]float64, unknowns)}
	for len(data) > unknowns && len(p.Observations) < 40 {
		e := &linear{less: float64(int8(data[unknowns]))}
		for c, b := range data[:unknowns] {
			if b%4 != 0 { // most coefficients of a job are zero
				e.row.Add(c, float64(int8(b)))
			}
		}
		data = data[unknowns+1:]
		if len(p.Constraints) < tied {
			p.Constraints = append(p.Constraints, e)
			continue
		}
		p.Observations = append(p.Observations, Observation{e, 0.1})
	}
	return p
}

func checkLinear(t *testing.T, p Problem, s *Solution) {
	t.Helper()
	if !s.Converged {
		t.Errorf("not converged: chi2 %g after %d iterations", s.Chi2, s.Iterations)
	}
	sum := 0.0
	for _, r := range s.Redundancy {
		if !(r >= 0 && r <= 1) {
			t.Errorf("redundancy %g", r)
		}
		sum += r
	}
	near(t, "sum of redundancy", sum, float64(s.Dof), 1e-6)
	var row Row
	for k, e := range p.Constraints {
		row.Reset()
		if h := e.Eval(s.X, &row); math.Abs(h) > 1e-7*(1+row.grain(s.X)) {
			t.Errorf("constraint %d is off by %g", k, h)
		}
	}
	for j := range s.X {
		if !(s.Cofactor(j, j) >= 0) {
			t.Errorf("cofactor %d is %g", j, s.Cofactor(j, j))
		}
	}
}
