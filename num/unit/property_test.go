package unit

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var everyUnit = []Unit{
	One, Millimetre, Inch, Degree, Radian, InchPerFoot, TaperRatio, ThreadsPerInch,
	Newton, Kilonewton, PoundForce, NewtonMillimetre, NewtonMetre, PoundForceInch, PoundForceFoot,
}

// read reads text as the value that a quantity of unit u is.
func read(text string, u Unit) (Quantity, error) {
	switch u.Dimension() {
	case Length:
		return ParsePitch(text, Millimetre)
	case Angle:
		return ParseAngle(text)
	case Force:
		return ParseForce(text)
	case Torque:
		return ParseTorque(text)
	}
	return ParseNumber(text)
}

// anyQuantity draws quantities with denominators as people write them and
// others.
func anyQuantity(t *rapid.T) Quantity {
	den := rapid.OneOf(
		rapid.SampledFrom([]int64{1, 2, 3, 7, 12, 64, 128, 1000, 3600, 36000, 1e6, 1e18}),
		rapid.Int64Range(1, math.MaxInt64),
	).Draw(t, "den")
	num := rapid.OneOf(rapid.Int64Range(-10000, 10000), rapid.Int64()).Draw(t, "num")
	q, err := New(num, den, rapid.SampledFrom(everyUnit).Draw(t, "unit"))
	if err != nil {
		t.Skip(err)
	}
	return q
}

func TestPrintThenReadIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := anyQuantity(t)
		got, err := read(q.String(), q.Unit())
		if err != nil || got != q {
			t.Fatalf("%q reads as %v, %v", q.String(), got, err)
		}
	})
}

// TestInchAndMillimetreAgree writes a whole number of ten-thousandths of an
// inch in both units.
func TestInchAndMillimetreAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenths := rapid.Int64Range(-1e12, 1e12).Draw(t, "tenths of a thou")
		inches, err := ParseLength(strconv.FormatInt(tenths, 10)+"e-4 in", Millimetre)
		if err != nil {
			t.Fatal(err)
		}
		mm, err := ParseLength(strconv.FormatInt(tenths*254, 10)+"e-5", Millimetre)
		if err != nil {
			t.Fatal(err)
		}
		if !inches.Equal(mm) || inches.Inside() != mm.Inside() {
			t.Fatalf("%v and %v differ: %v and %v mm", inches, mm, inches.Inside(), mm.Inside())
		}
	})
}

func TestNearestFractionIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-1e4, 1e4).Draw(t, "mm")
		den := rapid.SampledFrom([]int64{2, 64, 128}).Draw(t, "den")
		q, above := NearestFraction(mm, den)
		if den%q.den != 0 {
			t.Fatalf("%v has a denominator that does not divide %d", q, den)
		}
		if half := MillimetresPerInch / float64(2*den); math.Abs(above) > half*(1+1e-9) {
			t.Fatalf("%g mm is %g mm from %v: over half a step, %g mm", mm, above, q, half)
		}
	})
}

// FuzzParse gives all readers any text: none panics, an error has its column
// within the text, and what is read prints and reads again as the same.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"", "12.7", "2.35 mm", "7/32 in", "2 9/64 in", "2-9/64\"", "1e-5 in", "60 deg", "1d 29m 27s", "0.02 rad",
		"0.602 in/ft", "1:20", "14 tpi", "0.05..0.20 mm", "1/8/2", "1e99", "-0d 5m", "\xff\xfe", "5 ⌀", "1:0", "NaN", "0 tpi",
		"25 N m", "25Nm", "18 lbf ft", "2 kN", "450lbf", "0.12..0.20", "1/8..1/4",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, bare := range []Unit{Millimetre, Inch} {
			for _, parse := range []quantityReader{lengthIn(bare), pitchIn(bare), ParseAngle, ParseNumber, ParseForce, ParseTorque} {
				q, err := parse(text)
				check(t, text, q, err)
			}
			r, err := ParseRange(text, bare)
			check(t, text, r.Low, err)
			check(t, text, r.High, err)
		}
		r, err := ParseNumberRange(text)
		check(t, text, r.Low, err)
		check(t, text, r.High, err)
	})
}

func check(t *testing.T, text string, q Quantity, err error) {
	if err != nil {
		syntax := err.(*SyntaxError)
		if syntax.Column < 1 || syntax.Column > len(text)+1 || strings.TrimSpace(syntax.Want) == "" {
			t.Fatalf("%q: column %d, want %q", text, syntax.Column, syntax.Want)
		}
		return
	}
	again, err := read(q.String(), q.Unit())
	if err != nil || again != q {
		t.Fatalf("%q reads as %v, which reads as %v, %v", text, q, again, err)
	}
}
