package simulate

import (
	"context"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Simulation is what a job's sizes come to when its readings are drawn over and
// over.
type Simulation struct {
	Trials int
	Failed int // trials that led to no solution: left out of everything else
	Seed   uint64
	Sizes  []Size // those that are determined and not exact, in the job's order
}

// Size is one size of a Simulation, in mm or radians.
type Size struct {
	ID        string
	Dimension unit.Dimension
	Output
	Straight adjust.Size // what the adjustment says of it
}

// Sizes draws an error for every observation of an adjusted job and adjusts
// again, that many times: normal errors, or rectangular ones for a tolerance
// and a go / no-go pair, about what was observed (JCGM 101:2008, 5.9, the
// adjustment being the model). The same seed gives the same sizes on any number
// of processors.
func Sizes(r *adjust.Result, trials int, seed uint64) *Simulation {
	return draw(r, trials, seed, always)
}

// SizesUntil is Sizes for work that somebody waits for: told hears how many
// trials are made, from several goroutines, and the context stops it. The
// error is the context's, and there is then no simulation.
func SizesUntil(ctx context.Context, r *adjust.Result, trials int, seed uint64, told func(made int)) (*Simulation, error) {
	s := draw(r, trials, seed, func(made int) bool {
		told(made)
		return ctx.Err() == nil
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return s, nil
}

func draw(r *adjust.Result, trials int, seed uint64, goOn func(made int) bool) *Simulation {
	s := &Simulation{Trials: trials, Seed: seed}
	var sizes []int
	for _, size := range r.Sizes {
		if column, varies := r.Column(size.ID); varies && size.Determined {
			s.Sizes = append(s.Sizes, Size{ID: size.ID, Dimension: size.Dimension, Straight: size})
			sizes = append(sizes, column)
		}
	}
	c, observations := newChord(r), r.Observations()
	columns, failed := run(trials, len(sizes), seed, func() trial { return c.walk().trial(observations, sizes) }, goOn)
	s.Failed = failed
	for k, output := range newOutputs(columns) {
		s.Sizes[k].Output = output
	}
	return s
}

// trial returns a trial that draws the errors of the observations and keeps
// some of the unknowns.
func (w *walk) trial(observations []adjust.Observation, columns []int) trial {
	errors := make([]float64, len(observations))
	return func(random *rand.Rand, outputs []float64) bool {
		for k := range observations {
			errors[k] = errorOf(&observations[k], random)
		}
		x, ok := w.solve(errors)
		if !ok {
			return false
		}
		for k, column := range columns {
			outputs[k] = x[column]
		}
		return true
	}
}

func errorOf(o *adjust.Observation, random *rand.Rand) float64 {
	if o.Rectangular {
		return math.Sqrt(3) * o.Sigma * (2*random.Float64() - 1)
	}
	return o.Sigma * random.NormFloat64()
}

// Interval returns the simulated 95 % interval, as likely too high as too low.
func (s *Size) Interval() (low, high float64) { return s.Symmetric(level) }

const level = 0.95

// Moved says which way the ends of the 95 % interval lie from those of the
// adjustment: -1 below, 1 above, 0 where the difference does not count. That is
// up to half a unit of the second significant digit of the standard uncertainty
// (JCGM 101:2008, 8.1), beyond what three standard deviations of the drawing
// itself account for.
func (s *Size) Moved() (low, high int) {
	tolerance := Tolerance(s.Straight.U, 2)
	simulatedLow, simulatedHigh := s.Interval()
	blurLow, blurHigh := s.blur(level)
	return way(simulatedLow-s.Straight.Low(), tolerance+3*blurLow), way(simulatedHigh-s.Straight.High(), tolerance+3*blurHigh)
}

func way(difference, tolerance float64) int {
	switch {
	case difference > tolerance:
		return 1
	case difference < -tolerance:
		return -1
	}
	return 0
}

// Tolerance returns half a unit of the last of so many significant digits of a
// standard uncertainty (JCGM 101:2008, 7.9.2), 0 for none.
func Tolerance(u float64, digits int) float64 {
	if u == 0 {
		return 0
	}
	_, power, _ := strings.Cut(strconv.FormatFloat(u, 'e', digits-1, 64), "e")
	exponent, err := strconv.Atoi(power)
	if err != nil {
		panic("simulate: the tolerance of an uncertainty that is no number")
	}
	return 0.5 * math.Pow10(exponent-digits+1)
}
