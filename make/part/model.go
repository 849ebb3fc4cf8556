// Package part turns what a job says of the part to be made into geometry with
// sizes in it, refuses what cannot be, and lists the dimensions that define it.
//
// Every kind of part is one of two forms: Turned about an axis, or a Prism, an
// outline of some height with holes and steps in it and perhaps a turned stem.
// Drawings, templates and solids are made from these and know nothing of kinds.
// Lengths are in mm, angles in radians.
package part

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Origin is where the value of a measure came from.
type Origin uint8

// The origins.
const (
	Chosen    Origin = iota // a plain value
	Measured                // copied from the old part
	Meant                   // copied as the user decided the drawing said
	MadeToFit               // worked out from a mate
	Standard                // of a standard thread
)

// Measure is one size of the part as it is to be made.
type Measure struct {
	Name      string // id among the part's sizes, empty for a plain value
	Kind      trade.SizeKind
	Value     float64       // to work to
	Low, High float64       // limits; both equal to Value where only the general tolerance holds
	Code      string        // tolerance class that the limits are those of: "h6"; else empty
	Written   unit.Quantity // as written, where it is plain or decided
	From      Origin
	U         float64 // standard uncertainty, of what was measured
	Why       string  // in a few words: what it fits, copies, or where it is from
}

// Limited reports whether the measure has limits of its own.
func (m Measure) Limited() bool { return m.Low < m.High }

// Thread is a thread on the part.
type Thread struct {
	Name        string  // id among the part's sizes
	Designation string  // "7/16 BSW"
	Class       string  // "medium", "6g"; may be empty
	Major       float64 // basic, mm
	Minor       float64 // of the screw or of the nut as it is used, mm
	Pitch       float64 // mm
	Left        bool
}

// Model is a part as geometry: exactly one of Turned and Prism is set.
type Model struct {
	Name     string
	Kind     trade.PartKind
	Material string
	Density  float64 // kg/m³, 0 where the tables do not say
	Quantity int
	Revision string
	Turned   *Turned
	Prism    *Prism

	// Dimensions are those that define the part, none twice: what a drawing must
	// state. Notes are those that are stated in words.
	Dimensions []Dimension
	Notes      []string
	Measures   []Measure // all that the part has, in the order of the job file, for the table of origins
}

// Turned is a body of revolution about the x axis, from x = 0 at its left end,
// with what is milled and drilled across it.
type Turned struct {
	Segments []Segment // outside, left to right, without gaps
	Bores    []Segment // inside: diameters of what is hollow; they may leave gaps, which are solid
	Cross    []CrossHole
	Flats    []Flat
	Grain    []Knurl
	Length   float64
}

// Segment is a stretch along the axis of one form. A fillet, a chamfer, an
// undercut and a groove are segments of their own.
type Segment struct {
	Form   SegmentForm
	X0, X1 float64
	D0, D1 float64 // diameter (of Hexagon, Square: across flats) at X0 and X1
	Arc    Arc     // of a Rounded segment
	Thread *Thread // nil for none; D0 is then the major diameter outside, the minor inside
	Role   Role
}

// SegmentForm is what a segment looks like.
type SegmentForm uint8

// The forms of a segment.
const (
	Plain     SegmentForm = iota // a cylinder or a cone
	Rounded                      // a fillet: an arc in the axial plane
	Hexagonal                    // flats at top and bottom of the side view
	Squared
)

// Role is what a segment is for, so that a drawing knows what to call it.
type Role uint8

// The roles of a segment.
const (
	Body Role = iota
	Chamfer
	Fillet
	Undercut
	Groove
	DrillPoint // the cone at the end of a blind hole
	Centre     // of a centre hole
)

// Arc is the arc of a fillet in the (x, r) half plane.
type Arc struct {
	Centre geom.Point
	Radius float64
	Turn   geom.Turn // seen from X0 to X1
}

// CrossHole is drilled across the axis, in the direction Around from the y axis
// about x, from the surface to Depth of the full diameter and a drill point, or
// right through where Through is set.
type CrossHole struct {
	X, Diameter, Around, Depth float64
	Through                    bool
	IntoBore                   bool // it is not through, and ends in the bore: Depth is then of no account
	Thread                     *Thread
}

// Flat is milled parallel to the axis between X0 and X1: the plane at Height
// above it whose normal points Around from the y axis about x.
type Flat struct {
	X0, X1, Height, Around float64
}

// Knurl is a knurled stretch.
type Knurl struct {
	X0, X1 float64
}

// Prism is an outline in the plan (x, y), Height along z from 0, perhaps leaning.
type Prism struct {
	Outline geom.Path // closed, anticlockwise
	Height  float64
	Lean    float64 // the sides lean by this angle: a point at height z lies z·tan(Lean) further along y; 0 upright
	Thin    float64 // height at the greatest x where it falls evenly from Height at the least: of a tapered gib; 0: Height everywhere
	Holes   []Hole
	Circles []HoleCircle
	Slots   []Slot
	Ledges  []Ledge
	Stem    *Stem
	Chamfer float64 // of the upper and lower edges, 0 for none
}

// Hole goes down at a place in the plan. Its depths are counted from the surface
// there, which is lower than the top face on a ledge or in a slot.
type Hole struct {
	At           geom.Point
	Diameter     float64 // of a tapped hole: the minor diameter
	Depth        float64 // of the full diameter, below which a blind hole has a drill point; the height where it goes through
	Through      bool
	Thread       *Thread
	CounterboreD float64 // 0: none
	CounterboreH float64
	CountersinkD float64 // 0: none; at 90°
}

// HoleCircle is what a circle of holes stands on.
type HoleCircle struct {
	Centre   geom.Point
	Diameter float64
}

// Slot goes down from the surface it is in, with round ends about From and To.
type Slot struct {
	From, To     geom.Point
	Width, Depth float64
	Through      bool
}

// Ledge is milled down from the top face inside a closed path: what a rectangle
// along x and y has in common with the outline.
type Ledge struct {
	Outline geom.Path
	Depth   float64
}

// Stem is a turned piece that stands on the top face, its x axis along z.
type Stem struct {
	At     geom.Point
	Turned Turned
}
