package trade

// Hand is which way a thread turns.
type Hand string

// The hands.
const (
	RightHand Hand = "right"
	LeftHand  Hand = "left"
)

// Hands lists both hands.
var Hands = []Hand{RightHand, LeftHand}

// The diameters of a thread of the new part that readings name beside its major
// one, part.ID: part.ID.effective and part.ID.minor.
const (
	EffectiveDiameter = "effective"
	MinorDiameter     = "minor"
)

// Thread is a thread of the part: the sizes that were read of it, by their ids.
// All but the pitch may be left out.
type Thread struct {
	ID        string
	Major     string
	Pitch     string
	Effective string
	Minor     string
	Angle     string // included, or the half of it
	Surface   Surface
	Hand      Hand
	Starts    int
	Meant     string // what the user decided it was
	Pos       Pos
}
