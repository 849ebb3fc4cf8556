package gauge

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// TestInvert has readings with no, one, two and touching answers; all figures
// constructed.
func TestInvert(t *testing.T) {
	no := math.NaN()
	for _, c := range []struct {
		name    string
		id      string
		v       []float64
		role    string
		reading float64
		want    []float64
	}{
		{"one", "over-two-pins", []float64{no, 6, no}, "wall", 62, []float64{50}},
		{"none", "over-two-pins", []float64{no, 6, no}, "wall", 11, nil},
		// 3-4-5 triangle: 10 fits as well, but no ball of 30 goes in
		{"the sound one first", "two-balls-stacked", []float64{no, 30, 20}, "bore", 45, []float64{40, 10}},
		{"touching at the top", "two-balls-stacked", []float64{no, 30, 20}, "bore", 50, []float64{25}},
		{"over the top", "two-balls-stacked", []float64{no, 30, 20}, "bore", 50.01, nil},
		// s = 15.5, D - s = 15.4, so sqrt(15.5² - 15.4²) = √3.09
		{"a window of 1 in 30", "two-balls-stacked", []float64{no, 30, 1}, "bore", 15.5 + math.Sqrt(3.09), []float64{0.1, 30.9}},
		{"at the edge", "rocking-rod", []float64{50, no}, "rod", 0, []float64{50}},
		{"small angle", "sine-bar", []float64{no, 100}, "angle", 100 * math.Sin(0.0004), []float64{0.0004, math.Pi - 0.0004}},
		{"negative size", "runout", []float64{no}, "offset", -0.3, []float64{-0.15}},
		{"zero size", "depth", []float64{no}, "size", 0, []float64{0}},
		{"obtuse", "protractor", []float64{no}, "angle", 2.2, []float64{2.2}},
		{"negative shift", "gear-tips", []float64{2, no, 30, 1}, "shift", 63.2, []float64{-0.2}},
		{"flat arc", "chord-height", []float64{no, 20}, "radius", 0.01, []float64{0.005 + 5000}}, // (c² + 4h²)/(8h)
	} {
		t.Run(c.name, func(t *testing.T) {
			m, _ := Find(c.id)
			got := m.Invert(c.v, m.Role(c.role), c.reading)
			if len(got) != len(c.want) {
				t.Fatalf("%v, want %v", got, c.want)
			}
			for i := range got {
				if math.Abs(got[i]-c.want[i]) > 1e-9*math.Abs(c.want[i]) {
					t.Errorf("%v, want %v", got, c.want)
				}
			}
		})
	}
}

func TestInvertKnowsWhatCannotBeFound(t *testing.T) {
	for _, c := range []struct{ id, role string }{
		{"touch", "stylus"}, {"bolt-circle-chord", "holes"}, {"ball-feet-height", "side"}, {"over-two-pins", "height"},
	} {
		m, _ := Find(c.id)
		if got := m.Invert(m.Example, m.Role(c.role), 50); got != nil {
			t.Errorf("%s: %s = %v, but it cannot follow from a reading", c.id, c.role, got)
		}
	}
}

// TestRoots looks for a size with nothing known beside it, in the misclosures
// that relations have; all figures constructed.
func TestRoots(t *testing.T) {
	for _, c := range []struct {
		name string
		kind trade.SizeKind
		near []float64
		miss func(x float64) (value, slope float64)
		want []float64
	}{
		{
			"angle", trade.HalfAngle, nil, func(x float64) (float64, float64) { return math.Tan(x) - 0.25, 1 / math.Pow(math.Cos(x), 2) },
			[]float64{math.Atan(0.25) - math.Pi, math.Atan(0.25)},
		},
		{"length", trade.Width, []float64{3}, func(x float64) (float64, float64) { return x*x - 49, 2 * x }, []float64{7}},
		{"offset", trade.Offset, []float64{3}, func(x float64) (float64, float64) { return x*x - 49, 2 * x }, []float64{-7, 7}},
		{"number", trade.Number, nil, func(x float64) (float64, float64) { return 3*x - 60, 3 }, []float64{20}},
		{"nothing depends on it", trade.Width, []float64{3}, func(float64) (float64, float64) { return 0, 0 }, nil},
	} {
		got := Roots(c.kind, c.near, c.miss)
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
			continue
		}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-12*math.Abs(c.want[i]) {
				t.Errorf("%s: %v, want %v", c.name, got, c.want)
			}
		}
	}
}
