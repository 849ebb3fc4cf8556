package series

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/tables/facts"
)

// TestHexagons: 7/16 in Whitworth has 0.710 in across flats now and had 0.820 in
// (BS 1083 and BS 190, public tables); M10 16 mm by ISO and 17 mm by DIN.
func TestHexagons(t *testing.T) {
	for thread, want := range map[string][]float64{
		"7/16 BSW": {0.710 * inch, 0.820 * inch}, "M10": {16, 17}, "M10x1": {16, 17}, "1/2-20 UNF": {0.75 * inch, 0.75 * inch, 0.875 * inch}, "G 1/2": nil,
	} {
		var got []float64
		for _, h := range hexagonsFor(row(t, thread)) {
			got = append(got, h.Flats)
		}
		if len(got) != len(want) {
			t.Errorf("%s: hexagons %v, wanted %v", thread, got, want)
			continue
		}
		for i := range want {
			if math.Abs(got[i]-want[i]) > 1e-9 {
				t.Errorf("%s: hexagons %v, wanted %v", thread, got, want)
			}
		}
	}
}

// TestSheetsOfAllThreads makes the sheet of every thread: holes between the
// nut's minor and the major diameter, drills that leave about what was asked,
// wires within their limits, the reading over them above the crests.
func TestSheetsOfAllThreads(t *testing.T) {
	for _, r := range facts.Threads() {
		s := ThreadSheet(r)
		for _, hole := range s.Tapping {
			if !(hole.Hole < r.Major && hole.Hole > s.Basic.MinorNut-0.3*r.Pitch) || hole.Of == "" {
				t.Errorf("%s: a hole of %.3f mm for %g %% of %q", r.Designation, hole.Hole, hole.Percent, hole.Of)
			}
			if hole.Drill != nil && math.Abs(hole.Drill.Diameter-hole.Hole) > nearHole*hole.Hole {
				t.Errorf("%s: drill %s for %.3f mm", r.Designation, hole.Drill.Designation, hole.Hole)
			}
		}
		if r.Tapered != (len(s.Tapping) == 0) {
			t.Errorf("%s has %d holes for the tap", r.Designation, len(s.Tapping))
		}
		if w := s.Wires; w != nil && !(w.Smallest < w.Best && w.Best < w.Largest && w.Over > r.Major && w.Source != "") {
			t.Errorf("%s: wires %+v", r.Designation, *w)
		}
		if (s.Wires == nil) != (r.Form == "NPT 60") {
			t.Errorf("%s: wires %v", r.Designation, s.Wires)
		}
	}
}

// TestEngagementAndHoleAgree: the hole for 75 % leaves 75 %.
func TestEngagementAndHoleAgree(t *testing.T) {
	r := row(t, "1/2 BSW")
	for _, hole := range tappingDrills(r) {
		if back := engagement(r.Major, r.Pitch, 1.280654, hole.Hole); math.Abs(back-hole.Percent) > 1e-9 {
			t.Errorf("%g %% comes back as %g %%", hole.Percent, back)
		}
	}
}

// TestBothMeaningsOfAHundredPercent: 60° threads say which 100 % is meant, the
// rest have one.
func TestBothMeaningsOfAHundredPercent(t *testing.T) {
	of := map[string]bool{}
	for _, hole := range tappingDrills(row(t, "M10")) {
		of[hole.Of] = true
	}
	if len(of) != 2 {
		t.Errorf("M10 is tapped by %v", of)
	}
	for _, hole := range tappingDrills(row(t, "2 BA")) {
		if !strings.Contains(hole.Of, "whole depth") {
			t.Errorf("2 BA: 100 %% is %q", hole.Of)
		}
	}
}
