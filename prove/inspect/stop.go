package inspect

import (
	"fmt"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// stops gathers before what sizes are to be read, by their ids.
type stops struct {
	*proof
	before map[string][]string
}

// stopPoints says of sizes before what they are to be read, as far as the shape and
// the order of work tell: what cannot be reached, or is not there any more, or cannot
// be put right, afterwards (common practice, no source).
func (p *proof) stopPoints() map[string][]string {
	s := &stops{p, map[string][]string{}}
	shape := &p.Job.Part.Shape
	switch {
	case shape.Turned != nil:
		s.turned(shape.Turned)
	case shape.Bush != nil:
		s.bush(shape.Bush)
	case shape.Shoe != nil:
		s.shoe(shape.Shoe)
	case shape.Gib != nil && shape.Gib.Angle.Given():
		s.stop(shape.Gib.Width, "before the edges are planed to the angle: a sharp edge turns over and reads long")
	}
	s.tapped()
	s.leaving()
	return s.before
}

func (s *stops) stop(m trade.Measure, before string) { s.named(m.ID, before) }

func (s *stops) named(id, before string) {
	if id != "" && !slices.Contains(s.before[id], before) {
		s.before[id] = append(s.before[id], before)
	}
}

func (s *stops) turned(t *trade.TurnedShape) {
	for i := range t.Steps {
		step := &t.Steps[i]
		if step.Knurled {
			s.stop(step.Size, "before it is knurled")
		}
		s.chamfered(step, i == 0, i == len(t.Steps)-1)
	}
	for _, bore := range [][]trade.Step{t.Bore, t.RightBore} {
		for i := range bore {
			if i > 0 && s.measure(bore[i].Size) > s.measure(bore[i-1].Size) {
				s.stop(bore[i].Size, "before the work leaves the chuck: it is wider than the bore before it, so that no plug reaches it")
			}
			if len(t.CrossHoles) > 0 {
				s.stop(bore[i].Size, "before a hole is drilled across it: a burr spoils the reading")
			}
			s.setTrue(bore[i].Size)
		}
	}
	s.flats(t)
}

// chamfered is for the end of a taper that stands free: its edge goes.
func (s *stops) chamfered(step *trade.Step, first, last bool) {
	if !step.To.Given() || !step.Chamfer.Given() {
		return
	}
	const before = "before the end of the taper is chamfered"
	if first {
		s.stop(step.Size, before)
	}
	if last {
		s.stop(step.To, before)
	}
}

// setTrue is for a bore that takes its mate in.
func (s *stops) setTrue(bore trade.Measure) {
	if m := s.made.Of(bore.ID); m != nil && m.Mating != nil {
		s.stop(bore, "before it is parted off or turned round in the chuck: it is not set true again")
	}
}

// flats says of the steps on which flats are milled, as far as it is known where they
// lie, that they are round only before.
func (s *stops) flats(t *trade.TurnedShape) {
	from := 0.0
	for i := range t.Steps {
		to := from + s.measure(t.Steps[i].Length)
		for _, f := range t.Flats {
			first := s.measure(f.From)
			if clear := first >= to || first+s.measure(f.Length) <= from; !clear {
				s.stop(t.Steps[i].Size, "before the flats are milled: there may be no full round left to read over")
			}
		}
		from = to
	}
}

// bush is for a bush: one that is pressed in closes.
func (s *stops) bush(b *trade.BushShape) {
	s.setTrue(b.Inside)
	if m := s.made.Of(b.Outside.ID); m != nil && m.Mating != nil && m.Mating.Grips() {
		s.stop(b.Outside, "before it is pressed in")
		s.stop(b.Inside, "before it is pressed in, and again after: the bore closes")
	}
}

// shoe is for a sector of a ring: how it is cut the shape does not tell.
func (s *stops) shoe(shoe *trade.ShoeShape) {
	for _, arc := range []trade.Measure{shoe.Outer, shoe.Inner} {
		if m := s.made.Of(arc.ID); m != nil && m.Determined {
			s.stop(arc, "as a full round, twice its radius across, before the ring is cut where it is made from one: afterwards only a short arc is left")
		}
	}
}

// tapped is for the holes that are tapped: their bore is plain only before.
func (s *stops) tapped() {
	for i := range s.made.Make {
		m := &s.made.Make[i]
		if m.Thread != nil && m.Size.Surface == trade.Inside && !isEffective(m) {
			s.named(m.Size.ID, "before the thread is cut: the bore is clean only then")
		}
	}
	for _, a := range s.drilled() {
		for _, b := range s.drilled() {
			if a.Hole.Thread+b.Hole.Thread != "" {
				s.named(a.ID+to+b.ID, "before the holes are tapped: plugs fill them only then")
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
			s.named(m.Size.ID, fmt.Sprintf("before it leaves the lathe for %q: it is eased there while it runs true", next.Do))
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

// measure returns what a size of the shape is made to, NaN where it is not stated
// or not found.
func (p *proof) measure(m trade.Measure) float64 {
	switch made := p.made.Of(m.ID); {
	case made != nil:
		return made.Target
	case m.Value.Given():
		return m.Value.Inside()
	}
	return nan
}
