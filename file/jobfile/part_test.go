package jobfile_test

import (
	"reflect"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// beforePart is what the parts of the tests speak of.
const beforePart = `oddleg: 1
job: A repair
kit:
  roll: {kind: roller, size: 6 mm}
sizes:
  bore: {kind: diameter, surface: inside}
  nose: {kind: diameter, surface: outside}
  taper: {kind: half-angle}
plans:
  ring: {holes: [h1, h2, h3]}
`

const partSizes = `  sizes:
    big: {kind: diameter, goes-in: bore, clearance: 0.01..0.04, holds: 0.005 mm, chance: 99.5 %, rework: easy}
    eye: {kind: diameter, surface: none, goes-over: nose + roll, interference: 0.01..0.03 mm, rework: hard}
    fitted: {kind: diameter, goes-in: 1 in, fit: H7/g6, chance: 0.9}
    point: {kind: half-angle, copies: taper, within: 0.1 deg}
    long: {kind: length, is: 62, within: 0.2, say: over all}
    lean: {kind: half-angle, is: 1:20}
    screw: {thread: 7/16bsw, class: medium, hand: left, surface: outside}
    spread: {kind: angle, is: 40}
`

// unplaced returns a value without the places where its parts were written, and
// without what its formulas were read as.
func unplaced[T any](x T) T {
	clearPlaces(reflect.ValueOf(&x).Elem())
	return x
}

func clearPlaces(v reflect.Value) {
	unread(v)
	everywhere(v, func(p trade.Pos) trade.Pos { return trade.Pos{} })
}

// unread takes away what formulas were read as, which cannot be compared.
func unread(v reflect.Value) { everywhere(v, written) }

// everywhere changes all values of a type in a value.
func everywhere[T any](v reflect.Value, change func(T) T) {
	if v.CanSet() && v.Type() == reflect.TypeFor[T]() {
		v.Set(reflect.ValueOf(change(v.Interface().(T))))
	}
	switch {
	case !v.CanSet() || v.Type() == reflect.TypeFor[unit.Quantity]():
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			everywhere(v.Field(i), change)
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			everywhere(v.Index(i), change)
		}
	case v.Kind() == reflect.Pointer && !v.IsNil():
		everywhere(v.Elem(), change)
	}
}

func formula(text string) trade.Formula { return trade.Formula{Text: text} }

func span(low, high string) unit.Range { return unit.Range{Low: length(low), High: length(high)} }

// TestPartSizes holds each origin of a size to what is written in it.
func TestPartSizes(t *testing.T) {
	part := mustRead(t, beforePart+"part:\n  kind: turned\n"+partSizes).Part
	same(t, "where a size was written", []trade.Pos{part.Pos, part.Sizes[0].Pos, part.Sizes[0].Of.Pos}, []trade.Pos{at(11, 1), at(14, 5), at(14, 36)})
	same(t, "sizes", unplaced(part.Sizes), []trade.NewSize{
		{
			ID: "big", Kind: trade.Diameter, Surface: trade.Outside, From: trade.GoesIn, Of: formula("bore"),
			Clearance: span("0.01", "0.04"), Holds: length("0.005"), Chance: 0.995, Rework: trade.EasyRework,
		},
		{
			ID: "eye", Kind: trade.Diameter, Surface: trade.NoSurface, From: trade.GoesOver, Of: formula("nose + roll"),
			Clearance: span("-0.03", "-0.01"), Rework: trade.HardRework,
		},
		{ID: "fitted", Kind: trade.Diameter, Surface: trade.Outside, From: trade.GoesIn, Of: formula("1 in"), Fit: "H7/g6", Chance: 0.9},
		{ID: "point", Kind: trade.HalfAngle, From: trade.Copies, Of: formula("taper"), Within: angle("0.1 deg")},
		{ID: "long", Kind: trade.Length, From: trade.Is, Of: formula("62"), Within: length("0.2"), Say: "over all"},
		{ID: "lean", Kind: trade.HalfAngle, From: trade.Is, Of: formula("1:20")},
		{ID: "screw", Surface: trade.Outside, From: trade.IsThread, Thread: "7/16 BSW", Class: "medium", Hand: trade.LeftHand},
		{ID: "spread", Kind: trade.Angle, From: trade.Is, Of: formula("40")},
	})
}

func TestPartHead(t *testing.T) {
	same(t, "no part", mustRead(t, beforePart).Part, (*trade.Part)(nil))
	same(t, "the least", unplaced(mustRead(t, beforePart+"part: {kind: key, shape: {}}\n").Part), &trade.Part{
		Name: "A repair", Kind: trade.KeyPart, Quantity: 1,
	})
	whole := mustRead(t, beforePart+"part: {name: Key, kind: key, material: EN8 R, quantity: 3, holds: 0.02, chance: 99%, revision: C}\n").Part
	same(t, "all", unplaced(whole), &trade.Part{
		Name: "Key", Kind: trade.KeyPart, Material: "EN8 R", Quantity: 3, Holds: length("0.02"), Chance: 0.99, Revision: "C",
	})
}

func TestStacksAndMates(t *testing.T) {
	part := mustRead(t, beforePart+"part:\n  kind: turned\n"+partSizes+`  stacks:
    gap: {that: "bore - part.big - part.screw", wanted: -0.1..0.2, say: end float}
    free: {that: part.long}
  mates:
    bolts: {pair: bolts-in-holes, of: {plan: ring, hole: part.eye, bolt: 8}, say: drilled in place}
    shoe:
      pair: sector-shoe-in-groove
      of: {outer: part.big/2, inner: 20, angle: part.spread, groove-outer: bore/2, groove-inner: 19 mm}
      entry: {kind: round-hole, of: {diameter: bore + 2*roll, height: part.long}}
`).Part
	same(t, "stacks", unplaced(part.Stacks), []trade.Stack{
		{ID: "gap", That: formula("bore - part.big - part.screw"), Wanted: span("-0.1", "0.2"), Say: "end float"},
		{ID: "free", That: formula("part.long")},
	})
	same(t, "bolts", unplaced(*part.Mate("bolts")), trade.Mate{
		ID: "bolts", Pair: "bolts-in-holes", Say: "drilled in place",
		Of: []trade.MateArg{{Role: "plan", Plan: "ring"}, {Role: "hole", Value: formula("part.eye")}, {Role: "bolt", Value: formula("8")}},
	})
	same(t, "entry", unplaced(*part.Mate("shoe").Entry), trade.Entry{Kind: "round-hole", Of: []trade.MateArg{
		{Role: "diameter", Value: formula("bore + 2*roll")},
		{Role: "height", Value: formula("part.long")},
	}})
}

const joints = `part:
  kind: nut
  sizes:
    screw: {thread: M10}
joints:
  - {stud: part.screw, into: {thread: M10, length: 9, material: S275JR}, fuse: nut}
  - id: table
    stud: {of: part.screw, material: EN8 R, section: 16}
    into: {thread: m10 x 1, class: 6H, grade: 8, length: 10, around: 180 deg, outside: 17}
    head: {kind: tee, height: 8, across: 28, width: 18, slot: 12, material: EN8}
    tighten: {torque: 25 Nm, friction: 0.12..0.20}
    service: 2.5 kN
    spanner: 8 in
    holds: lifting
    fuse: head
    say: tighten it cold
  - sheared:
      - {id: key, kind: key, width: 6, height: 5, length: 20, at: 12, material: EN8, against: S275JR}
      - {id: pin, kind: pin, diameter: 4, planes: 2}
    press: {diameter: 30, inside: 10, outside: 50, length: 25, interference: 0..0.03, inner: PB1, outer: EN8, friction: 0.1..0.2, warmer: -20}
    fuse: pin
  - {stud: {thread: 1/2 BSW}, into: {thread: 1/2 BSW}, tighten: {preload: 450 lbf}}
`

func force(text string) unit.Quantity {
	q, err := unit.ParseForce(text)
	if err != nil {
		panic(err)
	}
	return q
}

func TestJoints(t *testing.T) {
	list := mustRead(t, beforePart+joints).Joints
	torque, _ := unit.ParseTorque("25 N m")
	friction, _ := unit.ParseNumberRange("0.12..0.20")
	same(t, "joints", len(list), 4)
	same(t, "a short one", unplaced(list[0]), trade.Joint{
		ID: "joint 1", Stud: trade.Member{PartSize: "screw"}, Fuse: "nut",
		Into: trade.Member{Thread: "M10", Length: length("9"), Material: "S275JR"},
	})
	same(t, "where the stud was written", list[0].Stud.Given(), true)
	same(t, "a long one", unplaced(list[1]), trade.Joint{
		ID:   "table",
		Stud: trade.Member{PartSize: "screw", Material: "EN8 R", Section: length("16")},
		Into: trade.Member{Thread: "M10x1", Class: "6H", Grade: "8", Length: length("10"), Around: angle("180 deg"), Outside: length("17")},
		Head: trade.Head{
			Kind: "tee", Height: length("8"), Across: length("28"), Width: length("18"), Slot: length("12"), Material: "EN8",
		},
		Tighten: trade.Tighten{Torque: torque, Friction: friction},
		Service: force("2.5 kN"), Spanner: length("8 in"), Holds: trade.Lifts, Fuse: "head", Say: "tighten it cold",
	})
	same(t, "sheared", unplaced(list[2].Sheared), []trade.Sheared{
		{
			ID: "key", Kind: "key", Width: length("6"), Height: length("5"), Length: length("20"), At: length("12"),
			Material: "EN8", Against: "S275JR",
		},
		{ID: "pin", Kind: "pin", Diameter: length("4"), Planes: 2},
	})
	press := list[2].Press
	same(t, "press", []unit.Quantity{press.Diameter, press.Inside, press.Outside, press.Length}, []unit.Quantity{length("30"), length("10"), length("50"), length("25")})
	same(t, "interference", press.Interference, span("0", "0.03"))
	same(t, "warmer", press.Warmer.Inside(), -20.0)
	same(t, "preload", []any{list[3].ID, list[3].Tighten.Preload}, []any{"joint 4", force("450 lbf")})
}
