package facts

import (
	"math"
	"testing"
)

// TestPinSetsFollowOnEachOther: the seven sets together run from 0.011 in to
// 1.000 in by thousandths, and no pin is in two (common practice, no source).
func TestPinSetsFollowOnEachOther(t *testing.T) {
	next := 11
	for _, set := range PinSets() {
		for _, size := range set.Sizes() {
			if size != next {
				t.Fatalf("set %s has a pin of %d thou where %d follows", set.Name, size, next)
			}
			next++
		}
		if set.Source == "" {
			t.Errorf("set %s lacks its source", set.Name)
		}
	}
	if next != 1001 {
		t.Errorf("the sets end below %d thou, want 1001", next)
	}
}

// TestPinClassesInBothUnits compares the two columns of tolerance that the
// table carries, and the ZZ pin of half an inch with ASME B89.1.5-1998: 200
// millionths. Tolerance: half a unit in the last place of the table.
func TestPinClassesInBothUnits(t *testing.T) {
	raw := rows(pinGauges)
	for i, c := range PinClasses() {
		if microns := raw[i].number("tolerance_um"); math.Abs(1000*c.Tolerance-microns) > 0.5e-3 {
			t.Errorf("%s over %.3f mm: %.4f µm, the table has %g", c.Class, c.Over, 1000*c.Tolerance, microns)
		}
		if c.Class == "ZZ" && c.Over < 12.7 && 12.7 <= c.To && math.Abs(c.Tolerance/25.4e-6-200) > 1e-9 {
			t.Errorf("half an inch, ZZ: %g millionths, want 200", c.Tolerance/25.4e-6)
		}
	}
}

// TestBallGradesCoarsen: every grade is made no closer than the one before it
// (ISO 3290-1, as the table has it), eleven in all.
func TestBallGradesCoarsen(t *testing.T) {
	list := BallGrades()
	if len(list) != 11 {
		t.Fatalf("%d grades, want 11", len(list))
	}
	for i, g := range list[1:] {
		if before := list[i]; g.LotVariation < before.LotVariation || g.Interval < before.Interval {
			t.Errorf("%s is closer than %s", g.Grade, before.Grade)
		}
	}
}
