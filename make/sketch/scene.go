// Package sketch has pictures of set-ups as values: outlines and lines to scale, in
// mm of the work, with what is dimensioned on them and what is said beside them.
// How they are laid out on paper is for others.
package sketch

import (
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Scene is a set-up as it looks from above, to scale, in mm of the work: shapes,
// what is dimensioned on them and what is said beside them. How it is laid out on
// paper is for others.
type Scene struct {
	Title  string
	Shapes []Shape
	Spans  []Span
	Labels []Label
}

// ShapeKind says what a shape of a scene is.
type ShapeKind uint8

// The kinds of shape.
const (
	WorkShape  ShapeKind = iota // the finished work: closed, holes in it clockwise
	StockShape                  // what it is cut from: closed
	ToolShape                   // a cutter or a finder: closed
	HoldShape                   // what holds the work: closed
	AxisShape                   // a centre line
	TraceShape                  // a line that is not an edge: where a cutter runs
	ForceShape                  // an arrow: closed
)

// Shape is one outline or line.
type Shape struct {
	Path geom.Path
	Kind ShapeKind
}

// Span is a dimension from A to B, or where Angle is set an angle about Vertex
// from A to B, anticlockwise. Away is to which side its line is best moved clear;
// the zero vector leaves that open.
type Span struct {
	A, B, Vertex geom.Point
	Angle        bool
	Away         geom.Point
	Words        unit.Amount
}

// Label says what is at a place.
type Label struct {
	At    geom.Point
	Words string
}

// Draw adds an outline or a line.
func (s *Scene) Draw(kind ShapeKind, p geom.Path) { s.Shapes = append(s.Shapes, Shape{p, kind}) }

// Note says what is at a place.
func (s *Scene) Note(at geom.Point, words string) { s.Labels = append(s.Labels, Label{at, words}) }

// Cross puts centre lines that reach so far each way.
func (s *Scene) Cross(at geom.Point, reach float64) {
	along, up := geom.Point{X: reach}, geom.Point{Y: reach}
	s.Draw(AxisShape, geom.Polyline(at.Sub(along), at.Add(along)))
	s.Draw(AxisShape, geom.Polyline(at.Sub(up), at.Add(up)))
}

// Measure dimensions a length.
func (s *Scene) Measure(a, b, away geom.Point) {
	s.Spans = append(s.Spans, Span{A: a, B: b, Away: away, Words: unit.LengthOf(a.Distance(b))})
}

// MeasureAngle dimensions an angle between 0 and 2π about a point.
func (s *Scene) MeasureAngle(vertex, a, b geom.Point, size float64) {
	s.Spans = append(s.Spans, Span{A: a, B: b, Vertex: vertex, Angle: true, Words: unit.AngleOf(size)})
}

// Place is where a pair of written lengths is, nought where they are not given.
func Place(at [2]unit.Quantity) geom.Point {
	return geom.Point{X: at[0].InsideOr(0), Y: at[1].InsideOr(0)}
}
