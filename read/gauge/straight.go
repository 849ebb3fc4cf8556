package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var straight = []*Method{
	{
		ID:     "outside",
		When:   "Any outside width, diameter or height that jaws can close on.",
		SetUp:  "Read {size} outside",
		For:    []Purpose{{Plainly, 1}, {Slot, 7}},
		Words:  []string{"caliper", "micrometer", "snap", "shaft", "boss", "thickness", "diameter"},
		Direct: true,
		Meets: []Meeting{
			{Role: "size", Kinds: spanned, On: trade.Outside, Rank: 1, Untouched: true},
			{Role: "size", Kinds: offsets, On: trade.Outside, Rank: 1},
		},
		Proves:  []Proof{{PartLength, "size", 1}},
		Roles:   []Role{role("size", "s", AnyLength).sought(trade.Diameter).takes(unlessRadius)},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = s",
		Traps:   []string{trapLobes, trapUnworn, trapWarm},
		Source:  "the reading is the size",
		Example: []float64{20},
		Model:   itself,
		Sketch:  sketchOutside,
	},
	{
		ID:      "inside",
		When:    "A slot or bore that inside jaws open against; state the width of flat jaws in a round bore.",
		SetUp:   "Read {size} inside",
		For:     []Purpose{{Plainly, 2}, {Bore, 2}, {Slot, 3}},
		Words:   []string{"caliper", "slot", "hole", "telescopic gauge", "snap", "diameter"},
		ReadBy:  []trade.InstrumentKind{trade.Caliper, trade.Micrometer, trade.BoreGauge},
		Plainer: []Plainer{{"size", "rocking-rod", "bore"}, {"size", "ball-on-mouth", "bore"}},
		Direct:  true,
		Meets: []Meeting{
			{Role: "size", Kinds: spanned, On: trade.Inside, Rank: 1, Untouched: true},
			{Role: "size", Kinds: offsets, On: trade.Inside, Rank: 1},
		},
		Roles: []Role{
			role("size", "s", AnyLength).sought(trade.Diameter).takes(unlessRadius),
			kit("jaw-flat", "t", AnyLength).fixed(trade.OtherPiece).holds().ofInstrument().or(0),
		},
		Reads:   unit.Length,
		Jaw:     Opening,
		Formula: "m = sqrt(s² - t²)",
		Traps: []string{"Flat jaws stand on their edges in a small bore and read " +
			"low.", trapLobes, trapUnworn, trapWarm},
		Source:  "geometry: the corners of a flat t wide lie on the bore, (m/2)² + (t/2)² = (s/2)²",
		Example: []float64{20, 2},
		Model:   betweenJaws,
		Sketch:  sketchInside,
		Valid:   rules(flatJawsReadLow, leverage(betweenJaws, 0, "bore")),
	},
	{
		ID:      "depth",
		When:    "A depth or step that a rod or blade reaches from a face.",
		SetUp:   "Read the depth {size}",
		For:     []Purpose{{Plainly, 3}, {Slot, 4}},
		Words:   []string{"step", "shoulder", "recess", "counterbore", "rod"},
		Meets:   []Meeting{{Role: "size", Kinds: []trade.SizeKind{trade.Depth}, Rank: 1, Untouched: true}},
		Proves:  []Proof{{PartLength, "size", 2}},
		Roles:   []Role{role("size", "s", AnyLength).sought(trade.Depth).signed()},
		Reads:   unit.Length,
		Jaw:     Reaching,
		Signed:  true,
		Formula: "m = s",
		Traps:   []string{"A burr on the face lifts the base: stone it first.", trapWarm},
		Source:  "the reading is the size",
		Example: []float64{12},
		Model:   itself,
		Sketch:  sketchDepth,
	},
	{
		ID:      "protractor",
		When:    "An angle that a protractor's blades lie against.",
		SetUp:   "Read the angle {angle}",
		For:     []Purpose{{Taper, 5}},
		Words:   []string{"bevel", "vernier", "slope", "chamfer", "flank"},
		ReadBy:  []trade.InstrumentKind{trade.Protractor},
		Plainer: []Plainer{{"angle", "sine-bar", "angle"}},
		Meets:   []Meeting{{Role: "angle", Kinds: angular, Rank: 1, Untouched: true}},
		Roles:   []Role{role("angle", "θ", PlainAngle).takes(ifIncluded).signed()},
		Reads:   unit.Angle,
		Signed:  true,
		Formula: "m = θ",
		Traps:   []string{"A worn flank is hollow: lay the blade where it has not run."},
		Source:  "the reading is the angle",
		Example: []float64{60 * degree},
		Model:   itself,
		Sketch:  sketchProtractor,
	},
	{
		ID:       "wall-thickness",
		When:     "The wall of a tube or bush whose bore runs true with its outside.",
		SetUp:    "Read the wall between {outer} and {inner}",
		For:      []Purpose{{Plainly, 4}, {Bore, 5}},
		Words:    []string{"tube", "bush", "sleeve", "liner"},
		OwnGauge: true,
		Plainer:  []Plainer{{"outer", "outside", "size"}, {"inner", "inside", "size"}},
		Roles:    []Role{role("outer", "A", Diameter), role("inner", "B", Diameter)},
		Reads:    unit.Length,
		Jaw:      Closing,
		Formula:  "m = (A - B)/2",
		Traps:    []string{"Read all round: the wall varies by twice the eccentricity of the bore.", trapWarm},
		Source:   "geometry: half the difference of two concentric diameters",
		Example:  []float64{30, 20},
		Model:    wallThickness,
		Sketch:   sketchWallThickness,
		Valid:    rules(boreInsideTheRound),
	},
	{
		ID:      "pitches",
		When:    "A length over several threads or teeth.",
		SetUp:   "Read over {n} pitches of {pitch}",
		For:     []Purpose{{Thread, 4}, {Gear, 5}},
		Words:   []string{"screw", "lead", "rack", "teeth"},
		ReadBy:  []trade.InstrumentKind{trade.Rule, trade.Caliper, trade.Scale},
		Meets:   []Meeting{{Role: "pitch", Kinds: []trade.SizeKind{trade.Pitch}, Rank: 1, Untouched: true}},
		Roles:   []Role{role("pitch", "P", PitchLength), role("n", "n", Count).usual(overPitches)},
		Reads:   unit.Length,
		Formula: "m = n·P",
		Traps:   []string{"Measure over many threads, at a worn and at an unworn end.", trapUnworn},
		Source:  "the reading is n pitches",
		Example: []float64{1.5, 10},
		Model:   severalPitches,
		Sketch:  sketchPitches,
		Valid:   rules(wholeNumbers("pitches", 1)),
	},
	{
		ID:      "runout",
		When:    "A dial's full swing on a round that turns off its centre.",
		SetUp:   "Turn the work for the full swing of a dial, twice {offset}",
		For:     []Purpose{{Running, 1}},
		Words:   []string{"eccentric", "wobble", "dial", "swing", "concentric"},
		ReadBy:  []trade.InstrumentKind{trade.Dial},
		Apart:   true,
		Roles:   []Role{role("offset", "e", AnyLength).sought(trade.Offset).signed()},
		Reads:   unit.Length,
		Signed:  true,
		Formula: "m = 2e",
		Traps:   []string{"Out of round swings the dial too: check the round by itself first."},
		Source:  "geometry: a round e off the axis swings by twice e",
		Example: []float64{0.05},
		Model:   fullSwing,
		Sketch:  sketchRunout,
	},
	{
		ID:      "lost-motion",
		When:    "What a dial shows between taking a screw up one way and the other.",
		SetUp:   "Take up the screw both ways for {backlash}",
		For:     []Purpose{{Running, 2}},
		Words:   []string{"backlash", "play", "slack", "lead screw", "dial"},
		ReadBy:  []trade.InstrumentKind{trade.Dial},
		Apart:   true,
		Roles:   []Role{role("backlash", "b", AnyLength).sought(trade.Length).signed()},
		Reads:   unit.Length,
		Signed:  true,
		Formula: "m = b",
		Traps:   []string{"It differs along the screw: note where each reading was taken.", trapUnworn},
		Source:  "the reading is the backlash",
		Example: []float64{0.2},
		Model:   itself,
		Sketch:  sketchLostMotion,
	},
}

// overPitches is how many pitches a length is read over where no reading says:
// common practice, no source.
const overPitches = 10

func itself(a Args) grad.Number { return a[0] }

// betweenJaws is the size itself where no flat is stated, exactly.
func betweenJaws(a Args) grad.Number {
	size, flat := a[0], a[1]
	if flat.X == 0 {
		return size
	}
	return size.Sq().Sub(flat.Sq()).Sqrt()
}

func wallThickness(a Args) grad.Number {
	outer, inner := a[0], a[1]
	return outer.Sub(inner).Half()
}

func severalPitches(a Args) grad.Number {
	pitch, n := a[0], a[1]
	return n.Mul(pitch)
}

func fullSwing(a Args) grad.Number {
	offset := a[0]
	return offset.Times(2)
}

// flatJawsReadLow speaks from a micrometre up.
func flatJawsReadLow(v []float64, r *remarks) {
	size, flat := v[0], v[1]
	if flat >= size && flat != 0 {
		r.broken("jaws with a flat of %s do not enter a bore of %s", unit.LengthOf(flat), unit.LengthOf(size))
		return
	}
	if low := size - math.Sqrt(size*size-flat*flat); low > 0.001 {
		r.advise("flat jaws %s wide read %s low in a bore of %s: allowed for", unit.LengthOf(flat), unit.LengthOf(low), unit.LengthOf(size))
	}
}

func boreInsideTheRound(v []float64, r *remarks) {
	if outer, inner := v[0], v[1]; inner >= outer {
		r.broken("the inner diameter %s is not smaller than the outer %s", unit.LengthOf(inner), unit.LengthOf(outer))
	}
}
