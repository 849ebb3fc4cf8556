package adjust

import (
	"cmp"
	"math"
	"slices"

	"oddleg"
)

// Beyond a normalised residual of farLimit the largest is often not the
// culprit, since the model is bent by it; then each of the leading few is
// tried.
const (
	farLimit = 12
	leaders  = 6
)

// Observations whose normalised residuals differ by less than twinSpread and
// whose tests correlate above twinCorrelation cannot be told apart.
const (
	twinSpread      = 0.01
	twinCorrelation = 0.99
)

// verdict is what the search for wrong observations found.
type verdict struct {
	suspect []bool // by observation
	either  [][]int
	clean   *trial // the solution without the suspects, nil where there are none
}

// suspects sets aside in thought the observation with the largest normalised
// residual over the limit and adjusts again, until none is over.
func (s *search) suspects(t *trial) *verdict {
	v := &verdict{suspect: make([]bool, len(s.m.observations))}
	for _, i := range slices.Concat(t.impossible, t.rivals) {
		v.suspect[i] = true
	}
	if len(t.rivals) > 0 {
		v.either = append(v.either, slices.Concat(t.rivals, t.impossible))
	}
	reduced := &search{m: s.m, active: slices.Clone(s.active)}
	for _, i := range t.impossible {
		reduced.active[i] = false
	}
	for t.Dof > 0 {
		worst, next := reduced.worst(t)
		if worst < 0 {
			break
		}
		twins := reduced.twins(t, worst)
		for _, k := range twins {
			v.suspect[t.index[k]] = true
		}
		if len(twins) > 1 {
			v.either = append(v.either, indices(t, twins))
		}
		if next == nil {
			break
		}
		reduced.active[t.index[worst]] = false
		v.clean, t = next, next
	}
	return v
}

func indices(t *trial, list []int) []int {
	out := make([]int, len(list))
	for i, k := range list {
		out[i] = t.index[k]
	}
	slices.Sort(out)
	return out
}

// worst returns the observation to set aside next and the solution without it
// (nil where there is none), or -1 where all are within the limit.
func (s *search) worst(t *trial) (k int, next *trial) {
	order := s.testable(t)
	if len(order) == 0 || math.Abs(t.Normalised(order[0])) <= testLimit {
		return -1, nil
	}
	if math.Abs(t.Normalised(order[0])) <= farLimit {
		order = order[:1]
	}
	order = order[:min(leaders, len(order))]
	if k, next = best(order, func(k int) *trial { return s.without(t, k) }); next.agrees() {
		return k, next
	}
	// The solution with the blunder may lie where no step leads back from.
	if other, fresh := best(order, func(k int) *trial { return s.afresh(t, k) }); better(next, fresh) == fresh {
		return other, fresh
	}
	return k, next
}

// best returns the candidate whose solution is best, the first where none has
// a solution.
func best(candidates []int, solve func(k int) *trial) (k int, solution *trial) {
	k = candidates[0]
	for _, candidate := range candidates {
		if t := solve(candidate); t != nil && better(solution, t) == t {
			k, solution = candidate, t
		}
	}
	return k, solution
}

// testable returns the observations that can be wrong in themselves, largest
// normalised residual first. Departures from form and of seating are the
// reading's own affair.
func (s *search) testable(t *trial) []int {
	var order []int
	for k, i := range t.index {
		kind := s.m.observations[i].source.Kind
		if kind != fromForm && kind != fromFeel && t.Redundancy[k] > 0 {
			order = append(order, k)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(math.Abs(t.Normalised(b)), math.Abs(t.Normalised(a)))
	})
	return order
}

// twins returns the observations that cannot be told apart from k, with k.
func (s *search) twins(t *trial, k int) []int {
	list := []int{k}
	w := math.Abs(t.Normalised(k))
	for _, j := range s.testable(t) {
		if j == k || math.Abs(math.Abs(t.Normalised(j))-w) >= twinSpread*w {
			continue
		}
		if math.Abs(t.TestCorrelation(k, j)) > twinCorrelation {
			list = append(list, j)
		}
	}
	return list
}

// without solves without observation k of t, from where t ended.
func (s *search) without(t *trial, k int) *trial {
	next, err := s.less(t, k).from(t.X)
	if err != nil {
		return nil
	}
	return next
}

// afresh solves without observation k of t, from new start values that do not
// trust its reading.
func (s *search) afresh(t *trial, k int) *trial {
	var doubt *oddleg.Reading
	if source := s.m.observations[t.index[k]].source; source.Kind == FromReading {
		doubt = s.m.job.Reading(source.ID)
	}
	return s.less(t, k).again(attempt{doubt: doubt})
}

// less returns a search without observation k of t.
func (s *search) less(t *trial, k int) *search {
	reduced := &search{m: s.m, active: slices.Clone(s.active)}
	reduced.active[t.index[k]] = false
	return reduced
}
