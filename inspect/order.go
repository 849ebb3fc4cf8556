package inspect

import (
	"slices"

	"oddleg"
)

// inOrder returns the ids of the part's sizes in the order in which the shape is
// made: those of the shape first, as they are written there, then the others.
func inOrder(part *oddleg.Part) []string {
	w := &walk{part: part}
	w.shape(&part.Shape)
	for i := range part.Sizes {
		w.take(oddleg.Measure{ID: part.Sizes[i].ID})
	}
	return w.ids
}

// walk gathers ids, each once.
type walk struct {
	part *oddleg.Part
	ids  []string
}

func (w *walk) take(measures ...oddleg.Measure) {
	for _, m := range measures {
		w.named(m.ID)
	}
}

func (w *walk) named(id string) {
	if id != "" && w.part.Size(id) != nil && !slices.Contains(w.ids, id) {
		w.ids = append(w.ids, id)
	}
}

func (w *walk) shape(s *oddleg.Shape) {
	switch {
	case s.Turned != nil:
		w.turned(s.Turned)
	case s.Shoe != nil:
		w.take(s.Shoe.Height, s.Shoe.Outer, s.Shoe.Inner, s.Shoe.Width, s.Shoe.Length, s.Shoe.Angle)
		if stem := s.Shoe.Stem; stem != nil {
			w.take(stem.Offset, stem.Diameter, stem.Length)
			w.named(stem.Thread)
		}
		if s.Shoe.Hole != nil {
			w.hole(s.Shoe.Hole)
		}
	case s.Plate != nil:
		w.plate(s.Plate)
	case s.Nut != nil:
		w.take(s.Nut.Size, s.Nut.Height)
		w.named(s.Nut.Thread)
	case s.Bush != nil:
		w.take(s.Bush.Outside, s.Bush.Flange, s.Bush.FlangeWidth, s.Bush.Inside, s.Bush.Length)
	case s.Key != nil:
		w.take(s.Key.Width, s.Key.Height, s.Key.Length)
	case s.Gib != nil:
		w.take(s.Gib.Thick, s.Gib.Thin, s.Gib.Width, s.Gib.Length, s.Gib.Angle)
	case s.Washer != nil:
		w.take(s.Washer.Outside, s.Washer.Inside, s.Washer.Thickness)
	}
}

func (w *walk) turned(t *oddleg.TurnedShape) {
	for _, list := range [][]oddleg.Step{t.Steps, t.Bore, t.RightBore} {
		for i := range list {
			w.step(&list[i])
		}
	}
	for _, f := range t.Flats {
		w.take(f.Across, f.Height, f.From, f.Length)
	}
	for _, h := range t.CrossHoles {
		w.take(h.At, h.Diameter, h.Depth)
		w.named(h.Thread)
	}
}

func (w *walk) step(s *oddleg.Step) {
	w.take(s.Size, s.To, s.Length)
	w.named(s.Thread)
	w.take(s.Undercut.Width, s.Undercut.Depth)
	for _, g := range s.Grooves {
		w.take(g.At, g.Width, g.Diameter)
	}
}

func (w *walk) plate(p *oddleg.PlateShape) {
	w.take(p.Thickness, p.Disc)
	if r := p.Rectangle; r != nil {
		w.take(r.Length, r.Width)
	}
	for _, c := range p.Outline {
		w.take(c.X, c.Y, c.Radius)
	}
	for _, l := range p.Ledges {
		w.take(l.Depth)
	}
	for _, s := range p.Slots {
		w.take(s.Width, s.Depth)
	}
	for i := range p.Holes {
		w.hole(&p.Holes[i])
	}
}

func (w *walk) hole(h *oddleg.HoleShape) {
	w.take(h.X, h.Y, h.Circle, h.Diameter, h.Depth, h.CounterboreD, h.CounterboreH)
	w.named(h.Thread)
}

// stopPoints says of sizes before what they are to be read, as far as the shape
// tells: what cannot be reached, or is not there any more, afterwards.
func (p *proof) stopPoints() map[string][]string {
	stops := map[string][]string{}
	stop := func(m oddleg.Measure, before string) {
		if m.ID != "" && !slices.Contains(stops[m.ID], before) {
			stops[m.ID] = append(stops[m.ID], before)
		}
	}
	t := p.Job.Part.Shape.Turned
	if t == nil {
		return stops
	}
	for i := range t.Steps {
		stopStep(&t.Steps[i], stop)
	}
	for _, bore := range [][]oddleg.Step{t.Bore, t.RightBore} {
		for i := range bore {
			if i > 0 && p.measure(bore[i].Size) > p.measure(bore[i-1].Size) {
				stop(bore[i].Size, "before the work leaves the chuck: it is wider than the bore before it, so that no plug reaches it")
			}
			if len(t.CrossHoles) > 0 {
				stop(bore[i].Size, "before a hole is drilled across it: a burr spoils the reading")
			}
		}
	}
	p.stopFlats(t, stop)
	return stops
}

// stopFlats says of the steps on which flats are milled, as far as it is known where
// they lie, that they are round only before.
func (p *proof) stopFlats(t *oddleg.TurnedShape, stop func(m oddleg.Measure, before string)) {
	from := 0.0
	for i := range t.Steps {
		to := from + p.measure(t.Steps[i].Length)
		for _, f := range t.Flats {
			first := p.measure(f.From)
			if clear := first >= to || first+p.measure(f.Length) <= from; !clear {
				stop(t.Steps[i].Size, "before the flats are milled: there may be no full round left to read over")
			}
		}
		from = to
	}
}

// stopStep says before what the sizes of one step are to be read.
func stopStep(s *oddleg.Step, stop func(m oddleg.Measure, before string)) {
	if s.Knurled {
		stop(s.Size, "before it is knurled")
	}
	if s.To.Given() && s.Chamfer.Given() {
		stop(s.To, "before the end of the taper is chamfered")
	}
}

// measure returns what a size of the shape is made to, NaN where it is not stated
// or not found.
func (p *proof) measure(m oddleg.Measure) float64 {
	switch made := p.made.Of(m.ID); {
	case made != nil:
		return made.Target
	case m.Value.Given():
		return m.Value.Inside()
	}
	return nan
}
