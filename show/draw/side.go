package draw

import (
	"math"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// side draws a turned part from the front: whole, or with its upper half cut
// where it is hollow.
func (c *canvas) side(t *part.Turned, cut bool) {
	upper, lower := profileOf(t.Segments), profileOf(t.Segments)
	for _, f := range t.Flats {
		switch {
		case math.Cos(f.Around) > nearlyOne:
			upper = upper.lowered(f.X0, f.X1, f.Height)
		case math.Cos(f.Around) < -nearlyOne:
			lower = lower.lowered(f.X0, f.X1, f.Height)
		}
	}
	if cut {
		c.cutHalf(t, upper)
	} else {
		c.draw(upper.half(), ink.Visible, ink.Outlines)
	}
	c.draw(mirrored(lower.half()), ink.Visible, ink.Outlines)
	c.rings(t, cut)
	c.sideThreads(t, cut)
	c.faces(t, cut)
	for _, h := range t.Cross {
		c.crossHole(t, h, cut)
	}
	if !cut && len(t.Bores) > 0 {
		c.hiddenBores(t)
	}
	c.axis(geom.Point{}, geom.Point{X: t.Length})
	c.noteSpans(t.Segments, false)
	c.noteSpans(t.Bores, true)
}

// nearlyOne is the cosine from which two directions count as one.
const nearlyOne = 1 - 1e-9

// hollow reports whether a part is worth cutting: it has more than centre holes.
func hollow(t *part.Turned) bool {
	for _, run := range hollows(t.Bores) {
		centre := false
		for _, b := range run {
			centre = centre || b.Role == part.Centre
		}
		if !centre {
			return true
		}
	}
	return false
}

// cutHalf draws the upper half cut along the axis.
func (c *canvas) cutHalf(t *part.Turned, upper profile) {
	for _, h := range t.Cross {
		if math.Cos(h.Around) > nearlyOne {
			floor := 0.0
			if !h.Through && !h.IntoBore {
				floor = max(0, t.Bottom(h))
			}
			upper = upper.lowered(h.X-h.Diameter/2, h.X+h.Diameter/2, floor)
		}
	}
	outer, inner := upper.path(), inside(t)
	region := append(geom.Path{}, outer...)
	region = connected(region, inner[len(inner)-1].To)
	region = append(region, inner.Reversed()...)
	region = connected(region, outer[0].From)
	c.hatch(region)
	for _, e := range region {
		if math.Abs(e.From.Y) > same || math.Abs(e.To.Y) > same {
			c.draw(geom.Path{e}, ink.Visible, ink.Outlines)
		}
	}
	c.mouths(t)
}

// mouths draws the edges in a bore that are seen behind the cut.
func (c *canvas) mouths(t *part.Turned) {
	for _, run := range hollows(t.Bores) {
		list := rings(run)
		first, last := run[0], run[len(run)-1]
		list = append(list, ring{first.X0, first.D0 / 2}, ring{last.X1, last.D1 / 2})
		for _, r := range list {
			if r.radius > same {
				c.line(geom.Point{X: r.x}, geom.Point{X: r.x, Y: r.radius}, ink.Visible, ink.Outlines)
			}
		}
	}
}

// rings draws the edges that run round the outside.
func (c *canvas) rings(t *part.Turned, cut bool) {
	for _, r := range rings(t.Segments) {
		up := r.radius
		if cut {
			up = 0
		}
		c.line(geom.Point{X: r.x, Y: -r.radius}, geom.Point{X: r.x, Y: up}, ink.Visible, ink.Outlines)
	}
}

// roundRadius returns the outside radius at a place along the axis, flats left
// out of account.
func roundRadius(t *part.Turned, x float64) float64 {
	for _, s := range t.Segments {
		if s.X0 <= x && x <= s.X1 {
			return s.Diameter(x) / 2
		}
	}
	return 0
}

// sideThreads draws the roots of threads as thin lines.
func (c *canvas) sideThreads(t *part.Turned, cut bool) {
	for _, s := range t.Segments {
		if s.Thread == nil {
			continue
		}
		r := s.Thread.Minor / 2
		c.line(geom.Point{X: s.X0, Y: -r}, geom.Point{X: s.X1, Y: -r}, ink.Thin, ink.Threads)
		c.line(geom.Point{X: s.X0, Y: r}, geom.Point{X: s.X1, Y: r}, ink.Thin, ink.Threads)
	}
	if !cut {
		return
	}
	for _, s := range t.Bores {
		if s.Thread == nil {
			continue
		}
		r := s.Thread.Major / 2
		c.line(geom.Point{X: s.X0, Y: r}, geom.Point{X: s.X1, Y: r}, ink.Thin, ink.Threads)
		for _, x := range []float64{s.X0, s.X1} {
			if x > same && x < t.Length-same {
				c.line(geom.Point{X: x, Y: s.Thread.Minor / 2}, geom.Point{X: x, Y: r}, ink.Visible, ink.Threads)
			}
		}
	}
}

// faces draws what says that a surface is flat or knurled: the edge of a hexagon
// in front, thin diagonals over a flat, crossed thin lines over a knurl.
func (c *canvas) faces(t *part.Turned, cut bool) {
	for _, s := range t.Segments {
		switch s.Form {
		case part.Hexagonal:
			if !cut {
				c.line(geom.Point{X: s.X0}, geom.Point{X: s.X1}, ink.Visible, ink.Outlines)
			}
		case part.Squared:
			c.diagonals(s.X0, s.X1, s.D0/2, cut)
		}
	}
	for _, f := range t.Flats {
		if math.Sin(f.Around) < nearlyOne {
			continue
		}
		radius := roundRadius(t, (f.X0+f.X1)/2)
		c.flatFace(f, math.Sqrt(max(0, radius*radius-f.Height*f.Height)), cut)
	}
	for _, k := range t.Grain {
		c.knurl(k, roundRadius(t, (k.X0+k.X1)/2), cut)
	}
}

func (c *canvas) flatFace(f part.Flat, half float64, cut bool) {
	up := half
	if cut {
		up = 0
	}
	c.draw(geom.Rectangle(geom.Point{X: f.X0, Y: -half}, geom.Point{X: f.X1, Y: up}), ink.Visible, ink.Outlines)
	c.diagonals(f.X0, f.X1, half, cut)
}

func (c *canvas) diagonals(x0, x1, half float64, cut bool) {
	up := half
	if cut {
		up = 0
	}
	c.line(geom.Point{X: x0, Y: -half}, geom.Point{X: x1, Y: up}, ink.Thin, ink.Outlines)
	c.line(geom.Point{X: x0, Y: up}, geom.Point{X: x1, Y: -half}, ink.Thin, ink.Outlines)
}

// knurl crosses thin lines at 30° to the axis over a stretch.
func (c *canvas) knurl(k part.Knurl, radius float64, cut bool) {
	up := radius
	if cut {
		up = 0
	}
	const pitch = 2.0 // mm on the paper, along the axis
	slope := math.Tan(math.Pi / 6)
	run := (up + radius) / slope
	for _, sign := range []float64{1, -1} {
		for x := k.X0 - run; x < k.X1; x += pitch / c.scale {
			from, to := max(0, (k.X0-x)/run), min(1, (k.X1-x)/run)
			y := func(t float64) float64 { return -radius + (up+radius)*(0.5+sign*(t-0.5)) }
			if to > from {
				c.line(geom.Point{X: x + from*run, Y: y(from)}, geom.Point{X: x + to*run, Y: y(to)}, ink.Thin, ink.Outlines)
			}
		}
	}
}

// crossHole draws a hole across the axis: as a circle where it is seen from
// above, else its hidden sides.
func (c *canvas) crossHole(t *part.Turned, h part.CrossHole, cut bool) {
	radius := t.Surface(h.X, 0, h.Around)
	centre := geom.Point{X: h.X}
	switch along := math.Cos(h.Around); {
	case math.Abs(along) > nearlyOne:
		c.axis(geom.Point{X: h.X, Y: -radius}, geom.Point{X: h.X, Y: radius})
		if !cut {
			c.hiddenHole(h, radius*along, along)
		}
	case math.Abs(along) < 1e-9 && (h.Through || math.Sin(h.Around) > 0):
		c.frontHole(centre, h, cut)
	}
}

func (c *canvas) frontHole(centre geom.Point, h part.CrossHole, cut bool) {
	r := h.Diameter / 2
	circle := geom.Circle(centre, r)
	if cut {
		circle = geom.Path{geom.Arc(centre, geom.Point{X: centre.X - r}, geom.Point{X: centre.X + r}, geom.Anticlockwise)}
	}
	c.draw(circle, ink.Visible, ink.Outlines)
	if h.Thread != nil && !cut {
		c.draw(threadArc(centre, h.Thread.Major/2), ink.Thin, ink.Threads)
	}
	c.axis(centre.Sub(geom.Point{Y: r}), centre.Add(geom.Point{Y: r}))
}

// hiddenHole draws the hidden sides of a hole that starts at y, inwards.
func (c *canvas) hiddenHole(h part.CrossHole, y, sign float64) {
	end := y - sign*h.Depth
	switch {
	case h.Through:
		end = -y
	case h.IntoBore:
		end = 0
	}
	for _, x := range []float64{h.X - h.Diameter/2, h.X + h.Diameter/2} {
		c.line(geom.Point{X: x, Y: y}, geom.Point{X: x, Y: end}, ink.Hidden, ink.HiddenEdges)
	}
	if !h.Through {
		c.line(geom.Point{X: h.X - h.Diameter/2, Y: end}, geom.Point{X: h.X + h.Diameter/2, Y: end}, ink.Hidden, ink.HiddenEdges)
	}
}

// hiddenBores draws the centre holes of a part that is not cut.
func (c *canvas) hiddenBores(t *part.Turned) {
	for _, run := range hollows(t.Bores) {
		p := profileOf(run).path()
		c.draw(p, ink.Hidden, ink.HiddenEdges)
		c.draw(mirrored(p), ink.Hidden, ink.HiddenEdges)
	}
}

// noteSpans notes where each diameter of the part runs. A thread in a bore is
// dimensioned by its major diameter.
func (c *canvas) noteSpans(segments []part.Segment, inside bool) {
	for _, s := range segments {
		if !inside {
			c.edges = append(c.edges, c.on(geom.Point{X: s.X0}).X, c.on(geom.Point{X: s.X1}).X)
		}
		d := s.D0
		if inside && s.Thread != nil {
			d = s.Thread.Major
		}
		if s.Form != part.Rounded && s.D0 == s.D1 {
			c.spans = append(c.spans, span{c.on(geom.Point{X: s.X0}), c.on(geom.Point{X: s.X1}), d / 2 * c.scale, inside})
		}
	}
}
