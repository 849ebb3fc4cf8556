package strength

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Press is what was worked out of an interference fit. Pressures and stresses are
// in MPa, at the least and the greatest interference.
type Press struct {
	Interference Span // on the diameter, in service: after what warming changes, mm
	Pressure     Span
	OuterHoop    Span    // at the bore of the outer ring, in tension
	OuterWorst   float64 // by von Mises at the greatest interference
	OuterYield   float64 // of its material; its tensile strength where it has no yield
	InnerWorst   float64 // by von Mises where the inner one bears most
	InnerYield   float64
	Push         Span    // force that moves it endways, N
	Torque       Span    // that turns it, N·mm
	Heat         float64 // how far to warm the outer one so that it drops on, K
	Cool         float64 // or to cool the inner one
	Allowance    float64 // clearance reckoned for assembly, mm
}

// ring is one of the two: its inside is 0 where it is solid. Lengths are in mm.
type ring struct {
	inside, outside float64
	e, poisson      float64
}

// Lamé's equations for thick rings with open ends, in plane stress: a ring under
// a pressure p on the diameter d, which is its outside or its bore, changes that
// by d·p/E times what compliance returns, and its hoop stress there is
// p·(D² + d²)/(D² - d²). In plane strain, as of a long tube held at its ends, the
// pressure would be 1/(1 - ν²) of it, 8 % more for steel.

// compliance of the outer ring at its bore, and of the inner one at its outside.
func (r ring) compliance(outer bool) float64 {
	o2, i2 := r.outside*r.outside, r.inside*r.inside
	spread := (o2 + i2) / (o2 - i2)
	if outer {
		return (spread + r.poisson) / r.e
	}
	return (spread - r.poisson) / r.e
}

// pressPressure returns the pressure of an interference on the diameter d, MPa:
// p = δ / (d·(Co + Ci)). Nothing presses where there is no interference.
func pressPressure(outer, inner ring, interference float64) float64 {
	return max(0, interference) / (inner.outside * (outer.compliance(true) + inner.compliance(false)))
}

// boreStress returns the hoop stress of the outer ring at its bore and its stress
// by von Mises there, with the pressure p on it: √(σ² + σ·p + p²).
func (r ring) boreStress(p float64) (hoop, mises float64) {
	o2, i2 := r.outside*r.outside, r.inside*r.inside
	hoop = p * (o2 + i2) / (o2 - i2)
	return hoop, math.Sqrt(hoop*hoop + hoop*p + p*p)
}

// pressedStress returns the greatest stress of the inner ring by von Mises: at
// its bore 2·p·D²/(D² - d²), or p all through where it is solid.
func (r ring) pressedStress(p float64) float64 {
	o2, i2 := r.outside*r.outside, r.inside*r.inside
	if r.inside == 0 {
		return p
	}
	return 2 * p * o2 / (o2 - i2)
}

// usualPressFriction is that of steel pressed together dry or lightly oiled
// (common practice, no source).
var usualPressFriction = Span{0.08, 0.15}

// pressed works out an interference fit.
func (c *checker) pressed() {
	p := c.joint.Press
	if p == nil {
		return
	}
	d := p.Diameter.Inside()
	outer, inner := ring{inside: d, outside: p.Outside.Inside()}, ring{inside: inside(p.Inside), outside: d}
	outerMetal, ok := c.of(p.Pos, p.Outer, (outer.outside-outer.inside)/2, false)
	if !ok {
		return
	}
	innerMetal, ok := c.of(p.Pos, p.Inner, inner.outside, false)
	if !ok {
		return
	}
	for _, m := range []metal{outerMetal, innerMetal} {
		if m.lacks([]Property{Stiffness, Expansion}) {
			c.fault(p.Pos, "the tables do not say how stiff %s is and how it expands", m.name)
			return
		}
	}
	outer.e, outer.poisson = outerMetal.e, poisson[outerMetal.family]
	inner.e, inner.poisson = innerMetal.e, poisson[innerMetal.family]
	c.press(p, outer, inner, outerMetal, innerMetal)
}

func (c *checker) press(p *trade.PressFit, outer, inner ring, outerMetal, innerMetal metal) {
	d := inner.outside
	made := Span{p.Interference.Low.Inside(), p.Interference.High.Inside()}
	grown := growth(d, inside(p.Warmer), innerMetal.expansion, outerMetal.expansion)
	a := &Press{Interference: Span{made.Low + grown, made.High + grown}, OuterYield: outerMetal.bearing(), InnerYield: innerMetal.bearing()}
	a.Pressure = Span{pressPressure(outer, inner, a.Interference.Low), pressPressure(outer, inner, a.Interference.High)}
	// Warm or cold, whichever presses harder decides whether it yields.
	worst := max(a.Pressure.High, pressPressure(outer, inner, made.High))
	a.OuterHoop.Low, _ = outer.boreStress(a.Pressure.Low)
	a.OuterHoop.High, a.OuterWorst = outer.boreStress(worst)
	a.InnerWorst = inner.pressedStress(worst)
	c.grip(p, a, d)
	a.Allowance = max(d/1000, leastAllowance)
	a.Heat = (made.High + a.Allowance) / (outerMetal.expansion * d)
	a.Cool = (made.High + a.Allowance) / (innerMetal.expansion * d)
	c.answer.Press = a
	c.pressDoubts(a, outerMetal, innerMetal)
}

// leastAllowance is the least clearance, mm, with which a warmed ring drops on
// before it grips; larger ones take a thousandth of the diameter (common practice,
// no source).
const leastAllowance = 0.02

// growth returns by how much an interference grows, mm, where both are warmer by
// this many K: (αi - αo)·d·ΔT.
func growth(diameter, warmer, inner, outer float64) float64 {
	return (inner - outer) * diameter * warmer
}

// grip finds what moves and turns the fit: μ·p·π·d·L, and half the diameter times
// that.
func (c *checker) grip(p *trade.PressFit, a *Press, d float64) {
	friction := usualPressFriction
	if p.Friction.Low.Given() {
		friction = Span{p.Friction.Low.Inside(), p.Friction.High.Inside()}
	} else {
		c.note("the friction of the press fit is taken as 0.08 to 0.15 (common practice, no source)")
	}
	wall := math.Pi * d * p.Length.Inside()
	a.Push = Span{friction.Low * a.Pressure.Low * wall, friction.High * a.Pressure.High * wall}
	a.Torque = Span{a.Push.Low * d / 2, a.Push.High * d / 2}
	c.gives(Loaded{Piece: Fitted, press: a, slides: friction})
}

// What temperatures do: steel begins to lose its hardness, and what cold can be
// had (common practice, no source).
const (
	tempers   = 180.0 // K above the shop
	dryIce    = 95.0
	liquidAir = 210.0
)

func (c *checker) pressDoubts(a *Press, outer, inner metal) {
	if a.Interference.Low <= 0 {
		c.warn("at its least the interference is gone in service: the fit comes loose and nothing may hang on it")
		c.note("a press fit that may come loose is left out of the order of what gives way")
	}
	if a.OuterWorst > a.OuterYield {
		c.warn("at the greatest interference the bore of the outer one is stressed to %.0f MPa, over the %.0f MPa of %s: it %s", a.OuterWorst, a.OuterYield, outer.name, gives(outer))
	}
	if a.InnerWorst > a.InnerYield {
		c.warn("at the greatest interference the inner one is stressed to %.0f MPa, over the %.0f MPa of %s: it %s", a.InnerWorst, a.InnerYield, inner.name, gives(inner))
	}
	if a.Heat > tempers {
		c.warn("to drop on, the outer one must be %.0f K warmer: hardened steel loses its temper there, and grease burns", a.Heat)
	}
	switch {
	case a.Cool > liquidAir:
		c.note(fmt.Sprintf("no cooling shrinks the inner one enough: it would take %.0f K", a.Cool))
	case a.Cool > dryIce:
		c.note(fmt.Sprintf("cooling the inner one by %.0f K takes liquid nitrogen; dry ice reaches about %.0f K", a.Cool, dryIce))
	}
	c.note("the press fit is reckoned by Lamé's equations with open ends; roughness takes some of the interference away, which is not reckoned")
}

func gives(m metal) string {
	if math.IsNaN(m.yield) {
		return "cracks"
	}
	return "yields, and grips less than reckoned"
}
