package meant_test

import (
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

func tables() meant.Tables {
	return meant.Tables{Drills: facts.Drills(), Balls: facts.Balls(), Keys: facts.Keys(), Threads: facts.Threads()}
}

// BenchmarkTwentySizes works on a full job of a country that tells nothing.
func BenchmarkTwentySizes(b *testing.B) {
	random := rand.New(rand.NewPCG(seed, 9))
	s := drawJob(random, "")
	for len(s.sizes) < 20 {
		s.sizes = append(s.sizes, drawJob(random, "").sizes...)
	}
	s.sizes = s.sizes[:20]
	job := s.job()
	for i := range job.Sizes {
		job.Sizes[i].Kind = trade.Diameter
	}
	r := adjusted(b, job)
	standard := tables()
	for b.Loop() {
		meant.Round(r, standard)
	}
}

// BenchmarkTwentySizesByOneRule works on a job whose readings share so much
// error that no size can be asked by itself.
func BenchmarkTwentySizesByOneRule(b *testing.B) {
	r := adjusted(b, drawRuled(rand.New(rand.NewPCG(seed, 10)), 20, 0.1).job)
	standard := tables()
	for b.Loop() {
		meant.Round(r, standard)
	}
}
