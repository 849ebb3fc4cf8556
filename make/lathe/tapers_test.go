package lathe

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/testdata/certified"
)

const degree = math.Pi / 180

func taper(t *testing.T, wanted TaperWanted) *TaperSetting {
	t.Helper()
	s, err := SetTaper(wanted)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestPublishedSetOver: the tapers are 1 in per foot, half of it to a side.
func TestPublishedSetOver(t *testing.T) {
	over := func(inches float64) float64 {
		const inch = unit.MillimetresPerInch
		return taper(t, TaperWanted{HalfAngle: math.Atan(1. / 24), Between: inches * inch}).SetOver / inch
	}
	certified.Example(t, "m-taper-setover").Figures(t, map[string]float64{
		"12 in, 3 to 2": over(12), "6 in at 1 in/ft": over(6), "36 in at 1 in/ft": over(36),
	})
}

func TestTaperPerLength(t *testing.T) {
	example := certified.Example(t, "m-taper-degrees")
	got := map[string]float64{}
	for _, f := range example.Expected {
		var included float64
		if _, err := fmt.Sscanf(f.Name, "%g deg", &included); err != nil {
			t.Fatal(err)
		}
		got[f.Name] = TaperPerLength(included / 2 * degree)
	}
	example.Figures(t, got)
}

// TestSettingsGiveTheTaper: work set over by s turns about a line that is off the
// bed by asin(s/L); the dial's two checks agree with the taper.
func TestSettingsGiveTheTaper(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		half := rapid.Float64Range(0.1, 44).Draw(rt, "half angle") * degree
		length := rapid.Float64Range(1, 500).Draw(rt, "length")
		s, err := SetTaper(TaperWanted{HalfAngle: half, Length: length, Between: 2 * length})
		if err != nil {
			rt.Fatal(err)
		}
		for name, angle := range map[string]float64{
			"set-over": math.Asin(s.SetOver / (2 * length)), "carriage": math.Atan(s.ByCarriage / s.Check), "top slide": math.Asin(s.ByTopSlide / s.Check),
			"attachment": math.Atan(s.PerLength / 2), "swivel": s.Swivel,
		} {
			if !agrees(angle, half, 12) {
				rt.Errorf("by the %s the half angle is %.15g, want %.15g", name, angle, half)
			}
		}
		off := math.Atan((s.ByCarriage+dialStep/1000)/s.Check) - half
		if !agrees(1000*off, s.Sensitivity, 3) {
			rt.Errorf("0.01 mm of the dial is %g rad, said %g rad", 1000*off, s.Sensitivity)
		}
	})
}

func TestTaperWarnings(t *testing.T) {
	for half, want := range map[float64]string{1: "", 1.2: "fiftieth", 12: "attachments"} {
		said := strings.Join(taper(t, TaperWanted{HalfAngle: half * degree, Between: 200}).Warnings, " ")
		if (want == "") != (said == "") || !strings.Contains(said, want) {
			t.Errorf("%g°: %q, want %q", half, said, want)
		}
	}
	for _, half := range []float64{0, -1, 90 * degree, math.NaN()} {
		if _, err := SetTaper(TaperWanted{HalfAngle: half}); err == nil {
			t.Errorf("a half angle of %g rad is set", half)
		}
	}
}

// TestTapersOfAPart: constructed. 10 to 20 mm over 50 mm is 1:5.
func TestTapersOfAPart(t *testing.T) {
	list := Tapers(&part.Turned{
		Length: 80,
		Segments: []part.Segment{
			{X1: 1, D0: 8, D1: 10, Role: part.Chamfer}, {X0: 1, X1: 51, D0: 10, D1: 20}, {X0: 51, X1: 80, D0: 20, D1: 20},
		},
		Bores: []part.Segment{{X0: 70, X1: 80, D0: 5, D1: 6}, {X0: 68, X1: 70, D0: 0, D1: 5, Role: part.DrillPoint}},
	})
	if len(list) != 2 {
		t.Fatalf("%+v", list)
	}
	for i, want := range []TaperWanted{{math.Atan(0.1), 50, 80}, {math.Atan(0.05), 10, 80}} {
		if !agrees(list[i].HalfAngle, want.HalfAngle, 12) || list[i].Length != want.Length || list[i].Between != want.Between {
			t.Errorf("%+v, want %+v", list[i], want)
		}
	}
}
