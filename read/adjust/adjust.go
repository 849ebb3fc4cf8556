// Package adjust works out sizes from readings: one weighted least-squares
// adjustment of the whole job, in which the zero of every instrument and the
// size of every gauge piece are unknowns of their own, known beforehand to
// within their tolerance and shared by all the readings that use them.
//
// One value of a reading is m = f(sizes, pieces) + zero + e, with zero
// N(0, zero²) common to all that the instrument read and e
// N(0, repeat² + resolution²/12 + feel²) new each time. Priors and inexact
// relations are observations like any other and can be found suspect; exact
// relations are constraints. The variance factor is never rescaled: where the
// readings scatter more than the kit says, the result says so.
package adjust

import (
	"errors"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
)

// attempts is how many different choices of start values are tried where the
// first lead nowhere good.
const attempts = 6

// Adjust works out the sizes of a checked job. The error is of type
// trade.Faults and says which exact relations contradict each other.
func Adjust(job *trade.Job) (*Result, error) {
	m := compile(job)
	s := &search{m: m, active: all(len(m.observations))}
	best, err := s.solve()
	if err != nil {
		return nil, err
	}
	verdict := s.suspects(best)
	if better := s.fromCleaner(best, verdict); better != nil {
		best = better
		verdict = s.suspects(best)
	}
	return m.result(best, verdict), nil
}

// search looks for the solution of a model with some of its observations.
type search struct {
	m      *model
	active []bool // by observation
}

func all(n int) []bool {
	list := make([]bool, n)
	for i := range list {
		list[i] = true
	}
	return list
}

// trial is a solution of some of the observations.
type trial struct {
	*lsq.Solution
	index      []int // of each of its observations among all
	impossible []int // observations left out since no set-up could give them
	rivals     []int // observations that could as well be the ones to leave out
}

// solve finds start values and solves, trying others until the readings agree;
// where none do it returns the solution in which they disagree least.
func (s *search) solve() (*trial, error) {
	best, more, err := s.try(attempt{})
	if err != nil {
		return nil, err
	}
	for choice := 1; choice < attempts && more && !best.agrees(); choice++ {
		other := s.again(attempt{choice: choice})
		if best.same(other) {
			break // it is the readings that disagree, not the start that was poor
		}
		best = better(best, other)
	}
	if best != nil && best.Converged {
		return best, nil
	}
	for i := range s.m.job.Readings {
		best = better(best, s.again(attempt{doubt: &s.m.job.Readings[i]}))
	}
	if best != nil && best.Converged {
		return best, nil
	}
	if other := s.withoutOne(); other != nil {
		return other, nil
	}
	if best == nil {
		return s.withoutImpossible()
	}
	return best, nil
}

// withoutOne looks for the one reading without which the others agree, where
// all together have no solution: a misread figure can ask for a set-up that
// cannot be, such as a flat wider than its round, and the search then ends at
// the edge of what can be. Where nothing checks which of several it is, one is
// left out and all are named. It returns nil where there is no such reading.
func (s *search) withoutOne() *trial {
	var best *trial
	for i := range s.m.job.Readings {
		reading := &s.m.job.Readings[i]
		reduced, left := s.leaving(reading)
		t := reduced.again(attempt{doubt: reading})
		if !t.agrees() {
			continue
		}
		t.impossible = left
		switch {
		case best == nil:
			best = t
		case best.Dof == t.Dof && math.Abs(t.Chi2-best.Chi2) <= 1e-6*max(1, best.Chi2): // nothing tells them apart
			t.rivals = append(best.rivals, best.impossible...)
			best = t
		case t.Dof > 0 && (best.Dof == 0 || t.P() > best.P()):
			best = t
		}
	}
	return best
}

// leaving returns a search without the values of one reading, and what it
// leaves out.
func (s *search) leaving(reading *trade.Reading) (reduced *search, left []int) {
	reduced = &search{m: s.m, active: slices.Clone(s.active)}
	for i, o := range s.m.observations {
		if o.source.Kind == FromReading && o.source.ID == reading.ID && s.active[i] {
			reduced.active[i] = false
			left = append(left, i)
		}
	}
	return reduced, left
}

// again solves from another choice of start values; nil where that leads to no
// solution.
func (s *search) again(a attempt) *trial {
	t, _, err := s.try(a)
	if err != nil {
		return nil
	}
	return t
}

// better returns the one of two trials that settled, or the one with the
// smaller chi-square. Either may be nil.
func better(a, b *trial) *trial {
	switch {
	case b == nil, a != nil && a.Converged && !b.Converged:
		return a
	case a == nil, b.Converged && !a.Converged, b.Chi2 < a.Chi2:
		return b
	}
	return a
}

// same reports whether two trials have led to the same place.
func (t *trial) same(other *trial) bool {
	return t != nil && other != nil && t.Converged && other.Converged && math.Abs(t.Chi2-other.Chi2) <= 1e-6*t.Chi2
}

// agrees reports whether the observations fit each other well enough to look
// no further.
func (t *trial) agrees() bool {
	return t != nil && t.Converged && t.P() > testLevel
}

// try solves from one choice of start values. It returns no trial and no
// error where some observation is not finite at the start.
func (s *search) try(a attempt) (t *trial, more bool, err error) {
	x, more := s.m.start(a)
	t, err = s.from(x)
	if errors.Is(err, lsq.ErrStart) {
		return nil, true, nil
	}
	return t, more, s.fault(err)
}

// from solves from the given start.
func (s *search) from(x []float64) (*trial, error) {
	t := &trial{}
	problem := lsq.Problem{Start: x, Constraints: s.m.constraints}
	for i, o := range s.m.observations {
		if s.active[i] {
			problem.Observations = append(problem.Observations, lsq.Observation{Equation: o.equation, Sigma: o.sigma})
			t.index = append(t.index, i)
		}
	}
	solution, err := lsq.Solve(problem)
	t.Solution = solution
	if err != nil {
		return nil, err
	}
	return t, nil
}

// fault turns a contradiction into a fault of the user's data.
func (s *search) fault(err error) error {
	var contradiction *lsq.ContradictionError
	if !errors.As(err, &contradiction) {
		return err
	}
	relation := s.m.job.Relations[s.m.tied[contradiction.Constraint]]
	var faults trade.Faults
	faults.Add(relation.Pos, "this relation, %s = %s, contradicts the other exact relations and known sizes; correct one of them, or give a tolerance with `within:`",
		relation.That.Text, relation.Is.Text)
	return faults.Err()
}

// withoutImpossible solves without the observations that are not finite at any
// start: set-ups that cannot be with the sizes the other readings give.
func (s *search) withoutImpossible() (*trial, error) {
	x, _ := s.m.start(attempt{})
	reduced := &search{m: s.m, active: slices.Clone(s.active)}
	var left []int
	var row lsq.Row
	for i, o := range s.m.observations {
		row.Reset()
		if reduced.active[i] && !finite(o.equation.Eval(x, &row)) {
			reduced.active[i] = false
			left = append(left, i)
		}
	}
	t, err := reduced.from(x)
	if errors.Is(err, lsq.ErrStart) {
		return nil, impossible(s.m.job)
	}
	if err != nil {
		return nil, s.fault(err)
	}
	t.impossible = left
	return t, nil
}

// impossible is the fault of relations that cannot be evaluated at all.
func impossible(job *trade.Job) error {
	var faults trade.Faults
	pos := trade.Pos{}
	if len(job.Relations) > 0 {
		pos = job.Relations[0].Pos
	}
	faults.Add(pos, "no sizes can be found at which all exact relations have a value; give the sizes in them a `guess:` near the truth")
	return faults.Err()
}

// fromCleaner solves with all observations from where the clean ones lead, if
// they disagree: one wrong reading may have spoilt every start. It returns nil
// where that is no better than the solution at hand.
func (s *search) fromCleaner(best *trial, v *verdict) *trial {
	if v.clean == nil || best.agrees() || len(best.impossible) > 0 && !finiteAt(s.m, v.clean.X) {
		return nil
	}
	t, err := s.from(v.clean.X)
	if err != nil || !t.Converged || t.Chi2 >= best.Chi2*(1-1e-6) && len(best.impossible) == 0 {
		return nil
	}
	return t
}

func finiteAt(m *model, x []float64) bool {
	var row lsq.Row
	for _, o := range m.observations {
		row.Reset()
		if !finite(o.equation.Eval(x, &row)) {
			return false
		}
	}
	return true
}
