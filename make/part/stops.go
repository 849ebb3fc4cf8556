package part

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
)

// Stops gathers before what sizes are to be read, by their ids: what cannot be
// reached, or is not there any more, or cannot be put right, afterwards (common
// practice, no source).
type Stops struct {
	Made *fit.Result
	List map[string][]string
}

// StopPoints says of sizes before what they are to be read, as far as the shape of the
// part tells.
func StopPoints(part *trade.Part, made *fit.Result) *Stops {
	s := &Stops{made, map[string][]string{}}
	if kind := stated(&part.Shape); kind != nil && kind.Stops != nil {
		kind.Stops(&part.Shape, s)
	}
	return s
}

// Before says that a size of the shape is to be read before something.
func (s *Stops) Before(m trade.Measure, before string) { s.ID(m.ID, before) }

// ID says it of a size by its id.
func (s *Stops) ID(id, before string) {
	if id != "" && !slices.Contains(s.List[id], before) {
		s.List[id] = append(s.List[id], before)
	}
}

func (s *Stops) turned(t *trade.TurnedShape) {
	for i := range t.Steps {
		step := &t.Steps[i]
		if step.Knurled {
			s.Before(step.Size, "before it is knurled")
		}
		s.chamfered(step, i == 0, i == len(t.Steps)-1)
	}
	for _, bore := range [][]trade.Step{t.Bore, t.RightBore} {
		for i := range bore {
			if i > 0 && s.Made.Measure(bore[i].Size) > s.Made.Measure(bore[i-1].Size) {
				s.Before(bore[i].Size, "before the work leaves the chuck: it is wider than the bore before it, so that no plug reaches it")
			}
			if len(t.CrossHoles) > 0 {
				s.Before(bore[i].Size, "before a hole is drilled across it: a burr spoils the reading")
			}
			s.setTrue(bore[i].Size)
		}
	}
	s.flats(t)
}

// chamfered is for the end of a taper that stands free: its edge goes.
func (s *Stops) chamfered(step *trade.Step, first, last bool) {
	if !step.To.Given() || !step.Chamfer.Given() {
		return
	}
	const before = "before the end of the taper is chamfered"
	if first {
		s.Before(step.Size, before)
	}
	if last {
		s.Before(step.To, before)
	}
}

// setTrue is for a bore that takes its mate in.
func (s *Stops) setTrue(bore trade.Measure) {
	if m := s.Made.Of(bore.ID); m != nil && m.Mating != nil {
		s.Before(bore, "before it is parted off or turned round in the chuck: it is not set true again")
	}
}

// flats says of the steps on which flats are milled, as far as it is known where they
// lie, that they are round only before.
func (s *Stops) flats(t *trade.TurnedShape) {
	from := 0.0
	for i := range t.Steps {
		to := from + s.Made.Measure(t.Steps[i].Length)
		for _, f := range t.Flats {
			first := s.Made.Measure(f.From)
			if clear := first >= to || first+s.Made.Measure(f.Length) <= from; !clear {
				s.Before(t.Steps[i].Size, "before the flats are milled: there may be no full round left to read over")
			}
		}
		from = to
	}
}

// bush is for a bush: one that is pressed in closes.
func (s *Stops) bush(b *trade.BushShape) {
	s.setTrue(b.Inside)
	if m := s.Made.Of(b.Outside.ID); m != nil && m.Mating != nil && m.Mating.Grips() {
		s.Before(b.Outside, "before it is pressed in")
		s.Before(b.Inside, "before it is pressed in, and again after: the bore closes")
	}
}

// shoe is for a sector of a ring: how it is cut the shape does not tell.
func (s *Stops) shoe(shoe *trade.ShoeShape) {
	for _, arc := range []trade.Measure{shoe.Outer, shoe.Inner} {
		if m := s.Made.Of(arc.ID); m != nil && m.Determined {
			s.Before(arc, "as a full round, twice its radius across, before the ring is cut where it is made from one: afterwards only a short arc is left")
		}
	}
}
