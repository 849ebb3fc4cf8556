package report

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/say"
	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/tables/limits"
)

func stockOf(t *testing.T, text string, section float64) (facts.Stock, facts.Strength) {
	t.Helper()
	stock, err := facts.FindMaterial(text)
	if err != nil {
		t.Fatal(err)
	}
	holds, err := stock.Strength(section)
	if err != nil {
		t.Fatal(err)
	}
	return stock, holds
}

// TestEveryMaterialHasItsPage: each can be shown, says that equivalents are
// approximate, and marks what is from memory.
func TestEveryMaterialHasItsPage(t *testing.T) {
	for _, m := range facts.Materials() {
		stock := facts.Stock{Material: m}
		holds, err := stock.Strength(0)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := spoken(&out, say.Material(stock, 0, holds), nil, Style{}); err != nil {
			t.Fatal(err)
		}
		if len(m.Equivalents) > 0 && !strings.Contains(out.String(), "Approximate equivalents") {
			t.Errorf("%s: equivalents are not said to be approximate", m.Name)
		}
		if facts.FromMemory(m.Strengths()[0].Provenance) && !strings.Contains(out.String(), "from memory: no second place was seen") {
			t.Errorf("%s: nothing is said of memory", m.Name)
		}
		if strings.Contains(out.String(), "NaN") || strings.Contains(out.String(), "?") {
			t.Errorf("%s: what is not tabled is shown as a number:\n%s", m.Name, &out)
		}
	}
}

// TestMaterialJSONKeepsItsShape: other programs read these keys. Figures are
// those of materials.csv.
func TestMaterialJSONKeepsItsShape(t *testing.T) {
	stock, holds := stockOf(t, "080M40 R", 15)
	object := asJSON(t, func(w io.Writer) error { return MaterialJSON(w, stock, 15, holds) })
	held := object["holds"].(map[string]any)
	for key, want := range map[string]any{
		"condition": "R", "tensile_min_mpa": 690.0, "tensile_max_mpa": 850.0, "yield_mpa": 465.0, "e_low_mpa": 210000.0, "density_kg_m3": 7850.0,
	} {
		if held[key] != want {
			t.Errorf("%s is %v, wanted %v", key, held[key], want)
		}
	}
	if object["en"] != "EN8" || object["section_mm"] != 15.0 || len(object["strengths"].([]any)) != 9 {
		t.Errorf("%v, section %v", object["en"], object["section_mm"])
	}
}

// TestLimitsOnPaper: half a micron and a tenth of a thou are not rounded away.
func TestLimitsOnPaper(t *testing.T) {
	for text, want := range map[string]string{
		"25 js7":     "24.9895 to 25.0105",
		"50 H8":      "50.000 to 50.039",
		"6 js2":      "5.99925 to 6.00075",
		"1 in LT1":   "25.39365 to 25.40635",
		"30 H7/p6":   "interference  0.001 to 0.035",
		"1.5 in RC5": "+1.6 thou",
	} {
		asked, err := limits.ParseSized(text, unit.Millimetre)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if asked.Fit == nil {
			in, err := limits.Of(asked.Size.Inside(), asked.Code)
			if err != nil {
				t.Fatal(err)
			}
			if err := spoken(&out, say.Limits(asked.Size, asked.Code, in), nil, Style{}); err != nil {
				t.Fatal(err)
			}
		} else {
			pair, err := asked.Fit.At(asked.Size.Inside())
			if err != nil {
				t.Fatal(err)
			}
			if err := spoken(&out, say.LimitsOfFit(asked.Size, *asked.Fit, pair), nil, Style{}); err != nil {
				t.Fatal(err)
			}
		}
		if !strings.Contains(out.String(), want) {
			t.Errorf("%s lacks %q:\n%s", text, want, &out)
		}
	}
}
