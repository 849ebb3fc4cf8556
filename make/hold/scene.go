package hold

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// The sizes of what touches the work in a picture, over the greater side of what
// is held.
const (
	touchSize   = 0.09
	touchWidth  = 0.05
	forceLength = 0.2
	forceWidth  = 0.025
)

// Scene draws how the work is held: its outline in the plan of the contacts, which
// may be nil, what touches it and which way each pushes, and the cutting force.
func (h *Judgement) Scene(outline geom.Path) sketch.Scene {
	s := sketch.Scene{Title: "How it is held"}
	if outline != nil {
		s.Draw(sketch.WorkShape, outline)
	}
	size := h.pictured(outline)
	for i := range h.Holding.Contacts {
		c := &h.Holding.Contacts[i]
		contact(&s, c, size)
	}
	if h.Holding.Force.Given() {
		force(&s, sketch.Place(h.Holding.At), h.Holding.Towards.InsideOr(0), size)
		s.Note(sketch.Place(h.Holding.At), "force "+h.Holding.Force.String())
	}
	return s
}

// pictured returns the greater side of all that is touched and of the outline,
// 1 mm where that is one point.
func (h *Judgement) pictured(outline geom.Path) float64 {
	var low, high geom.Point
	seen := false
	take := func(p geom.Point) {
		if !seen {
			low, high, seen = p, p, true
		}
		low = geom.Point{X: math.Min(low.X, p.X), Y: math.Min(low.Y, p.Y)}
		high = geom.Point{X: math.Max(high.X, p.X), Y: math.Max(high.Y, p.Y)}
	}
	if outline != nil {
		box := outline.Bounds()
		take(box.Low)
		take(box.High)
	}
	for i := range h.Holding.Contacts {
		take(sketch.Place(h.Holding.Contacts[i].At))
	}
	if size := math.Max(high.X-low.X, high.Y-low.Y); size > 0 {
		return size
	}
	return 1
}

// contact puts what touches the work where it does, pointing the way it pushes: a
// jaw is a bar, a strap clamp a pad on top, all else a wedge.
func contact(s *sketch.Scene, c *trade.Contact, size float64) {
	at, push := sketch.Place(c.At), geom.Polar(1, c.Towards.InsideOr(0))
	deep, half := push.Times(-touchSize*size), push.Left().Times(touchWidth*size)
	switch c.Kind {
	case trade.ClampContact:
		s.Draw(sketch.HoldShape, geom.Circle(at, touchWidth*size))
		s.Note(at, c.ID)
		return
	case trade.JawContact:
		half = push.Left().Times(c.Width.InsideOr(0) / 2)
		s.Draw(sketch.HoldShape, geom.Polygon(at.Add(half), at.Add(half).Add(deep), at.Sub(half).Add(deep), at.Sub(half)))
	default:
		s.Draw(sketch.HoldShape, geom.Polygon(at, at.Add(deep).Add(half), at.Add(deep).Sub(half)))
	}
	s.Note(at.Add(deep.Times(0.5)), c.ID)
}

// force puts an arrow with its point where the cutter pushes.
func force(s *sketch.Scene, at geom.Point, towards, size float64) {
	const head, slim = 0.4, 0.35 // of its length, of its width
	back, half := geom.Polar(-forceLength*size, towards), geom.Polar(forceWidth*size, towards).Left()
	neck := at.Add(back.Times(head))
	tail := at.Add(back)
	thin := half.Times(slim)
	s.Draw(sketch.ForceShape, geom.Polygon(at, neck.Add(half), neck.Add(thin), tail.Add(thin), tail.Sub(thin), neck.Sub(thin), neck.Sub(half)))
}
