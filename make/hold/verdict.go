package hold

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

func (h *holder) add(format string, args ...any) {
	h.Said = append(h.Said, unit.Say(format, args...))
}

func (h *holder) mind(format string, args ...any) {
	h.Warnings = append(h.Warnings, unit.Say(format, args...))
}

// say puts the verdict into sentences.
func (h *holder) say() {
	force := strength.ForceText(h.Holding.Force.InsideOr(0))
	switch h.Verdict {
	case Unseated:
		h.add("tightening alone moves the work: %s, until something stops it", h.Creep.Text())
	case NoForce:
		h.add("no cutting force is stated, so nothing is said of whether it holds")
	case OnStops:
		h.add("stops, jaws and screws take the %s without any friction", force)
	case ByFriction:
		h.add("friction alone holds it%s", h.howMuch())
		h.stopIt()
	case Hardly:
		h.add("friction alone holds it, and not by enough%s; at least %g times the force is wanted", h.howMuch(), float64(SafeFactor))
		h.stopIt()
	case Slips:
		h.add("it slips%s", h.howMuch())
		h.stopIt()
	}
	if !math.IsNaN(h.Stated) && h.Creep != nil {
		h.add("at the friction stated, %g, that would be %s", h.Holding.Friction, timesText(h.Stated))
	}
	if h.Lifts {
		h.add("the force is more than the clamping: at %s the work leaves what it is pressed against, and goes as far as its screws give", strength.ForceText(h.Factor*h.Holding.Force.InsideOr(0)))
	}
}

// howMuch says at what force friction gives way.
func (h *holder) howMuch() unit.Text {
	if math.IsInf(h.Factor, 1) {
		return unit.Say(": that of the stops themselves, at a friction of %g, however hard it pushes", h.Friction)
	}
	return unit.Say(": at a friction of %g it gives way at %s, %s the force", h.Friction,
		strength.ForceText(h.Factor*h.Holding.Force.InsideOr(0)), timesText(h.Factor))
}

func timesText(factor float64) string {
	if math.IsInf(factor, 1) {
		return "without end"
	}
	return fmt.Sprintf("%.2f times", factor)
}

// stopIt says what would make friction needless.
func (h *holder) stopIt() {
	h.add("friction is nothing to rely on: if it gives way the work %s; put a stop in its way", h.Creep.Text())
}

// Text puts a motion into words: "slides towards 90°".
func (m Motion) Text() unit.Text {
	switch {
	case m.Turn == geom.Straight && m.BothWays:
		return unit.Say("slides either way along %s", directionText(alongAxis(m.Towards)))
	case m.Turn == geom.Straight:
		return unit.Say("slides towards %s", directionText(m.Towards))
	}
	return unit.Say("turns %s about (%s, %s)", m.way(), unit.LengthOf(m.About.X), unit.LengthOf(m.About.Y))
}

// way says which way a motion turns.
func (m Motion) way() string {
	switch {
	case m.BothWays:
		return "either way"
	case m.Turn == geom.Anticlockwise:
		return "anticlockwise"
	}
	return "clockwise"
}

// directionText writes a direction in whole degrees from the x axis, from 0 to 359:
// nobody knows that of a cutting force more closely.
func directionText(towards float64) string {
	const whole = 10 // an uncertainty at which whole numbers are shown
	degrees := math.Mod(math.Round(towards*180/math.Pi)+360, 360)
	text, _ := unit.WithUncertainty(degrees, whole)
	return text + "°"
}

// alongAxis returns the direction of a line, from 0 to under π.
func alongAxis(towards float64) float64 {
	angle := math.Mod(towards, math.Pi)
	if angle < -tiny {
		angle += math.Pi
	}
	if angle > math.Pi-tiny {
		angle -= math.Pi
	}
	return angle
}

// askew is how far a cutting force is taken to stray from where it is said to
// push, in rad (common practice, no source).
const askew = 10 * math.Pi / 180

// warn says what makes the holding doubtful.
func (h *holder) warn() {
	h.warnOfDirection()
	for i := range h.Shares {
		h.warnOfShare(&h.Shares[i])
	}
	for _, c := range h.Holding.Contacts {
		if c.Kind == trade.ClampContact && toe(&c) < 0.5 {
			h.mind("the heel of %s takes more of its bolt's load than the work, which gets %.0f %%: set the bolt nearer the work", c.ID, 100*toe(&c))
		}
	}
	if h.gripWith(h.Friction, h.Friction).wedges() {
		h.mind("contacts that only stand still face each other: whether they are tight is not known, so none of their friction is counted")
	}
}

// warnOfDirection says where stops hold the force only as long as it pushes just
// as stated.
func (h *holder) warnOfDirection() {
	if h.Verdict != OnStops {
		return
	}
	stated := h.load
	force := geom.Polar(h.Holding.Force.InsideOr(0)/h.scale, h.Holding.Towards.InsideOr(0))
	for _, by := range []float64{askew, -askew} {
		h.load = h.wrenchOf(sketch.Place(h.Holding.At), force.Turned(by))
		creep := h.creep(h.load, true)
		if creep == nil || h.grip(h.Friction).most(h.load) >= SafeFactor {
			continue
		}
		h.mind("a force %s to one side is no longer held by stops, nor by friction with anything to spare: the work then %s", directionText(askew), creep.Text())
		break
	}
	h.load = stated
}

func (h *holder) warnOfShare(s *Share) {
	idle := func(span strength.Span) bool { return span.High <= tiny*h.scale }
	switch c := s.Contact; {
	case moves(c):
	case idle(s.Rest) && h.presses():
		h.mind("nothing presses the work against %s", c.ID)
	case h.Verdict != NoForce && !idle(s.Rest) && idle(s.Cutting):
		h.mind("the cutter lifts the work off %s", c.ID)
	}
	if math.IsInf(s.Rest.High, 1) {
		h.mind("%s and what faces it may press with any force: nothing here says how tight they are", s.Contact.ID)
	}
}

// presses reports whether any contact presses the work against another.
func (h *holder) presses() bool {
	for i := range h.touches {
		if t := &h.touches[i]; t.blocks() && moves(t.contact) {
			return true
		}
	}
	return false
}
