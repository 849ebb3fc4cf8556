package adjust

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Refit works out the sizes of a job that differs a little from that of r: in
// a value, a piece, a role, or by readings more or fewer. It starts from what r
// found without its suspects, and looks for no suspects of its own.
func (r *Result) Refit(job *trade.Job) (*Result, error) {
	m := compile(job)
	s := &search{m: m, active: all(len(m.observations))}
	t, err := s.from(m.carry(r.found))
	if err != nil || !t.Converged {
		if t, err = s.solve(); err != nil {
			return nil, err
		}
	}
	return m.result(t, &verdict{suspect: make([]bool, len(m.observations))}), nil
}

// carry returns start values for the model: those of another solution for the
// unknowns that both have, new ones for the rest.
func (m *model) carry(f *findings) []float64 {
	found := f.X
	if f.clean != nil {
		found = f.clean.X
	}
	s := m.starter(attempt{})
	s.fixPriors()
	complete := s.take(f, found)
	if !complete {
		s.settleAll()
		s.take(f, found) // plans and places were laid anew
	}
	return s.x
}

// take takes over what another solution found, and reports whether everything
// is settled by that. Departures from form and of seating are nobody else's.
func (s *starter) take(f *findings, found []float64) (complete bool) {
	columns := f.columnsByUnknown()
	complete = true
	for i, u := range s.m.unknowns {
		if u.kind == formUnknown || u.kind == feelUnknown {
			continue
		}
		if j, ok := columns[u]; ok {
			s.set(i, found[j])
		}
		complete = complete && s.settled[i]
	}
	return complete
}

// columnsByUnknown returns the column of every unknown: of several that are
// alike, such as the departures from form of one size, the last.
func (m *model) columnsByUnknown() map[unknown]int {
	columns := make(map[unknown]int, len(m.unknowns))
	for column, u := range m.unknowns {
		columns[u] = column
	}
	return columns
}

// Expect fills in what readings that have not been taken would show, and
// returns the result there would be: its uncertainties and checks are those to
// expect, its values those that the other readings and the sizes' own guesses
// imply. A reading that has not been taken is one without values. The error is
// of type trade.Faults and names a reading that cannot be foretold.
func Expect(job *trade.Job) (*Result, error) {
	m := compile(job)
	t, err := (&search{m: m, active: all(len(m.observations))}).solve()
	if err != nil {
		return nil, err
	}
	known := m.result(t, &verdict{suspect: make([]bool, len(m.observations))})
	filled, err := known.Foretell(job)
	if err != nil {
		return nil, err
	}
	return known.Refit(filled)
}

// Foretell returns a copy of a job that differs from that of r by readings
// without values: each is given the one value that the sizes of r imply. Sizes
// that r does not determine count as their guess.
func (r *Result) Foretell(job *trade.Job) (*trade.Job, error) {
	m := compile(job)
	x := m.carry(r.found)
	filled := *job
	filled.Readings = slices.Clone(job.Readings)
	var faults trade.Faults
	for i, f := range m.forwards {
		reading := &filled.Readings[i]
		if len(reading.Saw) > 0 || reading.GoNoGo() {
			continue
		}
		seen, ok := f.foretell(x)
		if !ok {
			faults.Add(reading.Pos, "reading %s: what it would show cannot be told; give its sizes a `guess:` at which the set-up can be", reading.ID)
			continue
		}
		reading.Saw = []trade.Seen{seen}
	}
	return &filled, faults.Err()
}

// foretell returns what a reading would show at x, to a millionth of a micron.
func (f *forward) foretell(x []float64) (trade.Seen, bool) {
	if f.pair() {
		return trade.Seen{}, false
	}
	value := f.predict(x, nil)
	q, err := unit.New(int64(math.Round(value*1e9)), 1e9, insideUnit(f.dimension))
	return trade.Seen{X: q}, err == nil && math.Abs(value) < 1e9
}

// insideUnit is the unit that the program works in.
func insideUnit(d unit.Dimension) unit.Unit {
	return map[unit.Dimension]unit.Unit{unit.Length: unit.Millimetre, unit.Angle: unit.Radian, unit.Number: unit.One}[d]
}

// Observation is one observation of an adjustment, as others may vary it.
type Observation struct {
	Source      Source
	Sigma       float64
	Rectangular bool // a tolerance or a go / no-go pair: ±√3·Sigma rather than normal
	Values      int  // how many values of the reading it is the mean of, 0 for a prior
}

// Observations lists what the adjustment used.
func (r *Result) Observations() []Observation {
	list := make([]Observation, len(r.found.index))
	for k, i := range r.found.index {
		o := r.found.observations[i]
		list[k] = Observation{Source: o.source, Sigma: o.sigma, Rectangular: r.found.rectangular(o), Values: len(o.values)}
	}
	return list
}

// rectangular reports whether an observation states a tolerance. The zero of an
// instrument and the scatter of a reading are taken as normal.
func (f *findings) rectangular(o observation) bool {
	switch o.source.Kind {
	case FromReading:
		return f.values[o.values[0]].reading.reading.GoNoGo()
	case FromKnown:
		return f.model.size(o.source.ID).Known.Within.Given()
	case FromRelation:
		return f.job.Relations[o.source.Index].Within.Given()
	case FromPiece, fromForm:
		return true
	}
	return false
}

// Unknowns returns the values of all unknowns at the solution: a copy.
func (r *Result) Unknowns() []float64 { return slices.Clone(r.found.X) }

// Column returns the index of a size among the unknowns, false where the size
// is exact.
func (r *Result) Column(id string) (int, bool) {
	column, ok := r.found.sizes[id]
	return column, ok
}

// Influence returns how unknown column follows each observation: its change
// for one standard deviation of that observation, to first order.
func (r *Result) Influence(column int) []float64 { return r.found.Influence(column) }

// Solved returns what was solved, with the solution as its start values, and
// the solution. The observations are in the order of Observations. Neither is
// to be changed.
func (r *Result) Solved() (lsq.Problem, *lsq.Solution) {
	f := r.found
	problem := lsq.Problem{Start: f.X, Constraints: f.constraints}
	for _, i := range f.index {
		o := f.observations[i]
		problem.Observations = append(problem.Observations, lsq.Observation{Equation: o.equation, Sigma: o.sigma})
	}
	return problem, f.Solution
}

// Perturbed solves again with an error added to every observation, from the
// solution at hand. It returns false where that leads to no solution. It may
// run in any number of goroutines.
func (r *Result) Perturbed(errors []float64) (x []float64, ok bool) {
	problem, _ := r.Solved()
	for k := range problem.Observations {
		o := &problem.Observations[k]
		o.Equation = offset{o.Equation, errors[k]}
	}
	solution, err := lsq.Solve(problem)
	if err != nil || !solution.Converged {
		return nil, false
	}
	return solution.X, true
}

// offset is an equation whose observation is off by an error.
type offset struct {
	lsq.Equation
	by float64
}

func (e offset) Eval(x []float64, row *lsq.Row) float64 { return e.Equation.Eval(x, row) - e.by }
