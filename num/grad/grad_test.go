package grad

import (
	"math"
	"testing"
)

// TestDerivatives compares every function's exact slope with a central
// difference at several points: independent of the rules coded here.
func TestDerivatives(t *testing.T) {
	c := Const(1.7)
	functions := map[string]func(Number) Number{
		"add":     func(a Number) Number { return a.Add(c).Add(a) },
		"sub":     func(a Number) Number { return c.Sub(a) },
		"mul":     func(a Number) Number { return a.Mul(a).Mul(c) },
		"div":     func(a Number) Number { return c.Div(a).Add(a.Div(c)) },
		"plus":    func(a Number) Number { return a.Plus(3).Times(2).Neg().Half() },
		"sq":      Number.Sq,
		"sqrt":    Number.Sqrt,
		"exp":     Number.Exp,
		"ln":      Number.Ln,
		"sin":     Number.Sin,
		"cos":     Number.Cos,
		"tan":     Number.Tan,
		"asin":    Number.Asin,
		"acos":    Number.Acos,
		"atan":    Number.Atan,
		"abs":     func(a Number) Number { return a.Neg().Abs().Add(a.Abs()) },
		"min":     func(a Number) Number { return Min(a.Sq(), a.Times(5)) },
		"max":     func(a Number) Number { return Max(a.Sq(), a.Times(0.01)) },
		"pow":     func(a Number) Number { return Pow(a, Const(2.5)).Add(Pow(c, a)) },
		"pow var": func(a Number) Number { return Pow(a, a) },
	}
	for name, f := range functions {
		for _, x := range []float64{0.11, 0.37, 0.52, 0.93} {
			h := 1e-5
			want := (f(Const(x+h)).X - f(Const(x-h)).X) / (2 * h)
			got := f(Var(x, 3)).D[3]
			if math.Abs(got-want) > 1e-8*(1+math.Abs(want)) {
				t.Errorf("%s at %g: derivative %.12g, difference %.12g", name, x, got, want)
			}
		}
	}
}

func TestPowOfNegativeBase(t *testing.T) {
	got := Pow(Var(-3, 0), Const(2))
	if got.X != 9 || got.D[0] != -6 {
		t.Errorf("(-3)^2 = %g with slope %g, want 9 and -6", got.X, got.D[0])
	}
}

func TestOutsideTheDomainIsNaN(t *testing.T) {
	for name, n := range map[string]Number{"sqrt": Const(-1).Sqrt(), "ln": Const(-1).Ln(), "asin": Const(2).Asin()} {
		if !math.IsNaN(n.X) {
			t.Errorf("%s outside its domain = %g, want NaN", name, n.X)
		}
	}
}
