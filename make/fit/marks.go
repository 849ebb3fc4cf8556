package fit

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// steps are what limits are rounded to where they are printed, in mm: in
// millimetres and in inches.
type steps struct{ millimetre, inch float64 }

// The steps where no instrument states one (common practice, no source), and
// the finest that are printed.
const (
	usualStep      = 0.01
	usualInchStep  = 0.0005 * unit.MillimetresPerInch
	finestStep     = 0.001
	finestInchStep = 0.0001 * unit.MillimetresPerInch
)

// stepsOf returns the resolution of the finest instrument that read any of
// these sizes, in the unit in which it reads. In the other unit, which then
// nobody works to, limits keep the finest step.
func stepsOf(job *trade.Job, names []string) steps {
	s := steps{usualStep, usualInchStep}
	finest := math.Inf(1)
	for i := range job.Readings {
		instrument := job.Instrument(job.Readings[i].With)
		if instrument == nil || !touches(&job.Readings[i], names) || instrument.Resolution.Dimension() != unit.Length ||
			!instrument.Resolution.Given() || instrument.Resolution.Inside() >= finest {
			continue
		}
		finest = instrument.Resolution.Inside()
		s = steps{finestStep, finestInchStep}
		if instrument.Resolution.Unit() == unit.Inch {
			s.inch = max(finest, finestInchStep)
		} else {
			s.millimetre = max(finest, finestStep)
		}
	}
	return s
}

// touches reports whether a reading holds one of these sizes.
func touches(r *trade.Reading, names []string) bool {
	if slices.ContainsFunc(r.Of, func(arg trade.Arg) bool { return slices.Contains(names, arg.ID) }) {
		return true
	}
	return slices.ContainsFunc(r.That.Names(), func(name string) bool { return slices.Contains(names, name) })
}

// Limits returns the limits as they are printed in millimetres or inches, both
// in mm: rounded inward to the resolution of the finest instrument that read
// what the size is taken from, else to 0.01 mm or 0.0005 in. It returns false
// where less than one step is left between them. Angles and the limits of a
// tolerance class are not rounded.
func (m *Made) Limits(in unit.Unit) (low, high float64, ok bool) {
	if m.Size.Kind.Dimension() != unit.Length || m.Thread != nil || m.Size.Tolerance != "" || !(m.Low < m.High) {
		return m.Low, m.High, m.Determined
	}
	step := m.steps.millimetre
	if in == unit.Inch {
		step = m.steps.inch
	}
	const rounding = 1e-6 // of a step: what arithmetic may have done to a limit that lies on one
	low = step * math.Ceil(m.Low/step-rounding)
	high = step * math.Floor(m.High/step+rounding)
	return low, high, low < high-step/2
}

// coarse says so where the instrument cannot show whether a size lies between
// its limits.
func (m *Made) coarse(r *adjust.Result) {
	units := unitsOf(r.Job)
	if _, _, ok := m.Limits(units); ok || !m.Determined {
		return
	}
	step := m.steps.millimetre
	if units == unit.Inch {
		step = m.steps.inch
	}
	m.advise("The instrument that read it shows steps of %s: there are no two of them between the limits. Measure with a finer one, or allow more.", unit.LengthOf(step))
}

// unitsOf returns the unit of a job's bare numbers.
func unitsOf(job *trade.Job) unit.Unit {
	if job.Units == unit.Inch {
		return unit.Inch
	}
	return unit.Millimetre
}
