package expr

import (
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// shop is the environment of the tests: lengths D d h nose mouth, angles a
// taper, plain numbers n x, lengths ka to kt, and the length part.nose.
func shop(bareUnit unit.Unit) Env {
	symbols := map[string]unit.Dimension{
		"D": unit.Length, "d": unit.Length, "h": unit.Length, "nose": unit.Length, "mouth": unit.Length,
		"part.nose": unit.Length,
		"a":         unit.Angle, "taper": unit.Angle, "n": unit.Number, "x": unit.Number,
	}
	for i := range 20 {
		symbols["k"+string(rune('a'+i))] = unit.Length
	}
	var names []string
	for name := range symbols {
		names = append(names, name)
	}
	slices.Sort(names)
	lookup := func(name string) (Symbol, bool) {
		d, ok := symbols[name]
		return Symbol{d}, ok
	}
	return Env{Bare: bareUnit, Lookup: lookup, Names: names}
}

// values are those of the names in the tests, in mm and radians.
var values = map[string]float64{
	"D": 20, "d": 6, "h": 12.7, "nose": 12.5, "mouth": 16, "part.nose": 12.25, "a": math.Pi / 6, "taper": 0.1, "n": 4, "x": 0.25,
}

func valuesOf(e *Expr) []float64 {
	list := make([]float64, len(e.Names()))
	for i, name := range e.Names() {
		list[i] = values[name]
	}
	return list
}

func parsed(t *testing.T, text string, env Env) *Expr {
	t.Helper()
	e, err := Parse(text, env)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return e
}

// agrees compares to 14 digits.
func agrees(got, want float64) bool {
	return got == want || math.Abs(got-want) <= 1e-14*math.Max(math.Abs(got), math.Abs(want))
}

func TestValue(t *testing.T) {
	mm, inch := shop(unit.Millimetre), shop(unit.Inch)
	for _, c := range []struct {
		text string
		env  Env
		want float64 // worked by hand, constructed, unless a source is named
		of   string  // dimension
	}{
		{"1 + 2*3", mm, 7, "a plain number"},
		{"-2^2", mm, -4, "a plain number"},
		{"2^-3", mm, 0.125, "a plain number"},
		{"2^3^2", mm, 512, "a plain number"},
		{"2^-2^2", mm, 0.0625, "a plain number"},
		{"8/4/2", mm, 1, "a plain number"},
		{"8 - 4 - 2", mm, 2, "a plain number"},
		{"2*-3", mm, -6, "a plain number"},
		{"--3 + +1", mm, 4, "a plain number"},
		{"(1 + 2)*3", mm, 9, "a plain number"},
		{"1.5e1 + .5", mm, 15.5, "a plain number"},
		{"3.14159265358979323846", mm, math.Pi, "a plain number"},
		{"\tD\n+\r\nd ", mm, 26, "a length"},

		{"1/8 in", mm, 3.175, "a length"},
		{"D/1/8 in", mm, 20 / 3.175, "a plain number"},
		{"D*1/8", mm, 2.5, "a length"},
		{"1 / 8 in", mm, 3.175, "a length"},
		{"1/8in^2", mm, 3.175 * 3.175, "an area"},
		{"2 9/64 in", mm, 54.371875, "a length"}, // bc 1.07: 25.4*137/64
		{"2 - 9/64 in", mm, 2 - 3.571875, "a length"},
		{"2-9/64 in", mm, 2 - 3.571875, "a length"},
		{"2-9/64 in", inch, 47.228125, "a length"}, // bc 1.07: 25.4*(2 - 9/64)
		{"25.4/2 mm", mm, 12.7, "a length"},
		{"1 1/2 deg + a", mm, math.Pi/6 + math.Pi/120, "an angle"},
		{"14 tpi", mm, 25.4 / 14, "a length"},
		{"11 1/2 tpi*2", mm, 25.4 / 11.5 * 2, "a length"},
		{"0.5 rad", mm, 0.5, "an angle"},

		{"D + 5", mm, 25, "a length"},
		{"D + 5", inch, 147, "a length"},
		{"5 - D", inch, 107, "a length"},
		{"D + (2 + 3)*2/2", inch, 147, "a length"},
		{"D + -sqrt(25)", inch, -107, "a length"},
		{"2*D + 1/8", inch, 43.175, "a length"},
		{"5*D", inch, 100, "a length"},
		{"min(D, 5)", mm, 5, "a length"},
		{"min(1, D, 5)", inch, 20, "a length"},
		{"max(D, d, 1, h)", inch, 25.4, "a length"},
		{"max(1, 2, 3)", inch, 3, "a plain number"},
		{"abs(d - D)", mm, 14, "a length"},

		{"sqrt(D^2 - d^2)", mm, math.Sqrt(364), "a length"},
		{"sqrt(D)*sqrt(d)", mm, math.Sqrt(120), "a length"},
		{"nose - part.nose", mm, 0.25, "a length"},
		{"2*part.nose/nose", mm, 1.96, "a plain number"},
		{"D^1.5/sqrt(D)", mm, 20, "a length"},
		{"D^(1/2)", mm, math.Sqrt(20), "a length to the power 1/2"},
		{"D*d*h", mm, 1524, "a volume"},
		{"1/D", mm, 0.05, "a length to the power -1"},
		{"D^2/D^2", mm, 1, "a plain number"},
		{"D^0", mm, 1, "a plain number"},
		{"x^n", mm, 0.00390625, "a plain number"},
		{"exp(ln(n))", mm, 4, "a plain number"},

		{"sin(a)", mm, 0.5, "a plain number"},
		{"sin(30 deg) + cos(60 deg) + tan(45 deg)", mm, 2, "a plain number"},
		{"sin(pi/6)", mm, 0.5, "a plain number"},
		{"sin(x*2)", mm, math.Sin(0.5), "a plain number"},
		{"asin(0.5)", mm, math.Pi / 6, "an angle"},
		{"acos(x*2) - a", mm, math.Pi / 6, "an angle"},
		{"atan(D/d)/2", mm, math.Atan2(10, 3) / 2, "an angle"},
		{"a - pi/2", mm, -math.Pi / 3, "an angle"},
		{"a + 30 deg", mm, math.Pi / 3, "an angle"},
		{"tan(a) - a", mm, 1/math.Sqrt(3) - math.Pi/6, "a plain number"},
		{"3*a/a", mm, 3, "a plain number"},
		{"a*a", mm, math.Pi * math.Pi / 36, "a plain number"},
		{"a^2", mm, math.Pi * math.Pi / 36, "a plain number"},
		{"1/a", mm, 6 / math.Pi, "a plain number"},
		{"D/2*a", mm, 10 * math.Pi / 6, "a length"},
		{"D*a/d + a", mm, 20*math.Pi/36 + math.Pi/6, "a plain number"},

		// Job file format, its first example: at these sizes the mouth stands
		// this far along; bc -l 1.07: 3.5/(2*s(.1)/c(.1)).
		{"(mouth - nose)/(2*tan(taper))", mm, 17.441627740703665, "a length"},
		// Involute of 30°: 0.053751, Machinery's Handbook, table of involute
		// functions, from memory; to all digits by bc -l 1.07.
		{"tan(30 deg) - 30 deg", mm, 0.0537514935913268914, "a plain number"},
	} {
		e, err := Parse(c.text, c.env)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if got := e.Eval(valuesOf(e), nil); !agrees(got, c.want) || e.Dimension().String() != c.of {
			t.Errorf("%s = %.17g, %v, want %.17g, %s", c.text, got, e.Dimension(), c.want, c.of)
		}
	}
}

func TestOutsideTheDomainIsNaN(t *testing.T) {
	for _, text := range []string{"sqrt(d - D)", "ln(-n)", "asin(n)"} {
		e := parsed(t, text, shop(unit.Millimetre))
		if got := e.Eval(valuesOf(e), make([]float64, len(e.Names()))); !math.IsNaN(got) {
			t.Errorf("%s = %g, want NaN", text, got)
		}
	}
}

func TestNamesAndText(t *testing.T) {
	text := " (mouth - nose)/(2*tan(taper)) + nose"
	e := parsed(t, text, shop(unit.Millimetre))
	if want := []string{"mouth", "nose", "taper"}; !slices.Equal(e.Names(), want) {
		t.Errorf("names %v, want %v", e.Names(), want)
	}
	if e.String() != text {
		t.Errorf("written %q, want %q", e.String(), text)
	}
	show := map[string]string{"mouth": "16.02", "nose": "-12.7", "taper": "5.007°"}
	got := e.WithNumbers(func(name string) string { return show[name] })
	if want := " (16.02 - (-12.7))/(2*tan(5.007°)) + (-12.7)"; got != want {
		t.Errorf("with numbers %q, want %q", got, want)
	}
}

func TestReserved(t *testing.T) {
	for word, want := range map[string]bool{"mm": true, "tpi": true, "sin": true, "max": true, "pi": true, "nose": false, "Pi": false, "": false} {
		if Reserved(word) != want {
			t.Errorf("%q reserved: %t, want %t", word, !want, want)
		}
	}
}

func TestEvalOfTheWrongLengthPanics(t *testing.T) {
	e := parsed(t, "D + d", shop(unit.Millimetre))
	for _, c := range [][2][]float64{{{1}, nil}, {{1, 2}, {0}}, {{1, 2}, {}}} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("Eval(%v, %v) returned", c[0], c[1])
				}
			}()
			e.Eval(c[0], c[1])
		}()
	}
}

func TestDimensionNames(t *testing.T) {
	e := parsed(t, strings.Repeat("D*", 4)+"D", shop(unit.Millimetre))
	if got := e.Dimension().String(); got != "a length to the power 5" {
		t.Errorf("D⁵ is %q", got)
	}
	d := parsed(t, "D", shop(unit.Millimetre)).Dimension()
	if !d.IsLength() || d.IsAngle() || d.IsNumber() {
		t.Errorf("a length is taken for something else")
	}
}
