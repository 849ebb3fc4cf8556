package part

import "codeberg.org/oddleg/oddleg/num/geom"

// View is the way a dimension is looked at. Turned parts have Side (x along the
// axis, y up from it) and End (seen from the right, y up); prisms have Plan
// (x, y as they are) and Edge (seen from the front: x as it is, y the height z).
// A stem is dimensioned in Edge; the lean of a gib in End (y to the right, z up).
type View uint8

// The views.
const (
	Side View = iota
	End
	Plan
	Edge
)

// DimensionKind is how a dimension is measured in its view.
type DimensionKind uint8

// The kinds of dimension.
const (
	Across   DimensionKind = iota // along x, between A and B
	Up                            // along y, between A and B
	Aligned                       // along the line from A to B
	Diameter                      // of a circle about A through B; in Side and Edge the diameter from A to B straight across its axis
	Radius                        // of an arc about A through B
	Angle                         // at Vertex from A to B, anticlockwise
	Leader                        // a note with an arrow at A
)

// Dimension is one size as a drawing states it. A and B lie on the part, in the
// coordinates of its view.
type Dimension struct {
	View    View
	Kind    DimensionKind
	A, B    geom.Point
	Vertex  geom.Point
	Measure Measure
	Count   int     // "4 ×"; 0 and 1 say nothing
	Thread  *Thread // called out in the place of a diameter
	After   string  // what follows the figure: "deep #", "× 45°", "square", "across flats"; # stands for Second
	Second  Measure // a second length that is called out with the first: a depth
	Inside  bool    // of a bore: best beside the section
}
