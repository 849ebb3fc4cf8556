package inspect

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
)

// Finer is an instrument that the kit lacks and what a reading with it would be
// worth.
type Finer struct {
	With *trade.Instrument // its ID says what it is
	U    float64
	Good Judge
}

// lendable lists the instruments that a toolroom has, the plainest first. Their
// names are no ids, so that no kit has them; the errors are those of the trade
// (common practice, no source).
func lendable(units unit.Unit) []trade.Instrument {
	coarse, fine := "0.01 mm", "0.001 mm"
	if units == unit.Inch {
		coarse, fine = "0.0005 in", "0.0001 in"
	}
	const reads = " that reads to "
	of := func(kind trade.InstrumentKind, name string, resolution unit.Quantity, mpe float64) trade.Instrument {
		return trade.Instrument{ID: name, Kind: kind, Resolution: resolution, MPE: quantity(mpe, unit.Length)}
	}
	return []trade.Instrument{
		of(trade.Micrometer, "a micrometer"+reads+coarse, length(coarse), 0.005),
		of(trade.Caliper, "a caliper", quantity(0.02, unit.Length), 0.03),
		of(trade.DepthMicrometer, "a depth micrometer"+reads+coarse, length(coarse), 0.01),
		of(trade.BoreGauge, "a bore gauge"+reads+coarse, length(coarse), 0.015),
		{ID: "a protractor that reads to 5 minutes", Kind: trade.Protractor, Resolution: quantity(5.0/60*math.Pi/180, unit.Angle)},
		of(trade.Micrometer, "a micrometer"+reads+fine, length(fine), 0.002),
		of(trade.BoreGauge, "a bore gauge"+reads+fine, length(fine), 0.003),
	}
}

func length(text string) unit.Quantity {
	q, err := unit.ParseLength(text, unit.Millimetre)
	if err != nil {
		panic("inspect: a length of the program's own cannot be read")
	}
	return q
}

// lent reports whether a reading needs an instrument that the kit lacks.
func (p *proof) lent(c *advise.Candidate) bool { return p.Job.Instrument(c.Reading.With) == nil }

// lends returns that instrument, nil where the kit has it.
func (p *proof) lends(c *advise.Candidate) *trade.Instrument {
	list := lendable(p.Job.Units)
	i := slices.IndexFunc(list, func(i trade.Instrument) bool { return i.ID == c.Reading.With })
	if i < 0 {
		return nil
	}
	return &list[i]
}

// withLent returns the reading with the plainest instrument that the kit lacks and
// that is good enough, else the best; nil where nothing reads the size.
func (p *proof) withLent(over *advise.Overview, m *fit.Made, l Limits) (best *advise.Candidate, advice *advise.Advice) {
	for _, i := range lendable(p.Job.Units) {
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
