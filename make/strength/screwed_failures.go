package strength

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// strength is the role of a tensile strength in a formula.
var strength = Role{Name: "tensile strength", Symbol: "R", Unit: "MPa"}

var studFailures = []*Failure{{
	Piece: Stud, Mode: Breaks, Fuse: trade.StudFuse, Clamped: true,
	When:    "The stud is pulled apart where its thread is thinnest.",
	Formula: "F = R·A",
	Source:  "ISO 898-1; ASME B1.1 for unified screws",
	By:      []Property{Tensile},
	Roles:   []Role{strength, {"stress area", "A", "mm²"}},
	Take:    func(l *Loaded) (least, most []float64) { return alike(l.screw.area) },
	Model:   func(a Args) grad.Number { return a[0].Mul(a[1]) },
	Turned: func(l *Loaded, stress float64) float64 {
		return stress / bothPulledAndTwisted(l.screw.area, l.screw.twist, plasticTwist)
	},
	How: func(_ *Loaded, v []float64, _ float64) unit.Text {
		return unit.Say("%.0f MPa on %.1f mm²", v[0], v[1])
	},
	Example: []float64{800, 57.99},
}}

// alike returns values of which the least and the most are the same.
func alike(v ...float64) (least, most []float64) { return v, v }

// alexander is what the loads of stripped threads take for granted.
const alexander = "what threads hold is lessened as their flanks bend and the nut widens, by the factors of E. M. Alexander " +
	"(SAE paper 770420, 1977), from memory"

const strippingSource = "FED-STD-H28/2B, appendix; Machinery's Handbook, 24th ed., working strengths of bolts, formulas 1 to 6; " +
	"c by E. M. Alexander (SAE paper 770420, 1977), from memory"

var threadFailures = []*Failure{
	{
		Piece: NutThread, Mode: Strips, Fuse: trade.NutFuse, Clamped: true,
		When:    "The thread of the nut or tapped hole shears off round the crests of the screw.",
		Formula: "F = R/√3·π·D·L·(1/2 + tan α·(D - E)/P)·c",
		Source:  strippingSource,
		By:      []Property{Tensile},
		Assumes: []string{alexander},
		Roles: []Role{
			strength,
			{"screw's least major diameter", "D", "mm"},
			{"nut's largest effective diameter", "E", "mm"},
			{"pitch", "P", "mm"},
			{"flank to the square across the axis", "α", "rad"},
			{"full thread, times the part of the circle", "L", "mm"},
			{"factor for widening and bending", "c", "1"},
		},
		Take: func(l *Loaded) (least, most []float64) {
			at := func(e engagement, factor float64) []float64 {
				return []float64{e.screwMajor, e.nutEffective, e.pitch, e.flank, l.screw.threads, factor}
			}
			return at(l.screw.lean, l.screw.widen*nutBending(l.screw.ratio)), at(l.screw.full, 1)
		},
		Model:     func(a Args) grad.Number { return stripped(a, a[1].Sub(a[2])) },
		MostRatio: shearRatioMost / shearRatio,
		How:       strippedHow,
		Example:   []float64{410, 9.732, 9.206, 1.5, math.Pi / 6, 10.5, 0.9892},
	},
	{
		Piece: NutThread, Mode: Strips, Fuse: trade.NutFuse, Clamped: true,
		When:    "The thread of a nut of a property class gives beyond its proof load.",
		Formula: "F = S·A·min(1, m/(0.8·d))·a",
		Source:  "ISO 898-2, from memory",
		By:      []Property{Proof},
		Assumes: []string{"a nut by its class alone is taken to hold its proof load and no more; most hold more", alexander},
		Roles: []Role{
			{"proof stress", "S", "MPa"},
			{"stress area", "A", "mm²"},
			{"height", "m", "mm"},
			{"major diameter", "d", "mm"},
			{"part of the circle", "a", "1"},
		},
		Take: func(l *Loaded) (least, most []float64) {
			return alike(l.screw.area, l.screw.length, l.screw.sheet.Thread.Major, l.screw.around)
		},
		Model: func(a Args) grad.Number {
			return a[0].Mul(a[1]).Mul(grad.Min(grad.Const(1), a[2].Div(a[3].Times(fullNut)))).Mul(a[4])
		},
		How:     classNutHow,
		Example: []float64{855, 57.99, 6.5, 10, 0.9},
	},
	{
		Piece: StudThread, Mode: Strips, Fuse: trade.StudFuse, Clamped: true,
		When:    "The thread of the stud shears off round the crests of the nut.",
		Formula: "F = R/√3·π·K·L·(1/2 + tan α·(E - K)/P)·c",
		Source:  strippingSource,
		By:      []Property{Tensile},
		Assumes: []string{alexander},
		Roles: []Role{
			strength,
			{"nut's largest minor diameter", "K", "mm"},
			{"screw's least effective diameter", "E", "mm"},
			{"pitch", "P", "mm"},
			{"flank to the square across the axis", "α", "rad"},
			{"full thread, times the part of the circle", "L", "mm"},
			{"factor for widening and bending", "c", "1"},
		},
		Take: func(l *Loaded) (least, most []float64) {
			at := func(e engagement, factor float64) []float64 {
				return []float64{e.nutMinor, e.screwEffective, e.pitch, e.flank, l.screw.threads, factor}
			}
			return at(l.screw.lean, l.screw.widen*screwBending(l.screw.ratio)), at(l.screw.full, 1)
		},
		Model:     func(a Args) grad.Number { return stripped(a, a[2].Sub(a[1])) },
		MostRatio: shearRatioMost / shearRatio,
		How:       strippedHow,
		Example:   []float64{800, 8.676, 8.862, 1.5, math.Pi / 6, 10.5, 0.897},
	},
}

// stripped is the load at which a thread strips whose flanks stand so far past the
// cylinder where it shears, both on the diameter.
func stripped(a Args, past grad.Number) grad.Number {
	return a[0].Times(shearRatio).Mul(stripArea(a[1], past, a[3], a[4])).Mul(a[5]).Mul(a[6])
}

func strippedHow(_ *Loaded, v []float64, load float64) unit.Text {
	factor := v[6]
	return unit.Say("0.577 x %.0f MPa on %.1f mm², x %.2f for widening and bending", v[0], load/(shearRatio*v[0]*factor), factor)
}

// fullNut is the height of a nut, in diameters, from which its class promises its
// proof load (ISO 898-2, from memory).
const fullNut = 0.8

func classNutHow(l *Loaded, v []float64, load float64) unit.Text {
	how := unit.Say("proof stress of %s, %.0f MPa on %.1f mm²", l.metal.name, v[0], v[1])
	if share := load / (v[0] * v[1]); share < 1 {
		how = unit.Say("%s, x %.2f as it is lower than 0.8 d", how, share)
	}
	return how
}
