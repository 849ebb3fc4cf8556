package inspect

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// tried is how many of the readings that are good enough are compared by what
// they say of the clearance.
const tried = 4

// better is the part by which a reading must tell the clearance more closely to
// be taken in place of an easier one.
const better = 0.05

// choose takes the reading that is best: with the kit as it is, else with pieces
// that it lacks, else with an instrument that it lacks. Among those as good as are
// wanted, or where none is among the best, it takes the one that tells the clearance
// best. It returns nil where nothing reads the size.
func (p *proof) choose(over *advise.Overview, s *Step) (*advise.Candidate, *advise.Advice) {
	m := s.Made
	own := over.Of(ofThePart+m.Size.ID, s.Limits.Width()/wanted, func(c *advise.Candidate) bool { return !p.lent(c) && p.takes(c, m) })
	if len(own.Best) > 0 {
		return p.clearest(own, m), own
	}
	return p.withLent(over, m, s.Limits)
}

// wanted is into how many parts the tolerance is divided for the 95 % half width
// wanted of a reading.
const wanted = 3

// takes reports whether a reading may be proposed for a size: with an instrument
// that there is and pieces that can be had, and of threads with what suits them.
func (p *proof) takes(c *advise.Candidate, m *fit.Made) bool {
	if c.Reading.With == unchosen.ID || math.IsNaN(c.Shows) || hasHint(&c.Reading) {
		return false
	}
	i := p.Job.Instrument(c.Reading.With)
	method, _ := gauge.Find(c.Reading.By)
	direct := isEffective(m) && method.Direct
	if direct != (i != nil && forThreads(i)) {
		return false
	}
	switch {
	case method.IsProofOf(gauge.ScrewEffective):
		return c.Borrow == nil || m.Thread == nil || p.offBest(c, m) < offWire
	case method.IsProofOf(gauge.NutEffective):
		return c.Shows >= jawsEnter
	}
	return true
}

// jawsEnter is the least gap, mm, into which inside jaws go between balls in a
// thread (common practice, no source).
const jawsEnter = 10

// clearest takes the first of what is advised, or where the size has a mate one of
// those after it that tells the clearance more closely, and of wires the best.
func (p *proof) clearest(a *advise.Advice, m *fit.Made) *advise.Candidate {
	list := a.Best
	best := &list[0]
	switch {
	case m.Thread != nil:
		return p.bestWire(list, m)
	case m.Mating == nil:
		return best
	}
	enough := a.Reaches(best.Then)
	least := p.clearanceAfter(a, best, m)
	for i := range list[1:min(len(list), tried)] {
		c := &list[1+i]
		if enough && !a.Reaches(c.Then) || len(c.Borrow) > len(best.Borrow) {
			continue
		}
		if u := p.clearanceAfter(a, c, m); u < least*(1-better) {
			best, least = c, u
		}
	}
	return best
}

// clearanceAfter returns the standard uncertainty of the clearance once a reading
// has been taken.
func (p *proof) clearanceAfter(a *advise.Advice, c *advise.Candidate, m *fit.Made) float64 {
	after, ok := a.Taken(c)
	if !ok {
		return math.Inf(1)
	}
	_, u := clearance(after, m)
	return u
}

// clearance returns what a size of the part leaves to its mate, and the standard
// uncertainty of that, correlations counted. Negative is an interference.
func clearance(r *adjust.Result, m *fit.Made) (c, u float64) {
	mate, size := r.Combine(m.Size.Of.Expr(), nil), r.Named(ofThePart+m.Size.ID)
	c = mate.Value - size.Value
	if m.Size.From == trade.GoesOver {
		c = -c
	}
	return c, math.Sqrt(max(0, r.CovarianceOf(mate, mate)+r.CovarianceOf(size, size)-2*r.CovarianceOf(mate, size)))
}

// readTheMate reports whether an instrument has read what a size goes in or over.
func (p *proof) readTheMate(m *fit.Made, with string) bool {
	if m.Mating == nil || with == "" {
		return false
	}
	names := m.Size.Of.Names()
	return slices.ContainsFunc(p.Job.Readings, func(r trade.Reading) bool {
		return r.With == with && slices.ContainsFunc(r.Of, func(a trade.Arg) bool { return slices.Contains(names, a.ID) })
	})
}
