package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var dovetails = []*Method{
	{
		ID:      "dovetail-over-rollers",
		When:    "A male dovetail: rollers in its two corners, over the rollers.",
		SetUp:   "Lay {roller:two} in the corners of {width} and read over them",
		For:     []Purpose{{Dovetail, 1}},
		Words:   []string{"slide", "gib", "way", "pin"},
		Plainer: []Plainer{{"angle", "protractor", "angle"}},
		Roles: []Role{
			role("width", "W", AnyLength).sought(trade.Width),
			role("angle", "θ", PlainAngle),
			kit("roller", "d", Diameter).chosen(trade.Roller, trade.Pin).counts(2),
			wallHeight,
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = W + d(1 + cot(θ/2))",
		Traps: []string{"The width is over the sharp corners, which are mostly relieved: no rule can " +
			"check it.", trapFillet, trapUnworn},
		Source: "handbook form x = D(1 + cot(θ/2)) + a; geometry: a roller in a corner of θ has its middle " +
			"(d/2)·cot(θ/2) along the base",
		Example: []float64{100, 60 * degree, 12, 20},
		Model:   dovetailOverRollers,
		Sketch:  sketchDovetailOverRollers,
		Valid:   rules(between(1, 0, 90*degree, "dovetail's angle"), rollerTouchesTheFlank),
	},
	{
		ID:      "dovetail-between-rollers",
		When:    "A female dovetail: rollers in its two corners, between the rollers.",
		SetUp:   "Lay {roller:two} in the corners of {width} and read between them",
		For:     []Purpose{{Dovetail, 2}},
		Words:   []string{"slide", "gib", "way", "pin", "saddle"},
		Plainer: []Plainer{{"angle", "protractor", "angle"}},
		Roles: []Role{
			role("width", "W", AnyLength).sought(trade.Width),
			role("angle", "θ", PlainAngle),
			kit("roller", "d", Diameter).chosen(trade.Roller, trade.Pin).counts(-2),
			wallHeight,
		},
		Reads:   unit.Length,
		Jaw:     Opening,
		Formula: "m = W - d(1 + cot(θ/2))",
		Traps: []string{"The width is over the sharp corners, which are mostly relieved: no rule can " +
			"check it.", trapFillet, trapUnworn},
		Source:  "geometry: as dovetail-over-rollers, inward",
		Example: []float64{120, 55 * degree, 10, 15},
		Model:   dovetailBetweenRollers,
		Sketch:  sketchDovetailBetweenRollers,
		Valid: rules(between(1, 0, 90*degree, "dovetail's angle"), rollerTouchesTheFlank,
			opens(dovetailBetweenRollers, "the gap between the rollers")),
	},
	{
		ID:      "vee-roller",
		When:    "A vee groove: from its top face to the top of a roller that lies in it.",
		SetUp:   "Lay {roller} in the vee of {width} and read from the top face to its top",
		For:     []Purpose{{Dovetail, 3}},
		Words:   []string{"groove", "way", "pin", "bed", "V-block"},
		Plainer: []Plainer{{"angle", "protractor", "angle"}},
		Roles: []Role{
			role("width", "w", AnyLength).sought(trade.Width),
			role("angle", "φ", IncludedAngle),
			kit("roller", "d", Diameter).chosen(trade.Roller, trade.Pin).counts(1).ruled(largest),
		},
		Reads:   unit.Length,
		Jaw:     Reaching,
		Signed:  true,
		Formula: "m = (d/2)(1 + 1/sin(φ/2)) - (w/2)·cot(φ/2)",
		Traps:   []string{"The width is at the sharp edges: a chamfer or a worn edge reads wide.", trapFillet},
		Source:  "geometry: the middle is (d/2)/sin(φ/2) above the point of the vee, the top face (w/2)·cot(φ/2)",
		Example: []float64{30, 90 * degree, 20},
		Model:   veeRoller,
		Sketch:  sketchVeeRoller,
		Valid:   rules(between(1, 0, 180*degree, "vee's angle"), rollerLiesInTheVee),
	},
}

// cornerRoller is how far a roller reaches along the base from the sharp
// corner in which it touches base and flank.
func cornerRoller(angle, roller grad.Number) grad.Number {
	return roller.Mul(cot(angle.Half()).Plus(1))
}

func dovetailOverRollers(a Args) grad.Number {
	width, angle, roller := a[0], a[1], a[2]
	return width.Add(cornerRoller(angle, roller))
}

func dovetailBetweenRollers(a Args) grad.Number {
	width, angle, roller := a[0], a[1], a[2]
	return width.Sub(cornerRoller(angle, roller))
}

func veeRoller(a Args) grad.Number {
	width, angle, roller := a[0], a[1], a[2]
	top := roller.Half().Mul(csc(angle.Half()).Plus(1))
	return top.Sub(width.Half().Mul(cot(angle.Half())))
}

func rollerTouchesTheFlank(v []float64, r *remarks) {
	angle, roller, height := v[1], v[2], v[3]
	if touch := roller / 2 * (1 + math.Cos(angle)); height < touch {
		r.broken("the roller touches the flank %s above the base, but the flank is only %s high: use one under %s",
			unit.LengthOf(touch), unit.LengthOf(height), unit.LengthOf(roller*height/touch))
	}
}

func rollerLiesInTheVee(v []float64, r *remarks) {
	width, angle, roller := v[0], v[1], v[2]
	if touch := roller * math.Cos(angle/2); touch > width {
		r.broken("the roller of %s would touch the flanks where the vee is %s wide, but it is only %s at the top: "+
			"it lies on the edges",
			unit.LengthOf(roller), unit.LengthOf(touch), unit.LengthOf(width))
	}
}
