package meant_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"pgregory.net/rapid"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// anySize draws sizes as people have them and others.
func anySize(t *rapid.T, id string) trade.Size {
	kind := rapid.SampledFrom([]trade.SizeKind{
		trade.Diameter, trade.Radius, trade.Width, trade.Length, trade.Offset, trade.Depth, trade.Distance,
	}).Draw(t, "kind")
	x := rapid.OneOf(rapid.Float64Range(1e-4, 300), rapid.SampledFrom([]float64{1e-6, 25.4, 1e5, 9e5, 2e6}), rapid.Float64Range(0.001, 1e7)).Draw(t, "x")
	if kind == trade.Offset && rapid.Bool().Draw(t, "negative") {
		x = -x
	}
	size := trade.Size{
		ID: id, Kind: kind, Surface: rapid.SampledFrom(append(trade.Surfaces, "")).Draw(t, "surface"),
		Wear:  rapid.SampledFrom([]trade.Wear{"", trade.NoWear, trade.LightWear, trade.HeavyWear, trade.TypicalWear}).Draw(t, "wear"),
		Known: trade.Prior{Value: mm(x), U: mm(rapid.SampledFrom([]float64{1e-6, 0.001, 0.01, 0.3, 4, 50}).Draw(t, "u"))},
		Meant: rapid.SampledFrom([]string{"", "", "", "1 in", "25.4", "7/16 BSW", "1/3 in", "0.1234567 in", "300 mm", "-2 mm", "0", "1e9 mm"}).Draw(t, "meant"),
	}
	if size.Wear == trade.TypicalWear {
		size.TypicalWear = mm(rapid.SampledFrom([]float64{0.001, 0.5, 20}).Draw(t, "typical"))
	}
	if rapid.Bool().Draw(t, "make stated") {
		size.Make = mm(rapid.SampledFrom([]float64{0, 0.001, 0.5}).Draw(t, "make"))
	}
	return size
}

// TestAnyJobHasProbabilities draws jobs with and without relations: nothing is
// not a number, and no probabilities of a size add up to more than 1.
func TestAnyJobHasProbabilities(t *testing.T) {
	standard := tables()
	rapid.Check(t, func(t *rapid.T) {
		job := &trade.Job{Units: rapid.SampledFrom([]unit.Unit{unit.Millimetre, unit.Inch}).Draw(t, "units")}
		for i := range rapid.IntRange(1, 7).Draw(t, "sizes") {
			job.Sizes = append(job.Sizes, anySize(t, fmt.Sprintf("s%d", i)))
		}
		if n := len(job.Sizes); n > 2 && rapid.Bool().Draw(t, "tied") {
			job.Relations = append(job.Relations, tied(job, "s0", "s1 + s2"))
		}
		r, err := adjust.Adjust(job)
		if err != nil {
			t.Skip(err)
		}
		for _, s := range meant.Round(r, standard).Sizes {
			sum := s.NoRound
			for _, c := range s.Candidates {
				sum += c.P
				if math.IsNaN(c.P+c.Wear+c.Off+c.Beyond) || c.P < 0 || c.Wear < 0 {
					t.Fatalf("%s: %+v", s.ID, c)
				}
			}
			if !(sum <= 1+1e-9) || !(s.NoRound >= 0) || !(s.Designer >= 0 && s.Designer <= 1) {
				t.Fatalf("%+v: the probabilities add up to %g", s, sum)
			}
		}
	})
}

// TestTheOrderDoesNotMatter asks the sizes of a job in another order and looks
// for the same answers.
func TestTheOrderDoesNotMatter(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 7))
	for range 10 {
		job := drawJob(random, "").job()
		before := meant.Round(adjusted(t, job), meant.Tables{})
		random.Shuffle(len(job.Sizes), func(a, b int) { job.Sizes[a], job.Sizes[b] = job.Sizes[b], job.Sizes[a] })
		after := meant.Round(adjusted(t, job), meant.Tables{})
		for _, s := range before.Sizes {
			for i, c := range s.Likely() {
				if other := after.Of(s.ID).Candidates[i]; other.Text != c.Text || math.Abs(other.P-c.P) > 1e-9 {
					t.Errorf("%s: %s with %.9f, in another order %s with %.9f", s.ID, c.Text, c.P, other.Text, other.P)
				}
			}
		}
	}
}

// TestManySizes compares jobs of 30 sizes, and of more than the sum over the shares
// is exact for, with the same computed exactly.
func TestManySizes(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 8))
	numbers := map[int]float64{30: 1e-7}
	if os.Getenv("ODDLEG_LONG") != "" {
		numbers[70], numbers[120] = 1e-6, 0.001
	}
	for n, allowed := range numbers {
		s := drawJob(random, "")
		for len(s.sizes) < n {
			s.sizes = append(s.sizes, drawJob(random, "").sizes...)
		}
		s.sizes = s.sizes[:n]
		result := meant.Round(adjusted(t, s.job()), meant.Tables{})
		e := computeExactly(s)
		for i := range s.sizes {
			for _, c := range result.Sizes[i].Likely() {
				if want := e.of(i, c.Value, true); math.Abs(c.P-want) > allowed {
					t.Errorf("%s of %d sizes: probability %.6f, exactly %.6f", c.Text, n, c.P, want)
				}
			}
		}
	}
}

// TestAStackOfManyTies has a chain of relations too long for every choice of
// what the drawing stated to be weighed, all read by one rule.
func TestAStackOfManyTies(t *testing.T) {
	seen := make([]float64, 0, 31)
	for i := range 31 {
		seen = append(seen, 10*float64(i+1))
	}
	job := ruledJob(0.2, 0.02, seen, 0.05)
	for i := 2; i < len(seen); i += 2 {
		job.Relations = append(job.Relations, tied(job, fmt.Sprintf("s%d", i), fmt.Sprintf("s%d + s%d/%d", i-2, i-1, i/2)))
	}
	result := meant.Round(adjusted(t, job), meant.Tables{})
	if len(result.Sizes) != 31 || len(result.Sets) != 1 {
		t.Errorf("%d sizes, %d sets", len(result.Sizes), len(result.Sets))
	}
}
