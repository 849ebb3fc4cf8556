package lsq

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// span is the distance between two points of the plane less what was read.
type span struct {
	from, to int // columns of the x of each; its y is the next
	saw      float64
}

func (s span) Eval(x []float64, row *Row) float64 {
	dx, dy := x[s.to]-x[s.from], x[s.to+1]-x[s.from+1]
	d := math.Hypot(dx, dy)
	row.Add(s.from, -dx/d)
	row.Add(s.from+1, -dy/d)
	row.Add(s.to, dx/d)
	row.Add(s.to+1, dy/d)
	return d - s.saw
}

// BenchmarkSolve solves plates of holes: distances between holes, with the
// first hole the origin and the second on the x axis.
func BenchmarkSolve(b *testing.B) {
	for _, count := range []int{10, 100, 1000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			problem := plate(count, rand.New(rand.NewPCG(1, 2)))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Solve(problem); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// plate makes a problem of that many distances, 3.5 for each unknown.
func plate(count int, r *rand.Rand) Problem {
	holes := max(4, count/7)
	side := int(math.Ceil(math.Sqrt(float64(holes))))
	truth := make([]float64, 2*holes)
	for h := range holes {
		truth[2*h] = 30*float64(h%side) + 5*r.Float64()
		truth[2*h+1] = 30*float64(h/side) + 5*r.Float64()
	}
	p := Problem{Start: make([]float64, len(truth))}
	for j, v := range truth {
		p.Start[j] = v + 2*r.NormFloat64()
	}
	var row Row
	for i := range count {
		from := i % holes
		to := (from + 1 + i/holes + r.IntN(3)) % holes
		if from == to {
			to = (to + 1) % holes
		}
		e := span{2 * from, 2 * to, 0}
		e.saw = e.Eval(truth, &row) + 0.02*r.NormFloat64()
		p.Observations = append(p.Observations, Observation{e, 0.02})
	}
	for _, column := range []int{0, 1, 3} {
		p.Constraints = append(p.Constraints, pinned{column, truth[column]})
	}
	return p
}

// pinned is an unknown less what it is.
type pinned struct {
	column int
	at     float64
}

func (e pinned) Eval(x []float64, row *Row) float64 {
	row.Add(e.column, 1)
	return x[e.column] - e.at
}
