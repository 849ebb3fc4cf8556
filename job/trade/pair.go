package trade

import (
	"slices"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// Pair is a kind of shapes that mate, or of an opening that a part must pass:
// its word in the job file and what stands in its roles.
type Pair struct {
	ID    PairKind
	Title string
	Roles []PairRole
}

// PairRole is a place in a pair for an expression, or for the id of a plan.
type PairRole struct {
	Name      string
	Plan      bool // takes the id of a plan and no expression
	Dimension unit.Dimension
	Kind      SizeKind // of the expression
	Optional  bool
	Say       string
}

// Role returns the role with this name, false where the pair has none.
func (p *Pair) Role(name string) (PairRole, bool) {
	i := slices.IndexFunc(p.Roles, func(r PairRole) bool { return r.Name == name })
	if i < 0 {
		return PairRole{}, false
	}
	return p.Roles[i], true
}

// PairKind is the word of a pair or an opening.
type PairKind string

// The words of the pairs and of the openings.
const (
	SectorShoeInGroove   PairKind = "sector-shoe-in-groove"
	StraightShoeInGroove PairKind = "straight-shoe-in-groove"
	KeyInKeyway          PairKind = "key-in-keyway"
	BoltsInHoles         PairKind = "bolts-in-holes"
	DovetailWithGib      PairKind = "dovetail-with-gib"

	RoundHole PairKind = "round-hole"
	Slot      PairKind = "slot"
	OpenEnd   PairKind = "open-end"
)

// Pairs lists the shapes that mate.
var Pairs = []Pair{
	{SectorShoeInGroove, "Sector shoe in a round groove", []PairRole{
		lengthRole("outer", Radius, "the shoe's outer radius"),
		lengthRole("inner", Radius, "the shoe's inner radius"),
		{Name: "angle", Dimension: unit.Angle, Kind: Angle, Say: "included angle of the shoe"},
		lengthRole("groove-outer", Radius, "radius of the groove's outer wall"),
		lengthRole("groove-inner", Radius, "radius of the groove's inner wall"),
	}},
	{StraightShoeInGroove, "Straight shoe in a round groove", []PairRole{
		lengthRole("width", Width, "width of the shoe, across the groove"),
		lengthRole("length", Length, "length of the shoe, along the groove"),
		lengthRole("groove-outer", Radius, "radius of the groove's outer wall"),
		lengthRole("groove-inner", Radius, "radius of the groove's inner wall"),
	}},
	{KeyInKeyway, "Parallel key in its keyways", []PairRole{
		lengthRole("width", Width, "width of the key"),
		lengthRole("height", Height, "height of the key"),
		lengthRole("shaft-width", Width, "width of the keyway in the shaft"),
		lengthRole("shaft-depth", Depth, "depth of it at the side of the key"),
		lengthRole("hub-width", Width, "width of the keyway in the hub"),
		lengthRole("hub-depth", Depth, "depth of it at the side of the key"),
	}},
	{BoltsInHoles, "Bolts in the holes of a pattern", []PairRole{
		{Name: "plan", Plan: true, Say: "the studs or bolts as they were found: those of its holes that the part drills to the size of `hole`, else all"},
		lengthRole("hole", Diameter, "diameter of the clearance holes"),
		lengthRole("bolt", Diameter, "diameter of the bolts"),
		lengthRole("off", Length, "how far from its place a hole may be drilled, ± in x and in y").orNone(),
	}},
	{DovetailWithGib, "Dovetail slide with a gib", []PairRole{
		lengthRole("male", Width, "width of the male dovetail at its sharp foot, where it is narrowest: as over rollers"),
		lengthRole("female", Width, "width of the female dovetail into its sharp corners, where it is widest: as between rollers"),
		{Name: "angle", Dimension: unit.Angle, Kind: Angle, Say: "of the flanks to the flat, 55° or 60°"},
		lengthRole("gib", Width, "thickness of the gib, square to the flank"),
		lengthRole("height", Height, "height of the flanks, from the one corners to the other"),
	}},
}

// Openings lists what a part may have to pass to get to its place.
var Openings = []Pair{
	{RoundHole, "Round hole", []PairRole{lengthRole("diameter", Diameter, "of the hole"), partHeight}},
	{Slot, "Slot", []PairRole{
		lengthRole("width", Width, "of the slot, square ended"), lengthRole("length", Length, "of the slot"), partHeight,
	}},
	{OpenEnd, "Open end", []PairRole{lengthRole("width", Width, "of the gap"), partHeight}},
}

// partHeight lets the part be offered on its side and on end too.
var partHeight = lengthRole("height", Height, "of the part: without it the part is offered flat only").orNone()

func lengthRole(name string, kind SizeKind, say string) PairRole {
	return PairRole{Name: name, Dimension: unit.Length, Kind: kind, Say: say}
}

// orNone returns the role as one that may be left out.
func (r PairRole) orNone() PairRole {
	r.Optional = true
	return r
}
