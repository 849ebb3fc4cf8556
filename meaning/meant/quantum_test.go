package meant

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/testdata/certified"
)

// The two tests against theory stand in the place of published data: of the
// papers, no table of raw measurements was to be had.

// TestKendallsStatistic draws whole multiples of a quantum with a normal error
// and compares the mean of the statistic with its expectation √(2N)·exp(-2π²·s²/q²).
// Expected figures: q-kendall-noise among the certified examples (formula of
// D. G. Kendall, Phil. Trans. R. Soc. A 276 (1974) 231; figures computed there).
func TestKendallsStatistic(t *testing.T) {
	random := rand.New(rand.NewPCG(20260318, 20))
	e := certified.Example(t, "q-kendall-noise")
	for _, test := range []struct {
		n      int
		sOverQ float64
	}{{20, 0.10}, {20, 0.20}, {8, 0.10}} {
		published := e.Figure(t, fmt.Sprintf("expected phi, N %d, s/q %.2f", test.n, test.sOverQ))
		published.Compare(t, math.Sqrt(2*float64(test.n))*math.Exp(-2*math.Pi*math.Pi*test.sOverQ*test.sOverQ))
		want := published.Number(t)
		const q, rounds = 1.5875, 4000
		var sum, squares float64
		for range rounds {
			x := make([]float64, test.n)
			for i := range x {
				x[i] = q * (float64(random.IntN(60)) + test.sOverQ*random.NormFloat64())
			}
			phi := quantogram(x, q)
			sum += phi
			squares += phi * phi
		}
		mean := sum / rounds
		bound := 3.29 * math.Sqrt((squares/rounds-mean*mean)/rounds)
		if math.Abs(mean-want) > bound+published.Tolerance {
			t.Errorf("%d sizes with error %g q: mean %.4f, want %.3f ± %.4f", test.n, test.sOverQ, mean, want, bound)
		}
	}
}

// TestKendallsStatisticOfRandomSizes has mean 0 and variance 1.
func TestKendallsStatisticOfRandomSizes(t *testing.T) {
	random := rand.New(rand.NewPCG(20260318, 21))
	const n, q, rounds = 12, 1.5875, 4000
	var sum, squares, far float64
	for range rounds {
		x := make([]float64, n)
		for i := range x {
			x[i] = 100 * q * random.Float64()
		}
		phi := quantogram(x, q)
		sum += phi
		squares += phi * phi
		if phi > 2.326 {
			far++
		}
	}
	if math.Abs(sum/rounds) > 3.29/math.Sqrt(rounds) {
		t.Errorf("mean %.4f, want 0", sum/rounds)
	}
	if math.Abs(squares/rounds-1) > 3.29*math.Sqrt(2.0/rounds) {
		t.Errorf("variance %.4f, want 1", squares/rounds)
	}
	if far/rounds > 0.01+3.29*math.Sqrt(0.01/rounds) {
		t.Errorf("%.4f are over 2.326, want 0.01 or fewer", far/rounds)
	}
}

// TestBroadbentsCriterion has n = 20 and s²/d² = 0.15. Expected figures:
// q-broadbent-lumped among the certified examples (S. R. Broadbent, Biometrika 42
// (1955) 45, from memory; moments of a uniform remainder).
func TestBroadbentsCriterion(t *testing.T) {
	const q = 6.35
	x := make([]float64, 20)
	for i := range x {
		sign := float64(1 - 2*(i%2))
		x[i] = q*float64(i+3) + sign*math.Sqrt(0.15)*q/2
	}
	e := certified.Example(t, "q-broadbent-lumped")
	e.Compare(t, "C for n 20, s2/d2 0.15", lumped(x, q))
	e.Compare(t, "standard deviation of C under chance", lumpedSigma)
	random := rand.New(rand.NewPCG(20260318, 22))
	const rounds = 4000
	var sum, squares float64
	for range rounds {
		for i := range x {
			x[i] = 100 * q * random.Float64()
		}
		c := lumped(x, q)
		sum += c
		squares += c * c
	}
	if mean := sum / rounds; math.Abs(mean) > 3.29*lumpedSigma/math.Sqrt(rounds) {
		t.Errorf("mean of random sizes %.4f, want 0", mean)
	}
	if got := math.Sqrt(squares / rounds); math.Abs(got-lumpedSigma) > 3.29*lumpedSigma/math.Sqrt(2*rounds) {
		t.Errorf("standard deviation of random sizes %.4f, want %.4f", got, lumpedSigma)
	}
}
