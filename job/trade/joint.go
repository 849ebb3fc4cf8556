package trade

import "codeberg.org/oddleg/oddleg/num/unit"

// Joint is what is screwed, keyed or sheared together, for its strength. What
// is not stated is left at its zero value; the strength stage says what it
// takes then.
type Joint struct {
	ID      string // "joint 1" where none is written
	Stud    Member
	Into    Member    // tapped hole or nut
	Head    Head      // of the stud: what it pulls by
	Sheared []Sheared // keys, pins, tees that the load shears
	Press   *PressFit
	Tighten Tighten
	Service unit.Quantity // load in service, N
	Spanner unit.Quantity // length of the spanner at hand; not given: the usual one
	Holds   Duty
	Fuse    Fuse // what is meant to give way first
	Say     string
	Pos     Pos
}

// Fuse is what is meant to give way first: one of these words, or the id of a piece
// that is sheared.
type Fuse string

// The words for what every screwed joint can have as its fuse.
const (
	NoFuse   Fuse = ""
	StudFuse Fuse = "stud"
	NutFuse  Fuse = "nut"
	HeadFuse Fuse = "head"
)

// Fuses lists what can give way first in a joint with or without a stud, and a head
// of it, and with these pieces that are sheared.
func Fuses(stud, head bool, sheared []Sheared) []Fuse {
	var list []Fuse
	if stud {
		list = append(list, StudFuse, NutFuse)
	}
	if head {
		list = append(list, HeadFuse)
	}
	for _, s := range sheared {
		list = append(list, Fuse(s.ID))
	}
	return list
}

// Duty is what a joint holds, for the caution it needs.
type Duty string

// The duties.
const (
	NoDuty    Duty = ""
	HoldsWork Duty = "work" // clamps work, or a chuck
	Lifts     Duty = "lifting"
	Pressure  Duty = "pressure"
	Brakes    Duty = "brake"
)

// Duties lists every duty that can be written.
var Duties = []Duty{HoldsWork, Lifts, Pressure, Brakes}

// Member is one side of a screwed joint.
type Member struct {
	Thread   string // designation, or from the part's size PartSize
	PartSize string // id of the part's size that is the thread
	Class    string
	Material string
	Grade    string        // property class of a bolt or nut, "8.8", "8"; instead of a material
	Length   unit.Quantity // of thread in engagement
	Around   unit.Quantity // angle of the circumference that is threaded; not given: all
	Outside  unit.Quantity // diameter or width across flats round the hole
	Section  unit.Quantity // ruling section of the stock
	Pos      Pos
}

// Given reports whether the member is stated.
func (m Member) Given() bool { return m != Member{Pos: m.Pos} }

// Head is what a stud pulls by: a head or a tee.
type Head struct {
	Kind     HeadKind
	Height   unit.Quantity
	Across   unit.Quantity // across flats of a head, length over a tee
	Width    unit.Quantity // of a tee
	Slot     unit.Quantity // opening that a tee bridges
	Material string
	Pos      Pos
}

// HeadKind is what a head is called in the trade.
type HeadKind string

// The kinds of head.
const (
	PlainHead HeadKind = "head"
	TeeHead   HeadKind = "tee"
)

// HeadKinds lists both.
var HeadKinds = []HeadKind{PlainHead, TeeHead}

// Given reports whether there is a head.
func (h Head) Given() bool { return h != Head{Pos: h.Pos} }

// Sheared is a key, pin or other piece that a load shears or crushes.
type Sheared struct {
	ID       string
	Kind     ShearedKind
	Diameter unit.Quantity
	Width    unit.Quantity
	Height   unit.Quantity
	Length   unit.Quantity
	Planes   int           // shear planes, 1 or 2
	At       unit.Quantity // radius at which a torque acts on it
	Material string
	Against  string // material it bears on
	Pos      Pos
}

// ShearedKind is what a piece that is sheared is called in the trade.
type ShearedKind string

// The kinds of sheared piece.
const (
	ShearPin ShearedKind = "pin"
	ShearKey ShearedKind = "key"
)

// ShearedKinds lists both.
var ShearedKinds = []ShearedKind{ShearPin, ShearKey}

// PressFit is an interference fit of two rings.
type PressFit struct {
	Diameter, Inside, Outside, Length unit.Quantity // nominal; bore of the inner (not given: solid); outside of the outer
	Interference                      unit.Range    // on the diameter
	Inner, Outer                      string        // materials
	Friction                          unit.Range
	Warmer                            unit.Quantity // temperature of service above that of assembly, K
	Pos                               Pos
}

// Tighten is how a joint is tightened: to a torque, to a preload, or by hand.
type Tighten struct {
	Torque   unit.Quantity // N·mm
	Preload  unit.Quantity // N
	Friction unit.Range
	Pos      Pos
}

// Given reports whether it is stated how a joint is tightened.
func (t Tighten) Given() bool { return t != Tighten{Pos: t.Pos} }
