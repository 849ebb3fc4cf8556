package inspect

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// withThreads returns what is made with every thread as its diameters: ID is the
// major one, ID.effective and ID.minor stand after it. Each has the limits of the
// thread's class and is worked to the middle of them; one that the tables do not
// limit has its basic size for both limits.
func withThreads(made *fit.Result) *fit.Result {
	all := *made
	all.Make = nil
	for i := range made.Make {
		m := &made.Make[i]
		if m.Thread == nil {
			all.Make = append(all.Make, *m)
			continue
		}
		basic := m.Thread.Basic
		minor := basic.MinorScrew
		if tapped(m) {
			minor = basic.MinorNut
		}
		all.Make = append(all.Make, diameterOf(m, "major", "", basic.Major),
			diameterOf(m, trade.EffectiveDiameter, "."+trade.EffectiveDiameter, basic.Effective),
			diameterOf(m, trade.MinorDiameter, "."+trade.MinorDiameter, minor))
	}
	return &all
}

// tapped reports whether a thread is one inside: it is said to be, or only limits of
// the nut were kept, which fit does where the shape tells.
func tapped(m *fit.Made) bool {
	limits := m.Thread.Limits
	return m.Size.Surface == trade.Inside || len(limits) > 0 && !slices.ContainsFunc(limits, func(l series.Limit) bool { return !l.Inside })
}

// diameterOf returns one diameter of a thread as a size by itself.
func diameterOf(thread *fit.Made, name, suffix string, basic float64) fit.Made {
	m, size, inside := *thread, *thread.Size, tapped(thread)
	size.ID, size.Kind, size.Surface = size.ID+suffix, trade.Diameter, trade.Outside
	if inside {
		size.Surface = trade.Inside
	}
	m.Size, m.Target, m.Low, m.High = &size, basic, basic, basic
	for _, l := range thread.Thread.Limits {
		if l.Inside == inside && strings.HasSuffix(l.Of, name) && l.Low < l.High {
			m.Target, m.Low, m.High = (l.Low+l.High)/2, l.Low, l.High
		}
	}
	return m
}

// diameters returns a size by its id, of a thread its diameters that are read: the
// root of a screw is what the tool leaves.
func (p *proof) diameters(id string) []*fit.Made {
	m := p.made.Of(id)
	switch {
	case m.Thread == nil:
		return []*fit.Made{m}
	case m.Size.Surface == trade.Inside:
		return []*fit.Made{p.made.Of(id + "." + trade.MinorDiameter), p.made.Of(id + "." + trade.EffectiveDiameter)}
	}
	return []*fit.Made{m, p.made.Of(id + "." + trade.EffectiveDiameter)}
}

// threadReadings returns the readings that meet a diameter of a thread, with the
// best wire or ball where the kit has none; nil for what is no thread.
func (p *proof) threadReadings(m *fit.Made) []trade.Reading {
	if m.Thread == nil {
		return nil
	}
	inside := m.Size.Surface == trade.Inside
	switch {
	case isEffective(m):
		return p.effectiveReadings(m, inside)
	case inside:
		return hintsOf(gauge.NutMinor, m)
	}
	return hintsOf(gauge.ScrewMajor, m)
}

func (p *proof) effectiveReadings(m *fit.Made, inside bool) []trade.Reading {
	t := m.Thread.Thread
	feature := gauge.ScrewEffective
	if inside {
		feature = gauge.NutEffective
	}
	var list []trade.Reading
	for _, way := range gauge.Proving(feature) {
		piece, _ := way.Method.PieceRole()
		list = append(list, hint(way.Method.ID, way.Role, m, plain("pitch", t.Pitch, unit.Length),
			plain("angle", t.Angle, unit.Angle), plain(piece.Name, gauge.BestWire(t.Pitch, t.Angle), unit.Length)))
	}
	for _, i := range p.Job.Instruments {
		if forThreads(&i) && strings.Contains(i.ID+" "+i.Say, "inside") == inside {
			way := directWay(m)
			direct := hint(way.Method.ID, way.Role, m)
			direct.With = i.ID
			list = append(list, direct)
		}
	}
	return list
}

// directWay is the way in which jaws span a size themselves.
func directWay(m *fit.Made) gauge.Way {
	for _, way := range gauge.Ways(m.Size.Kind, m.Size.Surface) {
		if way.Method.Direct {
			return way
		}
	}
	panic("inspect: the catalogue has no method by which jaws span a diameter")
}

// isEffective reports whether a size is the effective diameter of a thread.
func isEffective(m *fit.Made) bool {
	return m.Thread != nil && strings.HasSuffix(m.Size.ID, "."+trade.EffectiveDiameter)
}

// bestWire takes of readings of a thread, the best first, one as good whose wires
// touch nearest to the pitch line.
func (p *proof) bestWire(list []advise.Candidate, m *fit.Made) *advise.Candidate {
	best := &list[0]
	for i := range list {
		c := &list[i]
		if c.Reading.By == best.Reading.By && c.Then.U <= list[0].Then.U*(1+better) && p.offBest(c, m) < p.offBest(best, m) {
			best = c
		}
	}
	return best
}

// offBest returns by which part the wires or balls of a reading differ from those
// that touch on the pitch line, 0 where there are none.
func (p *proof) offBest(c *advise.Candidate, m *fit.Made) float64 {
	t := m.Thread.Thread
	method, _ := gauge.Find(c.Reading.By)
	for _, arg := range c.Reading.Of {
		if !isChosen(method, arg.Role) {
			continue
		}
		for _, piece := range slices.Concat(c.Borrow, p.Job.Pieces) {
			if piece.ID == arg.ID {
				return math.Abs(piece.Size.Inside()/gauge.BestWire(t.Pitch, t.Angle) - 1)
			}
		}
	}
	return 0
}

// offWire is how far from the best one a wire is that somebody would get for it.
const offWire = 0.1

// forThreads reports whether an instrument has the anvils of a thread micrometer,
// which show the effective diameter and nothing else.
func forThreads(i *trade.Instrument) bool {
	return strings.Contains(strings.ToLower(i.ID+" "+i.Say), "thread")
}
