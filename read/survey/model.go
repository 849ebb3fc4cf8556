package survey

import (
	"errors"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// sum is a sum of unknowns, each times a factor.
type sum []term

type term struct {
	column int
	factor float64
}

// one returns a sum of one unknown.
func one(column int) sum { return sum{{column, 1}} }

// plus returns s + k·o.
func (s sum) plus(k float64, o sum) sum {
	all := slices.Clone(s)
	for _, t := range o {
		all = append(all, term{t.column, k * t.factor})
	}
	return all
}

// times returns k·s.
func (s sum) times(k float64) sum { return sum(nil).plus(k, s) }

func (s sum) predict(x []float64, row *lsq.Row) float64 {
	value := 0.0
	for _, t := range s {
		value += t.factor * x[t.column]
		row.Add(t.column, t.factor)
	}
	return value
}

// forward foretells a reading without the zero of its instrument.
type forward interface {
	predict(x []float64, row *lsq.Row) float64
}

// model gathers unknowns and readings into one adjustment.
type model struct {
	job     *trade.Job
	problem lsq.Problem
	zeros   map[string]int // unknown zeros of instruments; -1: known to be none
	pieces  map[string]int // unknown gauge pieces
}

func (l *Look) model() *model {
	return &model{job: l.job, zeros: map[string]int{}, pieces: map[string]int{}}
}

// unknown adds an unknown with a start value and returns its column.
func (m *model) unknown(start float64) int {
	m.problem.Start = append(m.problem.Start, start)
	return len(m.problem.Start) - 1
}

// known adds an unknown that is known with a standard uncertainty.
func (m *model) known(value, u float64) int {
	column := m.unknown(value)
	m.observe(misclosure{one(column), -1, value}, u)
	return column
}

// exact adds an unknown that is known without error.
func (m *model) exact(value float64) int {
	column := m.unknown(value)
	m.fix(column, value)
	return column
}

// fix gives an unknown its value.
func (m *model) fix(column int, value float64) {
	m.problem.Constraints = append(m.problem.Constraints, misclosure{one(column), -1, value})
}

func (m *model) observe(e lsq.Equation, sigma float64) {
	m.problem.Observations = append(m.problem.Observations, lsq.Observation{Equation: e, Sigma: sigma})
}

// read adds the values that an instrument showed. Its error is that of
// gauge.ErrorOf: a zero shared by all that it read, and a new error each time; apart
// is a further standard uncertainty of each place read. Where values that repeat lie
// within one step of the scale, and it scatters by less than a third of that, they
// are one observation.
func (m *model) read(with string, values []float64, apart float64, f forward) {
	e, err := gauge.ErrorOf(m.job.Instrument(with))
	if err != nil {
		panic("upkeep: an instrument of a job that was read has no error")
	}
	zero, there := m.zeros[with]
	if !there {
		zero = -1
		if e.Zero > 0 {
			zero = m.known(0, e.Zero)
		}
		m.zeros[with] = zero
	}
	if apart > 0 { // it is the same for all values of the place
		f = both{f, one(m.known(0, apart))}
	}
	step := e.Resolution / math.Sqrt(12)
	if e.Repeat < e.Resolution/3 && slices.Max(values)-slices.Min(values) <= e.Resolution*(1+1e-9) {
		m.observe(misclosure{f, zero, mean(values)}, math.Hypot(e.Repeat/math.Sqrt(float64(len(values))), step))
		return
	}
	for _, v := range values {
		m.observe(misclosure{f, zero, v}, math.Hypot(e.Repeat, step))
	}
}

func mean(values []float64) float64 {
	total := 0.0
	for _, v := range values {
		total += v
	}
	return total / float64(len(values))
}

// misclosure is what an instrument should show less what it showed.
type misclosure struct {
	forward
	zero int // column of the instrument's zero, -1: none
	saw  float64
}

func (e misclosure) Eval(x []float64, row *lsq.Row) float64 {
	value := e.predict(x, row)
	if e.zero >= 0 {
		value += x[e.zero]
		row.Add(e.zero, 1)
	}
	return value - e.saw
}

// both is the sum of two.
type both struct{ a, b forward }

func (b both) predict(x []float64, row *lsq.Row) float64 {
	return b.a.predict(x, row) + b.b.predict(x, row)
}

// Readings that contradict the shape that was read, and those that leave it open.
var (
	errImpossible = errors.New("no such thing can give these readings: look for a slip in them")
	errOneDepth   = errors.New(`its rollers are all at one depth, which tells no angle: read with a second size of roller, or write "angle"`)
)

func (m *model) solve() (solved, error) {
	s, err := lsq.Solve(m.problem)
	if err != nil || !s.Converged {
		return solved{}, errImpossible
	}
	return solved{s}, nil
}

// solved is an adjustment that was solved.
type solved struct{ *lsq.Solution }

// Found is a figure and its standard uncertainty.
type Found struct{ Value, U float64 }

func (f Found) times(k float64) Found { return Found{k * f.Value, math.Abs(k) * f.U} }

// of returns the value of a sum.
func (s solved) of(f sum) Found {
	var row lsq.Row
	value := f.predict(s.X, &row)
	return Found{value, math.Sqrt(max(0, s.covariance(f, f)))}
}

// covariance returns that of two sums.
func (s solved) covariance(f, g sum) float64 {
	total := 0.0
	for _, a := range f {
		for _, b := range g {
			total += a.factor * b.factor * s.Cofactor(a.column, b.column)
		}
	}
	return total
}

// length returns √(f² + g²), as of a vector of these two parts. Where both are
// nothing its uncertainty is that of the worse.
func (s solved) length(f, g sum) Found {
	x, y := s.of(f), s.of(g)
	size := math.Hypot(x.Value, y.Value)
	if size == 0 {
		return Found{0, max(x.U, y.U)}
	}
	return Found{size, s.of(f.times(x.Value/size).plus(y.Value/size, g)).U}
}

// disagrees is the probability below which readings do not fit what was supposed.
const disagrees = 0.01

// misfits reports whether the readings scatter more than their instruments do.
func (s solved) misfits() bool { return s.P() < disagrees }
