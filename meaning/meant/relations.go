package meant

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
)

// tie is a relation near the sizes found: Σ slope·δ = -miss, over the sizes that
// are asked. Angles, and sizes that are not asked, count as given.
type tie struct {
	slope []float64 // by index into job.asked
	miss  float64   // left side less right at the sizes found
}

// tightest is the smallest slope, against the largest, that counts.
const tightest = 1e-9

// listTies returns the relations that tie two or more of the sizes asked as closely
// as they were made: where one of them was worked out from the others, a relation
// says how.
func (j *job) listTies() []tie {
	var list []tie
	for i := range j.r.Job.Relations {
		r := &j.r.Job.Relations[i]
		t, ok := j.tie(r)
		if !ok {
			continue
		}
		if largest := t.clean(); largest > 0 && spreadOf(r) <= j.closest(t)*largest {
			list = append(list, t)
		}
	}
	return list
}

// clean drops slopes that are none beside the largest, and returns that, 0 where
// the relation ties no two sizes.
func (t *tie) clean() float64 {
	largest, held := 0.0, 0
	for _, slope := range t.slope {
		largest = max(largest, math.Abs(slope))
	}
	for i, slope := range t.slope {
		if math.Abs(slope) <= tightest*largest {
			t.slope[i] = 0
		} else {
			held++
		}
	}
	if held < 2 {
		return 0
	}
	return largest
}

// closest returns how closely the closest made of the sizes in a tie was made.
func (j *job) closest(t tie) float64 {
	least := math.Inf(1)
	for i, slope := range t.slope {
		if slope != 0 {
			least = min(least, j.asked[i].making)
		}
	}
	return least
}

// spreadOf returns the standard uncertainty that a relation states.
func spreadOf(r *trade.Relation) float64 {
	switch {
	case r.Exact():
		return 0
	case r.U.Given():
		return r.U.Inside()
	}
	return r.Within.Inside() / math.Sqrt(3)
}

// tie returns a relation as it is near the sizes found, false where it has no
// value there.
func (j *job) tie(r *trade.Relation) (tie, bool) {
	t := tie{slope: make([]float64, len(j.asked))}
	j.addSide(&t, r.That.Expr(), 1)
	j.addSide(&t, r.Is.Expr(), -1)
	ok := !math.IsNaN(t.miss) && !math.IsInf(t.miss, 0)
	return t, ok && !slices.ContainsFunc(t.slope, func(s float64) bool { return math.IsNaN(s) || math.IsInf(s, 0) })
}

// addSide adds sign times one side of a relation.
func (j *job) addSide(t *tie, side *expr.Expr, sign float64) {
	names := side.Names()
	values, slopes := make([]float64, len(names)), make([]float64, len(names))
	for i, name := range names {
		values[i] = j.valueOf(name)
	}
	t.miss += sign * side.Eval(values, slopes)
	for i, name := range names {
		if k := j.indexOf(name); k >= 0 {
			t.slope[k] += sign * slopes[i]
		}
	}
}

// valueOf returns what a size or gauge piece was found to be, NaN where it was
// not.
func (j *job) valueOf(name string) float64 {
	if size := j.r.Size(name); size != nil {
		if !size.Determined {
			return math.NaN()
		}
		return size.Value
	}
	for _, piece := range j.r.Pieces {
		if piece.ID == name {
			return piece.Value
		}
	}
	return math.NaN()
}

func (j *job) indexOf(id string) int {
	if i, ok := j.at[id]; ok {
		return i
	}
	return -1
}
