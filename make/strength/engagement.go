package strength

import (
	"math"

	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// stressArea returns the area of a screw that breaks in tension, mm². It is that
// of a circle whose diameter lies half way between the basic effective and minor
// diameters: π/4·((d2 + d3)/2)² of ISO 898-1. Unified screws have 0.7854·(D -
// 0.9743·P)² by ASME B1.1, which takes the minor diameter of the full thread.
func stressArea(t facts.Thread, b series.Basic) float64 {
	diameter := (b.Effective + b.MinorScrew) / 2
	if t.Form == "UN 60" {
		diameter = t.Major - 0.9743*t.Pitch
	}
	return math.Pi / 4 * diameter * diameter
}

// engagement is a screw in its nut. Diameters and pitch are in mm, the flanks'
// angle to the square across the axis is in rad. Flanks count as straight; a
// rounded root is a little stronger than that.
type engagement struct {
	pitch, flank   float64
	screwMajor     float64
	screwEffective float64
	nutEffective   float64
	nutMinor       float64
}

// screwShear returns the area per mm of full thread at which the threads of the
// screw strip, mm: a cylinder of the nut's minor diameter,
//
//	π·Kn·(1/2 + tan α·(Es - Kn)/P)
//
// and nutShear that of the nut's, a cylinder of the screw's major diameter,
//
//	π·Ds·(1/2 + tan α·(Ds - En)/P)
//
// The least metal is left where Kn and En are the largest, Es and Ds the smallest
// that the limits allow. Source: FED-STD-H28/2B, appendix; Machinery's Handbook,
// 24th ed., working strengths of bolts, formulas 1 to 6; there tan α is 0.57735.
func (e engagement) screwShear() float64 { return e.shear(e.nutMinor, e.screwEffective-e.nutMinor) }

func (e engagement) nutShear() float64 { return e.shear(e.screwMajor, e.screwMajor-e.nutEffective) }

func (e engagement) shear(cylinder, past float64) float64 {
	return stripArea(grad.Const(cylinder), grad.Const(past), grad.Const(e.pitch), grad.Const(e.flank)).X
}

// stripArea is the area per mm of full thread on a cylinder past which the flanks
// reach by so much, on the diameter, before the thread is half its pitch wide.
func stripArea(cylinder, past, pitch, flank grad.Number) grad.Number {
	return cylinder.Times(math.Pi).Mul(flank.Tan().Mul(past).Div(pitch).Plus(0.5))
}

// fullest is the engagement at the basic sizes: the most metal there can be.
func fullest(t facts.Thread, b series.Basic) engagement {
	return engagement{t.Pitch, t.Angle / 2, b.Major, b.Effective, b.Effective, b.MinorNut}
}

// leanest is the engagement at the limits that leave the least metal: of the
// classes stated, else of the widest there are. Where the tables have no limits
// the basic sizes stand, and limited is false.
func leanest(screw, nut series.Sheet, screwClass, nutClass string) (e engagement, limited bool) {
	e, limited = fullest(screw.Thread, screw.Basic), len(screw.Limits) > 0
	e.screwMajor = farthest(screw.Limits, "screw, major", screwClass, e.screwMajor)
	e.screwEffective = farthest(screw.Limits, "screw, effective", screwClass, e.screwEffective)
	e.nutEffective = farthest(nut.Limits, "nut, effective", nutClass, e.nutEffective)
	e.nutMinor = farthest(nut.Limits, "nut, minor", nutClass, e.nutMinor)
	return e, limited
}

// farthest returns the limit with the least metal of one diameter: the smallest
// of a screw, the largest of a nut.
func farthest(limits []series.Limit, of, class string, basic float64) float64 {
	if !hasClass(limits, of, class) {
		class = ""
	}
	for _, l := range limits {
		switch {
		case l.Of != of || class != "" && l.Class != class:
		case l.Inside:
			basic = max(basic, l.High)
		default:
			basic = min(basic, l.Low)
		}
	}
	return basic
}

func hasClass(limits []series.Limit, of, class string) bool {
	for _, l := range limits {
		if l.Of == of && l.Class == class {
			return true
		}
	}
	return false
}

// The factors by which E. M. Alexander's analysis of threaded assemblies (SAE
// paper 770420, 1977) lessens the load at which threads strip; from memory, and
// checked only in that the curves meet where they should. A nut widens under load
// as its wall is thin, and the threads of both sides bend away from each other.

// dilation is the factor for a nut of this width over the thread's major
// diameter. The formula is for 1.4 and wider; below that it falls steeply, and is
// carried on as the safer guess.
func dilation(widthOverMajor float64) float64 {
	const thick = 1.9
	if x := widthOverMajor; x < thick {
		return -x*x + 3.8*x - 2.61
	}
	return 1
}

// thinnest is the width over major diameter from which dilation holds.
const thinnest = 1.4

// screwBending and nutBending are the factors for the two threads where the nut's
// is so many times as strong as the screw's.
func screwBending(ratio float64) float64 {
	const weak, strong = 1, 2.2
	if !(ratio > weak) {
		return mutualBending
	}
	r := min(ratio, strong)
	return 5.594 - 13.682*r + 14.107*r*r - 6.057*r*r*r + 0.9353*r*r*r*r
}

func nutBending(ratio float64) float64 {
	const weak, strong = 0.4, 1
	if !(ratio < strong) {
		return mutualBending
	}
	r := max(ratio, weak)
	return 0.728 + 1.769*r - 2.896*r*r + 1.296*r*r*r
}

// mutualBending is the factor for threads of equal strength, and for the stronger
// of two.
const mutualBending = 0.897
