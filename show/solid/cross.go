package solid

import (
	"cmp"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// A cross hole is let into faces that run along the axis. Each of them ends at
// two points of the hole's edge, before and behind; from these the wall goes
// down to where the hole ends, in the same steps of z.

// drilling is a cross hole while it is meshed.
type drilling struct {
	part.CrossHole
	radius float64
	edges  [2][2]edge // of the outside and of the bore, at the top and at the bottom
}

// edge is where a hole comes out of a surface: z and y of its points, from the
// least z to the largest.
type edge []spot

type spot struct{ z, y float64 }

// The surfaces and sides of edges.
const (
	outside, bore = 0, 1
	top, bottom   = 0, 1
)

// drillings takes up the cross holes, from left to right.
func (t *turner) drillings() trade.Faults {
	for _, h := range t.part.Cross {
		d := &drilling{CrossHole: h, radius: h.Diameter / 2}
		if !t.parallel(t.part.Segments, d) || !t.parallel(t.part.Bores, d) || t.edgeOfFlat(d) || h.Around != 0 {
			return refused("the cross hole of %s at %s from the left end lies across an edge or on a taper; solids are made only of cross holes that lie wholly on one cylinder",
				unit.ShowLength(h.Diameter, unit.Millimetre), unit.ShowLength(h.X, unit.Millimetre))
		}
		t.holes = append(t.holes, d)
	}
	slices.SortFunc(t.holes, func(a, b *drilling) int { return cmp.Compare(a.X, b.X) })
	return nil
}

// parallel reports whether a hole lies within one segment that is parallel to
// the axis, or within none.
func (t *turner) parallel(list []part.Segment, d *drilling) bool {
	from, to := d.X-d.radius, d.X+d.radius
	for _, s := range list {
		if s.X1 > from && s.X0 < to {
			return s.X0 < from-least && s.X1 > to+least && s.D0 == s.D1 && s.Form != part.Rounded
		}
	}
	return true
}

// edgeOfFlat reports whether a flat begins or ends within a hole.
func (t *turner) edgeOfFlat(d *drilling) bool {
	for _, f := range t.part.Flats {
		for _, x := range []float64{f.X0, f.X1} {
			if math.Abs(x-d.X) <= d.radius+least {
				return true
			}
		}
	}
	return false
}

// directions returns the directions of the outermost points of a hole's edges.
func (d *drilling) directions(p *part.Turned) []float64 {
	up := math.Atan2(d.radius, p.Surface(d.X, d.radius, 0))
	down := math.Atan2(d.radius, p.Surface(d.X, d.radius, math.Pi))
	list := []float64{up, -up, math.Pi - down, math.Pi + down}
	for _, s := range p.Bores {
		if half := s.D0 / 2; s.X0 < d.X && d.X < s.X1 && half > d.radius {
			a := math.Asin(d.radius / half)
			list = append(list, a, -a, math.Pi-a, math.Pi+a)
		}
	}
	return list
}

// holeIn returns the hole that opens a stretch of the outside or of a bore.
func (t *turner) holeIn(from, to float64, inBore bool) *drilling {
	for _, d := range t.holes {
		if from < d.X && d.X < to && (!inBore || d.Through || d.IntoBore) {
			return d
		}
	}
	return nil
}

// opens reports whether the face after the k-th point of a ring lies within the
// hole.
func (t *turner) opens(d *drilling, r ring, k int) bool {
	y0, z0 := t.across(r, k)
	y1, z1 := t.across(r, k+1)
	if max(math.Abs(z0), math.Abs(z1)) > d.radius+least {
		return false
	}
	side := top
	if y0+y1 < 0 {
		side = bottom
	}
	return side == top || d.Through
}

// reach returns how far before or behind its middle the hole's edge is at z.
func (d *drilling) reach(z float64) float64 {
	if d.radius-math.Abs(z) < least {
		return 0
	}
	return math.Sqrt(d.radius*d.radius - z*z)
}

// on returns the point of a hole's edge at a spot, before (-1) or behind (1) its
// middle.
func (d *drilling) on(s spot, half float64) point {
	return at(d.X+half*d.reach(s.z), s.y, s.z)
}

// round adds the two parts of a face that a hole leaves, and notes the hole's
// edge there.
func (t *turner) round(d *drilling, a, b ring, k int) {
	var s, e spot
	s.y, s.z = t.across(a, k)
	e.y, e.z = t.across(a, k+1)
	before := math.Copysign(1, a.x-d.X)
	t.quad(t.point(a, k), t.point(a, k+1), d.on(e, before), d.on(s, before))
	t.quad(d.on(s, -before), d.on(e, -before), t.point(b, k+1), t.point(b, k))
	surface, side := outside, top
	if a.x > b.x {
		surface = bore
	}
	if s.y+e.y < 0 {
		side = bottom
	}
	d.edges[surface][side] = append(d.edges[surface][side], s, e)
}

// wall adds the wall of a hole, and the bottom of a blind one.
func (t *turner) wall(d *drilling) {
	for i := range d.edges {
		for j := range d.edges[i] {
			slices.SortFunc(d.edges[i][j], func(a, b spot) int { return cmp.Compare(a.z, b.z) })
			d.edges[i][j] = slices.Compact(d.edges[i][j])
		}
	}
	upper, lower := d.edges[outside][top], d.edges[outside][bottom]
	switch {
	case !d.Through && !d.IntoBore:
		t.blind(d, upper)
	case d.IntoBore:
		t.wallBetween(d, upper, d.edges[bore][top])
	case len(d.edges[bore][top]) == 0:
		t.wallBetween(d, upper, lower)
	default:
		t.wallBetween(d, upper, d.widened(d.edges[bore][top], upper))
		t.wallBetween(d, d.widened(d.edges[bore][bottom], upper), lower)
	}
}

// widened adds to the edge of a bore narrower than the hole, on the level of the
// axis, the z of another edge that lie beyond it.
func (d *drilling) widened(narrow, wide edge) edge {
	end := narrow[len(narrow)-1].z
	if d.radius-end < least {
		return narrow
	}
	var before, behind edge
	for _, s := range wide {
		switch {
		case s.z < -end-least:
			before = append(before, spot{z: s.z})
		case s.z > end+least:
			behind = append(behind, spot{z: s.z})
		}
	}
	return slices.Concat(before, narrow, behind)
}

// wallBetween adds the wall between two edges, before and behind the middle.
func (t *turner) wallBetween(d *drilling, upper, lower edge) {
	t.strip(d.chain(upper, 1), d.chain(lower, 1))
	t.strip(d.chain(lower, -1), d.chain(upper, -1))
}

func (d *drilling) chain(e edge, half float64) chain {
	var c chain
	for _, s := range e {
		c = append(c, link{d.on(s, half), s.z})
	}
	return c
}

// blind adds the wall down to the bottom of a blind hole, and its drill point.
func (t *turner) blind(d *drilling, upper edge) {
	floor := make(edge, len(upper))
	for i, s := range upper {
		floor[i] = spot{z: s.z, y: t.part.Bottom(d.CrossHole)}
	}
	t.wallBetween(d, upper, floor)
	apex := chain{{at(d.X, floor[0].y-part.PointLength(d.Diameter), 0), 0}}
	t.strip(d.chain(floor, 1), apex)
	t.strip(apex, d.chain(floor, -1))
}
