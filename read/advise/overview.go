package advise

import (
	"context"
	"slices"

	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Overview is what might newly be read of a job, looked over once for all of its
// sizes. It is for one goroutine.
type Overview struct {
	*survey
	own  []*Candidate
	lent map[string][]*Candidate // by size, as far as asked for
}

// LookOver looks over a job. When the context ends what has not been looked at is
// left out.
func LookOver(ctx context.Context, r *adjust.Result) *Overview {
	s := newSurvey(ctx, r, &Advice{Result: r})
	return &Overview{survey: s, own: s.possible(s.withOwn()), lent: map[string][]*Candidate{}}
}

// Of returns the new readings worth taking of a size, of those that takes accepts,
// best first by the rule of Next but for readings that contradict each other: with
// the kit as it is, or where that allows none with a piece that it lacks, in a set-up
// that meets the size itself. What they promise is to first order and not known to
// takes. Limit and Steps are not worked out.
func (o *Overview) Of(id string, want float64, takes func(*Candidate) bool) *Advice {
	a := &Advice{Result: o.r, For: id, Want: want, Now: stateOf(o.r.Present(), id)}
	s := *o.survey
	s.a = a
	if a.Best = s.promising(o.own, takes); len(a.Best) == 0 {
		a.Best = s.promising(o.lentFor(id), takes)
	}
	return a
}

// lentFor returns the readings of a size that need a piece which the kit lacks.
func (o *Overview) lentFor(id string) []*Candidate {
	list, known := o.lent[id]
	if !known {
		few := *o.survey
		few.shapes = slices.DeleteFunc(slices.Clone(o.shapes), func(sh *shape) bool { return !sh.meets(id) })
		list = few.possible(few.withLent())
		o.lent[id] = list
	}
	return list
}

// meets reports whether a size stands in a role of the shape.
func (sh *shape) meets(id string) bool {
	for _, arg := range sh.of {
		if arg.ID == id {
			return true
		}
	}
	return false
}

// promising returns those of a list that tell something of the size, best first.
func (s *survey) promising(list []*Candidate, takes func(*Candidate) bool) []Candidate {
	var own []*Candidate
	for _, c := range list {
		if takes(c) {
			copied := *c
			own = append(own, &copied)
		}
	}
	s.promise(own)
	own = s.worthBorrowing(slices.DeleteFunc(own, func(c *Candidate) bool { return !s.changes(c) }))
	var best []Candidate
	for _, c := range own {
		best = append(best, *c)
	}
	return best
}
