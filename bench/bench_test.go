package main

import (
	"fmt"
	"math"
	"testing"
)

// BenchmarkAdjust adjusts whole jobs by their number of readings.
func BenchmarkAdjust(b *testing.B) {
	for _, readings := range []int{10, 100, 200, 1000} {
		b.Run(fmt.Sprint(readings), func(b *testing.B) {
			p := tapersOver(readings)
			b.ReportAllocs()
			for b.Loop() {
				p.adjust()
			}
		})
	}
}

// TestJobsAreSound adjusts a job that is timed: every size lies within five
// standard uncertainties of the one it was made from (constructed).
func TestJobsAreSound(t *testing.T) {
	p := tapersOver(100)
	result := p.adjust()
	if len(result.Sizes) != 2*p.tapers || len(result.Readings) != 100 {
		t.Fatalf("%d sizes and %d readings, want %d and 100", len(result.Sizes), len(result.Readings), 2*p.tapers)
	}
	for i, s := range result.Sizes {
		if !s.Determined || !(math.Abs(s.Value-p.truth[i]) <= 5*s.U) {
			t.Errorf("%s = %g ± %g, made from %g", s.ID, s.Value, s.U, p.truth[i])
		}
	}
}

// TestCoreAgreesWithTheJob solves the equations written out here and the job:
// one and the same answer, to a millionth of the uncertainty.
func TestCoreAgreesWithTheJob(t *testing.T) {
	p := tapersOver(100)
	result, solution := p.adjust(), p.solve()
	for i, s := range result.Sizes {
		if !(math.Abs(s.Value-solution.X[i]) <= 1e-6*s.U) {
			t.Errorf("%s = %g from the job, %g from the equations", s.ID, s.Value, solution.X[i])
		}
	}
}

// BenchmarkSolve solves the equations of such jobs.
func BenchmarkSolve(b *testing.B) {
	for _, readings := range []int{10, 100, 200, 1000, 10_000} {
		b.Run(fmt.Sprint(readings), func(b *testing.B) {
			p := equationsOver(readings)
			b.ReportAllocs()
			for b.Loop() {
				p.solve()
			}
		})
	}
}
