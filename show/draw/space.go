package draw

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// trace is what a piece of line is for, where it meets other marks.
type trace uint8

const (
	edgeTrace       trace = iota // of the part: outlines, hidden edges, threads
	hatchTrace                   // of a cut face
	axisTrace                    // a centre line
	tableTrace                   // a frame or the rule of a table, or an area that hides what is under it
	dimensionTrace               // a dimension line
	projectionTrace              // from the part to a dimension line
	leaderTrace                  // from a note to the part
)

// piece is a straight piece of line on the paper. What belongs to one dimension
// has the same owner; the owner of other marks is 0.
type piece struct {
	a, b  geom.Point
	box   geom.Box
	trace trace
	owner int
	freeA bool // a is an end of the whole line
	freeB bool
}

func newPiece(a, b geom.Point, as trace, owner int) piece {
	low := geom.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)}
	high := geom.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)}
	return piece{a: a, b: b, box: geom.Box{Low: low, High: high}, trace: as, owner: owner}
}

// plate is a rectangle at any angle that a text or an arrowhead takes up.
type plate struct {
	centre, along geom.Point // along is of unit length
	half          geom.Point // half the length along, half the width across
	box           geom.Box
	owner         int
	words         string // empty for an arrowhead
}

func newPlate(centre, along, half geom.Point, owner int, words string) plate {
	b := plate{centre: centre, along: along, half: half, owner: owner, words: words}
	reach := geom.Point{X: b.reach(geom.Point{X: 1}), Y: b.reach(geom.Point{Y: 1})}
	b.box = geom.Box{Low: centre.Sub(reach), High: centre.Add(reach)}
	return b
}

// separate reports whether two boxes lie farther apart than gap.
func separate(a, b *geom.Box, gap float64) bool {
	return a.High.X+gap < b.Low.X || b.High.X+gap < a.Low.X || a.High.Y+gap < b.Low.Y || b.High.Y+gap < a.Low.Y
}

// space is what is taken on a sheet.
type space struct {
	pieces []piece
	plates []plate
}

// flatness is how far the chords that stand for an arc lie from it, in mm.
const flatness = 0.05

// take enters a mark; owner tells dimensions apart.
func (s *space) take(m ink.Mark, owner int) {
	switch m := m.(type) {
	case ink.Stroke:
		s.takePath(m.Path, traceOf(m), owner)
	case ink.Area:
		s.takeArea(m, owner)
	case ink.Text:
		s.plates = append(s.plates, textPlate(m, owner))
	case ink.Dimension:
		for _, part := range m.Parts {
			if stroke, ok := part.(ink.Stroke); ok {
				s.takePath(stroke.Path, traceIn(m, stroke), owner)
				continue
			}
			s.take(part, owner)
		}
	}
}

func (s *space) takePath(p geom.Path, as trace, owner int) {
	first := len(s.pieces)
	for _, e := range p {
		points := geom.Path{e}.Flatten(flatness)
		for i := 1; i < len(points); i++ {
			s.pieces = append(s.pieces, newPiece(points[i-1], points[i], as, owner))
		}
	}
	if list := s.pieces[first:]; len(list) > 0 && as >= dimensionTrace {
		list[0].freeA, list[len(list)-1].freeB = true, true
	}
}

// lightTint is the tone up to which words can be read over an area.
const lightTint = 0.3

func (s *space) takeArea(a ink.Area, owner int) {
	switch {
	case a.Layer == ink.Dimensions && len(a.Path) == 3:
		s.plates = append(s.plates, headPlate(a.Path, owner))
	case a.Tone > lightTint:
		s.takePath(a.Path, tableTrace, owner)
	}
}

// traceOf returns what a stroke that is no part of a dimension is for.
func traceOf(s ink.Stroke) trace {
	switch {
	case s.Kind == ink.Hatching:
		return hatchTrace
	case s.Kind == ink.CentreLine:
		return axisTrace
	case s.Kind == ink.Frame || s.Kind == ink.Rule || s.Kind == ink.Ghost:
		return tableTrace
	case s.Layer == ink.Dimensions || s.Layer == ink.Notes:
		return leaderTrace
	}
	return edgeTrace
}

// traceIn returns what a stroke of the dimension is for: the dimension line runs
// along its direction through LineAt, or is the arc about the vertex.
func traceIn(d ink.Dimension, s ink.Stroke) trace {
	const near = 1e-6
	switch d.Kind {
	case ink.Diametral, ink.Radial, ink.Leader:
		return leaderTrace
	case ink.Angular:
		if s.Path[0].Turn != geom.Straight {
			return dimensionTrace
		}
		return projectionTrace
	}
	normal := geom.Polar(1, d.Direction).Left()
	for _, e := range s.Path {
		if math.Abs(e.From.Sub(d.LineAt).Dot(normal)) > near || math.Abs(e.To.Sub(d.LineAt).Dot(normal)) > near {
			return projectionTrace
		}
	}
	return dimensionTrace
}

// The reach of letters below the base line and above the capitals, as parts of
// the capitals' height, for the room that a text takes.
const (
	descent = 0.3
	ascent  = 0.08
)

func textPlate(t ink.Text, owner int) plate {
	width := ink.Width(t.Words, t.Height, t.Bold)
	shift := width / 2
	switch t.Align {
	case ink.Centred:
		shift = 0
	case ink.RightAligned:
		shift = -width / 2
	}
	along := geom.Polar(1, t.Angle)
	low, high := -descent*t.Height, (1+ascent)*t.Height
	centre := t.At.Add(along.Times(shift)).Add(along.Left().Times((low + high) / 2))
	return newPlate(centre, along, geom.Point{X: width / 2, Y: (high - low) / 2}, owner, t.Words)
}

// headPlate returns the room an arrowhead takes, less its tip, which may touch
// what it points at.
func headPlate(p geom.Path, owner int) plate {
	tip, back := p[0].From, geom.Middle(p[1].From, p[2].From)
	along := back.Sub(tip).Unit()
	const free = 0.4
	half := geom.Point{X: (back.Distance(tip) - free) / 2, Y: p[1].From.Distance(p[2].From) / 2}
	return newPlate(geom.Middle(tip.Add(along.Times(free)), back), along, half, owner, "")
}

// endFree is what a line of a dimension is shortened by at its ends before it is
// held against others: it may touch what it belongs to.
const endFree = 0.3

func (p *piece) shortened() piece {
	a, b := p.a, p.b
	along := b.Sub(a)
	if l := along.Length(); l > 2*endFree {
		along = along.Times(endFree / l)
	} else {
		along = along.Times(0.5)
	}
	if p.freeA {
		a = a.Add(along)
	}
	if p.freeB {
		b = b.Sub(along)
	}
	return newPiece(a, b, p.trace, p.owner)
}

// apart reports whether two pieces lie farther from each other than gap.
func (p *piece) apart(q *piece, gap float64) bool {
	if separate(&p.box, &q.box, gap) {
		return true
	}
	if p.crosses(q) {
		return false
	}
	near := min(p.distanceTo(q.a), p.distanceTo(q.b), q.distanceTo(p.a), q.distanceTo(p.b))
	return near > gap
}

// clearOf reports whether two pieces that may touch at their ends lie farther
// from each other than gap otherwise.
func (p *piece) clearOf(q *piece, gap float64) bool {
	if separate(&p.box, &q.box, gap) {
		return true
	}
	short, other := p.shortened(), q.shortened()
	return short.apart(&other, gap)
}

func (p *piece) crosses(q *piece) bool {
	d, e := p.b.Sub(p.a), q.b.Sub(q.a)
	return d.Cross(q.a.Sub(p.a))*d.Cross(q.b.Sub(p.a)) < 0 && e.Cross(p.a.Sub(q.a))*e.Cross(p.b.Sub(q.a)) < 0
}

func (p *piece) distanceTo(q geom.Point) float64 {
	along := p.b.Sub(p.a)
	l := along.Dot(along)
	if l == 0 {
		return q.Distance(p.a)
	}
	t := math.Min(1, math.Max(0, q.Sub(p.a).Dot(along)/l))
	return q.Distance(p.a.Add(along.Times(t)))
}

// holds reports whether a piece comes nearer to the plate than gap, or into it.
func (b *plate) holds(p *piece, gap float64) bool {
	if separate(&b.box, &p.box, gap) {
		return false
	}
	across := b.along.Left()
	a, d := p.a.Sub(b.centre), p.b.Sub(p.a)
	enter, leave := 0.0, 1.0
	for _, side := range [2][3]float64{
		{a.Dot(b.along), d.Dot(b.along), b.half.X + gap},
		{a.Dot(across), d.Dot(across), b.half.Y + gap},
	} {
		at, step, reach := side[0], side[1], side[2]
		if step == 0 {
			if math.Abs(at) >= reach {
				return false
			}
			continue
		}
		t, u := (-reach-at)/step, (reach-at)/step
		enter, leave = math.Max(enter, math.Min(t, u)), math.Min(leave, math.Max(t, u))
	}
	return enter < leave
}

// meets reports whether two plates come nearer to each other than gap, by the
// directions along and across each.
func (b *plate) meets(c *plate, gap float64) bool {
	if separate(&b.box, &c.box, gap) {
		return false
	}
	between := c.centre.Sub(b.centre)
	for _, axis := range [4]geom.Point{b.along, b.along.Left(), c.along, c.along.Left()} {
		if math.Abs(between.Dot(axis)) >= b.reach(axis)+c.reach(axis)+gap {
			return false
		}
	}
	return true
}

// reach returns how far the plate goes from its centre in a direction.
func (b *plate) reach(axis geom.Point) float64 {
	return b.half.X*math.Abs(b.along.Dot(axis)) + b.half.Y*math.Abs(b.along.Left().Dot(axis))
}
