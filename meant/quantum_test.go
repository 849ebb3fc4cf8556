package meant

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The two tests against theory stand in the place of published data: of the
// papers, no table of raw measurements was to be had.

// TestKendallsStatistic draws whole multiples of a quantum with a normal error
// and compares the mean of the statistic with its expectation √(2N)·exp(-2π²·s²/q²).
// Expected figures: testdata/certified/examples.yaml, q-kendall-noise (formula of
// D. G. Kendall, Phil. Trans. R. Soc. A 276 (1974) 231; figures computed there).
func TestKendallsStatistic(t *testing.T) {
	random := rand.New(rand.NewPCG(20260318, 20))
	for _, test := range []struct {
		n          int
		sOverQ     float64
		want, half float64
	}{{20, 0.10, 5.192, 0.0006}, {20, 0.20, 2.872, 0.0006}, {8, 0.10, 3.284, 0.0006}} {
		if theory := math.Sqrt(2*float64(test.n)) * math.Exp(-2*math.Pi*math.Pi*test.sOverQ*test.sOverQ); math.Abs(theory-test.want) > test.half {
			t.Errorf("expectation %.5f, published %.3f", theory, test.want)
		}
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
		if math.Abs(mean-test.want) > bound+test.half {
			t.Errorf("%d sizes with error %g q: mean %.4f, want %.3f ± %.4f", test.n, test.sOverQ, mean, test.want, bound)
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
// testdata/certified/examples.yaml, q-broadbent-lumped (S. R. Broadbent,
// Biometrika 42 (1955) 45, from memory; moments of a uniform remainder).
func TestBroadbentsCriterion(t *testing.T) {
	const q = 6.35
	x := make([]float64, 20)
	for i := range x {
		sign := float64(1 - 2*(i%2))
		x[i] = q*float64(i+3) + sign*math.Sqrt(0.15)*q/2
	}
	if got := lumped(x, q); math.Abs(got-0.8199) > 0.5e-4 {
		t.Errorf("criterion %.5f, want 0.8199", got)
	}
	if math.Abs(lumpedSigma-0.29814) > 0.5e-5 {
		t.Errorf("standard deviation %.6f, want 0.29814", lumpedSigma)
	}
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
