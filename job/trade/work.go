package trade

import "codeberg.org/oddleg/oddleg/num/unit"

// Operation is one step of the work: what it does, on which machine, what it
// needs, makes or takes apart, and how the work is held.
type Operation struct {
	ID      string // "operation 1" where none is written
	Do      string
	On      string           // id of a machine of the shop
	Makes   bool             // it works on the part
	Needs   []string         // ids of operations that come before it; nil: not said
	Apart   string           // id of a machine that cannot be used from here on
	Back    string           // id of a machine that is put together again here
	Cutter  string           // id of a cutter of that machine
	Leave   unit.Quantity    // left for the finishing pass
	Centre  [2]unit.Quantity // readout at the centre of the rotary table or the datum
	Datum   *Datum           // where coordinates are counted from; nil: the origin of the part's plan
	Holding *Holding
	Say     string
	Pos     Pos
}

// Datum is where the coordinates of holes are counted from, and how it is found:
// by an edge finder on edges of the part, or where no sides are written by what
// stands there.
type Datum struct {
	At     [2]unit.Quantity // in the plan of the part
	Finder unit.Quantity    // diameter of the edge finder
	Sides  []Side           // edges that it touches
	Turned unit.Quantity    // of the part on the table, anticlockwise
	Pos    Pos
}

// Side is an edge of the part as it stands on the table: left and right along x,
// front and back along y, front being the lower.
type Side string

// The sides.
const (
	LeftSide  Side = "left"
	RightSide Side = "right"
	FrontSide Side = "front"
	BackSide  Side = "back"
)

// Sides lists every side.
var Sides = []Side{LeftSide, RightSide, FrontSide, BackSide}

// Holding is how the work is held against a cutting force, in the plane.
type Holding struct {
	Contacts []Contact
	Force    unit.Quantity // cutting force, the user's figure
	At       [2]unit.Quantity
	Towards  unit.Quantity // direction in which it pushes the work
	Friction float64       // 0: 0.1
	Pos      Pos
}

// ContactKind is what touches the work.
type ContactKind string

// The kinds of contact.
const (
	StopContact  ContactKind = "stop"  // fixed: pushes back as much as it must
	JawContact   ContactKind = "jaw"   // wide: two stops at its ends, or one that moves and presses
	ScrewContact ContactKind = "screw" // presses with its clamping force
	ClampContact ContactKind = "clamp" // strap clamp: presses down, holds by friction
	WallContact  ContactKind = "wall"  // of a bore round the work: fixed
)

// ContactKinds lists every kind of contact.
var ContactKinds = []ContactKind{StopContact, JawContact, ScrewContact, ClampContact, WallContact}

// Contact is one place where the work is touched. Towards is the direction in
// which it can push the work. Of a strap clamp, Bolt and Heel are the distances
// from its toe on the work to the bolt and to the heel packing.
type Contact struct {
	ID         string
	Kind       ContactKind
	At         [2]unit.Quantity
	Towards    unit.Quantity
	Width      unit.Quantity // of a jaw
	Clamping   unit.Quantity // N: of a screw, of a jaw that moves, or of a clamp's bolt
	Bolt, Heel unit.Quantity
	Pos        Pos
}
