package lsq

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// large makes a sparse problem of about so many observations, as a large job has
// them, and of nothing alike: runs of unknowns of 1 to 9 of which each is read
// with one or two before it, one of twelve slowly varying instruments whose zero
// stands in a row, links across runs, sums that are exact, and here and there an
// unknown that nothing reads, or two of which only the sum is read.
func large(r *rand.Rand, observations int, open bool) Problem {
	var p Problem
	unknown := func() int {
		p.Start = append(p.Start, r.NormFloat64())
		return len(p.Start) - 1
	}
	observe := func(sigma float64, row Row) {
		p.Observations = append(p.Observations, Observation{&linear{row: row, less: r.NormFloat64()}, sigma})
	}
	add := func(columns ...int) (row Row) {
		for _, c := range columns {
			row.Add(c, (0.3+r.Float64())*float64(1-2*r.IntN(2)))
		}
		return row
	}
	var zeros []int
	for range 12 {
		zeros = append(zeros, unknown())
		observe(0.02, add(zeros[len(zeros)-1]))
	}
	var ends []int
	for len(p.Observations) < observations {
		run := []int{unknown()}
		for range r.IntN(9) {
			run = append(run, unknown())
		}
		for i, c := range run {
			zero := zeros[r.IntN(1+len(ends)%len(zeros))]
			for range 1 + r.IntN(3) {
				observe(0.01*(1+r.Float64()), add(append([]int{zero}, run[max(0, i-r.IntN(3)):i+1]...)...))
			}
			_ = c
		}
		last := run[len(run)-1]
		if len(ends) > 0 && r.IntN(3) == 0 {
			observe(0.05, add(last, ends[r.IntN(len(ends))]))
		}
		if len(ends) > 0 && r.IntN(4) == 0 {
			sum := unknown()
			row := add(sum, last, ends[len(ends)-1])
			p.Constraints = append(p.Constraints, &linear{row: row})
			if r.IntN(8) == 0 { // once more, doubled: it follows
				twice := Row{slices.Clone(row.Columns), slices.Clone(row.Values)}
				twice.scale(2)
				p.Constraints = append(p.Constraints, &linear{row: twice})
			}
		}
		if open && r.IntN(20) == 0 {
			a, b := unknown(), unknown()
			observe(0.03, add(a, b, last))
		}
		ends = append(ends, last)
	}
	if open {
		unknown()
	}
	return p
}

// pseudo solves a linear problem by singular values, all of it dense: the
// cofactors Z·(AZ)⁺·(AZ)⁺ᵀ·Zᵀ with Z the steps that keep the constraints, the
// redundancy numbers and the rank. The columns are scaled as by Solve.
func pseudo(p Problem) (cofactors *mat.Dense, redundancy []float64, rank int) {
	n := len(p.Start)
	a := jacobian(len(p.Observations), n, func(i int, row *Row) float64 {
		p.Observations[i].Equation.Eval(p.Start, row)
		return 1 / p.Observations[i].Sigma
	})
	scale := make([]float64, n)
	for j := range scale {
		if scale[j] = 1; mat.Norm(a.ColView(j), 2) > 0 {
			scale[j] = 1 / mat.Norm(a.ColView(j), 2)
		}
		for i := range p.Observations {
			a.Set(i, j, a.At(i, j)*scale[j])
		}
	}
	z := mat.NewDense(n, n, nil)
	for j := range n {
		z.Set(j, j, 1)
	}
	if len(p.Constraints) > 0 {
		c := jacobian(len(p.Constraints), n, func(k int, row *Row) float64 {
			p.Constraints[k].Eval(p.Start, row)
			return 1
		})
		for k := range p.Constraints {
			for j := range n {
				c.Set(k, j, c.At(k, j)*scale[j])
			}
		}
		_, v, independent := values(c)
		z = mat.DenseCopyOf(v.Slice(0, n, independent, n))
	}
	var b mat.Dense
	b.Mul(a, z)
	_, k := b.Dims()
	u, v, rank := values(&b)
	var svd mat.SVD
	svd.Factorize(&b, mat.SVDNone)
	s := svd.Values(nil)
	f := mat.NewDense(k, rank, nil)
	for j := range rank {
		for i := range k {
			f.Set(i, j, v.At(i, j)/s[j])
		}
	}
	var whole mat.Dense
	whole.Mul(z, f)
	for j := range n {
		for i := range rank {
			whole.Set(j, i, whole.At(j, i)*scale[j])
		}
	}
	cofactors = &mat.Dense{}
	cofactors.Mul(&whole, whole.T())
	for i := range p.Observations {
		sum := 0.0
		for j := range rank {
			sum += u.At(i, j) * u.At(i, j)
		}
		redundancy = append(redundancy, 1-sum)
	}
	return cofactors, redundancy, rank
}

func jacobian(count, n int, eval func(i int, row *Row) (weight float64)) *mat.Dense {
	a := mat.NewDense(count, n, nil)
	for i := range count {
		var row Row
		weight := eval(i, &row)
		for k, c := range row.Columns {
			a.Set(i, c, a.At(i, c)+weight*row.Values[k])
		}
	}
	return a
}

// values returns the singular vectors of a matrix, all of the right ones, and its
// rank.
func values(a *mat.Dense) (u, v *mat.Dense, rank int) {
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDFull) {
		panic("no singular values")
	}
	u, v = &mat.Dense{}, &mat.Dense{}
	svd.UTo(u)
	svd.VTo(v)
	for _, s := range svd.Values(nil) {
		if s > 1e-9 {
			rank++
		}
	}
	return u, v, rank
}

// TestSparseAgainstDense solves large problems of many kinds and holds cofactors,
// redundancy, rank and what is determined to what singular values of the whole
// dense matrix give.
func TestSparseAgainstDense(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 7))
	for round := range 24 {
		p := large(r, 30+9*round, round%3 > 0)
		s := mustSolve(t, p)
		cofactors, redundancy, rank := pseudo(p)
		if s.Rank != rank {
			t.Errorf("round %d: rank %d, by singular values %d", round, s.Rank, rank)
			continue
		}
		if open := round%3 > 0; open != (s.Defect > 0) {
			t.Errorf("round %d: defect %d", round, s.Defect)
		}
		worst := 0.0
		for i := range p.Start {
			for j := range i + 1 {
				if s.Determined(i) && s.Determined(j) {
					u := math.Sqrt(cofactors.At(i, i) * cofactors.At(j, j))
					worst = max(worst, math.Abs(s.Cofactor(i, j)-cofactors.At(i, j))/u)
				}
			}
		}
		for i, want := range redundancy {
			worst = max(worst, math.Abs(s.Redundancy[i]-want))
		}
		if !(worst <= 1e-10) {
			t.Errorf("round %d, %d unknowns: %.2g apart", round, len(p.Start), worst)
		}
		checkNull(t, p, s)
	}
}

// pairsOf is Shared, one pair after the other.
func pairsOf(s *Solution, a, b []int) float64 {
	sum := 0.0
	for _, k := range a {
		for _, l := range b {
			sum += s.TestCorrelation(k, l) * math.Sqrt(s.Redundancy[k]*s.Redundancy[l])
		}
	}
	return sum
}

// TestCovariancesAgree: what is worked out for all unknowns or observations at once
// is what the cofactors give one by one.
func TestCovariancesAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 8))
	p := large(r, 120, true)
	s := mustSolve(t, p)
	var g Row
	for _, j := range r.Perm(len(p.Start))[:3] {
		g.Add(j, r.NormFloat64())
	}
	v := make([]float64, len(p.Start))
	for i, c := range g.Columns {
		v[c] = g.Values[i]
	}
	applied := make([]float64, len(v))
	s.Apply(v, applied, make([]float64, len(v)))
	image, variance := s.Image(&g), 0.0
	for j := range p.Start {
		want := 0.0
		for i, c := range g.Columns {
			want += g.Values[i] * s.Cofactor(j, c)
		}
		near(t, fmt.Sprint("covariance of ", j), s.CovarianceWith(j, image), want, 1e-12)
		variance += g.At(j) * want
		near(t, fmt.Sprint("applied to ", j), applied[j], want, 1e-12)
	}
	near(t, "variance", image.Variance(), variance, 1e-12)
	a, b := []int{3, 17, 40, 41, 60, 61}, []int{17, 41, 8}
	few, fewer := a[:4], b[:2]
	near(t, "shared", s.Shared(a, b), pairsOf(s, a, b), 1e-12)
	near(t, "shared of few", s.Shared(few, fewer), pairsOf(s, few, fewer), 1e-12)
	shown := s.Shown(&g)
	for i, o := range p.Observations {
		var row Row
		o.Equation.Eval(p.Start, &row)
		want := 0.0
		for a, c := range row.Columns {
			want += row.Values[a] / o.Sigma * s.CovarianceWith(c, image)
		}
		near(t, fmt.Sprint("shown by ", i), shown[i], want, 1e-10)
		near(t, fmt.Sprint("shown in ", i), s.ShownIn(i, image), want, 1e-10)
	}
}

// TestWorkGrowsSlowly counts the multiplications and the places that are not 0 of
// problems from 100 to 10,000 observations: both grow in an order under 1.5 (a
// dense factor works in the order 3 and holds in the order 2).
func TestWorkGrowsSlowly(t *testing.T) {
	counts := []int{100, 1000, 10_000}
	if testing.Short() {
		counts = counts[:2]
	}
	var work, held []float64
	for _, count := range counts {
		p := large(rand.New(rand.NewPCG(14, 9)), count, false)
		s := mustSolve(t, p)
		places := 0
		for _, v := range slices.Concat(s.seen, s.moved) {
			places += len(v.at)
		}
		perStep := float64(s.work) / float64(s.Iterations)
		work, held = append(work, perStep), append(held, float64(places))
		t.Logf("%6d observations, %5d unknowns, %4d constraints: %9.0f multiplications a step, %8d places",
			count, len(p.Start), len(p.Constraints), perStep, places)
	}
	for i := 1; i < len(counts); i++ {
		ratio := math.Log(float64(counts[i]) / float64(counts[i-1]))
		for name, list := range map[string][]float64{"work": work, "places": held} {
			if order := math.Log(list[i]/list[i-1]) / ratio; order >= 1.5 {
				t.Errorf("%s grows in the order %.2f from %d to %d", name, order, counts[i-1], counts[i])
			}
		}
	}
}

// TestChainIsHalved: a chain of unknowns each read against the next is eliminated
// from the middle of its parts, so that no path to the root is long.
func TestChainIsHalved(t *testing.T) {
	const n = 4096
	var r rows
	for j := range n - 1 {
		r.add(j, 1)
		r.add(j+1, -1)
		r.end()
	}
	s := shapeOf(&r, orderOf(&r, n, nil))
	longest := 0
	for p := range n {
		length := 0
		for ; p >= 0; p = s.next[p] {
			length++
		}
		longest = max(longest, length)
	}
	if longest > 60 { // log2(4096) = 12 at best
		t.Errorf("a path of %d places", longest)
	}
}

// TestHiddenSingularity: the triangle of W. Kahan (Numerical linear algebra,
// Canadian Mathematical Bulletin 9, 1966) has no small diagonal element and yet a
// direction in which next to nothing happens; what counts is found in spite of it.
func TestHiddenSingularity(t *testing.T) {
	for _, n := range []int{20, 90} {
		p := Problem{Start: make([]float64, n)}
		s, c := 0.95, math.Sqrt(1-0.95*0.95)
		for i := range n {
			var row Row
			row.Add(i, math.Pow(s, float64(i)))
			for j := i + 1; j < n; j++ {
				row.Add(j, -c*math.Pow(s, float64(i)))
			}
			p.Observations = append(p.Observations, Observation{&linear{row: row, less: float64(i)}, 1})
		}
		_, _, rank := pseudo(p)
		found := mustSolve(t, p)
		if found.Rank != rank || found.Rank+found.Defect != n {
			t.Errorf("n = %d: rank %d and defect %d; by singular values %d", n, found.Rank, found.Defect, rank)
		}
	}
}

// TestAllButUndetermined: two unknowns are told apart only by what a part in so
// many of one of them does.
func TestAllButUndetermined(t *testing.T) {
	for part, rank := range map[float64]int{1e-3: 3, 1e-7: 3, 1e-13: 2} {
		first, second := Row{[]int{0, 1}, []float64{1, 1}}, Row{[]int{0, 1}, []float64{1, 1 + part}}
		p := Problem{make([]float64, 3), seen(0.1, &linear{row: first, less: 5}, &linear{row: second, less: 5}, sumOf(2, 2)), nil}
		s := mustSolve(t, p)
		if s.Rank != rank || s.Determined(0) != (rank == 3) || !s.Determined(2) {
			t.Errorf("told apart by %g: rank %d, determined %v", part, s.Rank, s.determined)
		}
		if rank == 3 { // by hand: u(x1) = √2·σ/part
			near(t, fmt.Sprint("u, told apart by ", part), math.Sqrt(s.Cofactor(1, 1))*part, 0.1*math.Sqrt2, 1e-8)
		}
	}
}
