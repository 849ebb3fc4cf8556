package draw

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// plan draws a prism from above.
func (c *canvas) plan(p *part.Prism) {
	c.planOutline(p)
	if p.Chamfer > 0 {
		c.draw(inset(p.Outline, p.Chamfer), ink.Visible, ink.Outlines)
	}
	for _, l := range p.Ledges {
		c.draw(l.Outline, ink.Visible, ink.Outlines)
	}
	for _, s := range p.Slots {
		c.draw(s.Outline(), ink.Visible, ink.Outlines)
		c.slotAxes(s)
	}
	for _, circle := range p.Circles {
		c.draw(geom.Circle(circle.Centre, circle.Diameter/2), ink.CentreLine, ink.Axes)
	}
	for _, h := range p.Holes {
		c.planHole(h)
	}
	if p.Stem != nil {
		c.planStem(p.Stem)
	}
	c.discAxes(p)
}

// planOutline draws the upper edge of a prism and, where it leans, the lower
// one: hidden where it lies under the upper face.
func (c *canvas) planOutline(p *part.Prism) {
	if p.Lean == 0 {
		c.draw(p.Outline, ink.Visible, ink.Outlines)
		return
	}
	lift := func(q geom.Point) geom.Point { return q.Add(geom.Point{Y: topAt(p, q.X) * math.Tan(p.Lean)}) }
	for _, e := range p.Outline {
		kind, layer := ink.Visible, ink.Outlines
		if e.Direction(0).X*p.Lean < -same {
			kind, layer = ink.Hidden, ink.HiddenEdges
		}
		c.draw(geom.Path{e}, kind, layer)
		c.draw(geom.Path{geom.Line(lift(e.From), lift(e.To))}, ink.Visible, ink.Outlines)
	}
}

// discAxes draws the centre lines of an outline that is a whole circle.
func (c *canvas) discAxes(p *part.Prism) {
	for _, e := range p.Outline {
		if e.Turn != geom.Straight && e.From == e.To {
			c.cross(e.Centre, e.Radius())
		}
	}
}

func (c *canvas) planHole(h part.Hole) {
	largest := max(h.Diameter, h.CounterboreD, h.CountersinkD)
	for _, d := range []float64{h.Diameter, h.CounterboreD, h.CountersinkD} {
		if d > 0 {
			c.draw(geom.Circle(h.At, d/2), ink.Visible, ink.Outlines)
		}
	}
	if h.Thread != nil {
		c.draw(threadArc(h.At, h.Thread.Major/2), ink.Thin, ink.Threads)
		largest = max(largest, h.Thread.Major)
	}
	c.cross(h.At, largest/2)
}

// slotAxes draws the centre lines of a slot: along it, and across at the centre
// of each round end.
func (c *canvas) slotAxes(s part.Slot) {
	along := s.To.Sub(s.From).Unit().Times(s.Width / 2)
	c.axis(s.From.Sub(along), s.To.Add(along))
	for _, at := range []geom.Point{s.From, s.To} {
		c.axis(at.Sub(along.Left()), at.Add(along.Left()))
	}
}

// planStem draws a stem from above: the circles that are not under a larger one.
func (c *canvas) planStem(s *part.Stem) {
	seen := 0.0
	for _, g := range slices.Backward(s.Turned.Segments) {
		for _, d := range []float64{g.D1, g.D0} {
			if d > seen+same && g.Form != part.Rounded {
				c.draw(geom.Circle(s.At, d/2), ink.Visible, ink.Outlines)
				seen = d
			}
		}
		if g.Thread != nil && seen <= g.D1+same {
			c.draw(threadArc(s.At, g.Thread.Minor/2), ink.Thin, ink.Threads)
		}
	}
	c.cross(s.At, seen/2)
}

// edge draws a prism from the front: whole, or cut along y where that shows what
// cannot be seen from outside.
func (c *canvas) edge(p *part.Prism, y float64, cut bool) {
	if cut {
		c.cutEdge(p, y)
		c.ledgesInEdge(p, y)
	} else {
		c.wholeEdge(p)
	}
	if p.Stem != nil {
		c.pose = geom.Pose{Angle: math.Pi / 2, Shift: geom.Point{X: p.Stem.At.X, Y: p.Height}}
		c.side(&p.Stem.Turned, false)
		c.pose = geom.Pose{}
	}
}

// fromTheRight returns an upright prism turned so that its right end is in front.
func fromTheRight(p *part.Prism) *part.Prism {
	quarter := geom.Pose{Angle: -math.Pi / 2}
	turned := *p
	turned.Outline = p.Outline.Moved(quarter)
	if p.Stem != nil {
		stem := *p.Stem
		stem.At = quarter.Of(stem.At)
		turned.Stem = &stem
	}
	return &turned
}

// wholeEdge draws the outline and the corners that are seen from the front, with
// the chamfers of its upper and lower edges.
func (c *canvas) wholeEdge(p *part.Prism) {
	face := p.Outline
	if p.Chamfer > 0 {
		face = inset(p.Outline, p.Chamfer)
	}
	wide, narrow := p.Outline.Bounds(), face.Bounds()
	at := func(x, z float64) geom.Point { return geom.Point{X: x, Y: z} }
	low, high := p.Chamfer, func(x float64) float64 { return topAt(p, x) - p.Chamfer }
	left, right := wide.Low.X, wide.High.X
	c.draw(geom.Polygon(at(narrow.Low.X, 0), at(narrow.High.X, 0), at(right, low), at(right, high(right)),
		at(narrow.High.X, high(right)+p.Chamfer), at(narrow.Low.X, high(left)+p.Chamfer), at(left, high(left)), at(left, low)), ink.Visible, ink.Outlines)
	if p.Chamfer > 0 {
		c.line(at(left, low), at(right, low), ink.Visible, ink.Outlines)
		c.line(at(left, high(left)), at(right, high(right)), ink.Visible, ink.Outlines)
	}
	for i, e := range p.Outline {
		if x := e.From.X; seenCorner(p.Outline, i) && x > left+same && x < right-same {
			c.line(at(x, low), at(x, high(x)), ink.Visible, ink.Outlines)
			if p.Chamfer > 0 {
				c.line(at(x, low), at(face[i].From.X, 0), ink.Visible, ink.Outlines)
				c.line(at(x, high(x)), at(face[i].From.X, high(x)+p.Chamfer), ink.Visible, ink.Outlines)
			}
		}
	}
}

// seenCorner reports whether the corner at the start of an edge is sharp and
// seen from the front.
func seenCorner(p geom.Path, i int) bool {
	before, after := p[(i+len(p)-1)%len(p)].Direction(1), p[i].Direction(0)
	return math.Abs(before.Cross(after)) > 1e-6 && (before.X > same || after.X > same)
}

// deep reports whether a hole has a depth that a plan cannot show.
func deep(h part.Hole) bool {
	return !h.Through || h.CounterboreD > 0 || h.CountersinkD > 0
}

// crossed reports whether a section along y goes through the axis of a hole.
func crossed(h part.Hole, y float64) bool { return math.Abs(h.At.Y-y) < 1e-6 }

// ledgesInEdge draws the ledges that a section along y does not go through, as
// the edge view dimensions them: hidden behind it, and in front of it where the
// metal is taken away.
func (c *canvas) ledgesInEdge(p *part.Prism, y float64) {
	for _, l := range p.Ledges {
		if len(crossingsAt(l.Outline, y)) > 0 {
			continue
		}
		box := l.Outline.Bounds()
		kind := ink.Hidden
		if box.High.Y <= y {
			kind = ink.Phantom
		}
		floor := func(x float64) geom.Point { return geom.Point{X: x, Y: topAt(p, x) - l.Depth} }
		top := func(x float64) geom.Point { return geom.Point{X: x, Y: topAt(p, x)} }
		left, right := box.Low.X, box.High.X
		c.draw(geom.Polyline(top(left), floor(left), floor(right), top(right)), kind, ink.HiddenEdges)
	}
}

// topAt returns the height of the top face at x.
func topAt(p *part.Prism, x float64) float64 {
	if p.Thin == 0 {
		return p.Height
	}
	box := p.Outline.Bounds()
	return p.Height + (p.Thin-p.Height)*(x-box.Low.X)/box.Size().X
}

// prismEnd draws a prism from the right: y to the right, z up.
func (c *canvas) prismEnd(p *part.Prism) {
	box := p.Outline.Bounds()
	for _, x := range []float64{box.High.X, box.Low.X} {
		height := topAt(p, x)
		lean := height * math.Tan(p.Lean)
		c.draw(geom.Polygon(geom.Point{X: box.Low.Y}, geom.Point{X: box.High.Y},
			geom.Point{X: box.High.Y + lean, Y: height}, geom.Point{X: box.Low.Y + lean, Y: height}), ink.Visible, ink.Outlines)
		if p.Thin == 0 {
			return
		}
	}
}
