package lsq

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/mat"
)

// ErrStart says that the search has nowhere to start from: an equation is not
// finite at the start values, or not once these are brought onto the
// constraints.
var ErrStart = errors.New("not finite at the start values")

// ContradictionError says that no place was found where all constraints hold:
// this one contradicts the others, or cannot hold by itself.
type ContradictionError struct {
	Constraint int
}

// Error returns the fault in words.
func (e *ContradictionError) Error() string {
	return fmt.Sprintf("constraint %d cannot hold together with the others", e.Constraint)
}

// Solve returns the solution of a problem: by damped Gauss–Newton steps
// (Levenberg, Marquardt) along the constraints, then undamped ones through
// orthogonal factors, in which rank, cofactors and redundancy are found.
// Constraints that follow from others are dropped.
//
// It returns a *ContradictionError where the constraints cannot all hold and
// an error that is ErrStart where it cannot start. Of several minima it finds
// the one that is downhill from the start.
func Solve(p Problem) (*Solution, error) {
	p.check()
	s := newSearch(&p)
	if err := s.begin(); err != nil {
		return nil, err
	}
	s.descend()
	f, converged := s.polish()
	return s.solution(f, converged), nil
}

// check panics where no job could have made such a problem.
func (p *Problem) check() {
	for _, o := range p.Observations {
		if !(o.Sigma > 0) || math.IsInf(o.Sigma, 1) {
			panic("lsq: an observation without a finite positive standard deviation")
		}
	}
}

// begin evaluates the start values and brings them onto the constraints.
func (s *search) begin() error {
	if i, ok := s.here.evaluateMisfits(s.p); !ok {
		return fmt.Errorf("observation %d is %w", i, ErrStart)
	}
	if k, ok := s.here.evaluateTies(s.p); !ok {
		return fmt.Errorf("constraint %d is %w", k, ErrStart)
	}
	s.here.scaleColumns(s.scale)
	if k, ok := s.settle(s.here); !ok && !s.settleAside() {
		return &ContradictionError{Constraint: k}
	}
	if i, ok := s.here.evaluateMisfits(s.p); !ok {
		return fmt.Errorf("observation %d, with the constraints held, is %w", i, ErrStart)
	}
	s.here.scaleColumns(s.scale)
	return nil
}

// settleAside brings the start onto the constraints from a little aside: just
// there, one of them may have no gradient.
func (s *search) settleAside() bool {
	for k := range s.here.ties {
		for _, c := range s.here.ties[k].Columns {
			s.here.x[c] += s.scale[c]
		}
	}
	_, ok := s.settle(s.here)
	return ok
}

func (s *search) solution(f *finish, converged bool) *Solution {
	n, m := len(s.scale), len(s.p.Observations)
	v := newSolution(s.p, s.here)
	v.Iterations, v.Converged = s.iterations, converged
	v.Rank, v.Defect, v.Dof = f.rank, f.null.Cols, m-f.rank
	v.Condition = f.condition()
	for i := range v.Redundancy {
		q := norm(rowOf(f.q, i))
		v.Redundancy[i] = checked(1 - q*q)
	}
	if n > 0 {
		cofactors := symmetric(n)
		if f.rank > 0 {
			blas64.Syrk(blas.NoTrans, 1, f.invert(), 0, cofactors)
		}
		v.Cofactors.SetRawSymmetric(cofactors)
	}
	v.markNull(f)
	return v
}

// markNull sets the null directions and what can be determined in spite of
// them.
func (s *Solution) markNull(f *finish) {
	directions := f.widen(f.null)
	for j := range s.determined {
		s.determined[j] = s.Defect == 0 || norm(rowOf(directions, j)) < nullShare
	}
	if s.Defect == 0 {
		return
	}
	s.Null = mat.NewDense(len(f.scale), s.Defect, nil)
	for j, scale := range f.scale {
		for k, v := range rowOf(directions, j) {
			s.Null.Set(j, k, scale*v)
		}
	}
}
