package expr

import (
	"errors"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
)

func TestParseRightSide(t *testing.T) {
	mm, inch := shop(unit.Millimetre), shop(unit.Inch)
	for _, c := range []struct {
		left, text string
		env        Env
		want       float64 // constructed
	}{
		{"D", "5", mm, 5},
		{"D", "5", inch, 127},
		{"D", " 1/8 in", mm, 3.175},
		{"D", "2 9/64", inch, 54.371875}, // bc 1.07: 25.4*137/64
		{"D", "-0.5", inch, -12.7},
		{"D", "2-9/64 in", mm, 2 - 3.571875}, // a formula: a minus is a minus
		{"D", "14 tpi", mm, 25.4 / 14},
		{"D", "2*d", mm, 12},
		{"D", "2*3", inch, 152.4},
		{"D", "d + 1", inch, 31.4},
		{"a", "5", mm, math.Pi / 36},
		{"a", "0 deg", mm, 0},
		{"a", "-1d 30m", mm, -math.Pi / 120},
		{"a", "1:20", mm, .024994793618920159501717373649},        // bc -l 1.07: a(1/40)
		{"a", "0.602 in/ft", mm, .025078074727865432206115619746}, // bc -l 1.07: a(0.602/24)
		{"a", "0.02 rad", mm, 0.02},
		{"a", "2*taper", mm, 0.2},
		{"a", "pi/6", mm, math.Pi / 6},
		{"a", "d/D", mm, 0.3},
		{"a", "30 deg + taper", mm, math.Pi/6 + 0.1},
		{"d/D", "30 deg", mm, math.Pi / 6},
		{"n", "1/2", mm, 0.5},
		{"n", "5", inch, 5},
		{"tan(a) - a", "0.054", mm, 0.054},
		{"D*d", "120 mm*1 mm", mm, 120},
	} {
		left := parsed(t, c.left, c.env).Dimension()
		e, err := ParseRightSide(c.text, left, c.env)
		if err != nil {
			t.Errorf("%s = %s: %v", c.left, c.text, err)
			continue
		}
		if got := e.Eval(valuesOf(e), nil); !agrees(got, c.want) {
			t.Errorf("%s = %s: the right side is %.17g, want %.17g", c.left, c.text, got, c.want)
		}
	}
}

func TestParseRightSideRefuses(t *testing.T) {
	for _, c := range []struct{ left, text, want string }{
		{"D", "7/32", "write 7/32 in"},
		{"D", "5 deg", "a length is written"},
		{"D", "a", "a length and an angle"},
		{"D", "2*n", "a length and a plain number"},
		{"D", "", "a number, a name"},
		{"D", "0 tpi", "no pitch"},
		{"a", "1/2", "write 1/2 deg"},
		{"a", "5 mm", "an angle is written"},
		{"a", "2*3", "needs its unit"},
		{"a", "1d 70m", "less than 60"},
		{"n", "5 mm", "a length and a plain number"},
		{"n", "1:20", "no place in a formula"},
		{"D*d", "5", "an area and a plain number"},
		{"D", strings.Repeat("1", 65), "at most 64"},
		{"D", strings.Repeat("1+", 1000) + "1", "at most 2000 bytes"},
	} {
		env := shop(unit.Millimetre)
		e, err := ParseRightSide(c.text, parsed(t, c.left, env).Dimension(), env)
		var fault *Error
		if !errors.As(err, &fault) || fault.Column < 1 || !strings.Contains(fault.Want, c.want) {
			t.Errorf("%s = %s: %v, %v, want %q", c.left, c.text, e, err, c.want)
		}
	}
}

// FuzzParse gives both readers any text: neither panics, a fault stands within
// the text, and a formula with every name in brackets means the same.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"", "(mouth - nose)/(2*tan(taper))", "1/8 in + D", "2 9/64 in", "2-9/64 in", "D^2^n", "-a^2", "min(1, D, 5)",
		"sqrt(D^2 - d^2)", "tan(a) - a", "sin(30)", "D + \xff", "((((D))))", "1e999", "1:20", "1d 29m 27s", "14 tpi", "part.nose - nose", "part.", "a.b.c", ".5.x", "ka+kb+kc+kd+ke+kf+kg+kh+ki",
	} {
		f.Add(text)
	}
	env := shop(unit.Inch)
	f.Fuzz(func(t *testing.T, text string) {
		for _, left := range []Dimension{number, length, angle} {
			e, err := ParseRightSide(text, left, env)
			checkFuzzed(t, text, e, err)
		}
		e, err := Parse(text, env)
		checkFuzzed(t, text, e, err)
		if err != nil {
			return
		}
		again, err := Parse(e.WithNumbers(func(name string) string { return "(" + name + ")" }), env)
		if err != nil {
			if strings.Contains(err.Error(), "at most") {
				return // the brackets led over a limit
			}
			t.Fatalf("%q with its names in brackets: %v", text, err)
		}
		at := valuesOf(e)
		if got, want := again.Eval(at, nil), e.Eval(at, nil); got != want && !(math.IsNaN(got) && math.IsNaN(want)) {
			t.Fatalf("%q is %g, with its names in brackets %g", text, want, got)
		}
	})
}

func checkFuzzed(t *testing.T, text string, e *Expr, err error) {
	if err == nil {
		e.Eval(make([]float64, len(e.Names())), make([]float64, len(e.Names())))
		return
	}
	if fault := err.(*Error); fault.Column < 1 || fault.Column > len(text)+1 || fault.Want == "" {
		t.Fatalf("%q: fault at column %d: %q", text, fault.Column, fault.Want)
	}
}
