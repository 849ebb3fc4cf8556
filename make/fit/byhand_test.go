package fit

import (
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// The figures of this file are worked out by hand: mates are exact, or as good as
// that, so that only the rectangle of what the shop holds scatters, and chances are
// parts of its width.

// oval is a bore that is further from its mean one way than the other: read at
// three places as 20.00, 20.01 and 20.05 mm, 20.02 on average.
func oval(size trade.NewSize) *trade.Job {
	job := formed(size)
	job.Instruments[0].Zero, job.Instruments[0].Repeat = unit.Quantity{}, mm(1e-6)
	third := job.Readings[1]
	third.ID = "c"
	job.Readings = append(job.Readings, third)
	for i, x := range []float64{20.00, 20.01, 20.05} {
		job.Readings[i].Saw = []trade.Seen{{X: mm(x)}}
	}
	return job
}

// TestMateOfOval: what goes in binds at 20.00 and is slackest at 20.05, what goes
// over the other way round.
func TestMateOfOval(t *testing.T) {
	r := adjusted(t, oval(slide(0, 0.01, 0.01)))
	s := sourceOf(r, r.Job.Part.Sizes[0].Of.Expr())
	for _, c := range []struct {
		over                        bool
		tight, slack, lacks, excess float64
	}{
		{false, 20, 20.05, 0.02, 0.03},
		{true, 20.05, 20, 0.03, 0.02},
	} {
		m := mateOf(r, s, c.over)
		for what, pair := range map[string][2]float64{
			"found": {m.found.value, 20.02}, "small": {m.small, 20}, "large": {m.large, 20.05},
			"tight": {m.tight.value, c.tight}, "slack": {m.slack.value, c.slack}, "lacks": {m.lacks, c.lacks}, "excess": {m.excess, c.excess},
		} {
			closeTo(t, what, pair[0], pair[1], 5e-6)
		}
	}
}

// TestOval: 1 % of the width of ±0.01 mm is 0.0002 mm, so that the promise of 99 %
// is kept 0.0098 mm from the place that counts; 2.5 % are 0.0095 mm from it.
func TestOval(t *testing.T) {
	for _, c := range []struct {
		name        string
		least, most float64
		over        bool
		size, mean  float64
		low, high   float64 // 95 % of the clearances, from the tightest and the slackest place
		assembles   float64
		rattles     float64
	}{
		{"with room, between the places 20.00 and 20.05", 0.02, 0.10, false, 19.965, 0.055, 0.0255, 0.0945, 1, 0},
		{"with room, over both", 0.02, 0.10, true, 20.085, 0.065, 0.0255, 0.0945, 1, 0},
		{"the promise at 20.00", 0, 0.01, false, 19.9902, 0.0298, 0.0003, 0.0693, 0.99, 1},
		{"the promise over 20.05", 0, 0.01, true, 20.0598, 0.0398, 0.0003, 0.0693, 0.99, 1},
		{"a grip at 20.05", -0.01, 0, false, 20.0598, -0.0398, -0.0693, -0.0003, 0, 0.01},
		{"a grip over 20.00", -0.01, 0, true, 19.9902, -0.0298, -0.0693, -0.0003, 0, 0.01},
	} {
		a := exactly(c.least, c.most, 0.01)
		if c.over {
			a.mate = &mate{over: true, found: a.found, tight: a.slack, slack: a.tight, lacks: a.excess, excess: a.lacks}
		}
		d := a.clearance()
		m := a.expect(d)
		for what, pair := range map[string][2]float64{
			"size": {a.size(d), c.size}, "mean": {d, c.mean}, "clearance low": {m.ClearanceLow, c.low}, "clearance high": {m.ClearanceHigh, c.high},
			"assembles": {m.Assembles, c.assembles}, "rattles": {m.Rattles, c.rattles},
		} {
			closeTo(t, c.name+": "+what, pair[0], pair[1], 1e-7) // 1.96 is 95.0004 %
		}
	}
}

// exactly returns what is aimed at in the oval bore, known exactly.
func exactly(least, most, holds float64) *aim {
	return &aim{
		mate:     &mate{found: place{value: 20.02}, tight: place{value: 20}, slack: place{value: 20.05}, lacks: 0.02, excess: 0.03},
		interval: interval{least, most}, holds: holds, promised: 0.99,
	}
}

// TestReach: the slackest place has 0.03 mm more clearance than the mean, and 99 %
// of the parts no more than another 0.0098.
func TestReach(t *testing.T) {
	closeTo(t, "reach", exactly(0, 0.01, 0.01).reach(), 0.0298+0.03+0.0098, 1e-12)
}

// TestLeave: 20.0298 mm leave 0.0202 mm at the slackest place, and 1 % of the parts
// over 0.03 mm there; 19.9902 mm is what is wanted in the end. Nothing is left on
// where there is room, of a grip, and of what would be too slack any sooner.
func TestLeave(t *testing.T) {
	a := exactly(0, 0.03, 0.01)
	l := a.leave(a.clearance())
	if l == nil {
		t.Fatal("nothing is left on")
	}
	closeTo(t, "made first", l.First, 20.0298, 1e-12)
	closeTo(t, "left on", l.On, 0.0396, 1e-12)
	for name, sure := range map[string]*aim{
		"with room": exactly(0, 0.2, 0.01), "a grip": exactly(-0.045, -0.005, 0.01), "too tight as it is": exactly(-0.1, 0.06, 0.01),
	} {
		if l := sure.leave(sure.clearance()); l != nil {
			t.Errorf("%s: left on %+v", name, l)
		}
	}
}

// TestGain: of a clearance, by how much of its width it becomes closer; of what may
// not go together, how much more often it does.
func TestGain(t *testing.T) {
	alone := func(least, most, holds float64) *aim {
		a := exactly(least, most, holds)
		a.mate = &mate{found: place{value: 20}, tight: place{value: 20}, slack: place{value: 20}}
		return a
	}
	// The promise asks for 0.98·0.02 mm, then for less than the middle, 0.015.
	closeTo(t, "clearance", alone(0.01, 0.02, 0.02).gain(alone(0.01, 0.02, 0.005)), (0.0196-0.015)/0.01, 1e-12)
	// Of ±0.02 mm a quarter lies under -0.01, of ±0.0125 a tenth.
	closeTo(t, "transition", alone(-0.01, 0.01, 0.02).gain(alone(-0.01, 0.01, 0.0125)), 0.25-0.1, 1e-12)
}

// TestMostOf: b/2 has a variance of 4e-6 mm², 3·a of 9e-6, c of 4e-6. Most part has
// what is neither first nor last, nor known worst.
func TestMostOf(t *testing.T) {
	size := slide(0, 0.05, 0.01)
	size.Of = formula("b / 2 - 3 * a + c")
	r := adjusted(t, jobOf([]trade.Size{known("a", 10, 0.001), known("b", 20, 0.004), known("c", 5, 0.002)}, size))
	b := &bench{r: r}
	if got := b.mostOf(sourceOf(r, r.Job.Part.Sizes[0].Of.Expr())); got != "a" {
		t.Errorf("%q has most part", got)
	}
}

// TestAimOfWhatGoesOver: it lacks what the shaft is larger somewhere, 0.03 mm.
func TestAimOfWhatGoesOver(t *testing.T) {
	size := slide(0, 0.04, 0.015)
	size.From = trade.GoesOver
	r := adjusted(t, oval(size))
	m := fitted(t, oval(size), nil).Of("slide")
	a := (&bench{r: r}).aimOf(m, r, sourceOf(r, r.Job.Part.Sizes[0].Of.Expr()))
	closeTo(t, "lacks", a.lacks, 0.03, 5e-6)
	closeTo(t, "excess", a.excess, 0.02, 5e-6)
	closeTo(t, "holds", a.holds, 0.015, 1e-12)
	if a.interval != (interval{0, 0.04}) || a.promised != 0.99 || !a.over {
		t.Errorf("%+v", a)
	}
}

// TestSteps in millimetres: an inch is 25.4 mm.
func TestSteps(t *testing.T) {
	inch := func(n int64) unit.Quantity {
		q, err := unit.New(n, 100_000, unit.Inch)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	minute, err := unit.New(1, 12, unit.Degree)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name             string
		shows            []unit.Quantity // by the instruments that read it, in turn
		millimetre, inch float64
	}{
		{"none states its steps", []unit.Quantity{{}}, 0.01, 0.0127},
		{"a vernier", []unit.Quantity{mm(0.02)}, 0.02, 0.00254},
		{"finer than is printed", []unit.Quantity{mm(0.0005)}, 0.001, 0.00254},
		{"a thou", []unit.Quantity{inch(100)}, 0.001, 0.0254},
		{"a tenth of a thou", []unit.Quantity{inch(5)}, 0.001, 0.00254},
		{"the finer one comes first", []unit.Quantity{mm(0.005), mm(0.1)}, 0.005, 0.00254},
		{"the finer one comes last", []unit.Quantity{mm(0.1), {}, inch(50)}, 0.001, 0.0127},
		{"degrees are no length", []unit.Quantity{minute}, 0.01, 0.0127},
	} {
		job := &trade.Job{Readings: []trade.Reading{{ID: "other", With: "fine", Of: []trade.Arg{{ID: "shank"}}}, {ID: "bare", Of: []trade.Arg{{ID: "bore"}}}}}
		job.Instruments = []trade.Instrument{{ID: "fine", Resolution: mm(0.002)}}
		for i, q := range c.shows {
			id := string(rune('a' + i))
			job.Instruments = append(job.Instruments, trade.Instrument{ID: id, Resolution: q})
			job.Readings = append(job.Readings, trade.Reading{ID: id, With: id, Of: []trade.Arg{{ID: "bore"}}})
		}
		got := stepsOf(job, []string{"bore"})
		closeTo(t, c.name+": mm", got.millimetre, c.millimetre, 1e-12)
		closeTo(t, c.name+": in", got.inch, c.inch, 1e-12)
	}
}

// TestLimitsArePrinted in steps of 0.01 mm and of 0.0005 in, 0.0127 mm.
func TestLimitsArePrinted(t *testing.T) {
	width := trade.NewSize{Kind: trade.Width}
	classed := trade.NewSize{Kind: trade.Width, Tolerance: "h6"}
	angle := trade.NewSize{Kind: trade.Angle}
	for _, c := range []struct {
		name      string
		size      *trade.NewSize
		in        unit.Unit
		low, high float64
		wantLow   float64
		wantHigh  float64
		ok        bool
	}{
		{"inward", &width, unit.Millimetre, 10.003, 10.024, 10.01, 10.02, true},
		{"on the steps", &width, unit.Millimetre, 10.01, 10.03, 10.01, 10.03, true},
		{"next to a step", &width, unit.Millimetre, 10.01 + 5e-8, 10.03 - 5e-8, 10.02, 10.02, false},
		{"one step only", &width, unit.Millimetre, 10.004, 10.016, 10.01, 10.01, false},
		{"in inches", &width, unit.Inch, 12.69, 12.73, 12.7, 12.7254, true},
		{"a tolerance class", &classed, unit.Millimetre, 9.991, 10, 9.991, 10, true},
		{"an angle", &angle, unit.Millimetre, 0.5012, 0.5034, 0.5012, 0.5034, true},
		{"no limits of its own", &width, unit.Millimetre, 10.003, 10.003, 10.003, 10.003, true},
	} {
		m := Made{Size: c.size, Determined: true, Low: c.low, High: c.high, steps: steps{0.01, 0.0127}}
		low, high, ok := m.Limits(c.in)
		closeTo(t, c.name+": low", low, c.wantLow, 1e-12)
		closeTo(t, c.name+": high", high, c.wantHigh, 1e-12)
		if ok != c.ok {
			t.Errorf("%s: %v", c.name, ok)
		}
	}
	screw := Made{Size: &width, Determined: true, Thread: fitted(t, jobOf(nil, trade.NewSize{ID: "screw", From: trade.IsThread, Thread: "M10", Class: "6g"}), nil).Of("screw").Thread, Low: 9.732, High: 9.968, steps: steps{0.01, 0.01}}
	if low, high, ok := screw.Limits(unit.Millimetre); low != 9.732 || high != 9.968 || !ok {
		t.Errorf("a thread: %g to %g, %v", low, high, ok)
	}
}

// TestPercent: as many nines as there are.
func TestPercent(t *testing.T) {
	for p, want := range map[float64]string{
		0: "0.0 %", 0.0004: "under 0.1 %", 0.001: "0.1 %", 0.004: "0.4 %", 0.1: "10 %", 0.38: "38 %", 0.9: "90 %", 0.92: "92.0 %",
		0.999: "99.9 %", 0.9996: "over 99.9 %", 1: "100.0 %",
	} {
		if got := Percent(p); got != want {
			t.Errorf("%g is %q, want %q", p, got, want)
		}
	}
}

// said returns the advice on a size, one sentence to a line.
func said(m *Made) string { return unit.Join(m.Advice, "\n").Shown(unit.View{}) }

// TestAdviceInFigures takes an exact bore of 20 mm, or one known with u = 0.01 mm.
func TestAdviceInFigures(t *testing.T) {
	for _, c := range []struct {
		name           string
		u, least, most float64
		holds, chance  float64
		says           []string // all of them and nothing else; nothing where there is nothing to say
	}{
		// The mean is 0.001; of ±0.025 a part of 0.02/0.05 lies under -0.004.
		{"too tight for a transition", 0, -0.004, 0.006, 0.025, 0, []string{"In 40 % of cases it will not go together even with force: the interference is then over 0.004 mm"}},
		{"a transition that goes", 0, -0.05, 0.03, 0.01, 0, nil},
		// The promise of 90 % asks for 0.8·0.018 mm, less than the middle; 0.003 of 0.036 lie over 0.03.
		{"slack, just from nothing on", 0, 0, 0.03, 0.018, 0.9, []string{"slacker than 0.030 mm in 8.3 % of cases", "hold it closer than ±0.018 mm, or allow up to 0.029 mm"}},
		{"with room", 0, 0.01, 0.05, 0.01, 0, nil},
		// u/0.01 is between 1/√3 and √3.
		{"what scatters most is the mate", 0.01, 0.01, 0.012, 0.01, 0, []string{"Both cannot be had", "know the mate better than ±0.020 mm"}},
		// The grip asks for a mean of -0.0196; of ±0.02 a part of 0.0036/0.04 lies under -0.036.
		{"a grip that may be too tight", 0, -0.036, 0, 0.02, 0, []string{"It grips in 99.0 % of cases, but in 9.0 % the interference is over the 0.036 mm"}},
		{"a grip with room", 0, -0.06, 0, 0.02, 0, nil},
	} {
		bore := trade.Size{ID: "bore", Kind: trade.Diameter, Known: trade.Prior{Value: mm(20)}}
		if c.u > 0 {
			bore = known("bore", 20, c.u)
		}
		job := jobOf([]trade.Size{bore}, slide(c.least, c.most, c.holds))
		job.Part.Chance = c.chance
		got := said(fitted(t, job, nil).Of("slide"))
		if len(c.says) == 0 && got != "" {
			t.Errorf("%s: it says %q", c.name, got)
		}
		for _, want := range c.says {
			if !strings.Contains(got, want) {
				t.Errorf("%s: it says %q, not %q", c.name, got, want)
			}
		}
	}
}

// copies is a size that is made as the old one of the same name.
func copies(id string, kind trade.SizeKind) trade.NewSize {
	return trade.NewSize{ID: id, Kind: kind, From: trade.Copies, Of: formula(id), Holds: mm(0.02)}
}

// meantAs is what was meant by one size, with this chance.
func meantAs(id string, value, p float64, decided bool) *meant.Result {
	return &meant.Result{Sizes: []meant.Size{{ID: id, Decided: decided, Candidates: []meant.Candidate{{Text: "what was meant", Value: value, P: p}}}}}
}

// TestWhatWasMeantIsSpokenOf where it is probable, nothing was decided, and the
// difference shows.
func TestWhatWasMeantIsSpokenOf(t *testing.T) {
	bore := []trade.Size{known("bore", 20, 0.001)}
	slope := []trade.Size{{ID: "slope", Kind: trade.Angle, Known: trade.Prior{Value: quantity(t, 30, unit.Degree), U: quantity(t, 1, unit.Degree)}}}
	is := copies("bore", trade.Diameter)
	is.From = trade.Is
	for _, c := range []struct {
		name   string
		sizes  []trade.Size
		size   trade.NewSize
		meant  *meant.Result
		spoken bool
	}{
		{"0.001 mm away", bore, copies("bore", trade.Diameter), meantAs("bore", 20.001, 0.8, false), true},
		{"0.0003 mm away", bore, copies("bore", trade.Diameter), meantAs("bore", 20.0003, 0.8, false), false},
		{"0.001 mm away on the other side", bore, copies("bore", trade.Diameter), meantAs("bore", 19.999, 0.8, false), true},
		{"as probable as not", bore, copies("bore", trade.Diameter), meantAs("bore", 20.01, 0.5, false), true},
		{"hardly probable", bore, copies("bore", trade.Diameter), meantAs("bore", 20.01, 0.49, false), false},
		{"decided", bore, copies("bore", trade.Diameter), meantAs("bore", 20.01, 0.8, true), false},
		{"stated, not copied", bore, is, meantAs("bore", 20.01, 0.8, false), false},
		{"an angle", slope, copies("slope", trade.Angle), meantAs("slope", math.Pi/6+0.0001, 0.8, false), true},
	} {
		m := fitted(t, jobOf(c.sizes, c.size), c.meant).Make[0]
		if spoken := strings.Contains(said(&m), "What was meant is probably"); spoken != c.spoken {
			t.Errorf("%s: it says %q", c.name, said(&m))
		}
	}
}

func quantity(t *testing.T, n int64, u unit.Unit) unit.Quantity {
	t.Helper()
	q, err := unit.New(n, 1, u)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// TestWornIsSaid from 1.96 u on, either way.
func TestWornIsSaid(t *testing.T) {
	for value, worn := range map[float64]bool{20.0095: false, 19.9905: false, 20.0105: true, 19.9895: true} {
		m := fitted(t, jobOf([]trade.Size{known("bore", 20, 0.005)}, slide(0.03, 0.09, 0.01)), meantAs("bore", value, 0.9, false)).Of("slide")
		if got := strings.Contains(said(m), "bore was probably meant to be what was meant and is now 20.000 mm"); got != worn {
			t.Errorf("meant %g: it says %q", value, said(m))
		}
	}
}

// TestUsualFigures: an angle that is copied is left to the general tolerance; the
// promise of the part counts where the size has none of its own; the usual ±0.02
// is warned of once.
func TestUsualFigures(t *testing.T) {
	slope := trade.Size{ID: "slope", Kind: trade.Angle, Known: trade.Prior{Value: quantity(t, 30, unit.Degree), U: quantity(t, 1, unit.Degree)}}
	bare, same := slide(0, 0.01, 0.01), slide(0, 0.01, 0.01)
	angle := copies("slope", trade.Angle)
	bare.Holds, same.Holds, angle.Holds = unit.Quantity{}, unit.Quantity{}, unit.Quantity{}
	same.ID, same.Chance = "same", 0.75
	job := jobOf([]trade.Size{{ID: "bore", Kind: trade.Diameter, Known: trade.Prior{Value: mm(20)}}, slope}, bare, same, angle)
	job.Part.Chance = 0.9
	f := fitted(t, job, nil)
	closeTo(t, "promised by the part: 0.8·0.02 mm", f.Of("slide").Mating.Mean, 0.016, 1e-12)
	closeTo(t, "promised by the size: 0.5·0.02 mm", f.Of("same").Mating.Mean, 0.01, 1e-12)
	if m := f.Of("slope"); m.Low != m.Target || m.High != m.Target {
		t.Errorf("the angle is held between %g and %g", m.Low, m.High)
	}
	if len(f.Warnings) != 1 || !strings.Contains(f.Warnings[0].Text.Shown(unit.View{}), "taken as ±0.020 mm") {
		t.Errorf("warnings %v", f.Warnings)
	}
}

// TestJointsAlone: a job with joints and no part makes nothing, and is no fault.
func TestJointsAlone(t *testing.T) {
	job := &trade.Job{Units: unit.Millimetre, Joints: []trade.Joint{{}}}
	if f := fitted(t, job, nil); len(f.Make) != 0 {
		t.Errorf("it makes %d sizes", len(f.Make))
	}
}

// TestSettled: the reading is sought for the size that is not known, and where
// every size is known the formula is to blame.
func TestSettled(t *testing.T) {
	size := slide(0.01, 0.04, 0.01)
	size.Of = formula("shank + bore")
	f := fitted(t, jobOf([]trade.Size{known("shank", 10, 0.01), {ID: "bore", Kind: trade.Width}}, size), nil)
	if read := f.Of("slide").Read; read == nil || read.Advice.For != "bore" || said(f.Of("slide")) != "" {
		t.Errorf("to be read: %+v; it says %q", read, said(f.Of("slide")))
	}
	if read := f.Of("slide").Read; read.Candidate != nil {
		t.Errorf("without any kit it is to be read with %+v", read.Candidate)
	}
	kitted := jobOf([]trade.Size{known("shank", 10, 0.01), {ID: "bore", Kind: trade.Width}}, size)
	kitted.Instruments = []trade.Instrument{{ID: "cal", Kind: trade.Caliper, Zero: mm(0.01), Repeat: mm(0.01)}}
	if read := fitted(t, kitted, nil).Of("slide").Read; read == nil || read.Candidate == nil || read.Candidate.Reading.With != "cal" {
		t.Errorf("with a caliper: %+v", read)
	}
	size.Of = formula("sqrt(shank ^ 2 - bore ^ 2)")
	f = fitted(t, jobOf([]trade.Size{known("shank", 10, 0.01), known("bore", 20, 0.01)}, size), nil)
	if m := f.Of("slide"); m.Determined || m.Read != nil || !strings.Contains(said(m), "no value at the sizes found") {
		t.Errorf("%+v: it says %q", m, said(m))
	}
}

// TestChainByHand: a + 2·b has u² = 0.003² + 0.008², and with b halved
// 0.003² + 0.004².
func TestChainByHand(t *testing.T) {
	job := stacked(jobOf([]trade.Size{known("a", 10, 0.003), known("b", 20, 0.004)}), "a + 2 * b", unit.Range{})
	c := fitted(t, job, nil).Stacks[0]
	closeTo(t, "value", c.Value, 50, 1e-12)
	closeTo(t, "u", c.U, math.Sqrt(73e-6), 1e-12)
	closeTo(t, "u with b halved", c.HalvedU, 0.005, 1e-12)
	closeTo(t, "half range of b", c.Links[0].Half, 1.959964*0.004, 1e-9)
	closeTo(t, "part of b", c.Links[0].Part, 64.0/73, 1e-12)
	closeTo(t, "part of a", c.Links[1].Part, 9.0/73, 1e-12)
	closeTo(t, "worst, low", c.WorstLow, 50-1.959964*0.011, 1e-8)
	closeTo(t, "worst, high", c.WorstHigh, 50+1.959964*0.011, 1e-8)
}

// TestKnownSumByHand: the sum of both walls, u = 0.02, counts for more than the
// ±0.02 of the shoe, and is halved.
func TestKnownSumByHand(t *testing.T) {
	g := groove{repeat: 0.02, values: 1, size: plain("shoe", 19.9, 0.02)}
	job := g.job(constant(60, 1), constant(40, 1))
	job.Readings = []trade.Reading{{ID: "both", By: trade.FormulaMethod, That: formula("outer - inner"), With: "cal", Saw: []trade.Seen{{X: mm(20)}}}}
	job.Sizes[0].Guess, job.Sizes[1].Guess = mm(60), mm(40)
	c := fitted(t, stacked(job, "outer - inner - part.shoe", between(0, 0.14)), nil).Stacks[0]
	closeTo(t, "u", c.U, math.Sqrt(4e-4+4e-4/3), 1e-12)
	closeTo(t, "u with the sum halved", c.HalvedU, math.Sqrt(1e-4+4e-4/3), 1e-12)
	if c.Links[0].Name != "outer, inner" {
		t.Fatalf("links %+v", c.Links)
	}
	closeTo(t, "part of the sum", c.Links[0].Part, 0.75, 1e-12)
	closeTo(t, "half range of the sum", c.Links[0].Half, 1.959964*0.02, 1e-8)
	closeTo(t, "part of the shoe", c.Links[1].Part, 0.25, 1e-12)
	closeTo(t, "half range of the shoe", c.Links[1].Half, 0.02, 1e-12)
	if c.Halved <= c.Within+0.02 {
		t.Errorf("within %g, with the sum halved %g", c.Within, c.Halved)
	}
}

// TestChainWithoutLinks, or without a value, has no figures, and is no mishap.
func TestChainWithoutLinks(t *testing.T) {
	c := fitted(t, stacked(jobOf(nil), "20 mm", unit.Range{}), nil).Stacks[0]
	closeTo(t, "value", c.Value, 20, 1e-12)
	if !math.IsNaN(c.HalvedU) {
		t.Errorf("nothing halved has u = %g", c.HalvedU)
	}
	c = fitted(t, stacked(jobOf([]trade.Size{known("a", 10, 0.003)}), "sqrt(a * (a - 20 mm))", unit.Range{}), nil).Stacks[0]
	if c.Determined || !math.IsNaN(c.Value) {
		t.Errorf("the root of -100 is %g", c.Value)
	}
}

// TestUsualSeed: the simulation is that of seed 1 where nobody states one.
func TestUsualSeed(t *testing.T) {
	r := adjusted(t, stacked(jobOf([]trade.Size{known("a", 10, 0.003)}), "a", between(9.998, 10.004)))
	usual, err := Fit(t.Context(), r, nil)
	if err != nil {
		t.Fatal(err)
	}
	first, err := Seeded(t.Context(), r, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	if usual.Stacks[0].Within != first.Stacks[0].Within {
		t.Errorf("%g, with seed 1 %g", usual.Stacks[0].Within, first.Stacks[0].Within)
	}
}

// TestSpreadInFigures: Φ(-1) = 0.158655253931457 and φ(1) = 0.241970724519143
// (tables, from memory). To second order a narrow rectangle adds z·φ(z)·(t/u)²/6 at
// z = -1. The standard deviation of ±0.004·√3 is 0.004.
func TestSpreadInFigures(t *testing.T) {
	closeTo(t, "narrow", spread{0.01, 9e-7}.below(-0.01), 0.158655253931457+0.241970724519143*81e-10/6, 1e-14)
	closeTo(t, "deviation", spread{0.003, 0.004 * math.Sqrt(3)}.deviation(), 0.005, 1e-15)
}

// TestSurfaceOf: what is stated counts before where the size goes.
func TestSurfaceOf(t *testing.T) {
	for _, c := range []struct {
		stated trade.Surface
		from   trade.Origin
		want   trade.Surface
	}{
		{"", trade.GoesIn, trade.Outside},
		{"", trade.GoesOver, trade.Inside},
		{"", trade.Copies, trade.NoSurface},
		{trade.Inside, trade.GoesIn, trade.Inside},
		{trade.Outside, trade.GoesOver, trade.Outside},
	} {
		if got := surfaceOf(&trade.NewSize{Surface: c.stated, From: c.from}); got != c.want {
			t.Errorf("%q, %v: %q, want %q", c.stated, c.from, got, c.want)
		}
	}
}

// TestFitOnARadius: 20 H7/g6 has 0.007 to 0.041 mm (ISO 286-2, from memory), half
// of it on each side.
func TestFitOnARadius(t *testing.T) {
	size := trade.NewSize{ID: "slide", Kind: trade.Radius, From: trade.GoesIn, Of: formula("bore"), Fit: "H7/g6", Holds: mm(0.005)}
	w := fitted(t, jobOf([]trade.Size{{ID: "bore", Kind: trade.Radius, Known: trade.Prior{Value: mm(10)}}}, size), nil).Of("slide").Mating
	closeTo(t, "least", w.Least, 0.0035, 1e-12)
	closeTo(t, "most", w.Most, 0.0205, 1e-12)
}

// TestFinite: neither a missing number nor one beyond all bounds can be worked to.
func TestFinite(t *testing.T) {
	for x, want := range map[float64]bool{1: true, math.Inf(1): false, math.Inf(-1): false} {
		if finite(x) != want {
			t.Errorf("%g: %v", x, !want)
		}
	}
	if finite(math.NaN()) {
		t.Error("no number is finite")
	}
}

// TestThreadLimits: of each side that may be meant, one class, or the one stated.
func TestThreadLimits(t *testing.T) {
	for _, c := range []struct {
		name    string
		kind    trade.PartKind
		class   string
		surface trade.Surface
		classes []string // of the limits that are left, those of all classes apart
		inside  []bool   // the sides that are left
	}{
		{"either", trade.TurnedPart, "", "", []string{"2A", "2B"}, []bool{false, true}},
		{"a nut by its part", trade.NutPart, "", "", []string{"2B"}, []bool{true}},
		{"a screw as stated", trade.TurnedPart, "", trade.Outside, []string{"2A"}, []bool{false}},
		{"a screw stated for a nut", trade.NutPart, "", trade.Outside, []string{"2A"}, []bool{false}},
		{"of its class", trade.TurnedPart, "2A", trade.Outside, []string{"2A"}, []bool{false}},
	} {
		size := trade.NewSize{ID: "screw", From: trade.IsThread, Thread: "1/2-13 UNC", Class: c.class, Surface: c.surface}
		job := jobOf(nil, size)
		job.Part.Kind = c.kind
		var classes []string
		var sides []bool
		for _, l := range fitted(t, job, nil).Of("screw").Thread.Limits {
			if l.Class != "all" && !slices.Contains(classes, l.Class) {
				classes = append(classes, l.Class)
			}
			if !slices.Contains(sides, l.Inside) {
				sides = append(sides, l.Inside)
			}
		}
		slices.Sort(classes)
		if !slices.Equal(classes, c.classes) || len(sides) != len(c.inside) || !slices.Contains(sides, c.inside[0]) {
			t.Errorf("%s: classes %v, inside %v", c.name, classes, sides)
		}
	}
}
