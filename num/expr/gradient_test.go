package expr

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// TestGradient compares every exact gradient with central differences, whose
// own error, h²f‴/6 and rounding, leaves about eight digits.
func TestGradient(t *testing.T) {
	for _, text := range []string{
		"D + d - h", "D - 2*d", "D*d/h", "d/(D*n)", "-D^2", "D^1.5", "x^n", "n^x", "x^2^x",
		"sqrt(D^2 - d^2)", "exp(x)*ln(n)", "sin(a) + cos(taper) + tan(a*x)",
		"asin(x) - acos(x*0.5)", "atan(D/d)", "abs(d - D)", "min(D, d, h)", "max(D, d, h)", "max(d, 10)",
		"(mouth - nose)/(2*tan(taper))", "tan(a) - a",
		"(D/2 - d/(2*cos(taper)))/tan(taper) - d/2", // a ball in a taper
		"D*(d + h*d/(nose - mouth*(x + n*(sin(a)/taper))))",
	} {
		e := parsed(t, text, shop(unit.Millimetre))
		at := valuesOf(e)
		gradient := make([]float64, len(at))
		if got, want := e.Eval(at, gradient), e.Eval(at, nil); got != want {
			t.Errorf("%s = %g with its gradient, %g without", text, got, want)
		}
		for i, name := range e.Names() {
			if want := difference(e, at, i); math.Abs(gradient[i]-want) > 1e-8*(1+math.Abs(want)) {
				t.Errorf("%s by %s: derivative %.12g, difference %.12g", text, name, gradient[i], want)
			}
		}
	}
}

// difference returns the central difference of e by its value i.
func difference(e *Expr, at []float64, i int) float64 {
	step := 1e-5 * math.Max(1, math.Abs(at[i]))
	up, down := append([]float64(nil), at...), append([]float64(nil), at...)
	up[i] += step
	down[i] -= step
	return (e.Eval(up, nil) - e.Eval(down, nil)) / (2 * step)
}

// TestGradientOfManyNames needs three rounds: Σ i·k_i² has the slopes 2·i·k_i.
func TestGradientOfManyNames(t *testing.T) {
	const names = 2*grad.Width + 3
	var terms []string
	at, gradient := make([]float64, names), make([]float64, names)
	for i := range names {
		terms = append(terms, fmt.Sprintf("%d*k%c^2", i+1, 'a'+i))
		at[i] = 1 + 0.5*float64(i)
	}
	e := parsed(t, strings.Join(terms, " + "), shop(unit.Millimetre))
	e.Eval(at, gradient)
	for i, got := range gradient {
		if want := 2 * float64(i+1) * at[i]; got != want {
			t.Errorf("slope by %s = %g, want %g", e.Names()[i], got, want)
		}
	}
}

// TestOrderOfWork evaluates formulas whose right operands go ever deeper.
func TestOrderOfWork(t *testing.T) {
	// D-(D-(D-…d)), 80 brackets: an even number of minus signs leaves d.
	e := parsed(t, strings.Repeat("D-(", 80)+"d"+strings.Repeat(")", 80), shop(unit.Millimetre))
	gradient := make([]float64, 2)
	if got := e.Eval([]float64{20, 6}, gradient); got != 6 || gradient[0] != 0 || gradient[1] != 1 {
		t.Errorf("nested differences = %g with slopes %v, want 6 and [0 1]", got, gradient)
	}
	// A full tree of 256 leaves, 511 parts, needs the most places of all.
	tree := "D"
	for range 8 {
		tree = "(" + tree + "+" + tree + ")"
	}
	e = parsed(t, tree, shop(unit.Millimetre))
	if got := e.Eval([]float64{0.5}, nil); got != 128 {
		t.Errorf("a full tree of halves = %g, want 128", got)
	}
}

func TestEvalDoesNotAllocate(t *testing.T) {
	e := parsed(t, "(mouth - nose)/(2*tan(taper)) + min(D, d, h)*sin(a)^n", shop(unit.Millimetre))
	at := valuesOf(e)
	gradient := make([]float64, len(at))
	if len(at) != grad.Width {
		t.Fatalf("%d names, want %d", len(at), grad.Width)
	}
	if allocations := testing.AllocsPerRun(100, func() { e.Eval(at, gradient) }); allocations != 0 {
		t.Errorf("one evaluation allocates %g times", allocations)
	}
}

func TestEvalTogether(t *testing.T) {
	e := parsed(t, "D*sin(a) - d", shop(unit.Millimetre))
	var group sync.WaitGroup
	for i := range 8 {
		group.Go(func() {
			gradient := make([]float64, 3)
			for range 200 {
				size := float64(i)
				if got := e.Eval([]float64{size, math.Pi / 2, 1}, gradient); got != size-1 || gradient[0] != 1 {
					t.Errorf("got %g with slope %g, want %g and 1", got, gradient[0], size-1)
				}
			}
		})
	}
	group.Wait()
}

func BenchmarkEval(b *testing.B) {
	e, err := Parse("(mouth - nose)/(2*tan(taper)) + D*sin(a)", shop(unit.Millimetre))
	if err != nil {
		b.Fatal(err)
	}
	at := valuesOf(e)
	gradient := make([]float64, len(at))
	for b.Loop() {
		e.Eval(at, gradient)
	}
}
