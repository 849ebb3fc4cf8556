package facts

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestMaterialsKeepEveryRow(t *testing.T) {
	n := 0
	for _, m := range Materials() {
		for _, s := range m.Strengths() {
			n++
			if s.Source == "" || s.Provenance == "" {
				t.Errorf("%s %s lacks its source", m.Name, s.Condition)
			}
			if math.IsNaN(s.E()) || math.IsNaN(s.CTE) || math.IsNaN(s.Density) || !(s.Over < s.To) {
				t.Errorf("%s %s: E %g, expansion %g, density %g, from %g to %g mm", m.Name, s.Condition, s.E(), s.CTE, s.Density, s.Over, s.To)
			}
			if s.TensileMax < s.TensileMin || s.Yield >= s.TensileMin {
				t.Errorf("%s %s: tensile %g to %g, yield %g", m.Name, s.Condition, s.TensileMin, s.TensileMax, s.Yield)
			}
		}
	}
	// 97 rows; the one that names letters R to V only is five.
	if n != 97-1+5 || len(rows(materials)) != 97 {
		t.Errorf("%d rows", n)
	}
}

// TestEveryNameFindsItsMaterial: whatever the table calls a material by, alone,
// finds it or asks which is meant.
func TestEveryNameFindsItsMaterial(t *testing.T) {
	for _, n := range readNamings() {
		s, err := FindMaterial(n.shown)
		switch {
		case n.rank == ownName && strings.HasPrefix(n.shown, "EN58 "): // a name that five have
		case n.rank == ownName && (err != nil || s.Name != n.of.Name || s.BS != n.of.BS || s.Equivalent != ""):
			t.Errorf("%q finds %q, %v", n.shown, s.Name, err)
		case n.rank == equivalent && err == nil && s.Name == n.of.Name && s.Equivalent == "" && !named(n.shown)[0].own():
			t.Errorf("%q is not said to be approximate", n.shown)
		}
	}
}

func (n naming) own() bool { return n.rank == ownName || n.rank == wordOfName }

// TestFindMaterial: names and condition letters are as materials.csv has them.
func TestFindMaterial(t *testing.T) {
	for text, want := range map[string][3]string{ // short name, condition, equivalent
		"EN8":                     {"EN8", "", ""},
		"en 8":                    {"EN8", "", ""},
		"080M40":                  {"EN8", "", ""},
		"080M40 R":                {"EN8", "R", ""},
		"EN8 condition R":         {"EN8", "R", ""},
		"EN8, condition r":        {"EN8", "R", ""},
		"EN8 cold drawn":          {"EN8", "cold drawn", ""},
		"EN8 normalised":          {"EN8", "normalised + turned or ground", ""},
		"EN8 medium carbon":       {"EN8", "", ""},
		"EN24T":                   {"EN24", "T", ""},
		"817M40T":                 {"EN24", "T", ""},
		"EN16R":                   {"EN16", "R", ""},
		"EN1A":                    {"EN1A", "", ""},
		"EN1A Pb":                 {"EN1A Pb", "", ""},
		"EN36":                    {"EN36A", "", ""},
		"EN58J":                   {"EN58H / EN58J", "", ""},
		"303S21":                  {"EN58M", "", ""},
		"S275JR":                  {"S275JR", "", ""},
		"s275jr hot rolled":       {"S275JR", "hot rolled", ""},
		"43B":                     {"S275JR", "", ""},
		"A36":                     {"A36", "", ""},
		"CZ121":                   {"CZ121", "", ""},
		"PB1":                     {"PB1", "", ""},
		"PB1 sand cast":           {"PB1", "sand cast", ""},
		"BS 1400 PB1":             {"PB1", "", ""},
		"6082 T6":                 {"6082", "T6 extruded bar", ""},
		"grade 250":               {"grey cast iron grade 250", "", ""},
		"grey cast iron grade 19": {},
		"4140":                    {"EN19", "", "4140"},
		"1.1186":                  {"EN8", "", "1.1186"},
		"EN-GJL-200":              {"grey cast iron grade 200", "", "EN-GJL-200"},
		"9850":                    {"EN24", "", "9850"},
	} {
		s, err := FindMaterial(text)
		if want[0] == "" {
			if err == nil {
				t.Errorf("%q finds %s", text, s.Name)
			}
			continue
		}
		if err != nil || s.Short() != want[0] || s.Condition != want[1] || s.Equivalent != want[2] {
			t.Errorf("%q finds %s, %q, %q, %v", text, s.Short(), s.Condition, s.Equivalent, err)
		}
	}
}

// TestWrongMaterials: the error says what would be right.
func TestWrongMaterials(t *testing.T) {
	for text, says := range map[string]string{
		"":          "080M40 R",
		"  ":        "080M40 R",
		"EM8":       "did you mean EN8?",
		"S257JR":    "did you mean S275JR?",
		"granite":   "080M40 R",
		"EN58":      "EN58M, EN58E",
		"cast iron": "grey cast iron grade 150, grey cast iron grade 200",
		"steel":     "EN1A, EN1A Pb",
		"EN8 Z":     "normalised + turned or ground; cold drawn; Q; R",
		"EN8 tough": "cold drawn",
		"PB1 cast":  "sand cast; continuously cast",
	} {
		if s, err := FindMaterial(text); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %s, %v; wanted %q", text, s.Name, err, says)
		}
	}
}

// TestStrengthBySection: figures as the rows of materials.csv have them; the
// last is of BS 970:1991 by the letter.
func TestStrengthBySection(t *testing.T) {
	for _, c := range []struct {
		text           string
		section        float64
		tensile, yield float64
	}{
		{"EN8 R", 20, 690, 465},
		{"EN8 cold drawn", 6, 660, 530},
		{"EN8 cold drawn", 13, 660, 530},
		{"EN8 cold drawn", 13.1, 650, 510},
		{"EN8 Q", 65, 620, 385},
		{"EN8", 200, 510, 245}, // nothing else is tabled there
		{"EN8", 10, 550, 280},  // the weakest of four conditions
		{"EN25 U", 80, 925, 755},
		{"EN25 U", 100.5, 925, 740},
		{"EN24T", 100, 850, 635}, // the lower of two sources
		{"S275JR", 16, 410, 275},
		{"S275JR", 16.5, 410, 265},
		{"S275JR", 0, 400, 225}, // not known: the weakest
		{"grade 250", 2.5, math.NaN(), 0},
		{"grade 250", 15, 225, math.NaN()},
		{"CZ121", 300, 360, 220},
		{"EN16 T", 40, 850, math.NaN()},
	} {
		stock, err := FindMaterial(c.text)
		if err != nil {
			t.Fatal(err)
		}
		s, err := stock.Strength(c.section)
		if math.IsNaN(c.tensile) {
			if err == nil {
				t.Errorf("%s at %g mm: %g MPa", c.text, c.section, s.TensileMin)
			}
			continue
		}
		if err != nil || fmt.Sprint(s.TensileMin, s.Yield) != fmt.Sprint(c.tensile, c.yield) {
			t.Errorf("%s at %g mm: %g and %g MPa, %v; wanted %g and %g", c.text, c.section, s.TensileMin, s.Yield, err, c.tensile, c.yield)
		}
	}
}

// TestDoubtsOfStrength: what a figure rests on is said with it.
func TestDoubtsOfStrength(t *testing.T) {
	for _, c := range []struct {
		text    string
		section float64
		says    string // nothing: no doubts at all
	}{
		{"S275JR", 10, ""},
		{"EN8", 10, "no condition was stated: taken as normalised"},
		{"EN8 R", 0, "no ruling section was stated"},
		{"EN8 R", 10, "those of carbon and low-alloy steel (generic)"},
		{"EN24T", 100, "another gives 850 MPa tensile and 680 MPa yield"},
		{"PB1 sand cast", 10, "those of phosphor bronze PB2"},
		{"grade 220", 10, "those of grey cast iron grade 200"},
		{"PB1 sand cast", 10, "from memory"},
		{"grade 150", 10, "E lies from 78 to 103 GPa"},
		{"4140 R", 10, "4140 is only approximately EN19"},
		{"EN16R", 10, "what the letter stands for in every steel"},
		{"EN32", 10, "no strength"},
	} {
		stock, err := FindMaterial(c.text)
		if err != nil {
			t.Fatal(err)
		}
		s, err := stock.Strength(c.section)
		said := strings.Join(s.Doubts, "\n")
		if err != nil || !strings.Contains(said, c.says) || c.says == "" && said != "" {
			t.Errorf("%s at %g mm: %v, doubts:\n%s", c.text, c.section, err, said)
		}
	}
}

// TestNoSuchSection: the error says in what sections the condition is tabled,
// and what is where it is not.
func TestNoSuchSection(t *testing.T) {
	for section, says := range map[float64]string{
		30:          "condition R is tabled for ruling sections from 0 to 20 mm, not for 30 mm; there the table has normalised + turned or ground; cold drawn; Q",
		-1:          "positive number",
		math.NaN():  "positive number",
		math.Inf(1): "positive number",
	} {
		stock, err := FindMaterial("EN8R")
		if err != nil {
			t.Fatal(err)
		}
		if s, err := stock.Strength(section); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("EN8 R at %g mm: %g MPa, %v; wanted %q", section, s.TensileMin, err, says)
		}
	}
}

// TestConditionLetters: R of BS 970 is 700 to 850 MPa (from memory).
func TestConditionLetters(t *testing.T) {
	list := Conditions()
	if len(list) != 11 || list[2].Letter != "R" || list[2].TensileMin != 700 || list[2].TensileMax != 850 {
		t.Errorf("%+v", list)
	}
}

// TestPairingsKnowTheirMaterials: every row of the two tables is about some
// material, and says where it is from.
func TestPairingsKnowTheirMaterials(t *testing.T) {
	known := func(term string) bool {
		for _, m := range Materials() {
			if m.isA(term) {
				return true
			}
		}
		return false
	}
	for _, p := range readWearPairs() {
		if !known(p.One) || !known(p.Other) || p.Source == "" || !strings.Contains("good fair poor", p.Verdict) {
			t.Errorf("%+v", p)
		}
	}
	for _, c := range readCautions() {
		for _, term := range strings.Split(c.Material, " / ") {
			if !known(term) || c.Source == "" || c.Text == "" {
				t.Errorf("%q: %+v", term, c)
			}
		}
	}
}

// TestPairings: steel runs on bronze, stainless galls on itself, and leaded
// steel is not welded (common practice, no source).
func TestPairings(t *testing.T) {
	verdict := func(text, against string) string {
		stock, err := FindMaterial(text)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range stock.WearPairs() {
			if p.Other == against {
				return p.Verdict
			}
		}
		return "none"
	}
	for _, c := range [][3]string{
		{"EN8", "phosphor bronze", "good"},
		{"PB1", "steel, soft", "fair"},
		{"EN58E", "austenitic stainless", "poor"},
		{"CZ121", "aluminium", "none"},
	} {
		if got := verdict(c[0], c[1]); got != c[2] {
			t.Errorf("%s on %s is %s, wanted %s", c[0], c[1], got, c[2])
		}
	}
	stock, err := FindMaterial("EN1A Pb")
	if err != nil || !strings.Contains(fmt.Sprint(stock.Cautions()), "do not weld") {
		t.Errorf("cautions of EN1A Pb: %v, %v", stock.Cautions(), err)
	}
}
