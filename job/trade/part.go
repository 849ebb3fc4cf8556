package trade

import "codeberg.org/oddleg/oddleg/num/unit"

// Part is what is to be made.
type Part struct {
	Name     string
	Kind     PartKind
	Material string // a row of the materials table, as written
	Quantity int    // 1 where nothing is stated
	Holds    unit.Quantity
	Chance   float64 // that each size goes together, 0 where nothing is stated
	Revision string
	Sizes    []NewSize
	Stacks   []Stack
	Mates    []Mate
	Shape    Shape
	Pos      Pos
}

// Size returns the size of the part with this id, nil if there is none.
func (p *Part) Size(id string) *NewSize { return byID(p.Sizes, id) }

// Mate returns the mating shapes with this id, nil if there are none.
func (p *Part) Mate(id string) *Mate { return byID(p.Mates, id) }

// PartKind is what sort of part is made.
type PartKind string

// The kinds of part.
const (
	TurnedPart PartKind = "turned"
	SectorShoe PartKind = "sector-shoe"
	PlatePart  PartKind = "plate"
	NutPart    PartKind = "nut"
	BushPart   PartKind = "bush"
	KeyPart    PartKind = "key"
	GibPart    PartKind = "gib"
	WasherPart PartKind = "washer"
)

// Origin is where a size of the part comes from.
type Origin string

// The origins of a size.
const (
	GoesIn   Origin = "goes-in"   // it enters its mate: clearance is mate less size
	GoesOver Origin = "goes-over" // it takes its mate in: clearance is size less mate
	Copies   Origin = "copies"    // it is what the old part is, or was meant to be
	Is       Origin = "is"        // it is a value of its own
	IsThread Origin = "thread"    // it is a thread of a standard series
)

// Rework is how easily a size can be eased once the part has been tried.
type Rework string

// The degrees of rework.
const (
	EasyRework Rework = "easy"
	HardRework Rework = "hard"
)

// Reworks lists both.
var Reworks = []Rework{EasyRework, HardRework}

// NewSize is one size of the part to be made. Of is an expression over the
// sizes and gauge pieces of the job: of the mate for GoesIn and GoesOver, of
// what is copied, or the value itself.
type NewSize struct {
	ID        string
	Kind      SizeKind
	Surface   Surface
	From      Origin
	Of        Formula
	Clearance unit.Range    // wanted; an interference is a negative clearance
	Fit       string        // a named fit, "H7/g6" or "RC5"
	Within    unit.Quantity // ± about a plain or copied value
	Tolerance string        // or a tolerance class of ISO 286 on it: "h6"
	Holds     unit.Quantity // how closely this shop works here; else as the part says
	Chance    float64       // of going together; 0: as the part says
	Rework    Rework        // empty: not stated
	Thread    string        // designation, of IsThread
	Class     string        // of the thread or empty
	Hand      Hand          // of the thread
	Say       string
	Pos       Pos
}

// Stack is a chain of sizes whose sum matters: That over sizes of the job and
// of the part. Wanted is the range it should end in, not given where none is.
type Stack struct {
	ID     string
	That   Formula
	Wanted unit.Range
	Say    string
	Pos    Pos
}

// Mate is a pair of shapes that go together in the plane: of a kind that the
// mating stage knows, with an expression or a plan in each role.
type Mate struct {
	ID    string
	Pair  PairKind
	Of    []MateArg
	Entry *Entry // nil where the part need not pass an opening
	Say   string
	Pos   Pos
}

// MateArg is what stands in one role of mating shapes.
type MateArg struct {
	Role  string
	Value Formula
	Plan  string // the id of a plan in a role that takes one; Value is not given then
	Pos   Pos
}

// Entry is the opening that a part must pass to get to its place.
type Entry struct {
	Kind PairKind // of the openings
	Of   []MateArg
	Pos  Pos
}

func (s *NewSize) id() string { return s.ID }
func (s *Stack) id() string   { return s.ID }
func (m *Mate) id() string    { return m.ID }
