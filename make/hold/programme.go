package hold

import "math"

// programme is a linear programme in standard form: the least of c·x over x >= 0
// with Σ x[j]·columns[j] = right. It is solved by the simplex method on a full
// tableau in two phases. Where several contacts push through one point such
// programmes are degenerate: wherever a pivot gains nothing the next is by Bland's
// rule, so that it ends. Figures are expected to be about 1.
type programme struct {
	columns [][]float64
	right   []float64
}

// ending says how a programme ended.
type ending uint8

// The endings.
const (
	solved     ending = iota
	infeasible        // no x fulfils the equations
	unbounded         // there is no least
)

// What is nothing: of a figure that decides, and of one that is divided by.
const (
	noCost   = 1e-10
	noPivot  = 1e-9
	leftOver = 1e-9
)

// tableau is a programme on its way: rows of B⁻¹A | B⁻¹b, the basic variable of
// each, and the costs in the last row.
type tableau struct {
	rows  [][]float64
	basic []int
	cost  []float64 // reduced, with minus the value at its end
	real  int       // variables of the programme; those behind them only start it
	width int       // of a row
}

// least returns the least of the cost.
func (p *programme) least(cost []float64) (float64, ending) {
	t := p.start()
	t.price(func(j int) float64 { return toFloat(j >= t.real) })
	t.descend(t.real + len(t.rows))
	if -t.cost[len(t.cost)-1] > leftOver {
		return math.NaN(), infeasible
	}
	t.dropStarters()
	t.price(func(j int) float64 {
		if j < t.real {
			return cost[j]
		}
		return 0
	})
	if !t.descend(t.real) {
		return math.Inf(-1), unbounded
	}
	return -t.cost[len(t.cost)-1], solved
}

func toFloat(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// start returns the tableau whose basis is one starter for each row.
func (p *programme) start() *tableau {
	m, n := len(p.right), len(p.columns)
	t := &tableau{real: n, width: n + m + 1}
	for i, b := range p.right {
		row := make([]float64, t.width)
		sign := math.Copysign(1, b)
		for j, column := range p.columns {
			row[j] = sign * column[i]
		}
		row[n+i], row[n+m] = 1, math.Abs(b)
		t.rows, t.basic = append(t.rows, row), append(t.basic, n+i)
	}
	return t
}

// price sets the reduced costs of what each variable costs.
func (t *tableau) price(cost func(j int) float64) {
	t.cost = make([]float64, t.width)
	for j := range t.width - 1 {
		t.cost[j] = cost(j)
	}
	for i, row := range t.rows {
		for j := range row {
			t.cost[j] -= cost(t.basic[i]) * row[j]
		}
	}
}

// descend pivots until no variable among the first lowers the cost, and reports
// whether that comes to an end.
func (t *tableau) descend(first int) bool {
	stuck := false
	for {
		in := t.entering(first, stuck)
		if in < 0 {
			return true
		}
		out := t.leaving(in)
		if out < 0 {
			return false
		}
		before := t.cost[t.width-1]
		t.pivot(out, in)
		stuck = t.cost[t.width-1] <= before+noCost
	}
}

// entering returns the variable that lowers the cost most, or, by Bland's rule, the
// first that does; -1 where none does.
func (t *tableau) entering(first int, bland bool) int {
	in, least := -1, -noCost
	for j := range first {
		if t.cost[j] < least {
			in, least = j, t.cost[j]
			if bland {
				break
			}
		}
	}
	return in
}

// leaving returns the row whose variable is the first to reach 0, of several the
// one with the lowest index; -1 where none does.
func (t *tableau) leaving(in int) int {
	out, least := -1, math.Inf(1)
	for i, row := range t.rows {
		if row[in] <= noPivot {
			continue
		}
		ratio := row[len(row)-1] / row[in]
		if out < 0 || ratio < least-noCost || ratio <= least+noCost && t.basic[i] < t.basic[out] {
			out, least = i, math.Min(ratio, least)
		}
	}
	return out
}

func (t *tableau) pivot(out, in int) {
	row := t.rows[out]
	by := row[in]
	for j := range row {
		row[j] /= by
	}
	row[in] = 1
	clear := func(other []float64) {
		k := other[in]
		if k == 0 {
			return
		}
		for j := range other {
			other[j] -= k * row[j]
		}
		other[in] = 0
	}
	for i, other := range t.rows {
		if i != out {
			clear(other)
		}
	}
	clear(t.cost)
	t.basic[out] = in
}

// dropStarters takes the starters out of the basis, and rows that say nothing new
// out of the tableau.
func (t *tableau) dropStarters() {
	for i := 0; i < len(t.rows); i++ {
		if t.basic[i] < t.real {
			continue
		}
		in := t.largest(i)
		if in >= 0 && math.Abs(t.rows[i][in]) > noPivot {
			t.pivot(i, in)
			continue
		}
		t.rows = append(t.rows[:i], t.rows[i+1:]...)
		t.basic = append(t.basic[:i], t.basic[i+1:]...)
		i--
	}
}

// largest returns the real variable with the largest figure in a row.
func (t *tableau) largest(i int) int {
	best := -1
	for j := range t.real {
		if best < 0 || math.Abs(t.rows[i][j]) > math.Abs(t.rows[i][best]) {
			best = j
		}
	}
	return best
}
