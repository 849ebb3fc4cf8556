package fit

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// counsel adds to a size what is worth saying of it.
func (b *bench) counsel(m *Made) {
	s := b.taken[m.Size.ID]
	switch {
	case s == nil:
		return
	case !m.Determined:
		b.settle(m, s)
		return
	case m.Mating == nil:
		b.sayMeant(m, s)
	default:
		b.sayPromise(m, b.aimOf(m, b.r, s))
		b.sayWorn(m, s)
		b.sayRework(m)
		b.improve(m, s)
	}
	m.coarse(b.r)
}

// Percent writes a chance in per cent: as many nines as it has, and none of a
// chance that never was.
func Percent(p float64) string {
	switch {
	case p > 0 && p < 0.001:
		return "under 0.1 %"
	case p < 1 && p > 0.999:
		return "over 99.9 %"
	case p < 0.1 || p > 0.9:
		return fmt.Sprintf("%.1f %%", 100*p)
	}
	return fmt.Sprintf("%.0f %%", 100*p)
}

// sayMeant tells what was probably meant by a copied size that nothing was
// decided about.
func (b *bench) sayMeant(m *Made, s *source) {
	const printed = 0.0005 // mm: a difference that shows
	meaning, ok := b.meaning(s)
	if !ok || meaning.decided || m.Size.From != trade.Copies || !(math.Abs(meaning.value-m.Target) > printed) && s.single.Kind.Dimension() == unit.Length {
		return
	}
	m.advise("This is what was measured. What was meant is probably %s (%s): write `meant: %s` on %s to make it to that.",
		meaning.text, Percent(meaning.p), meaning.text, s.single.ID)
}

// sayWorn tells that a mate is no longer what it was meant to be.
func (b *bench) sayWorn(m *Made, s *source) {
	meaning, ok := b.meaning(s)
	if !ok || math.Abs(meaning.value-s.Value) <= adjust.Coverage95*s.u {
		return
	}
	was := "was probably"
	if meaning.decided {
		was = "was"
	}
	m.advise("%s %s meant to be %s and is now %s: this is made to fit it as it is.", s.single.ID, was, meaning.text, unit.LengthOf(s.Value))
}

// unlikely is the chance from which on something that goes wrong is worth a
// sentence.
const unlikely = 0.01

// sayPromise tells what the promise costs, and what to do where not all that is
// wanted can be had.
func (b *bench) sayPromise(m *Made, a *aim) {
	switch w := m.Mating; {
	case w.Grips():
		b.sayGrip(m)
	case w.Least < 0 && !w.Kept:
		m.advise("In %s of cases it will not go together even with force: the interference is then over %s. Hold it closer, or know the mate better.",
			Percent(1-w.Assembles), unit.LengthOf(-w.Least))
	case w.Least >= 0 && w.Rattles > 1-w.Promised && w.Mean > a.central():
		m.advise("Both cannot be had: to go together in %s of cases it is made with %s clearance on average, and is then slacker than the %s wanted at most in %s. To have both, %s, or allow up to %s.",
			Percent(w.Promised), unit.LengthOf(w.Mean), unit.LengthOf(w.Most), Percent(w.Rattles), b.cure(a), unit.LengthOf(a.reach()))
	case w.Least >= 0 && w.Rattles > worthATry:
		m.advise("The clearance scatters more than is wanted: it is slacker than %s in %s of cases. To have less, %s, or allow up to %s.",
			unit.LengthOf(w.Most), Percent(w.Rattles), b.cure(a), unit.LengthOf(a.reach()))
	}
}

// cure says what makes the clearance scatter less: what scatters most in it.
func (b *bench) cure(a *aim) unit.Text {
	if a.found.u > a.holds/math.Sqrt(3) {
		return unit.Say("know the mate better than ±%s", unit.LengthOf(adjust.Coverage95*a.found.u))
	}
	return unit.Say("hold it closer than ±%s", unit.LengthOf(a.holds))
}

// sayGrip tells where an interference may be too tight, or not hold.
func (b *bench) sayGrip(m *Made) {
	w := m.Mating
	if tight := 1 - w.Assembles; tight > unlikely {
		m.advise("It grips in %s of cases, but in %s the interference is over the %s wanted at most: hold it closer, know the mate better, or see what the outer part bears.",
			Percent(w.Binds), Percent(tight), unit.LengthOf(-w.Least))
	}
}

// sayRework tells what to leave on, and which way to err.
func (b *bench) sayRework(m *Made) {
	w := m.Mating
	large, small := "on the large side", "on the small side"
	if m.Size.From == trade.GoesOver {
		large, small = small, large
	}
	switch {
	case m.Size.Rework == trade.EasyRework && w.Leave != nil:
		m.advise("Leave %s on, try it, then take off: make it %s first. Err %s: what is too tight can be eased, what is too slack cannot.",
			unit.LengthOf(w.Leave.On), unit.LengthOf(w.Leave.First), large)
	case m.Size.Rework == trade.HardRework && !w.Grips() && w.Binds > 0:
		m.advise("It is hard to ease once it is made: within the limits err %s, towards clearance.", small)
	}
}
