package inspect

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
)

// stops gathers before what sizes are to be read.
type stops struct {
	*proof
	*part.Stops
}

// stopPoints says of sizes before what they are to be read, as far as the shape and
// the order of work tell, by their ids: what cannot be reached, or is not there any
// more, or cannot be put right, afterwards (common practice, no source).
func (p *proof) stopPoints() map[string][]string {
	s := &stops{p, part.StopPoints(p.Job.Part, p.made)}
	s.tapped()
	s.leaving()
	return s.List
}

// tapped is for the holes that are tapped: their bore is plain only before.
func (s *stops) tapped() {
	for i := range s.made.Make {
		m := &s.made.Make[i]
		if m.Thread != nil && m.Size.Surface == trade.Inside && !isEffective(m) {
			s.ID(m.Size.ID, "before the thread is cut: the bore is clean only then")
		}
	}
	for _, a := range s.drilled() {
		for _, b := range s.drilled() {
			if a.Hole.Thread+b.Hole.Thread != "" {
				s.ID(a.ID+to+b.ID, "before the holes are tapped: plugs fill them only then")
			}
		}
	}
}

// leaving is for what fits a mate and is turned: it is put right most easily where it
// was made.
func (s *stops) leaving() {
	next := s.leavesTheLathe()
	if next == nil {
		return
	}
	for i := range s.made.Make {
		if m := &s.made.Make[i]; m.Mating != nil && m.Size.Kind == trade.Diameter {
			s.ID(m.Size.ID, fmt.Sprintf("before it leaves the lathe for %q: it is eased there while it runs true", next.Do))
		}
	}
}

// leavesTheLathe returns the operation on the part that follows the last one on a
// lathe, nil where none does or none of them is on a lathe.
func (s *stops) leavesTheLathe() *trade.Operation {
	var next *trade.Operation
	turned := false
	for i := range s.Job.Work {
		o := &s.Job.Work[i]
		m := s.Job.Machinery(o.On)
		switch {
		case !o.Makes || m == nil:
		case m.Kind == trade.Lathe:
			turned, next = true, nil
		case turned && next == nil:
			next = o
		}
	}
	return next
}
