package part

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// InOrder returns the ids of the part's sizes in the order in which the shape is
// made: those of the shape first, as they are written there, then the others.
func InOrder(part *trade.Part) []string {
	w := &Taking{part: part}
	if kind := stated(&part.Shape); kind != nil {
		kind.Sizes(&part.Shape, w)
	}
	for i := range part.Sizes {
		w.ID(part.Sizes[i].ID)
	}
	return w.ids
}

// Taking gathers ids of sizes of a part, each once.
type Taking struct {
	part *trade.Part
	ids  []string
}

// Sizes takes those of the measures that are sizes of the part.
func (w *Taking) Sizes(measures ...trade.Measure) {
	for _, m := range measures {
		w.ID(m.ID)
	}
}

// ID takes a size by its id.
func (w *Taking) ID(id string) {
	if id != "" && w.part.Size(id) != nil && !slices.Contains(w.ids, id) {
		w.ids = append(w.ids, id)
	}
}

func (w *Taking) shoe(s *trade.ShoeShape) {
	w.Sizes(s.Height, s.Outer, s.Inner, s.Width, s.Length, s.Angle)
	if stem := s.Stem; stem != nil {
		w.Sizes(stem.Offset, stem.Diameter, stem.Length)
		w.ID(stem.Thread)
	}
	if s.Hole != nil {
		w.hole(s.Hole)
	}
}

func (w *Taking) turned(t *trade.TurnedShape) {
	for _, list := range [][]trade.Step{t.Steps, t.Bore, t.RightBore} {
		for i := range list {
			w.step(&list[i])
		}
	}
	for _, f := range t.Flats {
		w.Sizes(f.Across, f.Height, f.From, f.Length)
	}
	for _, h := range t.CrossHoles {
		w.Sizes(h.At, h.Diameter, h.Depth)
		w.ID(h.Thread)
	}
}

func (w *Taking) step(s *trade.Step) {
	w.Sizes(s.Size, s.To, s.Length)
	w.ID(s.Thread)
	w.Sizes(s.Undercut.Width, s.Undercut.Depth)
	for _, g := range s.Grooves {
		w.Sizes(g.At, g.Width, g.Diameter)
	}
}

func (w *Taking) plate(p *trade.PlateShape) {
	w.Sizes(p.Thickness, p.Disc)
	if r := p.Rectangle; r != nil {
		w.Sizes(r.Length, r.Width)
	}
	for _, c := range p.Outline {
		w.Sizes(c.X, c.Y, c.Radius)
	}
	for _, l := range p.Ledges {
		w.Sizes(l.Depth)
	}
	for _, s := range p.Slots {
		w.Sizes(s.Width, s.Depth)
	}
	for i := range p.Holes {
		w.hole(&p.Holes[i])
	}
}

func (w *Taking) hole(h *trade.HoleShape) {
	w.Sizes(h.X, h.Y, h.Circle, h.Diameter, h.Depth, h.CounterboreD, h.CounterboreH)
	w.ID(h.Thread)
}
