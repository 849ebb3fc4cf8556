package trade

import (
	"slices"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// Measure is a size in a shape: one of the part's sizes by its id, or a plain
// value.
type Measure struct {
	ID    string
	Value unit.Quantity
	Pos   Pos
}

// Given reports whether the measure is stated.
func (m Measure) Given() bool { return m.ID != "" || m.Value.Given() }

// Shape is which size of the part is which: exactly one of its fields is set,
// by the kind of part, or none where no shape is stated.
type Shape struct {
	Turned *TurnedShape
	Shoe   *ShoeShape
	Plate  *PlateShape
	Nut    *NutShape
	Bush   *BushShape
	Key    *KeyShape
	Gib    *GibShape
	Washer *WasherShape
	Pos    Pos
}

// TurnedShape is a part turned about one axis, from its left end to the right.
type TurnedShape struct {
	Steps                   []Step // outside
	Bore                    []Step // inside, from the left end inwards
	RightBore               []Step // inside, from the right end inwards
	CrossHoles              []CrossHole
	Flats                   []Flat
	LeftCentre, RightCentre Measure // centre holes by the diameter of their pilot
}

// CrossSection is what a step looks like along the axis.
type CrossSection string

// The sections of a step.
const (
	Round   CrossSection = "round"
	Hexagon CrossSection = "hexagon"
	Square  CrossSection = "square"
)

// Step is one length of a turned part of one diameter, taper, thread, hexagon
// or square. Size is the diameter, or the width across flats.
type Step struct {
	Section  CrossSection
	Size     Measure
	To       Measure // of a taper: the diameter at its further end, as the steps are listed
	Thread   string  // id of a size of the part that is a thread; empty for a plain step
	Length   Measure // not given for the last of a bore: right through
	Chamfer  Measure // of its free edges: at 45°, by its length
	Fillet   Measure // in the corner to the next larger step
	Undercut Undercut
	Grooves  []Groove
	Knurled  bool
	Surface  Texture // empty: the part's general surface
	Say      string
	Pos      Pos
}

// Undercut is a relief at the end of a step that meets a larger one, or of a
// thread: so wide along the axis and so deep below the step.
type Undercut struct {
	Width, Depth Measure
}

// Groove runs round a step: its nearer edge so far from where the step begins, as
// the steps are listed.
type Groove struct {
	At, Width, Diameter Measure
	Pos                 Pos
}

// Texture is a surface texture wanted: Ra in micrometres; 0 where none is.
type Texture float64

// CrossHole goes through the axis at right angles, so far from the left end.
// Depth is not given for one right through.
type CrossHole struct {
	At, Diameter, Depth Measure
	Thread              string
	Pos                 Pos
}

// Flat is milled on a step: at a height above the axis, or two with a width
// across them.
type Flat struct {
	From, Length Measure // from the left end
	Across       Measure // over two flats
	Height       Measure // of one flat above the axis
	Pos          Pos
}

// ShoeShape is a sector of a ring, or a block with straight sides, with a stem
// or a hole in it. Its angle is the included one at the centre of the groove.
type ShoeShape struct {
	Outer, Inner Measure // radii; not given for straight sides
	Width        Measure // of straight sides, else not given
	Length       Measure // chord over the ends, of straight sides
	Angle        Measure // included, of a sector
	Height       Measure
	Stem         *StemShape // nil for none
	Hole         *HoleShape // nil for none; At is counted from the middle of the shoe
	Chamfer      Measure
}

// StemShape is a round stem or a stud that stands on a shoe.
type StemShape struct {
	Diameter Measure
	Thread   string
	Length   Measure
	Offset   Measure // from the middle of the shoe outwards, radially
	Pos      Pos
}

// PlateShape is a plate of one thickness. Its outline is one of Rectangle, Disc
// and Outline.
type PlateShape struct {
	Thickness Measure
	Rectangle *RectangleShape
	Disc      Measure // diameter
	Outline   []Corner
	Holes     []HoleShape
	Slots     []SlotShape
	Ledges    []Ledge
	Chamfer   Measure
}

// RectangleShape is an outline with its left lower corner at the origin, or
// centred on it.
type RectangleShape struct {
	Length, Width Measure
	Corners       Measure // radius
	Centred       bool
}

// Corner is the end of one edge of an outline. The edge to it from the corner
// before is straight, or an arc of Radius; the last is joined to the first.
type Corner struct {
	X, Y   Measure
	Radius Measure // of the arc that leads here
	Turn   Turn    // of that arc
	Round  Measure // fillet in this corner
	Say    string
	Pos    Pos
}

// Turn is which way an arc runs, seen in plan.
type Turn string

// The turns of an arc.
const (
	Anticlockwise Turn = "anticlockwise"
	Clockwise     Turn = "clockwise"
)

// HoleShape is one hole, a circle of holes or the holes of a plan.
type HoleShape struct {
	X, Y         Measure
	Plan         string   // holes where they were found; X and Y are not given
	Of           []string // which of the plan's; empty: all
	Circle       Measure  // diameter of a circle of holes round X, Y, or round the one hole of Plan
	Count        int      // of a circle of holes
	First        Measure  // angle of the first, from the x axis
	Diameter     Measure
	Thread       string
	Depth        Measure // not given: right through
	CounterboreD Measure // diameter of a counterbore
	CounterboreH Measure // depth of it
	CountersinkD Measure // diameter of a countersink at 90°
	Say          string
	Pos          Pos
}

// SlotShape is a slot with round ends from centre to centre.
type SlotShape struct {
	FromX, FromY, ToX, ToY Measure
	Width, Depth           Measure // Depth not given: right through
	Pos                    Pos
}

// Ledge is a rectangle of the plate milled so much lower.
type Ledge struct {
	FromX, FromY, ToX, ToY, Depth Measure
	Pos                           Pos
}

// NutShape is a nut: hexagonal, square or round.
type NutShape struct {
	Section CrossSection
	Size    Measure // across flats, or the diameter
	Height  Measure
	Thread  string
	Chamfer Measure // of the thread's mouths
	Tommies Measure // diameter of cross holes for a bar; not given: none
}

// BushShape is a bush, plain or with a flange at its left end.
type BushShape struct {
	Outside, Inside, Length Measure
	Flange, FlangeWidth     Measure // not given: plain
	Chamfer                 Measure
}

// KeyShape is a parallel key.
type KeyShape struct {
	Width, Height, Length Measure
	RoundEnds             bool
	Chamfer               Measure
}

// GibShape is a gib strip: parallel, or tapered from Thick to Thin over its
// length. Angle is that of the dovetail, not given for square edges.
type GibShape struct {
	Length, Width Measure // Width across the flank
	Thick, Thin   Measure // Thin not given: parallel
	Angle         Measure
	Holes         []HoleShape
}

// WasherShape is a washer.
type WasherShape struct {
	Outside, Inside, Thickness, Chamfer Measure
}

// Holes returns the holes of a shape that go down from a face.
func (s *Shape) Holes() []*HoleShape {
	var list []*HoleShape
	add := func(holes []HoleShape) {
		for i := range holes {
			list = append(list, &holes[i])
		}
	}
	if s.Plate != nil {
		add(s.Plate.Holes)
	}
	if s.Gib != nil {
		add(s.Gib.Holes)
	}
	if s.Shoe != nil && s.Shoe.Hole != nil {
		list = append(list, s.Shoe.Hole)
	}
	return list
}

// Threads returns the ids of the threads that a shape has outside and inside, empty
// ones among them.
func (s *Shape) Threads() (outside, inside []string) {
	if t := s.Turned; t != nil {
		for _, step := range t.Steps {
			outside = append(outside, step.Thread)
		}
		for _, step := range slices.Concat(t.Bore, t.RightBore) {
			inside = append(inside, step.Thread)
		}
		for _, hole := range t.CrossHoles {
			inside = append(inside, hole.Thread)
		}
	}
	if s.Shoe != nil && s.Shoe.Stem != nil {
		outside = append(outside, s.Shoe.Stem.Thread)
	}
	if s.Nut != nil {
		inside = append(inside, s.Nut.Thread)
	}
	for _, hole := range s.Holes() {
		inside = append(inside, hole.Thread)
	}
	return outside, inside
}
