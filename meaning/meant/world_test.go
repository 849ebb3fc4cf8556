package meant_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// The drawing of jobs whose drawing is known: shares of the systems from the
// stated prior, sizes by the stated weights between 3 and 150 mm, wear, making
// and reading as stated. All of it is written from the description of the
// model, not from the code under test.
const (
	seed     = 20260318 // fixed before the first run
	smallest = 3.0
	largest  = 150.0
)

// The systems, in the order of the shares.
const (
	inchFractions = iota
	inchDecimals
	millimetres
	noSystem
)

// steps and weights of the levels of each system, in mm.
var (
	steps = [][]float64{
		{25.4, 12.7, 6.35, 3.175, 1.5875, 0.79375, 0.396875},
		{2.54, 1.27, 0.254, 0.127},
		{10, 5, 1, 0.5, 0.25, 0.1},
	}
	weights = [][]float64{
		{.30, .22, .17, .13, .09, .06, .03},
		{.4, .2, .3, .1},
		{.20, .18, .37, .15, .02, .08},
	}
)

// priorShares are the stated prior shares of a machine of each sort of country.
var priorShares = map[string][4]float64{
	"GB": {.62, .10, .10, .18},
	"DE": {.10 * .62 / .72, .10 * .10 / .72, .72, .18},
	"":   {.41 * .62 / .72, .41 * .10 / .72, .41, .18},
}

const dirichletWeight = 4

// truth is one size of a simulated job.
type truth struct {
	x, u, making, wear, side float64
	n                        float64 // what was meant
	round                    bool
}

// simulated is one job and what its drawing said.
type simulated struct {
	country string
	sizes   []truth
}

// drawJob draws one job of 4 to 20 sizes.
func drawJob(random *rand.Rand, country string) simulated {
	s := simulated{country: country}
	shares := drawShares(random, priorShares[country])
	for range 4 + random.IntN(17) {
		s.sizes = append(s.sizes, drawSize(random, shares))
	}
	return s
}

// drawShares draws from the Dirichlet distribution, by gamma variables.
func drawShares(random *rand.Rand, mean [4]float64) [4]float64 {
	var shares [4]float64
	sum := 0.0
	for k, m := range mean {
		shares[k] = drawGamma(random, dirichletWeight*m)
		sum += shares[k]
	}
	for k := range shares {
		shares[k] /= sum
	}
	return shares
}

// drawGamma draws from the gamma distribution of scale 1 (G. Marsaglia, W. W.
// Tsang, ACM Trans. Math. Softw. 26 (2000) 363, from memory).
func drawGamma(random *rand.Rand, shape float64) float64 {
	if shape < 1 {
		return drawGamma(random, shape+1) * math.Pow(random.Float64(), 1/shape)
	}
	d := shape - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		z := random.NormFloat64()
		v := math.Pow(1+c*z, 3)
		if v > 0 && math.Log(random.Float64()) < z*z/2+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}

// drawSize draws what was meant, then the surface and how it was read.
func drawSize(random *rand.Rand, shares [4]float64) truth {
	var t truth
	t.n, t.round = drawMeant(random, pick(random, shares[:]))
	t.making = []float64{0.03, 0.03, 0.03, 0.015, 0.05}[random.IntN(5)]
	t.u = []float64{0.003, 0.01, 0.02, 0.05, 0.1}[random.IntN(5)]
	t.wear = []float64{0, 0.03, 0.03, 0.25, 0.1}[random.IntN(5)]
	t.side = []float64{1, -1}[random.IntN(2)]
	t.x = t.n + t.making*random.NormFloat64() - t.side*t.wear*math.Abs(random.NormFloat64()) + t.u*random.NormFloat64()
	return t
}

// drawMeant draws a value of a system.
func drawMeant(random *rand.Rand, system int) (n float64, round bool) {
	if system == noSystem {
		return smallest + (largest-smallest)*random.Float64(), false
	}
	level := pick(random, weights[system])
	step := steps[system][level]
	for {
		n = step * math.Round((smallest+(largest-smallest)*random.Float64())/step)
		if levelOf(system, n) == level && n >= smallest && n <= largest {
			return n, true
		}
	}
}

// levelOf returns the coarsest level of a system that holds a value, -1 for none.
func levelOf(system int, n float64) int {
	for level, step := range steps[system] {
		if math.Abs(math.Remainder(n, step)) < 1e-7 {
			return level
		}
	}
	return -1
}

func pick(random *rand.Rand, weights []float64) int {
	p := random.Float64()
	for i, w := range weights {
		if p -= w; p < 0 {
			return i
		}
	}
	return len(weights) - 1
}

// job puts a simulated job in the program's words: every size known to its u.
func (s simulated) job() *trade.Job {
	job := &trade.Job{Name: "simulated", Units: unit.Millimetre, Machine: trade.Machine{Country: s.country, Built: 1938}}
	for i, t := range s.sizes {
		size := trade.Size{
			ID: fmt.Sprintf("s%d", i), Kind: trade.Length, Surface: surface(t.side),
			Make: mm(t.making), Known: trade.Prior{Value: mm(t.x), U: mm(t.u)},
		}
		if size.Wear = trade.NoWear; t.wear > 0 {
			size.Wear, size.TypicalWear = trade.TypicalWear, mm(t.wear)
		}
		job.Sizes = append(job.Sizes, size)
	}
	return job
}

func surface(side float64) trade.Surface {
	switch side {
	case 1:
		return trade.Outside
	case -1:
		return trade.Inside
	}
	return trade.NoSurface
}

// mm writes a length to a millionth of a micron.
func mm(x float64) unit.Quantity {
	q, err := unit.New(int64(math.Round(x*1e9)), 1e9, unit.Millimetre)
	if err != nil {
		panic(err)
	}
	return q
}

// tied returns the relation that one formula over the sizes of a job equals another.
func tied(job *trade.Job, that, is string) trade.Relation {
	left, err := job.Formula(that)
	if err != nil {
		panic(err)
	}
	right, err := job.Equal(is, left)
	if err != nil {
		panic(err)
	}
	return trade.Relation{That: left, Is: right}
}

func adjusted(t testing.TB, job *trade.Job) *adjust.Result {
	t.Helper()
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
