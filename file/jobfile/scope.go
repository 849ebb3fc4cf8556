package jobfile

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// scope is what a formula may name.
type scope uint8

const (
	ofTheJob  scope = iota // sizes and gauge pieces
	ofThePart              // these, and sizes of the part as part.ID
	asMade                 // these, and the diameters of its threads as part.ID.effective
)

// partPrefix stands before the id of a size of the part outside of it.
const partPrefix = "part."

// named returns what the thing of a name measures, whether that is sure, and
// whether there is such a thing in scope. A thread counts by its diameter.
func (r *register) named(name string, s scope) (d unit.Dimension, sure, known bool) {
	if id, ofPart := strings.CutPrefix(name, partPrefix); ofPart && s != ofTheJob {
		i, there := r.madeNamed(id, s)
		if !there {
			return d, false, false
		}
		d, sure = r.dimensionMade(i)
		return d, sure, true
	}
	o, there := r.owners[name]
	if !there || o.thing != aSize && o.thing != aPiece {
		return d, false, false
	}
	d, sure = r.dimensionOf(o)
	return d, sure, true
}

// madeNamed returns the index of the size of the part with this name: its id, of a
// thread that was made also with that of another of its diameters.
func (r *register) madeNamed(name string, s scope) (index int, there bool) {
	id, diameter, dotted := strings.Cut(name, ".")
	i, there := r.made[id]
	if !there || !dotted {
		return i, there
	}
	thread := s == asMade && r.job.Part.Sizes[i].From == trade.IsThread
	return i, thread && (diameter == trade.EffectiveDiameter || diameter == trade.MinorDiameter)
}

// dimensionMade returns what the size of the part with this index measures,
// false for one whose kind or origin is wrong.
func (r *register) dimensionMade(i int) (unit.Dimension, bool) {
	size := &r.job.Part.Sizes[i]
	return size.Kind.Dimension(), size.Kind != "" || size.From == trade.IsThread
}

// madeIDs returns the ids of the sizes of the part, as long as guesses are made
// among them.
func (r *register) madeIDs() []string {
	if !r.guesses() {
		return nil
	}
	var ids []string
	for id := range r.made {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// madeNames returns the same as they are written outside of the part, with all
// diameters of the threads.
func (r *register) madeNames() []string {
	var names []string
	for _, id := range r.madeIDs() {
		names = append(names, partPrefix+id)
		if r.job.Part.Sizes[r.made[id]].From == trade.IsThread {
			names = append(names, partPrefix+id+"."+trade.EffectiveDiameter, partPrefix+id+"."+trade.MinorDiameter)
		}
	}
	return names
}
