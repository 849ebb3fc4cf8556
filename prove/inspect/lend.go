package inspect

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// Finer is an instrument that the kit lacks and what a reading with it would be
// worth.
type Finer struct {
	With *trade.Instrument // its ID says what it is
	U    float64
	Good Judge
}

// lent reports whether a reading needs an instrument that the kit lacks.
func (p *proof) lent(c *advise.Candidate) bool { return p.Job.Instrument(c.Reading.With) == nil }

// lends returns that instrument, nil where the kit has it.
func (p *proof) lends(c *advise.Candidate) *trade.Instrument {
	list := gauge.Lendable(p.Job.Units)
	i := slices.IndexFunc(list, func(i trade.Instrument) bool { return i.ID == c.Reading.With })
	if i < 0 {
		return nil
	}
	return &list[i]
}

// withLent returns the reading with the plainest instrument that the kit lacks and
// that is good enough, else the best; nil where nothing reads the size.
func (p *proof) withLent(over *advise.Overview, m *fit.Made, l Limits) (best *advise.Candidate, advice *advise.Advice) {
	for _, i := range gauge.Lendable(p.Job.Units) {
		a := over.Of(ofThePart+m.Size.ID, l.Width()/wanted, func(c *advise.Candidate) bool { return c.Reading.With == i.ID && p.takes(c, m) })
		if len(a.Best) == 0 {
			continue
		}
		c := &a.Best[0]
		if m.Thread != nil {
			c = p.bestWire(a.Best, m)
		}
		if a.Reaches(c.Then) {
			return c, a
		}
		if best == nil || c.Then.U < best.Then.U {
			best, advice = c, a
		}
	}
	return best, advice
}

// finer returns what would judge a size that the kit cannot judge, nil for nothing.
func (p *proof) finer(over *advise.Overview, s *Step) *Finer {
	c, _ := p.withLent(over, s.Made, s.Limits)
	if c == nil {
		return nil
	}
	f := &Finer{With: p.lends(c), U: withoutPrior(c.Then.U, prior(s.Made))}
	if f.Good = judgeOf(adjust.Coverage95*f.U, s.Limits); f.Good >= s.Good {
		return nil
	}
	return f
}
