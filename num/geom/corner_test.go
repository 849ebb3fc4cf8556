package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// kink returns how far a path is from running on smoothly at the end of an edge.
func kink(p geom.Path, i int) float64 {
	a, b := p[i], p[(i+1)%len(p)]
	return math.Abs(a.Direction(1).Cross(b.Direction(0))) + a.To.Distance(b.From)
}

// TestFilletOfASquareCorner: the area lost in a square corner is (1 - π/4)r².
func TestFilletOfASquareCorner(t *testing.T) {
	p := geom.Rectangle(at(0, 0), at(30, 20))
	for i := 3; i >= 0; i-- {
		var ok bool
		if p, ok = p.Fillet(i, 5); !ok {
			t.Fatalf("no fillet in corner %d", i)
		}
	}
	agrees(t, "area", p.Area(), 600-(4-math.Pi)*25, 1e-14)
	agrees(t, "length", p.Length(), 2*(20+10)+2*math.Pi*5, 1e-14)
	if len(p) != 8 || !p.Closed() {
		t.Errorf("%d edges, closed %v", len(p), p.Closed())
	}
	if c, crosses := p.CrossesItself(); crosses {
		t.Errorf("crosses itself: %v", c)
	}
}

// TestRoundEnds: fillets that use up a whole edge leave it out.
func TestRoundEnds(t *testing.T) {
	p := geom.Rectangle(at(0, 0), at(30, 20))
	for i := 3; i >= 0; i-- {
		var ok bool
		if p, ok = p.Fillet(i, 10); !ok {
			t.Fatalf("no fillet in corner %d", i)
		}
	}
	agrees(t, "area", p.Area(), 200+100*math.Pi, 1e-14)
	if len(p) != 6 || !p.Closed() {
		t.Errorf("%d edges, closed %v: %v", len(p), p.Closed(), p)
	}
}

// TestFilletsOfArcs: every corner of random paths, line with line, line with arc
// and arc with arc: the fillet touches both neighbours, has its radius, lies on
// the inside of the corner and takes it away.
func TestFilletsOfArcs(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	made := 0
	for range 300 {
		p := blob(random)
		i := random.IntN(len(p))
		q, ok := p.Fillet(i, 0.5+random.Float64())
		if !ok {
			continue
		}
		made++
		round := (i + 1) % len(q)
		agrees(t, "smooth before", kink(q, i), 0, 1e-9)
		agrees(t, "smooth after", kink(q, round), 0, 1e-9)
		if !q.Closed() || len(q) != len(p)+1 {
			t.Errorf("%d edges after %d, closed %v", len(q), len(p), q.Closed())
		}
		outwards := p[i].Direction(1).Cross(p[(i+1)%len(p)].Direction(0)) > 0
		if (q.Area() < p.Area()) != outwards || (q[round].Turn == geom.Anticlockwise) != outwards {
			t.Errorf("the fillet is on the wrong side: %v", q)
		}
		if math.Abs(q[round].Sweep()) > math.Pi {
			t.Errorf("the fillet goes the long way round: %v", q[round])
		}
	}
	if made < 250 {
		t.Errorf("only %d fillets fitted", made)
	}
}

// TestFilletOnADisc: a flat on a disc, r into the corner between line and arc.
// By Pythagoras the centre is R - r from the disc's and r inside the flat.
func TestFilletOnADisc(t *testing.T) {
	a, b := at(6, -8), at(6, 8)
	p := geom.Path{geom.Arc(at(0, 0), b, a, geom.Anticlockwise), geom.Line(a, b)}
	q, ok := p.Fillet(0, 1)
	if !ok {
		t.Fatal("no fillet")
	}
	agrees(t, "x", q[1].Centre.X, 5, 1e-13)
	agrees(t, "y", q[1].Centre.Y, -math.Sqrt(81-25), 1e-13)
}

func TestNoFillet(t *testing.T) {
	smooth := geom.Path{geom.Line(at(-10, -5), at(0, -5)), geom.Arc(at(0, 0), at(0, -5), at(0, 5), geom.Anticlockwise)}
	square := geom.Rectangle(at(0, 0), at(30, 20))
	for _, c := range []struct {
		name   string
		path   geom.Path
		radius float64
	}{
		{"smooth already", smooth, 1},
		{"there and back", geom.Polyline(at(0, 0), at(10, 0), at(0, 0)), 1},
		{"too large", square, 20.001},
		{"nothing", square, 0},
		{"no number", square, math.NaN()},
	} {
		if q, ok := c.path.Fillet(0, c.radius); ok {
			t.Errorf("%s: %v", c.name, q)
		}
	}
}

func TestChamfer(t *testing.T) {
	p := geom.Rectangle(at(0, 0), at(30, 20))
	q, ok := p.Chamfer(3, 2)
	if !ok {
		t.Fatal("no chamfer")
	}
	agrees(t, "area", q.Area(), 600-2, 1e-14)
	agrees(t, "kept to the corner", q.DistanceTo(at(0, 0)), math.Sqrt2, 1e-14)
	if _, ok := p.Chamfer(0, 20.1); ok {
		t.Error("a chamfer longer than the edge")
	}
	if q, ok := p.Chamfer(0, 20); !ok || len(q) != 4 {
		t.Errorf("a chamfer as long as the edge: %v", q)
	}
}

func TestNoCornerAtAnEnd(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a corner at the end of an open path")
		}
	}()
	geom.Polyline(at(0, 0), at(1, 0), at(1, 1)).Fillet(1, 0.1)
}
