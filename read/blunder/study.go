package blunder

import (
	"context"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

const (
	testLimit = 3.2905267314919255 // of the adjustment's test of one value, α = 0.001

	// reach is within how many standard deviations of what the others predict a
	// corrected value must lie to be adjusted again: a little beyond testLimit,
	// since the prediction was worked out without it.
	reach = 4.5

	// anything is a tolerance, in mm or radians, that says nothing.
	anything = 1000

	// mostFor keeps likelihoods within what a number can hold.
	mostFor = 300
)

// study is one result being looked into.
type study struct {
	ctx    context.Context // its end ends the search: no job is worked out after it
	r      *adjust.Result
	doubts []*doubt
	clean  *adjust.Result // without all that is suspect
	common []*entry       // what explains several doubts at once
}

// slip is something that may have been done, as yet untried.
type slip struct {
	Explanation
	prior  float64
	covers []*doubt                                 // what it clears up
	undone func(job *trade.Job)                     // changes a job to what it would have been
	after  func(r *adjust.Result, e *entry) float64 // fills in what only the result tells; a factor of its weight
}

// entry is a slip that fits.
type entry struct {
	Explanation
	weight float64
	covers []*doubt
}

// refit works the job out again with all doubts left out but those covered,
// and with changes. It returns nil where that leads nowhere, and when nobody waits
// for it any more.
func (s *study) refit(covered []*doubt, changes ...func(job *trade.Job)) *adjust.Result {
	if s.ctx.Err() != nil {
		return nil
	}
	job := draft(s.r.Job)
	for _, d := range s.doubts {
		if slices.Contains(covered, d) {
			continue
		}
		for _, suspect := range d.suspects {
			together([]adjust.Source{suspect}).free(job)
		}
	}
	for _, change := range changes {
		change(job)
	}
	result, _ := s.r.Nearby(job)
	return result
}

// draft is a copy of a job in which anything may be changed.
func draft(job *trade.Job) *trade.Job {
	d := *job
	d.Instruments = slices.Clone(job.Instruments)
	d.Pieces = slices.Clone(job.Pieces)
	d.Sizes = slices.Clone(job.Sizes)
	d.Relations = slices.Clone(job.Relations)
	d.Readings = slices.Clone(job.Readings)
	for i := range d.Readings {
		d.Readings[i].Of = slices.Clone(job.Readings[i].Of)
		d.Readings[i].Saw = slices.Clone(job.Readings[i].Saw)
	}
	return &d
}

// try adjusts the job without a slip. It returns nil where some observation is
// still suspect.
func (s *study) try(h slip) *entry {
	result := s.refit(h.covers, h.undone)
	if result == nil || !fits(result) {
		return nil
	}
	e := &entry{Explanation: h.Explanation, weight: h.prior * s.likelihood(result), covers: h.covers}
	if h.after != nil {
		e.weight *= h.after(result, e)
	}
	e.Becomes = s.changes(result)
	return e
}

// likelihood compares a result with that of the readings beyond doubt.
func (s *study) likelihood(result *adjust.Result) float64 {
	return math.Exp(min(mostFor, (s.clean.Chi2-result.Chi2)/2))
}

// fits reports whether no observation is over the limit.
func fits(r *adjust.Result) bool {
	return !slices.ContainsFunc(r.Readings, func(v adjust.Value) bool { return v.Impossible }) &&
		!slices.ContainsFunc(slices.Concat(valueTests(r), priorTests(r)), func(t tested) bool { return t.size > testLimit })
}

// changes lists the sizes and places that a result has elsewhere than the one
// studied.
func (s *study) changes(result *adjust.Result) []Change {
	var list []Change
	note := func(name string, d unit.Dimension, now, before, u float64, settled bool) {
		if settled || math.Abs(now-before) > u {
			list = append(list, Change{Size: name, Dimension: d, Value: now})
		}
	}
	for i, size := range result.Sizes {
		if before := s.r.Sizes[i]; size.Determined {
			note(size.ID, size.Dimension, size.Value, before.Value, size.U, !before.Determined)
		}
	}
	for i, place := range result.Places {
		before := s.r.Places[i]
		names, first := []string{".x", ".y"}, unit.Length
		if place.Line {
			names, first = []string{".angle", ".offset"}, unit.Angle
		}
		for axis, d := range []unit.Dimension{first, unit.Length} {
			if place.Determined && place.U[axis] > 0 {
				note(place.ID+names[axis], d, place.At[axis], before.At[axis], place.U[axis], !before.Determined)
			}
		}
	}
	return list
}

// accuse tries what may have been done wrong with a culprit of a doubt.
func (s *study) accuse(d *doubt, c culprit) {
	a := s.account(d, c)
	if a == nil || c.source.Kind == adjust.FromInstrument {
		return // a zero is a cause common to all that the instrument read
	}
	d.other += a.otherSlip()
	for _, h := range a.slips() {
		s.keep(h)
	}
}

// account is what is said by one culprit, and what the others say instead.
type account struct {
	*study
	culprit
	doubt     *doubt
	base      *adjust.Result // with the culprit set free
	said      float64        // mean of its values
	predicted float64        // by the others, NaN where that cannot be told
	shift     float64        // said less predicted, NaN where that cannot be told
	spread    float64        // standard deviation of shift
	dimension unit.Dimension
}

// account hears the others on a culprit. It returns nil where they leave its
// sizes open.
func (s *study) account(d *doubt, c culprit) *account {
	a := &account{study: s, culprit: c, doubt: d, predicted: math.NaN()}
	if a.base = s.refit([]*doubt{d}, c.free); a.base == nil {
		return nil
	}
	switch {
	case c.source.Kind != adjust.FromReading:
		a.hearPrior()
	case s.r.Job.Reading(c.source.ID).GoNoGo():
		a.hearGoNoGo()
	default:
		a.hearValues()
	}
	if !(a.spread > 0) {
		return nil
	}
	d.note(a)
	return a
}

// note keeps what the others say of a suspect.
func (d *doubt) note(a *account) {
	d.strength = max(d.strength, math.Abs(a.shift)/a.spread)
	for _, suspect := range d.suspects {
		if suspect.Kind == a.source.Kind && suspect.ID == a.source.ID && (len(a.values) == 0 || slices.Contains(a.values, suspect.Index)) {
			d.others[suspect] = a.predicted
		}
	}
}

// hearValues compares values of a reading, left out, with what is predicted
// for it. Of the variance of one value, that of the prediction is shared.
func (a *account) hearValues() {
	for _, i := range a.values {
		v := valueOf(a.base, adjust.Source{ID: a.source.ID, Index: i})
		if v.Unknown || v.Residual == 0 {
			return
		}
		a.dimension = v.Dimension
		a.said += v.Saw[0] / float64(len(a.values))
		a.shift += v.Residual / float64(len(a.values))
		a.spread = math.Abs(v.Residual / v.Normalised)
		if !v.Pair {
			a.predicted = v.Predicted[0]
		}
	}
	if n := float64(len(a.values)); n > 1 && !countsOnce(a.r, a.source.ID) {
		sigma := sigmaOf(a.r, adjust.Source{Kind: adjust.FromReading, ID: a.source.ID, Index: a.values[0]})
		a.spread = math.Sqrt(a.spread*a.spread - sigma*sigma*(1-1/n))
	}
}

// hearGoNoGo takes the shift from the residual that is left of it with the
// reading in: r times as large, of a standard deviation √r times σ.
func (a *account) hearGoNoGo() {
	v := valueOf(a.r, a.source)
	a.dimension, a.said = v.Dimension, v.Saw[0]
	a.fromResidual(v.Test)
}

func (a *account) fromResidual(t adjust.Test) {
	if t.Redundancy > 0 && t.Normalised != 0 {
		a.shift = t.Residual / t.Redundancy
		a.spread = math.Abs(a.shift / t.Normalised)
		a.predicted = a.said - a.shift
	}
}

// hearRelation hears a relation whose right side is a plain value.
func (a *account) hearRelation() {
	literal := literalOf(a.r.Job, a.source.Index)
	i := slices.IndexFunc(a.r.Relations, func(t adjust.Tie) bool { return t.Index == a.source.Index })
	if literal.Given() {
		a.dimension, a.said = literal.Dimension(), literal.Inside()
		a.fromResidual(a.r.Relations[i].Test)
	}
}

// hearPrior compares what was stated beforehand with what the readings say.
func (a *account) hearPrior() {
	var u, stated float64
	switch a.source.Kind {
	case adjust.FromInstrument:
		i := slices.IndexFunc(a.base.Instruments, func(z adjust.Zero) bool { return z.ID == a.source.ID })
		a.dimension, a.predicted, u = a.base.Instruments[i].Dimension, a.base.Instruments[i].Value, a.base.Instruments[i].U
	case adjust.FromPiece:
		i := slices.IndexFunc(a.base.Pieces, func(p adjust.Piece) bool { return p.ID == a.source.ID })
		a.dimension, a.predicted, u = unit.Length, a.base.Pieces[i].Value, a.base.Pieces[i].U
		stated = a.r.Job.Piece(a.source.ID).Size.Inside()
	case adjust.FromKnown:
		size := a.base.Size(a.source.ID)
		if !size.Determined {
			return
		}
		a.dimension, a.predicted, u = size.Dimension, size.Value, size.U
		stated = a.r.Job.Size(a.source.ID).Known.Value.Inside()
	case adjust.FromRelation:
		a.hearRelation()
		return
	}
	a.said, a.shift = stated, stated-a.predicted
	if u < anything/10 {
		a.spread = math.Hypot(u, sigmaOf(a.r, a.source))
	}
}
