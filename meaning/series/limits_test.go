package series

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/tables/facts"
)

// TestPublishedLimits has limits as the standards print them.
func TestPublishedLimits(t *testing.T) {
	const mm, in = 1, inch
	for _, c := range []struct {
		thread, class, of string
		low, high         float64
		unit, half        float64 // of the figures, and half their last place
	}{
		// ISO 965-2, from memory.
		{"M10", "6g", screwMajor, 9.732, 9.968, mm, 0.0005},
		{"M10", "6g", screwEffective, 8.862, 8.994, mm, 0.0005},
		{"M10", "6H", nutEffective, 9.026, 9.206, mm, 0.0005},
		{"M10", "6H", nutMinor, 8.376, 8.676, mm, 0.0005},
		{"M6", "6g", screwMajor, 5.794, 5.974, mm, 0.0005},
		{"M6", "6H", nutMinor, 4.917, 5.153, mm, 0.0005},
		// ASME B1.1 table of limits, from memory. The standard rounds allowance
		// and tolerance before it takes them off, so the last place may differ.
		{"1/4-20 UNC", "2A", screwMajor, 0.2408, 0.2489, in, 0.0001},
		{"1/4-20 UNC", "2A", screwEffective, 0.2127, 0.2164, in, 0.0001},
		{"1/4-20 UNC", "2B", nutEffective, 0.2175, 0.2224, in, 0.0001},
		{"1/4-20 UNC", "2B", nutMinor, 0.196, 0.207, in, 0.0005},
		{"1/2-13 UNC", "2A", screwMajor, 0.4876, 0.4985, in, 0.0001},
		{"#4-40 UNC", "2B", nutMinor, 0.0849, 0.0939, in, 0.0001},
		{"#0-80 UNF", "2A", screwMajor, 0.0563, 0.0595, in, 0.0001},
	} {
		found := false
		for _, l := range threadLimits(row(t, c.thread)) {
			if l.Class != c.class || l.Of != c.of {
				continue
			}
			found = true
			if math.Abs(l.Low/c.unit-c.low) > c.half*(1+1e-6) || math.Abs(l.High/c.unit-c.high) > c.half*(1+1e-6) {
				t.Errorf("%s %s %s: %.5f to %.5f, printed %g to %g", c.thread, c.class, c.of, l.Low/c.unit, l.High/c.unit, c.low, c.high)
			}
			if l.Source == "" {
				t.Errorf("%s %s %s has no source", c.thread, c.class, c.of)
			}
		}
		if !found {
			t.Errorf("%s has no %s limits of the %s", c.thread, c.class, c.of)
		}
	}
}

// TestPitchDiameterToleranceOfTheHandbook: Td2 = 0.003668 in of 1/2-28 UNEF-2A
// (Machinery's Handbook, 31st ed., worked example).
func TestPitchDiameterToleranceOfTheHandbook(t *testing.T) {
	for _, l := range threadLimits(row(t, "1/2-28 UNEF")) {
		if l.Class == "2A" && l.Of == screwEffective {
			if width := (l.High - l.Low) / inch; math.Abs(width-0.003668) > 0.5e-6 {
				t.Errorf("Td2 = %.7f in, printed 0.003668", width)
			}
			return
		}
	}
	t.Error("no 2A limits of the effective diameter")
}

// TestBALimits: 0 BA normal screw, major 5.975 to 5.775 mm: basic 6 less the
// allowance of 0.025 and 0.20 p (BS 93 by its formulas, worked by hand).
func TestBALimits(t *testing.T) {
	for _, l := range threadLimits(row(t, "0 BA")) {
		if l.Class == "normal" && l.Of == screwMajor && (math.Abs(l.Low-5.775) > 1e-9 || math.Abs(l.High-5.975) > 1e-9) {
			t.Errorf("%.4f to %.4f", l.Low, l.High)
		}
	}
	for _, l := range threadLimits(row(t, "12 BA")) {
		if l.Class == "close" {
			t.Error("12 BA has no close class")
		}
	}
}

// TestWhitworthLimits works the medium class of 1 BSW out by hand: T = 0.002 +
// 0.003 + 0.005/√8 = 0.0067678 in (BS 84 by its formulas).
func TestWhitworthLimits(t *testing.T) {
	for _, l := range threadLimits(row(t, "1 BSW")) {
		if l.Class == "medium" && l.Of == screwEffective {
			if width := (l.High - l.Low) / inch; math.Abs(width-0.0067678) > 0.5e-7 {
				t.Errorf("T = %.8f in", width)
			}
		}
	}
}

// TestLimitsAreSound looks at all threads: a screw's limits are at or below the
// basic size, a nut's at or above, and a screw of any class goes into a nut of
// any class.
func TestLimitsAreSound(t *testing.T) {
	withLimits := 0
	for _, r := range facts.Threads() {
		b := basicSizes(r)
		limits := threadLimits(r)
		if len(limits) > 0 {
			withLimits++
		}
		for _, l := range limits {
			basic := map[string]float64{
				screwMajor: b.Major, screwEffective: b.Effective, screwMinor: b.MinorScrew, nutEffective: b.Effective, nutMinor: b.MinorNut,
			}[l.Of]
			sound := l.Low < l.High && l.High <= basic
			if l.Inside {
				sound = l.Low < l.High && l.Low >= basic
			}
			if !sound || l.Low <= 0 {
				t.Errorf("%s %s %s: %.4f to %.4f about %.4f mm", r.Designation, l.Class, l.Of, l.Low, l.High, basic)
			}
		}
	}
	if withLimits != 37+30+17+40+118+29+24+25 {
		t.Errorf("%d threads have limits", withLimits)
	}
}

// TestBasicSizesOfTheTables has basic sizes as the standards print them (BS 84,
// ISO 724, BS 93, ISO 2904, ASME B1.5; from memory).
func TestBasicSizesOfTheTables(t *testing.T) {
	for _, c := range []struct {
		thread           string
		effective, minor float64
		unit, half       float64
	}{
		{"1/2 BSW", 0.4466, 0.3933, inch, 0.00005},
		{"1/4 BSW", 0.2180, 0.1860, inch, 0.00005},
		{"M10", 9.026, 8.160, 1, 0.0005},
		{"M24", 22.051, 20.319, 1, 0.0005},
		{"2 BA", 4.215, 3.73, 1, 0.005},
		{"Tr 30x6", 27, 23, 1, 0.0005},
		{"1-5 Acme", 0.9, 0.78, inch, 0.0005},
		{"G 1/2", 19.793, 18.631, 1, 0.001}, // ISO 228 rounds the depth first
	} {
		b := basicSizes(row(t, c.thread))
		if math.Abs(b.Effective/c.unit-c.effective) > c.half*(1+1e-6) || math.Abs(b.MinorScrew/c.unit-c.minor) > c.half*(1+1e-6) {
			t.Errorf("%s: effective %.5f, minor %.5f, printed %g and %g", c.thread, b.Effective/c.unit, b.MinorScrew/c.unit, c.effective, c.minor)
		}
	}
}
