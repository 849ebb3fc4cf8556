package blunder

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// slips lists what may have been done wrong with a culprit, as far as it comes
// near what the others say.
func (a *account) slips() []slip {
	if a.source.Kind != adjust.FromReading {
		return append(a.misstated(), a.mislaidPiece()...)
	}
	reading := a.r.Job.Reading(a.source.ID)
	if reading.GoNoGo() {
		return a.otherGauges()
	}
	return slices.Concat(a.misread(), a.miscounted(), a.setUpOtherwise(), a.swappedWithOthers())
}

// within reports whether a correction of the mean by this much comes near what
// the others predict. A touch, of which they predict no single value, always
// does.
func (a *account) within(correction float64) bool {
	return math.IsNaN(a.predicted) || math.Abs(a.shift+correction) <= reach*a.spread
}

// explained makes a slip of a kind out of how the job would have been.
func (a *account) explained(kind Kind, text string, part float64, corrected []Correction, undone func(*trade.Job)) slip {
	return slip{
		Explanation: Explanation{Kind: kind, Text: text, Corrected: corrected},
		prior:       priors[kind] * part,
		covers:      []*doubt{a.doubt},
		undone:      undone,
	}
}

// misread lists the ways in which the culprit's values may have been read or
// written wrong, the same way in all.
func (a *account) misread() []slip {
	var list []slip
	w := a.writing()
	for _, m := range w.misreadings() {
		for _, seen := range a.corrected(m) {
			corrected := a.corrections(seen)
			if a.within(a.moved(seen)) {
				list = append(list, a.explained(m.kind, m.text, m.part, corrected, a.rewritten(seen)))
			}
		}
	}
	return list
}

// writing says how the culprit's first value came about.
func (a *account) writing() written {
	reading := a.r.Job.Reading(a.source.ID)
	instrument := a.r.Job.Instrument(reading.With)
	w := written{
		by: instrument, number: reading.Saw[a.values[0]].X, resolution: instrument.Resolution, round: aboutARound(a.r.Job, reading),
	}
	w.scale = w.number.Unit()
	if w.resolution.Given() {
		w.scale = w.resolution.Unit()
	}
	return w
}

// corrected applies a misreading to all the culprit's values; to those of a
// touch in x, in y and in both.
func (a *account) corrected(m misreading) [][]trade.Seen {
	reading := a.r.Job.Reading(a.source.ID)
	coordinates := []struct{ x, y bool }{{x: true}}
	if gauge.Pairs(reading.By) {
		coordinates = []struct{ x, y bool }{{x: true}, {y: true}, {x: true, y: true}}
	}
	var list [][]trade.Seen
	for _, which := range coordinates {
		all := true
		var seen []trade.Seen
		for _, i := range a.values {
			s, ok := reading.Saw[i], true
			if which.x {
				s.X, ok = m.correct(s.X)
				all = all && ok
			}
			if which.y {
				s.Y, ok = m.correct(s.Y)
				all = all && ok
			}
			seen = append(seen, s)
		}
		if all {
			list = append(list, seen)
		}
	}
	return list
}

// moved is by how much new values move the mean of the culprit's.
func (a *account) moved(seen []trade.Seen) float64 {
	sum := 0.0
	for _, s := range seen {
		sum += s.X.Inside()
	}
	return sum/float64(len(seen)) - a.said
}

// without returns the culprit's values less a shift.
func (a *account) without(shift float64) []trade.Seen {
	reading := a.r.Job.Reading(a.source.ID)
	var seen []trade.Seen
	for _, i := range a.values {
		s := reading.Saw[i]
		if q, ok := number(s.X.Inside()-shift, a.dimension); ok {
			s.X = q
		}
		seen = append(seen, s)
	}
	return seen
}

// rewritten changes a job to what it would be with other values.
func (a *account) rewritten(seen []trade.Seen) func(*trade.Job) {
	return func(job *trade.Job) {
		reading := job.Reading(a.source.ID)
		for k, i := range a.values {
			reading.Saw[i] = seen[k]
		}
	}
}

// corrections says what the culprit's values would be.
func (a *account) corrections(seen []trade.Seen) []Correction {
	var list []Correction
	for k, i := range a.values {
		c := Correction{Source: adjust.Source{Kind: adjust.FromReading, ID: a.source.ID, Index: i}, Dimension: a.dimension}
		c.WouldBe[0] = seen[k].X.Inside()
		if seen[k].Y.Given() {
			c.WouldBe[1] = seen[k].Y.Inside()
		}
		list = append(list, c)
	}
	return list
}

// lessBy explains the culprit's values by an amount that they have too much.
func (a *account) lessBy(amount float64, kind Kind, text string, part float64) []slip {
	if !a.within(-amount) {
		return nil
	}
	seen := a.without(amount)
	return []slip{a.explained(kind, text, part, a.corrections(seen), a.rewritten(seen))}
}

// aboutARound reports whether a reading tells of a radius or a diameter.
func aboutARound(job *trade.Job, reading *trade.Reading) bool {
	method, _ := gauge.Find(reading.By)
	round := func(id string) bool {
		size := job.Size(id)
		return size != nil && (size.Kind == trade.Diameter || size.Kind == trade.Radius)
	}
	if slices.ContainsFunc(reading.That.Names(), round) {
		return true
	}
	return slices.ContainsFunc(reading.Of, func(arg trade.Arg) bool {
		role := method.Role(arg.Role)
		return role >= 0 && !method.Roles[role].Piece && round(arg.ID)
	})
}

// misstated lists the ways in which a size known beforehand, a piece's size or
// a relation's plain value may have been written wrong.
func (a *account) misstated() []slip {
	stated, round, set := a.stated()
	if !stated.Given() {
		return nil
	}
	w := written{number: stated, scale: stated.Unit(), round: round}
	var list []slip
	for _, m := range w.misreadings() {
		right, ok := m.correct(stated)
		if ok && a.within(right.Inside()-a.said) {
			list = append(list, a.explained(m.kind, m.text, m.part, a.restated(right.Inside()), func(job *trade.Job) { set(job, right) }))
		}
	}
	return list
}

func (a *account) restated(value float64) []Correction {
	return []Correction{{Source: a.source, Dimension: a.dimension, WouldBe: [2]float64{value}}}
}

// stated returns what the culprit states, whether it is of a round, and how to
// state it otherwise.
func (a *account) stated() (value unit.Quantity, round bool, set func(*trade.Job, unit.Quantity)) {
	id := a.source.ID
	switch a.source.Kind {
	case adjust.FromPiece:
		piece := a.r.Job.Piece(id)
		return piece.Size, gauge.PieceOf(piece.Kind).Round(), func(job *trade.Job, q unit.Quantity) { job.Piece(id).Size = q }
	case adjust.FromKnown:
		size := a.r.Job.Size(id)
		round := size.Kind == trade.Diameter || size.Kind == trade.Radius
		return size.Known.Value, round, func(job *trade.Job, q unit.Quantity) { job.Size(id).Known.Value = q }
	case adjust.FromRelation:
		index := a.source.Index
		return literalOf(a.r.Job, index), true, func(job *trade.Job, q unit.Quantity) { restate(job, index, q) }
	}
	return unit.Quantity{}, false, nil
}

// literalOf returns the right side of a relation where it is a plain value, a
// quantity not given where it is more.
func literalOf(job *trade.Job, index int) unit.Quantity {
	relation := job.Relations[index]
	if q, err := unit.ParseLength(relation.Is.Text, job.Units); err == nil {
		return q
	}
	if q, err := unit.ParseAngle(relation.Is.Text); err == nil {
		return q
	}
	return unit.Quantity{}
}

// restate has a relation equal another plain value of the same sort.
func restate(job *trade.Job, index int, q unit.Quantity) {
	relation := &job.Relations[index]
	is, err := job.Equal(q.String(), relation.That)
	if err != nil {
		panic("blunder: a value that was written otherwise cannot be read: " + err.Error())
	}
	relation.Is = is
}
