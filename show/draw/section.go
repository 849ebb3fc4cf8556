package draw

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// ceiling is what bounds the metal of a section from above between two places
// along x: a straight line from z0 to z1.
type ceiling struct {
	x0, x1, z0, z1 float64
}

// at returns the height of the ceiling at x.
func (k ceiling) at(x float64) float64 { return k.z0 + (k.z1-k.z0)*(x-k.x0)/(k.x1-k.x0) }

// gone is the ceiling where nothing is left.
const gone = -1

// sectionLine returns the y at which a section of a prism shows the most, and
// whether one shows anything.
func sectionLine(p *part.Prism) (y float64, worth bool) {
	var list []float64
	for _, h := range p.Holes {
		if deep(h) || h.Thread != nil {
			list = append(list, h.At.Y)
		}
	}
	for _, s := range p.Slots {
		if !s.Through {
			list = append(list, geom.Middle(s.From, s.To).Y)
		}
	}
	for _, l := range p.Ledges {
		box := l.Outline.Bounds()
		list = append(list, geom.Middle(box.Low, box.High).Y)
	}
	most := 0
	for _, candidate := range list {
		n := 0
		for _, other := range list {
			if math.Abs(candidate-other) < 1e-6 {
				n++
			}
		}
		if n > most {
			y, most = candidate, n
		}
	}
	return y, most > 0
}

// ceilings returns all that is taken from a prism where it is cut along y.
func ceilings(p *part.Prism, y float64) []ceiling {
	var list []ceiling
	for _, h := range p.Holes {
		if crossed(h, y) {
			list = append(list, holeCeilings(p, h)...)
		}
	}
	cut := func(outline geom.Path, floor float64) {
		at := crossingsAt(outline, y)
		for i := 1; i < len(at); i += 2 {
			list = append(list, ceiling{at[i-1], at[i], floor, floor})
		}
	}
	for _, s := range p.Slots {
		floor := float64(gone)
		if !s.Through {
			floor = p.Floor(geom.Middle(s.From, s.To))
		}
		cut(s.Outline(), floor)
	}
	for _, l := range p.Ledges {
		cut(l.Outline, p.Height-l.Depth)
	}
	return append(list, bevels(p, y)...)
}

// bevels returns what the chamfer of the upper edge takes.
func bevels(p *part.Prism, y float64) []ceiling {
	var list []ceiling
	for i, x := range crossingsAt(p.Outline, y) {
		width := bevel(p, geom.Point{X: x, Y: y})
		high, low := topAt(p, x), topAt(p, x)-p.Chamfer
		switch {
		case width == 0:
		case i%2 == 0:
			list = append(list, ceiling{x, x + width, low, high})
		default:
			list = append(list, ceiling{x - width, x, high, low})
		}
	}
	return list
}

// bevel returns how wide the chamfer is along x at a point of the outline.
func bevel(p *part.Prism, at geom.Point) float64 {
	if p.Chamfer == 0 {
		return 0
	}
	return p.Chamfer * slant(p.Outline, at)
}

func holeCeilings(p *part.Prism, h part.Hole) []ceiling {
	x, r := h.At.X, h.Diameter/2
	face, floor := p.Floor(h.At), float64(gone)
	if !h.Through {
		floor = face - h.Depth
	}
	var list []ceiling
	if h.Through {
		list = append(list, ceiling{x - r, x + r, floor, floor})
	} else {
		tip := floor - part.PointLength(h.Diameter)
		list = append(list, ceiling{x - r, x, floor, tip}, ceiling{x, x + r, tip, floor})
	}
	if b := h.CounterboreD / 2; b > 0 {
		list = append(list, ceiling{x - b, x + b, face - h.CounterboreH, face - h.CounterboreH})
	}
	if s := h.CountersinkD / 2; s > r {
		list = append(list, ceiling{x - s, x - r, face, face - (s - r)}, ceiling{x + r, x + s, face - (s - r), face})
	}
	return list
}

// slabs cuts the section into strips along x with a straight top each, what is
// gone left out.
func slabs(p *part.Prism, y float64) []ceiling {
	cuts := ceilings(p, y)
	var metal []ceiling
	at := crossingsAt(p.Outline, y)
	for i := 1; i < len(at); i += 2 {
		metal = append(metal, ceiling{at[i-1], at[i], topAt(p, at[i-1]), topAt(p, at[i])})
	}
	var xs []float64
	for _, k := range append(slices.Clone(metal), cuts...) {
		xs = append(xs, k.x0, k.x1)
	}
	slices.Sort(xs)
	var list []ceiling
	for i := 1; i < len(xs); i++ {
		if xs[i]-xs[i-1] < 1e-7 {
			continue
		}
		middle := (xs[i] + xs[i-1]) / 2
		covers := func(k ceiling) bool { return k.x0 < middle && middle < k.x1 }
		if !slices.ContainsFunc(metal, covers) {
			continue
		}
		strip := ceiling{xs[i-1], xs[i], topAt(p, xs[i-1]), topAt(p, xs[i])}
		for _, k := range cuts {
			if covers(k) && k.at(middle) < strip.at(middle) {
				strip.z0, strip.z1 = k.at(strip.x0), k.at(strip.x1)
			}
		}
		if strip.at(middle) > 0 {
			list = append(list, strip)
		}
	}
	return list
}

// regions returns the closed outlines of the metal that is cut along y.
func regions(p *part.Prism, y float64) []geom.Path {
	strips := slabs(p, y)
	var list []geom.Path
	for from := 0; from < len(strips); {
		to := from + 1
		for to < len(strips) && strips[to].x0-strips[to-1].x1 < 1e-7 {
			to++
		}
		points := footing(p, geom.Point{X: strips[from].x0, Y: y}, geom.Point{X: strips[to-1].x1, Y: y})
		for i := to - 1; i >= from; i-- {
			points = append(points, geom.Point{X: strips[i].x1, Y: strips[i].z1}, geom.Point{X: strips[i].x0, Y: strips[i].z0})
		}
		list = append(list, geom.Polygon(slices.CompactFunc(points, func(a, b geom.Point) bool { return a.Distance(b) < same })...))
		from = to
	}
	return list
}

// footing returns the lower side of a region from one place in the plan to
// another, with the chamfer where it reaches the outline.
func footing(p *part.Prism, from, to geom.Point) []geom.Point {
	var points []geom.Point
	for i, at := range []geom.Point{from, to} {
		side := float64(1 - 2*i)
		width := 0.0
		if p.Outline.DistanceTo(at) < 1e-6 {
			width = bevel(p, at)
		}
		ends := []geom.Point{{X: at.X, Y: p.Chamfer}, {X: at.X + side*width}}
		if width == 0 {
			ends = ends[1:]
		}
		if i == 1 {
			slices.Reverse(ends)
		}
		points = append(points, ends...)
	}
	return points
}

// cutEdge draws the section along y and what is seen behind it.
func (c *canvas) cutEdge(p *part.Prism, y float64) {
	cut := regions(p, y)
	for _, r := range cut {
		c.draw(r, ink.Visible, ink.Outlines)
	}
	c.hatch(cut...)
	c.behind(p, y)
	for _, h := range p.Holes {
		if crossed(h, y) {
			c.cutHole(p, h)
		}
	}
}

// behind draws the outline beyond the section.
func (c *canvas) behind(p *part.Prism, y float64) {
	box, at := p.Outline.Bounds(), crossingsAt(p.Outline, y)
	ends := append(append([]float64{box.Low.X}, at...), box.High.X)
	for i := 1; i < len(ends); i += 2 {
		if ends[i]-ends[i-1] < 1e-6 {
			continue
		}
		c.line(geom.Point{X: ends[i-1]}, geom.Point{X: ends[i]}, ink.Visible, ink.Outlines)
		c.line(geom.Point{X: ends[i-1], Y: topAt(p, ends[i-1])}, geom.Point{X: ends[i], Y: topAt(p, ends[i])}, ink.Visible, ink.Outlines)
	}
	for _, x := range []float64{box.Low.X, box.High.X} {
		if len(at) > 0 && (x < at[0]-1e-6 || x > at[len(at)-1]+1e-6) {
			c.line(geom.Point{X: x}, geom.Point{X: x, Y: topAt(p, x)}, ink.Visible, ink.Outlines)
		}
	}
	for _, l := range p.Ledges {
		if l.Outline.Bounds().High.Y < box.High.Y-same {
			c.topBehind(p, crossingsAt(l.Outline, y))
		}
	}
	for _, s := range p.Slots {
		at := crossingsAt(s.Outline(), y)
		c.topBehind(p, at)
		if s.Through && len(at) == 2 {
			c.line(geom.Point{X: at[0]}, geom.Point{X: at[1]}, ink.Visible, ink.Outlines)
		}
	}
}

// topBehind draws the top face's edge behind an opening.
func (c *canvas) topBehind(p *part.Prism, at []float64) {
	for i := 1; i < len(at); i += 2 {
		c.line(geom.Point{X: at[i-1], Y: topAt(p, at[i-1])}, geom.Point{X: at[i], Y: topAt(p, at[i])}, ink.Visible, ink.Outlines)
	}
}

// cutHole draws the edges of a hole behind the section, its thread and its axis.
func (c *canvas) cutHole(p *part.Prism, h part.Hole) {
	across := func(r, z float64) {
		c.line(geom.Point{X: h.At.X - r, Y: z}, geom.Point{X: h.At.X + r, Y: z}, ink.Visible, ink.Outlines)
	}
	r, face, floor := h.Diameter/2, p.Floor(h.At), 0.0
	if !h.Through {
		floor = face - h.Depth
	}
	across(max(r, h.CounterboreD/2, h.CountersinkD/2), face)
	across(r, floor)
	top := face
	switch {
	case h.CounterboreD > 0:
		top -= h.CounterboreH
		across(r, top)
	case h.CountersinkD > 0:
		top -= (h.CountersinkD - h.Diameter) / 2
		across(r, top)
	}
	if h.Thread != nil {
		for _, x := range []float64{h.At.X - h.Thread.Major/2, h.At.X + h.Thread.Major/2} {
			c.line(geom.Point{X: x, Y: floor}, geom.Point{X: x, Y: top}, ink.Thin, ink.Threads)
		}
	}
	low := floor
	if !h.Through {
		low -= part.PointLength(h.Diameter)
	}
	c.axis(geom.Point{X: h.At.X, Y: low}, geom.Point{X: h.At.X, Y: face})
}

// The letter of the section and how its cutting line is marked, in mm.
const (
	sectionLetter = "A"
	letterHeight  = 4.0
	markLength    = 7.0
	markGap       = 5.0
)

// sectionTitle writes over the view which section it is.
func (c *canvas) sectionTitle() {
	at := geom.Point{X: geom.Middle(c.outline.Low, c.outline.High).X, Y: c.outline.High.Y + 5}
	c.add(ink.Text{At: at, Words: sectionLetter + "–" + sectionLetter, Height: letterHeight, Align: ink.Centred, Layer: ink.Notes})
}

// sectionMarks marks in the plan, beside what is there, where the section runs
// and that it is looked at from the front. It reports whether there was room.
func (c *canvas) sectionMarks(y float64) bool {
	const steps, step = 40, 2.0
	for _, side := range []float64{-1, 1} {
		free := false
		for i := 0; i < steps && !free; i++ {
			free = c.addIfFree(c.sectionMark(y*c.scale, side, markGap+step*float64(i)))
		}
		if !free {
			return false
		}
	}
	return true
}

// addIfFree adds marks that belong together where they lie over nothing.
func (c *canvas) addIfFree(marks []ink.Mark) bool {
	var own space
	for _, m := range marks {
		own.take(m, c.owners+1)
	}
	if _, free := c.space.cost(&own, math.Inf(1)); !free {
		return false
	}
	for _, m := range marks {
		c.add(m)
	}
	return true
}

// sectionMark is the mark on one side of the plan, so far from it.
func (c *canvas) sectionMark(level, side, gap float64) []ink.Mark {
	x := c.outline.Low.X
	if side > 0 {
		x = c.outline.High.X
	}
	inner, outer := geom.Point{X: x + side*gap, Y: level}, geom.Point{X: x + side*(gap+markLength), Y: level}
	tip := outer.Sub(geom.Point{X: side})
	tail := tip.Sub(geom.Point{Y: markLength})
	return []ink.Mark{
		ink.Stroke{Path: geom.Polyline(inner, outer), Kind: ink.Visible, Layer: ink.Notes},
		ink.Stroke{Path: geom.Polyline(tail, tip), Kind: ink.Thin, Layer: ink.Notes},
		ink.Area{Path: head(tip, geom.Point{Y: 1}).Path, Tone: 1, Layer: ink.Notes},
		ink.Text{At: tail.Sub(geom.Point{Y: letterHeight + 1}), Words: sectionLetter, Height: letterHeight, Align: ink.Centred, Layer: ink.Notes},
	}
}
