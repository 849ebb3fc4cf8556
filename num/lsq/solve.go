package lsq

import (
	"errors"
	"fmt"
	"math"

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
	v := newSolution(s.p, s.here)
	v.Iterations, v.Converged = s.iterations, converged
	v.Rank, v.Defect, v.Dof = f.rank, len(f.null), len(s.p.Observations)-f.rank
	v.Condition, _ = f.r.condition(f.rank)
	for i := range v.seen {
		v.seen[i] = f.seen(s, i)
	}
	for j := range v.moved {
		v.moved[j] = f.moved(j)
	}
	v.places = f.rank
	v.markRedundancy()
	v.markNull(f)
	v.work = s.normal.work + s.damped.work + f.r.work
	return v
}

// markNull sets the null directions and what can be determined in spite of
// them.
func (s *Solution) markNull(f *finish) {
	for j := range s.determined {
		s.determined[j] = f.across(j) < nullShare
	}
	if s.Defect == 0 {
		return
	}
	s.Null = mat.NewDense(len(f.scale), s.Defect, nil)
	for k, direction := range f.null {
		for j, scale := range f.scale {
			s.Null.Set(j, k, scale*direction[j])
		}
	}
}
