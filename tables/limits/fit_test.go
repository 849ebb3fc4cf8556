package limits_test

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/tables/limits"
)

// TestKindsOfFit: ISO 286-1 counts a fit whose least clearance is nothing as a
// clearance fit. Limits: ISO 286-2, from memory.
func TestKindsOfFit(t *testing.T) {
	for _, c := range []struct {
		fit      string
		mm       float64
		min, max float64 // µm
		kind     limits.Kind
	}{
		{"H8/f7", 50, 25, 89, limits.Clearance},
		{"H7/h6", 50, 0, 41, limits.Clearance},
		{"H7/k6", 40, -18, 23, limits.Transition},
		{"H7/p6", 30, -35, -1, limits.Interference},
		{"H7/p6", 2, -12, 4, limits.Transition},
		{"N7/h6", 30, -28, 6, limits.Transition},
		{"P7/h6", 60, -51, -2, limits.Interference},
	} {
		fit, err := limits.ParseFit(c.fit)
		if err != nil {
			t.Fatal(err)
		}
		p, err := fit.At(c.mm)
		if err != nil || p.MinClearance != c.min/1000 || p.MaxClearance != c.max/1000 || p.Kind() != c.kind {
			t.Errorf("%g %s: %g to %g mm, kind %d, %v", c.mm, c.fit, p.MinClearance, p.MaxClearance, p.Kind(), err)
		}
		if hole, shaft, _ := strings.Cut(c.fit, "/"); p.HoleCode != hole || p.ShaftCode != shaft {
			t.Errorf("%s is %s and %s", c.fit, p.HoleCode, p.ShaftCode)
		}
	}
}

// TestInchFitsAreAsPrinted asks every row of ANSI B4.1 just inside both ends of
// its band; the clearance is that which the standard prints beside the limits.
func TestInchFitsAreAsPrinted(t *testing.T) {
	const thou = 25.4 / 1000
	rows := facts.InchFits()
	for _, r := range rows {
		fit, err := limits.ParseFit(r.Class)
		if err != nil {
			t.Fatal(err)
		}
		for _, in := range []float64{max(r.Over+1e-4, 0.02), r.To} { // below 0.02 in the widest shafts vanish
			p, err := fit.At(25.4 * in)
			if err != nil {
				t.Errorf("%g in %s: %v", in, r.Class, err)
				continue
			}
			for _, pair := range [][2]float64{
				{p.MinClearance, r.FitMin},
				{p.MaxClearance, r.FitMax},
				{p.Hole.High - 25.4*in, r.HoleUpper},
				{p.Shaft.Low - 25.4*in, r.ShaftLower},
			} {
				if math.Abs(pair[0]-thou*pair[1]) > 1e-9 {
					t.Errorf("%g in %s: %g thou, printed %g", in, r.Class, pair[0]/thou, pair[1])
				}
			}
		}
	}
	if len(rows) != 492 {
		t.Errorf("%d rows, wanted 492", len(rows))
	}
}

// TestSomeInchFits: Machinery's Handbook, 31st ed., tables 8a and 11, from
// memory, in inches.
func TestSomeInchFits(t *testing.T) {
	for _, c := range []struct {
		text                            string
		holeLow, holeHigh, shLow, shTop float64
	}{
		{"1.5 in RC5", 1.5, 1.5016, 1.497, 1.498},
		{"1 1/2 in rc5", 1.5, 1.5016, 1.497, 1.498},
		{"2 in RC6", 2, 2.0030, 1.9957, 1.9975},
		{"1 in LC2", 1, 1.0008, 0.9995, 1},
		{"1/2 in FN2", 0.5, 0.5007, 0.5012, 0.5016},
	} {
		s, err := limits.ParseSized(c.text, unit.Millimetre)
		if err != nil {
			t.Fatal(err)
		}
		p, err := s.Fit.At(s.Size.Inside())
		if err != nil {
			t.Fatal(err)
		}
		for _, pair := range [][2]float64{{p.Hole.Low, c.holeLow}, {p.Hole.High, c.holeHigh}, {p.Shaft.Low, c.shLow}, {p.Shaft.High, c.shTop}} {
			if math.Abs(pair[0]/25.4-pair[1]) > 1e-9 {
				t.Errorf("%s: %.6f in, wanted %g", c.text, pair[0]/25.4, pair[1])
			}
		}
	}
}

// TestMemoryIsCarriedThrough: a row that no second place was seen for says so.
func TestMemoryIsCarriedThrough(t *testing.T) {
	fit, err := limits.ParseFit("LC4")
	if err != nil {
		t.Fatal(err)
	}
	p, err := fit.At(25.4)
	if err != nil || !facts.FromMemory(strings.Join(p.Sources, " ")) {
		t.Errorf("LC4 at 1 in: sources %q, %v", p.Sources, err)
	}
}

func TestWrongFits(t *testing.T) {
	for text, says := range map[string]string{
		"f7/H8":  "the hole comes first: H8/f7",
		"H7/H8":  "a fit is a hole",
		"h7/g6":  "a fit is a hole",
		"H7":     "no fit",
		"":       "no fit",
		"H7/":    "no tolerance class",
		"H7/g6x": "no tolerance class",
		"H7/Fg6": "write FG for a hole or fg for a shaft",
		"H7/q6":  "there is no letter q",
		"H7/aa6": "there is no letter aa",
		"H19/g6": "grades 1 to 18, not 19",
		"H07/g6": "grades 1 to 18, not 07",
		"H0/g6":  "grades 1 to 18, not 0",
		"RC10":   "RC has classes 1 to 9, not 10",
		"FN0":    "FN has classes 1 to 5, not 0",
	} {
		if fit, err := limits.ParseFit(text); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, %v; wanted %q", text, fit, err, says)
		}
	}
	for text, mm := range map[string]float64{"RC5": 600, "FN3": 12.7, "LT3": 5, "H8/f7": math.NaN(), "LN2": math.Inf(1), "FN1": 0} {
		fit, err := limits.ParseFit(text)
		if err != nil {
			t.Fatal(err)
		}
		if p, err := fit.At(mm); err == nil {
			t.Errorf("%g mm %s: %+v", mm, text, p)
		}
	}
}

func TestSized(t *testing.T) {
	for text, want := range map[string][2]string{
		"50 H8":         {"50 mm", "H8"},
		"50H8":          {"50 mm", "H8"},
		"⌀ 50 mm H8":    {"50 mm", "H8"},
		"50mmH8/f7":     {"50 mm", "H8/f7"},
		"50 H8 / f7":    {"50 mm", "H8/f7"},
		"1.5 in RC5":    {"1 1/2 in", "RC5"},
		`1-1/2" rc 5`:   {"1 1/2 in", "RC5"},
		"1 1/2 in js6":  {"1 1/2 in", "js6"},
		"38.1 mm RC5":   {"38.1 mm", "RC5"},
		"0.5 in H7/g6 ": {"1/2 in", "H7/g6"},
	} {
		s, err := limits.ParseSized(text, unit.Millimetre)
		name := s.Code.String()
		if s.Fit != nil {
			name = s.Fit.String()
		}
		if err != nil || s.Size.String() != want[0] || name != want[1] {
			t.Errorf("%q: %v %s, %v", text, s.Size, name, err)
		}
	}
	if s, err := limits.ParseSized("1 1/2 RC5", unit.Inch); err != nil || s.Size.Inside() != 38.1 {
		t.Errorf("a bare number of inches: %v, %v", s.Size, err)
	}
	for text, says := range map[string]string{
		"50":         "50 H8",
		"H7":         "50 H8",
		"":           "50 H8",
		"0 H7":       "greater than 0",
		"-3 H7":      "greater than 0",
		"nan H7":     "a length is written",
		"1/2 H7":     "write 1/2 in",
		"1.5 RC5":    "write the unit, 1.5 in RC5",
		"50..60 H7":  "a length is written",
		"50 Q8":      "no letter Q",
		"50 f7/H8":   "the hole comes first",
		"50 H8/f7 x": "50 H8",
	} {
		if s, err := limits.ParseSized(text, unit.Millimetre); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %+v, %v; wanted %q", text, s, err, says)
		}
	}
}

// FuzzSized gives any text: nothing panics, and what has limits has them the
// right way round and above zero.
func FuzzSized(f *testing.F) {
	for _, text := range []string{"50 H8/f7", "1 1/2 in RC5", "25 js7", "300 M6", "0.5 a9", "⌀3150 h18", "1e-9 H7", "\xff H7", "50 \u2300/f7", "9e17 zc18"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := limits.ParseSized(text, unit.Millimetre)
		if err != nil {
			return
		}
		in := []limits.Interval{}
		if s.Fit == nil {
			single, err := limits.Of(s.Size.Inside(), s.Code)
			if err != nil {
				return
			}
			in = append(in, single)
		} else {
			p, err := s.Fit.At(s.Size.Inside())
			if err != nil {
				return
			}
			in = append(in, p.Hole, p.Shaft)
		}
		for _, i := range in {
			if !(0 < i.Low && i.Low < i.High) {
				t.Fatalf("%q: from %g to %g mm", text, i.Low, i.High)
			}
		}
	})
}
