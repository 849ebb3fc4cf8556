package adjust

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
)

// many is how often a reading is taken at most: from there on the walk to the
// bench costs more than it brings (common practice, no source).
const many = 100

// ofMany returns the standard deviation of the mean of many values: where an
// instrument repeats better than it resolves, its step stays.
func (s sigma) ofMany() float64 {
	if s.repeat < s.resolution/3 {
		return s.ofMean(many)
	}
	return s.ofOne() / math.Sqrt(many)
}

// Limit returns the standard uncertainty that a size or place keeps however
// often the readings of a job are taken, those without values among them: what
// many values leave of each one's scatter, with the zeros of the instruments,
// the gauge pieces and the departures from form as they are.
func (r *Result) Limit(job *trade.Job, id string) (u float64, determined bool) {
	o := r.outlook(compile(job))
	problem := lsq.Problem{Start: o.x, Constraints: o.ahead.constraints}
	observe := func(e lsq.Equation, sigma float64) {
		var row lsq.Row
		if miss := e.Eval(o.x, &row); finite(miss) {
			problem.Observations = append(problem.Observations, lsq.Observation{Equation: offset{e, miss}, Sigma: sigma})
		}
	}
	for _, observation := range o.ahead.observations {
		sigma := observation.sigma
		if f := o.ahead.readBy(observation); f != nil && !f.reading.GoNoGo() {
			sigma = f.sigma.ofMany()
		}
		observe(observation.equation, sigma)
	}
	for _, f := range o.ahead.forwards {
		if len(f.reading.Saw) == 0 && !f.reading.GoNoGo() && !f.pair() {
			observe(&misclosure{forward: f}, f.sigma.ofMany())
		}
	}
	solution, err := lsq.Solve(problem)
	if err != nil {
		return math.NaN(), false
	}
	return (&findings{model: o.ahead, trial: &trial{Solution: solution}}).uncertainty(id)
}

// IfShown returns the standard uncertainty that a size or place would have if a
// reading of one value in use had shown another. It returns false where the job
// does not settle near where it is then.
func (r *Result) IfShown(reading string, value float64, id string) (u float64, determined, near bool) {
	members := r.found.members[reading]
	if len(members) != 1 {
		return math.NaN(), false, false
	}
	problem, _ := r.Solved()
	at := members[0]
	by := r.found.readBy(r.found.observations[r.found.index[at]])
	if by.reading.GoNoGo() || by.pair() {
		return math.NaN(), false, false
	}
	problem.Observations[at].Equation = &misclosure{forward: by, saw: value}
	solution, err := lsq.Solve(problem)
	if err != nil || !solution.Converged {
		return math.NaN(), false, false
	}
	u, determined = (&findings{model: r.found.model, trial: &trial{Solution: solution}}).uncertainty(id)
	return u, determined, true
}

// readBy returns the reading that an observation is a value of, nil where it is
// known beforehand or a relation.
func (m *model) readBy(o observation) *forward {
	if o.source.Kind != FromReading {
		return nil
	}
	return m.values[o.values[0]].reading
}

// uncertainty returns the standard uncertainty of a size, or the larger of x
// and y of a place.
func (f *findings) uncertainty(id string) (u float64, determined bool) {
	for _, column := range f.columnsOf(id) {
		if !f.Determined(column) {
			return math.NaN(), false
		}
		u = max(u, f.u(column))
	}
	return u, true
}
