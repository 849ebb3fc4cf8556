package draw

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// showsInEnd reports whether an end view shows what a diameter cannot say.
func showsInEnd(t *part.Turned) bool {
	for _, s := range t.Segments {
		if s.Form == part.Hexagonal || s.Form == part.Squared {
			return true
		}
	}
	return len(t.Flats) > 0 || slices.ContainsFunc(t.Cross, func(h part.CrossHole) bool { return math.Abs(math.Cos(h.Around)) < nearlyOne })
}

// end draws a turned part from its right end, the y axis up: a direction around
// the axis is counted from there, to the left.
func (c *canvas) end(t *part.Turned) {
	largest := 0.0
	seen := 0.0
	for _, s := range slices.Backward(t.Segments) {
		for _, d := range []float64{s.D1, s.D0} {
			if r := d / 2; corner(s, r) > seen+same && s.Form != part.Rounded {
				c.endOutline(t, s, r)
				seen = corner(s, r)
			}
		}
		largest = max(largest, corner(s, max(s.D0, s.D1)/2))
		if s.Thread != nil && seen <= s.D1/2+same {
			c.draw(threadArc(geom.Point{}, s.Thread.Minor/2), ink.Thin, ink.Threads)
		}
	}
	c.endBores(t)
	for _, h := range t.Cross {
		c.endCross(t, h)
	}
	c.cross(geom.Point{}, largest)
}

// corner returns how far a segment reaches from the axis.
func corner(s part.Segment, radius float64) float64 {
	switch s.Form {
	case part.Hexagonal:
		return radius / math.Cos(math.Pi/6)
	case part.Squared:
		return radius * math.Sqrt2
	}
	return radius
}

// endOutline draws the outline of a segment across the axis.
func (c *canvas) endOutline(t *part.Turned, s part.Segment, r float64) {
	switch s.Form {
	case part.Hexagonal:
		c.draw(regular(6, r, math.Pi/6), ink.Visible, ink.Outlines)
		return
	case part.Squared:
		c.draw(regular(4, r, math.Pi/4), ink.Visible, ink.Outlines)
		return
	}
	c.draw(flattened(t, s, r), ink.Visible, ink.Outlines)
}

// regular returns a regular polygon about the origin by its inner radius, a flat
// at the top.
func regular(sides int, inner, half float64) geom.Path {
	points := make([]geom.Point, sides)
	for i := range points {
		points[i] = geom.Polar(inner/math.Cos(half), math.Pi/2+half+float64(i)*2*half)
	}
	return geom.Polygon(points...)
}

// flattened returns the circle of a segment with the flats milled on it.
func flattened(t *part.Turned, s part.Segment, r float64) geom.Path {
	type cut struct{ from, to float64 }
	var cuts []cut
	for _, f := range t.Flats {
		if f.X0 < s.X1-same && f.X1 > s.X0+same && f.Height < r {
			middle, half := math.Pi/2+f.Around, math.Acos(f.Height/r)
			cuts = append(cuts, cut{math.Mod(middle-half+4*math.Pi, 2*math.Pi), math.Mod(middle-half+4*math.Pi, 2*math.Pi) + 2*half})
		}
	}
	if len(cuts) == 0 {
		return geom.Circle(geom.Point{}, r)
	}
	slices.SortFunc(cuts, func(a, b cut) int { return int(math.Copysign(1, a.from-b.from)) })
	var p geom.Path
	for i, k := range cuts {
		next := cuts[(i+1)%len(cuts)].from
		from, to := geom.Polar(r, k.from), geom.Polar(r, k.to)
		p = append(p, geom.Line(from, to))
		if end := geom.Polar(r, next); end.Distance(to) > same {
			p = append(p, geom.Arc(geom.Point{}, to, end, geom.Anticlockwise))
		}
	}
	return p
}

// endBores draws the bores seen from the right end.
func (c *canvas) endBores(t *part.Turned) {
	runs := hollows(t.Bores)
	if len(runs) == 0 {
		return
	}
	run := runs[len(runs)-1]
	if run[len(run)-1].X1 < t.Length-same {
		return
	}
	seen := math.Inf(1)
	for _, s := range slices.Backward(run) {
		for _, d := range []float64{s.D1, s.D0} {
			if d > same && d < seen-same && s.Form != part.Rounded {
				c.draw(geom.Circle(geom.Point{}, d/2), ink.Visible, ink.Outlines)
				seen = d
			}
		}
		if s.Thread != nil {
			c.draw(threadArc(geom.Point{}, s.Thread.Major/2), ink.Thin, ink.Threads)
		}
	}
}

// endCross draws the hidden sides of a hole across the axis.
func (c *canvas) endCross(t *part.Turned, h part.CrossHole) {
	start := t.Surface(h.X, 0, h.Around)
	end := start - h.Depth
	switch {
	case h.Through:
		end = -start
	case h.IntoBore:
		end = 0
	}
	out := geom.Polar(1, math.Pi/2+h.Around)
	side := out.Left().Times(h.Diameter / 2)
	for _, s := range []geom.Point{side, side.Times(-1)} {
		c.line(out.Times(start).Add(s), out.Times(end).Add(s), ink.Hidden, ink.HiddenEdges)
	}
	if !h.Through {
		c.line(out.Times(end).Add(side), out.Times(end).Sub(side), ink.Hidden, ink.HiddenEdges)
	}
}

// threadArc is the root of a thread seen along its axis: three quarters of a
// circle (ISO 6410-1), open at the upper right.
func threadArc(centre geom.Point, radius float64) geom.Path {
	from, to := 100*math.Pi/180, 370*math.Pi/180
	return geom.Path{geom.Arc(centre, centre.Add(geom.Polar(radius, from)), centre.Add(geom.Polar(radius, to)), geom.Anticlockwise)}
}
