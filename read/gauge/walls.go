package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var walls = []*Method{
	{
		ID:    "over-two-pins",
		When:  "A convex wall that jaws cannot reach: pins laid on opposite sides of it.",
		SetUp: "Lay {pin:two} on opposite sides of {wall} and read over them",
		For:   []Purpose{{UndercutWall, 1}},
		Words: []string{"groove", "undercut", "recess", "roller", "lip"},
		Meets: []Meeting{{Role: "wall", Kinds: round, On: trade.Outside, Rank: 2, Untouched: true}},
		Roles: []Role{
			role("wall", "D", Diameter),
			kit("pin", "d", Diameter).chosen(trade.Pin, trade.Roller).counts(2),
			wallHeight,
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = D + 2d",
		Traps:   []string{trapRock, trapFillet, trapLobes},
		Source:  "geometry: wall and two pins lie on one line through the axis",
		Example: []float64{50, 6, 10},
		Model:   overTwoPins,
		Sketch:  sketchOverTwoPins,
		Valid:   rules(belowTheLip(1, 2, "pin")),
	},
	{
		ID:      "over-one-pin",
		When:    "A convex wall, from a pin on it to the far side of a round on the same axis.",
		SetUp:   "Lay {pin} against {wall} and read over it to the far side of {across}",
		For:     []Purpose{{UndercutWall, 2}},
		Words:   []string{"groove", "undercut", "recess", "roller", "lip", "eccentric"},
		Kin:     []string{"over-two-pins"},
		Plainer: []Plainer{{"across", "outside", "size"}},
		Roles: []Role{
			role("wall", "D", Diameter),
			role("across", "A", Diameter),
			kit("pin", "d", Diameter).chosen(trade.Pin, trade.Roller).counts(1),
			wallHeight,
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = D/2 + d + A/2",
		Traps: []string{trapRock, trapFillet, "Wall and round must be on one axis: read from both sides and take " +
			"the mean."},
		Source:  "geometry: pin, wall radius and the far radius lie on one line through the axis",
		Example: []float64{40, 50, 6, 10},
		Model:   overOnePin,
		Sketch:  sketchOverOnePin,
		Valid:   rules(pinStandsProud, belowTheLip(2, 3, "pin")),
	},
	{
		ID:      "ball-near",
		When:    "A hollow wall, from a ball in it to the near side of a round on the same axis.",
		SetUp:   "Lay {ball} against {wall} and read from it to the near side of {across}",
		For:     []Purpose{{UndercutWall, 4}},
		Words:   []string{"groove", "undercut", "recess", "boss", "ring"},
		Kin:     []string{"between-two-balls"},
		Plainer: []Plainer{{"across", "outside", "size"}},
		Roles: []Role{
			role("wall", "D", Diameter),
			role("across", "A", Diameter),
			kit("ball", "d", Diameter).chosen(trade.Ball).counts(-1),
			wallHeight,
		},
		Reads:   unit.Length,
		Jaw:     Opening,
		Formula: "m = D/2 - d - A/2",
		Traps:   []string{"Take the least reading along the round, the ball held against the wall.", trapFillet},
		Source:  "geometry: ball, wall radius and the near radius lie on one line through the axis",
		Example: []float64{100, 60, 12, 20},
		Model:   ballNear,
		Sketch:  sketchBallNear,
		Valid:   rules(pieceFitsTheGap(ballNear, 2, "ball"), belowTheLip(2, 3, "ball")),
	},
	{
		ID:      "ball-far",
		When:    "A groove in a bore, from the bore's far side to a ball in the groove.",
		SetUp:   "Lay {ball} against {wall} and read from it to the far side of {across}",
		For:     []Purpose{{UndercutWall, 5}},
		Words:   []string{"groove", "undercut", "recess", "ring"},
		Kin:     []string{"between-two-balls"},
		Plainer: []Plainer{{"across", "inside", "size"}},
		Roles: []Role{
			role("wall", "D", Diameter),
			role("across", "A", Diameter),
			kit("ball", "d", Diameter).chosen(trade.Ball).counts(-1),
			wallHeight,
		},
		Reads:   unit.Length,
		Jaw:     Opening,
		Formula: "m = D/2 - d + A/2",
		Traps: []string{"The round across must be hollow: over a boss it would be a step, not a jaw " +
			"reading.", trapFillet},
		Source:  "geometry: ball, wall radius and the far radius lie on one line through the axis",
		Example: []float64{60, 50, 8, 10},
		Model:   ballFar,
		Sketch:  sketchBallFar,
		Valid:   rules(opens(ballFar, "the gap from ball to bore"), belowTheLip(2, 3, "ball")),
	},
	{
		ID:    "between-two-balls",
		When:  "A hollow wall behind a lip: balls on opposite sides, inside jaws between them.",
		SetUp: "Lay {ball:two} on opposite sides of {wall} and read between them",
		For:   []Purpose{{UndercutWall, 3}},
		Words: []string{"groove", "undercut", "recess", "ring", "bore"},
		Meets: []Meeting{{Role: "wall", Kinds: round, On: trade.Inside, Rank: 4, Untouched: true}},
		Roles: []Role{
			role("wall", "D", Diameter),
			kit("ball", "d", Diameter).chosen(trade.Ball).counts(-2),
			wallHeight,
		},
		Reads:   unit.Length,
		Jaw:     Opening,
		Formula: "m = D - 2d",
		Traps:   []string{trapFillet, trapLobes},
		Source:  "geometry: wall and two balls lie on one line through the axis",
		Example: []float64{60, 10, 12},
		Model:   betweenTwoBalls,
		Sketch:  sketchBetweenTwoBalls,
		Valid:   rules(opens(betweenTwoBalls, "the gap between the balls"), belowTheLip(1, 2, "ball")),
	},
	{
		ID:      "bridging-pin-near",
		When:    "A hollow wall with no ball at hand: a straight pin bridges it, read from the near side of a round.",
		SetUp:   "Bridge {wall} with {pin} ({length} long) and read from it to the near side of {across}",
		For:     []Purpose{{UndercutWall, 6}},
		Words:   []string{"groove", "undercut", "recess", "boss", "chord", "ring"},
		Kin:     []string{"ball-near", "between-two-balls"},
		Plainer: []Plainer{{"across", "outside", "size"}},
		Roles:   bridgingRoles,
		Reads:   unit.Length,
		Jaw:     Opening,
		Formula: "m = sqrt(D² - L²)/2 - d - A/2",
		Traps:   []string{trapEdges, trapFillet},
		Source:  "geometry: the ends of a chord L long lie sqrt(D² - L²)/2 from the axis",
		Example: []float64{100, 60, 6, 40, 10},
		Model:   bridgingPinNear,
		Sketch:  sketchBridgingPinNear,
		Valid: rules(pinBridges, pieceFitsTheGap(bridgingPinNear, 2, "bridging pin"),
			belowTheLip(2, 4, "pin"), leverage(bridgingPinNear, 0, "wall")),
	},
	{
		ID:      "bridging-pin-far",
		When:    "A groove in a bore, bridged by a straight pin, read from the bore's far side.",
		SetUp:   "Bridge {wall} with {pin} ({length} long) and read from it to the far side of {across}",
		For:     []Purpose{{UndercutWall, 7}},
		Words:   []string{"groove", "undercut", "recess", "chord", "ring"},
		Kin:     []string{"ball-far", "between-two-balls"},
		Plainer: []Plainer{{"across", "inside", "size"}},
		Roles:   bridgingRoles,
		Reads:   unit.Length,
		Jaw:     Opening,
		Formula: "m = sqrt(D² - L²)/2 - d + A/2",
		Traps: []string{trapEdges, "The round across must be hollow: over a boss it would be a step, not a jaw " +
			"reading.", trapFillet},
		Source:  "geometry: the ends of a chord L long lie sqrt(D² - L²)/2 from the axis",
		Example: []float64{60, 50, 6, 30, 10},
		Model:   bridgingPinFar,
		Sketch:  sketchBridgingPinFar,
		Valid: rules(pinBridges, opens(bridgingPinFar, "the gap from pin to bore"),
			belowTheLip(2, 4, "pin"), leverage(bridgingPinFar, 0, "wall")),
	},
}

var bridgingRoles = []Role{
	role("wall", "D", Diameter),
	role("across", "A", Diameter),
	kit("pin", "d", Diameter).fixed(trade.Pin).counts(-1),
	kit("length", "L", AnyLength).fixed(trade.OtherPiece).holds().sought(trade.Length), wallHeight,
}

func overTwoPins(a Args) grad.Number {
	wall, pin := a[0], a[1]
	return wall.Add(pin.Times(2))
}

func overOnePin(a Args) grad.Number {
	wall, across, pin := a[0], a[1], a[2]
	return wall.Half().Add(pin).Add(across.Half())
}

func ballNear(a Args) grad.Number {
	wall, across, ball := a[0], a[1], a[2]
	return wall.Half().Sub(ball).Sub(across.Half())
}

func ballFar(a Args) grad.Number {
	wall, across, ball := a[0], a[1], a[2]
	return wall.Half().Sub(ball).Add(across.Half())
}

func betweenTwoBalls(a Args) grad.Number {
	wall, ball := a[0], a[1]
	return wall.Sub(ball.Times(2))
}

// bridgedWall is the distance from the axis to the outer side of a straight
// pin that stands on its two ends in a hollow wall.
func bridgedWall(wall, length grad.Number) grad.Number {
	return wall.Sq().Sub(length.Sq()).Sqrt().Half()
}

func bridgingPinNear(a Args) grad.Number {
	wall, across, pin, length := a[0], a[1], a[2], a[3]
	return bridgedWall(wall, length).Sub(pin).Sub(across.Half())
}

func bridgingPinFar(a Args) grad.Number {
	wall, across, pin, length := a[0], a[1], a[2], a[3]
	return bridgedWall(wall, length).Sub(pin).Add(across.Half())
}

func pinStandsProud(v []float64, r *remarks) {
	wall, across, pin := v[0], v[1], v[2]
	if overhang := (across - wall) / 2; overhang > 0 && pin <= overhang {
		r.broken("the round overhangs the wall by %s: a pin of %s does not stand proud of it",
			unit.LengthOf(overhang), unit.LengthOf(pin))
	}
}

// pieceFitsTheGap holds a piece to the gap between a hollow wall and the near
// side of the round in it.
func pieceFitsTheGap(f model, piece int, what string) rule {
	return func(v []float64, r *remarks) {
		if m := f.at(v); m < 0 {
			r.broken("the %s of %s is too large: it has only %s from where it stands to the round",
				what, unit.LengthOf(v[piece]), unit.LengthOf(v[piece]+m))
		}
	}
}

// pinBridges always says how far the pin stands off: whoever reads it as
// touching the wall is wrong by just that much.
func pinBridges(v []float64, r *remarks) {
	wall, length := v[0], v[3]
	if length >= wall {
		r.broken("a pin %s long does not go into a wall of %s", unit.LengthOf(length), unit.LengthOf(wall))
		return
	}
	clear := wall/2 - math.Sqrt(wall*wall-length*length)/2
	r.advise("the pin stands on its ends, clear of the wall at its middle by %s: allowed for", unit.LengthOf(clear))
}
