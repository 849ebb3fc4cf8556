package simulate

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// The steps of a chord end where those that would follow, at the rate at which
// they grow shorter, come to no more than enough of a standard uncertainty.
const (
	enough    = 1e-4
	firstRate = 0.1 // taken for granted before it shows
	mostSteps = 30
	runaway   = 1e6
)

// chord is an adjusted job made ready to be solved over and over with other
// errors in its observations.
//
// Wanted is where the slope of ½Σ((g-e)/σ)² + Σλh vanishes and every exact
// relation h holds. Each step is x ← x - Q·slope - P·h with the slope of where
// x has got to, but with the cofactors Q and the way back P of the solution at
// hand: where that is a good one, two steps are mostly enough. It is exact,
// also where residuals are large and formulas bent, save that observations
// which are as good as quadratic are taken as that.
type chord struct {
	r        *adjust.Result
	solution []float64
	reach    []float64
	found    *lsq.Solution
	curves   []curve
	ties     *ties
}

func newChord(r *adjust.Result) *chord {
	problem, solution := r.Solved()
	n := len(solution.X)
	c := &chord{r: r, solution: solution.X, reach: make([]float64, n), found: solution}
	for i := range n {
		c.reach[i] = reachOf(solution.X[i], solution.Cofactor(i, i))
	}
	d := &draft{
		solution: c.solution, reach: c.reach, found: solution,
		departure: make([]float64, n), x: append([]float64(nil), c.solution...),
	}
	slope := make([]float64, n)
	for _, o := range problem.Observations {
		curve := d.curve(o)
		for i, column := range curve.columns {
			slope[column] += curve.value * curve.slope[i]
		}
		c.curves = append(c.curves, curve)
	}
	c.ties = newTies(d, problem.Constraints, c.curves, slope)
	return c
}

// reachOf returns the standard uncertainty of an unknown or, where it cannot
// vary to first order, a small step of it.
func reachOf(value, variance float64) float64 {
	const rounding, small = 1e-13, 1e-4
	u, size := math.Sqrt(max(0, variance)), 1+math.Abs(value)
	if u > rounding*size {
		return u
	}
	return small * size
}

// walk is a chord with the space in which one goroutine solves.
type walk struct {
	*chord
	x, departure []float64
	slope, step  []float64
	places       []float64
	held, pull   []float64 // values and multipliers of the exact relations
	ease         []float64 // what the multipliers are off by
	rows         []lsq.Row // their gradients
	row          lsq.Row
	space        [mostColumns]float64
}

func (c *chord) walk() *walk {
	n, count := len(c.solution), 0
	if c.ties != nil {
		count = len(c.ties.equations)
	}
	return &walk{
		chord: c,
		x:     make([]float64, n), departure: make([]float64, n),
		slope: make([]float64, n), step: make([]float64, n), places: make([]float64, n),
		held: make([]float64, count), pull: make([]float64, count), ease: make([]float64, count),
		rows: make([]lsq.Row, count),
	}
}

// solve returns the unknowns with an error added to every observation, in its
// own units. It returns false where there is no solution. What it returns is
// its own until the next call.
func (w *walk) solve(errors []float64) (x []float64, ok bool) {
	if w.approach(errors) {
		return w.x, true
	}
	return w.r.Perturbed(errors)
}

// approach solves by steps; false where they do not close in.
func (w *walk) approach(errors []float64) bool {
	last, rate := w.begin(errors), firstRate
	for range mostSteps {
		if !w.descend(errors) {
			return false
		}
		size := w.size(w.step)
		if !(size < runaway) {
			return false
		}
		for j, s := range w.step {
			w.departure[j] += s
			w.x[j] = w.solution[j] + w.departure[j]
		}
		// Steps may grow shorter by turns: the slower of two rates counts.
		slower := max(rate, size/last)
		if size == 0 || size*slower <= enough*(1-slower) {
			return true
		}
		last, rate = size, max(firstRate, size/last)
	}
	return false
}

// begin goes where the unknowns would be if everything were straight, and
// returns how far that is.
func (w *walk) begin(errors []float64) float64 {
	clear(w.slope)
	for i := range w.curves {
		c := &w.curves[i]
		e := errors[i] / c.sigma
		for a, column := range c.columns {
			w.slope[column] += e * c.slope[a]
		}
	}
	w.gained(w.departure)
	for j, s := range w.departure {
		w.x[j] = w.solution[j] + s
	}
	if w.ties != nil {
		copy(w.pull, w.ties.pull)
	}
	return w.size(w.departure)
}

// gained sets into to the cofactors times the slope.
func (w *walk) gained(into []float64) { w.found.Apply(w.slope, into, w.places) }

// size returns the largest of the changes of the unknowns, in standard
// uncertainties.
func (w *walk) size(change []float64) float64 {
	largest := 0.0
	for j, s := range change {
		largest = max(largest, math.Abs(s)/w.reach[j])
	}
	return largest
}

// descend works out the next step; false where something does not exist at x.
func (w *walk) descend(errors []float64) bool {
	clear(w.slope)
	near := w.size(w.departure) <= farthest
	for i := range w.curves {
		if c := &w.curves[i]; near && c.quadratic {
			misfit, gradient := c.at(w.departure, &w.space)
			misfit -= errors[i] / c.sigma
			for a, column := range c.columns {
				w.slope[column] += misfit * gradient[a]
			}
		} else if !w.exactly(c, errors[i]) {
			return false
		}
	}
	if w.ties == nil {
		w.gained(w.step)
	} else if !w.along() {
		return false
	}
	for j := range w.step {
		w.step[j] = -w.step[j]
	}
	return true
}

// exactly adds to the slope what the equation of an observation has there.
func (w *walk) exactly(c *curve, err float64) bool {
	w.row.Reset()
	misfit := (c.equation.Eval(w.x, &w.row) - err) / c.sigma
	for a, column := range w.row.Columns {
		w.slope[column] += misfit * w.row.Values[a] / c.sigma
	}
	return finite(misfit)
}

// along works out, but for the sign, a step that also leads back onto the exact
// relations. Multipliers that were off first are put right.
func (w *walk) along() bool {
	for k, e := range w.ties.equations {
		w.rows[k].Reset()
		if w.held[k] = e.Eval(w.x, &w.rows[k]); !finite(w.held[k]) {
			return false
		}
		w.addTie(k, w.pull[k])
	}
	for k := range w.ease {
		w.ease[k] = dot(w.ties.inverse.RawRowView(k), w.slope)
	}
	for k, ease := range w.ease {
		w.pull[k] -= ease
		w.addTie(k, -ease)
	}
	w.gained(w.step)
	for k, h := range w.held {
		for j, back := range w.ties.back.RawRowView(k) {
			w.step[j] += h * back
		}
	}
	return true
}

// addTie adds a multiple of a relation's gradient to the slope.
func (w *walk) addTie(k int, times float64) {
	row := &w.rows[k]
	for a, column := range row.Columns {
		w.slope[column] += times * row.Values[a]
	}
}
