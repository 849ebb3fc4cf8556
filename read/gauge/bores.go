package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var bores = []*Method{
	{
		ID:    "two-balls-stacked",
		When:  "A blind bore too deep or too narrow for jaws: two balls dropped in, read over the upper one.",
		SetUp: "Drop {lower} into {bore}, {upper} on it, and read from the floor to the top of the upper",
		For:   []Purpose{{Bore, 1}},
		Words: []string{"blind", "hole", "deep", "narrow", "small"},
		Meets: []Meeting{{Role: "bore", Kinds: round, On: trade.Inside, Rank: 3}},
		Roles: []Role{
			role("bore", "D", Diameter),
			kit("lower", "d1", Diameter).chosen(trade.Ball).holds(),
			kit("upper", "d2", Diameter).chosen(trade.Ball).holds(),
		},
		Reads:   unit.Length,
		Jaw:     Reaching,
		Formula: "m = s + sqrt(s² - (D - s)²); s = (d1 + d2)/2",
		Traps:   []string{"The floor must be flat: a drilled, conical floor spoils it.", trapWarm},
		Source: "geometry: the centres are s apart, D - s of it sideways; " +
			"the same as the handbook form D = r1 + r2 + sqrt((r1 + r2)² - (H - r1 - r2)²)",
		Example: []float64{40, 30, 20},
		Model:   twoBallsStacked,
		Sketch:  sketchTwoBallsStacked,
		Valid:   rules(ballsLeanOnBothWalls, leverage(twoBallsStacked, 0, "bore")),
	},
	{
		ID:      "ball-on-mouth",
		When:    "The sharp edge of a bore, from the face to the top of a ball that sits in it.",
		SetUp:   "Set {ball} on the mouth of {bore} and read from the face to its top",
		For:     []Purpose{{Bore, 3}},
		Words:   []string{"hole", "edge", "small"},
		Plainer: []Plainer{{"bore", "inside", "size"}},
		Meets:   []Meeting{{Role: "bore", Kinds: round, On: trade.Inside, Rank: 2}},
		Roles: []Role{
			role("bore", "D", Diameter).takes(ifBore),
			kit("ball", "d", Diameter).chosen(trade.Ball).holds().ruled(both),
		},
		Reads:   unit.Length,
		Jaw:     Reaching,
		Formula: "m = d/2 + sqrt(d² - D²)/2",
		Traps:   []string{"A sharp edge only: a chamfer or a burr spoils it."},
		Source:  "geometry: the edge lies D/2 from the axis on a ball of radius d/2, its centre sqrt(d² - D²)/2 above",
		Example: []float64{20, 25},
		Model:   ballOnMouth,
		Sketch:  sketchBallOnMouth,
		Valid:   rules(ballSitsOnTheEdge, leverage(ballOnMouth, 0, "bore")),
	},
	{
		ID: "rocking-rod",
		When: "A bore a little larger than a pointed rod: the rod's free end swings, " +
			"the other end held on the wall.",
		SetUp:   "Rock {rod} in {bore} and read the full swing of its free end",
		For:     []Purpose{{Bore, 4}},
		Words:   []string{"hole", "swing", "stick", "cylinder"},
		ReadBy:  []trade.InstrumentKind{trade.Rule, trade.Caliper},
		Plainer: []Plainer{{"bore", "inside", "size"}},
		Roles: []Role{
			role("bore", "D", Diameter).takes(ifBore),
			kit("rod", "L", AnyLength).chosen(trade.Rod).holds(),
		},
		Reads:   unit.Length,
		Formula: "m = 2L·sqrt(1 - L²/D²)",
		Traps: []string{
			"The held end must not creep along the wall.",
			"The rod's ends must be rounded to less than the bore's radius, and swing square to the axis.",
		},
		Source:  "geometry: in the half circle over the bore the rod leans acos(L/D) to either side",
		Example: []float64{50, 48},
		Model:   rockingRod,
		Sketch:  sketchRockingRod,
		Valid:   rules(rodSwings),
	},
}

func twoBallsStacked(a Args) grad.Number {
	bore, lower, upper := a[0], a[1], a[2]
	apart := lower.Add(upper).Half()
	return apart.Add(apart.Sq().Sub(bore.Sub(apart).Sq()).Sqrt())
}

func ballOnMouth(a Args) grad.Number {
	bore, ball := a[0], a[1]
	return ball.Half().Add(ball.Sq().Sub(bore.Sq()).Sqrt().Half())
}

func rockingRod(a Args) grad.Number {
	bore, rod := a[0], a[1]
	lean := rod.Div(bore).Sq()
	return rod.Times(2).Mul(grad.Const(1).Sub(lean).Sqrt())
}

func ballsLeanOnBothWalls(v []float64, r *remarks) {
	bore, lower, upper := v[0], v[1], v[2]
	largest, sum := math.Max(lower, upper), lower+upper
	switch {
	case bore <= largest:
		r.broken("a ball of %s does not go into a bore of %s", unit.LengthOf(largest), unit.LengthOf(bore))
		return
	case bore >= sum:
		r.broken("balls of %s and %s lie side by side in a bore of %s: together they must be larger than it",
			unit.LengthOf(lower), unit.LengthOf(upper), unit.LengthOf(bore))
		return
	}
	rise := math.Sqrt(bore * (sum - bore))
	switch {
	case rise >= math.Abs(upper-lower)/2:
	case upper > lower:
		r.broken("the upper ball would stand on the floor: its middle is %s over the lower one's, and it needs %s",
			unit.LengthOf(rise), unit.LengthOf((upper-lower)/2))
	default:
		r.broken("the lower ball would stand higher than the upper: the middle of the upper is %s over the lower "+
			"one's, and it needs %s",
			unit.LengthOf(rise), unit.LengthOf((lower-upper)/2))
	}
}

// chamfer is the width of a broken edge that passes for a sharp one: common
// practice, no source.
const chamfer = 0.1

// ballSitsOnTheEdge always says what a chamfer would do: no reading shows it.
func ballSitsOnTheEdge(v []float64, r *remarks) {
	bore, ball := v[0], v[1]
	if ball <= bore {
		r.broken("a ball of %s falls into a bore of %s", unit.LengthOf(ball), unit.LengthOf(bore))
		return
	}
	r.advise("the edge must be sharp: a chamfer of %s would let the ball down by %s",
		unit.LengthOf(chamfer), unit.LengthOf(chamferDrop(bore, ball)))
}

// chamferDrop is how much lower the ball sits in an edge chamfered at 45°: it
// rests on the upper edge of the chamfer or on the lower, whichever holds it
// higher.
func chamferDrop(bore, ball float64) float64 {
	upper := model(ballOnMouth).at([]float64{bore, ball}) - model(ballOnMouth).at([]float64{bore + 2*chamfer, ball})
	if upper < chamfer {
		return upper
	}
	return chamfer
}

// coarseSwing is the least change of the swing, in changes of the bore, that
// makes the rod worth the trouble: common practice, no source.
const coarseSwing = 4

func rodSwings(v []float64, r *remarks) {
	bore, rod := v[0], v[1]
	slope := model(rockingRod).slope(v, 0)
	switch {
	case rod >= bore:
		r.broken("a rod of %s does not go into a bore of %s", unit.LengthOf(rod), unit.LengthOf(bore))
	case rod <= bore/math.Sqrt2:
		r.broken("a rod of %s is too short for a bore of %s: below %s the swing shrinks again",
			unit.LengthOf(rod), unit.LengthOf(bore), unit.LengthOf(bore/math.Sqrt2))
	case slope < coarseSwing:
		r.advise("the swing changes only %s times as much as the bore: a rod nearer to %s makes it finer",
			factor(slope), unit.LengthOf(bore))
	default:
		r.advise("the swing changes %s times as much as the bore; an error in the rod's length goes into the bore "+
			"nearly whole", factor(slope))
	}
}
