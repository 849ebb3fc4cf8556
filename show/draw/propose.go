package draw

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// Where dimension lines stand: rows at these distances from the outline of the
// view, in mm.
const (
	firstRow = 9.0
	rowPitch = 7.5
	mostRows = 12
)

// What speaks against a way of placing before it is tried: our choice, by eye.
const (
	costOfRow        = 8.0
	costOfSide       = 20.0 // on the side where such dimensions do not belong
	costOfInside     = 60.0 // of a bore on the side of the half that is not cut
	costOfOutside    = 4.0  // text beyond its projection lines
	costOfShift      = 2.0  // text not in the middle of its line
	costOfAcross     = 8.0  // a diameter between arrows from outside
	costOfLength     = 0.25 // of each mm of a leader
	costOfLevel      = 3.0  // a leader that does not rise at about 45°
	costWithinPart   = 12.0 // a note on the part itself
	costOfLastResort = 90.0 // a length on the part itself, where that is no plan
	costOfFarLine    = 0.25 // of each mm of projection line
)

// spot is a dimension of the part scaled to its canvas.
type spot struct {
	*part.Dimension
	a, b, vertex geom.Point
	figure       *figure
	half         bool // of the cut half of a half section: the other end is not seen
}

// wish returns the ways to place a dimension of the part.
func (c *canvas) wish(s spot) wish {
	switch s.Kind {
	case part.Across, part.Up, part.Aligned:
		return c.wishLinear(s)
	case part.Diameter:
		if s.straightAcross() {
			return c.wishAcross(s)
		}
		return c.wishCircle(s)
	case part.Radius:
		return c.wishRadius(s)
	case part.Angle:
		return c.arcs(angular{vertex: s.vertex, a: s.a, b: s.b, figure: s.figure, measures: s.Measure.Value * 180 / math.Pi})
	}
	return c.notes(s.a, s.figure)
}

// straightAcross reports whether a diameter is given by its two ends rather than
// by the centre of a circle and a point on it.
func (s *spot) straightAcross() bool {
	if s.View == part.Plan || s.View == part.End {
		return false
	}
	whole := s.Measure.Value
	if s.Thread != nil {
		whole = s.Thread.Major
	}
	between := s.A.Distance(s.B)
	return math.Abs(between-whole) < math.Abs(2*between-whole)
}

// wishLinear proposes rows on either side of the view.
func (c *canvas) wishLinear(s spot) wish {
	direction := map[part.DimensionKind]float64{part.Across: 0, part.Up: math.Pi / 2}[s.Kind]
	if s.Kind == part.Aligned {
		direction = readable(s.b.Sub(s.a).Angle())
	}
	l := linear{a: s.a, b: s.b, direction: direction, inside: s.Inside, figure: s.figure, measures: s.Measure.Value}
	l.mirrored = c.allRound(s)
	w := c.rows(l, c.preferred(s))
	cost := costWithinPart + costOfRow
	if s.View != part.Plan {
		cost = costOfLastResort
	}
	w.proposals = append(w.proposals, c.near(l, cost)...)
	w.upright = s.Kind == part.Across
	return w
}

// preferred returns the side of the view, 1 to the left of the reading direction
// and so above or left, where a dimension belongs. Lengths go below, those of a
// bore above beside the section; heights go to the nearer side.
func (c *canvas) preferred(s spot) float64 {
	middle := geom.Middle(c.outline.Low, c.outline.High)
	switch {
	case s.Kind == part.Up || s.Kind == part.Diameter:
		if geom.Middle(s.a, s.b).X > middle.X {
			return -1
		}
		return 1
	case s.Kind == part.Across && (s.Inside || s.View == part.Side && s.A.Y > 0 && !c.allRound(s)):
		return 1
	case s.Kind == part.Aligned:
		if geom.Middle(s.a, s.b).Y > middle.Y {
			return 1
		}
	}
	return -1
}

// allRound reports whether a length of a turned part is between edges that run
// round it, so that it can be taken above the axis or below.
func (c *canvas) allRound(s spot) bool {
	onEdge := func(p geom.Point) bool {
		return slices.ContainsFunc(c.edges, func(x float64) bool { return math.Abs(x-p.X) < 1e-6 })
	}
	return s.View == part.Side && s.Kind == part.Across && !s.Inside && onEdge(s.a) && onEdge(s.b)
}

// readable turns a direction so that text along it is read from below or from
// the right.
func readable(direction float64) float64 {
	const upright = math.Pi/2 + 1e-9
	switch {
	case direction > upright:
		return direction - math.Pi
	case direction <= -math.Pi/2+1e-9:
		return direction + math.Pi
	}
	return direction
}

// rows proposes the rows on both sides of the outline.
func (c *canvas) rows(l linear, side float64) wish {
	along, across := l.axes()
	low, high := c.reach(across)
	w := wish{order: math.Abs(l.b.Sub(l.a).Dot(along)), ends: []geom.Point{l.a, l.b}, side: side}
	wrong := costOfSide
	if l.inside {
		wrong = costOfInside
	}
	for row := range mostRows {
		for _, on := range []float64{side, -side} {
			l.v = high + firstRow + float64(row)*rowPitch
			cost := costOfRow * float64(row)
			if on < 0 {
				l.v = low - firstRow - float64(row)*rowPitch
			}
			if on != side {
				cost += wrong
			}
			plan := l.onSide(on)
			cost += costOfFarLine * (math.Abs(l.v-plan.a.Dot(across)) + math.Abs(l.v-plan.b.Dot(across)))
			w.proposals = append(w.proposals, plan.texts(cost)...)
		}
	}
	return w
}

// onSide returns the plan with the ends where the part has them nearest to the
// line on this side: on that side of the axis, or at that end of a stretch.
func (l linear) onSide(side float64) linear {
	if l.mirrored {
		l.a.Y, l.b.Y = side*math.Abs(l.a.Y), side*math.Abs(l.b.Y)
	}
	if l.stretch != nil {
		to := l.stretch[0]
		if side > 0 {
			to = l.stretch[1]
		}
		return l.endsAt(to)
	}
	return l
}

// endsAt returns the plan with its ends moved across to v.
func (l linear) endsAt(v float64) linear {
	_, across := l.axes()
	shift := across.Times(v - l.a.Dot(across))
	l.a, l.b = l.a.Add(shift), l.b.Add(shift)
	return l
}

// near proposes lines on the part itself, near what is dimensioned.
func (c *canvas) near(l linear, cost float64) []proposal {
	_, across := l.axes()
	at := l.a.Dot(across)
	var list []proposal
	for _, away := range []float64{firstRow, -firstRow, firstRow + rowPitch, -firstRow - rowPitch, firstRow + 2*rowPitch, -firstRow - 2*rowPitch} {
		if l.v = at + away; c.within(geom.Middle(l.a, l.b).Add(across.Times(away))) {
			list = append(list, l.texts(cost+math.Abs(away))...)
		}
	}
	return list
}

// reach returns how far the outline goes in a direction, both ways.
func (c *canvas) reach(axis geom.Point) (low, high float64) {
	middle := geom.Middle(c.outline.Low, c.outline.High).Dot(axis)
	half := c.outline.Size().Times(0.5)
	far := math.Abs(axis.X)*half.X + math.Abs(axis.Y)*half.Y
	return middle - far, middle + far
}

// texts proposes where the text of a dimension line may stand.
func (l linear) texts(cost float64) []proposal {
	along, _ := l.axes()
	low, high := l.a.Dot(along), l.b.Dot(along)
	if low > high {
		low, high = high, low
	}
	l.outside = high-low < 2*headLength+2
	var list []proposal
	propose := func(from, more float64) {
		plan := l
		plan.textFrom = from
		list = append(list, proposal{cost + more, &plan})
	}
	if free := high - low - l.figure.width - 2*textPad; free >= 0 {
		for _, shift := range []float64{0, -0.5, 0.5, -1, 1} {
			propose((low+high-l.figure.width)/2+shift*free/2, costOfShift*math.Abs(shift))
		}
	}
	behind := overshoot
	if l.outside {
		behind = headLength + textPad
	}
	propose(high+behind, costOfOutside)
	propose(low-behind-l.figure.width, costOfOutside+0.1)
	return list
}

// acrossFirst puts diameters before all else: they have the fewest good places.
const acrossFirst = 1e4

// wishAcross proposes a diameter seen from the side: in rows beyond the ends of
// the view, or between arrows from outside.
func (c *canvas) wishAcross(s spot) wish {
	l := linear{a: s.a, b: s.b, direction: readable(s.b.Sub(s.a).Angle()), figure: s.figure, measures: s.Measure.Value}
	l.stretch = c.stretch(s, l)
	if s.half {
		return c.halfRows(s, l)
	}
	w := c.rows(l, c.preferred(s))
	w.order -= acrossFirst
	for _, from := range l.standings() {
		plan := l.endsAt(from)
		if !c.touches(plan.a) || !c.touches(plan.b) {
			continue // something is milled away there
		}
		plan.v, plan.outside, plan.open = from, true, true
		w.proposals = append(w.proposals, c.across(plan)...)
	}
	w.upright = l.direction == 0
	return w
}

// stretch returns from where to where the part has this diameter, nil where that
// is one place.
func (c *canvas) stretch(s spot, l linear) *[2]float64 {
	const near = 1e-6
	_, across := l.axes()
	at, radius := s.a.Dot(across), s.a.Distance(s.b)/2
	for _, sp := range c.spans {
		low, high := sp.from.Dot(across), sp.to.Dot(across)
		if low > high {
			low, high = high, low
		}
		if sp.inside == s.Inside && math.Abs(sp.radius-radius) < near*radius && at >= low-near && at <= high+near {
			return &[2]float64{low, high}
		}
	}
	return nil
}

// standings returns where a dimension line can stand across the part, the middle
// first: nowhere in a groove as narrow as its arrowheads.
func (l *linear) standings() []float64 {
	if l.stretch == nil {
		_, across := l.axes()
		return []float64{l.a.Dot(across)}
	}
	low, high := l.stretch[0], l.stretch[1]
	if high-low < 2*headWidth {
		return nil
	}
	middle, free := (low+high)/2, max(0, (high-low)/2-1)
	return []float64{middle, middle - free/2, middle + free/2, middle - free, middle + free}
}

// across proposes texts beyond either end of a dimension line that stands across
// the part, near it and further out.
func (c *canvas) across(l linear) []proposal {
	along, _ := l.axes()
	low, high := min(l.a.Dot(along), l.b.Dot(along)), max(l.a.Dot(along), l.b.Dot(along))
	outlineLow, outlineHigh := c.reach(along)
	var list []proposal
	propose := func(from, more float64) {
		plan := l
		plan.textFrom = from
		list = append(list, proposal{costOfAcross + more, &plan})
	}
	for step := range 6 {
		out := headLength + textPad + 8*float64(step)
		cost := 2 * float64(step)
		propose(high+out, cost)
		propose(low-out-l.figure.width, cost+3)
		propose(outlineHigh+out, cost+1)
		propose(outlineLow-out-l.figure.width, cost+4)
	}
	return list
}

// halfRows proposes a diameter of which only one end is seen: its line runs a
// little past the axis.
func (c *canvas) halfRows(s spot, l linear) wish {
	l.half = true
	along, _ := l.axes()
	if l.a.Dot(along) < l.b.Dot(along) {
		l.a, l.b = l.b, l.a
	}
	from := l.a.Dot(along)
	l.end = min(geom.Middle(l.a, l.b).Dot(along)-4, from-headLength-2*textPad-l.figure.width)
	rows := c.rows(l, c.preferred(s))
	w := wish{order: rows.order, ends: rows.ends[:1], side: rows.side}
	for _, p := range rows.proposals {
		plan := *p.plan.(*linear)
		plan.outside = false
		plan.textFrom = l.end + textPad/2
		w.proposals = append(w.proposals, proposal{p.cost, &plan})
	}
	return w
}

// arcs proposes arcs of growing radius about the vertex of an angle, beyond its
// legs, and on the part where the vertex is a corner of it.
func (c *canvas) arcs(g angular) wish {
	legs := []float64{g.a.Distance(g.vertex), g.b.Distance(g.vertex)}
	w := wish{order: min(legs[0], legs[1])}
	corner := c.touches(g.vertex)
	const steps = 14
	for step := range steps {
		row := firstRow + rowPitch*float64(step)
		radii := []float64{max(legs[0], legs[1]) + row}
		if corner {
			radii = append(radii, row)
		}
		for _, radius := range radii {
			for _, beyond := range []int{0, 1, -1} {
				plan := g
				plan.radius, plan.beyond = radius, beyond
				w.proposals = append(w.proposals, proposal{5*float64(step) + costOfOutside*math.Abs(float64(beyond)), &plan})
			}
		}
	}
	return w
}

// touches reports whether a point lies on what is drawn of the part.
func (c *canvas) touches(p geom.Point) bool {
	for i := range c.space.pieces {
		if q := &c.space.pieces[i]; q.trace == edgeTrace && q.distanceTo(p) < 2*flatness {
			return true
		}
	}
	return false
}
