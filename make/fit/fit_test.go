package fit

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// TestTargets by hand: the mate is exact, only the rectangle scatters, and
// chances are parts of its width.
func TestTargets(t *testing.T) {
	for _, c := range []struct {
		name           string
		least, most    float64
		holds          float64
		from           trade.Origin
		mean           float64
		assembles      float64
		binds, rattles float64
		kept           bool
	}{
		{"the middle, with room", 0.03, 0.07, 0.02, trade.GoesIn, 0.05, 1, 0, 0, true},
		{"the middle, over it", 0.03, 0.07, 0.02, trade.GoesOver, 0.05, 1, 0, 0, true},
		// 1 % of the width 0.04 may bind: mean = 0.02 - 0.0004. Over 0.03 lie 0.0096 of it.
		{"the promise asks for more", 0.01, 0.02, 0.02, trade.GoesIn, 0.0196, 0.99, 0.01, 0.49, true},
		{"wider than wanted, in the middle", 0.025, 0.035, 0.02, trade.GoesIn, 0.03, 1, 0, 0.375, true},
		// The grip asks for 99 % under 0: mean = -0.0196, of which 0.0096 + ... lies beyond -0.02.
		{"an interference that grips", -0.02, 0, 0.02, trade.GoesIn, -0.0196, 0.51, 0.99, 0.01, true},
		{"an interference with room", -0.07, -0.03, 0.01, trade.GoesIn, -0.05, 1, 1, 0, true},
		// A transition stays in its middle: 0.5 of its width 0.04 each way, of which 0.01 is wanted.
		{"a transition", -0.01, 0.01, 0.02, trade.GoesIn, 0, 0.75, 0.5, 0.25, false},
		{"exact", 0.01, 0.03, 0, trade.GoesIn, 0.02, 1, 0, 0, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			size := slide(c.least, c.most, c.holds)
			size.From = c.from
			bore := trade.Size{ID: "bore", Kind: trade.Diameter, Known: trade.Prior{Value: mm(20)}}
			m := fitted(t, jobOf([]trade.Size{bore}, size), nil).Of("slide")
			w := m.Mating
			closeTo(t, "mean", w.Mean, c.mean, 1e-12)
			closeTo(t, "assembles", w.Assembles, c.assembles, 1e-9)
			closeTo(t, "binds", w.Binds, c.binds, 1e-9)
			closeTo(t, "rattles", w.Rattles, c.rattles, 1e-9)
			if w.Kept != c.kept {
				t.Errorf("kept: %v", w.Kept)
			}
			target := 20 - c.mean
			if c.from == trade.GoesOver {
				target = 20 + c.mean
			}
			closeTo(t, "target", m.Target, target, 1e-12)
			closeTo(t, "low", m.Low, target-c.holds, 1e-12)
			closeTo(t, "high", m.High, target+c.holds, 1e-12)
		})
	}
}

// formed is a bore out of form, read at two places with a micrometer.
func formed(size trade.NewSize) *trade.Job {
	job := jobOf([]trade.Size{{ID: "bore", Kind: trade.Diameter, Surface: trade.Inside, Form: mm(0.1)}}, size)
	job.Instruments = []trade.Instrument{{ID: "gauge", Kind: trade.BoreGauge, Zero: mm(0.001), Repeat: mm(0.001)}}
	for i, x := range []float64{20.00, 20.06} {
		job.Readings = append(job.Readings, trade.Reading{
			ID: []string{"a", "b"}[i], By: "inside", Of: []trade.Arg{{Role: "size", ID: "bore"}}, With: "gauge", Saw: []trade.Seen{{X: mm(x)}},
		})
	}
	return job
}

// TestMateOutOfForm: the tightest place counts for going together, the slackest
// for rattling; the other way round for what goes over.
func TestMateOutOfForm(t *testing.T) {
	found := fitted(t, formed(slide(0.01, 0.09, 0.005)), nil)
	in, e := found.Of("slide"), found.Found.Size("bore").Extent
	tight, slack := spread{e.ULeast, 0.005}, spread{e.UMost, 0.005}
	closeTo(t, "least", in.Mating.LeastMate, e.Least, 1e-12)
	closeTo(t, "most", in.Mating.MostMate, e.Most, 1e-12)
	closeTo(t, "target, in the middle of both places", in.Target, (e.Least+e.Most)/2-0.05, 1e-12)
	closeTo(t, "clearance low", in.Mating.ClearanceLow, e.Least-in.Target+tight.at(outside95), 1e-12)
	closeTo(t, "clearance high", in.Mating.ClearanceHigh, e.Most-in.Target-slack.at(outside95), 1e-12)
	promised := fitted(t, formed(slide(0, 0.01, 0.005)), nil).Of("slide")
	closeTo(t, "the promise at the tightest place", promised.Target, e.Least+tight.at(0.01), 1e-12)
	closeTo(t, "it goes together", promised.Mating.Assembles, 0.99, 1e-9)
	size := slide(0, 0.01, 0.005)
	size.From = trade.GoesOver
	closeTo(t, "over the largest place", fitted(t, formed(size), nil).Of("slide").Target, e.Most-slack.at(0.01), 1e-12)
	grip := fitted(t, formed(slide(-0.01, 0, 0.005)), nil).Of("slide")
	closeTo(t, "a grip at the slackest place", grip.Target, e.Most+slack.at(0.99), 1e-12)
}

// TestNamedFits: 20 H7/g6 has 0.007 to 0.041 mm of clearance (ISO 286-2, from
// memory). It is applied to the mate as it is; what was meant picks the row.
func TestNamedFits(t *testing.T) {
	size := trade.NewSize{ID: "slide", Kind: trade.Diameter, From: trade.GoesIn, Of: formula("bore"), Fit: "H7/g6", Holds: mm(0.005)}
	worn := []trade.Size{known("bore", 20.083, 0.002)}
	m := fitted(t, jobOf(worn, size), nil).Of("slide")
	closeTo(t, "least", m.Mating.Least, 0.007, 1e-12)
	closeTo(t, "most", m.Mating.Most, 0.041, 1e-12)
	closeTo(t, "target", m.Target, 20.083-0.024, 1e-9)
	if m.Code != "g6" {
		t.Errorf("code %q", m.Code)
	}
	size.From = trade.GoesOver
	if m := fitted(t, jobOf(worn, size), nil).Of("slide"); m.Code != "H7" {
		t.Errorf("code of what goes over: %q", m.Code)
	}
	size.From, size.Kind = trade.GoesIn, trade.Radius
	m = fitted(t, jobOf([]trade.Size{{ID: "bore", Kind: trade.Radius, Known: trade.Prior{Value: mm(10)}}}, size), nil).Of("slide")
	closeTo(t, "clearance on a radius", m.Mating.Most, 0.0205, 1e-12)
	// 18 mm is the end of a row: as measured, 18.02, it lies in the next one.
	decided := &meant.Result{Sizes: []meant.Size{{ID: "bore", Decided: true, Candidates: []meant.Candidate{{Text: "18 mm", Value: 18, P: 1}}}}}
	size.Kind = trade.Diameter
	m = fitted(t, jobOf([]trade.Size{known("bore", 18.02, 0.002)}, size), decided).Of("slide")
	closeTo(t, "18 H7/g6 (ISO 286-2, from memory)", m.Mating.Most, 0.035, 1e-12)
}

// TestOtherOrigins: what is copied, stated or a thread.
func TestOtherOrigins(t *testing.T) {
	found := []trade.Size{known("nose", 12.695, 0.004), known("bore", 20, 0.003)}
	decided := &meant.Result{Sizes: []meant.Size{
		{ID: "nose", Decided: true, Candidates: []meant.Candidate{{Text: "1/2 in", Value: 12.7, P: 1}}},
		{ID: "bore", Candidates: []meant.Candidate{{Text: "20.05 mm", Value: 20.05, P: 0.8}}},
	}}
	job := jobOf(found,
		trade.NewSize{ID: "nose", Kind: trade.Diameter, From: trade.Copies, Of: formula("nose"), Within: mm(0.01)},
		trade.NewSize{ID: "bore", Kind: trade.Diameter, From: trade.Copies, Of: formula("bore"), Holds: mm(0.02)},
		trade.NewSize{ID: "both", Kind: trade.Length, From: trade.Copies, Of: formula("nose + bore"), Within: mm(0.1)},
		trade.NewSize{ID: "long", Kind: trade.Length, From: trade.Is, Of: formula("62"), Within: mm(0.2)},
		trade.NewSize{ID: "about", Kind: trade.Length, From: trade.Is, Of: formula("2 * 30 mm")},
		trade.NewSize{ID: "lead", Kind: trade.Angle, From: trade.Is, Of: formula("60 deg")},
		trade.NewSize{ID: "class", Kind: trade.Diameter, From: trade.Is, Of: formula("25 mm"), Tolerance: "g6"},
		trade.NewSize{ID: "screw", From: trade.IsThread, Thread: "m10", Class: "6g"},
	)
	f := fitted(t, job, decided)
	for _, c := range []struct {
		id                string
		target, low, high float64
		u                 float64
		decided           bool
	}{
		{"nose", 12.7, 12.69, 12.71, 0.004, true},
		{"bore", 20, 19.98, 20.02, 0.003, false},
		{"both", 32.695, 32.595, 32.795, 0.005, false},
		{"long", 62, 61.8, 62.2, 0, false},
		{"about", 60, 60, 60, 0, false},
		{"lead", math.Pi / 3, math.Pi / 3, math.Pi / 3, 0, false},
		{"class", 25, 24.98, 24.993, 0, false}, // ISO 286-2, 25 g6: -7 to -20 µm, from memory
		{"screw", 10, 9.732, 9.968, 0, false},  // ISO 965-2, M10 6g, from memory
	} {
		m := f.Of(c.id)
		if !m.Determined || m.Mating != nil || m.Decided != c.decided {
			t.Errorf("%s: %+v", c.id, m)
		}
		closeTo(t, c.id, m.Target, c.target, 1e-12)
		closeTo(t, c.id+" low", m.Low, c.low, 1e-9)
		closeTo(t, c.id+" high", m.High, c.high, 1e-9)
		closeTo(t, c.id+" u", m.U, c.u, 1e-12)
	}
	if says := unit.Join(f.Of("bore").Advice, " ").Shown(unit.View{}); !strings.Contains(says, "probably 20.05 mm (80 %)") {
		t.Errorf("of the bore it says %q", says)
	}
	for _, l := range f.Of("screw").Thread.Limits {
		if l.Class != "6g" {
			t.Errorf("limits of class %s", l.Class)
		}
	}
}

// TestNotDetermined: no number, and the reading that would give one.
func TestNotDetermined(t *testing.T) {
	job := jobOf([]trade.Size{{ID: "bore", Kind: trade.Width}}, slide(0.01, 0.04, 0.01))
	job.Part.Stacks = []trade.Stack{{ID: "gap", That: formula("bore - part.slide"), Wanted: between(0, 0.05)}}
	f := fitted(t, job, nil)
	m := f.Of("slide")
	if m.Determined || m.Mating != nil || !math.IsNaN(m.Target) || m.Read == nil || m.Read.Advice.For != "bore" {
		t.Errorf("%+v", m)
	}
	if c := f.Stacks[0]; c.Determined || !math.IsNaN(c.Value) || !math.IsNaN(c.Within) {
		t.Errorf("%+v", c)
	}
}

// TestSuspectReading: a part is not made to a reading that contradicts the
// others without a word.
func TestSuspectReading(t *testing.T) {
	job := formed(slide(0.01, 0.09, 0.005))
	job.Sizes[0].Form = unit.Quantity{}
	job.Readings = append(job.Readings, job.Readings[0])
	job.Readings[2].ID = "c"
	warned := func() bool {
		return slices.ContainsFunc(fitted(t, job, nil).Warnings, func(w adjust.Warning) bool { return strings.Contains(w.Text.Shown(unit.View{}), "suspect") })
	}
	if !warned() {
		t.Error("20.00, 20.06 and 20.00 pass without a word")
	}
	job.Readings[1].Saw[0].X = mm(20.001)
	if warned() {
		t.Error("sound readings are warned of")
	}
}

// TestFaults says what is wrong and where.
func TestFaults(t *testing.T) {
	at := func(s trade.NewSize) trade.NewSize { s.Pos = trade.Pos{Line: 7, Column: 3}; return s }
	bore := []trade.Size{known("bore", 20, 0.005)}
	for _, c := range []struct {
		name string
		job  *trade.Job
		says []string
	}{
		{"no part", &trade.Job{Units: unit.Millimetre}, []string{"add a `part:`"}},
		{"no clearance", jobOf(bore, at(trade.NewSize{ID: "slide", Kind: trade.Diameter, From: trade.GoesIn, Of: formula("bore")})), []string{"7:3", "add clearance"}},
		{"an angle", jobOf(bore, at(trade.NewSize{ID: "slide", Kind: trade.Angle, From: trade.GoesIn, Of: formula("bore")})), []string{"7:3", "only a length goes in"}},
		{"no such fit", jobOf(bore, at(trade.NewSize{ID: "slide", Kind: trade.Diameter, From: trade.GoesIn, Of: formula("bore"), Fit: "snug"})), []string{"7:3", "snug"}},
		{"no such thread", jobOf(bore, at(trade.NewSize{ID: "screw", From: trade.IsThread, Thread: "7/16 BSV"})), []string{"7:3", "did you mean 7/16 BSW"}},
		{"no such class", jobOf(bore, at(trade.NewSize{ID: "screw", From: trade.IsThread, Thread: "7/16 BSW", Class: "6g"})), []string{"7:3", "medium"}},
		{"no such grade", jobOf(bore, at(trade.NewSize{ID: "slide", Kind: trade.Diameter, From: trade.Is, Of: formula("0.5 mm"), Tolerance: "a16"})), []string{"7:3", "slide"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := adjust.Adjust(read(c.job))
			if err != nil {
				t.Fatal(err)
			}
			_, err = Fit(t.Context(), r, nil)
			var faults trade.Faults
			if !errors.As(err, &faults) {
				t.Fatalf("error %v", err)
			}
			for _, want := range c.says {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("it says %q, not %q", err, want)
				}
			}
		})
	}
}

// TestAnySuspectIsTold: one thing that is suspect is enough, whatever it is.
func TestAnySuspectIsTold(t *testing.T) {
	bad := adjust.Test{Suspect: true}
	for name, r := range map[string]*adjust.Result{
		"a reading":     {Readings: []adjust.Value{{}, {Test: bad}}, Instruments: []adjust.Zero{{}}, Pieces: []adjust.Piece{{}}},
		"an instrument": {Readings: []adjust.Value{{}}, Instruments: []adjust.Zero{{Test: bad}}, Relations: []adjust.Tie{{}}},
		"a piece":       {Readings: []adjust.Value{{}}, Pieces: []adjust.Piece{{}, {Test: bad}}},
		"a relation":    {Pieces: []adjust.Piece{{}}, Relations: []adjust.Tie{{Test: bad}}},
		"a known size":  {Sizes: []adjust.Size{{}, {Known: &bad}}},
	} {
		if !suspects(r) {
			t.Errorf("%s is suspect and is not told", name)
		}
	}
	sound := &adjust.Result{
		Readings: []adjust.Value{{}}, Instruments: []adjust.Zero{{}}, Pieces: []adjust.Piece{{}}, Relations: []adjust.Tie{{}},
		Sizes: []adjust.Size{{Known: &adjust.Test{}}, {}},
	}
	if suspects(sound) {
		t.Error("what is sound is called suspect")
	}
}
