package meant

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// byScipy has the sum of a normal and a half-normal integrated by scipy's quad:
// its density, and the mean of the half-normal given the sum.
const byScipy = `
import json, sys
from math import exp, hypot, pi, sqrt
from scipy.integrate import quad
out = []
for v, wear, y in json.load(sys.stdin):
    s = sqrt(v)
    f = lambda w: exp(-(w / wear)**2 / 2 - ((y - w) / s)**2 / 2) / (pi * wear * s)
    top = max(0.0, y * wear**2 / (v + wear**2))
    reach = 12 * s * wear / hypot(s, wear)
    low, high = max(0.0, top - reach), top + reach
    density = quad(f, low, high, points=[top], epsabs=0, epsrel=1e-12, limit=400)[0]
    mean = quad(lambda w: w * f(w), low, high, points=[top], epsabs=0, epsrel=1e-12, limit=400)[0] / density
    out.append([density, mean])
json.dump(out, sys.stdout)
`

// TestWearIsASkewNormal compares the density and the mean wear with scipy
// (Debian python3-scipy) integrating over the wear, to eight digits.
func TestWearIsASkewNormal(t *testing.T) {
	program := oracle.Python(t, "scipy")
	var cases [][3]float64
	for _, v := range []float64{1e-4, 9e-4, 4e-3} {
		for _, wear := range []float64{0.01, 0.03, 0.25} {
			for _, y := range []float64{-0.1, -0.02, 0, 0.03, 0.2} {
				cases = append(cases, [3]float64{v, wear, y})
			}
		}
	}
	want := oracle.Answers[[2]float64](t, program, cases, "-c", byScipy)
	for i, c := range cases {
		for _, side := range []float64{1, -1} {
			s := scatter{variance: c[0], wear: c[1], side: side}
			if got := s.density(side * c[2]); math.Abs(got-want[i][0]) > 1e-8*want[i][0] {
				t.Errorf("v %g, wear %g, lost %g: density %.10g, scipy %.10g", c[0], c[1], c[2], got, want[i][0])
			}
			if got := s.worn(side * c[2]); math.Abs(got-want[i][1]) > 1e-8*want[i][1] {
				t.Errorf("v %g, wear %g, lost %g: worn %.10g, scipy %.10g", c[0], c[1], c[2], got, want[i][1])
			}
		}
	}
}

// TestWornFarOff has the mean wear where the surface has grown so much that the
// normal is cut off far from its middle: positive, and falling as it grows.
func TestWornFarOff(t *testing.T) {
	s := scatter{variance: 1e-4, wear: 0.03, side: 1}
	last := math.Inf(1)
	for d := 0.0; d > -1; d -= 0.001 {
		w := s.worn(d)
		if !(w > 0 && w < last) {
			t.Fatalf("grown by %g: worn %g after %g", -d, w, last)
		}
		last = w
	}
}

// TestTheSumOverSharesIsExact compares moments of the Dirichlet distribution
// with their closed form, Π Γ(a+k)/Γ(a) over Γ(A+n)/Γ(A), for exponents as small
// as the stated prior has.
func TestTheSumOverSharesIsExact(t *testing.T) {
	rising := func(a float64, n int) float64 {
		product := 1.0
		for k := range n {
			product *= a + float64(k)
		}
		return product
	}
	rapid.Check(t, func(t *rapid.T) {
		var prior [systems]float64
		whole, want, degree := 0.0, 1.0, 0
		var power [systems]int
		for s := range prior {
			prior[s] = rapid.Float64Range(0.05, 3).Draw(t, "parameter")
			power[s] = rapid.IntRange(0, 6).Draw(t, "power")
			whole += prior[s]
			want *= rising(prior[s], power[s])
			degree += power[s]
		}
		want /= rising(whole, degree)
		got := 0.0
		for _, p := range simplex(prior, degree/2+1) {
			product := p.weight
			for s, share := range p.shares {
				product *= math.Pow(share, float64(power[s]))
			}
			got += product
		}
		if math.Abs(got-want) > 1e-9*want {
			t.Fatalf("moment %v of %v: %.12g, want %.12g", power, prior, got, want)
		}
	})
}
