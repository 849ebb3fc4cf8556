package part

import (
	"fmt"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// turnedDimensions lists what defines the steps and bores.
func (b *builder) turnedDimensions(s *trade.TurnedShape, outside *chain, bores []chain) {
	for i, step := range outside.steps {
		b.diameters(outside, step)
		if !step.fills {
			b.lengthDimension(step, false)
		}
		b.endDimensions(outside, i)
		b.grooveDimensions(outside, step)
		b.finish(outside, step)
	}
	for k := range bores {
		c := &bores[k]
		left := leftOver(c)
		for i, step := range c.steps {
			b.diameters(c, step)
			if step != left {
				b.lengthDimension(step, true)
			}
			b.endDimensions(c, i)
			b.grooveDimensions(c, step)
			b.finish(c, step)
		}
	}
	b.centreDimensions(s)
}

// leftOver returns the step of a bore right through whose length the others
// give: one that states none, else the last from the left end. It is nil for a
// blind bore, which needs them all.
func leftOver(c *chain) *stretch {
	if !c.openLeft || !c.openRight {
		return nil
	}
	var last *stretch
	for _, s := range c.steps {
		if s.fills {
			return s
		}
		if !s.mirrored || last == nil {
			last = s
		}
	}
	return last
}

// diameters dimensions a step across: both ends of a taper, the flats of a
// hexagon or square in the end view.
func (b *builder) diameters(c *chain, s *stretch) {
	middle := (s.x0 + s.x1) / 2
	switch {
	case s.form() == Hexagonal:
		b.add(Dimension{View: End, Kind: Up, A: geom.Point{Y: s.d0 / 2}, B: geom.Point{Y: -s.d0 / 2}, Measure: s.size.Measure, After: "across flats"})
	case s.form() == Squared:
		b.add(Dimension{View: End, Kind: Up, A: geom.Point{Y: s.d0 / 2}, B: geom.Point{Y: -s.d0 / 2}, Measure: s.size.Measure, After: "square"})
	case s.thread != nil:
		b.across(middle, s.thread.Major, Dimension{Measure: s.size.Measure, Thread: s.thread, Inside: c.inside})
	case s.to.stated():
		first, last := s.size, s.to
		if s.mirrored {
			first, last = last, first
		}
		if !c.states(first, s.x0) {
			b.across(s.x0, s.d0, Dimension{Measure: first.Measure, Inside: c.inside})
		}
		if !c.states(last, s.x1) {
			b.across(s.x1, s.d1, Dimension{Measure: last.Measure, Inside: c.inside})
		}
	default:
		b.across(middle, s.d0, Dimension{Measure: s.size.Measure, Inside: c.inside})
	}
}

// states reports whether a plain step that ends at x has this very size of the
// part: the taper that meets it there need not state it again.
func (c *chain) states(size given, x float64) bool {
	return size.Name != "" && slices.ContainsFunc(c.steps, func(s *stretch) bool {
		plain := s.form() == Plain && s.thread == nil && !s.to.stated()
		return plain && s.size.Name == size.Name && (s.x0 == x || s.x1 == x)
	})
}

// across dimensions a diameter straight across the axis at x.
func (b *builder) across(x, diameter float64, d Dimension) {
	d.View, d.Kind = Side, Diameter
	d.A, d.B = geom.Point{X: x, Y: diameter / 2}, geom.Point{X: x, Y: -diameter / 2}
	b.add(d)
}

// alongAxis dimensions a length between two points, along the axis.
func (b *builder) alongAxis(from, to geom.Point, d Dimension) {
	d.View, d.Kind, d.A, d.B = Side, Across, from, to
	b.add(d)
}

// corner returns the outermost point of the left end, from which places along
// the axis are dimensioned.
func (b *builder) corner() geom.Point { return geom.Point{Y: b.model.Turned.Segments[0].D0 / 2} }

func (b *builder) lengthDimension(s *stretch, inside bool) {
	from, to := geom.Point{X: s.x0, Y: s.d0 / 2}, geom.Point{X: s.x1, Y: s.d1 / 2}
	b.alongAxis(from, to, Dimension{Measure: s.length.Measure, Inside: inside})
}

// endDimensions calls out what is cut into the ends of a step, once where both
// ends have the same.
func (b *builder) endDimensions(c *chain, i int) {
	left, right := c.steps[i].ends[leftEnd], c.steps[i].ends[rightEnd]
	if left.piece != nil && right.piece != nil && left.Role == right.Role {
		b.endDimension(right, 2, c.inside)
		return
	}
	b.endDimension(left, 1, c.inside)
	b.endDimension(right, 1, c.inside)
}

func (b *builder) endDimension(e ending, count int, inside bool) {
	if e.piece == nil {
		return
	}
	d := Dimension{View: Side, Kind: Leader, Measure: e.size.Measure, Count: count, Inside: inside}
	d.A = e.Outline().At(0.5)
	switch e.Role {
	case Chamfer:
		d.After = "× 45°"
	case Undercut:
		d.After, d.Second = "× # undercut", e.depth.Measure
	case Fillet:
		d.Kind, d.A, d.B = Radius, e.Arc.Centre, d.A
	}
	b.add(d)
}

// finish calls out the texture of a step's surface, and notes what is said of it.
func (b *builder) finish(c *chain, s *stretch) {
	if s.Surface > 0 {
		const along = 0.8 // clear of the diameter in the middle
		x := s.x0 + along*(s.x1-s.x0)
		at := geom.Point{X: x, Y: s.diameter(x) / 2}
		b.add(Dimension{View: Side, Kind: Leader, A: at, After: fmt.Sprintf("Ra %g", float64(s.Surface)), Inside: c.inside})
	}
	b.said(s.size, s.Say)
}

// said notes what the job says of a size in the shape.
func (b *builder) said(size given, words string) {
	if words != "" {
		b.note(size.named() + ": " + words)
	}
}

func (b *builder) grooveDimensions(c *chain, s *stretch) {
	for i, g := range s.grooves {
		begin, near, far := s.x0, g.X0, g.X1
		if s.mirrored {
			begin, near, far = s.x1, g.X1, g.X0
		}
		on := func(x float64) geom.Point { return geom.Point{X: x, Y: s.diameter(x) / 2} }
		if place := b.size(s.Grooves[i].At, trade.Distance, "place of a groove"); place.Value != 0 {
			b.alongAxis(on(begin), on(near), Dimension{Measure: place.Measure, Inside: c.inside})
		}
		width := b.size(s.Grooves[i].Width, trade.Width, "width of a groove")
		b.alongAxis(on(near), on(far), Dimension{Measure: width.Measure, Inside: c.inside})
		b.across((g.X0+g.X1)/2, g.D0, Dimension{Measure: g.by.Measure, Inside: c.inside})
	}
}

// centreDimensions calls out centre holes.
func (b *builder) centreDimensions(s *trade.TurnedShape) {
	for end, m := range []trade.Measure{leftEnd: s.LeftCentre, rightEnd: s.RightCentre} {
		if !m.Given() {
			continue
		}
		size := b.size(m, trade.Diameter, "centre hole")
		at := geom.Point{X: float64(end) * b.model.Turned.Length, Y: size.Value / 2 * centreMouth}
		b.add(Dimension{View: Side, Kind: Leader, A: at, Measure: size.Measure, After: "centre hole 60°", Inside: true})
	}
}

// onShoulder reports whether a step begins or ends at x: then its lengths say
// where that is.
func (b *builder) onShoulder(x float64) bool {
	return slices.ContainsFunc(b.shoulders, func(s float64) bool { return math.Abs(s-x) < level })
}

// flatDimensions dimensions a flat: along the axis from the left end, and across
// two flats or from the axis in the end view.
func (b *builder) flatDimensions(f Flat, from, length, size given, both bool) {
	begin, end := geom.Point{X: f.X0, Y: f.Height}, geom.Point{X: f.X1, Y: f.Height}
	if !b.onShoulder(f.X0) {
		b.alongAxis(b.corner(), begin, Dimension{Measure: from.Measure})
	}
	if !b.onShoulder(f.X0) || !b.onShoulder(f.X1) {
		b.alongAxis(begin, end, Dimension{Measure: length.Measure})
	}
	d := Dimension{View: End, Kind: Up, A: geom.Point{}, B: geom.Point{Y: f.Height}, Measure: size.Measure}
	if both {
		d.A, d.After = geom.Point{Y: -f.Height}, "across flats"
	}
	b.add(d)
}

// crossDimensions dimensions a cross hole: its place from the left end and its
// diameter where it enters.
func (b *builder) crossDimensions(h CrossHole, at, size, depth given) {
	b.alongAxis(b.corner(), geom.Point{X: h.X, Y: b.model.Turned.Surface(h.X, 0, h.Around)}, Dimension{Measure: at.Measure})
	b.holeAcross(h, depth.deep(Dimension{Measure: size.Measure, Thread: h.Thread}))
}

// holeAcross dimensions the diameter of a cross hole where it enters.
func (b *builder) holeAcross(h CrossHole, d Dimension) {
	y, r := b.model.Turned.Surface(h.X, 0, h.Around), d.Measure.Value/2
	d.View, d.Kind = Side, Diameter
	d.A, d.B = geom.Point{X: h.X - r, Y: y}, geom.Point{X: h.X + r, Y: y}
	b.add(d)
}
