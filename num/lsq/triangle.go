package lsq

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/lapack/gonum"
)

// triangle is an upper triangular matrix of some shape.
type triangle struct {
	*shape
	v    []float64 // of the entries of all rows, as in shape.to
	work int       // multiplications done, counted roughly

	at    []int // of a row that is put in: its places, rising
	value []float64
	full  []float64 // a row by place, zero between uses
	found sparse    // all that solveRow has returned
}

// reshape makes the triangle zero and of this shape.
func (t *triangle) reshape(s *shape) {
	t.shape = s
	t.v = slices.Grow(t.v[:0], len(s.to))[:len(s.to)]
	clear(t.v)
	t.full = slices.Grow(t.full[:0], len(s.order))[:len(s.order)]
	clear(t.full)
}

// take sorts a row of the matrix by place.
func (t *triangle) take(columns []int, values []float64) {
	t.at, t.value = t.at[:0], t.value[:0]
	for i, c := range columns {
		p, v := t.place[c], values[i]
		t.at, t.value = append(t.at, p), append(t.value, v)
		k := len(t.at) - 1
		for ; k > 0 && t.at[k-1] > p; k-- {
			t.at[k], t.value[k] = t.at[k-1], t.value[k-1]
		}
		t.at[k], t.value[k] = p, v
	}
}

// accumulate adds weight·aᵀa for a row a of the matrix: what the triangle holds
// is then the upper half of the normal matrix.
func (t *triangle) accumulate(columns []int, values []float64, weight float64) {
	t.take(columns, values)
	t.work += len(columns) * (len(columns) + 1) / 2
	for a, p := range t.at {
		k, _ := t.span(p)
		factor := weight * t.value[a]
		for b := a; b < len(t.at); b++ {
			for t.to[k] != t.at[b] {
				k++
			}
			t.v[k] += factor * t.value[b]
		}
	}
}

// cholesky replaces a symmetric matrix N, of which the upper half stands here,
// by U with UᵀU = N; false where N is not positive definite.
func (t *triangle) cholesky() bool {
	for p := range t.next {
		from, to := t.span(p)
		if !(t.v[from] > 0) || math.IsInf(t.v[from], 0) {
			return false
		}
		diagonal := math.Sqrt(t.v[from])
		t.v[from] = diagonal
		for k := from + 1; k < to; k++ {
			t.v[k] /= diagonal
		}
		t.work += (to - from) * (to - from + 1) / 2
		for a := from + 1; a < to; a++ {
			factor := t.v[a]
			if factor == 0 {
				continue
			}
			k, _ := t.span(t.to[a])
			for b := a; b < to; b++ {
				for t.to[k] != t.to[b] {
					k++
				}
				t.v[k] -= factor * t.v[b]
			}
		}
	}
	return true
}

// rotateIn turns a row of a matrix, with what stands on its right side, into
// the triangle by Givens rotations: it is then the orthogonal factor R of all
// rows that were put in, and right holds Qᵀ·right side by place.
func (t *triangle) rotateIn(columns []int, values []float64, side float64, right []float64) {
	if len(columns) == 0 {
		return
	}
	for i, c := range columns {
		t.full[t.place[c]] = values[i]
	}
	for p := t.first(columns); p >= 0; p = t.next[p] {
		if t.full[p] == 0 {
			continue
		}
		from, to := t.span(p)
		t.work += 4 * (to - from)
		if t.v[from] == 0 {
			for k := from; k < to; k++ {
				t.v[k], t.full[t.to[k]] = t.full[t.to[k]], 0
			}
			right[p] = side
			return
		}
		r := math.Hypot(t.v[from], t.full[p])
		cos, sin := t.v[from]/r, t.full[p]/r
		t.v[from], t.full[p] = r, 0
		for k := from + 1; k < to; k++ {
			q := t.to[k]
			t.v[k], t.full[q] = cos*t.v[k]+sin*t.full[q], cos*t.full[q]-sin*t.v[k]
		}
		right[p], side = cos*right[p]+sin*side, cos*side-sin*right[p]
	}
}

// solved returns entry p of the solution x of R·x = b over the first n places,
// those after it known and x[p] still b's.
func (t *triangle) solved(p, n int, x []float64) float64 {
	from, to := t.span(p)
	sum := x[p]
	for k := from + 1; k < to && t.to[k] < n; k++ {
		sum -= t.v[k] * x[t.to[k]]
	}
	t.work += to - from
	return sum / t.v[from]
}

// solve replaces b, over the first places, by R⁻¹·b.
func (t *triangle) solve(b []float64) {
	for p := len(b) - 1; p >= 0; p-- {
		b[p] = t.solved(p, len(b), b)
	}
}

// solveTransposed replaces b, over the first places, by R⁻ᵀ·b.
func (t *triangle) solveTransposed(b []float64) {
	for p := range b {
		t.push(p, b)
	}
}

// push divides entry p of b by the diagonal and takes its share off the entries
// that follow in b.
func (t *triangle) push(p int, b []float64) {
	from, to := t.span(p)
	b[p] /= t.v[from]
	share := b[p]
	if share == 0 {
		return
	}
	for k := from + 1; k < to && t.to[k] < len(b); k++ {
		b[t.to[k]] -= t.v[k] * share
	}
	t.work += to - from
}

// solveRow returns R⁻ᵀ·aᵀ for a row a whose places lie on one path of the
// elimination tree; nothing else of it is touched. Columns without a place in R
// are left out.
func (t *triangle) solveRow(columns []int, values []float64) sparse {
	first := -1
	for i, c := range columns {
		if p := t.place[c]; p >= 0 {
			t.full[p] += values[i]
			if first < 0 || p < first {
				first = p
			}
		}
	}
	start := len(t.found.at)
	for p := first; p >= 0; p = t.next[p] {
		t.push(p, t.full)
		if t.full[p] != 0 {
			t.found.at, t.found.v = append(t.found.at, int32(p)), append(t.found.v, t.full[p])
		}
		t.full[p] = 0
	}
	return sparse{t.found.at[start:len(t.found.at):len(t.found.at)], t.found.v[start:len(t.found.v):len(t.found.v)]}
}

// revealed returns the triangle with its places from n on exchanged for the
// columns that count of a pivoted factor of these.
func (t *triangle) revealed(n int, q *pivoted) triangle {
	s := &shape{order: append([]int(nil), t.order[:n]...), place: make([]int, len(t.place))}
	to := make([]int, len(t.order)) // new place of each old one
	for p := range to {
		if to[p] = p; p >= n {
			to[p] = -1
		}
	}
	for a, p := range q.pivots[:q.rank] {
		to[n+p] = n + a
		s.order = append(s.order, t.order[n+p])
	}
	for c, p := range t.place {
		s.place[c] = to[p]
	}
	out := triangle{shape: s, work: t.work, full: make([]float64, len(s.order))}
	for p := range n {
		from, end := t.span(p)
		for k := from; k < end; k++ {
			if place := to[t.to[k]]; place >= 0 {
				out.put(place, t.v[k])
			}
		}
		out.endRow()
	}
	for a := range q.rank {
		for c := a; c < q.rank; c++ {
			out.put(n+c, q.at(a, c))
		}
		out.endRow()
	}
	return out
}

// put adds an entry, at its place, to the row that is being written.
func (t *triangle) put(place int, v float64) {
	t.at, t.value = append(t.at, place), append(t.value, v)
}

// endRow ends the row that is being written.
func (t *triangle) endRow() {
	at, value := t.at, t.value
	t.at, t.value = nil, nil
	for i, p := range at { // in rising order
		t.put(p, value[i])
		for k := i; k > 0 && t.at[k-1] > p; k-- {
			t.at[k-1], t.at[k], t.value[k-1], t.value[k] = t.at[k], t.at[k-1], t.value[k], t.value[k-1]
		}
	}
	t.to, t.v = append(t.to, t.at...), append(t.v, t.value...)
	t.ends, t.next = append(t.ends, len(t.to)), append(t.next, -1)
	if len(t.at) > 1 {
		t.next[len(t.next)-1] = t.at[1]
	}
	t.at, t.value = t.at[:0], t.value[:0]
}

// condition returns the condition number of the leading n places, estimated in
// the 1-norm (N. J. Higham, FORTRAN codes for estimating the one-norm of a real
// or complex matrix, ACM Transactions on Mathematical Software 14, 1988), and a
// vector that the inverse makes about as long as it can.
func (t *triangle) condition(n int) (number float64, moves []float64) {
	moves = make([]float64, n)
	if n == 0 {
		return 1, moves
	}
	x, signs, save := make([]float64, n), make([]int, n), [3]int{}
	inverse, kase := 0.0, 0
	for {
		inverse, kase = gonum.Implementation{}.Dlacn2(n, moves, x, signs, inverse, kase, &save)
		switch kase {
		case 0:
			return t.norm1(n) * inverse, moves
		case 1:
			t.solve(x)
		default:
			t.solveTransposed(x)
		}
	}
}

// norm1 returns the largest sum of a column of the leading n places.
func (t *triangle) norm1(n int) float64 {
	sums := make([]float64, n)
	for p := range n {
		from, to := t.span(p)
		for k := from; k < to; k++ {
			if q := t.to[k]; q < n {
				sums[q] += math.Abs(t.v[k])
			}
		}
	}
	return floats.Max(sums)
}

// sparse is a vector of which few entries are not 0.
type sparse struct {
	at []int32 // rising
	v  []float64
}

// compressed returns a vector without its zeros.
func compressed(full []float64) sparse {
	var s sparse
	for p, v := range full {
		if v != 0 {
			s.at, s.v = append(s.at, int32(p)), append(s.v, v)
		}
	}
	return s
}

// scaled multiplies the vector in place.
func (s sparse) scaled(factor float64) sparse {
	for i := range s.v {
		s.v[i] *= factor
	}
	return s
}

// dot returns the product of two vectors.
func (s sparse) dot(o sparse) float64 {
	sum := 0.0
	for i, j := 0, 0; i < len(s.at) && j < len(o.at); {
		switch {
		case s.at[i] < o.at[j]:
			i++
		case s.at[i] > o.at[j]:
			j++
		default:
			sum += s.v[i] * o.v[j]
			i, j = i+1, j+1
		}
	}
	return sum
}

// plus returns the vector and a multiple of another added.
func (s sparse) plus(o sparse, factor float64) sparse {
	sum := sparse{at: make([]int32, 0, len(s.at)+len(o.at)), v: make([]float64, 0, len(s.at)+len(o.at))}
	i, j := 0, 0
	for i < len(s.at) || j < len(o.at) {
		switch {
		case j == len(o.at) || i < len(s.at) && s.at[i] < o.at[j]:
			sum.at, sum.v = append(sum.at, s.at[i]), append(sum.v, s.v[i])
			i++
		case i == len(s.at) || s.at[i] > o.at[j]:
			sum.at, sum.v = append(sum.at, o.at[j]), append(sum.v, factor*o.v[j])
			j++
		default:
			sum.at, sum.v = append(sum.at, s.at[i]), append(sum.v, s.v[i]+factor*o.v[j])
			i, j = i+1, j+1
		}
	}
	return sum
}

// addTo adds a multiple of the vector to one that is written out.
func (s sparse) addTo(full []float64, factor float64) {
	for i, p := range s.at {
		full[p] += factor * s.v[i]
	}
}

// times returns the product with a vector that is written out.
func (s sparse) times(full []float64) float64 {
	sum := 0.0
	for i, p := range s.at {
		sum += s.v[i] * full[p]
	}
	return sum
}

// square returns the square of the vector's length.
func (s sparse) square() float64 {
	sum := 0.0
	for _, v := range s.v {
		sum += v * v
	}
	return sum
}
