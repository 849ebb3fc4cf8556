package gauge

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/num/grad"
)

func variables(v []float64) Args {
	a := make(Args, len(v))
	for i, x := range v {
		a[i] = grad.Var(x, i)
	}
	return a
}

// touches are the two ways of touching, with constructed places.
var touches = []struct {
	name    string
	v       []float64
	miss    func(x, y float64, a Args) grad.Number
	nearest func(x, y float64, v []float64) (px, py float64)
}{
	{"bore", []float64{5, -3, 60, 2, -1}, TouchCircle, NearestOnCircle},
	{"boss", []float64{5, -3, 40, 6, 1}, TouchCircle, NearestOnCircle},
	{"line", []float64{0.7, 12, 4, 1}, TouchLine, NearestOnLine},
	{"line from behind", []float64{2.9, -8, 4, -1}, TouchLine, NearestOnLine},
}

// TestTouchDerivatives compares with fourth-order differences.
func TestTouchDerivatives(t *testing.T) {
	for _, c := range touches {
		got := c.miss(21, 17, variables(c.v))
		for i := range c.v {
			at := func(h float64) float64 {
				v := append([]float64(nil), c.v...)
				v[i] += h
				return c.miss(21, 17, variables(v)).X
			}
			const h = 1e-3
			want := (8*(at(h)-at(-h)) - (at(2*h) - at(-2*h))) / (12 * h)
			if math.Abs(got.D[i]-want) > 1e-10*(1+math.Abs(want)) {
				t.Errorf("%s: derivative %d is %.12g, difference %.12g", c.name, i, got.D[i], want)
			}
		}
	}
}

// TestNearestTouches: at the nearest point of the path nothing is amiss, and it
// lies as far away as the misclosure says.
func TestNearestTouches(t *testing.T) {
	for _, c := range touches {
		for _, p := range []spot{{21, 17}, {-30, 4}, {0.2, -60}} {
			px, py := c.nearest(p.x, p.y, c.v)
			if left := c.miss(px, py, variables(c.v)).X; math.Abs(left) > 1e-13*60 {
				t.Errorf("%s: the point nearest to %v misses by %g", c.name, p, left)
			}
			want := math.Abs(c.miss(p.x, p.y, variables(c.v)).X)
			if got := p.to(spot{px, py}); math.Abs(got-want) > 1e-13*60 {
				t.Errorf("%s: the nearest point is %g from %v, the misclosure is %g", c.name, got, p, want)
			}
		}
	}
}

// TestTouchByHand has a bore of 50 round (10, 0) and a stylus of 4: its middle
// runs on a radius of 23.
func TestTouchByHand(t *testing.T) {
	v := []float64{10, 0, 50, 4, -1}
	if got := TouchCircle(10, 23.5, variables(v)).X; got != 0.5 {
		t.Errorf("misclosure %g, want 0.5", got)
	}
	if x, y := NearestOnCircle(10, 0, v); x != 33 || y != 0 {
		t.Errorf("from the centre: (%g, %g), want (33, 0)", x, y)
	}
	if got := TouchLine(0, 15, variables([]float64{math.Pi / 2, 12, 4, 1})).X; got != 1 {
		t.Errorf("misclosure %g, want 1", got)
	}
}
