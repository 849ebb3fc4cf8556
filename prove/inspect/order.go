package inspect

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// inOrder returns the ids of the part's sizes in the order in which the shape is
// made: those of the shape first, as they are written there, then the others.
func inOrder(part *trade.Part) []string {
	w := &walk{part: part}
	w.shape(&part.Shape)
	for i := range part.Sizes {
		w.take(trade.Measure{ID: part.Sizes[i].ID})
	}
	return w.ids
}

// walk gathers ids, each once.
type walk struct {
	part *trade.Part
	ids  []string
}

func (w *walk) take(measures ...trade.Measure) {
	for _, m := range measures {
		w.named(m.ID)
	}
}

func (w *walk) named(id string) {
	if id != "" && w.part.Size(id) != nil && !slices.Contains(w.ids, id) {
		w.ids = append(w.ids, id)
	}
}

func (w *walk) shape(s *trade.Shape) {
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

func (w *walk) turned(t *trade.TurnedShape) {
	for _, list := range [][]trade.Step{t.Steps, t.Bore, t.RightBore} {
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

func (w *walk) step(s *trade.Step) {
	w.take(s.Size, s.To, s.Length)
	w.named(s.Thread)
	w.take(s.Undercut.Width, s.Undercut.Depth)
	for _, g := range s.Grooves {
		w.take(g.At, g.Width, g.Diameter)
	}
}

func (w *walk) plate(p *trade.PlateShape) {
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

func (w *walk) hole(h *trade.HoleShape) {
	w.take(h.X, h.Y, h.Circle, h.Diameter, h.Depth, h.CounterboreD, h.CounterboreH)
	w.named(h.Thread)
}
