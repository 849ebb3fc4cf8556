package fit

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
)

// settle tells which reading would determine what a size is taken from.
func (b *bench) settle(m *Made, s *source) {
	for _, name := range s.names {
		size := b.r.Size(name)
		if size == nil || size.Determined {
			continue
		}
		a := advise.Next(b.ctx, b.r, advise.Options{For: name})
		if a == nil {
			return
		}
		m.Read = &Reading{Advice: a, Saves: math.NaN()}
		if len(a.Best) > 0 {
			m.Read.Candidate = &a.Best[0]
			return
		}
	}
	if m.Read == nil {
		m.advise("%s has no value at the sizes found: look at its formula.", s.e)
	}
}

// worthReading is what a further reading must gain to be worth a walk to the
// bench (common practice, no source).
const worthReading = 0.05

// improve tells which reading of the mate would let the fit be closer. First it
// asks what a mate known exactly would save: the search for readings is long.
func (b *bench) improve(m *Made, s *source) {
	now := b.aimOf(m, b.r, s)
	exact := *now.mate
	exact.found.u, exact.tight.u, exact.slack.u = 0, 0, 0
	perfect := *now
	perfect.mate = &exact
	if !(now.gain(&perfect) > worthReading) {
		return
	}
	name := b.mostOf(s)
	if name == "" {
		return
	}
	a := advise.Next(b.ctx, b.r, advise.Options{For: name})
	if a == nil {
		return
	}
	for i := range a.Best[:min(len(a.Best), mostTried)] {
		b.consider(m, s, now, a, &a.Best[i])
	}
}

// mostTried is how many of the readings proposed are worked out in full.
const mostTried = 5

// consider keeps a reading where it gains more than those before it.
func (b *bench) consider(m *Made, s *source, now *aim, a *advise.Advice, c *advise.Candidate) {
	after, ok := a.Taken(c)
	if !ok {
		return
	}
	then := b.aimOf(m, after, sourceOf(after, s.e))
	gain := now.gain(then)
	if !(gain > worthReading) || m.Read != nil && gain <= m.Read.gain {
		return
	}
	d, saved := then.clearance(), math.Abs(now.clearance())-math.Abs(then.clearance())
	m.Read = &Reading{Advice: a, Candidate: c, Saves: saved, Then: then.expect(d), gain: gain}
}

// gain returns what a better known mate brings: by how much smaller the
// clearance or the interference may be, in parts of the width of what is
// wanted. Where the promise is not kept it is how much nearer it comes.
func (a *aim) gain(then *aim) float64 {
	d, better := a.clearance(), then.clearance()
	if now := a.expect(d); !now.Kept {
		return then.expect(better).Assembles - now.Assembles
	}
	return (math.Abs(d) - math.Abs(better)) / a.width()
}

// aimOf returns what the clearance of a size that was worked out is to be, with
// the mate as another result of the job has it.
func (b *bench) aimOf(m *Made, r *adjust.Result, s *source) *aim {
	return &aim{
		mate:     mateOf(r, s, m.Size.From == trade.GoesOver),
		interval: interval{m.Mating.Least, m.Mating.Most},
		holds:    (m.High - m.Low) / 2,
		promised: m.Mating.Promised,
	}
}

// mostOf returns the size that has most part in the uncertainty of an
// expression, what it has in common with the others counted; empty for one of
// gauge pieces alone.
func (b *bench) mostOf(s *source) string {
	name, most := "", 0.0
	for _, id := range s.names {
		if b.r.Job.Size(id) == nil {
			continue
		}
		part := math.Abs(b.r.CovarianceOf(b.r.Named(id), s.Combined) * s.By[id])
		if name == "" || part > most {
			name, most = id, part
		}
	}
	return name
}
