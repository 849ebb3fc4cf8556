package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// Sketch is a picture of a method at some values, to scale: shapes in mm of the
// work, and what is measured on them. How it is laid out is for others.
type Sketch struct {
	Shapes []Shape
	Spans  []Span
}

// ShapeKind says what a shape is.
type ShapeKind uint8

// The kinds of shape.
const (
	WorkShape  ShapeKind = iota // the work: closed, holes in it clockwise
	PieceShape                  // a gauge piece: closed
	JawShape                    // of the instrument: closed
	AxisShape                   // a centre line
	TraceShape                  // a line that is not an edge: a pitch line, where something stood before
)

// Shape is one outline or line.
type Shape struct {
	Path geom.Path
	Kind ShapeKind
}

// ReadingRole stands in the place of a role's number for the reading itself.
const ReadingRole = -1

// Span is what is measured from A to B, or by an angle about Vertex from A to B,
// anticlockwise: the value in a role as the role counts it, or the reading. Of
// a signed value it has the magnitude.
type Span struct {
	Role   int
	A, B   geom.Point
	Vertex geom.Point
	Angle  bool
	Away   geom.Point // to which side its line is best moved clear; the zero vector: nowhere
}

// Measures returns the length of the span in mm, or its angle in radians.
func (s Span) Measures() float64 {
	if !s.Angle {
		return s.A.Distance(s.B)
	}
	a, b := s.A.Sub(s.Vertex), s.B.Sub(s.Vertex)
	return math.Atan2(a.Cross(b), a.Dot(b))
}

// Draw returns the sketch of the method at these values, in the order of its
// roles, false where it has none or where the set-up cannot be.
func (m *Method) Draw(values []float64) (Sketch, bool) {
	if m.Sketch == nil || m.Model != nil && math.IsNaN(model(m.Model).at(values)) {
		return Sketch{}, false
	}
	var s Sketch
	m.Sketch(values, &s)
	return s, s.finite()
}

// finite reports whether all points are.
func (s *Sketch) finite() bool {
	sum := 0.0
	for _, shape := range s.Shapes {
		for _, e := range shape.Path {
			sum += e.From.X + e.From.Y + e.To.X + e.To.Y + e.Centre.X + e.Centre.Y
		}
	}
	for _, span := range s.Spans {
		sum += span.A.X + span.A.Y + span.B.X + span.B.Y
	}
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// The sides to which spans are moved.
var (
	up    = geom.Point{Y: 1}
	down  = geom.Point{Y: -1}
	left  = geom.Point{X: -1}
	right = geom.Point{X: 1}
	here  = geom.Point{}
)

func xy(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func (s *Sketch) add(kind ShapeKind, p geom.Path) { s.Shapes = append(s.Shapes, Shape{p, kind}) }

func (s *Sketch) work(points ...geom.Point)  { s.add(WorkShape, geom.Polygon(points...)) }
func (s *Sketch) axis(a, b geom.Point)       { s.add(AxisShape, geom.Polyline(a, b)) }
func (s *Sketch) trace(points ...geom.Point) { s.add(TraceShape, geom.Polyline(points...)) }

// round puts a circle of a diameter; cross adds its centre lines.
func (s *Sketch) round(kind ShapeKind, centre geom.Point, diameter float64) {
	s.add(kind, geom.Circle(centre, diameter/2))
}

func (s *Sketch) cross(centre geom.Point, diameter float64) {
	reach := 0.6 * diameter
	s.axis(centre.Sub(xy(reach, 0)), centre.Add(xy(reach, 0)))
	s.axis(centre.Sub(xy(0, reach)), centre.Add(xy(0, reach)))
}

// ring puts work between two circles, the inner one hollow.
func (s *Sketch) ring(outer, inner float64) {
	s.add(WorkShape, append(geom.Circle(here, outer/2), geom.Circle(here, inner/2).Reversed()...))
}

// span adds what is measured between two points.
func (s *Sketch) span(role int, a, b, away geom.Point) {
	s.Spans = append(s.Spans, Span{Role: role, A: a, B: b, Away: away})
}

// angle adds what is measured about a point.
func (s *Sketch) angle(role int, vertex, a, b geom.Point) {
	s.Spans = append(s.Spans, Span{Role: role, A: a, B: b, Vertex: vertex, Angle: true})
}

// jaws puts jaws that close on two points, or open against them, as long as
// said, and the reading between them. They are thin, that they fit anywhere.
func (s *Sketch) jaws(kind Jaw, a, b geom.Point, length float64, away geom.Point) {
	out := b.Sub(a).Unit()
	if kind == Opening {
		out = out.Times(-1)
	}
	thick := length / 6
	if kind == Opening {
		thick = math.Min(thick, 0.3*a.Distance(b))
	}
	s.blade(a, out.Times(-thick), length)
	s.blade(b, out.Times(thick), length)
	s.span(ReadingRole, a, b, away)
}

// blade puts a flat jaw whose face, so long, has its middle at a point.
func (s *Sketch) blade(face, thick geom.Point, length float64) {
	half := thick.Unit().Left().Times(length / 2)
	s.add(JawShape, geom.Polygon(face.Sub(half), face.Sub(half).Add(thick), face.Add(half).Add(thick), face.Add(half)))
}

// given returns a value, or another where it is not stated.
func given(value, otherwise float64) float64 {
	if math.IsNaN(value) {
		return otherwise
	}
	return value
}

// meet returns where two lines cross, each by a point and a direction.
func meet(p, u, q, w geom.Point) geom.Point {
	return p.Add(u.Times(q.Sub(p).Cross(w) / u.Cross(w)))
}

// mirrored returns points on the other side of the y axis.
func flipped(points ...geom.Point) []geom.Point {
	list := make([]geom.Point, len(points))
	for i, p := range points {
		list[len(points)-1-i] = xy(-p.X, p.Y)
	}
	return list
}

// halves puts a piece of work and its mirror image.
func (s *Sketch) halves(points ...geom.Point) {
	s.work(points...)
	s.work(flipped(points...)...)
}
