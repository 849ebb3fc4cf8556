package fit

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// anyAim draws what a clearance is to be.
func anyAim(t *rapid.T) *aim {
	least := rapid.Float64Range(-0.1, 0.2).Draw(t, "least")
	place := place{20, rapid.Float64Range(0.0001, 0.05).Draw(t, "u")}
	return &aim{
		mate:     &mate{found: place, tight: place, slack: place},
		interval: interval{least, least + rapid.Float64Range(0.001, 0.2).Draw(t, "width")},
		holds:    rapid.Float64Range(0.001, 0.05).Draw(t, "holds"),
		promised: rapid.Float64Range(0.5, 0.9999).Draw(t, "promised"),
	}
}

// TestLessKnownNeverCloser: a mate that is known less well is never given less
// clearance, and an interference never less grip.
func TestLessKnownNeverCloser(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAim(t)
		worse := *a
		wide := *a.mate
		wide.tight.u *= rapid.Float64Range(1, 3).Draw(t, "times")
		wide.found.u, wide.slack.u = wide.tight.u, wide.tight.u
		worse.mate = &wide
		d, more := a.clearance(), worse.clearance()
		if a.most <= 0 && more > d+1e-12 || a.most > 0 && more < d-1e-12 {
			t.Fatalf("clearance %g, known less well %g", d, more)
		}
	})
}

// TestPromiseIsKept wherever it is a matter of clearance or of grip, and chances
// are chances.
func TestPromiseIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAim(t)
		m := a.expect(a.clearance())
		if transition := a.least < 0 && a.most > 0; !transition && !m.Kept {
			t.Fatalf("promised %g: %+v", a.promised, m)
		}
		for _, p := range []float64{m.Assembles, m.Binds, m.Rattles} {
			if !(0 <= p && p <= 1) {
				t.Fatalf("a chance is %g", p)
			}
		}
		if l := a.leave(a.clearance()); l != nil {
			first := 20 - l.First
			if l.On <= 0 || math.Abs(a.slackest().below(a.most-first)-0.99) > 1e-9 {
				t.Fatalf("left on %+v", l)
			}
		}
	})
}

// TestOverIsTheMirrorOfIn: what goes over is as much larger as what goes in is
// smaller, with the same chances.
func TestOverIsTheMirrorOfIn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyAim(t)
		over := *in
		mirrored := *in.mate
		mirrored.over = true
		over.mate = &mirrored
		d := in.clearance()
		if over.clearance() != d || math.Abs(in.size(d)+over.size(d)-40) > 1e-12 {
			t.Fatalf("in %g, over %g", in.size(d), over.size(over.clearance()))
		}
		if a, b := in.expect(d), over.expect(d); *a != *b {
			t.Fatalf("%+v and %+v", a, b)
		}
	})
}

// TestSameInOtherWords: the same job in inches, or with its readings the other
// way round, gives the same sizes to make.
func TestSameInOtherWords(t *testing.T) {
	g := groove{zero: 0.05, repeat: 0.03, values: 3, size: trade.NewSize{
		ID: "shoe", Kind: trade.Width, From: trade.GoesIn, Of: formula("(outer - inner)"), Clearance: between(0, 0.04), Holds: mm(0.0254),
	}}
	outer, inner := []float64{60.01, 59.98, 60.03}, []float64{40.02, 40.00, 39.99}
	want := fitted(t, g.job(outer, inner), nil).Of("shoe")

	slices.Reverse(outer)
	reversed := g.job(outer, inner)
	slices.Reverse(reversed.Readings)
	inches := g.job(outer, inner)
	inches.Units = unit.Inch
	g.size.Holds = thou(t, 1)
	inchPart := g.job(outer, inner)
	inchPart.Units = unit.Inch
	for name, job := range map[string]*trade.Job{"reversed": reversed, "in inches": inches, "held to a thou": inchPart} {
		got := fitted(t, job, nil).Of("shoe")
		for what, pair := range map[string][2]float64{
			"target": {got.Target, want.Target}, "low": {got.Low, want.Low}, "assembles": {got.Mating.Assembles, want.Mating.Assembles},
			"mean": {got.Mating.Mean, want.Mating.Mean}, "rattles": {got.Mating.Rattles, want.Mating.Rattles},
		} {
			closeTo(t, name+": "+what, pair[0], pair[1], 1e-9)
		}
	}
}

func thou(t *testing.T, n int64) unit.Quantity {
	t.Helper()
	q, err := unit.New(n, 1000, unit.Inch)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// TestPrintedLimitsLieWithin the limits, on steps that an instrument shows.
func TestPrintedLimitsLieWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Made{Size: &trade.NewSize{Kind: trade.Width}, Determined: true, Target: rapid.Float64Range(0.1, 500).Draw(t, "target"), steps: steps{usualStep, usualInchStep}}
		m.within(rapid.Float64Range(0.0001, 0.5).Draw(t, "holds"))
		for _, in := range []unit.Unit{unit.Millimetre, unit.Inch} {
			low, high, ok := m.Limits(in)
			if !ok {
				continue
			}
			if low < m.Low-1e-7 || high > m.High+1e-7 {
				t.Fatalf("printed %g to %g, worked out %g to %g", low, high, m.Low, m.High)
			}
			if in == unit.Millimetre && math.Abs(100*low-math.Round(100*low)) > 1e-6 {
				t.Fatalf("%g mm is on no step", low)
			}
		}
	})
}
