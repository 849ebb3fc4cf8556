package draw

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// canvas is one view by itself: its marks in mm on the paper, its origin that of
// the part's coordinates, and the room that is taken.
type canvas struct {
	scale   float64
	pose    geom.Pose // where the part being drawn stands in the view, in its own mm
	marks   []ink.Mark
	space   space
	outline geom.Box // of what is drawn of the part
	drawn   bool
	edges   []float64 // x of the edges that run round a turned part
	spans   []span    // stretches of one diameter that a dimension may stand across
	owners  int
}

// span is a stretch of one diameter along an axis, in mm on the paper.
type span struct {
	from, to geom.Point
	radius   float64
	inside   bool // of a bore
}

// draw adds lines of the part, given in its own mm.
func (c *canvas) draw(p geom.Path, kind ink.LineKind, layer ink.Layer) {
	if len(p) == 0 {
		return
	}
	p = p.Moved(c.pose).Scaled(c.scale)
	if box := p.Bounds(); !c.drawn {
		c.outline, c.drawn = box, true
	} else {
		c.outline = around(c.outline, box)
	}
	c.add(ink.Stroke{Path: p, Kind: kind, Layer: layer})
}

// line draws a straight line of the part.
func (c *canvas) line(a, b geom.Point, kind ink.LineKind, layer ink.Layer) {
	c.draw(geom.Path{geom.Line(a, b)}, kind, layer)
}

// add adds a mark in mm on the paper.
func (c *canvas) add(m ink.Mark) {
	owner := 0
	if _, ok := m.(ink.Dimension); ok {
		c.owners++
		owner = c.owners
	}
	c.marks = append(c.marks, m)
	c.space.take(m, owner)
}

// on returns where a point of the part comes to stand on the paper.
func (c *canvas) on(p geom.Point) geom.Point { return c.pose.Of(p).Times(c.scale) }

// axis draws a centre line past both its ends, which are given in mm of the
// part.
func (c *canvas) axis(a, b geom.Point) {
	a, b = c.on(a), c.on(b)
	const past = 3.0
	out := b.Sub(a).Unit().Times(past)
	c.add(ink.Stroke{Path: geom.Polyline(a.Sub(out), b.Add(out)), Kind: ink.CentreLine, Layer: ink.Axes})
}

// cross draws the centre lines of a circle.
func (c *canvas) cross(centre geom.Point, radius float64) {
	c.axis(centre.Sub(geom.Point{X: radius}), centre.Add(geom.Point{X: radius}))
	c.axis(centre.Sub(geom.Point{Y: radius}), centre.Add(geom.Point{Y: radius}))
}

// bounds returns the box round all that is on the canvas.
func (c *canvas) bounds() geom.Box {
	box := c.outline
	for i := range c.space.pieces {
		box = around(box, c.space.pieces[i].box)
	}
	for i := range c.space.plates {
		box = around(box, c.space.plates[i].box)
	}
	return box
}

// around returns the smallest box round two.
func around(a, b geom.Box) geom.Box {
	return geom.Box{
		Low:  geom.Point{X: math.Min(a.Low.X, b.Low.X), Y: math.Min(a.Low.Y, b.Low.Y)},
		High: geom.Point{X: math.Max(a.High.X, b.High.X), Y: math.Max(a.High.Y, b.High.Y)},
	}
}
