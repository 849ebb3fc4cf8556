package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var tapers = []*Method{
	{
		ID: "taper-over-rollers",
		When: "An outside taper standing on a plate by its small end: rollers on opposite sides, on equal blocks " +
			"or on the plate.",
		SetUp: "Stand the taper of {small-end} on a plate, {roller:two}[ on equal blocks ({block})] against it, " +
			"and read over them",
		For:   []Purpose{{Taper, 1}},
		Words: []string{"cone", "Morse", "spindle", "arbor"},
		Apart: true,
		Roles: []Role{
			role("small-end", "D", Diameter),
			role("half-angle", "a", HalfAngle).signed(),
			kit("roller", "d", Diameter).chosen(trade.Roller, trade.Pin).counts(2),
			kit("block", "h", AnyLength).chosen(trade.Block).holds().or(0),
			role("height", "H", AnyLength).sought(trade.Height).room().or(unknown),
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = D + 2(h + d/2)·tan a + d/cos a + d",
		Traps: []string{
			"The small end is where the taper meets the plate: a chamfer there does not matter, a face out of " +
				"square does.",
			trapRock, trapUnworn,
		},
		Source: "geometry: at the height h + d/2 of the rollers' middles the taper is D + 2(h + d/2)·tan a across, " +
			"and each middle stands (d/2)/cos a from it; the same as the handbook form M = D + d(1 + cot((90° - " +
			"a)/2)) on the plate",
		Example: []float64{12.7, 5 * degree, 6, 20, 60},
		Model:   taperOverRollers,
		Sketch:  sketchTaperOverRollers,
		Valid:   rules(between(1, -90*degree, 90*degree, "half angle"), rollersTouchTheTaper),
	},
	{
		ID:       "taper-ball-depth",
		When:     "An inside taper: from its face down to the top of a ball that has gone in.",
		SetUp:    "Drop {ball} into the taper of {mouth} and read from the face down to its top",
		For:      []Purpose{{Taper, 2}},
		Words:    []string{"cone", "socket", "Morse", "sleeve", "bore"},
		Kin:      []string{"countersink-ball"},
		OneSided: true,
		Roles: []Role{
			role("mouth", "D", Diameter),
			role("half-angle", "a", HalfAngle),
			kit("ball", "d", Diameter).chosen(trade.Ball).counts(-1).ruled(largest),
		},
		Reads:   unit.Length,
		Jaw:     Reaching,
		Signed:  true,
		Formula: "m = (D/2 - d/(2·cos a))/tan a - d/2",
		Traps:   []string{"Drop the ball in, do not press it: in a slow taper it jams and goes deeper.", trapUnworn},
		Source:  "geometry: the ball's middle is d/2 from the flank, zc deep where (D/2 - zc·tan a)·cos a = d/2",
		Example: []float64{25, 5 * degree, 20},
		Model:   taperBallDepth,
		Sketch:  sketchTaperBallDepth,
		Valid:   rules(between(1, 0, 90*degree, "half angle"), ballTouchesTheTaper),
	},
	{
		ID:       "countersink-ball",
		When:     "A countersink or centre: from the face up to the top of a ball that sits in it.",
		SetUp:    "Set {ball} in the countersink of {mouth} and read from the face up to its top",
		For:      []Purpose{{Taper, 3}},
		Words:    []string{"cone", "centre", "chamfer", "screw head"},
		Kin:      []string{"taper-ball-depth"},
		Plainer:  []Plainer{{"half-angle", "protractor", "angle"}},
		OneSided: true,
		Roles: []Role{
			role("mouth", "D", Diameter),
			role("half-angle", "a", HalfAngle),
			kit("ball", "d", Diameter).chosen(trade.Ball).counts(1).ruled(largest),
		},
		Reads:   unit.Length,
		Jaw:     Reaching,
		Signed:  true,
		Formula: "m = d/2 - (D/2 - d/(2·cos a))/tan a",
		Traps:   []string{"A burr round the mouth lifts the foot of the gauge."},
		Source:  "geometry: as taper-ball-depth, counted upward",
		Example: []float64{30, 45 * degree, 20},
		Model:   countersinkBall,
		Sketch:  sketchTaperBallDepth,
		Valid:   rules(between(1, 0, 90*degree, "half angle"), ballTouchesTheTaper),
	},
	{
		ID:      "sine-bar",
		When:    "An angle set with a sine bar: the height of the blocks under its raised roller.",
		SetUp:   "Set {angle} on {bar} and read the height of the blocks",
		For:     []Purpose{{Taper, 4}},
		Words:   []string{"slope", "block", "gib", "cone"},
		ReadBy:  []trade.InstrumentKind{trade.HeightGauge},
		Plainer: []Plainer{{"angle", "protractor", "angle"}},
		Meets:   []Meeting{{Role: "angle", Kinds: angular, Rank: 2, Untouched: true}},
		Roles: []Role{
			role("angle", "θ", PlainAngle).takes(ifIncluded),
			kit("bar", "L", AnyLength).chosen(trade.Bar).holds(),
		},
		Reads:   unit.Length,
		Formula: "m = L·sin θ",
		Traps:   []string{"A tapered work piece's included angle is set, not its half angle."},
		Source:  "geometry: the bar is the hypotenuse",
		Example: []float64{30 * degree, 100},
		Model:   sineBar,
		Sketch:  sketchSineBar,
		Valid:   rules(between(0, 0, 60*degree, "angle"), steepSineBar),
	},
}

func taperOverRollers(a Args) grad.Number {
	smallEnd, halfAngle, roller, block := a[0], a[1], a[2], a[3]
	middle := block.Add(roller.Half())
	across := smallEnd.Add(middle.Mul(halfAngle.Tan()).Times(2))
	return across.Add(roller.Div(halfAngle.Cos())).Add(roller)
}

// ballInTaper is the depth of a ball's middle below the face of a taper that
// narrows inward.
func ballInTaper(mouth, halfAngle, ball grad.Number) grad.Number {
	room := mouth.Sub(ball.Div(halfAngle.Cos())).Half()
	return room.Div(halfAngle.Tan())
}

func taperBallDepth(a Args) grad.Number {
	mouth, halfAngle, ball := a[0], a[1], a[2]
	return ballInTaper(mouth, halfAngle, ball).Sub(ball.Half())
}

func countersinkBall(a Args) grad.Number { return taperBallDepth(a).Neg() }

func sineBar(a Args) grad.Number {
	angle, bar := a[0], a[1]
	return bar.Mul(angle.Sin())
}

func rollersTouchTheTaper(v []float64, r *remarks) {
	halfAngle, roller, block, height := v[1], v[2], v[3], v[4]
	if block < 0 {
		r.broken("a block cannot be %s high", unit.LengthOf(block))
	}
	if touch := block + roller/2*(1+math.Sin(halfAngle)); height < touch {
		r.broken("the rollers touch %s above the plate, but the taper is only %s high", unit.LengthOf(touch), unit.LengthOf(height))
	}
	if halfAngle < 0 {
		r.advise("the half angle is %s: the work stands on its large end", unit.AngleOf(halfAngle))
	}
}

func ballTouchesTheTaper(v []float64, r *remarks) {
	mouth, halfAngle, ball := v[0], v[1], v[2]
	if touch := ball * math.Cos(halfAngle); touch > mouth {
		r.broken("the ball of %s would touch the taper where it is %s across, but the mouth is only %s: it sits on "+
			"the edge",
			unit.LengthOf(ball), unit.LengthOf(touch), unit.LengthOf(mouth))
	}
}

// steepSineBar says what an error in the blocks does: dθ = dm/(L·cos θ).
func steepSineBar(v []float64, r *remarks) {
	angle, bar := v[0], v[1]
	if angle > 45*degree && angle < 60*degree {
		const slip = 0.01
		r.advise("the sine bar stands at %s: over %s it is coarse, a height out by %s turns it by %s",
			unit.AngleOf(angle), unit.AngleOf(45*degree), unit.LengthOf(slip), unit.AngleOf(slip/(bar*math.Cos(angle))))
	}
}
