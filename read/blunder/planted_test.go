package blunder_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
)

// A value is well checked where the test finds it by itself: its redundancy is
// 0.3 or more, and a slip in it makes no other test more than 0.7 as large as
// its own.
const (
	goodRedundancy = 0.3
	goodApart      = 0.7
	noMatter       = 1e9 // however large other tests are
)

// victim is what a slip was made in.
type victim struct {
	readings   []string // more than one where they are swapped or not zeroed
	index      int      // of the one value, -1: all
	instrument string   // that was not zeroed
}

func (v victim) is(s adjust.Source) bool {
	switch s.Kind {
	case adjust.FromReading:
		return slices.Contains(v.readings, s.ID) && (v.index < 0 || v.index == s.Index)
	case adjust.FromInstrument:
		return s.ID == v.instrument
	}
	return false
}

// TestPlantedSlips makes one slip of each kind in well checked readings and
// looks for it. What is wanted of it are the figures that the work was asked
// for; the bounds are 99.9 % of the scatter from job to job.
func TestPlantedSlips(t *testing.T) {
	list := worlds(t, "testdata/*.yaml", "../../testdata/jobs/*.yaml", "../../examples/*.yaml")
	random := rand.New(rand.NewPCG(seed, 1))
	var all score
	for _, kind := range blunder.Kinds {
		var s score
		for tries := 0; s.jobs < rounds(500, 5, 1); tries++ {
			if tries > 10_000+1000*rounds(500, 5, 1) { // a scale in fractions is rare among the jobs
				t.Fatalf("%s: too few readings suit", kind)
			}
			if d, v := list[random.IntN(len(list))].planted(t, random, kind, goodApart); d != nil {
				s.count(d, v, kind)
			}
		}
		t.Logf("%-19s %v", kind, &s)
		s.wants(t, string(kind))
		all.add(&s)
	}
	t.Logf("%-19s %v", "all", &all)
	all.wants(t, "all")
	if rate, bound := all.rate(); rate > 0.001+bound {
		t.Errorf("%.5f ± %.5f of the sound values are suspect, more than 0.001", rate, bound)
	}
}

// TestSlipsHardToPlace makes slips in readings that are checked, but by little
// else than what they share a piece or an instrument with: the reading must be
// in doubt, if only among others.
func TestSlipsHardToPlace(t *testing.T) {
	list := worlds(t, "../../testdata/jobs/*.yaml", "../../examples/*.yaml")
	random := rand.New(rand.NewPCG(seed, 2))
	var all score
	for _, kind := range blunder.Kinds {
		var s score
		for tries := 0; s.jobs < rounds(200, 2, 1) && tries < 200*rounds(200, 2, 1); tries++ {
			if d, v := list[random.IntN(len(list))].planted(t, random, kind, noMatter); d != nil {
				s.count(d, v, kind)
			}
		}
		t.Logf("%-19s %v", kind, &s)
		all.add(&s)
	}
	t.Logf("%-19s %v", "all", &all)
	if all.below(all.found, 0.9) {
		t.Errorf("%v", &all)
	}
}

// TestSomeOtherSlip makes slips of no kind, from the smallest that can be
// caught to 10 mm, all sizes alike on a logarithmic scale, and counts how often
// an explanation that is not true seems likely.
func TestSomeOtherSlip(t *testing.T) {
	list := worlds(t, "testdata/*.yaml", "../../testdata/jobs/*.yaml")
	random := rand.New(rand.NewPCG(seed, 3))
	jobs, misled, unexplained := 0, 0, 0
	for jobs < rounds(1000, 40, 5) {
		d, _ := list[random.IntN(len(list))].planted(t, random, someOther, goodApart)
		if d == nil {
			continue
		}
		jobs++
		doubts := blunder.Explain(context.Background(), adjusted(t, d.job))
		switch {
		case len(doubts) == 0:
		case len(doubts[0].Perhaps) == 0:
			unexplained++
		case doubts[0].Perhaps[0].P > 0.5:
			misled++
		}
	}
	t.Logf("of %d slips of no kind %.1f %% have no explanation, %.1f %% one that seems more likely than not",
		jobs, 100*float64(unexplained)/float64(jobs), 100*float64(misled)/float64(jobs))
	if float64(misled) > 0.2*float64(jobs) {
		t.Errorf("%d of %d slips of no kind are explained away", misled, jobs)
	}
}

// score counts what became of planted slips.
type score struct {
	jobs, found, top, first, tied, listed int
	sound, alarms                         int
	rates, squares                        float64 // of alarms a sound value, job by job
}

func (s *score) add(o *score) {
	s.jobs += o.jobs
	s.found += o.found
	s.top += o.top
	s.first += o.first
	s.tied += o.tied
	s.listed += o.listed
	s.sound += o.sound
	s.alarms += o.alarms
	s.rates += o.rates
	s.squares += o.squares
}

func (s *score) String() string {
	part := func(n int) float64 { return 100 * float64(n) / float64(max(1, s.jobs)) }
	return fmt.Sprintf("%5d planted: suspect %5.1f %%, most suspect %5.1f %%; kind first %5.1f %%, first or of the same value %5.1f %%, listed %5.1f %%; %d of %d sound values suspect",
		s.jobs, part(s.found), part(s.top), part(s.first), part(s.tied), part(s.listed), s.alarms, s.sound)
}

// below reports whether a count is less than a part of the jobs, beyond doubt:
// by the binomial itself, since the normal in its place is wrong for few jobs.
func (s *score) below(count int, part float64) bool {
	return distuv.Binomial{N: float64(s.jobs), P: part}.CDF(float64(count)) < 0.0005
}

const bound999 = 3.2905267314919255 // 99.9 % two-sided

// rate returns the mean part of sound values that are suspect and its bound.
func (s *score) rate() (mean, bound float64) {
	n := float64(s.jobs)
	mean = s.rates / n
	return mean, bound999 * math.Sqrt((s.squares/n-mean*mean)/(n-1))
}

func (s *score) wants(t *testing.T, what string) {
	t.Helper()
	if s.below(s.top, 0.95) || s.below(s.first, 0.7) || s.below(s.listed, 0.9) {
		t.Errorf("%s: %v", what, s)
	}
}

func (s *score) count(d *draw, v victim, kind blunder.Kind) {
	r := adjusted(d.t, d.job)
	doubts := blunder.Explain(context.Background(), r)
	s.jobs++
	sound, alarms := s.sound, s.alarms
	for _, value := range r.Readings {
		source := adjust.Source{Kind: adjust.FromReading, ID: value.ID, Index: value.Index}
		if !v.is(source) && value.Redundancy > 0 && !value.SetAside {
			s.sound++
			if value.Suspect {
				s.alarms++
			}
		}
	}
	if n := float64(s.sound - sound); n > 0 {
		rate := float64(s.alarms-alarms) / n
		s.rates += rate
		s.squares += rate * rate
	}
	in := slices.IndexFunc(doubts, func(x blunder.Doubt) bool { return slices.ContainsFunc(x.Suspects, v.is) })
	if in < 0 {
		return
	}
	s.found++
	if in == 0 {
		s.top++
	}
	at := slices.IndexFunc(doubts[in].Perhaps, func(e blunder.Explanation) bool {
		return e.Kind == kind && slices.ContainsFunc(e.Corrected, func(c blunder.Correction) bool { return v.is(c.Source) })
	})
	if at < 0 {
		return
	}
	s.listed++
	if at == 0 {
		s.first++
	}
	if at == 0 || sameValue(doubts[in].Perhaps[0], doubts[in].Perhaps[at]) {
		s.tied++
	}
}

// sameValue reports whether two explanations correct the same value to the
// same, within a hundredth of a millimetre: they coincide in number, and no
// reading can tell them apart.
func sameValue(a, b blunder.Explanation) bool {
	for _, x := range a.Corrected {
		for _, y := range b.Corrected {
			if x.Source == y.Source && math.Abs(x.WouldBe[0]-y.WouldBe[0]) < 0.01 {
				return true
			}
		}
	}
	return false
}

// planted draws a job and makes a slip in one of its readings. It returns nil
// where the reading drawn does not suit, where it is not well checked apart
// from others, or where the slip is less than the smallest that can be caught.
func (w *world) planted(t *testing.T, random *rand.Rand, kind blunder.Kind, apart float64) (*draw, victim) {
	candidates := w.readings()
	if len(candidates) == 0 {
		return nil, victim{}
	}
	id := candidates[random.IntN(len(candidates))]
	v := victim{readings: []string{id}, index: -1}
	if slices.Contains(ofOneValue, kind) && random.IntN(2) == 0 {
		v.index = random.IntN(len(w.r.Job.Reading(id).Saw))
	}
	d := w.drawn(t, random)
	before := copied(d.job)
	if !planters[kind](d, d.job.Reading(id)) {
		return nil, v
	}
	reading := d.job.Reading(id)
	for i := range reading.Saw {
		if v.index >= 0 && i != v.index {
			reading.Saw[i] = before.Reading(id).Saw[i]
		}
	}
	v.complete(before, d.job, kind)
	if !w.catchable(t, v, before, d.job, apart) {
		return nil, v
	}
	return d, v
}

// someOther is a slip of no kind.
const someOther blunder.Kind = "some-other"

// ofOneValue are the slips made in one value as often as in all of a reading.
var ofOneValue = []blunder.Kind{
	blunder.ThimbleTurn, blunder.BeamDivision, blunder.FractionDivision, blunder.DigitsSwapped,
	blunder.RadiusForDiameter, blunder.DiameterForRadius, blunder.InchForMM, blunder.MMForInch,
}

// readings returns the readings that can be drawn anew and have nothing set
// aside.
func (w *world) readings() []string {
	var list []string
	for i := range w.r.Job.Readings {
		r := &w.r.Job.Readings[i]
		if drawable(r) && !slices.ContainsFunc(r.Saw, func(s trade.Seen) bool { return s.SetAside }) {
			list = append(list, r.ID)
		}
	}
	return list
}

// complete adds the other readings that a slip has changed.
func (v *victim) complete(before, after *trade.Job, kind blunder.Kind) {
	for i, r := range after.Readings {
		if !slices.Equal(r.Saw, before.Readings[i].Saw) && !slices.Contains(v.readings, r.ID) {
			v.readings = append(v.readings, r.ID)
		}
	}
	if kind == blunder.NotZeroed {
		v.instrument = after.Reading(v.readings[0]).With
	}
}

// catchable reports whether a slip is in well checked values and larger than
// the smallest that the test would catch. It moves the victim a little where
// nothing scatters: the tests then say by themselves how they follow.
func (w *world) catchable(t *testing.T, v victim, before, after *trade.Job, apart float64) bool {
	for _, id := range v.readings {
		one := victim{readings: []string{id}, index: v.index, instrument: v.instrument}
		if v.instrument != "" {
			one.readings = v.readings
		}
		least := w.smallest(t, one, apart)
		moved := 0.0
		for i, s := range after.Reading(id).Saw {
			moved = max(moved, math.Abs(s.X.Inside()-before.Reading(id).Saw[i].X.Inside()))
		}
		if !(moved >= least) {
			return false
		}
	}
	return true
}

// smallest returns the smallest slip in a victim that the test would catch,
// +Inf where it is not well checked.
func (w *world) smallest(t *testing.T, v victim, apart float64) float64 {
	key := fmt.Sprint(v, apart)
	if least, ok := w.known[key]; ok {
		return least
	}
	w.known[key] = w.smallestNow(t, v, apart)
	return w.known[key]
}

const catchableSigmas = 4.132147965064809 // z(0.9995) + z(0.8), from the description of the job file

func (w *world) smallestNow(t *testing.T, v victim, apart float64) float64 {
	d := w.drawn(t, nil)
	const little = 0.01
	for _, id := range v.readings {
		r := d.job.Reading(id)
		for i := range r.Saw {
			if v.index < 0 || v.index == i {
				r.Saw[i].X = d.onScale(r, r.Saw[i].X.Unit(), r.Saw[i].X.Inside()+little)
			}
		}
	}
	moved, err := w.r.Refit(d.job)
	if err != nil {
		t.Fatal(err)
	}
	own, others, redundancy := w.follow(t, v, moved)
	if others > apart*own || redundancy < goodRedundancy {
		return math.Inf(1)
	}
	return little * catchableSigmas / own
}

// follow returns the largest test of a victim and of all else where only the
// victim was moved, and the victim's least redundancy.
func (w *world) follow(t *testing.T, v victim, moved *adjust.Result) (own, others, redundancy float64) {
	still, err := w.r.Refit(w.drawn(t, nil).job)
	if err != nil {
		t.Fatal(err)
	}
	redundancy = 1
	count := func(s adjust.Source, a, b adjust.Test) {
		by := math.Abs(a.Normalised - b.Normalised)
		if v.is(s) {
			own = max(own, by)
			if s.Kind == adjust.FromReading {
				redundancy = min(redundancy, a.Redundancy)
			}
		} else {
			others = max(others, by)
		}
	}
	for i, a := range moved.Readings {
		count(adjust.Source{Kind: adjust.FromReading, ID: a.ID, Index: a.Index}, a.Test, still.Readings[i].Test)
	}
	for i, a := range moved.Instruments {
		count(adjust.Source{Kind: adjust.FromInstrument, ID: a.ID}, a.Test, still.Instruments[i].Test)
	}
	for i, a := range moved.Pieces {
		count(adjust.Source{Kind: adjust.FromPiece, ID: a.ID}, a.Test, still.Pieces[i].Test)
	}
	for i, a := range moved.Sizes {
		if a.Known != nil {
			count(adjust.Source{Kind: adjust.FromKnown, ID: a.ID}, *a.Known, *still.Sizes[i].Known)
		}
	}
	for i, a := range moved.Relations {
		count(adjust.Source{Kind: adjust.FromRelation, Index: a.Index}, a.Test, still.Relations[i].Test)
	}
	return own, others, redundancy
}
