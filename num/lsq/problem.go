// Package lsq solves weighted nonlinear least-squares problems with exact
// constraints and says how good the answer is.
//
// Wanted are the unknowns x that make Σ (g_i(x)/σ_i)² least while every
// constraint h_k(x) = 0 holds. Each g_i is a misclosure: what the unknowns
// imply less what was observed. The answer carries the cofactors of the
// unknowns (their covariance where the σ are true standard deviations), the
// redundancy number of every observation, the rank, and the directions in
// which the unknowns cannot be found. Variances are never rescaled: s² stands
// apart for whoever wants it.
package lsq

// Row collects the gradient of one equation.
type Row struct {
	Columns []int
	Values  []float64
}

// Reset empties the row, keeping its space.
func (r *Row) Reset() {
	r.Columns = r.Columns[:0]
	r.Values = r.Values[:0]
}

// Add adds value to the derivative with respect to unknown column.
func (r *Row) Add(column int, value float64) {
	for i, c := range r.Columns {
		if c == column {
			r.Values[i] += value
			return
		}
	}
	r.Columns = append(r.Columns, column)
	r.Values = append(r.Values, value)
}

// At returns the derivative with respect to unknown column.
func (r *Row) At(column int) float64 {
	for i, c := range r.Columns {
		if c == column {
			return r.Values[i]
		}
	}
	return 0
}

// Equation is a smooth function of the unknowns that is wanted to be zero.
type Equation interface {
	// Eval returns the function's value at x and adds its gradient to row,
	// which comes empty. It returns NaN outside its domain.
	Eval(x []float64, row *Row) float64
}

// Observation is an equation that holds up to an error of standard deviation
// Sigma > 0.
type Observation struct {
	Equation Equation
	Sigma    float64
}

// Problem is a set of observations and exact constraints over the unknowns,
// with start values at which all of them must be finite.
type Problem struct {
	Start        []float64
	Observations []Observation
	Constraints  []Equation
}
