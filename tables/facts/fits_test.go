package facts

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

func TestTablesOfFitsHaveEveryRowWithItsSource(t *testing.T) {
	check := func(table string, want int, sources []string) {
		if len(sources) != want || slices.Contains(sources, "") {
			t.Errorf("%s: %d rows, wanted %d, each with its source", table, len(sources), want)
		}
	}
	bands := func(list []GradeBand) (sources []string) {
		for _, b := range list {
			sources = append(sources, b.Source)
		}
		return sources
	}
	letters := func(list []Deviation) (sources []string) {
		for _, d := range list {
			sources = append(sources, d.Source)
		}
		return sources
	}
	check("it_grades", 21, bands(ITGrades()))
	check("delta", 13, bands(Deltas()))
	check("b41_grades", 21, bands(InchGrades()))
	check("shafts_fd", 651, letters(ShaftDeviations()))
	check("holes_fd", 925, letters(HoleDeviations()))
	var inch []string
	for _, f := range InchFits() {
		inch = append(inch, f.Source)
	}
	check("fits_b41", 492, inch)
}

// TestBandsHaveNoGaps: each table by grade goes on from band to band.
func TestBandsHaveNoGaps(t *testing.T) {
	for name, bands := range map[string][]GradeBand{"it_grades": ITGrades(), "delta": Deltas(), "b41_grades": InchGrades()} {
		if bands[0].Over != 0 {
			t.Errorf("%s begins over %g", name, bands[0].Over)
		}
		for i, b := range bands[1:] {
			if b.Over != bands[i].To || b.Over >= b.To {
				t.Errorf("%s: %g to %g follows on %g", name, b.Over, b.To, bands[i].To)
			}
		}
	}
}

// TestLettersHaveNoGaps: of each letter and grade, sizes go on from band to band
// and none is in two, from 1 mm to 500 mm but for the letters that ISO 286-1 has
// for some sizes only.
func TestLettersHaveNoGaps(t *testing.T) {
	ends := map[string][2]float64{
		"cd": {0, 10}, "ef": {0, 10}, "fg": {0, 10}, "t": {24, 500}, "v": {14, 500}, "y": {18, 500}, "j8": {0, 3},
	}
	for _, table := range [][]Deviation{ShaftDeviations(), HoleDeviations()} {
		byCode := map[string][]Deviation{}
		for _, d := range table {
			for grade := d.GradeMin; grade <= d.GradeMax; grade++ {
				code := d.Letter + strconv.Itoa(grade)
				byCode[code] = append(byCode[code], d)
			}
		}
		for code, rows := range byCode {
			want := [2]float64{0, 500}
			for key, other := range ends {
				if key == code || strings.EqualFold(key, rows[0].Letter) {
					want = other
				}
			}
			checkRun(t, code, rows, want)
		}
	}
}

func checkRun(t *testing.T, code string, rows []Deviation, want [2]float64) {
	t.Helper()
	slices.SortFunc(rows, func(a, b Deviation) int { return int(a.Over - b.Over) })
	reach := want[0]
	for _, d := range rows {
		// Holes K have grade 9 and coarser up to 3 mm and again over 500 mm only.
		if d.Over != reach && !(rows[0].Letter == "K" && d.GradeMax == 18 && d.Over >= 500) {
			t.Errorf("%s: over %g follows on %g mm", code, d.Over, reach)
		}
		reach = d.To
	}
	if reach < want[1] && rows[0].Letter != "K" {
		t.Errorf("%s ends at %g mm, wanted %g", code, reach, want[1])
	}
}

// TestDeltaIsADifference: ISO 286-1 has Δ = ITn - IT(n-1), nothing up to 3 mm.
func TestDeltaIsADifference(t *testing.T) {
	grades := ITGrades()
	for i, d := range Deltas() {
		for n := 3; n <= 8; n++ {
			want := grades[i].Values[strconv.Itoa(n)] - grades[i].Values[strconv.Itoa(n-1)]
			if d.To == 3 {
				want = 0
			}
			if d.Over != grades[i].Over || d.Values[strconv.Itoa(n)] != want {
				t.Errorf("over %g, Δ of IT%d is %g, wanted %g µm", d.Over, n, d.Values[strconv.Itoa(n)], want)
			}
		}
	}
}

// TestGradesFollowTheirFormula: ISO 286-1 has i = 0.45·∛D + 0.001·D to 500 mm
// and I = 0.004·D + 2.1 above, D the geometric mean of the band, and grades of 7
// to 2500 times that, rounded: within 8 %, but for the smallest sizes, which the
// standard smooths by up to 16 % (bands to 3 mm, and IT6 over 3 to 6 mm).
func TestGradesFollowTheirFormula(t *testing.T) {
	times := []float64{7, 10, 16, 25, 40, 64, 100, 160, 250, 400, 640, 1000, 1600, 2500} // IT5 to IT18
	for _, b := range ITGrades() {
		d := math.Sqrt(max(b.Over, 1) * b.To)
		i := 0.45*math.Cbrt(d) + 0.001*d
		if b.To > 500 {
			i = 0.004*d + 2.1
		}
		for k, n := range times {
			grade := strconv.Itoa(5 + k)
			allowed := 0.08
			if b.To == 3 || b.To == 6 && grade == "6" {
				allowed = 0.16
			}
			if off := b.Values[grade]/(n*i) - 1; math.Abs(off) > allowed {
				t.Errorf("over %g mm, IT%s is %g µm, %.1f %% from the formula", b.Over, grade, b.Values[grade], 100*off)
			}
		}
	}
}

// TestInchFitsAddUp: the printed clearances of all rows are those of the printed
// limits, to the last digit that the standard prints, a hundredth of a thou.
func TestInchFitsAddUp(t *testing.T) {
	for _, f := range InchFits() {
		least, most := f.HoleLower-f.ShaftUpper, f.HoleUpper-f.ShaftLower
		if math.Abs(least-f.FitMin) > 1e-9 || math.Abs(most-f.FitMax) > 1e-9 {
			t.Errorf("%s over %g in: %g to %g thou, printed %g to %g", f.Class, f.Over, least, most, f.FitMin, f.FitMax)
		}
		if f.HoleLower > f.HoleUpper || f.ShaftLower > f.ShaftUpper || f.Over >= f.To {
			t.Errorf("%s over %g in: limits are reversed", f.Class, f.Over)
		}
	}
}

// TestInchFitsHaveTheirGrades holds the tolerances of holes and shafts against
// the grades of ANSI B4.1 that their codes name. Thirteen differ: the smallest
// size of fine grades, js rounded to whole tenths, and three rows of LN1 that are
// irregular where they were read.
func TestInchFitsHaveTheirGrades(t *testing.T) {
	irregular := 0
	for _, f := range InchFits() {
		for _, side := range []struct {
			code      string
			tolerance float64
		}{{f.HoleCode, f.HoleUpper - f.HoleLower}, {f.ShaftCode, f.ShaftUpper - f.ShaftLower}} {
			grade := regexp.MustCompile(`[0-9]+$`).FindString(side.code)
			if grade == "" {
				continue
			}
			i := slices.IndexFunc(InchGrades(), func(b GradeBand) bool { return b.Over < f.To && f.To <= b.To })
			if want := InchGrades()[i].Values[grade]; math.Abs(side.tolerance-want) > 1e-9 {
				irregular++
				if math.Abs(side.tolerance-want) > 0.2+1e-9 {
					t.Errorf("%s %s over %g in: tolerance %g thou, grade %g", f.Class, side.code, f.Over, side.tolerance, want)
				}
			}
		}
	}
	if irregular != 13 {
		t.Errorf("%d tolerances differ from their grade, wanted 13", irregular)
	}
}
