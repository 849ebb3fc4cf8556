package strength

import (
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// TestAThreadOfThePart: its designation, class and material come from the part, and
// its limits from what it is made to.
func TestAThreadOfThePart(t *testing.T) {
	part := &trade.Part{Material: "080M40 R", Sizes: []trade.NewSize{{ID: "screw", Thread: "1/2 BSW", Class: "medium"}}}
	j := screwedJoint()
	j.Stud, j.Into.Thread = trade.Member{PartSize: "screw", Pos: here}, "1/2 BSW"
	job := &trade.Job{Part: part, Joints: []trade.Joint{j}}
	nut := func(made *fit.Result) float64 {
		list, err := Check(job, made)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "stud of the part", way(t, list[0], "stud", Breaks).Load, 690*areaOf(t, "1/2 BSW"), 1e-12)
		return way(t, list[0], "nut thread", Strips).Load
	}
	medium := nut(nil)
	part.Sizes[0].Class = "free"
	if free := nut(nil); !(free < medium) {
		t.Errorf("the nut holds %.0f N on a free screw, %.0f N on a medium one", free, medium)
	}
	made := sheet(t, "1/2 BSW")
	f := &fit.Result{Make: []fit.Made{{Size: &part.Sizes[0], Thread: &made}}}
	made.Limits = slices.DeleteFunc(made.Limits, func(l series.Limit) bool { return l.Inside || l.Class != "medium" })
	part.Sizes[0].Class = "medium"
	near(t, "nut on a screw made to the medium class", nut(f), medium, 1e-12)
	for i := range made.Limits {
		made.Limits[i].Low = made.Limits[i].High - 0.01
	}
	if closer := nut(f); !(closer > medium) {
		t.Errorf("the nut holds %.0f N on a screw made closer, %.0f N on a medium one", closer, medium)
	}
}

// TestTooTight: 90 N m on M10 of class 8.8, where charts have about 50 (common
// practice, no source).
func TestTooTight(t *testing.T) {
	j := screwedJoint()
	j.Tighten, j.Service = trade.Tighten{Torque: torque("90 N m")}, force("40 kN")
	a := check(t, j)
	warnings := unit.Join(a.Warnings, "\n").Shown(unit.View{})
	for _, want := range []string{"stretches for good", "tightening alone can do it", "the joint opens under it"} {
		if !strings.Contains(warnings, want) {
			t.Errorf("nothing of %q in %s", want, warnings)
		}
	}
	if a.Screw.Tightening.Stress < 640 {
		t.Errorf("pulled and twisted to %.0f MPa", a.Screw.Tightening.Stress)
	}
}

// TestNutsByClass: a nut of class 8 holds 870 MPa on the stress area of M10 at 8 mm
// and more, half of it at 4 mm (870 MPa: ISO 898-2, from memory).
func TestNutsByClass(t *testing.T) {
	j := screwedJoint()
	j.Into = trade.Member{Thread: "M10", Grade: "8", Outside: length("16"), Pos: here}
	for text, share := range map[string]float64{"4": 0.5, "8": 1, "12": 1} {
		j.Into.Length = length(text)
		near(t, "nut of "+text+" mm", way(t, check(t, j), "nut thread", Strips).Load, share*870*areaOf(t, "M10"), 1e-12)
	}
}

func TestEveryFamilyHasItsPoissonRatio(t *testing.T) {
	for _, m := range facts.Materials() {
		if poisson[m.Family] == 0 {
			t.Errorf("no ratio for %s", m.Family)
		}
	}
}
