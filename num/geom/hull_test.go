package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// TestWidths: figures by hand, "constructed".
func TestWidths(t *testing.T) {
	for _, c := range []struct {
		name           string
		path           geom.Path
		narrow, circle float64
	}{
		{"rectangle", geom.Rectangle(at(0, 0), at(30, 40)), 30, 25},
		{"circle", geom.Circle(at(7, 8), 5), 10, 5},
		{"right triangle", geom.Polygon(at(0, 0), at(3, 0), at(0, 4)), 12.0 / 5, 2.5},
		{"flat triangle", geom.Polygon(at(0, 0), at(10, 0), at(5, 1)), 1, 5},
		{"round ends", roundEnds(), 10, 15},
		{"narrow shoe", shoe(50, 40, 0.5), 50 - 40*math.Cos(0.25), 0},
		{"half disc", geom.Path{geom.Arc(at(0, 0), at(9, 0), at(-9, 0), geom.Anticlockwise), geom.Line(at(-9, 0), at(9, 0))}, 9, 9},
	} {
		narrow, angle := c.path.Hull().Narrowest()
		agrees(t, c.name+" narrowest", narrow, c.narrow, 1e-13)
		agrees(t, c.name+" there", c.path.Hull().Width(angle), narrow, 1e-15)
		if _, radius := c.path.EnclosingCircle(); c.circle > 0 {
			agrees(t, c.name+" circle", radius, c.circle, 1e-13)
		}
	}
}

// TestHullsOfRandomPaths: widths, the hull's own path and the smallest circle
// against many directions and points.
func TestHullsOfRandomPaths(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	for range 200 {
		p := blob(random)
		h := p.Hull()
		outline := h.Path()
		narrow, _ := h.Narrowest()
		least := math.Inf(1)
		for k := range 720 {
			angle := math.Pi * float64(k) / 720
			u := geom.Polar(1, angle)
			width := p.Extreme(u).Dot(u) - p.Extreme(u.Times(-1)).Dot(u)
			agrees(t, "width", h.Width(angle), width, 1e-12)
			agrees(t, "reach of the hull's path", outline.Extreme(u).Dot(u), p.Extreme(u).Dot(u), 1e-12)
			least = min(least, width)
		}
		if narrow > least+1e-12 || least > narrow+0.01*60 {
			t.Errorf("narrowest %g, in steps %g", narrow, least)
		}
		if !outline.Closed() || outline.Area() < p.Area()-1e-9 {
			t.Errorf("the hull is smaller than the path, or open")
		}
		if c, crosses := outline.CrossesItself(); crosses {
			t.Errorf("the hull crosses itself at %v", c)
		}
		checkCircle(t, random, p)
	}
}

// checkCircle: nothing is outside, and every step aside makes the circle larger.
func checkCircle(t *testing.T, random *rand.Rand, p geom.Path) {
	t.Helper()
	centre, radius := p.EnclosingCircle()
	agrees(t, "farthest", p.Farthest(centre).Distance(centre), radius, 1e-14)
	for range 50 {
		aside := centre.Add(geom.Polar(math.Pow(10, -3+4*random.Float64()), 2*math.Pi*random.Float64()))
		if r := p.Farthest(aside).Distance(aside); r < radius-1e-13 {
			t.Errorf("a circle of %.15g about %v is smaller than %.15g", r, aside, radius)
		}
	}
}

// TestSpare: the window against many directions, and a square bar by hand: set
// on edge it needs its diagonal.
func TestSpare(t *testing.T) {
	spare, _ := geom.Rectangle(at(0, 0), at(30, 8)).Hull().Spare(10, 31)
	agrees(t, "upright bar", spare, 1, 1e-14)
	spare, _ = geom.Rectangle(at(0, 0), at(10, 1)).Hull().Spare(9, 9)
	agrees(t, "bar across the corners", spare, 9-11/math.Sqrt2, 1e-14)
	random := rand.New(rand.NewPCG(11, 12))
	for range 100 {
		h := blob(random).Hull()
		w, l := 30+40*random.Float64(), 30+40*random.Float64()
		spare, angle := h.Spare(w, l)
		agrees(t, "there", min(w-h.Width(angle), l-h.Width(angle+math.Pi/2)), spare, 1e-14)
		most := math.Inf(-1)
		for k := range 2000 {
			a := math.Pi * float64(k) / 2000
			most = max(most, min(w-h.Width(a), l-h.Width(a+math.Pi/2)))
		}
		if most > spare+1e-12 || spare > most+0.1 {
			t.Errorf("spare %g, in steps %g", spare, most)
		}
	}
}
