package trade

import "codeberg.org/oddleg/oddleg/num/unit"

// Machinery is what a shop has to make the part with, by id: not the machine
// that is being mended.
type Machinery struct {
	ID         string
	Kind       MachineKind
	Speeds     []float64     // of the spindle, rev/min, rising
	Leadscrew  unit.Quantity // pitch
	FixedRatio Ratio         // turns of the first stud's gear for one of the spindle; 0/0: 1/1
	Gearbox    []Ratio       // leadscrew turns for one of its input; empty: none
	Gears      []int         // change gears at hand, by teeth; one written twice is there twice
	Clearance  float64       // teeth that a stud's boss needs, 0: as usual
	Dials      []DialScale
	Travels    []Travel
	Readout    bool
	Table      *RotaryTable // nil for none
	Cutters    []Cutter
	SawKerf    unit.Quantity
	Say        string
	Pos        Pos
}

// MachineKind is what a machine of the shop is called in the trade.
type MachineKind string

// The kinds of machine.
const (
	Lathe       MachineKind = "lathe"
	Mill        MachineKind = "mill"
	Drill       MachineKind = "drill"
	Shaper      MachineKind = "shaper"
	Planer      MachineKind = "planer"
	Grinder     MachineKind = "grinder"
	Saw         MachineKind = "saw"
	DividerKind MachineKind = "divider"
	OtherKind   MachineKind = "other"
)

// MachineKinds lists every kind of machine.
var MachineKinds = []MachineKind{Lathe, Mill, Drill, Shaper, Planer, Grinder, Saw, DividerKind, OtherKind}

// Ratio is a ratio of whole numbers, kept exact.
type Ratio struct {
	Num, Den int
}

// Given reports whether the ratio is stated.
func (r Ratio) Given() bool { return r.Den != 0 }

// DialScale is a graduated collar: which slide it moves, what one division
// moves, and whether that is read as a diameter or a radius.
type DialScale struct {
	Slide    string
	Division unit.Quantity
	Turn     unit.Quantity // one turn of the handle; not given: not known
	Reads    DialReads
	Pos      Pos
}

// DialReads says what a dial of a cross slide counts.
type DialReads string

// What dials read.
const (
	ReadsNothing  DialReads = ""
	ReadsDiameter DialReads = "diameter"
	ReadsRadius   DialReads = "radius"
)

// Travel is how far a slide of a machine goes.
type Travel struct {
	Slide  string
	Length unit.Quantity
}

// RotaryTable is a table or a dividing head: turns of the handle for one of the
// table, the hole circles of its plates, and its reach.
type RotaryTable struct {
	Ratio     int
	Plates    []int // holes of the circles
	Divisions int   // of the handle's dial in one turn, 0: none
	Gears     []int // for differential dividing
	Pos       Pos
}

// Cutter is a milling cutter, drill or reamer at hand.
type Cutter struct {
	ID       string
	Kind     CutterKind
	Diameter unit.Quantity
	Teeth    int
	Material ToolMaterial // empty: not said
	Pos      Pos
}

// CutterKind is what a cutter is called in the trade.
type CutterKind string

// The kinds of cutter.
const (
	EndMill     CutterKind = "end-mill"
	SlotDrill   CutterKind = "slot-drill"
	FaceMill    CutterKind = "face-mill"
	SlittingSaw CutterKind = "slitting-saw"
	TwistDrill  CutterKind = "drill"
	Reamer      CutterKind = "reamer"
	Tap         CutterKind = "tap"
)

// CutterKinds lists every kind of cutter.
var CutterKinds = []CutterKind{EndMill, SlotDrill, FaceMill, SlittingSaw, TwistDrill, Reamer, Tap}

// ToolMaterial is what a cutter is made of.
type ToolMaterial string

// The materials of cutters.
const (
	HighSpeedSteel ToolMaterial = "hss"
	Carbide        ToolMaterial = "carbide"
	CarbonSteel    ToolMaterial = "carbon-steel"
)

// ToolMaterials lists every one of them.
var ToolMaterials = []ToolMaterial{HighSpeedSteel, Carbide, CarbonSteel}

// Cutter returns the cutter with this id, nil if there is none.
func (m *Machinery) Cutter(id string) *Cutter { return byID(m.Cutters, id) }

func (m *Machinery) id() string { return m.ID }
func (c *Cutter) id() string    { return c.ID }
