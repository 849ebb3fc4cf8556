package trade

import "codeberg.org/oddleg/oddleg/num/unit"

// FormulaMethod is the method of a reading that is written as an expression.
const FormulaMethod = "formula"

// Reading is what one set-up showed: one value, or several of the same.
type Reading struct {
	ID         string
	By         string  // id of the gauging method
	Of         []Arg   // what stands in each role of the method
	That       Formula // of the method "formula"
	With       string  // id of the instrument; empty for goes/stops
	Saw        []Seen
	Goes       Bound // a gauge that enters
	Stops      Bound // the next that does not
	At         unit.Quantity
	Feel       unit.Quantity // standard uncertainty of seating
	SeatedOnce bool          // several values in one seating
	Why        string        // why values were set aside
	Say        string
	Pos        Pos
}

// GoNoGo reports whether the reading is a gauge that enters and one that does not.
func (r *Reading) GoNoGo() bool { return r.Goes.Given() }

// Arg is what stands in one role of a method: a size, piece, hole or place by
// its id, or a plain value, taken as exact.
type Arg struct {
	Role  string
	ID    string
	Value unit.Quantity
	Pos   Pos
}

// Seen is one value that an instrument showed. A touch shows a pair.
type Seen struct {
	X        unit.Quantity
	Y        unit.Quantity // given for a pair
	SetAside bool          // left out of the adjustment, kept and shown
	Pos      Pos
}

// Bound is a limit found by trying: a gauge piece by its id, or a plain length.
type Bound struct {
	ID    string
	Value unit.Quantity
	Pos   Pos
}

// Given reports whether the bound is stated.
func (b Bound) Given() bool { return b.ID != "" || b.Value.Given() }

// Same reports whether two bounds are the same gauge piece, or the same length in
// whatever unit each was written.
func (b Bound) Same(o Bound) bool { return b.ID == o.ID && b.Value.Equal(o.Value) }

// Relation says that one expression over the sizes equals another: exactly,
// within ±Within (standard uncertainty Within/√3), or with standard
// uncertainty U.
type Relation struct {
	That   Formula
	Is     Formula
	Within unit.Quantity
	U      unit.Quantity
	Say    string
	Pos    Pos
}

// Exact reports whether the relation holds without error.
func (r *Relation) Exact() bool { return !r.Within.Given() && !r.U.Given() }

// Plan is a set of holes with unknown places. The first is the origin, the
// second lies on the x axis, x > 0.
type Plan struct {
	ID    string
	Holes []string
	Guess map[string]Point // settles the mirror image; by hole id
	Pos   Pos
}

// Point is a place in the plane.
type Point struct {
	X, Y unit.Quantity
}

// PlaceKind is what is touched with a stylus.
type PlaceKind string

// The kinds of place.
const (
	Circle PlaceKind = "circle"
	Line   PlaceKind = "line"
)

// PlaceKinds lists every kind of place.
var PlaceKinds = []PlaceKind{Circle, Line}

// Place is a circle or a line touched with a stylus from a digital readout.
// A circle has the centre (x, y) and the diameter of a size or a plain one; a
// line is x·cos β + y·sin β = p.
type Place struct {
	ID       string
	Kind     PlaceKind
	Diameter Bound            // circle: a size by id, or a plain length
	Guess    [2]unit.Quantity // circle: x, y; line: β, p
	Say      string
	Pos      Pos
}
