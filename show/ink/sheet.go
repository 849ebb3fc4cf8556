// Package ink is what stands on a sheet of paper: strokes, areas and texts in mm,
// and knows no file format.
//
// A Sheet has its origin at the lower left corner of the paper, x to the right,
// y up. All that is on it is in Marks, in the order of drawing. A Dimension is a
// mark of its own, so that a format that has dimensions can keep it as one;
// Flat takes it apart into strokes, areas and texts for one that has not.
package ink

import "codeberg.org/oddleg/oddleg/num/geom"

// LineKind is what a line says, after ISO 128-2.
type LineKind uint8

// The kinds of line.
const (
	Visible    LineKind = iota // continuous wide: edges and outlines that are seen
	Thin                       // continuous narrow: thread roots, leaders, dimension and projection lines
	Hidden                     // dashed narrow
	CentreLine                 // long-dashed dotted narrow
	Hatching                   // continuous narrow, of cut faces
	Freehand                   // continuous narrow: limits of a broken view
	Frame                      // continuous wide: of the sheet and its title block
	Rule                       // continuous narrow: inside tables
	Cut                        // continuous narrow: of a template, to cut to
	Phantom                    // long-dashed double-dotted narrow: neighbouring parts
	Ghost                      // continuous narrow, faint: space to write in
)

// Wide and Narrow are the widths of lines in mm (ISO 128-2, line group 0.5).
const (
	WideLine   = 0.5
	NarrowLine = 0.25
)

// Layer groups marks for a format that has layers.
type Layer uint8

// The layers.
const (
	Outlines Layer = iota
	Axes
	HiddenEdges
	Hatches
	Dimensions
	Notes
	Border
	Threads
)

// Mark is one thing on a sheet: a Stroke, an Area, a Text or a Dimension.
type Mark interface{ mark() }

// Stroke is a line of some kind along a path.
type Stroke struct {
	Path  geom.Path
	Kind  LineKind
	Layer Layer
}

// Area is filled: an arrowhead, a bar, a tint. Tone is 1 for black down to 0
// for white.
type Area struct {
	Path  geom.Path
	Tone  float64
	Layer Layer
}

// Align is which point of a text stands at its place.
type Align uint8

// The alignments: of the base line.
const (
	LeftAligned Align = iota
	Centred
	RightAligned
)

// Text is one line of words. Height is that of the capitals in mm, Angle the
// direction of the base line.
type Text struct {
	At     geom.Point
	Words  string
	Height float64
	Angle  float64
	Align  Align
	Bold   bool
	Grey   bool // of lesser weight
	Layer  Layer
}

// DimensionKind is how a dimension on the sheet measures.
type DimensionKind uint8

// The kinds of dimension.
const (
	Linear    DimensionKind = iota // between A and B, along Direction
	Diametral                      // of a circle: A and B are opposite ends
	Radial                         // of an arc: A is the centre, B on the arc
	Angular                        // at Vertex from A to B, anticlockwise
	Leader                         // no measurement: a note with an arrow at A
)

// Dimension is a dimension with all that is drawn of it. A, B and Vertex are on
// the part, in mm on the paper; Measures is the true size in mm or degrees.
type Dimension struct {
	Kind      DimensionKind
	A, B      geom.Point
	Vertex    geom.Point
	Direction float64    // of a Linear dimension line, from the x axis
	LineAt    geom.Point // a point of the dimension line, or where the arc of an angle is
	Measures  float64
	Words     string // the whole text as printed
	Parts     []Mark // strokes, areas and texts
}

func (Stroke) mark()    {}
func (Area) mark()      {}
func (Text) mark()      {}
func (Dimension) mark() {}

// Sheet is one page.
type Sheet struct {
	Title         string
	Width, Height float64
	Scale         float64 // mm on the paper for one mm of the part; 1 where it shows none
	Marks         []Mark
}

// Add puts marks on the sheet.
func (s *Sheet) Add(marks ...Mark) { s.Marks = append(s.Marks, marks...) }

// Put puts all that is on another sheet on this one, its lower left corner at a
// place.
func (s *Sheet) Put(o *Sheet, at geom.Point) {
	for _, m := range o.Marks {
		s.Add(Moved(m, at))
	}
}

// Flat returns all marks, dimensions taken apart into what is drawn of them.
func (s *Sheet) Flat() []Mark {
	var list []Mark
	for _, m := range s.Marks {
		if d, ok := m.(Dimension); ok {
			list = append(list, d.Parts...)
			continue
		}
		list = append(list, m)
	}
	return list
}

// Moved returns a mark shifted on the paper.
func Moved(m Mark, by geom.Point) Mark {
	shift := geom.Pose{Shift: by}
	switch m := m.(type) {
	case Stroke:
		m.Path = m.Path.Moved(shift)
		return m
	case Area:
		m.Path = m.Path.Moved(shift)
		return m
	case Text:
		m.At = m.At.Add(by)
		return m
	case Dimension:
		m.A, m.B, m.Vertex, m.LineAt = m.A.Add(by), m.B.Add(by), m.Vertex.Add(by), m.LineAt.Add(by)
		parts := make([]Mark, len(m.Parts))
		for i, p := range m.Parts {
			parts[i] = Moved(p, by)
		}
		m.Parts = parts
		return m
	}
	panic("ink: a mark of an unknown kind")
}
