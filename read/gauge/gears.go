package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var gears = []*Method{
	{
		ID:       "gear-span",
		When:     "A spur gear over several teeth, flank to flank: its module, or its shift.",
		SetUp:    "Read over {spanned} teeth of the wheel of {teeth}",
		For:      []Purpose{{Gear, 1}},
		Words:    []string{"wheel", "base tangent length", "disc micrometer"},
		Kin:      []string{"gear-over-pins", "gear-tips"},
		Meets:    []Meeting{{Role: "module", Kinds: []trade.SizeKind{trade.Module}, Rank: 2}},
		Counting: &Counting{Role: "spanned", Try: teethToSpan},
		Roles: []Role{
			role("module", "M", AnyLength).sought(trade.Module),
			role("shift", "x", PlainNumber).signed(),
			role("teeth", "z", Count),
			role("pressure", "α", PlainAngle), role("spanned", "k", Count), addendum,
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = M·cos α·((k - 1/2)·π + z·inv α) + 2·x·M·sin α",
		Traps: []string{
			"Read over k and over k + 1 teeth: the difference is the base pitch π·M·cos α, whatever the shift and " +
				"the wear.",
			"Worn flanks read low: read the unworn ends of the teeth.",
		},
		Source:  "handbook form W = M·cos α·(π(k - 0.5) + z·inv α) + 2·x·M·sin α, the base tangent length",
		Example: []float64{3, 0.4, 24, 20 * degree, 4, 1},
		Model:   gearSpan,
		Sketch:  sketchGearSpan,
		Valid:   rules(wholeNumbers("teeth", 2, 4), between(3, 0, 45*degree, "pressure angle"), spanTouchesTheTeeth),
	},
	{
		ID:    "gear-tips",
		When:  "A spur gear over its tips, even number of teeth.",
		SetUp: "Read over the tips of the wheel of {teeth} teeth",
		For:   []Purpose{{Gear, 2}},
		Words: []string{"wheel", "outside diameter", "addendum"},
		Meets: []Meeting{{Role: "module", Kinds: []trade.SizeKind{trade.Module}, Rank: 1}},
		Suits: evenTeeth,
		Roles: []Role{
			role("module", "M", AnyLength).sought(trade.Module),
			role("shift", "x", PlainNumber).signed(),
			role("teeth", "z", Count),
			addendum,
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = M·(z + 2·f + 2·x)",
		Traps:   []string{trapOddTeeth, "Stubbed teeth have an addendum of 0.8, not 1; worn tips read low."},
		Source:  "handbook form: tip diameter = M·(z + 2·f + 2·x)",
		Example: []float64{2.5, 0.1, 30, 1},
		Model:   gearTips,
		Sketch:  sketchGearTips,
		Valid:   rules(wholeNumbers("teeth", 2), oddTeeth),
	},
	{
		ID:      "gear-tip-to-bore",
		When:    "A spur gear with an odd number of teeth: from a tip to the near side of its bore.",
		SetUp:   "Read from a tip of the wheel of {teeth} teeth to the near side of {bore}",
		For:     []Purpose{{Gear, 3}},
		Words:   []string{"wheel", "outside diameter"},
		Plainer: []Plainer{{"bore", "inside", "size"}},
		Roles: []Role{
			role("module", "M", AnyLength).sought(trade.Module),
			role("shift", "x", PlainNumber).signed(),
			role("teeth", "z", Count),
			role("bore", "B", Diameter), addendum,
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = M·(z + 2·f + 2·x)/2 - B/2",
		Traps: []string{trapOddTeeth, "The bore may be worn to one side: read over several teeth round it and " +
			"take the mean."},
		Source:  "geometry: half the tip diameter less half the bore",
		Example: []float64{2.5, 0.1, 31, 20, 1},
		Model:   gearTipToBore,
		Sketch:  sketchGearTipToBore,
		Valid:   rules(wholeNumbers("teeth", 2), boreInsideTheTips),
	},
	{
		ID:    "gear-over-pins",
		When:  "A spur gear over two pins in opposite spaces.",
		SetUp: "Lay {pin:two} in opposite spaces of the wheel of {teeth} teeth and read over them",
		For:   []Purpose{{Gear, 4}},
		Words: []string{"wheel", "roller", "tooth thickness"},
		Kin:   []string{"gear-span", "gear-tips"},
		Meets: []Meeting{{Role: "module", Kinds: []trade.SizeKind{trade.Module}, Rank: 3}},
		Roles: []Role{
			role("module", "M", AnyLength).sought(trade.Module),
			role("shift", "x", PlainNumber).signed(),
			role("teeth", "z", Count),
			role("pressure", "α", PlainAngle),
			kit("pin", "d", Diameter).chosen(trade.Pin, trade.Roller).counts(2).ruled(both),
			addendum,
		},
		Reads: unit.Length,
		Jaw:   Closing,
		Formula: "m = c·z·M·cos α/cos φ + d; inv φ = d/(z·M·cos α) + inv α + 2·x·tan α/z - π/(2·z); " +
			"c = 1 (even teeth) or cos(90°/z) (odd teeth)",
		Traps:   []string{"Pins of about 1.7 modules touch near the pitch circle.", trapRock},
		Source:  "handbook form, over-pins measurement of spur gears; the derivative from d(inv φ) = tan²φ dφ",
		Example: []float64{1, 0.1, 20, 20 * degree, 1.7, 1},
		Model:   gearOverPins,
		Sketch:  sketchGearOverPins,
		Valid:   rules(wholeNumbers("teeth", 2), between(3, 0, 45*degree, "pressure angle"), pinsTouchTheTeeth),
	},
}

const trapOddTeeth = "Jaws across odd teeth read about rt·(1 + cos(180°/z)), less than the tip diameter 2·rt."

var addendum = role("addendum", "f", PlainNumber).or(1)

func gearSpan(a Args) grad.Number {
	module, shift, teeth, pressure, spanned := a[0], a[1], a[2], a[3], a[4]
	pitches := spanned.Plus(-0.5).Times(math.Pi).Add(teeth.Mul(involute(pressure)))
	unshifted := module.Mul(pressure.Cos()).Mul(pitches)
	return unshifted.Add(shift.Mul(module).Mul(pressure.Sin()).Times(2))
}

// tipDiameter returns M·(z + 2f + 2x).
func tipDiameter(module, shift, teeth, addendum grad.Number) grad.Number {
	return module.Mul(teeth.Add(addendum.Add(shift).Times(2)))
}

func gearTips(a Args) grad.Number {
	module, shift, teeth, addendum := a[0], a[1], a[2], a[3]
	return tipDiameter(module, shift, teeth, addendum)
}

func gearTipToBore(a Args) grad.Number {
	module, shift, teeth, bore, addendum := a[0], a[1], a[2], a[3], a[4]
	return tipDiameter(module, shift, teeth, addendum).Sub(bore).Half()
}

func gearOverPins(a Args) grad.Number {
	module, shift, teeth, pressure, pin := a[0], a[1], a[2], a[3], a[4]
	base := teeth.Mul(module).Mul(pressure.Cos())
	middles := base.Div(pinAngle(base, shift, teeth, pressure, pin).Cos())
	if math.Mod(teeth.X, 2) == 1 {
		middles = middles.Mul(grad.Const(math.Pi / 2).Div(teeth).Cos())
	}
	return middles.Add(pin)
}

// pinAngle is the pressure angle at a pin's middle, NaN where the pin would
// sink below the base circle; base is that circle's diameter.
func pinAngle(base, shift, teeth, pressure, pin grad.Number) grad.Number {
	inv := pin.Div(base).Add(involute(pressure))
	inv = inv.Add(shift.Times(2).Mul(pressure.Tan()).Div(teeth))
	return involuteAngle(inv.Sub(grad.Const(math.Pi / 2).Div(teeth)))
}

// teethToSpan are the teeth worth spanning: as many as reach to the middle of
// the flanks, and where that is said already one more and one less.
func teethToSpan(v []float64) []int64 {
	teeth, pressure, spanned := v[2], v[3], v[4]
	switch middle := math.Round(teeth*pressure/math.Pi + 0.5); {
	case !math.IsNaN(spanned):
		return []int64{int64(max(spanned-1, 2)), int64(spanned + 1)}
	case !math.IsNaN(middle):
		return []int64{int64(middle)}
	}
	return nil
}

// evenTeeth keeps jaws from being laid across odd teeth.
func evenTeeth(v []float64) bool {
	teeth := v[2]
	return math.Mod(teeth, 2) != 1
}

func spanTouchesTheTeeth(v []float64, r *remarks) {
	module, shift, teeth, pressure, addendum := v[0], v[1], v[2], v[3], v[5]
	base := teeth * module * math.Cos(pressure)
	tips := module * (teeth + 2*addendum + 2*shift)
	touch := math.Hypot(base, model(gearSpan).at(v))
	if touch >= tips {
		r.broken("the jaws would touch at a diameter of %s, outside the tips at %s: span fewer teeth",
			unit.LengthOf(touch), unit.LengthOf(tips))
	}
}

func oddTeeth(v []float64, r *remarks) {
	if teeth := v[2]; math.Mod(teeth, 2) == 1 {
		tips := model(gearTips).at(v)
		r.advise("%s teeth are odd: jaws across them read about %s, not the tip diameter %s; read from a tip to "+
			"the bore instead",
			factor(teeth), unit.LengthOf(tips/2*(1+math.Cos(math.Pi/teeth))), unit.LengthOf(tips))
	}
}

func boreInsideTheTips(v []float64, r *remarks) {
	bore := v[3]
	if m := model(gearTipToBore).at(v); m <= 0 {
		r.broken("the bore of %s is not inside the tips at %s", unit.LengthOf(bore), unit.LengthOf(2*m+bore))
	}
}

func pinsTouchTheTeeth(v []float64, r *remarks) {
	module, shift, teeth, pressure, pin, addendum := v[0], v[1], v[2], v[3], v[4], v[5]
	base := teeth * module * math.Cos(pressure)
	tips := module * (teeth + 2*addendum + 2*shift)
	phi := pinAngle(grad.Const(base), grad.Const(shift), grad.Const(teeth), grad.Const(pressure), grad.Const(pin)).X
	flank := base/2*math.Tan(phi) - pin/2 // along the tangent, from base circle to touch
	if !(flank > 0) {
		r.broken("pins of %s sink to the floor of the spaces: they would touch inside the base circle of %s",
			unit.LengthOf(pin), unit.LengthOf(base))
		return
	}
	if touch := 2 * math.Hypot(base/2, flank); touch >= tips {
		r.broken("pins of %s would touch at a diameter of %s, outside the tips at %s",
			unit.LengthOf(pin), unit.LengthOf(touch), unit.LengthOf(tips))
	}
	if over := base/math.Cos(phi) + pin; over < tips {
		r.broken("pins of %s reach only to a diameter of %s, below the tips at %s", unit.LengthOf(pin), unit.LengthOf(over), unit.LengthOf(tips))
	}
}
