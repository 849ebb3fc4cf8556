package strength

import (
	"fmt"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// ForceText writes a force as the shop reads it: 850 N, 21.4 kN.
func ForceText(newtons float64) string {
	const kilo = 1000
	switch {
	case math.IsNaN(newtons):
		return "not known"
	case math.Abs(newtons) < kilo:
		return fmt.Sprintf("%.0f N", newtons)
	case math.Abs(newtons) < 100*kilo:
		return fmt.Sprintf("%.1f kN", newtons/kilo)
	}
	return fmt.Sprintf("%.0f kN", newtons/kilo)
}

// TorqueText writes a torque given in N·mm: 25 N m.
func TorqueText(nmm float64) string {
	nm := nmm / 1000
	switch {
	case math.IsNaN(nm):
		return "not known"
	case math.Abs(nm) < 10:
		return fmt.Sprintf("%.2g N m", nm)
	}
	return fmt.Sprintf("%.0f N m", nm)
}

// Name says which way it is, as the subject and verb of a sentence: "the stud
// breaks".
func (w Way) Name() string { return "the " + w.Piece + " " + string(w.Mode) }

// judge says what goes first, whether it was meant to, and what the loads of
// service and of tightening make of it.
func (c *checker) judge() {
	a := &c.answer
	first := a.Ways[0]
	a.say("%s first, at %s", first.Name(), first.loadText())
	if i := slices.IndexFunc(a.Ways, func(w Way) bool { return w.fuse != first.fuse }); i > 0 {
		a.say("what comes next, %s, holds %.2f times that", a.Ways[i].Name(), a.Ways[i].Margin)
	}
	c.meant()
	c.enough()
	c.inService()
	c.whileTightening()
	c.note("loads are from the least strengths of the tables: a given piece may hold more")
	c.note("loads are at rest: shock, shaking and loads that come and go many times break pieces at less")
	c.note("shear strength is taken as 0.577 of tensile and yield strength (von Mises); 0.6 is used elsewhere, and here for what a piece may hold at most")
}

func (a *Answer) say(format string, args ...any) {
	a.Verdict = append(a.Verdict, unit.Say(format, args...))
}

func (w Way) loadText() string {
	if math.IsNaN(w.Torque) {
		return ForceText(w.Load)
	}
	return ForceText(w.Load) + " (a torque of " + TorqueText(w.Torque) + ")"
}

// fuse returns the weakest way of the piece that was meant to give way first, and
// the weakest of the others; nil where there is none.
func (a *Answer) fuse() (fuse, other *Way) {
	for i := range a.Ways {
		w := &a.Ways[i]
		switch {
		case w.Fuse && fuse == nil:
			fuse = w
		case !w.Fuse && other == nil:
			other = w
		}
	}
	return fuse, other
}

// meant compares the order with what the job means to give way first.
func (c *checker) meant() {
	fuse, other := c.answer.fuse()
	if fuse == nil {
		return
	}
	if other == nil {
		c.answer.say("it is the only piece there is")
		return
	}
	if fuse.Margin > other.Margin {
		c.warn("the %s is meant to give way first, but %s at %s, before %s at %s",
			c.joint.Fuse, other.Name(), other.loadText(), fuse.Name(), fuse.loadText())
		return
	}
	c.answer.say("that is the piece meant to give way first")
	switch {
	case math.IsNaN(fuse.Most):
		c.warn("the tables set no upper strength for the %s: how much more than %s it holds is not known, so it is no sure fuse until one was tried", fuse.Piece, fuse.loadText())
	case fuse.Margin*fuse.Most/fuse.Load > other.Margin:
		c.warn("a strong %s may hold up to %s, while %s at %s: it is no sure fuse until one was tried", fuse.Piece, ForceText(fuse.Most), other.Name(), other.loadText())
	}
}

// enough says at which engagement the stud becomes the weakest.
func (c *checker) enough() {
	s := c.answer.Screw
	if s == nil || math.IsNaN(s.Enough) {
		return
	}
	now := s.Full + lostThread*s.Thread.Pitch
	than := "less"
	if s.Enough > now {
		than = "more"
	}
	c.answer.say("the threads are as strong as the stud at %s of thread, %s than the %s there are", tenths(s.Enough), than, tenths(now))
}

// tenths is a length in mm that is known to a tenth.
func tenths(mm float64) unit.Rounded { return unit.Rounded{MM: mm, Decimals: 1} }

// serviceFactor is by how many times the weakest should hold the load in service
// (common practice, no source).
const serviceFactor = 2

// inService compares the weakest with the load of the job.
func (c *checker) inService() {
	a := &c.answer
	if !c.joint.Service.Given() || c.joint.Service.Inside() <= 0 {
		if c.joint.Fuse != trade.NoFuse {
			c.warn("no load in service is stated: whether the fuse holds it twice over is not checked")
		}
		return
	}
	service := c.joint.Service.Inside()
	a.Safety = a.Ways[0].Load / service
	a.say("it holds %.1f times the load in service, %s", a.Safety, ForceText(service))
	if a.Safety < serviceFactor {
		c.warn("the load in service is over half of what %s holds: it may give way in daily work", theFirst(a.Ways[0], c.joint))
	}
}

func theFirst(w Way, j *trade.Joint) string {
	if w.Fuse {
		return "the fuse, the " + w.Piece + ","
	}
	return "the " + w.Piece
}

// whileTightening says what tightening alone can do: to the torque that the job
// states, and by hand with a spanner.
func (c *checker) whileTightening() {
	s := c.answer.Screw
	if s == nil {
		return
	}
	first := slices.MinFunc(c.clamped(), func(a, b Way) int { return compareTight(a, b) })
	t := s.Tightening
	if t.HandPull >= first.tight {
		c.warn("a strong pull on a spanner of %s, %s, can pull the stud to %s: %s at %s. Use a short spanner or a torque wrench",
			unit.Rounded{MM: t.Spanner}, TorqueText(t.Hand), ForceText(t.HandPull), first.Name(), ForceText(first.tight))
	}
	if !t.Stated {
		return
	}
	if t.Preload.High >= first.tight {
		c.warn("tightening alone can do it: the preload may come to %s, and %s at %s while it is turned", ForceText(t.Preload.High), first.Name(), ForceText(first.tight))
	} else {
		c.answer.say("tightening leaves it whole: a preload of up to %s, and while it is turned %s only at %s", ForceText(t.Preload.High), first.Name(), ForceText(first.tight))
	}
	if c.joint.Service.Given() && c.joint.Service.Inside() > t.Preload.Low {
		c.warn("the load in service, %s, is over the least preload, %s: the joint opens under it", ForceText(c.joint.Service.Inside()), ForceText(t.Preload.Low))
	}
}

// clamped returns the ways that the pull of the stud brings about.
func (c *checker) clamped() []Way {
	return slices.DeleteFunc(slices.Clone(c.answer.Ways), func(w Way) bool {
		return !w.Failure.Clamped
	})
}

func compareTight(a, b Way) int {
	switch {
	case a.tight < b.tight:
		return -1
	case a.tight > b.tight:
		return 1
	}
	return 0
}

// caution adds what must be said with every joint, and what its duty asks for.
func (c *checker) caution() {
	add := func(text string) { c.answer.Cautions = append(c.answer.Cautions, text) }
	fuse := c.joint.Fuse != trade.NoFuse
	switch d := c.joint.Holds; {
	case d == trade.Lifts || d == trade.Pressure || d == trade.Brakes:
		add(fmt.Sprintf("This joint is for %s. What is worked out here is no proof that it is safe: a competent person must design, check and pass it, under the rules that hold where it is used.", dutyText[d]))
		if fuse {
			add("A piece that is meant to give way has no place where something is lifted, held under pressure or braked.")
		}
	case d == trade.HoldsWork && fuse:
		add("This joint holds work or a chuck. If its fuse goes, they come loose at speed: put the fuse where only the feed stops, never in what holds the work.")
	case fuse:
		add("A fuse must not stand in what holds work, a chuck or a load: see that when it goes things stop and nothing flies or falls.")
	}
	add("Not for lifting, pressure or brakes without a competent person; local rules come first.")
}

// dutyText says in words what a joint is for.
var dutyText = map[trade.Duty]string{trade.Lifts: "lifting", trade.Pressure: "pressure", trade.Brakes: "a brake"}
