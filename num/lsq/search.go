package lsq

import (
	"math"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
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
	ties        *ties

	// In scaled unknowns.
	normal, damped       blas64.Symmetric
	gradient, step, turn []float64

	base       []float64
	iterations int
}

func newSearch(p *Problem) *search {
	n := len(p.Start)
	return &search{
		p: p, here: newPlace(p), there: newPlace(p),
		scale:    make([]float64, n),
		ties:     newTies(n, len(p.Constraints)),
		normal:   symmetric(n),
		damped:   symmetric(n),
		gradient: make([]float64, n),
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
	clear(s.normal.Data)
	clear(s.gradient)
	for i := range s.here.rows {
		s.accumulate(&s.here.rows[i], s.here.misfits[i])
	}
	s.ties.factor(s.here.ties, s.scale)
	s.ties.confine(s.normal, s.gradient)
}

func (s *search) accumulate(row *Row, misfit float64) {
	n := s.normal.N
	for a, c := range row.Columns {
		v := row.Values[a] * s.scale[c]
		s.gradient[c] += v * misfit
		for b, other := range row.Columns[:a+1] {
			s.normal.Data[min(c, other)*n+max(c, other)] += v * row.Values[b] * s.scale[other]
		}
	}
}

// solve finds the step with this damping and returns how much it should lower
// chi2, or -1 where the normal matrix is not positive definite.
func (s *search) solve(damping float64) float64 {
	n := s.normal.N
	copy(s.damped.Data, s.normal.Data)
	for j := range n {
		s.damped.Data[j*n+j] += damping
	}
	factor, ok := lapack64.Potrf(s.damped)
	if !ok {
		return -1
	}
	for j, g := range s.gradient {
		s.step[j] = -g
	}
	lapack64.Potrs(factor, single(s.step))
	promised := 0.0
	for j, d := range s.step {
		promised += d * (damping*d - s.gradient[j])
	}
	return promised
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
	clear(s.turn)
	for i := range s.here.rows {
		row := &s.here.rows[i]
		slope := (s.there.misfits[i] - s.here.misfits[i]) / part
		curvature := 2 / part * (slope - row.times(s.base))
		for a, c := range row.Columns {
			s.turn[c] -= curvature / 2 * s.scale[c] * row.Values[a]
		}
	}
	s.ties.remove(s.turn)
	lapack64.Potrs(upperOf(s.damped), single(s.turn))
	if blas64.Nrm2(vector(s.turn)) > sharpest/2*blas64.Nrm2(vector(s.step)) {
		return false
	}
	blas64.Axpy(1, vector(s.turn), vector(s.step))
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
