package adjust

import (
	"cmp"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Beyond a normalised residual of farLimit the largest is often not the
// culprit, since the model is bent by it; then each of the leading few is
// tried.
const (
	farLimit = 12
	leaders  = 6
)

// wholeLimit is the limit of the test of a whole reading, α = 0.00001: so
// strict that it adds next to nothing to the false alarms of its values.
const wholeLimit = 4.417173413467605

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

// charge is what may be wrong together: one observation, or all those of one
// reading, by their place in a trial.
type charge []int

// suspects sets aside in thought what stands out most and adjusts again, until
// nothing does: the observation with the largest normalised residual over the
// limit, or a whole reading whose values agree with each other and contradict
// the others still more.
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
		if worst == nil {
			break
		}
		twins := reduced.twins(t, worst)
		for _, k := range slices.Concat(twins...) {
			v.suspect[t.index[k]] = true
		}
		if len(twins) > 1 {
			v.either = append(v.either, indices(t, slices.Concat(twins...)))
		}
		if next == nil {
			break
		}
		for _, k := range worst {
			reduced.active[t.index[k]] = false
		}
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

// worst returns what to set aside next and the solution without it (nil where
// there is none), or nil where all are within their limits.
func (s *search) worst(t *trial) (c charge, next *trial) {
	order := s.charges(t)
	if len(order) == 0 || math.Abs(t.against(order[0])) <= testLimit {
		return nil, nil
	}
	if math.Abs(t.against(order[0])) <= farLimit {
		order = order[:1]
	}
	order = leading(order)
	if c, next = s.best(t, order, s.without); next.agrees() {
		return c, next
	}
	// The solution with the blunder may lie where no step leads back from.
	if other, fresh := s.best(t, order, s.afresh); better(next, fresh) == fresh {
		return other, fresh
	}
	return c, next
}

// leading returns the first few single observations and the first few whole
// readings of an order: neither crowds out the other.
func leading(order []charge) []charge {
	var list []charge
	singles, wholes := 0, 0
	for _, c := range order {
		count := &singles
		if len(c) > 1 {
			count = &wholes
		}
		if *count++; *count <= leaders {
			list = append(list, c)
		}
	}
	return list
}

// best returns the charge without which the rest agree best, the first where
// none has a solution. A whole reading takes one error away, not as many as it
// has values: what they scatter among themselves still counts.
func (s *search) best(t *trial, charges []charge, solve func(t *trial, c charge) *trial) (best charge, solution *trial) {
	best, least := charges[0], math.Inf(1)
	for _, c := range charges {
		next := solve(t, c)
		if next == nil {
			continue
		}
		cost := next.Chi2 + s.scatter(t, c)
		if solution == nil || next.Converged && !solution.Converged || next.Converged == solution.Converged && cost < least*(1-1e-9) {
			best, solution, least = c, next, cost
		}
	}
	return best, solution
}

// scatter returns the chi-square of the values of a charge about their mean.
func (s *search) scatter(t *trial, c charge) float64 {
	mean, sum := 0.0, 0.0
	for _, k := range c {
		mean += t.Misclosures[k] / float64(len(c))
	}
	for _, k := range c {
		sum += math.Pow((t.Misclosures[k]-mean)/s.m.observations[t.index[k]].sigma, 2)
	}
	return sum
}

// charges returns what may be wrong, largest first: single observations, and
// whole readings of several that are over their limit. A touch is wrong by
// itself.
func (s *search) charges(t *trial) []charge {
	var list []charge
	whole := map[string]charge{}
	for _, k := range s.testable(t) {
		list = append(list, charge{k})
		o := s.m.observations[t.index[k]]
		if o.source.Kind == FromReading && !s.m.values[o.values[0]].reading.pair() {
			whole[o.source.ID] = append(whole[o.source.ID], k)
		}
	}
	for _, reading := range s.m.job.Readings {
		c := whole[reading.ID]
		if len(c) > 1 && t.shared(c, c) > float64(len(c))*leastShared && math.Abs(t.against(c)) > wholeLimit {
			list = append(list, c)
		}
	}
	return t.heaviestFirst(list)
}

// heaviestFirst sorts charges by their weight.
func (t *trial) heaviestFirst(list []charge) []charge {
	weights, order := make([]float64, len(list)), make([]int, len(list))
	for i, c := range list {
		weights[i], order[i] = t.weight(c), i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(weights[b], weights[a]) })
	sorted := make([]charge, len(list))
	for i, at := range order {
		sorted[i] = list[at]
	}
	return sorted
}

// weight orders charges: by the size of their test, a single value before a
// whole reading that cannot be told from it.
func (t *trial) weight(c charge) float64 {
	if len(c) > 1 {
		return math.Abs(t.against(c)) * (1 - twinSpread)
	}
	return math.Abs(t.against(c))
}

// leastShared is the redundancy under which nothing checks a whole reading.
const leastShared = 1e-6

// against returns the test of an error that all of a charge share, in its
// standard deviations: Baarda's w for one observation.
func (t *trial) against(c charge) float64 {
	sum := 0.0
	for _, k := range c {
		sum += t.Normalised(k) * math.Sqrt(t.Redundancy[k])
	}
	return sum / math.Sqrt(t.shared(c, c))
}

// shared returns Σ ρ_kl·√(r_k·r_l): how the errors of two charges show in each
// other's misfits; over n, of a charge and itself, its redundancy.
func (t *trial) shared(a, b charge) float64 {
	return t.Shared(a, b)
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

// twins returns what cannot be told apart from a charge, with it first.
func (s *search) twins(t *trial, c charge) []charge {
	list := []charge{c}
	w := math.Abs(t.against(c))
	for _, other := range s.charges(t) {
		if slices.ContainsFunc(other, func(k int) bool { return slices.Contains(slices.Concat(list...), k) }) ||
			math.Abs(math.Abs(t.against(other))-w) >= twinSpread*w {
			continue
		}
		if math.Abs(t.shared(c, other)) > twinCorrelation*math.Sqrt(t.shared(c, c)*t.shared(other, other)) {
			list = append(list, other)
		}
	}
	return list
}

// without solves without a charge, from where t ended.
func (s *search) without(t *trial, c charge) *trial {
	next, err := s.less(t, c).from(t.X)
	if err != nil {
		return nil
	}
	return next
}

// afresh solves without a charge, from new start values that do not trust its
// reading.
func (s *search) afresh(t *trial, c charge) *trial {
	var doubt *trade.Reading
	if source := s.m.observations[t.index[c[0]]].source; source.Kind == FromReading {
		doubt = s.m.job.Reading(source.ID)
	}
	return s.less(t, c).again(attempt{doubt: doubt})
}

// less returns a search without a charge.
func (s *search) less(t *trial, c charge) *search {
	reduced := &search{m: s.m, active: slices.Clone(s.active)}
	for _, k := range c {
		reduced.active[t.index[k]] = false
	}
	return reduced
}
