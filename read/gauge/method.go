// Package gauge is the catalogue of measuring methods: every way of taking a
// reading that the program knows, as a forward model from sizes and gauge
// pieces to the reading an instrument would show.
//
// Only that direction is coded: the adjustment inverts it. Lengths are in mm,
// angles in radians. Walls, bores, shafts and circles are diameters, a half angle
// is measured to the axis or centre plane, and all walls of one method are
// concentric. One entry in one file, its family's, is all that a method needs:
// Missing says what an entry lacks.
package gauge

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// RoleKind says what may stand in a role and how it counts there.
type RoleKind uint8

// The kinds of role.
const (
	AnyLength     RoleKind = iota // any length, as it stands
	Diameter                      // a size of kind radius counts double
	Radius                        // a size of kind diameter counts half
	PitchLength                   // a pitch
	IncludedAngle                 // a size of kind half-angle counts double
	HalfAngle                     // a size of kind angle counts half
	PlainAngle                    // any angle, as it stands
	PlainNumber                   // a number, a size of kind number among them
	Count                         // a whole number, at least 1, plain
	Side                          // 1 or -1, plain
	HoleOfPlan                    // a hole of a plan, by its id
	PlaceTouched                  // a circle or line, by its id
)

// Dimension returns what a value in a role of this kind measures.
func (k RoleKind) Dimension() unit.Dimension {
	switch k {
	case IncludedAngle, HalfAngle, PlainAngle:
		return unit.Angle
	case PlainNumber, Count, Side:
		return unit.Number
	}
	return unit.Length
}

// Role is one argument of a method.
type Role struct {
	Name     string // the key under a reading's `of:`
	Also     string // another key that may stand there; empty for most
	Symbol   string // the letter in the formula
	Kind     RoleKind
	Piece    bool // usually a gauge piece of the kit
	Optional bool
	Default  float64 // of an optional role left out; NaN: only the validity rules use it
	Signed   bool    // a plain value may be zero or negative

	// Pieces are the kinds of piece that may stand there, the one that the role is
	// named after first; of a Piece only. Chosen says that one of the kit is chosen
	// for it; else it belongs to the gauge, or to a hole.
	Pieces []trade.PieceKind
	Chosen bool

	// Counted says how often the size of the piece itself lies between the
	// measuring faces, below 0 where it is taken away: what is added, left out or
	// counted twice by who works a reading out in the head. Uncounted says that
	// nobody would, since the piece only holds the work or the gauge.
	Counted   float64
	Uncounted bool

	// OfInstrument says that it belongs to the jaws and tells in a round bore alone;
	// Room, that where it is given the method's rules say how large a piece may be.
	OfInstrument, Room bool

	// RulesLargest says that the method's rules bound how large the piece may be,
	// RulesSmallest how small, whatever has stood there before.
	RulesLargest, RulesSmallest bool

	// Sought is the kind of size that is sought in it as a rule, where its Kind
	// leaves that open. Takes says whether such a size makes sense here by itself,
	// nil that any does. SideOf is, of a Side, the role whose size has the surface
	// that it goes by; Usual, of a Count, what is planned where no reading says.
	Sought trade.SizeKind
	Takes  func(kind trade.SizeKind, on trade.Surface) bool
	SideOf string
	Usual  int64
}

// Jaw is which way the instrument meets the work.
type Jaw uint8

// The jaws.
const (
	NoJaw    Jaw = iota
	Closing      // outside jaws close on the work
	Opening      // inside jaws open against it
	Reaching     // a depth or height is reached for
)

// Args are the values in the roles of a method, in the order of its Roles,
// with their gradients. An optional role left out has its Default.
type Args []grad.Number

// Method is one entry of the catalogue.
type Method struct {
	ID      string
	Family  string
	When    string    // one plain sentence: when to use it
	SetUp   string    // how it is set up and read, "Lay {pin:two} on {wall} and read"; see Said
	For     []Purpose // what it gets at
	Words   []string  // other words that somebody may look for it by
	Roles   []Role
	Reads   unit.Dimension // what the reading measures
	Jaw     Jaw
	Signed  bool   // the reading may be zero or negative
	Formula string // the forward model as text, for the printed working: "m = D + 2d"
	Traps   []string
	Source  string

	// ReadBy are the instruments that read it, where the jaw does not say so.
	// OwnGauge says that its instrument is made for it (pointed or ball anvils,
	// feet): only one that has read by it will do.
	ReadBy   []trade.InstrumentKind
	OwnGauge bool

	Direct   bool // jaws span the size itself
	Pairs    bool // a reading is a pair, x and y
	OneSided bool // below zero another method reads it: it is planned only where it shows more

	// What else meets the same features of the work. Kin are methods that do so
	// under the same names, Plainer those that meet one of the sizes by itself, and
	// Meets says which sizes this one meets by itself. One of them is given, or
	// Apart says that there is nothing.
	Kin     []string
	Plainer []Plainer
	Meets   []Meeting
	Apart   bool

	Proves   []Proof                // what of a new part it reads
	Counting *Counting              // what else may be counted, nil for most
	Suits    func(v []float64) bool // whether it would be planned at these values; nil: wherever it can be

	// HolesFor names the role that two holes of one plan may replace: roles
	// `from` and `to` then stand in its place and their distance is its value.
	// Roles lists only the role replaced. Empty for most methods.
	HolesFor string

	// Example holds one set of valid values in the order of the roles, for a
	// worked number and for the tests. In a role of kind PlaceTouched it has the
	// diameter of the circle. It is nil for the method "formula".
	Example []float64

	// Model returns the reading, NaN where the set-up cannot be. It is nil for a method whose
	// readings are pairs (see TouchCircle, TouchLine), and for "formula".
	Model func(a Args) grad.Number

	// Sketch draws the set-up at values in the order of the roles; see Draw. It
	// is nil for the method "formula".
	Sketch func(v []float64, s *Sketch)

	// Valid says in words what does not hold at these values and what to take
	// care of, nothing where all is well. It may be nil. Where Model is NaN for
	// positive sizes it says why.
	Valid func(v []float64) []Remark
}

// Remark is one sentence about a set-up at given values.
type Remark struct {
	Broken bool // the set-up cannot be, or the model does not hold; else advice
	Text   unit.Text
}

// Role returns the index of the role with this name, the other name it may have
// among them, -1 if there is none.
func (m *Method) Role(name string) int {
	for i := range m.Roles {
		if r := &m.Roles[i]; r.Name == name || r.Also == name && name != "" {
			return i
		}
	}
	return -1
}
