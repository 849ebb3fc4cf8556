package meant

import (
	"math"
	"slices"
)

// mostNodes bounds the points each way of the sum over the shares: it is exact
// for jobs of up to 2·mostNodes - 1 sizes, and good to three figures for some
// hundreds.
const mostNodes = 32

// point is one point of the sum over the shares of the systems.
type point struct {
	shares [systems]float64
	weight float64 // adds up to 1
}

// normalised returns what logarithms stand for, made to add up to 1.
func normalised(logs []float64) []float64 {
	most := slices.Max(logs)
	list := make([]float64, len(logs))
	sum := 0.0
	for i, log := range logs {
		list[i] = math.Exp(log - most)
		sum += list[i]
	}
	for i := range list {
		list[i] /= sum
	}
	return list
}

// simplex returns n points each way and weights whose sum is the mean, over a
// Dirichlet distribution, of any polynomial of the shares of degree 2n - 1 or
// less. Shares are sticks broken off one after the other, each a beta variable,
// and on each stick stands a Gauss-Jacobi rule.
func simplex(parameters [systems]float64, n int) []point {
	rest := parameters[1] + parameters[2] + parameters[3]
	first := beta(parameters[0], rest, n)
	second := beta(parameters[1], rest-parameters[1], n)
	third := beta(parameters[2], parameters[3], n)
	list := make([]point, 0, n*n*n)
	for _, a := range first {
		for _, b := range second {
			for _, c := range third {
				left := 1 - a.x
				left2 := left * (1 - b.x)
				list = append(list, point{
					shares: [systems]float64{a.x, left * b.x, left2 * c.x, left2 * (1 - c.x)},
					weight: a.weight * b.weight * c.weight,
				})
			}
		}
	}
	return list
}

// node is one point of a rule on 0 to 1.
type node struct{ x, weight float64 }

// beta returns the n-point Gauss rule of the beta distribution with exponents
// a - 1 and b - 1: the points are the eigenvalues of the Jacobi matrix, found by
// bisection on Sturm's count, the weights come from the orthonormal polynomials
// (G. H. Golub, J. H. Welsch, Math. Comp. 23 (1969) 221; the recurrence of the
// Jacobi polynomials as in M. Abramowitz, I. Stegun, 22.7, both from memory).
func beta(a, b float64, n int) []node {
	middle, side := jacobi(b-1, a-1, n)
	list := make([]node, n)
	for i := range list {
		low, high := -1.0, 1.0
		for range 60 {
			t := (low + high) / 2
			if below(middle, side, t) > i {
				high = t
			} else {
				low = t
			}
		}
		t := (low + high) / 2
		list[i] = node{x: (1 + t) / 2, weight: 1 / squares(middle, side, t)}
	}
	return list
}

// jacobi returns the middle of the Jacobi matrix and the squares beside it, for
// the weight (1 - t)^α·(1 + t)^β.
func jacobi(alpha, beta float64, n int) (middle, side []float64) {
	middle, side = make([]float64, n), make([]float64, n)
	s := alpha + beta
	middle[0] = (beta - alpha) / (s + 2)
	for i := 1; i < n; i++ {
		k := float64(i)
		middle[i] = (beta - alpha) * s / ((2*k + s) * (2*k + s + 2))
		side[i] = 4 * k * (k + alpha) * (k + beta) * (k + s) / ((2*k + s) * (2*k + s) * (2*k + s + 1) * (2*k + s - 1))
		if i == 1 { // (1 + s) cancels, and may be 0
			side[i] = 4 * (1 + alpha) * (1 + beta) / ((2 + s) * (2 + s) * (3 + s))
		}
	}
	return middle, side
}

// below counts the eigenvalues of the Jacobi matrix that are less than t.
func below(middle, side []float64, t float64) int {
	count := 0
	d := 1.0
	for i := range middle {
		d = middle[i] - t - side[i]/d
		if d == 0 {
			d = 1e-300
		}
		if d < 0 {
			count++
		}
	}
	return count
}

// squares returns the sum of the squares of the orthonormal polynomials at t.
func squares(middle, side []float64, t float64) float64 {
	last, p, sum := 0.0, 1.0, 1.0
	for i := 1; i < len(middle); i++ {
		last, p = p, ((t-middle[i-1])*p-math.Sqrt(side[i-1])*last)/math.Sqrt(side[i])
		sum += p * p
	}
	return sum
}
