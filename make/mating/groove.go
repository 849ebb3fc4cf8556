package mating

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// groove is a shoe in a round groove between two walls about one centre. The
// groove looks alike all round, so that a position of the shoe is a distance of
// its middle from the centre of the groove and a twist against the radius there.
// The shoe's path has its middle at the origin, outwards along x; its first edge
// is the outer face, its third the inner.
type groove struct {
	shoe         geom.Path
	reach        float64     // from the middle to what is farthest
	outer, inner float64     // radii of the walls
	radii        *[2]float64 // of the shoe's own faces, nil for straight ones
}

// newSector takes the outer and inner radius and the included angle of a shoe,
// and the radii of the walls. Its ends lie along radii.
func newSector(v []float64) (shapes, string) {
	outer, inner, angle := v[0], v[1], v[2]
	switch {
	case !(inner > 0 && outer > inner):
		return nil, "the shoe's outer radius must be larger than its inner, and both more than nothing"
	case !(angle > 0 && angle < math.Pi):
		return nil, "the shoe's angle must lie between 0 and 180°: one that goes more than half round is held by its ends too"
	}
	half := angle / 2
	a, b := geom.Polar(outer, -half), geom.Polar(outer, half)
	c, d := geom.Polar(inner, half), geom.Polar(inner, -half)
	shoe := geom.Path{
		geom.Arc(geom.Point{}, a, b, geom.Anticlockwise), geom.Line(b, c),
		geom.Arc(geom.Point{}, c, d, geom.Clockwise), geom.Line(d, a),
	}
	middle := geom.Pose{Shift: geom.Point{X: -(outer + inner) / 2}}
	return newGroove(shoe.Moved(middle), v[3], v[4], &[2]float64{outer, inner})
}

// newStraight takes the width and length of a shoe with straight sides, and the
// radii of the walls.
func newStraight(v []float64) (shapes, string) {
	w, l := v[0]/2, v[1]/2
	if !(w > 0 && l > 0) {
		return nil, "the shoe's width and length must be more than nothing"
	}
	shoe := geom.Polygon(geom.Point{X: w, Y: -l}, geom.Point{X: w, Y: l}, geom.Point{X: -w, Y: l}, geom.Point{X: -w, Y: -l})
	return newGroove(shoe, v[2], v[3], nil)
}

func newGroove(shoe geom.Path, outer, inner float64, radii *[2]float64) (shapes, string) {
	if !(inner > 0 && outer > inner) {
		return nil, "the groove's outer wall must have the larger radius, and both more than nothing"
	}
	return &groove{shoe: shoe, reach: shoe.Farthest(geom.Point{}).Length(), outer: outer, inner: inner, radii: radii}, ""
}

// centre returns where the centre of the groove is, seen from the shoe.
func centre(distance, twist float64) geom.Point { return geom.Point{X: -distance}.Turned(-twist) }

// toOuter returns the gap to the outer wall: R less the farthest point of the
// shoe from the centre.
func (g *groove) toOuter(distance, twist float64) float64 {
	o := centre(distance, twist)
	return g.outer - g.shoe.Farthest(o).Distance(o)
}

// toInner returns the gap to the inner wall: the nearest point of the shoe to
// the centre less r.
func (g *groove) toInner(distance, twist float64) float64 {
	o := centre(distance, twist)
	near := g.shoe.DistanceTo(o)
	if distance < g.reach && g.shoe.Contains(o) {
		near = -near
	}
	return near - g.inner
}

// midway returns the distance at which both walls are equally far from the
// shoe: the smallest gap is largest there, since moving outwards narrows the one
// and widens the other.
func (g *groove) midway(twist float64) float64 {
	return root(0, g.outer+g.reach, func(d float64) float64 { return g.toOuter(d, twist) - g.toInner(d, twist) })
}

func (g *groove) gapAt(twist float64) float64 {
	d := g.midway(twist)
	return min(g.toOuter(d, twist), g.toInner(d, twist))
}

func (g *groove) gap() float64 { return g.gapAt(0) }

func (g *groove) twist() float64 { return turnsUntil(g.gapAt, g.reach) }

// pressed returns the distances at which the shoe touches the outer and the
// inner wall, untwisted. The outer wall comes nearer from where the centre of the
// groove is that of the smallest circle round the shoe.
func (g *groove) pressed() (out, in float64) {
	last := g.outer + g.reach
	round, _ := g.shoe.EnclosingCircle()
	out = root(max(0, -round.X), last, func(d float64) float64 { return g.toOuter(d, 0) })
	in = root(0, last, func(d float64) float64 { return -g.toInner(d, 0) })
	return out, in
}

func (g *groove) slides() []Slide {
	d := g.midway(0)
	out, in := g.pressed()
	return []Slide{{"outwards", out - d}, {"inwards", d - in}, {"along the groove", math.Inf(1)}}
}

// bears finds where the shoe bears on each wall from what is left in the middle
// and at the corners. A convex face of larger radius than its wall bears on its
// corners, one of smaller radius on its middle; a hollow face the other way
// round.
func (g *groove) bears() []Bearing {
	out, in := g.pressed()
	middle, corners := g.left(g.shoe[0], out, g.outer, 1)
	hollow, ends := g.left(g.shoe[2], in, g.inner, -1)
	return []Bearing{bearing("outwards", middle, corners), bearing("inwards", hollow, ends)}
}

// left returns what is left between a face and its wall in the middle and at the
// corners; side is 1 for the outer wall.
func (g *groove) left(face geom.Edge, distance, wall, side float64) (middle, corners float64) {
	o := centre(distance, 0)
	return side * (wall - face.At(0.5).Distance(o)), side * (wall - face.From.Distance(o))
}

// nothing is a difference of gaps that nobody can tell, in mm.
const nothing = 1e-4

// bearing says where a face bears that has these gaps left.
func bearing(pressed string, middle, corners float64) Bearing {
	b := Bearing{Pressed: pressed, On: OnMiddle, StandsOff: math.Abs(corners - middle)}
	switch {
	case b.StandsOff < nothing:
		b.On = OnFace
	case corners < middle:
		b.On = OnCorners
	}
	return b
}

func (g *groove) faces() []Face {
	d := g.midway(0)
	place := geom.Pose{Shift: geom.Point{X: d}}
	return []Face{
		faceOf("outer face", g.shoe[0].Moved(place), func(q geom.Point) float64 { return g.outer - q.Length() }),
		faceOf("inner face", g.shoe[2].Moved(place), func(q geom.Point) float64 { return q.Length() - g.inner }),
	}
}

// faceOf returns the gaps along a face in position: they are least and most
// where it is nearest to the centre of the groove and farthest from it.
func faceOf(name string, face geom.Edge, gap func(geom.Point) float64) Face {
	a, b := face.Nearest(geom.Point{}), face.Farthest(geom.Point{})
	if gap(a) > gap(b) {
		a, b = b, a
	}
	return Face{Name: name, Least: gap(a), Most: gap(b), LeastAt: a, MostAt: b}
}

func (g *groove) outline() geom.Path { return g.shoe }

// outlines draws as much of the walls as goes past the shoe by half its length.
func (g *groove) outlines() (part, mate []geom.Path) {
	d := g.midway(0)
	half := 1.5 * math.Asin(min(1, g.reach/d))
	wall := func(radius float64) geom.Path {
		return geom.Path{geom.Arc(geom.Point{}, geom.Polar(radius, -half), geom.Polar(radius, half), geom.Anticlockwise)}
	}
	return []geom.Path{g.shoe.Moved(geom.Pose{Shift: geom.Point{X: d}})}, []geom.Path{wall(g.outer), wall(g.inner)}
}

// widened moves the walls. Against a face of a radius of its own the difference
// of radii is what counts, against a straight one the gap. The inner wall stays
// a wall.
func (g *groove) widened(k float64) shapes {
	clear := [2]float64{g.gap(), g.gap()}
	if g.radii != nil {
		clear = [2]float64{g.outer - g.radii[0], g.radii[1] - g.inner}
	}
	room := (g.outer - g.inner) / 2
	more := min(k-1, room/max(math.Abs(clear[0]), math.Abs(clear[1])), g.inner/2/math.Abs(clear[1]))
	drawn := *g
	drawn.outer, drawn.inner = g.outer+more*clear[0], g.inner-more*clear[1]
	return &drawn
}
