package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/num/geom"
)

func at(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// shoe returns a sector of a ring about the origin, its middle on the x axis.
func shoe(outer, inner, angle float64) geom.Path {
	a, b := geom.Polar(outer, -angle/2), geom.Polar(outer, angle/2)
	c, d := geom.Polar(inner, angle/2), geom.Polar(inner, -angle/2)
	return geom.Path{
		geom.Arc(at(0, 0), a, b, geom.Anticlockwise), geom.Line(b, c),
		geom.Arc(at(0, 0), c, d, geom.Clockwise), geom.Line(d, a),
	}
}

// blob returns a closed path of straight edges and arcs that bend either way,
// anticlockwise round the origin, never through itself.
func blob(random *rand.Rand) geom.Path {
	n := 3 + random.IntN(6)
	corners := make([]geom.Point, n)
	for i := range corners {
		corners[i] = geom.Polar(20+20*random.Float64(), 2*math.Pi*(float64(i)+0.5*random.Float64())/float64(n))
	}
	var p geom.Path
	for i, from := range corners {
		to := corners[(i+1)%n]
		turn := geom.Turn(random.IntN(3) - 1)
		across := to.Sub(from)
		rise := across.Length() / 2 / math.Tan(0.1+0.2*random.Float64()) // half the sweep is 0.1 to 0.3
		centre := geom.Middle(from, to).Add(across.Left().Unit().Times(float64(turn) * rise))
		p = append(p, geom.Edge{From: from, To: to, Turn: turn, Centre: centre})
	}
	return p
}

// around integrates f(point, step) along a path by Gauss's rule of five points,
// exact for polynomials of the ninth degree.
func around(p geom.Path, f func(at, step geom.Point) float64) float64 {
	nodes := [...]float64{0, 0.5384693101056831, 0.9061798459386640}
	weights := [...]float64{0.5688888888888889, 0.4786286704993665, 0.2369268850561891}
	const panels = 4
	sum := 0.0
	for _, e := range p {
		one := func(t, weight float64) {
			sum += weight / (2 * panels) * f(e.At(t), e.Direction(t).Times(e.Length()))
		}
		for k := range panels {
			middle := (float64(k) + 0.5) / panels
			one(middle, weights[0])
			for i := 1; i < 3; i++ {
				one(middle-nodes[i]/(2*panels), weights[i])
				one(middle+nodes[i]/(2*panels), weights[i])
			}
		}
	}
	return sum
}

func agrees(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*max(1, math.Abs(want))) {
		t.Errorf("%s: %.15g, want %.15g", what, got, want)
	}
}

// TestKnownRegions: formulas of the circle, the ring sector and the segment.
func TestKnownRegions(t *testing.T) {
	half := 0.7
	segment := geom.Path{geom.Arc(at(0, 0), geom.Polar(10, -half), geom.Polar(10, half), geom.Anticlockwise)}
	segment = append(segment, geom.Line(segment[0].To, segment[0].From))
	ring := shoe(50, 40, 2*half)
	sin := math.Sin(half)
	for _, c := range []struct {
		name         string
		path         geom.Path
		area, x      float64
		low, high, y float64 // bounds in x, and ± in y
	}{
		{"rectangle", geom.Rectangle(at(1, -2), at(4, 2)), 12, 2.5, 1, 4, 2},
		{"circle", geom.Circle(at(3, 0), 2), 4 * math.Pi, 3, 1, 5, 2},
		{"circle backwards", geom.Circle(at(3, 0), 2).Reversed(), -4 * math.Pi, 3, 1, 5, 2},
		{"ring sector", ring, half * 900, 2.0 / 3 * sin / half * (125000 - 64000) / 900, 40 * math.Cos(half), 50, 50 * sin},
		{"segment", segment, 50 * (2*half - math.Sin(2*half)), 40 * sin * sin * sin / (3 * (2*half - math.Sin(2*half))), 10 * math.Cos(half), 10, 10 * sin},
	} {
		agrees(t, c.name+" area", c.path.Area(), c.area, 1e-13)
		agrees(t, c.name+" x of the centroid", c.path.Centroid().X, c.x, 1e-13)
		agrees(t, c.name+" y of the centroid", c.path.Centroid().Y, 0, 1e-13)
		box := c.path.Bounds()
		for i, pair := range [][2]float64{{box.Low.X, c.low}, {box.High.X, c.high}, {box.Low.Y, -c.y}, {box.High.Y, c.y}, {box.Size().Y, 2 * c.y}} {
			agrees(t, c.name+" bounds "+string(rune('0'+i)), pair[0], pair[1], 1e-14)
		}
	}
}

// TestFlatArc: the segment of a very flat arc keeps its digits. Source: area
// ⅔·chord·rise to first order in rise/chord.
func TestFlatArc(t *testing.T) {
	const radius, half = 1e6, 1e-5
	a, b := geom.Polar(radius, -half), geom.Polar(radius, half)
	p := geom.Path{geom.Arc(at(0, 0), a, b, geom.Anticlockwise), geom.Line(b, a)}
	agrees(t, "area", p.Area(), 2.0/3*20*radius*half*half/2, 1e-9)
}

// TestRegionsAgainstIntegrals: area and centroid of random paths against
// Green's theorem by numbers, containment against the windings of many chords.
func TestRegionsAgainstIntegrals(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		p := blob(random)
		if !p.Closed() {
			t.Fatal("a closed path is said to be open")
		}
		area := around(p, func(q, step geom.Point) float64 { return q.Cross(step) / 2 })
		agrees(t, "area", p.Area(), area, 1e-10)
		agrees(t, "centroid", p.Centroid().X, around(p, func(q, step geom.Point) float64 { return q.X * q.X * step.Y / 2 })/area, 1e-10)
		for range 20 {
			q := at(100*random.Float64()-50, 100*random.Float64()-50)
			if p.DistanceTo(q) < 0.01 {
				continue
			}
			if got, want := p.Contains(q), winds(p.Flatten(1e-4), q); got != want {
				t.Errorf("%v in %v: %v", q, p, got)
			}
			near, far := p.Nearest(q), p.Farthest(q).Distance(q)
			for _, e := range p {
				for k := range 51 {
					if s := e.At(float64(k) / 50); s.Distance(q) < near.Distance(q)-1e-12 || s.Distance(q) > far+1e-12 {
						t.Errorf("%v is nearer to %v than %v or too far", s, q, near)
					}
				}
			}
			agrees(t, "nearest on the path", p.DistanceTo(near), 0, 1e-12)
		}
	}
}

// winds reports by crossings of a ray whether points go round q.
func winds(points []geom.Point, q geom.Point) bool {
	inside := false
	for i, a := range points {
		b := points[(i+1)%len(points)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(b.X-a.X)*(q.Y-a.Y)/(b.Y-a.Y) {
			inside = !inside
		}
	}
	return inside
}

// TestContainsOnTheEdge: a point on the path, on the chord of an arc or in line
// with an edge.
func TestContainsOnTheEdge(t *testing.T) {
	half := geom.Path{geom.Arc(at(0, 0), at(10, 0), at(-10, 0), geom.Anticlockwise), geom.Line(at(-10, 0), at(10, 0))}
	bite := append(geom.Polyline(at(-10, 0), at(-10, -20), at(10, -20), at(10, 0)), geom.Arc(at(0, 0), at(10, 0), at(-10, 0), geom.Clockwise))
	for _, c := range []struct {
		name string
		path geom.Path
		q    geom.Point
		want bool
	}{
		{"on the chord that is an edge", half, at(0, 0), true},
		{"on the arc", half, at(0, 10), true},
		{"beyond the chord", half, at(11, 0), false},
		{"on the chord of a hollow", bite, at(0, 0), false},
		{"on that chord backwards", bite.Reversed(), at(0, 0), false},
		{"below the hollow", bite, at(0, -10.5), true},
		{"on the chord of a bulge", append(geom.Polyline(at(-10, 0), at(-10, -20), at(10, -20), at(10, 0)), half[0]), at(1, 0), true},
		{"centre of a circle", geom.Circle(at(1, 1), 3), at(1, 1), true},
		{"centre of a circle backwards", geom.Circle(at(1, 1), 3).Reversed(), at(1, 1), true},
		{"beside a circle", geom.Circle(at(1, 1), 3), at(4.5, 1), false},
		{"in nothing", nil, at(0, 0), false},
	} {
		if got := c.path.Contains(c.q); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// TestFlatten: every chord keeps the tolerance, and no fewer would.
func TestFlatten(t *testing.T) {
	p := shoe(50, 40, 1.4)
	points := p.Flatten(0.01)
	worst := 0.0
	for i, q := range points {
		agrees(t, "point on the path", p.DistanceTo(q), 0, 1e-12)
		worst = max(worst, p.DistanceTo(geom.Middle(q, points[(i+1)%len(points)])))
	}
	// 35 chords outside: 50(1 - cos(1.4/2n)) is 0.01 at n = 35 exactly when n ≥ 34.99.
	if want := 50 * (1 - math.Cos(1.4/2/35)); len(points) != 35+32+2 || math.Abs(worst-want) > 1e-12 {
		t.Errorf("%d points, %g off, want %g", len(points), worst, want)
	}
	if n := len(geom.Circle(at(0, 0), 1).Flatten(10)); n != 3 {
		t.Errorf("a circle became %d points", n)
	}
	if n := len(geom.Polyline(at(0, 0), at(1, 0), at(1, 1)).Flatten(1)); n != 3 {
		t.Errorf("an open path became %d points", n)
	}
}
