package part

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// Diameter returns the diameter of a segment at x between its ends; across
// flats of a hexagon or square.
func (s Segment) Diameter(x float64) float64 {
	if s.Form == Rounded {
		out := s.Arc.Radius*s.Arc.Radius - (x-s.Arc.Centre.X)*(x-s.Arc.Centre.X)
		return 2 * (s.Arc.Centre.Y - float64(s.Arc.Turn)*math.Sqrt(max(0, out)))
	}
	if s.X1-s.X0 < level {
		return s.D0
	}
	return s.D0 + (s.D1-s.D0)*(x-s.X0)/(s.X1-s.X0)
}

// Outline returns the segment in the (x, r) half plane, from left to right.
func (s Segment) Outline() geom.Edge {
	from, to := geom.Point{X: s.X0, Y: s.D0 / 2}, geom.Point{X: s.X1, Y: s.D1 / 2}
	if s.Form == Rounded {
		return geom.Arc(s.Arc.Centre, from, to, s.Arc.Turn)
	}
	return geom.Line(from, to)
}

// boreAt returns the diameter of the bore at x, 0 where it is solid.
func (t *Turned) boreAt(x float64) float64 {
	for _, s := range t.Bores {
		if s.X0 <= x && x <= s.X1 {
			return s.Diameter(x)
		}
	}
	return 0
}

// Surface returns how high the surface stands above the plane through the axis,
// at x along it and z beside it, seen in the direction Around of a flat or cross
// hole: 0 for the top, π for the bottom.
func (t *Turned) Surface(x, z, around float64) float64 {
	height := 0.0
	for _, s := range t.Segments {
		if s.X0 <= x && x <= s.X1 {
			height = s.height(x, z)
			break
		}
	}
	for _, f := range t.Flats {
		if f.X0 <= x && x <= f.X1 && f.Around == around {
			height = min(height, f.Height)
		}
	}
	return height
}

func (s Segment) height(x, z float64) float64 {
	r := s.Diameter(x) / 2
	switch s.Form {
	case Hexagonal:
		return min(r, 2*r-math.Sqrt(3)*math.Abs(z))
	case Squared:
		return r
	}
	return math.Sqrt(max(0, r*r-z*z))
}

// Bottom returns the height above the axis at which the full diameter of a
// blind cross hole ends.
func (t *Turned) Bottom(h CrossHole) float64 { return t.Surface(h.X, 0, h.Around) - h.Depth }

// Profile returns the closed outline of the metal in the (x, r) half plane,
// anticlockwise: along the bores, or where it is solid along the axis, to the
// right, and back along the outside. A hexagon or square counts by its width
// across flats; flats and cross holes are left out.
func (t *Turned) Profile() geom.Path {
	var p trace
	for _, s := range t.Bores {
		if s.X0 > p.at.X+level {
			p.to(geom.Point{X: p.at.X})
			p.to(geom.Point{X: s.X0})
		}
		p.along(s.Outline())
	}
	if p.at.X < t.Length-level {
		p.to(geom.Point{X: p.at.X})
		p.to(geom.Point{X: t.Length})
	}
	for i := len(t.Segments) - 1; i >= 0; i-- {
		p.along(t.Segments[i].Outline().Reversed())
	}
	return p.closed()
}

// trace is a path that grows edge by edge, each beginning just where the one
// before ends.
type trace struct {
	path    geom.Path
	at      geom.Point
	started bool
}

// to draws a straight edge, or begins at a point.
func (t *trace) to(q geom.Point) {
	switch {
	case !t.started:
		t.at, t.started = q, true
	case t.at.Distance(q) > level:
		t.path = append(t.path, geom.Line(t.at, q))
		t.at = q
	}
}

// along draws an edge after a straight one to where it begins. An edge that has
// no length is left out.
func (t *trace) along(e geom.Edge) {
	t.to(e.From)
	if e.Length() > level {
		e.From = t.at
		t.path = append(t.path, e)
		t.at = e.To
	}
}

// closed returns the path after an edge to its beginning.
func (t *trace) closed() geom.Path {
	t.to(t.path[0].From)
	t.path[len(t.path)-1].To = t.path[0].From
	return t.path
}
