package setup

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
	Words        string
}

// Label says what is at a place.
type Label struct {
	At    geom.Point
	Words string
}

func (s *Scene) add(kind ShapeKind, p geom.Path) { s.Shapes = append(s.Shapes, Shape{p, kind}) }

func (s *Scene) label(at geom.Point, words string) { s.Labels = append(s.Labels, Label{at, words}) }

// cross puts centre lines that reach so far each way.
func (s *Scene) cross(at geom.Point, reach float64) {
	along, up := geom.Point{X: reach}, geom.Point{Y: reach}
	s.add(AxisShape, geom.Polyline(at.Sub(along), at.Add(along)))
	s.add(AxisShape, geom.Polyline(at.Sub(up), at.Add(up)))
}

// span dimensions a length.
func (s *Scene) span(a, b, away geom.Point, in unit.Unit) {
	s.Spans = append(s.Spans, Span{A: a, B: b, Away: away, Words: unit.ShowLength(a.Distance(b), in)})
}

// angle dimensions an angle between 0 and 2π about a point.
func (s *Scene) angle(vertex, a, b geom.Point, size float64) {
	s.Spans = append(s.Spans, Span{A: a, B: b, Vertex: vertex, Angle: true, Words: unit.ShowAngle(size)})
}
