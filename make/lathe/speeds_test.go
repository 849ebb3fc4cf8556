package lathe

import (
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/testdata/certified"
)

func TestPublishedRPM(t *testing.T) {
	const foot = 12 * unit.MillimetresPerInch / 1000 // m
	certified.Example(t, "m-rpm-jones").Figures(t, map[string]float64{"rpm": RPM(60*foot, 5*unit.MillimetresPerInch)})
}

// TestSpeeds: metres per minute as cutting_speeds.csv has them; 1000·v/(π·d) by
// bc 1.07.
func TestSpeeds(t *testing.T) {
	lathe := []float64{38, 62, 105, 180, 300}
	for _, c := range []struct {
		wanted   CutWanted
		countsAs string
		start    float64
		set      float64
	}{
		{CutWanted{Material: "mild steel", Diameter: 25, Spindle: lathe}, "mild steel", 254.648, 180},                            // 20
		{CutWanted{Material: "EN3B", Diameter: 25, Operation: "facing", Spindle: lathe}, "mild steel", 254.648, 180},             // 20
		{CutWanted{Material: "EN8", Diameter: 25, Spindle: lathe}, "alloy steel", 155.335, 105},                                  // 12.2
		{CutWanted{Material: "Cast Iron", Diameter: 300, Spindle: lathe}, "cast iron", 25.8892, 38},                              // 24.4, too slow for the lathe
		{CutWanted{Material: "PB1", Diameter: 6, Operation: "drilling"}, "phosphor bronze", 1061.03, 0},                          // 20
		{CutWanted{Material: "6082", Tool: "Carbide", Diameter: 12, Operation: "mill"}, "aluminium", 6631.46, 0},                 // 250
		{CutWanted{Material: "mild steel", Tool: "carbon-steel", Diameter: 25}, "mild steel", 174.434, 0},                        // 13.7
		{CutWanted{Material: "mild steel", Operation: "tap", Diameter: 10, Spindle: []float64{191}}, "mild steel", 190.986, 191}, // 6
	} {
		s, err := Speeds(c.wanted)
		if err != nil {
			t.Error(err)
			continue
		}
		if s.CountsAs != c.countsAs || !agrees(s.Start, c.start, 5) || s.Set != c.set {
			t.Errorf("%+v: counts as %s, start %.6g, set %g", c.wanted, s.CountsAs, s.Start, s.Set)
		}
		if tooFast := s.Set > s.Start; tooFast != (len(s.Warnings) > 0) {
			t.Errorf("%+v: %v", c.wanted, s.Warnings)
		}
	}
}

// TestEveryMaterialHasASpeed: whatever the tables of strength have can be
// turned with high-speed steel, and every row of the tables of speeds is found
// by some word.
func TestEveryMaterialHasASpeed(t *testing.T) {
	for _, m := range facts.Materials() {
		s, found := stuffNamed(machinesLike(m))
		if !found {
			t.Errorf("%s machines like %q", m.Name, machinesLike(m))
			continue
		}
		if len(rowsFor(s, CutWanted{Operation: "turning", Tool: "HSS"})) == 0 {
			t.Errorf("%s, as %s, has no speed", m.Name, s.name)
		}
	}
	for _, row := range facts.CuttingSpeeds() {
		if !slices.ContainsFunc(stuffs, func(s stuff) bool { return slices.Contains(s.rows, row.Material) }) {
			t.Errorf("no word finds %q", row.Material)
		}
	}
}

// TestRowsOfTheWordsExist: a row that the tables lack would never be noticed.
func TestRowsOfTheWordsExist(t *testing.T) {
	for _, s := range stuffs {
		for _, name := range s.rows {
			if !slices.ContainsFunc(facts.CuttingSpeeds(), func(row facts.CuttingSpeed) bool { return row.Material == name }) {
				t.Errorf("%s: the tables have no %q", s.name, name)
			}
		}
	}
}

func TestNoSpeed(t *testing.T) {
	for want, wanted := range map[string]CutWanted{
		"greater than 0":          {Material: "mild steel"},
		"did you mean mild steel": {Material: "mild stel", Diameter: 10},
		"they have turning":       {Material: "titanium", Diameter: 10, Operation: "reaming"},
		"with glass tools":        {Material: "brass", Diameter: 10, Tool: "glass"},
		"unobtainium":             {Material: "unobtainium", Diameter: 10},
		"a diameter":              {Material: "brass", Diameter: math.Inf(1)},
	} {
		if _, err := Speeds(wanted); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
