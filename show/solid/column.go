package solid

import (
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// column is a round hole or the stem: what lies within a circle in the plan.
type column struct {
	centre geom.Point
	radius float64
	rings  [][]level // from the circle inwards; each goes from the top to the bottom or to the axis, or from there out again
}

// level is a circle of a column.
type level struct{ radius, z float64 }

// columns returns the holes and the stem of a prism.
func columns(p *part.Prism) []column {
	var list []column
	for _, h := range p.Holes {
		list = append(list, holeColumn(p, h))
	}
	if p.Stem != nil {
		list = append(list, stemColumn(p))
	}
	return list
}

// holeColumn goes down the hole. On a sloping face its mouth follows the face,
// as all points at the full height do.
func holeColumn(p *part.Prism, h part.Hole) column {
	radius := h.Diameter / 2
	mouth := max(radius, h.CounterboreD/2, h.CountersinkD/2)
	floor := p.Floor(h.At)
	top := floor
	if p.Thin > 0 {
		top = p.Height
	}
	ring := []level{{mouth, top}}
	switch {
	case h.CounterboreD > 0:
		ring = append(ring, level{mouth, floor - h.CounterboreH}, level{radius, floor - h.CounterboreH})
	case h.CountersinkD > 0:
		ring = append(ring, level{radius, floor - (mouth - radius)})
	}
	if h.Through {
		ring = append(ring, level{radius, 0}, level{mouth, 0})
		return column{h.At, mouth, [][]level{ring}}
	}
	bottom := floor - h.Depth
	ring = append(ring, level{radius, bottom}, level{0, bottom - part.PointLength(h.Diameter)})
	return column{h.At, mouth, [][]level{ring, {{0, 0}, {mouth, 0}}}}
}

// stemColumn goes up the stem.
func stemColumn(p *part.Prism) column {
	segments := p.Stem.Turned.Segments
	ring := []level{}
	for _, s := range segments {
		ring = append(ring, level{s.D0 / 2, p.Height + s.X0}, level{s.D1 / 2, p.Height + s.X1})
	}
	ring = append(ring, level{0, p.Height + p.Stem.Turned.Length})
	return column{p.Stem.At, segments[0].D0 / 2, [][]level{ring, {{0, 0}, {segments[0].D0 / 2, 0}}}}
}

// ring adds what is in a column inwards of an edge of its disc, which has the
// disc to its left.
func (q *prismatic) ring(c column, p, s geom.Point) {
	inwards := func(p geom.Point, l level) point {
		if l.radius != c.radius {
			p = c.centre.Add(p.Sub(c.centre).Times(l.radius / c.radius))
		}
		return q.spot(p, l.z)
	}
	for _, ring := range c.rings {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			q.quad(inwards(p, a), inwards(s, a), inwards(s, b), inwards(p, b))
		}
	}
}
