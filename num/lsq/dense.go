package lsq

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

func dense(rows, cols int) blas64.General {
	return blas64.General{Rows: rows, Cols: cols, Stride: max(1, cols), Data: make([]float64, rows*cols)}
}

func vector(v []float64) blas64.Vector {
	return blas64.Vector{N: len(v), Inc: 1, Data: v}
}

// single returns v as a matrix of one column.
func single(v []float64) blas64.General {
	return blas64.General{Rows: len(v), Cols: 1, Stride: 1, Data: v}
}

func columnOf(a blas64.General, j int) blas64.Vector {
	return blas64.Vector{N: a.Rows, Inc: a.Stride, Data: a.Data[j:]}
}

// upperOf returns the leading n × n upper triangle of a.
func upperOf(a blas64.General, n int) blas64.Triangular {
	return blas64.Triangular{N: n, Stride: a.Stride, Data: a.Data, Uplo: blas.Upper, Diag: blas.NonUnit}
}

// workFor is the work space that the orthogonal factorisations of a matrix of
// rows × cols need.
func workFor(rows, cols int) int {
	const block = 32
	return 3*cols + 1 + (max(rows, cols)+1)*block
}

// pivoted is a small square matrix factorised with column pivoting. Its first
// rank columns in the order of pivots count.
type pivoted struct {
	a      blas64.General
	pivots []int
	tau    []float64
	work   []float64
	rank   int
}

// factorPivoted factorises a in place; a diagonal element counts where it is over
// least.
func factorPivoted(a blas64.General, least float64) *pivoted {
	q := &pivoted{a: a, pivots: make([]int, a.Cols), tau: make([]float64, a.Cols), work: make([]float64, workFor(a.Rows, a.Cols))}
	for j := range q.pivots {
		q.pivots[j] = -1 // free to move
	}
	lapack64.Geqp3(a, q.pivots, q.tau, q.work, len(q.work))
	for q.rank < a.Cols && math.Abs(q.at(q.rank, q.rank)) > least {
		q.rank++
	}
	return q
}

// at returns an element of the triangle.
func (q *pivoted) at(i, j int) float64 { return q.a.Data[i*q.a.Stride+j] }

// turn replaces v by Qᵀ·v.
func (q *pivoted) turn(v []float64) {
	lapack64.Ormqr(blas.Left, blas.Trans, q.a, q.tau, single(v), q.work, len(q.work))
}

// against returns, by column, what moves with the d-th of the columns that do not
// count, so that the matrix makes nothing of it.
func (q *pivoted) against(d int) []float64 {
	v := make([]float64, len(q.pivots)) // by pivot
	v[q.rank+d] = 1
	for a := range q.rank {
		v[a] = -q.at(a, q.rank+d)
	}
	if q.rank > 0 {
		blas64.Trsm(blas.Left, blas.NoTrans, 1, upperOf(q.a, q.rank), single(v[:q.rank]))
	}
	x := make([]float64, len(v))
	for a, p := range q.pivots {
		x[p] = v[a]
	}
	return x
}

// orthonormalise replaces a, of full column rank, by an orthonormal basis of
// the same space.
func orthonormalise(a blas64.General) {
	tau, work := make([]float64, a.Cols), make([]float64, workFor(a.Rows, a.Cols))
	lapack64.Geqrf(a, tau, work, len(work))
	lapack64.Orgqr(a, tau, work, len(work))
}
