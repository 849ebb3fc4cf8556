package lsq

import "math"

// ulp is the distance from 1 to the next float64.
const ulp = 0x1p-52

// place is a point in the space of the unknowns with everything evaluated
// there. Misfits and their rows are divided by σ.
type place struct {
	x       []float64
	misfits []float64 // g_i/σ_i
	rows    []Row     // gradients of the misfits
	held    []float64 // h_k
	ties    []Row     // gradients of the constraints
	grain   []float64 // Σ|∂h_k/∂x_j·x_j|: rounding in h_k is some ulp of it

	chi2 float64 // Σ misfit²
	blur float64 // norm of the rounding in the misfits
}

func newPlace(p *Problem) *place {
	n, c := len(p.Observations), len(p.Constraints)
	return &place{
		x:       append([]float64(nil), p.Start...),
		misfits: make([]float64, n),
		rows:    emptyRows(n),
		held:    make([]float64, c),
		ties:    emptyRows(c),
		grain:   make([]float64, c),
	}
}

// emptyRows returns rows with space for as many unknowns as most equations have.
func emptyRows(n int) []Row {
	const most = 6
	columns, values := make([]int, most*n), make([]float64, most*n)
	list := make([]Row, n)
	for i := range list {
		list[i] = Row{columns[most*i : most*i : most*(i+1)], values[most*i : most*i : most*(i+1)]}
	}
	return list
}

// evaluateTies evaluates the constraints; false where one is not finite.
func (at *place) evaluateTies(p *Problem) (index int, ok bool) {
	for k, equation := range p.Constraints {
		at.held[k], ok = evaluate(equation, at.x, &at.ties[k])
		if !ok {
			return k, false
		}
		at.grain[k] = at.ties[k].grain(at.x)
	}
	return 0, true
}

// evaluateMisfits evaluates the observations; false where one is not finite.
func (at *place) evaluateMisfits(p *Problem) (index int, ok bool) {
	at.chi2, at.blur = 0, 0
	for i := range p.Observations {
		o, row := &p.Observations[i], &at.rows[i]
		g, ok := evaluate(o.Equation, at.x, row)
		row.scale(1 / o.Sigma)
		misfit := g / o.Sigma
		blur := ulp * (row.grain(at.x) + math.Abs(misfit))
		at.misfits[i] = misfit
		at.chi2 += misfit * misfit
		at.blur += blur * blur
		if !ok || math.IsInf(at.chi2, 0) {
			return i, false
		}
	}
	at.blur = math.Sqrt(at.blur)
	return 0, true
}

// chi2Blur is how far rounding alone can move chi2.
func (at *place) chi2Blur() float64 {
	return at.blur * (2*math.Sqrt(at.chi2) + at.blur)
}

func evaluate(e Equation, x []float64, row *Row) (value float64, ok bool) {
	row.Reset()
	value = e.Eval(x, row)
	ok = finite(value)
	for _, v := range row.Values {
		ok = ok && finite(v)
	}
	return value, ok
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func (r *Row) scale(factor float64) {
	for i := range r.Values {
		r.Values[i] *= factor
	}
}

// grain returns Σ|value·x|.
func (r *Row) grain(x []float64) float64 {
	sum := 0.0
	for i, c := range r.Columns {
		sum += math.Abs(r.Values[i] * x[c])
	}
	return sum
}

// times returns the product of the row with a vector over the unknowns.
func (r *Row) times(v []float64) float64 {
	sum := 0.0
	for i, c := range r.Columns {
		sum += r.Values[i] * v[c]
	}
	return sum
}

// scaleColumns sets scale to one over the norm of each column of the rows. An
// unknown that no observation touches takes the scale that the constraints
// pass on to it, or 1.
func (at *place) scaleColumns(scale []float64) {
	clear(scale)
	for i := range at.rows {
		for k, c := range at.rows[i].Columns {
			scale[c] += at.rows[i].Values[k] * at.rows[i].Values[k]
		}
	}
	for j, sum := range scale {
		if sum > 0 {
			scale[j] = 1 / math.Sqrt(sum)
		}
	}
	for at.passScales(scale) {
	}
	for j, s := range scale {
		if s == 0 {
			scale[j] = 1
		}
	}
}

// passScales gives unknowns without a scale that which makes them move a
// constraint as far as the others in it do.
func (at *place) passScales(scale []float64) (passed bool) {
	for k := range at.ties {
		row, reach := &at.ties[k], 0.0
		for i, c := range row.Columns {
			reach = max(reach, math.Abs(row.Values[i])*scale[c])
		}
		for i, c := range row.Columns {
			if reach > 0 && scale[c] == 0 && row.Values[i] != 0 {
				scale[c] = reach / math.Abs(row.Values[i])
				passed = true
			}
		}
	}
	return passed
}
