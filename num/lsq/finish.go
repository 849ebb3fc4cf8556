package lsq

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// finish is the orthogonal factorisation q·r of the weighted Jacobian at a
// place, in scaled unknowns and reduced to the steps that keep the constraints:
// these are free combinations of the columns of allowed.
type finish struct {
	scale   []float64
	allowed blas64.General // n × k, orthonormal columns
	free    bool           // no constraints: allowed is the unit matrix, not formed
	pivots  []int
	rank    int
	q       blas64.General // observations × rank, orthonormal columns
	r       blas64.General // rank × k, upper trapezium in the order of pivots
	null    blas64.General // k × defect: reduced steps that no observation sees
}

// factorise factorises at the place the search has reached.
func (s *search) factorise() *finish {
	f := &finish{scale: make([]float64, len(s.scale))}
	s.here.scaleColumns(f.scale)
	f.allow(s)
	b := f.reduce(s.here.rows)
	f.pivots = make([]int, b.Cols)
	tau, work := make([]float64, min(b.Rows, b.Cols)), make([]float64, workFor(b.Rows, b.Cols))
	f.rank = pivotedQR(b, f.pivots, tau, work)
	f.r = dense(f.rank, b.Cols)
	for i := range f.rank {
		copy(rowOf(f.r, i)[i:], rowOf(b, i)[i:])
	}
	f.q = columns(b, 0, f.rank)
	if f.rank > 0 {
		lapack64.Orgqr(f.q, tau[:f.rank], work, len(work))
	}
	f.findNull()
	return f
}

// allow finds the steps that keep the constraints.
func (f *finish) allow(s *search) {
	n := len(f.scale)
	s.ties.factor(s.here.ties, f.scale)
	if s.ties.rank == 0 {
		f.free = true
		f.allowed = blas64.General{Rows: n, Cols: n}
		return
	}
	f.allowed = complement(s.ties.basis, s.ties.rank)
}

// reduce returns the dense Jacobian for reduced steps.
func (f *finish) reduce(rows []Row) blas64.General {
	b := dense(len(rows), f.allowed.Cols)
	for i := range rows {
		into := rowOf(b, i)
		for a, c := range rows[i].Columns {
			v := rows[i].Values[a] * f.scale[c]
			if f.free {
				into[c] += v
			} else {
				blas64.Axpy(v, vector(rowOf(f.allowed, c)), vector(into))
			}
		}
	}
	return b
}

// findNull finds the reduced steps that no observation sees.
func (f *finish) findNull() {
	k, defect := f.r.Cols, f.r.Cols-f.rank
	f.null = dense(k, defect)
	if defect == 0 {
		return
	}
	rest := columns(f.r, f.rank, k)
	if f.rank > 0 {
		blas64.Trsm(blas.Left, blas.NoTrans, 1, triangle(f.r, f.rank), rest)
	}
	for a, p := range f.pivots {
		if a >= f.rank {
			f.null.Data[p*f.null.Stride+a-f.rank] = 1
			continue
		}
		for b, v := range rowOf(rest, a) {
			f.null.Data[p*f.null.Stride+b] = -v
		}
	}
	orthonormalise(f.null)
}

// invert returns the n × rank matrix F, in the unknowns' own units, with
// FFᵀ the cofactors: the inverse of the weighted Jacobian is FQᵀ. Where the
// rank is short it is the one that moves nothing along the null directions.
func (f *finish) invert() blas64.General {
	k := f.r.Cols
	inverse := dense(f.rank, f.rank)
	for i := range f.rank {
		copy(rowOf(inverse, i), rowOf(f.r, i))
	}
	if f.rank > 0 {
		lapack64.Trtri(triangle(inverse, f.rank))
	}
	reduced := dense(k, f.rank)
	for a, p := range f.pivots[:f.rank] {
		copy(rowOf(reduced, p), rowOf(inverse, a))
	}
	f.offNull(reduced)
	return f.expand(reduced)
}

// offNull takes from reduced steps, one a column, what lies along the null
// directions.
func (f *finish) offNull(steps blas64.General) {
	if f.null.Cols == 0 || steps.Cols == 0 {
		return
	}
	along := dense(f.null.Cols, steps.Cols)
	blas64.Gemm(blas.Trans, blas.NoTrans, 1, f.null, steps, 0, along)
	blas64.Gemm(blas.NoTrans, blas.NoTrans, -1, f.null, along, 1, steps)
}

// expand turns reduced steps, one a column, into steps of the unknowns.
func (f *finish) expand(steps blas64.General) blas64.General {
	whole := f.widen(steps)
	for j, scale := range f.scale {
		blas64.Scal(scale, vector(rowOf(whole, j)))
	}
	return whole
}

// widen turns reduced steps into steps of the scaled unknowns.
func (f *finish) widen(steps blas64.General) blas64.General {
	if f.free || steps.Cols == 0 {
		return blas64.General{Rows: f.allowed.Rows, Cols: steps.Cols, Stride: steps.Stride, Data: steps.Data}
	}
	whole := dense(f.allowed.Rows, steps.Cols)
	blas64.Gemm(blas.NoTrans, blas.NoTrans, 1, f.allowed, steps, 0, whole)
	return whole
}

// slack returns Qᵀ·misfits: what is left for the unknowns to take up, 0 at the
// solution.
func (f *finish) slack(misfits []float64) []float64 {
	w := make([]float64, f.rank)
	if f.rank > 0 {
		blas64.Gemv(blas.Trans, 1, f.q, vector(misfits), 0, vector(w))
	}
	return w
}

// newton returns the undamped step that takes the slack up.
func (f *finish) newton(slack []float64) []float64 {
	step := make([]float64, f.r.Cols)
	blas64.Trsv(blas.NoTrans, triangle(f.r, f.rank), vector(slack))
	for a, p := range f.pivots[:f.rank] {
		step[p] = -slack[a]
	}
	f.offNull(single(step))
	return f.expand(single(step)).Data
}

// condition returns the condition number of the leading triangle, in the
// 1-norm, as lapack estimates it.
func (f *finish) condition() float64 {
	if f.rank == 0 {
		return 1
	}
	return 1 / lapack64.Trcon(lapack.MaxColumnSum, triangle(f.r, f.rank), make([]float64, 3*f.rank), make([]int, f.rank))
}

// polish takes undamped steps through the orthogonal factors until they are at
// the level of rounding, and returns the factors there. It is false where the
// slack that is left is not small.
func (s *search) polish() (f *finish, converged bool) {
	const mostRounds, small, short = 20, 1e-6, 1e-10
	last := math.Inf(1)
	for round := 0; ; round++ {
		g := s.factorise()
		slack := g.slack(s.here.misfits)
		size, misfit := norm(slack), math.Sqrt(s.here.chi2)
		if size > last { // the step before made it worse
			s.here, s.there = s.there, s.here
			return f, converged
		}
		f, converged = g, size <= small*misfit+10*s.here.blur
		if size <= s.here.blur || size > 0.9*last || round == mostRounds || !s.refine(f.newton(slack)) {
			return f, converged
		}
		if size <= short*misfit+s.here.blur { // so short a step leaves the factors as they are
			return f, converged
		}
		last = size
	}
}

// refine takes a step unless it raises chi2 by more than rounding can.
func (s *search) refine(step []float64) bool {
	for j, d := range step {
		s.there.x[j] = s.here.x[j] + d
	}
	if _, ok := s.settle(s.there); !ok {
		return false
	}
	_, ok := s.there.evaluateMisfits(s.p)
	if !ok || s.there.chi2 > s.here.chi2+s.here.chi2Blur() {
		return false
	}
	s.here, s.there = s.there, s.here
	return true
}

func norm(v []float64) float64 { return blas64.Nrm2(vector(v)) }
