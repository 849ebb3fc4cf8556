package fit

import (
	"fmt"
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/testdata/certified"
)

// plain is a size of the part with a value of its own, ± as closely.
func plain(id string, value, within float64) trade.NewSize {
	return trade.NewSize{ID: id, Kind: trade.Length, From: trade.Is, Of: formula(fmt.Sprintf("%.9f mm", value)), Within: mm(within)}
}

func stacked(job *trade.Job, that string, wanted unit.Range) *trade.Job {
	job.Part.Stacks = []trade.Stack{{ID: "sum", That: formula(that), Wanted: wanted}}
	return job
}

func TestRootSumSquare(t *testing.T) {
	e := certified.Example(t, "fit-rss-stack")
	var in struct{ Tol []float64 }
	e.Read(t, &in)
	job := jobOf(nil)
	for i, half := range in.Tol {
		job.Part.Sizes = append(job.Part.Sizes, plain(fmt.Sprintf("l%d", i), 10, half))
	}
	c := fitted(t, stacked(job, "part.l0 + part.l1 + part.l2 + part.l3", unit.Range{}), nil).Stacks[0]
	e.Figures(t, map[string]float64{"worst case": (c.WorstHigh - c.WorstLow) / 2, "RSS": c.RSS})
	if c.Links[0].Name != "part.l3" || !math.IsNaN(c.Within) {
		t.Errorf("first link %s, within %g", c.Links[0].Name, c.Within)
	}
	closeTo(t, "part of the largest, by hand", c.Links[0].Part, 0.04/0.055, 1e-12)
}

// TestGap is in inches, as it was published.
func TestGap(t *testing.T) {
	const inch = unit.MillimetresPerInch
	e := certified.Example(t, "fit-x-gap-stack")
	gap := func(d float64) Chain {
		job := jobOf(nil, plain("a", 1.5*inch, 0.001*inch), plain("b", 2*inch, 0.003*inch), plain("c", 3*inch, 0.004*inch), plain("d", d*inch, 0.010*inch))
		return fitted(t, stacked(job, "part.d - part.a - part.b - part.c", unit.Range{}), nil).Stacks[0]
	}
	c := gap(6.520)
	e.Figures(t, map[string]float64{
		"w": c.Value / inch, "worst-case tolerance": (c.WorstHigh - c.Value) / inch, "RSS tolerance (computed here)": c.RSS / inch,
		"d for w_min 0.010": 6.520 + 0.010 - c.WorstLow/inch,
	})
	closeTo(t, "least gap with that d", gap(6.528).WorstLow/inch, 0.010, 1e-9)
}

// TestMinimumClearance takes the limits of a hole and of a pin as two sizes of
// a part.
func TestMinimumClearance(t *testing.T) {
	job := jobOf(nil, plain("hole", 25.030, 0.010), plain("pin", 24.9985, 0.0065))
	c := fitted(t, stacked(job, "part.hole - part.pin", unit.Range{}), nil).Stacks[0]
	certified.Example(t, "fit-x-min-clearance").Compare(t, "min clearance", c.WorstLow)
}

func TestDeviationsAdd(t *testing.T) {
	job := jobOf([]trade.Size{known("a", 10, 0.003), known("b", 20, 0.004)})
	c := fitted(t, stacked(job, "a + b", unit.Range{}), nil).Stacks[0]
	certified.Example(t, "fit-x-sd-sum").Compare(t, "sd", 1000*c.U)
	closeTo(t, "95 % interval", c.High-c.Low, 2*1.96*0.005, 2e-4)
}

// TestChainKeepsWhatLinksHaveInCommon: the zero of one caliper drops out of a
// difference of two walls, by hand.
func TestChainKeepsWhatLinksHaveInCommon(t *testing.T) {
	g := groove{zero: 0.05, repeat: 0.03, values: 2, size: plain("shoe", 19.9, 0.02)}
	job := stacked(g.job(constant(60, 2), constant(40, 2)), "outer - inner - part.shoe", between(0, 0.2))
	c := fitted(t, job, nil).Stacks[0]
	u := math.Hypot(g.deviation(), 0.02/math.Sqrt(3))
	closeTo(t, "u", c.U, u, 1e-12)
	s := spread{g.deviation(), 0.02}
	within := s.below(0.1) - s.below(-0.1)
	closeTo(t, "chance within, by the closed form", c.Within, within, bound99*math.Sqrt(within*(1-within)/trials))
	closeTo(t, "low", c.Low, 0.1+s.at(0.025), 0.001)
	closeTo(t, "sensitivity", c.Links[2].Sensitivity, -1, 1e-12)
	// Only what outer has on its own is halved: its zero too, as nothing tells them apart.
	if c.Links[0].Name != "outer" || c.HalvedU >= math.Hypot(0.05, 0.03) {
		t.Errorf("%s halved gives u = %g", c.Links[0].Name, c.HalvedU)
	}
}

// TestChainOfAKnownSum: neither wall is determined, but what they make together.
func TestChainOfAKnownSum(t *testing.T) {
	g := groove{zero: 0, repeat: 0.01, values: 1, size: plain("shoe", 19.9, 0.02)}
	job := g.job(constant(60, 1), constant(40, 1))
	job.Readings = []trade.Reading{{ID: "both", By: trade.FormulaMethod, That: formula("outer - inner"), With: "cal", Saw: []trade.Seen{{X: mm(20)}}}}
	job.Sizes[0].Guess, job.Sizes[1].Guess = mm(60), mm(40)
	c := fitted(t, stacked(job, "outer - inner - part.shoe", unit.Range{}), nil).Stacks[0]
	closeTo(t, "value", c.Value, 0.1, 1e-9)
	closeTo(t, "u", c.U, math.Hypot(0.01, 0.02/math.Sqrt(3)), 1e-12)
	if len(c.Links) != 2 || c.Links[1].Name != "outer, inner" {
		t.Errorf("links %+v", c.Links)
	}
	closeTo(t, "u with the making halved, by hand", c.HalvedU, math.Hypot(0.01, 0.01/math.Sqrt(3)), 1e-12)
}

// TestChainIsCurved: a product of two sizes has the sensitivities of its exact
// gradient, by hand.
func TestChainIsCurved(t *testing.T) {
	job := jobOf([]trade.Size{known("a", 10, 0.003)}, plain("b", 4, 0.01))
	c := fitted(t, stacked(job, "sqrt(a * part.b)", unit.Range{}), nil).Stacks[0]
	closeTo(t, "value", c.Value, math.Sqrt(40), 1e-12)
	for _, l := range c.Links {
		want := map[string]float64{"a": 4 / (2 * math.Sqrt(40)), "part.b": 10 / (2 * math.Sqrt(40))}[l.Name]
		closeTo(t, "by "+l.Name, l.Sensitivity, want, 1e-12)
	}
}

// TestSameSeedSameChain and another seed another one.
func TestSameSeedSameChain(t *testing.T) {
	r := adjusted(t, stacked(jobOf([]trade.Size{known("a", 10, 0.003)}), "a", between(9.998, 10.004)))
	within := func(seed uint64) float64 {
		f, err := Seeded(t.Context(), r, nil, seed)
		if err != nil {
			t.Fatal(err)
		}
		return f.Stacks[0].Within
	}
	if within(1) != within(1) || within(1) == within(2) {
		t.Errorf("%g, %g; with another seed %g", within(1), within(1), within(2))
	}
}

// TestSizesAlone: without the chains the sizes are the same.
func TestSizesAlone(t *testing.T) {
	bore := trade.Size{ID: "bore", Kind: trade.Diameter, Known: trade.Prior{Value: mm(20)}}
	job := stacked(jobOf([]trade.Size{bore}, slide(0.03, 0.07, 0.02), plain("a", 10, 0.1)), "part.slide + part.a", unit.Range{})
	r, err := adjust.Adjust(read(job))
	if err != nil {
		t.Fatal(err)
	}
	alone, err := Sizes(r, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range fitted(t, job, nil).Make {
		if got := alone[i]; got.Size.ID != want.Size.ID || got.Target != want.Target || got.Low != want.Low || got.High != want.High {
			t.Errorf("%s: %g, %g to %g; with the chains %g, %g to %g", got.Size.ID, got.Target, got.Low, got.High, want.Target, want.Low, want.High)
		}
	}
}
