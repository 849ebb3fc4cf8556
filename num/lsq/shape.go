package lsq

import "slices"

// shape tells where the upper triangular factor of a sparse matrix has entries,
// its columns taken in an order: that of the Cholesky factor of its normal
// matrix (A. George and M. T. Heath, Solution of sparse linear least squares
// problems using Givens rotations, Linear Algebra and its Applications 34,
// 1980). Places are counted in that order.
type shape struct {
	order []int // column at each place
	place []int // of each column
	ends  []int // of each row of the factor among to
	to    []int // places of a row's entries, rising; the first is the diagonal
	// next is the place that follows in a row, -1 behind the last: the parent in
	// the elimination tree. What stands in one row of the matrix lies on one
	// path along it.
	next []int
}

// shapeOf returns the shape of the factor of a matrix with its columns in order.
func shapeOf(r *rows, order []int) *shape {
	n := len(order)
	s := &shape{order: order, place: make([]int, n), ends: make([]int, n), next: make([]int, n)}
	for p, column := range order {
		s.place[column] = p
	}
	begins := make([][]int, n) // rows of the matrix by the place of their first entry
	for i := range r.count() {
		if columns := r.in(i); len(columns) > 0 {
			first := s.first(columns)
			begins[first] = append(begins[first], i)
		}
	}
	children := make([][]int, n)
	mark := make([]int, n)
	for p := range n {
		s.fill(p, begins[p], children[p], r, mark)
		if q := s.next[p]; q >= 0 {
			children[q] = append(children[q], p)
		}
	}
	return s
}

// first returns the first place of some columns.
func (s *shape) first(columns []int) int {
	first := s.place[columns[0]]
	for _, c := range columns[1:] {
		first = min(first, s.place[c])
	}
	return first
}

// fill finds the entries of row p of the factor: those of the rows of the matrix
// that begin there, and what the rows of the factor before it hand on.
func (s *shape) fill(p int, begins, children []int, r *rows, mark []int) {
	start := len(s.to)
	s.to = append(s.to, p)
	mark[p] = p + 1
	add := func(q int) {
		if q > p && mark[q] != p+1 {
			mark[q] = p + 1
			s.to = append(s.to, q)
		}
	}
	for _, i := range begins {
		for _, c := range r.in(i) {
			add(s.place[c])
		}
	}
	for _, child := range children {
		for _, q := range s.row(child) {
			add(q)
		}
	}
	slices.Sort(s.to[start:])
	s.ends[p], s.next[p] = len(s.to), -1
	if len(s.to) > start+1 {
		s.next[p] = s.to[start+1]
	}
}

// span returns where the entries of row p begin and end.
func (s *shape) span(p int) (from, to int) {
	if p > 0 {
		from = s.ends[p-1]
	}
	return from, s.ends[p]
}

// row returns the places of the entries of row p.
func (s *shape) row(p int) []int {
	from, to := s.span(p)
	return s.to[from:to]
}
