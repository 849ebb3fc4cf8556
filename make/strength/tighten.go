package strength

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Tightening is what tightening does to a stud. Torques are in N·mm.
type Tightening struct {
	Stated   bool    // to a torque or a preload; else only what a hand can do is known
	Friction Span    // of thread and head alike
	Bearing  float64 // mean diameter that the head or nut turns on, mm
	Torque   Span
	Preload  Span
	Undo     Span    // torque that undoes it again
	ByRule   float64 // preload by the rule T = 0.2·F·d, from the middle of the torque; a cross-check
	Stress   float64 // pulled and twisted at once, most, MPa
	Spanner  float64 // its length, mm
	Hand     float64 // torque of a strong pull on it
	HandPull float64 // preload that this gives where the thread runs easily
}

// The usual friction of steel threads: from oiled to dry (common practice, no
// source).
var usualFriction = Span{0.10, 0.20}

func (c *checker) friction() Span {
	f := c.joint.Tighten.Friction
	if !f.Low.Given() {
		return usualFriction
	}
	return Span{f.Low.Inside(), f.High.Inside()}
}

// worstFriction is the friction at which tightening stresses the stud most: a torque
// pulls hardest where it runs easily, a preload takes most twisting where it does not.
func (c *checker) worstFriction() float64 {
	if c.joint.Tighten.Preload.Given() {
		return c.friction().High
	}
	return c.friction().Low
}

// twist returns the torque in the screw per N of its pull, mm.
func (c *checker) twist(s *screwing, friction float64) float64 {
	return screwTorque(s.sheet.Basic.Effective, s.sheet.Thread.Pitch, s.sheet.Thread.Angle/2, friction)
}

// tightening works out the preload of a torque, or the torque of a preload, over
// the range of friction, and what a hand on the usual spanner does.
func (c *checker) tightening(s *screwing) {
	flats := c.flats(s)
	t := &c.answer.Screw.Tightening
	t.Friction, t.Bearing = c.friction(), bearingDiameter(flats, s.sheet.Thread.Major)
	easy := c.twist(s, t.Friction.Low) + collarTorque(t.Bearing, t.Friction.Low)
	stiff := c.twist(s, t.Friction.High) + collarTorque(t.Bearing, t.Friction.High)
	switch j := c.joint.Tighten; {
	case j.Torque.Given():
		torque := j.Torque.Inside()
		t.Stated, t.Torque, t.Preload = true, Span{torque, torque}, Span{torque / stiff, torque / easy}
	case j.Preload.Given():
		preload := j.Preload.Inside()
		t.Stated, t.Torque, t.Preload = true, Span{preload * easy, preload * stiff}, Span{preload, preload}
	}
	if t.Stated {
		c.tightened(s, t)
	}
	c.byHand(t, flats, easy)
}

// tightened finds the stress of a stud while it is tightened, and what undoes it.
func (c *checker) tightened(s *screwing, t *Tightening) {
	t.ByRule = rulePreload((t.Torque.Low+t.Torque.High)/2, s.sheet.Thread.Major)
	t.Stress = t.Preload.High * bothPulledAndTwisted(s.area, c.twist(s, c.worstFriction()), elasticTwist)
	undo := func(friction float64) float64 {
		return screwTorque(s.sheet.Basic.Effective, -s.sheet.Thread.Pitch, s.sheet.Thread.Angle/2, friction) + collarTorque(t.Bearing, friction)
	}
	t.Undo = Span{t.Preload.High * undo(t.Friction.Low), t.Preload.Low * undo(t.Friction.High)}
	if t.Undo.Low > t.Undo.High {
		t.Undo.Low, t.Undo.High = t.Undo.High, t.Undo.Low
	}
	if yield := s.stud.yield; t.Stress > yield {
		c.warn("while it is tightened the stud is pulled and twisted to %.0f MPa, over its yield of %.0f MPa: it stretches for good", t.Stress, yield)
	}
}

// What a hand does (common practice, no source): a strong pull of 250 N at the
// end of a spanner of 12 times the width across flats and 20 mm.
const (
	handForce       = 250
	spannerPerFlats = 12
	spannerMore     = 20
)

func (c *checker) byHand(t *Tightening, flats, easy float64) {
	t.Spanner = spannerPerFlats*flats + spannerMore
	if c.joint.Spanner.Given() {
		t.Spanner = c.joint.Spanner.Inside()
	}
	t.Hand = handForce * t.Spanner
	t.HandPull = t.Hand / easy
}

// flats returns the width across flats of what the spanner goes on: of the head,
// or as the tables have it for this thread; a plain 1.5 d where they have none.
func (c *checker) flats(s *screwing) float64 {
	if h := c.joint.Head; h.Kind == trade.PlainHead && h.Across.Given() {
		return h.Across.Inside()
	}
	if len(s.sheet.Hexagons) > 0 {
		i := slices.IndexFunc(s.sheet.Hexagons, func(h facts.Hexagon) bool { return !facts.FromMemory(h.Source) })
		h := s.sheet.Hexagons[max(i, 0)]
		c.note("the hexagon is taken as that of the tables, " + h.Family)
		return h.Flats
	}
	c.note("the width across flats is taken as 1.5 times the thread's diameter (common practice, no source)")
	return 1.5 * s.sheet.Thread.Major
}

// bearingDiameter is the mean diameter of the ring on which a head turns: between
// the flats and a clearance hole 1.1 times the thread's diameter (common practice,
// no source).
func bearingDiameter(flats, major float64) float64 { return (flats + math.Min(1.1*major, flats)) / 2 }
