package series

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/testdata/certified"
)

// row returns the thread of the tables with this designation.
func row(t *testing.T, designation string) facts.Thread {
	t.Helper()
	for _, r := range facts.Threads() {
		if r.Designation == designation {
			return r
		}
	}
	t.Fatalf("no thread %s", designation)
	return facts.Thread{}
}

// oldFull is 100 % of the American tapping charts.
func oldFull(t *testing.T) float64 {
	t.Helper()
	for _, rule := range facts.TappingHoles() {
		if strings.Contains(rule.Form, "old full thread") {
			return rule.Coefficient
		}
	}
	t.Fatal("no rule for the old full thread")
	return 0
}

func TestPublishedTappingPercentages(t *testing.T) {
	e := certified.Example(t, "m-tap-drill-percent")
	for _, c := range []struct {
		name, thread string
		hole         float64 // in
	}{
		{"3-3 1/2, drill 2 23/32", "", 2 + 23./32},
		{"2 3/4-4, drill 2 1/2", "2 3/4-4 UNC", 2.5},
		{"4-3, drill 3 11/16", "", 3 + 11./16},
		{"1/4-20, No. 7 (0.201)", "1/4-20 UNC", 0.201},
	} {
		major, pitch := 3.0*inch, inch/3.5 // the old 3 in size, which UNC has otherwise
		switch {
		case c.thread != "":
			r := row(t, c.thread)
			major, pitch = r.Major, r.Pitch
		case strings.HasPrefix(c.name, "4-3"):
			major, pitch = 4*inch, inch/3
		}
		e.Compare(t, c.name, engagement(major, pitch, oldFull(t), c.hole*inch))
	}
}

// TestTappingDrillOfTheTrade: No. 7 for 1/4-20 and 8.5 mm for M10 are what every
// chart has for 75 % or so (common practice, no source).
func TestTappingDrillOfTheTrade(t *testing.T) {
	for thread, drill := range map[string]string{"1/4-20 UNC": "#7", "M10": "8.5", "M6": "5"} {
		found := false
		for _, hole := range tappingDrills(row(t, thread)) {
			found = found || hole.Percent == 75 && strings.Contains(hole.Of, "old full thread") && hole.Drill != nil && hole.Drill.Designation == drill
		}
		if !found {
			t.Errorf("%s is not tapped with %s", thread, drill)
		}
	}
}

func TestPublishedWires(t *testing.T) {
	certified.Example(t, "d-3wire-best-8tpi").Compare(t, "w", measuringWires(row(t, "1-8 UNC")).Best/inch)
	certified.Example(t, "d-3wire-7/16-14").Compare(t, "best wire", measuringWires(row(t, "7/16-14 UNC")).Best/inch)
	acme := measuringWires(row(t, "1 1/4-5 Acme"))
	e := certified.Example(t, "d-3wire-acme-best-5tpi")
	e.Compare(t, "best", acme.Best/inch)
	// The table's largest Acme wire is 0.00002 P above the handbook's; it stands
	// as it was taken over.
	e.Compare(t, "max", acme.Largest/inch-0.00002/5)
	e.Compare(t, "min", acme.Smallest/inch)
	// What the reading over the best wire is made of: E + k·w - c·P.
	constants := certified.Example(t, "d-3wire-constants-29")
	k, c := constants.Figure(t, "k").Number(t), constants.Figure(t, "c").Number(t)
	thread := row(t, "1 1/4-5 Acme")
	if want := basicSizes(thread).Effective + k*acme.Best - c*thread.Pitch; math.Abs(acme.Over-want) > 0.5e-4*acme.Best {
		t.Errorf("over wires %.5f mm, by the published constants %.5f mm", acme.Over, want)
	}
	// The trap: 3.16568 w and 0.96049 P for Whitworth's 55°, not 3 w.
	g := row(t, "G 1") // 11 tpi
	w := measuringWires(g)
	if want := basicSizes(g).Effective + 3.16568*w.Best - 0.96049*g.Pitch; math.Abs(w.Over-want) > 2e-5 {
		t.Errorf("over wires %.5f mm, by the published constants %.5f mm", w.Over, want)
	}
}

// TestHandbookTableOverWires recomputes the rows of the handbook's table for the
// American form that are threads of the series: M = d - 1.5155/n + 3w.
func TestHandbookTableOverWires(t *testing.T) {
	tried := 0
	for _, line := range certified.Table(t, "examples-data/three_wire_60deg_mh31.csv") {
		for _, r := range facts.Threads() {
			if r.Designation != line[0]+"-"+line[1]+" UNC" && r.Designation != line[0]+"-"+line[1]+" UNF" {
				continue
			}
			tried++
			wire, want := certified.Number(t, line[2]), certified.Number(t, line[4])
			w := measuringWires(r)
			over := w.Over/inch + 3*(wire-w.Best/inch)
			if math.Abs(over-want) > 0.0001 {
				t.Errorf("%s: %.5f in over wires of %g in, handbook %.4f in", r.Designation, over, wire, want)
			}
		}
	}
	if tried < 5 {
		t.Errorf("only %d rows of the handbook are threads of the series", tried)
	}
}

// TestPublishedGears gives the readings that the handbooks print for known gears:
// module, pressure angle and shift must come out.
func TestPublishedGears(t *testing.T) {
	shifted := certified.Example(t, "d-gear-span-shifted").Figure(t, "W").Number(t)
	pins := certified.Example(t, "d-gear-over-pins").Figure(t, "dimension over pins").Number(t)
	const u = 0.005
	for _, c := range []struct {
		name   string
		seen   GearSeen
		module float64
		shift  float64
	}{
		{"span over 4 teeth, module 3, z 24, x 0.4", GearSeen{
			Teeth: 24, Tip: Measured{3 * (24 + 2 + 0.8), u}, Spans: []SpanSeen{{4, Measured{shifted, u}}},
		}, 3, 0.4},
		{"over pins, module 1, z 20", GearSeen{Teeth: 20, Tip: Measured{22, u}, Pins: []PinsSeen{{1.7, Measured{pins, u}}}}, 1, 0},
	} {
		c.seen.Make = 0.01
		a, err := FindGear(c.seen)
		if err != nil {
			t.Fatal(err)
		}
		leader := a.Candidates[0]
		if leader.Module != c.module || math.Abs(leader.Pressure-20*degree) > 1e-12 || math.Abs(leader.Shift-c.shift) > 0.02 {
			t.Errorf("%s: %s, shift %.3f", c.name, leader.Designation, leader.Shift)
		}
	}
}

// TestPublishedSpansGiveModuleOne has one span and the tips of each gear: the
// pressure angle is then left to what is common, and 20° is first, not alone.
func TestPublishedSpansGiveModuleOne(t *testing.T) {
	e := certified.Example(t, "d-gear-span-module1")
	for _, c := range []struct {
		name       string
		teeth, few int
	}{
		{"z 17, k 2", 17, 2},
		{"z 18, k 3", 18, 3},
		{"z 20, k 3", 20, 3},
		{"z 30, k 4", 30, 4},
		{"z 40, k 5", 40, 5},
		{"z 50, k 6", 50, 6},
		{"z 60, k 7", 60, 7},
	} {
		span := e.Figure(t, c.name).Number(t)
		a, err := FindGear(GearSeen{
			Teeth: c.teeth, Tip: Measured{float64(c.teeth) + 2, 0.005}, Spans: []SpanSeen{{c.few, Measured{span, 0.002}}}, Make: 0.003,
		})
		if err != nil {
			t.Fatal(err)
		}
		if leader := a.Candidates[0]; leader.Designation != "module 1, 20°" || !(leader.P > 0.75) {
			t.Errorf("%s: %s with %.3f", c.name, leader.Designation, leader.P)
		}
	}
}
