package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var arcs = []*Method{
	{
		ID:       "chord-height",
		When:     "A part of a round, convex or concave: its rise over a chord between sharp feet.",
		SetUp:    "Read the rise of {radius} over feet {chord} apart",
		For:      []Purpose{{Arc, 2}},
		Words:    []string{"arc", "curve", "spherometer", "sector", "radius gauge"},
		OwnGauge: true,
		Kin:      []string{"ball-feet-height", "three-rollers"},
		Meets:    []Meeting{{Role: "radius", Kinds: []trade.SizeKind{trade.Radius}, Rank: 1, Untouched: true}},
		Roles:    []Role{role("radius", "R", Radius), kit("chord", "c", AnyLength).fixed(trade.OtherPiece).holds()},
		Reads:    unit.Length,
		Jaw:      Reaching,
		Formula:  "m = R - sqrt(R² - c²/4)",
		Traps:    []string{"Less than half a round only.", "Rounded feet need ball-feet-height."},
		Source: "geometry: the middle of the chord is sqrt(R² - c²/4) from the centre; the same as the handbook " +
			"form R = (c² + 4h²)/(8h)",
		Example: []float64{50, 40},
		Model:   chordHeight,
		Sketch:  sketchChordHeight,
		Valid:   rules(chordFitsTheRound, leverage(chordHeight, 0, "radius")),
	},
	{
		ID:       "ball-feet-height",
		When:     "A part of a round under a gauge with ball feet, its stylus zeroed on a flat.",
		SetUp:    "Read the rise of {radius} over ball feet {feet} apart",
		For:      []Purpose{{Arc, 3}},
		Words:    []string{"arc", "curve", "spherometer", "sector", "radius gauge"},
		OwnGauge: true,
		Kin:      []string{"chord-height", "three-rollers"},
		Roles: []Role{
			role("radius", "R", Radius),
			kit("feet", "c", AnyLength).fixed(trade.OtherPiece).holds(),
			kit("ball", "d", Diameter).fixed(trade.Ball).holds(),
			role("side", "S", Side).sideOf("radius"),
		},
		Reads:   unit.Length,
		Jaw:     Reaching,
		Formula: "m = p - sqrt(p² - c²/4); p = R + S·d/2",
		Traps:   []string{"c is between the middles of the two feet, side is 1 on a convex arc, -1 in a concave one."},
		Source:  "geometry: the feet's middles lie on a circle of radius R + S·d/2",
		Example: []float64{100, 60, 6, 1},
		Model:   ballFeetHeight,
		Sketch:  sketchBallFeetHeight,
		Valid:   rules(eitherSide(3, "convex", "concave"), feetFitTheRound, leverage(ballFeetHeight, 0, "radius")),
	},
	{
		ID:   "three-rollers",
		When: "A large arc: how far the middle one of three equal rollers stands over, or under, the outer two.",
		SetUp: "Lay {roller:three} on {radius}, the outer ones {half-chord} from the middle, and read how far the " +
			"middle one stands over them",
		For:    []Purpose{{Arc, 1}},
		Words:  []string{"curve", "segment", "shoe", "sector", "pin"},
		Kin:    []string{"chord-height", "ball-feet-height"},
		Proves: []Proof{{PartArc, "radius", 1}},
		Roles: []Role{
			role("radius", "R", Radius),
			kit("roller", "d", Diameter).chosen(trade.Roller, trade.Pin).holds(),
			kit("half-chord", "c", AnyLength).fixed(trade.OtherPiece).holds(),
			role("side", "S", Side).sideOf("radius"),
		},
		Reads:   unit.Length,
		Jaw:     Reaching,
		Formula: "m = p - sqrt(p² - c²); p = R + S·d/2",
		Traps: []string{"c is half the distance of the outer rollers' middles, " +
			"side is 1 on a convex arc, -1 in a concave one."},
		Source:  "geometry: the rollers' middles lie on a circle of radius R + S·d/2",
		Example: []float64{175, 20, 60, 1},
		Model:   threeRollers,
		Sketch:  sketchThreeRollers,
		Valid:   rules(eitherSide(3, "convex", "concave"), rollersFitTheRound, leverage(threeRollers, 0, "radius")),
	},
	{
		ID:      "rollers-on-flat",
		When:    "A convex arc resting on a flat, a roller pushed in on either side, over the rollers.",
		SetUp:   "Lay {round} on a flat, {roller:two} pushed in on either side, and read over them",
		For:     []Purpose{{Arc, 4}},
		Words:   []string{"arc", "curve", "disc", "pin", "plate"},
		Plainer: []Plainer{{"round", "outside", "size"}},
		Roles: []Role{
			role("round", "D", Diameter),
			kit("roller", "d", Diameter).chosen(trade.Roller, trade.Pin).counts(1),
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = 2·sqrt(D·d) + d",
		Traps: []string{
			"Work and rollers must all lie on one flat.",
			"A handbook form with (L + d)² for the reading L over the rollers is wrong: it is (L - d)².",
		},
		Source:  "geometry: two rounds on a flat touch with their middles sqrt(D·d) apart along it",
		Example: []float64{32, 8},
		Model:   rollersOnFlat,
		Sketch:  sketchRollersOnFlat,
		Valid:   rules(jawsClearTheWork, leverage(rollersOnFlat, 0, "round")),
	},
	{
		ID:     "touch",
		When:   "A circle or line touched with a ball-ended stylus, read as x and y from a digital readout.",
		SetUp:  "Touch {circle} with {stylus} from several sides and read x and y of its middle",
		For:    []Purpose{{Arc, 5}, {Centres, 6}},
		Words:  []string{"arc", "centre", "readout", "coordinates", "mill", "probe", "edge finder"},
		ReadBy: []trade.InstrumentKind{trade.Readout},
		Pairs:  true,
		Apart:  true,
		Roles: []Role{
			{Name: "circle", Also: "line", Symbol: "D", Kind: PlaceTouched},
			kit("stylus", "d", Diameter).fixed(trade.Stylus).holds(),
			role("side", "S", Side).sideOf("circle"),
		},
		Reads:   unit.Length,
		Signed:  true,
		Formula: "sqrt((x - x0)² + (y - y0)²) = D/2 + S·d/2",
		Traps: []string{
			"Three touches or more fix a circle, two a line; spread them as widely as can be.",
			"Allow for the stylus square to the surface, never along an axis.",
		},
		Source: "geometry: at contact the stylus's middle is half its diameter from the circle or line; of a line " +
			"x·cos β + y·sin β = p + S·d/2",
		Example: []float64{60, 2, -1},
		Sketch:  sketchTouch,
		Valid:   rules(eitherSide(2, "outside", "inside"), stylusFitsTheCircle),
	},
}

// rise is how far the middle of an arc of radius p stands over its chord.
func rise(p, halfChord grad.Number) grad.Number {
	return p.Sub(p.Sq().Sub(halfChord.Sq()).Sqrt())
}

// middles is the radius on which pieces of diameter d have their middles when
// they touch an arc of radius R.
func middles(radius, piece, side grad.Number) grad.Number {
	return radius.Add(side.Mul(piece).Half())
}

func chordHeight(a Args) grad.Number {
	radius, chord := a[0], a[1]
	return rise(radius, chord.Half())
}

func ballFeetHeight(a Args) grad.Number {
	radius, feet, ball, side := a[0], a[1], a[2], a[3]
	return rise(middles(radius, ball, side), feet.Half())
}

func threeRollers(a Args) grad.Number {
	radius, roller, halfChord, side := a[0], a[1], a[2], a[3]
	return rise(middles(radius, roller, side), halfChord)
}

func rollersOnFlat(a Args) grad.Number {
	round, roller := a[0], a[1]
	return round.Mul(roller).Sqrt().Times(2).Add(roller)
}

func chordFitsTheRound(v []float64, r *remarks) {
	if radius, chord := v[0], v[1]; chord >= 2*radius {
		r.broken("feet %s apart span more than the round of %s across: it must be less than half a round",
			unit.LengthOf(chord), unit.LengthOf(2*radius))
	}
}

func feetFitTheRound(v []float64, r *remarks) {
	radius, feet, ball, side := v[0], v[1], v[2], v[3]
	if p := radius + side*ball/2; feet >= 2*p {
		r.broken("feet %s apart do not rest on this round: their middles lie on a circle %s across",
			unit.LengthOf(feet), unit.LengthOf(2*p))
	}
}

func rollersFitTheRound(v []float64, r *remarks) {
	radius, roller, halfChord, side := v[0], v[1], v[2], v[3]
	p := radius + side*roller/2
	if halfChord >= p {
		r.broken("the outer rollers, %s apart, do not rest on this round: their middles lie on a circle %s across",
			unit.LengthOf(2*halfChord), unit.LengthOf(2*p))
		return
	}
	if apart := math.Hypot(halfChord, model(threeRollers).at(v)); apart < roller {
		r.broken("the rollers of %s would foul each other: their middles are %s apart", unit.LengthOf(roller), unit.LengthOf(apart))
	}
}

// jawsClearTheWork compares how far the rollers and the work reach from the
// middle: they are level at d = (3 - 2√2)·D.
func jawsClearTheWork(v []float64, r *remarks) {
	round := v[0]
	if m := model(rollersOnFlat).at(v); m < round {
		r.advise("the work is %s across and the reading only %s: the jaws foul the work unless they are shallow",
			unit.LengthOf(round), unit.LengthOf(m))
	}
}

func stylusFitsTheCircle(v []float64, r *remarks) {
	circle, stylus, side := v[0], v[1], v[2]
	if side == -1 && stylus >= circle {
		r.broken("a stylus of %s does not go into a circle of %s", unit.LengthOf(stylus), unit.LengthOf(circle))
	}
}
