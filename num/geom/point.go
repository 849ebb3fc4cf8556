// Package geom is plane geometry with straight lines and circular arcs: points,
// edges, paths, and what can be asked of them exactly.
//
// Lengths are in mm, angles in radians, anticlockwise positive, x to the right
// and y up. An arc is kept by its centre and ends, never as short chords; a
// closed path that bounds a region runs anticlockwise, a hole in it clockwise.
package geom

import "math"

// Point is a place or a vector in the plane.
type Point struct {
	X, Y float64
}

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q, the vector from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Times returns k·p.
func (p Point) Times(k float64) Point { return Point{k * p.X, k * p.Y} }

// Dot returns the scalar product.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the z component of p × q, positive where q is to the left of p.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Length returns |p|.
func (p Point) Length() float64 { return math.Hypot(p.X, p.Y) }

// Distance returns |p - q|.
func (p Point) Distance(q Point) float64 { return p.Sub(q).Length() }

// Unit returns p/|p|; the zero vector stays what it is.
func (p Point) Unit() Point {
	if l := p.Length(); l > 0 {
		return p.Times(1 / l)
	}
	return p
}

// Left returns p turned by a quarter anticlockwise.
func (p Point) Left() Point { return Point{-p.Y, p.X} }

// Angle returns the direction of p from the x axis, -π to π.
func (p Point) Angle() float64 { return math.Atan2(p.Y, p.X) }

// Turned returns p turned about the origin by an angle.
func (p Point) Turned(angle float64) Point {
	sin, cos := math.Sincos(angle)
	return Point{p.X*cos - p.Y*sin, p.X*sin + p.Y*cos}
}

// Polar returns the point at this distance and direction from the origin.
func Polar(radius, angle float64) Point {
	sin, cos := math.Sincos(angle)
	return Point{radius * cos, radius * sin}
}

// Middle returns the point half way between two.
func Middle(a, b Point) Point { return a.Add(b).Times(0.5) }

// Pose is a turn about the origin followed by a shift.
type Pose struct {
	Angle float64
	Shift Point
}

// Of returns where the pose puts a point.
func (m Pose) Of(p Point) Point { return p.Turned(m.Angle).Add(m.Shift) }
