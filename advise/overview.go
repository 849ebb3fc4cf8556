package advise

import (
	"slices"
	"sync"

	"oddleg/adjust"
)

// Overview is what might newly be read of a job with the kit at hand, looked over
// once for all of its sizes.
type Overview struct {
	*survey
	own  []*Candidate
	lent func() []*Candidate
}

// LookOver looks over a job.
func LookOver(r *adjust.Result) *Overview {
	s := newSurvey(r, &Advice{Result: r})
	return &Overview{
		survey: s, own: s.possible(s.withOwn()),
		lent: sync.OnceValue(func() []*Candidate { return s.possible(s.withLent()) }),
	}
}

// Of returns the new readings worth taking of a size, best first by the rule of
// Next, but for readings that contradict each other: with the kit as it is, or
// where that allows none with a piece that it lacks. What they promise is to first
// order. Limit and Steps are not worked out.
func (o *Overview) Of(id string, want float64) *Advice {
	a := &Advice{Result: o.r, For: id, Want: want, Now: stateOf(o.r.Present(), id)}
	s := *o.survey
	s.a = a
	for _, list := range []func() []*Candidate{func() []*Candidate { return o.own }, o.lent} {
		if a.Best = s.promising(list()); len(a.Best) > 0 {
			break
		}
	}
	return a
}

// promising returns those of a list that tell something of the size, best first.
func (s *survey) promising(list []*Candidate) []Candidate {
	own := make([]*Candidate, len(list))
	for i, c := range list {
		copied := *c
		own[i] = &copied
	}
	s.promise(own)
	own = s.worthBorrowing(slices.DeleteFunc(own, func(c *Candidate) bool { return !s.changes(c) }))
	var best []Candidate
	for _, c := range own[:min(len(own), s.keeps)] {
		best = append(best, *c)
	}
	return best
}
