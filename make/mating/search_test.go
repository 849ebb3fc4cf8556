package mating

import (
	"math"
	"testing"
)

// TestRoot finds zeros known by hand, and in as few steps as false position takes:
// halving would take over forty.
func TestRoot(t *testing.T) {
	for name, c := range map[string]struct {
		low, high, want float64
		f               func(x float64) float64
		steps           int
	}{
		"a straight line":        {1, 9, 4, func(x float64) float64 { return 12 - 3*x }, 5},
		"a square, from below":   {0, 3, math.Sqrt(3), func(x float64) float64 { return 3 - x*x }, 14},
		"an inverse, from above": {0.1, 40, 0.7, func(x float64) float64 { return 1/x - 1/0.7 }, 40},
		"under zero all the way": {1, 9, 1, func(x float64) float64 { return -x }, 2},
		"over zero all the way":  {1, 9, 9, func(x float64) float64 { return 10 - x }, 2},
		"a step":                 {4, 6, 4.3, func(x float64) float64 { return math.Copysign(1, 4.3-x) }, 200},
	} {
		steps := 0
		got := root(c.low, c.high, func(x float64) float64 { steps++; return c.f(x) })
		closeTo(t, name, got, c.want, 1e-12)
		if steps > c.steps {
			t.Errorf("%s: %d steps", name, steps)
		}
	}
}

// TestLeast finds the bottom of a valley wherever it lies between the ends.
func TestLeast(t *testing.T) {
	for _, at := range []float64{-2, -1.7, 0.3, 2.9, 3} {
		closeTo(t, "bottom", least(-2, 3, func(x float64) float64 { return 7 + math.Abs(x-at) }), 7, 1e-8)
	}
}

// TestTurnsUntil: where the gap falls by less than its arm allows, it is used up
// where it is by hand.
func TestTurnsUntil(t *testing.T) {
	closeTo(t, "a gap that falls by 3 mm/rad", turnsUntil(func(twist float64) float64 { return 0.6 - 3*twist }, 5), 0.2, 1e-8)
	closeTo(t, "no gap", turnsUntil(func(float64) float64 { return 0 }, 5), 0, 0)
	closeTo(t, "no end", turnsUntil(func(float64) float64 { return 1 }, 5), math.Pi, 0)
}
