package meant_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"codeberg.org/oddleg/oddleg/meaning/meant"
)

// jobs returns how many jobs are drawn: some 12 sizes each.
func jobs() int {
	switch {
	case os.Getenv("ODDLEG_LONG") != "":
		return 6000
	case testing.Short():
		return 100
	}
	return 440
}

func TestPromisesAreKept(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 1))
	var promises tally
	var ours, exactly score
	sizes := 0
	for i := range jobs() {
		s := drawJob(random, []string{"GB", "DE", ""}[i%3])
		result := meant.Round(adjusted(t, s.job()), meant.Tables{})
		for k, was := range s.sizes {
			promises.answer(result.Sizes[k], was)
		}
		promises.job()
		sizes += len(s.sizes)
		if i%4 == 0 { // the slow road
			e := computeExactly(s)
			for k, was := range s.sizes {
				ours.add(probability(result.Sizes[k], was))
				exactly.add(e.of(k, was.n, was.round))
			}
		}
	}
	t.Logf("%d sizes in %d jobs", sizes, jobs())
	promises.check(t, "what was meant")
	promises.draw(t, fmt.Sprintf("What was meant, over %d simulated sizes", sizes))
	t.Logf("mean logarithmic score of %.0f sizes %.6f, of the model computed exactly %.6f", ours.n, ours.mean(), exactly.mean())
	if math.Abs(ours.mean()-exactly.mean()) > 0.01*exactly.mean() {
		t.Errorf("mean logarithmic score %.5f is not within 1 %% of %.5f", ours.mean(), exactly.mean())
	}
}

// score gathers logarithmic scores, -ln of the probability given to the truth.
type score struct{ sum, n float64 }

func (s *score) add(p float64) {
	s.sum -= math.Log(max(p, 1e-6))
	s.n++
}

func (s *score) mean() float64 { return s.sum / s.n }

// probability returns what an answer gave to the truth.
func probability(answer meant.Size, truth truth) float64 {
	if !truth.round {
		return answer.NoRound
	}
	for _, c := range answer.Candidates {
		if math.Abs(c.Value-truth.n) < 1e-6 {
			return c.P
		}
	}
	return 0
}

// control counts how many answers are confidently wrong about the system.
type control struct {
	sizes, confident, falseInches, falseMetric int
}

// add looks at one answer to a size that was meant in a system.
func (c *control) add(answer meant.Size, inches, metric bool) {
	c.sizes++
	if len(answer.Candidates) == 0 || answer.Candidates[0].P <= 0.9 {
		return
	}
	c.confident++
	n := answer.Candidates[0].Value
	inInches := levelOf(inchFractions, n) >= 0 || levelOf(inchDecimals, n) >= 0
	inMetric := levelOf(millimetres, n) >= 0
	if inInches && !inMetric && !inches {
		c.falseInches++
	}
	if inMetric && !inInches && !metric {
		c.falseMetric++
	}
}

// TestControls puts jobs of one sort and nothing else to a model that is told
// nothing of the machine's country.
func TestControls(t *testing.T) {
	for name, shares := range map[string][4]float64{
		"all in millimetres":    {0, 0, 1, 0},
		"all random":            {0, 0, 0, 1},
		"all in inch fractions": {1, 0, 0, 0},
	} {
		t.Run(name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(seed, 2))
			var c control
			for range jobs() / 2 {
				s := drawSorted(random, shares)
				result := meant.Round(adjusted(t, s.job()), meant.Tables{})
				for k := range s.sizes {
					c.add(result.Sizes[k], shares[inchFractions] == 1, shares[millimetres] == 1)
				}
			}
			t.Logf("%d sizes, %d confident, falsely inches %d (%.3f %%), falsely millimetres %d (%.3f %%)", c.sizes, c.confident,
				c.falseInches, 100*float64(c.falseInches)/float64(c.sizes), c.falseMetric, 100*float64(c.falseMetric)/float64(c.sizes))
			if 100*c.falseInches >= c.sizes || 100*c.falseMetric >= c.sizes {
				t.Errorf("of %d sizes %d are falsely called inches and %d millimetres: 1 %% or more", c.sizes, c.falseInches, c.falseMetric)
			}
		})
	}
}

// drawSorted draws a job whose shares are known, of a country that is not.
func drawSorted(random *rand.Rand, shares [4]float64) simulated {
	var s simulated
	for range 4 + random.IntN(17) {
		s.sizes = append(s.sizes, drawSize(random, shares))
	}
	return s
}
