package blunder

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// swappedWithOthers lists the readings whose values may have been entered under
// the culprit's name, and the culprit's under theirs.
func (a *account) swappedWithOthers() []slip {
	reading := a.r.Job.Reading(a.source.ID)
	if gauge.Pairs(reading.By) || len(a.values) < len(kept(reading)) {
		return nil
	}
	var list []slip
	for i := range a.r.Job.Readings {
		other := &a.r.Job.Readings[i]
		if other.ID == reading.ID || other.GoNoGo() || len(kept(other)) == 0 { // one without values is planned
			continue
		}
		if v := valueOf(a.r, adjust.Source{ID: other.ID}); v.Pair || v.Dimension != a.dimension {
			continue
		}
		if a.within(mean(other) - a.said) {
			list = append(list, a.swap(reading, other))
		}
	}
	return list
}

// swap exchanges what two readings saw. It clears up all that either is
// suspect of.
func (a *account) swap(one, two *trade.Reading) slip {
	if two.ID < one.ID {
		one, two = two, one
	}
	corrected := append(exchange(one, two, a.dimension), exchange(two, one, a.dimension)...)
	h := a.explained(SwappedReadings, one.ID+" and "+two.ID+" entered under each other's name",
		1/float64(len(a.r.Job.Readings)-1), corrected, func(job *trade.Job) {
			one, two := job.Reading(one.ID), job.Reading(two.ID)
			one.Saw, two.Saw = two.Saw, one.Saw
		})
	h.covers = a.touching(func(c culprit) bool {
		return c.source.Kind == adjust.FromReading && (c.source.ID == one.ID || c.source.ID == two.ID)
	})
	return h
}

// mean returns the mean of a reading's values that are not set aside.
func mean(reading *trade.Reading) float64 {
	list := kept(reading)
	sum := 0.0
	for _, i := range list {
		sum += reading.Saw[i].X.Inside()
	}
	return sum / float64(len(list))
}

// exchange says what a reading's values should have been if another's were
// meant for it.
func exchange(reading, other *trade.Reading, d unit.Dimension) []Correction {
	theirs := kept(other)
	var list []Correction
	for k, i := range kept(reading) {
		seen := other.Saw[theirs[min(k, len(theirs)-1)]]
		list = append(list, Correction{
			Source:    adjust.Source{Kind: adjust.FromReading, ID: reading.ID, Index: i},
			Dimension: d, WouldBe: [2]float64{seen.X.Inside()},
		})
	}
	return list
}

// commonCauses looks for one cause of several doubts, and for instruments that
// were not zeroed, which show in all that they read.
func (s *study) commonCauses() {
	for i := range s.r.Job.Instruments {
		s.tryZero(&s.r.Job.Instruments[i])
	}
	if len(s.doubts) < 2 {
		return
	}
	for i := range s.r.Job.Pieces {
		s.tryPiece(s.r.Job.Pieces[i].ID)
	}
}

// touching returns the doubts in which something of these ids is to blame.
func (s *study) touching(is func(c culprit) bool) []*doubt {
	var list []*doubt
	for _, d := range s.doubts {
		if slices.ContainsFunc(d.culprits, is) {
			list = append(list, d)
		}
	}
	return list
}

// keep tries a slip and notes it where it fits, with the doubt it clears up or
// among the common causes. The same slip may be come upon from two sides.
func (s *study) keep(h slip) {
	list := &s.common
	if len(h.covers) == 1 {
		list = &h.covers[0].entries
	}
	if slices.ContainsFunc(*list, func(e *entry) bool { return e.same(h) }) {
		return
	}
	if e := s.try(h); e != nil {
		*list = append(*list, e)
	}
}

// same reports whether an entry came from a slip like h.
func (e *entry) same(h slip) bool {
	return e.Kind == h.Kind && e.Text == h.Text && slices.Equal(e.Corrected, h.Corrected)
}

// tryZero supposes that an instrument with several readings was not zeroed: its
// zero is set free, at the price of √(1 + τ²/σ²) for a zero of standard
// deviation τ that the readings know to σ.
func (s *study) tryZero(instrument *trade.Instrument) {
	zero := culprit{source: adjust.Source{Kind: adjust.FromInstrument, ID: instrument.ID}}
	covered := s.touching(func(c culprit) bool {
		return c.source == zero.source || c.source.Kind == adjust.FromReading && zero.usedBy(s.r.Job.Reading(c.source.ID))
	})
	stated, err := gauge.ErrorOf(instrument)
	if err != nil || stated.Zero == 0 || len(covered) == 0 || s.readBy(zero) < 2 {
		return
	}
	d := gauge.InstrumentReads(instrument)
	at := slices.IndexFunc(s.r.Instruments, func(z adjust.Zero) bool { return z.ID == instrument.ID })
	h := slip{
		Explanation: Explanation{Kind: NotZeroed, Text: instrument.ID + " not zeroed"},
		prior:       priors[NotZeroed],
		undone:      func(job *trade.Job) { job.Instruments[at].Zero = quantity(notZeroed(d), d) },
	}
	h.after = func(r *adjust.Result, e *entry) float64 {
		e.Corrected = s.zeroed(zero, r.Instruments[at], covered)
		return (r.Instruments[at].U / notZeroed(d)) / (s.r.Instruments[at].U / stated.Zero)
	}
	h.covers = covered
	s.keep(h)
}

func (s *study) readBy(zero culprit) int {
	n := 0
	for i := range s.r.Job.Readings {
		if zero.usedBy(&s.r.Job.Readings[i]) {
			n++
		}
	}
	return n
}

// zeroed says what an instrument's zero is, and what the suspect values that
// it read should have been.
func (s *study) zeroed(zero culprit, found adjust.Zero, covered []*doubt) []Correction {
	list := []Correction{{Source: zero.source, Dimension: found.Dimension, WouldBe: [2]float64{found.Value}}}
	for _, d := range covered {
		for _, suspect := range d.suspects {
			if suspect.Kind != adjust.FromReading || !zero.usedBy(s.r.Job.Reading(suspect.ID)) {
				continue
			}
			if v := valueOf(s.r, suspect); v.Dimension == found.Dimension {
				list = append(list, Correction{Source: suspect, Dimension: v.Dimension, WouldBe: [2]float64{v.Saw[0] - found.Value}})
			}
		}
	}
	return list
}

// tryPiece supposes that a gauge piece is another than it says in all that it
// was used for.
func (s *study) tryPiece(id string) {
	piece := culprit{source: adjust.Source{Kind: adjust.FromPiece, ID: id}}
	covered := s.touching(func(c culprit) bool {
		return c.source == piece.source || c.source.Kind == adjust.FromReading && uses(s.r.Job.Reading(c.source.ID), id)
	})
	if len(covered) < 2 {
		return
	}
	base := s.refit(covered, piece.free)
	if base == nil {
		return
	}
	a := &account{study: s, culprit: piece, base: base}
	a.hearPrior()
	for _, h := range a.slips() {
		h.covers = covered
		s.keep(h)
	}
}
