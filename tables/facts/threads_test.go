package facts

import (
	"math"
	"strings"
	"testing"
)

const degree = math.Pi / 180

// agree fails unless two figures agree within half a unit of a decimal place.
func agree(t *testing.T, what string, got, want float64, places int) {
	t.Helper()
	if !(math.Abs(got-want) <= 0.5*math.Pow(10, -float64(places))*(1+1e-9)) {
		t.Errorf("%s = %.7g, wanted %.7g to %d places", what, got, want, places)
	}
}

func formNamed(t *testing.T, name string) ThreadForm {
	t.Helper()
	for _, f := range ThreadForms() {
		if f.Form == name {
			return f
		}
	}
	t.Fatalf("no form %q", name)
	return ThreadForm{}
}

// TestFormsFollowFromTheirGeometry recomputes the depths from the angle: the
// sharp height is H = P/(2·tan(φ/2)), and each form rounds or cuts so much of it
// off (BS 84: H/6 at crest and root; ISO 68-1: H/8 at the crest, H/4 at the
// nut's; BS 811: a radius of P/6; BS 93: depth 0.6 P).
func TestFormsFollowFromTheirGeometry(t *testing.T) {
	height := func(angle float64) float64 { return 1 / (2 * math.Tan(angle*degree/2)) }
	for _, c := range []struct {
		form                         string
		effective, screw, nut, angle float64
	}{
		{"Whitworth", 2. / 3 * height(55), 4. / 3 * height(55), 4. / 3 * height(55), 55},
		{"BA", 0.6, 1.2, 1.2, 47.5},
		{"ISO 60", 0.75 * height(60), 17. / 12 * height(60), 1.25 * height(60), 60},
		{"UN 60", 0.75 * height(60), 11. / 8 * height(60), 1.25 * height(60), 60},
		{"Cycle 60 rounded", height(60) - 1./3, 2 * (height(60) - 1./3), 2 * (height(60) - 1./3), 60},
	} {
		f := formNamed(t, c.form)
		agree(t, c.form+" effective", f.Effective, c.effective, 6)
		agree(t, c.form+" screw", f.MinorScrew, c.screw, 6)
		agree(t, c.form+" nut", f.MinorNut, c.nut, 6)
		agree(t, c.form+" angle", f.Angle/degree, c.angle, 9)
	}
	// The printed constant of the Whitworth form (BS 84; handbooks).
	agree(t, "Whitworth depth", formNamed(t, "Whitworth").Effective, 0.640327, 6)
}

// TestBAFollowsFromItsRule recomputes the whole BA series: the pitch is 0.9^k mm
// and the diameter 6·p^1.2 mm of the unrounded pitch, each to two significant
// figures (BS 93).
func TestBAFollowsFromItsRule(t *testing.T) {
	k := 0
	for _, row := range Threads() {
		if row.Family != "BA" {
			continue
		}
		pitch := math.Pow(0.9, float64(k))
		agree(t, row.Designation+" pitch", row.Pitch, twoFigures(pitch), 9)
		agree(t, row.Designation+" major", row.Major, twoFigures(6*math.Pow(pitch, 1.2)), 9)
		k++
	}
	if k != 17 {
		t.Errorf("%d BA threads, wanted 0 to 16", k)
	}
}

func twoFigures(x float64) float64 {
	unit := math.Pow(10, math.Floor(math.Log10(x))-1)
	return math.Round(x/unit) * unit
}

// TestThreadsAreWhole looks at every row: a form that the table of forms has with
// the same angle, a pitch finer than a third of the diameter, a source, and
// inch pitches that are exact.
func TestThreadsAreWhole(t *testing.T) {
	list := Threads()
	if len(list) != 494 {
		t.Errorf("%d threads, wanted 494", len(list))
	}
	memory := 0
	for _, row := range list {
		if f := formNamed(t, row.Form); f.Angle != row.Angle {
			t.Errorf("%s: %g° but its form has %g°", row.Designation, row.Angle/degree, f.Angle/degree)
		}
		if !(row.Pitch > 0 && row.Pitch < row.Major/2.5) || row.Source == "" || row.Standard == "" {
			t.Errorf("%+v is not whole", row)
		}
		if row.TPI != 0 && math.Abs(row.Pitch*row.TPI-25.4) > 1e-12 {
			t.Errorf("%s: %g tpi of %.9g mm", row.Designation, row.TPI, row.Pitch)
		}
		if FromMemory(row.Source) {
			memory++
		}
	}
	if memory < 74 {
		t.Errorf("%d rows from memory: marks were lost", memory)
	}
}

// TestThreadsOfTheTrade has rows that everybody knows (common knowledge of the
// trade; BS 84, ISO 261, ASME B1.1, from memory).
func TestThreadsOfTheTrade(t *testing.T) {
	want := map[string][2]float64{
		"7/16 BSW": {11.1125, 25.4 / 14}, "1/2 BSW": {12.7, 25.4 / 12}, "3/8 BSF": {9.525, 25.4 / 20}, "2 BA": {4.7, 0.81}, "M10": {10, 1.5},
		"1/2-13 UNC": {12.7, 25.4 / 13}, "1/4-28 UNF": {6.35, 25.4 / 28}, "G 1/2": {20.955, 25.4 / 14}, "Tr 30x6": {30, 6},
	}
	for _, row := range Threads() {
		if w, listed := want[row.Designation]; listed {
			agree(t, row.Designation, row.Major, w[0], 6)
			agree(t, row.Designation+" pitch", row.Pitch, w[1], 6)
			delete(want, row.Designation)
		}
	}
	if len(want) > 0 {
		t.Errorf("missing: %v", want)
	}
}

// TestISOTablesAgreeWithTheirFormulas recomputes the tables of ISO 965-1 from
// the standard's formulas (from memory) for the grades used here. The tables are
// rounded to preferred numbers: a twentieth is allowed, or 2 µm, and the table's
// own column of formula values must agree to its last figure.
func TestISOTablesAgreeWithTheirFormulas(t *testing.T) {
	off := 0
	compare := func(row ISOThread, formula float64) {
		t.Helper()
		if d := math.Abs(row.Value - formula); d > 0.05*formula && d > 0.002 {
			off++
		}
		if math.Abs(row.ByFormula-formula) > 0.0001 {
			t.Errorf("%s %s P %g: formula %.4f, the table's column %.4f", row.Element, row.Class, row.Pitch, formula, row.ByFormula)
		}
	}
	for _, row := range ISOCrestTolerances() {
		if row.Element == "external major dia" && row.Class == "6" {
			compare(row, (180*math.Cbrt(row.Pitch*row.Pitch)-3.15/math.Sqrt(row.Pitch))/1000)
		}
		if row.Element == "internal minor dia" && row.Class == "6" {
			formula := 230 * math.Pow(row.Pitch, 0.7)
			if row.Pitch < 1 {
				formula = 433*row.Pitch - 190*math.Pow(row.Pitch, 1.22)
			}
			compare(row, formula/1000)
		}
	}
	for _, row := range ISOPitchDiameterTolerances() {
		middle := math.Sqrt(row.Over * row.To)
		if base := 90 * math.Pow(row.Pitch, 0.4) * math.Pow(middle, 0.1) / 1000; row.Element == "external" && row.Class == "6" {
			compare(row, base)
		} else if row.Class == "6" {
			compare(row, 1.32*base)
		}
	}
	for _, row := range ISOThreadDeviations() {
		if row.Class == "g" {
			compare(row, -(15+11*row.Pitch)/1000)
		}
	}
	if off > 9 {
		t.Errorf("%d tabled figures are off their formulas, no more than 9 in the whole standard", off)
	}
}

// TestTapersClose holds every row with three figures to large = small + length ×
// taper, within the 0.0012 in to which the printed figures are rounded.
func TestTapersClose(t *testing.T) {
	whole := 0
	for _, row := range Tapers() {
		if math.IsNaN(row.Small + row.Length + row.Large) {
			continue
		}
		whole++
		if d := row.Small + 2*row.Length*math.Tan(row.HalfAngle) - row.Large; math.Abs(d) > 0.0012*25.4 {
			t.Errorf("%s %s: %.4f mm off", row.Family, row.Number, d)
		}
		if row.Source == "" {
			t.Errorf("%s %s has no source", row.Family, row.Number)
		}
	}
	if whole < 50 {
		t.Errorf("only %d tapers have all three figures", whole)
	}
}

// TestJarnoRule recomputes the Jarno tapers: N/8 in, N/10 in, N/2 in, 0.6 in/ft
// (the trade's rule).
func TestJarnoRule(t *testing.T) {
	n := 2.0
	for _, row := range Tapers() {
		if row.Family != "Jarno" {
			continue
		}
		agree(t, "large", row.Large, 25.4*n/8, 6)
		agree(t, "small", row.Small, 25.4*n/10, 6)
		agree(t, "length", row.Length, 25.4*n/2, 6)
		agree(t, "half angle", math.Tan(row.HalfAngle), 0.025, 9)
		n++
	}
	if n != 21 {
		t.Errorf("Jarno ends at %g, wanted 20", n-1)
	}
}

// TestOldHexagonsAreOneSizeLarger: an old Whitworth hexagon is the present one of
// the next larger bolt (common practice; two tables of BS 1083 and BS 190).
func TestOldHexagonsAreOneSizeLarger(t *testing.T) {
	present, old := map[string]float64{}, map[string]float64{}
	for _, h := range Hexagons() {
		switch h.Family {
		case "BSW and BSF (present hexagon)":
			present[h.Thread] = h.Flats
		case "BSW old large hexagon":
			old[h.Thread] = h.Flats
		}
		if !(h.Flats > 1) || h.Source == "" {
			t.Errorf("%+v is not whole", h)
		}
	}
	for _, pair := range [][2]string{{"1/4", "5/16"}, {"5/16", "3/8"}, {"3/8", "7/16"}, {"7/16", "1/2"}, {"1/2", "9/16"}, {"3/4", "7/8"}, {"7/8", "1"}} {
		agree(t, "old "+pair[0], old[pair[0]], present[pair[1]], 6)
	}
}

func TestTappingCoefficientsAreThoseOfTheForms(t *testing.T) {
	for _, rule := range TappingHoles() {
		form, _, _ := strings.Cut(rule.Form, " (")
		want := map[string]float64{"ISO 60 / UN 60": 1.25 * math.Sqrt(3) / 2, "Whitworth": 1.280654, "BA": 1.2, "Cycle 60 rounded": 1.065384, "Acme 29": 1, "ISO trapezoidal 30": 1}[form]
		if strings.Contains(rule.Form, "old full thread") {
			want = 1.5 * math.Sqrt(3) / 2
		}
		agree(t, rule.Form, rule.Coefficient, want, 5)
	}
}
