package advise

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// alike is the part by which two promises may differ and count as equal.
const alike = 0.01

// enough is the part by which a borrowed piece must better what the kit has.
const enough = 0.05

// mostKept is how many readings are proposed: nobody reads on after that.
const mostKept = 20

// best returns the readings worth taking, best first.
func (s *survey) best() []Candidate {
	list := append(s.again(), s.foreseen()...)
	s.settle(list)
	list = slices.DeleteFunc(list, func(c *Candidate) bool { return !s.changes(c) })
	list = s.worthBorrowing(list)
	s.rank(list)
	list = s.confirm(list)
	best := make([]Candidate, len(list))
	for i, c := range list {
		best[i] = *c
	}
	return best
}

// changes reports whether a reading would tell anything new of the size.
func (s *survey) changes(c *Candidate) bool {
	now, then := s.a.Now, c.Then
	switch {
	case c.Settle != nil:
		return true
	case !now.Determined:
		return then.Determined || c.Narrows
	}
	return then.U < now.U*(1-alike) || then.Check > now.Check
}

// rank sorts by the rule of Next.
func (s *survey) rank(list []*Candidate) {
	least := math.Inf(1)
	for _, c := range list {
		if c.Then.Determined {
			least = min(least, c.Then.U)
		}
	}
	slices.SortStableFunc(list, func(a, b *Candidate) int { return s.compare(a, b, least) })
	s.settlerFirst(list)
}

// compare orders two readings, least being the least uncertainty of all.
func (s *survey) compare(a, b *Candidate, least float64) int {
	first, second := s.sooner(a, b), 0
	checks := cmp.Compare(b.Then.Check, a.Then.Check)
	if s.a.Why == Unchecked {
		first, second = cmp.Or(first, checks), 0
	} else {
		second = checks
	}
	return cmp.Or(
		first,
		cmp.Compare(a.Then.step(least), b.Then.step(least)),
		second,
		cmp.Compare(a.Effort, b.Effort),
		cmp.Compare(math.Round(100*b.Then.Weakest), math.Round(100*a.Then.Weakest)),
		cmp.Compare(a.order, b.order),
	)
}

// sooner puts those that reach what is wanted first, the least effort first
// among them.
func (s *survey) sooner(a, b *Candidate) int {
	if s.a.Want == 0 {
		return 0
	}
	reachesA, reachesB := s.a.Reaches(a.Then), s.a.Reaches(b.Then)
	switch {
	case reachesA && reachesB:
		return cmp.Compare(a.Effort, b.Effort)
	case reachesA:
		return -1
	case reachesB:
		return 1
	}
	return 0
}

// step counts how many times the uncertainty is alike part over the least.
func (s State) step(least float64) float64 {
	switch {
	case !s.Determined:
		return math.Inf(1)
	case s.U <= least:
		return 0
	}
	return math.Floor(math.Log(s.U/least)/math.Log1p(alike) + 1e-6)
}

// worthBorrowing keeps of every set-up only the best borrowed piece, and that
// only if it betters all that the kit can do; and of every place touched only
// the best touch.
func (s *survey) worthBorrowing(list []*Candidate) []*Candidate {
	s.rank(list)
	own := slices.IndexFunc(list, func(c *Candidate) bool { return c.Borrow == nil })
	found := map[string]bool{}
	return slices.DeleteFunc(list, func(c *Candidate) bool {
		key := c.Reading.ID
		switch {
		case c.Borrow != nil:
			key = c.shape + " " + string(c.Borrow[0].Kind)
			if own >= 0 && !better(c.Then, list[own].Then) {
				return true
			}
		case c.At == nil:
			return false
		}
		again := found[key]
		found[key] = true
		return again
	})
}

// better reports whether a borrowed piece is worth the errand.
func better(borrowed, own State) bool {
	if !own.Determined || !borrowed.Determined {
		return borrowed.Determined
	}
	return borrowed.U < own.U*(1-enough) || borrowed.Check > own.Check
}

// confirm works the best out in full and ranks them again. One that cannot be
// worked out is left out.
func (s *survey) confirm(list []*Candidate) []*Candidate {
	var kept []*Candidate
	for _, c := range list {
		if len(kept) == s.keeps {
			break
		}
		if s.full(c) {
			kept = append(kept, c)
		}
	}
	s.rank(kept)
	return kept
}

// full adjusts the job with a reading as the sizes foretell it, and with one
// that is off by as much as it may well be: where that changes the uncertainty,
// or leaves nothing that can be found, the promise is rough. So it is for a hole
// or place that cannot be found yet: nothing foretells where it will lie.
func (s *survey) full(c *Candidate) bool {
	job, after, ok := s.taken(c)
	if !ok {
		return false
	}
	c.Then = stateOf(after.Present(), s.a.For)
	if c.At != nil {
		return true
	}
	if c.Rough = !s.a.Now.Determined && s.r.Size(s.a.For) == nil; c.Rough {
		return true
	}
	seen := newest(job, c)
	value, d := seen.X.Inside(), seen.X.Dimension()
	off := s.surprise(c, value)
	c.Rough = s.differs(c, job, after, seen, value-off, d) || s.differs(c, job, after, seen, value+off, d)
	return true
}

// differs reports whether another value would give another uncertainty than with
// the one foretold.
func (s *survey) differs(c *Candidate, job *trade.Job, after *adjust.Result, seen *trade.Seen, value float64, d unit.Dimension) bool {
	q, err := inside(value, d)
	if err != nil {
		return true
	}
	u, determined, near := math.NaN(), false, false
	if !c.Again {
		u, determined, near = after.IfShown(c.Reading.ID, q.Inside(), s.a.For)
	}
	if !near {
		seen.X = q
		other, err := s.r.Refit(job)
		if err != nil {
			return true
		}
		u, determined = other.Present().Uncertainty(s.a.For)
	}
	return determined != c.Then.Determined || determined && math.Abs(u-c.Then.U) > alike*c.Then.U
}

// newest returns the value that a reading has added to a job.
func newest(job *trade.Job, c *Candidate) *trade.Seen {
	saw := job.Reading(c.Reading.ID).Saw
	return &saw[len(saw)-1]
}

// surprise returns by how much a value may well be other than foretold: twice
// its standard deviation, a tenth of it where nothing foretells it.
func (s *survey) surprise(c *Candidate, value float64) float64 {
	switch {
	case c.Again:
		return 2 * math.Sqrt2 * s.scatter(c) // of the value and, at most, of what it is foretold from
	case math.IsNaN(c.Shows):
		return 0.1 * math.Abs(value)
	}
	return 2 * c.prospect.Spread()
}

// inside returns a value as the program works with it, to a millionth of a
// micron; an error where it is too large for that, or none.
func inside(x float64, d unit.Dimension) (unit.Quantity, error) {
	const parts = 1e9
	units := map[unit.Dimension]unit.Unit{unit.Length: unit.Millimetre, unit.Angle: unit.Radian, unit.Number: unit.One}
	if !(math.Abs(x) < parts) {
		return unit.Quantity{}, errNoQuantity
	}
	return unit.New(int64(math.Round(x*parts)), parts, units[d])
}

var errNoQuantity = errors.New("too large to be read")

// taken returns the job with a reading taken, as the sizes foretell it, and
// what it then says.
func (s *survey) taken(c *Candidate) (*trade.Job, *adjust.Result, bool) {
	job := s.repeated(c)
	if c.prospect != nil {
		filled, err := s.r.Foretell(with(s.r.Job, []*Candidate{c}))
		if err != nil {
			return nil, nil, false
		}
		job = filled
	}
	after, err := s.r.Refit(job)
	if err != nil {
		return nil, nil, false
	}
	return job, after, true
}
