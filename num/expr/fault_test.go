package expr

import (
	"errors"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
)

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		text   string
		column int
		at     string // the offending text
		want   string // part of what is expected
	}{
		{"", 1, "", "a number, a name"},
		{"   ", 4, "", "a number, a name"},
		{"D +", 4, "", "a number, a name"},
		{"D d", 3, "d", "one of + - * / ^"},
		{"2 D", 3, "D", "one of + - * / ^"},
		{"(D", 3, "", "a closing bracket"},
		{"D)", 2, ")", "closes nothing"},
		{"()", 2, ")", "closes"},
		{"(D, d)", 1, "(", "only the bracket of a function"},
		{"D, d", 2, ",", "one of + - * / ^"},
		{"*D", 1, "*", "a number, a name"},
		{"D ** 2", 4, "*", "a number, a name"},
		{"5.", 2, ".", "no place"},
		{"D × d", 3, "×", "no place"},
		{"D + \xff", 5, "\xff", "no place"},
		{"6\" + D", 2, "\"", "inches are written in"},
		{"D in", 3, "in", "only after a number"},
		{"mm", 1, "mm", "only after a number"},
		{"1e999", 1, "1e999", "too large"},
		{"0x1p3", 2, "x1p3", "one of + - * / ^"},
		{"1/0", 2, "/", "no finite value"},
		{"sqrt(-1) + D", 1, "sqrt", "no finite value"},

		{"D + dose", 5, "dose", "did you mean nose?"},
		{"D + Q99", 5, "Q99", "there is no size or gauge piece of this name"},
		{"sine(a)", 1, "sine", "no such function; did you mean sin?"},
		{"part.dose", 1, "part.dose", "did you mean part.nose?"},
		{"nose.part", 1, "nose.part", "there is no size or gauge piece of this name"},
		{"part.nose.x", 1, "part.nose.x", "did you mean part.nose?"},
		{"part.nose.", 10, ".", "no place"},
		{"part.", 1, "part", "there is no size"},
		{"nose.", 5, ".", "no place"},
		{"part.5", 1, "part", "there is no size"},
		{"part.sin(a)", 1, "part.sin", "no such function"},
		{"5 mm.x", 3, "mm.x", "one of + - * / ^"},
		{"sin", 4, "", "the bracket of the function"},
		{"sin a", 5, "a", "the bracket of the function"},
		{"sin(a, a)", 1, "sin", "one argument, not 2"},
		{"min(D)", 1, "min", "two arguments or more"},
		{"max()", 5, ")", "closes"},
		{"pi(2)", 3, "(", "one of + - * / ^"},

		{"2 9/64 + D", 1, "2 9/64", "a mixed number needs its unit"},
		{"2 9/8 in", 1, "2 9/8 in", "fraction less than 1"},
		{"D + 1/0 in", 5, "1/0 in", "over zero"},
		{"D + 0.12345678901234567890123 in", 5, "0.12345678901234567890123 in", "too many digits"},
		{"0 tpi", 1, "0 tpi", "no pitch"},

		{"⌀", 1, "⌀", "no place"},
		{"D + a", 3, "+", "a length and an angle do not go together"},
		{"D - n", 3, "-", "a length and a plain number do not go together"},
		{"D + pi", 3, "+", "a length and a plain number"},
		{"D + 1 in/1 in", 3, "+", "a length and a plain number"},
		{"D^2 + 5", 5, "+", "an area and a plain number"},
		{"D^2 - D", 5, "-", "an area and a length"},
		{"min(D, a)", 1, "min", "a length and an angle"},
		{"max(n, d, D)", 1, "max", "a length and a plain number"},
		{"D + asin(0.5)", 3, "+", "a length and an angle"},
		{"a + 5", 3, "+", "needs its unit: 30 deg or 0.5 rad"},
		{"5 - a", 3, "-", "needs its unit"},
		{"min(tan(a), 1, a)", 1, "min", "needs its unit"},
		{"sin(30)", 1, "sin", "30 deg or 30 rad"},
		{"cos(2*(3 - 1))", 1, "cos", "30 deg or 30 rad"},
		{"tan(D)", 1, "tan", "an angle, not a length"},
		{"asin(D)", 1, "asin", "a plain number, not a length"},
		{"exp(a)", 1, "exp", "a plain number, not an angle"},
		{"ln(D*D)", 1, "ln", "a plain number, not an area"},
		{"sqrt(sqrt(D))", 1, "sqrt", "a root of a length to the power 1/2"},
		{"D^n", 2, "^", "the exponent of a length is constant"},
		{"D^0.3", 2, "^", "no whole or half power"},
		{"D^d", 2, "^", "an exponent is a plain number, not a length"},
		{"2^a", 2, "^", "an exponent is a plain number, not an angle"},
		{"D^99", 2, "^", "no whole or half power"},
		{"D^50*D", 5, "*", "out of all reason"},
	} {
		checkFault(t, c.text, c.column, c.at, c.want)
	}
}

func checkFault(t *testing.T, text string, column int, at, want string) {
	t.Helper()
	e, err := Parse(text, shop(unit.Millimetre))
	var fault *Error
	if e != nil || !errors.As(err, &fault) {
		t.Errorf("%q = %v, %v, want an error", text, e, err)
		return
	}
	if fault.Column != column || fault.Text != at || !strings.Contains(fault.Want, want) {
		t.Errorf("%q: %v, want %q about %q at column %d", text, err, want, at, column)
	}
}

func TestLimits(t *testing.T) {
	nested := func(depth int) string { return strings.Repeat("(-", depth) + "D" + strings.Repeat(")", depth) }
	calls := func(depth int) string { return strings.Repeat("abs(", depth) + "D" + strings.Repeat(")", depth) }
	sum := func(parts int) string { return "D" + strings.Repeat("+D", parts/2) }
	for _, text := range []string{nested(100), calls(100), sum(999), "D" + strings.Repeat(" ", 1999), strings.Repeat("-", 900) + "D"} {
		if _, err := Parse(text, shop(unit.Millimetre)); err != nil {
			t.Errorf("%.20q…: %v", text, err)
		}
	}
	checkFault(t, nested(101), 201, "(", "at most 100 deep")
	checkFault(t, calls(101), 404, "(", "at most 100 deep")
	checkFault(t, sum(1001), 1000, "+", "at most 1000 parts")
	checkFault(t, "D"+strings.Repeat(" ", 2000), 1, "", "at most 2000 bytes")
	checkFault(t, strings.Repeat("-", 1999)+"D", 1000, "-", "at most 1000 parts")
}

func TestErrorText(t *testing.T) {
	for text, want := range map[string]string{
		"D + a": `column 3: "+": a length and an angle do not go together here`,
		"D +":   `column 4: a number, a name, a function or a bracket is expected here`,
	} {
		if _, err := Parse(text, shop(unit.Millimetre)); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}
