package lsq

import "slices"

// rows are the rows of a sparse matrix, one after the other. No column stands
// twice in a row.
type rows struct {
	ends    []int // of each row in columns and values
	columns []int
	values  []float64
}

func (r *rows) reset() {
	r.ends, r.columns, r.values = r.ends[:0], r.columns[:0], r.values[:0]
}

func (r *rows) count() int { return len(r.ends) }

// in returns the columns of row i.
func (r *rows) in(i int) []int { return r.columns[r.begin(i):r.ends[i]] }

// row returns the columns and values of row i.
func (r *rows) row(i int) ([]int, []float64) { return r.in(i), r.values[r.begin(i):r.ends[i]] }

func (r *rows) begin(i int) int {
	if i == 0 {
		return 0
	}
	return r.ends[i-1]
}

// add appends one entry to the row that is being written.
func (r *rows) add(column int, value float64) {
	r.columns, r.values = append(r.columns, column), append(r.values, value)
}

// end ends the row that is being written.
func (r *rows) end() { r.ends = append(r.ends, len(r.columns)) }

// alike reports whether two matrices have entries in the same places.
func (r *rows) alike(o *rows) bool {
	return slices.Equal(r.ends, o.ends) && slices.Equal(r.columns, o.columns)
}

// like keeps where the entries of another matrix are.
func (r *rows) like(o *rows) {
	r.ends, r.columns = append(r.ends[:0], o.ends...), append(r.columns[:0], o.columns...)
}
