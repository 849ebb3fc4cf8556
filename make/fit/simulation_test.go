package fit

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// seed was fixed before the first run.
const (
	seed    = 20260405
	bound99 = 3.2905267314919255 // 99.9 % two-sided
)

func shops() int {
	switch {
	case os.Getenv("ODDLEG_LONG") != "":
		return 100_000
	case testing.Short():
		return 1000
	}
	return 10_000
}

// TestShopsKeepTheirPromise simulates shops: the true walls of a groove are
// drawn, read with errors, the job is adjusted, the shoe made anywhere within
// the limits and tried. Where the promise asks for the clearance it is kept just
// so; and no shop that knew the true spread, and took one constant clearance
// off what it measured, could have done with less.
func TestShopsKeepTheirPromise(t *testing.T) {
	for _, c := range []struct {
		name        string
		groove      groove
		least, most float64
		promised    float64
		over        bool
	}{
		{"made closely, read roughly", groove{zero: 0.05, repeat: 0.03, values: 2}, 0, 0.04, 0.99, false},
		{"made roughly, read closely", groove{zero: 0.02, repeat: 0.004, values: 3}, 0.01, 0.02, 0.99, false},
		{"over it, 95 %", groove{zero: 0.05, repeat: 0.015, values: 1}, 0, 0.01, 0.95, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := c.groove
			g.size = trade.NewSize{
				ID: "shoe", Kind: trade.Width, From: trade.GoesIn, Of: formula("(outer - inner)"), Clearance: between(c.least, c.most),
				Holds: mm(0.02), Chance: c.promised,
			}
			if c.over {
				g.size.From = trade.GoesOver
			}
			g.run(t, c.promised)
		})
	}
}

func (g *groove) run(t *testing.T, promised float64) {
	random := rand.New(rand.NewPCG(seed, uint64(g.values)))
	base := adjusted(t, g.job(constant(60, g.values), constant(40, g.values)))
	made := fitted(t, base.Job, nil).Of("shoe")
	closeTo(t, "u of the groove, by hand", made.U, g.deviation(), 1e-12)
	closeTo(t, "clearance, by the spread known", made.Mating.Mean, -spread{g.deviation(), 0.02}.at(1-promised), 1e-12)
	n, together := shops(), 0
	var clearances, errors []float64
	for range n {
		outer, inner := 60+random.NormFloat64(), 40+random.NormFloat64()
		zero := g.zero * random.NormFloat64()
		r, err := base.Refit(read(g.job(g.read(random, outer+zero), g.read(random, inner+zero))))
		if err != nil {
			t.Fatal(err)
		}
		b, err := newBench(t.Context(), r, nil)
		if err != nil {
			t.Fatal(err)
		}
		made := b.make(&r.Job.Part.Sizes[0])
		part := made.Low + (made.High-made.Low)*random.Float64()
		sign := 1.0
		if made.Size.From == trade.GoesOver {
			sign = -1
		}
		clearance := sign * (outer - inner - part)
		if clearance >= 0 {
			together++
		}
		clearances = append(clearances, clearance)
		errors = append(errors, clearance-made.Mating.Mean)
	}
	g.judge(t, float64(together)/float64(n), promised, clearances, errors)
}

// judge compares the part of the shops whose shoe goes together with the
// promise, and their mean clearance with that of the best constant one: the
// clearance that a shop which knew all the errors would have taken.
func (g *groove) judge(t *testing.T, part, promised float64, clearances, errors []float64) {
	t.Helper()
	n := float64(len(clearances))
	bound := bound99 * math.Sqrt(promised*(1-promised)/n)
	mean, deviation := moments(clearances)
	best, blur := bestConstant(errors, promised)
	t.Logf("%.0f shops: %.4f go together, promised %.4f ± %.4f; mean clearance %.5f, best constant one %.5f ± %.5f", n, part, promised, bound, mean, best, blur)
	if math.Abs(part-promised) > bound {
		t.Errorf("%.4f of the shoes go together, promised %.4f ± %.4f", part, promised, bound)
	}
	if allowed := bound99 * math.Hypot(deviation/math.Sqrt(n), blur); math.Abs(mean-best) > allowed {
		t.Errorf("mean clearance %.5f, the best constant one is %.5f ± %.5f", mean, best, allowed)
	}
}

// read returns values read of one wall.
func (g *groove) read(random *rand.Rand, at float64) []float64 {
	list := constant(at, g.values)
	for i := range list {
		list[i] += g.repeat * random.NormFloat64()
	}
	return list
}

func constant(x float64, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = x
	}
	return list
}

func moments(list []float64) (mean, deviation float64) {
	for _, x := range list {
		mean += x / float64(len(list))
	}
	for _, x := range list {
		deviation += (x - mean) * (x - mean) / float64(len(list)-1)
	}
	return mean, math.Sqrt(deviation)
}

// bestConstant returns the smallest constant that, added to errors drawn, is
// at least 0 with the chance promised, and the standard deviation that the
// drawing leaves in it.
func bestConstant(errors []float64, promised float64) (constant, blur float64) {
	sorted := slices.Sorted(slices.Values(errors))
	n := float64(len(sorted))
	at := func(p float64) float64 { return -sorted[int(p*n)] }
	apart := math.Sqrt(n*promised*(1-promised)) / n
	return at(1 - promised), math.Abs(at(1-promised-apart)-at(1-promised+apart)) / 2
}
