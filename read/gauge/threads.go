package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var threads = []*Method{
	{
		ID:      "three-wires",
		When:    "The effective diameter of a screw, over one wire on one side and two opposite.",
		SetUp:   "Lay {wire:three} in the thread of {effective} and read over them",
		For:     []Purpose{{Thread, 1}},
		Words:   []string{"screw", "pitch diameter", "flank"},
		Plainer: []Plainer{{"major", "over-crests", "major"}, {"pitch", "pitches", "pitch"}},
		Proves:  []Proof{{ScrewEffective, "effective", 1}},
		Roles: []Role{
			role("effective", "E", Diameter), role("pitch", "P", PitchLength), role("angle", "φ", IncludedAngle),
			kit("wire", "d", Diameter).chosen(trade.Wire, trade.Pin).counts(2).ruled(both),
			role("major", "D", Diameter).or(unknown),
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = E + d(1 + 1/sin(φ/2)) - (P/2)·cot(φ/2)",
		Traps: []string{
			"1 + 1/sin(φ/2) is 3 for 60° only: 3.1657 for Whitworth's 55°.",
			"The lead angle is left out: the remark says what to add to the reading expected where it matters.",
			trapUnworn, trapWarm,
		},
		Source:  "Machinery's Handbook, 31st ed., pp. 2129 and 2135: E = M - d(1 + csc(φ/2)) + (P/2)·cot(φ/2)",
		Example: []float64{9.026, 1.5, 60 * degree, 0.866, 10},
		Model:   threeWires,
		Sketch:  sketchThreeWires,
		Valid:   rules(between(2, 0, 180*degree, "thread's angle"), wiresTouchTheFlank, bestWire, leadAngleMatters),
	},
	{
		ID:       "thread-ball-tips",
		When:     "The effective diameter of an inside thread, with ball-ended tips on an inside micrometer.",
		SetUp:    "Set tips ({ball}) in the thread of {effective} and read between them",
		For:      []Purpose{{Thread, 7}},
		Words:    []string{"nut", "tapped hole", "flank", "pitch diameter"},
		OwnGauge: true,
		Kin:      []string{"thread-between-balls"},
		Plainer:  []Plainer{{"pitch", "pitches", "pitch"}},
		Roles:    insideThread(kit("ball", "d", Diameter).fixed(trade.Ball).counts(1)),
		Reads:    unit.Length,
		Jaw:      Opening,
		Formula:  "m = sqrt((E + (P/2)·cot(φ/2) - d/sin(φ/2))² + (P/2)²) + d",
		Traps: []string{"Single-start threads only: the tips stand half a pitch apart along the " +
			"axis.", trapUnworn, trapWarm},
		Source: "geometry: a ball's middle lies (P/4)·cot(φ/2) - (d/2)/sin(φ/2) outside the pitch line; " +
			"the two middles are half a pitch apart along the axis",
		Example: []float64{28.701, 2, 60 * degree, 1.2},
		Model:   threadBallTips,
		Sketch:  sketchThreadBallTips,
		Valid:   rules(between(2, 0, 180*degree, "thread's angle"), ballsTouchTheFlank, tipsClearTheAxis),
	},
	{
		ID: "thread-between-balls",
		When: "The effective diameter of an inside thread: two loose balls on one side, one opposite, and " +
			"inside jaws between.",
		SetUp:   "Stick {ball:three} in the thread of {effective}, two and one opposite, and read between them",
		For:     []Purpose{{Thread, 6}},
		Words:   []string{"nut", "tapped hole", "flank", "pitch diameter"},
		Kin:     []string{"thread-ball-tips"},
		Plainer: []Plainer{{"pitch", "pitches", "pitch"}},
		Proves:  []Proof{{NutEffective, "effective", 1}},
		Roles:   insideThread(kit("ball", "d", Diameter).chosen(trade.Ball).counts(-2).ruled(both)),
		Reads:   unit.Length,
		Jaw:     Opening,
		Formula: "m = E + (P/2)·cot(φ/2) - d/sin(φ/2) - d",
		Traps: []string{"Hold the balls with stiff grease; the jaws must lie along the axis over both balls of a " +
			"side.", trapUnworn, trapWarm},
		Source:  "geometry: three-wires turned inside out",
		Example: []float64{28.701, 2, 60 * degree, 1.5},
		Model:   threadBetweenBalls,
		Sketch:  sketchThreadBetweenBalls,
		Valid: rules(between(2, 0, 180*degree, "thread's angle"), ballsTouchTheFlank, ballsStandProud,
			opens(threadBetweenBalls, "the gap between the balls")),
	},
	{
		ID:      "thread-bore",
		When:    "The bore of an inside thread, between its crests.",
		SetUp:   "Read the bore {minor} of the thread",
		For:     []Purpose{{Thread, 5}},
		Words:   []string{"nut", "tapped hole", "minor diameter", "core"},
		ReadBy:  []trade.InstrumentKind{trade.Caliper, trade.Micrometer, trade.BoreGauge},
		Proves:  []Proof{{NutMinor, "minor", 1}},
		Apart:   true,
		Roles:   []Role{role("minor", "D", Diameter)},
		Reads:   unit.Length,
		Jaw:     Opening,
		Formula: "m = D",
		Traps:   []string{"Worn or torn crests read large.", trapWarm},
		Source:  "the reading is the size",
		Example: []float64{26.2},
		Model:   itself,
		Sketch:  sketchThreadBore,
	},
	{
		ID:      "over-crests",
		When:    "The outside of a screw over its crests.",
		SetUp:   "Read {major} over the crests",
		For:     []Purpose{{Thread, 2}},
		Words:   []string{"thread", "major diameter", "bolt", "stud"},
		Proves:  []Proof{{ScrewMajor, "major", 1}},
		Apart:   true,
		Roles:   []Role{role("major", "D", Diameter)},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = D",
		Traps: []string{
			"Worn crests read low.",
			"Measure pitch over many threads at a worn and an unworn end.",
			"Where nothing enters, cast the thread and read the cast.",
			trapUnworn,
		},
		Source:  "the reading is the size",
		Example: []float64{10},
		Model:   itself,
		Sketch:  sketchOverCrests,
	},
	{
		ID:       "root",
		When:     "The root of a screw, with pointed anvils.",
		SetUp:    "Read {minor} at the root",
		For:      []Purpose{{Thread, 3}},
		Words:    []string{"thread", "minor diameter", "core", "floor"},
		OwnGauge: true,
		Apart:    true,
		Roles:    []Role{role("minor", "D", Diameter)},
		Reads:    unit.Length,
		Jaw:      Closing,
		Formula:  "m = D",
		Traps:    []string{"The points must be sharper than the thread and reach its floor."},
		Source:   "the reading is the size",
		Example:  []float64{8.16},
		Model:    itself,
		Sketch:   sketchRoot,
	},
}

// insideThread are the roles of an inside thread that is read with this ball.
func insideThread(ball Role) []Role {
	return []Role{
		role("effective", "E", Diameter), role("pitch", "P", PitchLength), role("angle", "φ", IncludedAngle), ball,
	}
}

// sharpVee is the diameter over the points where the flanks would meet at the
// root of an inside thread; E - (sharpVee - E) is that of a screw.
func sharpVee(effective, pitch, angle grad.Number) grad.Number {
	return effective.Add(pitch.Half().Mul(cot(angle.Half())))
}

func threeWires(a Args) grad.Number {
	effective, pitch, angle, wire := a[0], a[1], a[2], a[3]
	over := effective.Add(wire.Mul(csc(angle.Half()).Plus(1)))
	return over.Sub(pitch.Half().Mul(cot(angle.Half())))
}

func threadBallTips(a Args) grad.Number {
	effective, pitch, angle, ball := a[0], a[1], a[2], a[3]
	across := sharpVee(effective, pitch, angle).Sub(ball.Mul(csc(angle.Half())))
	return across.Sq().Add(pitch.Half().Sq()).Sqrt().Add(ball)
}

func threadBetweenBalls(a Args) grad.Number {
	effective, pitch, angle, ball := a[0], a[1], a[2], a[3]
	return sharpVee(effective, pitch, angle).Sub(ball.Mul(csc(angle.Half()).Plus(1)))
}

func tipsClearTheAxis(v []float64, r *remarks) {
	effective, pitch, angle, ball := v[0], v[1], v[2], v[3]
	across := effective + pitch/2/math.Tan(angle/2) - ball/math.Sin(angle/2)
	if across <= 0 {
		r.broken("tips of %s leave %s between their middles: they do not go into this thread", unit.LengthOf(ball), unit.LengthOf(across))
	}
}
