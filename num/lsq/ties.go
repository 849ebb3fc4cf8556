package lsq

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

const (
	// rankTolerance is the smallest diagonal element of a pivoted orthogonal
	// factor, relative to the largest, that still counts.
	rankTolerance = 1e-10
	// agreement is how far a constraint may be off, relative to its terms,
	// and still be taken to hold.
	agreement = 1e-9
)

// ties is the pivoted orthogonal factorisation of the constraint gradients,
// each divided by its norm, in scaled unknowns: basisᵀ·upper, constraints in
// the order of pivots. The first rank of them are independent; the rest
// follow from these.
type ties struct {
	rank   int
	pivots []int
	norms  []float64
	basis  blas64.General // rank × n, orthonormal rows
	upper  blas64.General

	curved                 blas64.General // work space
	full, tau, work, mixed []float64
}

func newTies(n, count int) *ties {
	return &ties{
		pivots: make([]int, count),
		norms:  make([]float64, count),
		upper:  dense(min(n, count), count),
		basis:  dense(min(n, count), n),
		curved: dense(min(n, count), n),
		full:   make([]float64, n*count),
		tau:    make([]float64, min(n, count)),
		work:   make([]float64, workFor(n, count)),
		mixed:  make([]float64, min(n, count)),
	}
}

// factor factorises the gradients of the constraints at a place.
func (t *ties) factor(rows []Row, scale []float64) {
	n, count := len(scale), len(rows)
	if n*count == 0 {
		return
	}
	a := blas64.General{Rows: n, Cols: count, Stride: count, Data: t.full}
	t.fill(a, rows, scale)
	t.rank = pivotedQR(a, t.pivots, t.tau, t.work)
	for i := range t.upper.Rows {
		copy(t.upper.Data[i*count+i:(i+1)*count], a.Data[i*count+i:(i+1)*count])
	}
	if t.rank == 0 {
		return
	}
	q := columns(a, 0, t.rank)
	lapack64.Orgqr(q, t.tau[:t.rank], t.work, len(t.work))
	for k := range t.rank {
		blas64.Copy(columnOf(q, k), vector(rowOf(t.basis, k)))
	}
}

// fill sets the columns of a to the scaled gradients, divided by their norms.
func (t *ties) fill(a blas64.General, rows []Row, scale []float64) {
	clear(a.Data)
	for k := range rows {
		sum := 0.0
		for i, c := range rows[k].Columns {
			v := rows[k].Values[i] * scale[c]
			a.Data[c*a.Stride+k] = v
			sum += v * v
		}
		t.norms[k] = math.Sqrt(sum)
		if sum > 0 {
			blas64.Scal(1/t.norms[k], columnOf(a, k))
		}
	}
}

// confine replaces the normal matrix N by PNP + YYᵀ and the gradient g by Pg,
// where Y is the basis and P = I - YYᵀ: the step is then free of Y.
func (t *ties) confine(normal blas64.Symmetric, gradient []float64) {
	t.remove(gradient)
	for k := range t.rank {
		blas64.Symv(1, normal, vector(rowOf(t.basis, k)), 0, vector(rowOf(t.curved, k)))
	}
	for k := range t.rank { // V = NY - ½Y·YᵀNY, so that PNP = N - YVᵀ - VYᵀ
		for l := range t.rank {
			t.mixed[l] = blas64.Dot(vector(rowOf(t.basis, l)), vector(rowOf(t.curved, k)))
		}
		for l, share := range t.mixed[:t.rank] {
			blas64.Axpy(-share/2, vector(rowOf(t.basis, l)), vector(rowOf(t.curved, k)))
		}
	}
	for k := range t.rank {
		y := vector(rowOf(t.basis, k))
		blas64.Syr2(-1, y, vector(rowOf(t.curved, k)), normal)
		blas64.Syr(1, y, normal)
	}
}

// remove takes from v, in scaled unknowns, what would break the constraints.
func (t *ties) remove(v []float64) {
	for k := range t.rank {
		y := vector(rowOf(t.basis, k))
		blas64.Axpy(-blas64.Dot(y, vector(v)), y, vector(v))
	}
}

// correct sets step to the smallest one, in scaled unknowns, that brings the
// independent constraints to zero to first order.
func (t *ties) correct(held, step []float64) {
	clear(step)
	if t.rank == 0 {
		return
	}
	w := t.work[:t.rank]
	for k, p := range t.pivots[:t.rank] {
		w[k] = -held[p] / t.norms[p]
	}
	blas64.Trsv(blas.Trans, triangle(t.upper, t.rank), vector(w))
	for k, part := range w {
		blas64.Axpy(part, vector(rowOf(t.basis, k)), vector(step))
	}
}

// size returns the norm of the constraint values, each divided by the norm of
// its gradient: about the distance from the constraints in scaled unknowns.
func (t *ties) size(held []float64) float64 {
	sum := 0.0
	for k, h := range held {
		if t.norms[k] > 0 {
			h /= t.norms[k]
		}
		sum += h * h
	}
	return math.Sqrt(sum)
}
