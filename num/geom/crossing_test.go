package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// TestCrossings: two edges each, by hand.
func TestCrossings(t *testing.T) {
	circle := func(x, y, r float64) geom.Edge { return geom.Circle(at(x, y), r)[0] }
	arc := geom.Arc(at(0, 0), at(5, 0), at(0, 5), geom.Anticlockwise)
	line := geom.Line(at(-10, 3), at(10, 3))
	for _, c := range []struct {
		name string
		a, b geom.Edge
		want []geom.Point
	}{
		{"lines", geom.Line(at(0, 0), at(2, 2)), geom.Line(at(0, 2), at(2, 0)), []geom.Point{at(1, 1)}},
		{"lines that miss", geom.Line(at(0, 0), at(2, 2)), geom.Line(at(0, 2), at(0.9, 1.1)), nil},
		{"end on a line", geom.Line(at(0, 0), at(2, 2)), geom.Line(at(0, 2), at(1, 1)), []geom.Point{at(1, 1)}},
		{"parallel", line, geom.Line(at(-10, 4), at(10, 4)), nil},
		{"on each other", line, geom.Line(at(3, 3), at(20, 3)), []geom.Point{at(3, 3), at(10, 3)}},
		{"end to end", line, geom.Line(at(10, 3), at(20, 3)), []geom.Point{at(10, 3)}},
		{"line through a circle", line, circle(0, 0, 5), []geom.Point{at(-4, 3), at(4, 3)}},
		{"line through an arc", line, arc, []geom.Point{at(4, 3)}},
		{"line touching", line, circle(0, 0, 3), []geom.Point{at(0, 3)}},
		{"line beside", line, circle(0, 0, 2.999), nil},
		{"circles", circle(0, 0, 5), circle(6, 0, 5), []geom.Point{at(3, 4), at(3, -4)}},
		{"arc and circle", arc, circle(6, 0, 5), []geom.Point{at(3, 4)}},
		{"circles touching outside", circle(0, 0, 5), circle(8, 0, 3), []geom.Point{at(5, 0)}},
		{"circles touching inside", circle(0, 0, 5), circle(-2, 0, 3), []geom.Point{at(-5, 0)}},
		{"inside touching, the other way", circle(-2, 0, 3), circle(0, 0, 5), []geom.Point{at(-5, 0)}},
		{"one in the other", circle(0, 0, 5), circle(1, 0, 3), nil},
		{"about one centre", circle(0, 0, 5), circle(0, 0, 3), nil},
		{"apart", circle(0, 0, 5), circle(9, 0, 3), nil},
		{"arcs on each other", arc, geom.Arc(at(0, 0), at(3, 4), at(-5, 0), geom.Anticlockwise), []geom.Point{at(3, 4), at(0, 5)}},
	} {
		for _, pair := range [][2]geom.Edge{{c.a, c.b}, {c.b, c.a}, {c.a.Reversed(), c.b}} {
			got := pair[0].Crossings(pair[1])
			if len(got) != len(c.want) {
				t.Errorf("%s: %v, want %v", c.name, got, c.want)
				continue
			}
			for _, w := range c.want {
				nearest := math.Inf(1)
				for _, g := range got {
					nearest = min(nearest, g.Distance(w))
				}
				agrees(t, c.name, nearest, 0, 1e-13)
			}
		}
	}
}

func TestCrossesItself(t *testing.T) {
	bow := geom.Polygon(at(0, 0), at(10, 10), at(10, 0), at(0, 10))
	swollen := geom.Rectangle(at(0, 0), at(30, 4))
	swollen[0] = geom.Arc(at(15, -6), at(0, 0), at(30, 0), geom.Clockwise) // rises above 4
	touching := append(geom.Polyline(at(0, 0), at(20, 0), at(10, 0), at(10, 10)), geom.Line(at(10, 10), at(0, 0)))
	for _, c := range []struct {
		name string
		path geom.Path
		want geom.Crossing
		does bool
	}{
		{"bow", bow, geom.Crossing{First: 0, Second: 2, At: at(5, 5)}, true},
		{"arc through the far edge", swollen, geom.Crossing{First: 0, Second: 2, At: at(15+math.Sqrt(161), 4)}, true},
		{"runs back on itself", touching, geom.Crossing{First: 0, Second: 1, At: at(10, 0)}, true},
		{"shoe", shoe(50, 40, 1), geom.Crossing{}, false},
		{"round ends", roundEnds(), geom.Crossing{}, false},
		{"circle", geom.Circle(at(0, 0), 1), geom.Crossing{}, false},
		{"half disc", geom.Path{geom.Arc(at(0, 0), at(1, 0), at(-1, 0), geom.Anticlockwise), geom.Line(at(-1, 0), at(1, 0))}, geom.Crossing{}, false},
	} {
		got, does := c.path.CrossesItself()
		if does != c.does || got.First != c.want.First || got.Second != c.want.Second {
			t.Errorf("%s: %v %v", c.name, got, does)
		}
		if does && c.name != "arc through the far edge" && got.At.Distance(c.want.At) > 1e-12 {
			t.Errorf("%s: at %v", c.name, got.At)
		}
	}
}

func roundEnds() geom.Path {
	return geom.Path{
		geom.Line(at(0, 0), at(20, 0)), geom.Arc(at(20, 5), at(20, 0), at(20, 10), geom.Anticlockwise),
		geom.Line(at(20, 10), at(0, 10)), geom.Arc(at(0, 5), at(0, 10), at(0, 0), geom.Anticlockwise),
	}
}

// TestWholePathsDoNotCross: random paths that go once round do not cross, and
// two edges exchanged make them cross.
func TestWholePathsDoNotCross(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		p := blob(random)
		if c, crosses := p.CrossesItself(); crosses && winds(p.Flatten(1e-3), at(0, 0)) {
			if p[c.First].DistanceTo(c.At)+p[c.Second].DistanceTo(c.At) > 1e-8 {
				t.Errorf("%v is on neither edge", c)
			}
		}
	}
}

// TestClosest: edges against many points on each, and by hand.
func TestClosest(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	const n = 400
	for range 100 {
		a := blob(random)[0]
		b := blob(random)[0].Moved(geom.Pose{Angle: 6 * random.Float64(), Shift: at(60*random.Float64()-30, 60*random.Float64()-30)})
		p, q := a.Closest(b)
		agrees(t, "on the first", a.DistanceTo(p), 0, 1e-9)
		agrees(t, "on the second", b.DistanceTo(q), 0, 1e-9)
		sampled := math.Inf(1)
		for k := range n + 1 {
			sampled = min(sampled, b.DistanceTo(a.At(float64(k)/n)))
		}
		if d := p.Distance(q); d > sampled+1e-9 || sampled > d+a.Length()/n {
			t.Errorf("%v and %v are %g apart, sampled %g", a, b, d, sampled)
		}
	}
	p, q := shoe(50, 40, 1).Closest(geom.Circle(at(0, 0), 52))
	agrees(t, "about one centre", p.Distance(q), 2, 1e-13)
	p, q = geom.Circle(at(0, 0), 1).Closest(geom.Circle(at(5, 0), 2))
	agrees(t, "circles", p.Distance(q), 2, 1e-13)
}
