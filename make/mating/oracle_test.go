package mating

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// laid is one case for the independent program.
type laid struct {
	Pair    trade.PairKind `json:"pair"`
	V       []float64      `json:"v"`
	Stand   [][2]float64   `json:"stand"`
	Drilled [][2]float64   `json:"drilled"`

	shapes shapes
}

// TestAgainstTheOracle: gap and twist against scipy, by other ways. The cloud of
// points is 1e-6 mm off where a face touches between two of them.
func TestAgainstTheOracle(t *testing.T) {
	program := oracle.Python(t, "scipy")
	list := layOut(rand.New(rand.NewPCG(8, 8)))
	type answer struct {
		Gap   float64
		Twist *float64
	}
	answers := oracle.Answers[answer](t, program, list, oracle.Script(t, "mating.py"))
	for i, c := range list {
		closeTo(t, string(c.Pair)+" gap", c.shapes.gap(), answers[i].Gap, 1e-6)
		if answers[i].Twist == nil {
			continue
		}
		// A twist moves the farthest corner by less than 60 mm to the radian.
		if got := c.shapes.twist(); math.Abs(got-*answers[i].Twist) > 1e-6 {
			t.Errorf("%s %v twist: %.9g, want %.9g", c.Pair, c.V, got, *answers[i].Twist)
		}
	}
}

// layOut returns random cases in which the part goes in, a few of each pair.
func layOut(random *rand.Rand) []laid {
	between := func(a, b float64) float64 { return a + (b-a)*random.Float64() }
	var list []laid
	add := func(pair trade.PairKind, make func([]float64) (shapes, string), v ...float64) {
		s, wrong := make(v)
		if wrong != "" {
			panic("the case is none: " + wrong)
		}
		if s.gap() > 1e-3 {
			list = append(list, laid{Pair: pair, V: v, shapes: s})
		}
	}
	for range 6 {
		outer, inner := between(40, 60), between(20, 35)
		add(sectorShoe, newSector, outer-between(0.05, 0.3), inner+between(0.05, 0.3), between(0.4, 2), outer, inner)
		length := between(8, 25)
		add(straight, newStraight, math.Sqrt(outer*outer-length*length/4)-inner-between(0.05, 0.5), length, outer, inner)
		male, angle, gib, height := between(30, 80), between(0.8, 1.1), between(2, 8), between(5, 12)
		add(dovetailed, newDovetail, male, male+2*height/math.Tan(angle)+gib/math.Sin(angle)+between(0.05, 0.4), angle, gib, height)
		list = append(list, offPlace(random))
	}
	return list
}

// offPlace returns bolts and holes off their places by up to 0.3 mm.
func offPlace(random *rand.Rand) laid {
	c := laid{Pair: bolted, V: []float64{10.6, 10}}
	n := 2 + random.IntN(5)
	stand, drilled := make([]geom.Point, n), make([]geom.Point, n)
	for i := range stand {
		stand[i] = geom.Polar(40, (2*float64(i)+random.Float64())*math.Pi/float64(n))
		drilled[i] = stand[i].Add(geom.Point{X: random.Float64() - 0.5, Y: random.Float64() - 0.5}.Times(0.6))
		c.Stand = append(c.Stand, [2]float64{stand[i].X, stand[i].Y})
		c.Drilled = append(c.Drilled, [2]float64{drilled[i].X, drilled[i].Y})
	}
	c.shapes, _ = newBolts(stand, drilled, c.V[0], c.V[1], make([]string, n))
	return c
}
