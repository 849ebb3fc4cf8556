package unit

import (
	"errors"
	"strings"
	"testing"
)

// quantityReader is one of the readers of a single value.
type quantityReader func(text string) (Quantity, error)

func lengthIn(bare Unit) quantityReader {
	return func(text string) (Quantity, error) { return ParseLength(text, bare) }
}

func pitchIn(bare Unit) quantityReader {
	return func(text string) (Quantity, error) { return ParsePitch(text, bare) }
}

var (
	lengthMM   = lengthIn(Millimetre)
	lengthInch = lengthIn(Inch)
	pitchMM    = pitchIn(Millimetre)
	pitchInch  = pitchIn(Inch)
)

func TestRead(t *testing.T) {
	for _, c := range []struct {
		name     string
		read     quantityReader
		text     string
		num, den int64
		unit     Unit
	}{
		{"length", lengthMM, "12.7", 127, 10, Millimetre},
		{"length", lengthMM, "2.35 mm", 47, 20, Millimetre},
		{"length", lengthMM, "0.4375 in", 7, 16, Inch},
		{"length", lengthMM, "7/32 in", 7, 32, Inch},
		{"length", lengthMM, "2 9/64 in", 137, 64, Inch},
		{"length", lengthMM, "2-9/64\"", 137, 64, Inch},
		{"length", lengthMM, "-2-9/64 in", -137, 64, Inch},
		{"length", lengthMM, "+2 9/64in", 137, 64, Inch},
		{"length", lengthMM, "6\"", 6, 1, Inch},
		{"length", lengthMM, "1e-5 in", 1, 100000, Inch},
		{"length", lengthMM, "1.5E+3 mm", 1500, 1, Millimetre},
		{"length", lengthMM, " \t12.7mm ", 127, 10, Millimetre},
		{"length", lengthMM, ".5 in", 1, 2, Inch},
		{"length", lengthMM, "-0.05", -1, 20, Millimetre},
		{"length", lengthMM, "1/3 mm", 1, 3, Millimetre},
		{"length", lengthMM, "25.4/2 mm", 127, 10, Millimetre},
		{"length", lengthMM, "0.00000000000000000000000000000000000000000000000000", 0, 1, Millimetre},
		{"length, inch file", lengthInch, "7/32", 7, 32, Inch},
		{"length, inch file", lengthInch, "2 9/64", 137, 64, Inch},
		{"length, inch file", lengthInch, "0.5", 1, 2, Inch},
		{"length, inch file", lengthInch, "12.7 mm", 127, 10, Millimetre},
		{"pitch", pitchMM, "1.5", 3, 2, Millimetre},
		{"pitch", pitchMM, "14 tpi", 14, 1, ThreadsPerInch},
		{"pitch", pitchMM, "11 1/2 tpi", 23, 2, ThreadsPerInch},
		{"pitch", pitchMM, "1/14 in", 1, 14, Inch},
		{"pitch, inch file", pitchInch, "1/14", 1, 14, Inch},
		{"angle", ParseAngle, "60 deg", 60, 1, Degree},
		{"angle", ParseAngle, "60", 60, 1, Degree},
		{"angle", ParseAngle, "-29.5deg", -59, 2, Degree},
		{"angle", ParseAngle, "29 1/2 deg", 59, 2, Degree},
		{"angle", ParseAngle, "1d 29m 27s", 5367, 3600, Degree},
		{"angle", ParseAngle, "1d29m27s", 5367, 3600, Degree},
		{"angle", ParseAngle, "1d", 1, 1, Degree},
		{"angle", ParseAngle, "1.5d", 3, 2, Degree},
		{"angle", ParseAngle, "1d 27.5s", 3627*2 + 1, 7200, Degree},
		{"angle", ParseAngle, "-0d 5m", -1, 12, Degree},
		{"angle", ParseAngle, "0.02 rad", 1, 50, Radian},
		{"angle", ParseAngle, "0.602 in/ft", 301, 500, InchPerFoot},
		{"angle", ParseAngle, "5/8 in/ft", 5, 8, InchPerFoot},
		{"angle", ParseAngle, "1:20", 1, 20, TaperRatio},
		{"angle", ParseAngle, "-1:19.212", -250, 4803, TaperRatio},
		{"angle", ParseAngle, "7:24", 7, 24, TaperRatio},
		{"number", ParseNumber, "1.25", 5, 4, One},
		{"number", ParseNumber, "-3", -3, 1, One},
		{"number", ParseNumber, "1/2", 1, 2, One},
		{"number", ParseNumber, "1e-18", 1, 1e18, One},
		{"number", ParseNumber, "9223372036854775807", 1<<63 - 1, 1, One},
		{"force", ParseForce, "2000 N", 2000, 1, Newton},
		{"force", ParseForce, "-2.5kN", -5, 2, Kilonewton},
		{"force", ParseForce, "450 1/2 lbf", 901, 2, PoundForce},
		{"torque", ParseTorque, "25 N m", 25, 1, NewtonMetre},
		{"torque", ParseTorque, "25 Nm", 25, 1, NewtonMetre},
		{"torque", ParseTorque, "250 N mm", 250, 1, NewtonMillimetre},
		{"torque", ParseTorque, "250Nmm", 250, 1, NewtonMillimetre},
		{"torque", ParseTorque, "18.5 lbf ft", 37, 2, PoundForceFoot},
		{"torque", ParseTorque, "220 lbf in", 220, 1, PoundForceInch},
	} {
		got, err := c.read(c.text)
		if want := made(t, c.num, c.den, c.unit); err != nil || got != want {
			t.Errorf("%s %q = %v, %v, want %v", c.name, c.text, got, err, want)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct {
		name   string
		read   quantityReader
		text   string
		column int
		want   string // part of what is expected
	}{
		{"length", lengthMM, "", 1, "a length is written"},
		{"length", lengthMM, "   ", 4, "a length is written"},
		{"length", lengthMM, "7/32", 1, "only a length in an inch file; write 7/32 in"},
		{"length", lengthMM, " 2 9/64 ", 2, "write 2 9/64 in"},
		{"length", lengthMM, "1/8/2 in", 4, "a length is written"},
		{"length", lengthMM, "1/8/2", 4, "a length is written"},
		{"length", lengthMM, "1/0 in", 3, "over zero"},
		{"length", lengthMM, "2 9/0 in", 5, "over zero"},
		{"length", lengthMM, "2 9/8 in", 2, "fraction less than 1"},
		{"length", lengthMM, "2.5 9/64 in", 4, "a whole number and a fraction"},
		{"length", lengthMM, "2 9 in", 4, "a length is written"},
		{"length", lengthMM, "2 -9/64 in", 3, "a length is written"},
		{"length", lengthMM, "NaN", 1, "a length is written"},
		{"length", lengthMM, "-Inf", 2, "a length is written"},
		{"length", lengthMM, "0x1p3", 2, "a length is written"},
		{"length", lengthMM, "1_000", 2, "a length is written"},
		{"length", lengthMM, "5.", 2, "a length is written"},
		{"length", lengthMM, "1.2.3", 4, "a length is written"},
		{"length", lengthMM, "1,5", 2, "a length is written"},
		{"length", lengthMM, "2e", 2, "a length is written"},
		{"length", lengthMM, "5 inch", 5, "a length is written"},
		{"length", lengthMM, "5 IN", 3, "a length is written"},
		{"length", lengthMM, "5 ⌀mm", 3, "a length is written"},
		{"length", lengthMM, "14 tpi", 4, "a length is written"},
		{"length", lengthMM, "--5", 2, "a length is written"},
		{"length", lengthMM, "1e400", 2, "too many digits"},
		{"length", lengthMM, "9223372036854775808", 1, "too many digits"},
		{"length", lengthMM, "0.1234567890123456789012", 1, "too many digits"},
		{"length", lengthMM, strings.Repeat("1", 65), 1, "at most 64 characters"},
		{"length, inch file", lengthInch, "1/8/2", 4, "a length is written"},
		{"pitch", pitchMM, "0 tpi", 1, "no pitch"},
		{"pitch", pitchMM, "1/14", 1, "write 1/14 in"},
		{"pitch", pitchMM, "14 deg", 4, "a pitch is written"},
		{"angle", ParseAngle, "1/2", 1, "write 1/2 deg"},
		{"angle", ParseAngle, "1:0", 3, "over zero"},
		{"angle", ParseAngle, "1:", 3, "an angle is written"},
		{"angle", ParseAngle, "1:20:3", 5, "an angle is written"},
		{"angle", ParseAngle, "1:20 deg", 6, "an angle is written"},
		{"angle", ParseAngle, "1d 60m", 3, "less than 60"},
		{"angle", ParseAngle, "1d 5m 60.5s", 6, "less than 60"},
		{"angle", ParseAngle, "1.5d 3m", 5, "only the last part has decimals"},
		{"angle", ParseAngle, "1d 27s 5m", 8, "an angle is written"},
		{"angle", ParseAngle, "5m", 2, "an angle is written"},
		{"angle", ParseAngle, "5 mm", 3, "an angle is written"},
		{"number", ParseNumber, "5 mm", 3, "a plain number is written"},
		{"number", ParseNumber, "2 1/2", 3, "a plain number is written"},
		{"number", ParseNumber, "NO", 1, "a plain number is written"},
		{"force", ParseForce, "2000", 5, "a force is written with its unit"},
		{"force", ParseForce, "25 N m", 6, "a force is written with its unit"},
		{"force", ParseForce, "2 MN", 3, "a force is written with its unit"},
		{"torque", ParseTorque, "25", 3, "a torque is written with its unit"},
		{"torque", ParseTorque, "25 N", 4, "a torque is written with its unit"},
		{"torque", ParseTorque, "25 N mmm", 8, "a torque is written with its unit"},
		{"torque", ParseTorque, "25 N·m", 4, "a torque is written with its unit"},
	} {
		q, err := c.read(c.text)
		var syntax *SyntaxError
		if !errors.As(err, &syntax) {
			t.Errorf("%s %q = %v, %v, want a syntax error", c.name, c.text, q, err)
			continue
		}
		if q.Given() || syntax.Text != c.text || syntax.Column != c.column || !strings.Contains(syntax.Want, c.want) {
			t.Errorf("%s %q: %v at column %d of %q, want %q at column %d", c.name, c.text, syntax, syntax.Column, syntax.Text, c.want, c.column)
		}
	}
}

func TestSyntaxErrorText(t *testing.T) {
	_, err := ParseLength("7/32", Millimetre)
	want := `"7/32": a bare fraction is only a length in an inch file; write 7/32 in`
	if err == nil || err.Error() != want {
		t.Errorf("the error is\n%v, want\n%s", err, want)
	}
	_, err = ParseNumber(strings.Repeat("1", 39) + "⌀⌀")
	want = `"` + strings.Repeat("1", 39) + `…": ` + wantNumber
	if err == nil || err.Error() != want {
		t.Errorf("the error is\n%v, want\n%s", err, want)
	}
}

func TestParseRange(t *testing.T) {
	for _, c := range []struct {
		text      string
		bare      Unit
		low, high string // each as ParseLength reads it
	}{
		{"0.05..0.20 mm", Inch, "0.05 mm", "0.20 mm"},
		{"0.05..0.20", Inch, "0.05 in", "0.20 in"},
		{"-0.02 .. 0.01", Millimetre, "-0.02 mm", "0.01 mm"},
		{"1/8..3/16 in", Millimetre, "1/8 in", "3/16 in"},
		{"1/8..3/16", Inch, "1/8 in", "3/16 in"},
		{"1 mm..1 in", Millimetre, "1 mm", "1 in"},
		{"1...5 mm", Millimetre, "", ""}, // downwards: 1 to .5
		{"0.1...5 mm", Millimetre, "0.1 mm", "0.5 mm"},
		{"2..2 mm", Millimetre, "2 mm", "2 mm"},
		{"25.4 mm..1 in", Millimetre, "25.4 mm", "1 in"},
		{"0.20..0.05 mm", Millimetre, "", ""},
		{"1 in..25 mm", Millimetre, "", ""},
		{"1 mm..2", Millimetre, "", ""},
		{"1/8..3/16", Millimetre, "", ""},
		{"0.05", Millimetre, "", ""},
		{"0.05..", Millimetre, "", ""},
		{"..0.05", Millimetre, "", ""},
		{"0.05..0.1..0.2", Millimetre, "", ""},
		{"0.05-0.1", Millimetre, "", ""},
	} {
		got, err := ParseRange(c.text, c.bare)
		if c.low == "" {
			var syntax *SyntaxError
			if !errors.As(err, &syntax) {
				t.Errorf("range %q = %v, %v, want a syntax error", c.text, got, err)
			}
			continue
		}
		low, _ := ParseLength(c.low, c.bare)
		high, _ := ParseLength(c.high, c.bare)
		if err != nil || got != (Range{low, high}) {
			t.Errorf("range %q = %v, %v, want %v..%v", c.text, got, err, low, high)
		}
	}
}

func TestParseNumberRange(t *testing.T) {
	for _, c := range []struct{ text, low, high string }{
		{"0.12..0.20", "0.12", "0.20"},
		{" 1/8 .. 1/4 ", "1/8", "1/4"},
		{"-1..0", "-1", "0"},
		{"0.15..0.15", "0.15", "0.15"},
		{"0.20..0.12", "", ""},
		{"0.12..0.20 mm", "", ""},
		{"0.12", "", ""},
		{"0.12-0.20", "", ""},
		{"", "", ""},
	} {
		got, err := ParseNumberRange(c.text)
		if c.low == "" {
			var syntax *SyntaxError
			if !errors.As(err, &syntax) || got.Given() {
				t.Errorf("range %q = %v, %v, want a syntax error", c.text, got, err)
			}
			continue
		}
		low, _ := ParseNumber(c.low)
		high, _ := ParseNumber(c.high)
		if err != nil || got != (Range{low, high}) || !got.Given() {
			t.Errorf("range %q = %v, %v, want %v..%v", c.text, got, err, low, high)
		}
	}
}
