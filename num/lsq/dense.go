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

func symmetric(n int) blas64.Symmetric {
	return blas64.Symmetric{N: n, Stride: max(1, n), Data: make([]float64, n*n), Uplo: blas.Upper}
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

func rowOf(a blas64.General, i int) []float64 {
	if a.Cols == 0 {
		return nil
	}
	return a.Data[i*a.Stride : i*a.Stride+a.Cols]
}

// columns returns the columns of a from first up to but not including end.
func columns(a blas64.General, first, end int) blas64.General {
	return blas64.General{Rows: a.Rows, Cols: end - first, Stride: a.Stride, Data: a.Data[min(first, len(a.Data)):]}
}

// triangle returns the leading n × n upper triangle of a.
func triangle(a blas64.General, n int) blas64.Triangular {
	return blas64.Triangular{N: n, Stride: a.Stride, Data: a.Data, Uplo: blas.Upper, Diag: blas.NonUnit}
}

// upperOf returns the Cholesky factor that a symmetric matrix was replaced by.
func upperOf(a blas64.Symmetric) blas64.Triangular {
	return blas64.Triangular{N: a.N, Stride: a.Stride, Data: a.Data, Uplo: blas.Upper, Diag: blas.NonUnit}
}

// workFor is the work space that the orthogonal factorisations of a matrix of
// rows × cols need.
func workFor(rows, cols int) int {
	const block = 32
	return 3*cols + 1 + (max(rows, cols)+1)*block
}

// pivotedQR factorises a in place with column pivoting and returns its rank.
// What a was made from had columns of norm 1: where all of a is small against
// that, it is rounding.
func pivotedQR(a blas64.General, pivots []int, tau, work []float64) (rank int) {
	for j := range pivots {
		pivots[j] = -1 // free to move
		if a.Rows == 0 {
			pivots[j] = j
		}
	}
	if a.Rows*a.Cols == 0 {
		return 0
	}
	lapack64.Geqp3(a, pivots, tau, work, len(work))
	least := rankTolerance * math.Max(1, math.Abs(a.Data[0]))
	for rank < min(a.Rows, a.Cols) && math.Abs(a.Data[rank*a.Stride+rank]) > least {
		rank++
	}
	return rank
}

// orthonormalise replaces a, of full column rank, by an orthonormal basis of
// the same space.
func orthonormalise(a blas64.General) {
	tau, work := make([]float64, a.Cols), make([]float64, workFor(a.Rows, a.Cols))
	lapack64.Geqrf(a, tau, work, len(work))
	lapack64.Orgqr(a, tau, work, len(work))
}

// complement returns, as columns, an orthonormal basis of all that is at right
// angles to the first rank rows of y, which are orthonormal.
func complement(y blas64.General, rank int) blas64.General {
	n := y.Cols
	q := dense(n, n)
	for k := range rank {
		blas64.Copy(vector(rowOf(y, k)), columnOf(q, k))
	}
	tau, work := make([]float64, rank), make([]float64, workFor(n, n))
	lapack64.Geqrf(columns(q, 0, rank), tau, work, len(work))
	lapack64.Orgqr(q, tau, work, len(work))
	return columns(q, rank, n)
}
