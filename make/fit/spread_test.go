package fit

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// TestSpreadAgreesWithIntegration holds the closed form against numeric
// integration by testdata/oracle/fit.py (scipy.integrate.quad).
func TestSpreadAgreesWithIntegration(t *testing.T) {
	program := oracle.Python(t, "scipy")
	type point struct {
		X float64 `json:"x"`
		U float64 `json:"u"`
		T float64 `json:"t"`
	}
	var points []point
	for _, u := range []float64{0.001, 0.01, 0.05} {
		for _, half := range []float64{0.0005, 0.01, 0.02, 0.3} {
			for _, z := range []float64{-4, -2, -1, -0.3, 0, 0.5, 1.5, 3} {
				points = append(points, point{z * math.Hypot(u, half), u, half})
			}
		}
	}
	want := oracle.Answers[float64](t, program, points, oracle.Script(t, "fit.py"))
	for i, p := range points {
		if got := (spread{p.U, p.T}).below(p.X); !(math.Abs(got-want[i]) <= 1e-10) {
			t.Errorf("u %g, t %g: below %g with %.12f, by integration %.12f", p.U, p.T, p.X, got, want[i])
		}
	}
}

// TestSpreadAtItsEnds: where one part is missing or next to nothing, the other
// alone counts. The normal figures are from tables (Φ(-1.96) = 0.0249979,
// Φ(-1) = 0.1586553: from memory), those of the rectangle by hand.
func TestSpreadAtItsEnds(t *testing.T) {
	for _, c := range []struct {
		name    string
		spread  spread
		x, want float64
	}{
		{"no rectangle", spread{0.01, 0}, -0.0196, 0.0249979},
		{"next to no rectangle", spread{0.01, 1e-9}, -0.01, 0.1586553},
		{"a narrow rectangle, by the closed form", spread{0.01, 1.01e-6}, -0.01, 0.1586553},
		{"nothing normal", spread{0, 0.02}, -0.01, 0.25},
		{"nothing normal, beyond", spread{0, 0.02}, 0.021, 1},
		{"nothing normal, before", spread{0, 0.02}, -0.021, 0},
		{"hardly normal", spread{1e-12, 0.02}, -0.01, 0.25},
		{"exact, above", spread{}, 0.001, 1},
		{"exact, on it", spread{}, 0, 0},
		{"far below", spread{0.001, 0.02}, -1, 0},
	} {
		if got := c.spread.below(c.x); !(math.Abs(got-c.want) <= 5e-8) {
			t.Errorf("%s: %.9f, want %.7f", c.name, got, c.want)
		}
	}
}

// TestSpreadAtUndoesBelow for any spread and chance.
func TestSpreadAtUndoesBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := spread{rapid.Float64Range(0, 0.1).Draw(t, "u"), rapid.Float64Range(0.001, 0.1).Draw(t, "t")}
		p := rapid.Float64Range(0.0005, 0.9995).Draw(t, "p")
		if got := s.below(s.at(p)); math.Abs(got-p) > 1e-9 {
			t.Fatalf("below(at(%g)) = %g", p, got)
		}
	})
}
