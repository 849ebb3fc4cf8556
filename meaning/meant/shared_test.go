package meant_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// ruled is a job all read with one instrument whose zero is unknown, so that
// its sizes share an error.
type ruled struct {
	simulated
	zero, repeat float64
	job          *trade.Job
}

// drawRuled draws a job of n sizes with a zero of this standard deviation.
func drawRuled(random *rand.Rand, n int, zero float64) ruled {
	r := ruled{zero: zero, repeat: 0.02}
	shares := drawShares(random, priorShares[""])
	off := zero * random.NormFloat64()
	var seen []float64
	for range n {
		t := truth{making: 0.03}
		t.n, t.round = drawMeant(random, pick(random, shares[:]))
		t.x = t.n + t.making*random.NormFloat64() + off + r.repeat*random.NormFloat64()
		r.sizes = append(r.sizes, t)
		seen = append(seen, t.x)
	}
	r.job = ruledJob(zero, r.repeat, seen, 0)
	return r
}

// ruledJob has sizes s0, s1 ... each read once by one rule, all off by the same.
func ruledJob(zero, repeat float64, seen []float64, off float64) *trade.Job {
	job := &trade.Job{Name: "ruled", Units: unit.Millimetre, Instruments: []trade.Instrument{
		{ID: "rule", Kind: trade.OtherInstrument, Zero: mm(zero), Repeat: mm(repeat), Resolution: mm(1e-6)},
	}}
	for i, x := range seen {
		id := fmt.Sprintf("s%d", i)
		job.Sizes = append(job.Sizes, trade.Size{ID: id, Kind: trade.Length})
		job.Readings = append(job.Readings, trade.Reading{
			ID: "r" + id, By: "outside", Of: []trade.Arg{{Role: "size", ID: id}}, With: "rule", Saw: []trade.Seen{{X: mm(x + off)}},
		})
	}
	return job
}

// exactly returns the probability of each value of each size, with the zero
// summed over finely and the systems of all sizes taken one by one.
func (r ruled) exactly() []map[int64]float64 {
	const nodes, far = 1200, 6.0
	n := len(r.sizes)
	list := make([]map[int64]float64, n)
	for i := range list {
		list[i] = map[int64]float64{}
	}
	total := 0.0
	for k := 0; k <= nodes; k++ {
		z := (2*float64(k)/nodes - 1) * far
		odds := make([]sizeOdds, n)
		for i, t := range r.sizes {
			t.x -= z * r.zero
			t.u = r.repeat
			odds[i] = oddsOf(t)
		}
		weigh(odds, func(systems []int, p float64) {
			p *= math.Exp(-z * z / 2)
			total += p
			for i, system := range systems {
				for _, v := range odds[i].values {
					if v.part[system] > 0 {
						list[i][int64(math.Round(v.n*1e6))] += p * v.part[system] / odds[i].system[system]
					}
				}
			}
		})
	}
	for i := range list {
		for n := range list[i] {
			list[i][n] /= total
		}
	}
	return list
}

// weigh visits every choice of systems with its weight.
func weigh(odds []sizeOdds, visit func(systems []int, p float64)) {
	systems := make([]int, len(odds))
	for {
		p := 1.0
		var counts [4]int
		for i, system := range systems {
			p *= odds[i].system[system]
			counts[system]++
		}
		for system, c := range counts {
			p *= math.Exp(rising(dirichletWeight*priorShares[""][system], c))
		}
		visit(systems, p)
		i := 0
		for i < len(systems) && systems[i] == 3 {
			systems[i] = 0
			i++
		}
		if i == len(systems) {
			return
		}
		systems[i]++
	}
}

// TestSharedErrorIsCounted compares jobs of three sizes that share an unknown
// zero with the same computed by summing over all that is unknown: to five
// places, which the step of the program's own sum over the zero allows.
func TestSharedErrorIsCounted(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 5))
	for _, zero := range []float64{0.05, 0.1, 0.2} {
		for range 4 {
			r := drawRuled(random, 3, zero)
			result := meant.Round(adjusted(t, r.job), meant.Tables{})
			for i, want := range r.exactly() {
				for _, c := range result.Sizes[i].Candidates {
					if p := want[int64(math.Round(c.Value*1e6))]; math.Abs(c.P-p) > 1e-5 {
						t.Errorf("zero %g mm: %s: probability %.6f, exactly %.6f", zero, c.Text, c.P, p)
					}
				}
			}
		}
	}
}

// TestSharedErrorKeepsPromises draws jobs by one rule with an unknown zero.
func TestSharedErrorKeepsPromises(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 6))
	var promises tally
	for range jobs() / 3 {
		r := drawRuled(random, 4+random.IntN(8), 0.1)
		result := meant.Round(adjusted(t, r.job), meant.Tables{})
		for i, was := range r.sizes {
			promises.answer(result.Sizes[i], was)
		}
		promises.job()
	}
	promises.check(t, "by one rule")
}
