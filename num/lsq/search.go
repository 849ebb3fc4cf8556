package lsq

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

const (
	mostIterations = 500
	firstDamping   = 1e-2
	leastDamping   = 1e-12
	mostDamping    = 1e16
)

// search walks from place to place along the constraints.
type search struct {
	p           *Problem
	here, there *place
	scale       []float64 // x = scale · scaled unknowns
	ties        *ties     // at the place where the equations were made linear
	back        *ties     // on the way back to the constraints

	// Over the free unknowns, scaled: the rows of the weighted Jacobian with
	// those of the ties behind them, and factors of the same shape.
	jacobian       rows
	laid           rows // what shape was found for
	shape          *shape
	normal, damped triangle
	gradient, bent []float64
	part           []float64
	last           []bool // free unknowns that come last in the orthogonal factor

	step, turn []float64 // of all unknowns, scaled
	base       []float64
	iterations int
}

func newSearch(p *Problem) *search {
	n := len(p.Start)
	return &search{
		p: p, here: newPlace(p), there: newPlace(p),
		scale:    make([]float64, n),
		ties:     newTies(n, len(p.Constraints)),
		back:     newTies(n, len(p.Constraints)),
		gradient: make([]float64, n),
		bent:     make([]float64, n),
		part:     make([]float64, n),
		step:     make([]float64, n),
		turn:     make([]float64, n),
		base:     make([]float64, n),
	}
}

// descend takes damped Gauss–Newton steps until they no longer matter.
func (s *search) descend() {
	d := damping{value: firstDamping, growth: 2, gain: 1}
	last := math.Inf(1)
	for s.iterations < mostIterations && len(s.scale) > 0 {
		s.iterations++
		s.linearise()
		promised, moved := s.lower(&d)
		stalled := promised < s.here.chi2Blur() && promised > 0.9*last
		if !moved || stalled || s.negligible(promised) {
			return
		}
		last = promised
	}
}

// negligible reports whether a fall of chi2 is that of a step shorter than
// 1e-11 of the uncertainty of x, or than the rounding in it.
func (s *search) negligible(promised float64) bool {
	reach := 1e-11*math.Sqrt(s.here.chi2) + s.here.blur
	return promised <= reach*reach
}

// lower moves to a place where chi2 is not higher, damping more until one is
// found, and returns by how much the linear model promised to lower chi2.
func (s *search) lower(d *damping) (promised float64, moved bool) {
	for d.value < mostDamping {
		blur := s.here.chi2Blur()
		promised = s.solve(d.value)
		if promised >= 0 && s.bend(promised) && s.move() && s.there.chi2 <= s.here.chi2+blur {
			if promised > blur { // else there is no telling: as before
				d.gain = (s.here.chi2 - s.there.chi2) / promised
			}
			d.relax()
			s.here, s.there = s.there, s.here
			return promised, true
		}
		if promised >= 0 && s.negligible(promised) {
			return promised, false
		}
		d.tighten()
	}
	return 0, false
}

// damping is how far steps are held back, by the rule of Nielsen (Damping
// Parameter in Marquardt's Method, IMM-REP-1999-05, Technical University of
// Denmark) but falling faster where the linear model proves true.
type damping struct {
	value, growth float64
	gain          float64 // how much chi2 fell at the last step over what was promised
}

func (d *damping) tighten() {
	d.value *= d.growth
	d.growth *= 2
}

func (d *damping) relax() {
	off := 2*d.gain - 1
	d.value = math.Max(leastDamping, d.value*math.Max(0.1, 1-off*off*off))
	d.growth = 2
}

// linearise forms the normal equations at this place, confined to steps along
// the constraints. A scale never grows again: that keeps the search from
// running off to where chi2 no longer depends on an unknown.
func (s *search) linearise() {
	copy(s.base, s.scale)
	s.here.scaleColumns(s.scale)
	for j, earlier := range s.base {
		s.scale[j] = math.Min(s.scale[j], earlier)
	}
	s.ties.factor(s.here.ties, s.here.held, s.scale)
	s.reduce(s.scale)
	s.normal.reshape(s.shape)
	clear(s.gradient)
	for i, misfit := range s.here.misfits {
		columns, values := s.jacobian.row(i)
		s.normal.accumulate(columns, values, 1)
		for a, c := range columns {
			s.gradient[c] += values[a] * misfit
		}
	}
}

// reduce writes the weighted Jacobian down over the free unknowns, scaled, and
// finds the shape of its factors where it has changed.
func (s *search) reduce(scale []float64) {
	s.jacobian.reset()
	for i := range s.here.rows {
		s.ties.reduce(s.here.rows[i].Columns, s.here.rows[i].Values, scale, &s.jacobian)
	}
	if !s.ties.none() {
		for j := range scale {
			columns, values := s.ties.z.row(j)
			s.jacobian.columns = append(s.jacobian.columns, columns...)
			s.jacobian.values = append(s.jacobian.values, values...)
			s.jacobian.end()
		}
	}
	if s.shape == nil || !s.laid.alike(&s.jacobian) {
		s.laid.like(&s.jacobian)
		s.last = nil
		s.shape = shapeOf(&s.laid, orderOf(&s.laid, len(s.ties.free), nil))
	}
}

// solve finds the step with this damping and returns how much it should lower
// chi2, or -1 where the normal matrix is not positive definite.
func (s *search) solve(damping float64) float64 {
	s.damped.reshape(s.shape)
	copy(s.damped.v, s.normal.v)
	s.damp(damping)
	if !s.damped.cholesky() {
		return -1
	}
	s.least(s.gradient, s.step)
	promised := 0.0
	for _, d := range s.step {
		promised += damping * d * d
	}
	for c := range s.ties.free {
		promised -= s.part[c] * s.gradient[c]
	}
	return promised
}

// damp adds damping times the square of the length of the whole step to the
// normal matrix.
func (s *search) damp(damping float64) {
	if s.ties.none() {
		for p := range s.shape.order {
			from, _ := s.shape.span(p)
			s.damped.v[from] += damping
		}
		return
	}
	for i := len(s.here.rows); i < s.jacobian.count(); i++ {
		columns, values := s.jacobian.row(i)
		s.damped.accumulate(columns, values, damping)
	}
}

// least sets step to that which goes against a gradient over the free unknowns,
// by the damped normal equations, and leaves its part of these in part.
func (s *search) least(gradient, step []float64) {
	y := make([]float64, len(s.ties.free))
	for p, c := range s.shape.order {
		y[p] = -gradient[c]
	}
	s.damped.solveTransposed(y)
	s.damped.solve(y)
	for p, c := range s.shape.order {
		s.part[c] = y[p]
	}
	s.ties.widen(s.part, step)
}

// bend turns the step into the curve that the misfits follow, to second order
// (geodesic acceleration: Transtrum and Sethna, arXiv:1201.5885). It is false
// where the curve is too sharp for a step so long. Near the lowest point, where
// bending makes no difference, it does nothing.
func (s *search) bend(promised float64) bool {
	const part, sharpest = 0.1, 0.75
	if promised < 1e-6*s.here.chi2+s.here.chi2Blur() {
		return true
	}
	for j, d := range s.step {
		s.base[j] = s.scale[j] * d
		s.there.x[j] = s.here.x[j] + part*s.base[j]
	}
	if _, ok := s.there.evaluateMisfits(s.p); !ok {
		return false
	}
	clear(s.bent)
	for i := range s.here.rows {
		slope := (s.there.misfits[i] - s.here.misfits[i]) / part
		curvature := 2 / part * (slope - s.here.rows[i].times(s.base))
		columns, values := s.jacobian.row(i)
		for a, c := range columns {
			s.bent[c] += curvature / 2 * values[a]
		}
	}
	s.least(s.bent, s.turn)
	if norm(s.turn) > sharpest/2*norm(s.step) {
		return false
	}
	floats.Add(s.step, s.turn)
	return true
}

// move takes the step from here and returns to the constraints; false where
// that fails or something is not finite there.
func (s *search) move() bool {
	for j, d := range s.step {
		s.there.x[j] = s.here.x[j] + s.scale[j]*d
	}
	if _, ok := s.settle(s.there); !ok {
		return false
	}
	_, ok := s.there.evaluateMisfits(s.p)
	return ok
}
