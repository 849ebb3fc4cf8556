package lsq

import (
	"cmp"
	"math"
	"slices"
)

const (
	// rankTolerance is the smallest diagonal element of a pivoted orthogonal
	// factor, relative to the largest, that still counts; of a constraint, how
	// much of its gradient, divided by its norm, others must leave.
	rankTolerance = 1e-10
	// agreement is how far a constraint may be off, relative to its terms,
	// and still be taken to hold.
	agreement = 1e-9
	// pivotShare is how large the coefficient of the unknown that a constraint
	// is solved for must be beside the largest in it.
	pivotShare = 0.1
)

// ties are the constraints near a place, each solved for one unknown: a step in
// scaled unknowns keeps them where it is Z·y with y the steps of the unknowns
// that are left free. Constraints that follow from others are dropped.
type ties struct {
	norms []float64 // of the gradients, in scaled unknowns
	rank  int       // constraints that do not follow from others

	free   []int // unknowns left free
	among  []int // of each unknown among the free ones, -1 if it is solved for
	z      rows  // of each unknown, over the free ones
	offset []float64

	solved []solvedTie
	by     []int // tie that each unknown is solved by, -1
	meets  []int // how many constraints an unknown stands in
	full   []float64
	found  []int
	metric triangle // factor of ZᵀZ
}

// solvedTie is a constraint solved for one unknown: x + Σ v·x_c = right.
type solvedTie struct {
	unknown int
	columns []int
	v       []float64
	right   float64
}

func newTies(n, count int) *ties {
	t := &ties{
		norms: make([]float64, count), among: make([]int, n), offset: make([]float64, n), by: make([]int, n),
		meets: make([]int, n), full: make([]float64, n),
	}
	for j := range n {
		t.among[j], t.free, t.by[j] = j, append(t.free, j), -1
	}
	return t
}

// none reports whether nothing ties the unknowns.
func (t *ties) none() bool { return t.rank == 0 }

// factor solves the constraints at a place, which have these gradients and
// values.
func (t *ties) factor(gradients []Row, held, scale []float64) {
	if len(gradients) == 0 {
		return
	}
	t.start(gradients, scale)
	order := make([]int, len(gradients))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(len(gradients[a].Columns), len(gradients[b].Columns)) })
	for _, k := range order {
		if t.norms[k] > 0 {
			t.eliminate(&gradients[k], held[k], scale, t.norms[k])
		}
	}
	t.rank = len(t.solved)
	for k := t.rank - 1; k >= 0; k-- {
		t.substitute(k)
	}
	t.layOut()
}

func (t *ties) start(gradients []Row, scale []float64) {
	t.solved = t.solved[:0]
	clear(t.meets)
	for j := range t.by {
		t.by[j] = -1
	}
	for k := range gradients {
		sum := 0.0
		for i, c := range gradients[k].Columns {
			v := gradients[k].Values[i] * scale[c]
			sum += v * v
			t.meets[c]++
		}
		t.norms[k] = math.Sqrt(sum)
	}
}

// put adds to what is being gathered for one unknown.
func (t *ties) put(column int, v float64) {
	if t.full[column] == 0 {
		t.found = append(t.found, column)
	}
	if t.full[column] += v; t.full[column] == 0 {
		t.full[column] = math.SmallestNonzeroFloat64 // it is in the list
	}
}

// takeOut empties what has been gathered; nothing of it is left over the least.
func (t *ties) takeOut(least float64) (columns []int, v []float64) {
	slices.Sort(t.found)
	for _, c := range t.found {
		if math.Abs(t.full[c]) > least {
			columns, v = append(columns, c), append(v, t.full[c])
		}
		t.full[c] = 0
	}
	t.found = t.found[:0]
	return columns, v
}

// eliminate takes the ties solved so far out of a constraint and solves it for
// the unknown that stands in fewest constraints.
func (t *ties) eliminate(gradient *Row, held float64, scale []float64, norm float64) {
	right := -held / norm
	for i, c := range gradient.Columns {
		t.put(c, gradient.Values[i]*scale[c]/norm)
	}
	for k := t.following(-1); k >= 0; k = t.following(k) {
		s := &t.solved[k]
		share := t.full[s.unknown]
		t.put(s.unknown, -share)
		for i, c := range s.columns {
			t.put(c, -share*s.v[i])
		}
		right -= share * s.right
	}
	columns, v := t.takeOut(ulp)
	best, most := -1, 0.0
	for _, x := range v {
		most = max(most, math.Abs(x))
	}
	for i, c := range columns {
		if t.by[c] < 0 && math.Abs(v[i]) >= pivotShare*most && (best < 0 || t.meets[c] < t.meets[columns[best]]) {
			best = i
		}
	}
	if most <= rankTolerance || best < 0 {
		return
	}
	tie := solvedTie{unknown: columns[best], right: right / v[best]}
	for i, c := range columns {
		if i != best && t.by[c] < 0 {
			tie.columns, tie.v = append(tie.columns, c), append(tie.v, v[i]/v[best])
		}
	}
	t.by[tie.unknown] = len(t.solved)
	t.solved = append(t.solved, tie)
}

// following returns the first tie after tie k whose unknown is among what has been
// gathered, -1 if there is none: taking out a tie brings in none before it.
func (t *ties) following(k int) int {
	next := -1
	for _, c := range t.found {
		if by := t.by[c]; by > k && math.Abs(t.full[c]) > math.SmallestNonzeroFloat64 && (next < 0 || by < next) {
			next = by
		}
	}
	return next
}

// substitute replaces in tie k the unknowns that later ties, already freed of
// such, are solved for.
func (t *ties) substitute(k int) {
	s := &t.solved[k]
	if !slices.ContainsFunc(s.columns, func(c int) bool { return t.by[c] >= 0 }) {
		return
	}
	for i, c := range s.columns {
		if t.by[c] < 0 {
			t.put(c, s.v[i])
			continue
		}
		later := &t.solved[t.by[c]]
		for a, d := range later.columns {
			t.put(d, -s.v[i]*later.v[a])
		}
		s.right -= s.v[i] * later.right
	}
	s.columns, s.v = t.takeOut(0)
}

// layOut writes Z and the offsets down by unknown.
func (t *ties) layOut() {
	t.free = t.free[:0]
	for j, by := range t.by {
		t.among[j] = -1
		if by < 0 {
			t.among[j] = len(t.free)
			t.free = append(t.free, j)
		}
	}
	t.z.reset()
	for j, by := range t.by {
		t.offset[j] = 0
		if by < 0 {
			t.z.add(t.among[j], 1)
		} else {
			t.offset[j] = t.solved[by].right
			for i, c := range t.solved[by].columns {
				t.z.add(t.among[c], -t.solved[by].v[i])
			}
		}
		t.z.end()
	}
}

// correct sets step to the smallest one, in scaled unknowns, that brings the
// independent constraints to zero to first order: the offsets, less what of
// them lies along Z.
func (t *ties) correct(step []float64) {
	copy(step, t.offset)
	if t.none() {
		clear(step)
		return
	}
	t.factorMetric()
	y := t.across(step)
	t.metric.solveTransposed(y)
	t.metric.solve(y)
	for j := range step {
		columns, v := t.z.row(j)
		for i, c := range columns {
			step[j] -= v[i] * y[t.metric.place[c]]
		}
	}
}

func (t *ties) factorMetric() {
	t.metric.reshape(shapeOf(&t.z, orderOf(&t.z, len(t.free), nil)))
	for j := range t.by {
		columns, v := t.z.row(j)
		t.metric.accumulate(columns, v, 1)
	}
	if !t.metric.cholesky() {
		panic("lsq: the unknowns that are left free do not move freely")
	}
}

// across returns Zᵀ·v by place in the metric.
func (t *ties) across(v []float64) []float64 {
	y := make([]float64, len(t.free))
	for j := range v {
		columns, z := t.z.row(j)
		for i, c := range columns {
			y[t.metric.place[c]] += z[i] * v[j]
		}
	}
	return y
}

// of returns the row of Z of an unknown.
func (t *ties) of(j int) (columns []int, values []float64) {
	if t.none() {
		return []int{j}, []float64{1}
	}
	return t.z.row(j)
}

// widen sets step to Z·y.
func (t *ties) widen(y, step []float64) {
	if t.none() {
		copy(step, y)
		return
	}
	for j := range step {
		columns, v := t.z.row(j)
		step[j] = 0
		for i, c := range columns {
			step[j] += v[i] * y[c]
		}
	}
}

// reduce adds to a row over the free unknowns a row over all, in scaled
// unknowns.
func (t *ties) reduce(columns []int, values, scale []float64, into *rows) {
	if t.none() {
		for i, c := range columns {
			into.add(c, values[i]*scale[c])
		}
		into.end()
		return
	}
	for i, c := range columns {
		free, z := t.z.row(c)
		for a, f := range free {
			t.put(f, values[i]*scale[c]*z[a])
		}
	}
	free, v := t.takeOut(-1)
	into.columns, into.values = append(into.columns, free...), append(into.values, v...)
	into.end()
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
