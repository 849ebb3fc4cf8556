package jobfile

import (
	"regexp"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
)

// idPattern is what an id looks like.
var idPattern = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_]*$`)

// isReserved reports whether a word means itself in an expression or a value.
func isReserved(word string) bool { return expr.Reserved(word) || word == "ft" }

// thing is what an id can name.
type thing string

const (
	anInstrument thing = "instrument"
	aPiece       thing = "piece"
	aSize        thing = "size"
	aPlan        thing = "plan"
	aHole        thing = "hole"
	aPlace       thing = "place"
	aReading     thing = "reading"
	aThread      thing = "thread"
	aPartSize    thing = "size of the part"
	aStack       thing = "stack"
	aMate        thing = "mate"
	aJoint       thing = "joint"
	aSheared     thing = "sheared piece"
	aMachine     thing = "machine"
	aCutter      thing = "cutter"
	anOperation  thing = "operation"
	aContact     thing = "contact"
	aSurvey      thing = "survey"
)

// owner is the thing that has an id: its index in the job's list of such things
// (a hole has that of its plan) and where it was written.
type owner struct {
	thing thing
	index int
	pos   trade.Pos
}

// String returns the thing with its article.
func (t thing) String() string {
	if t == anInstrument || t == anOperation {
		return "an " + string(t)
	}
	return "a " + string(t)
}

// register knows what has an id, and the job as far as it has been read.
type register struct {
	*complaints
	job      *trade.Job
	owners   map[string]owner     // what has an id, by the id
	readings map[string]trade.Pos // where a reading's id was written
	made     map[string]int       // index of a size of the part, by its id
}

// claim gives an id to a thing. Kit, sizes, plans, holes and places share their
// ids.
func (r *register) claim(id node, t thing, index int) {
	if !r.checkID(id, t) {
		return
	}
	if first, taken := r.owners[id.text]; taken {
		r.fault(id, "the id %s stands here a second time; the first, of %s, is at %d:%d",
			quote(id.text), first.thing, first.pos.Line, first.pos.Column)
		return
	}
	r.owners[id.text] = owner{t, index, id.pos}
}

// claimReading gives an id to a reading; readings have theirs among themselves.
func (r *register) claimReading(id node) {
	if !r.checkID(id, aReading) {
		return
	}
	if first, taken := r.readings[id.text]; taken {
		r.fault(id, "the reading %s stands here a second time; the first is at %d:%d", quote(id.text), first.Line, first.Column)
		return
	}
	r.readings[id.text] = id.pos
}

// checkID reports whether a text may be an id, with a fault if not.
func (r *register) checkID(id node, t thing) bool {
	switch {
	case id.shape != scalar:
		r.fault(id, "found %s where the id of %s should be", id.found(), t)
	case !idPattern.MatchString(id.text):
		r.fault(id, "%s is no id of %s: a letter first, then letters, digits and _", quote(id.text), t)
	case isReserved(id.text):
		r.fault(id, "%s cannot be the id of %s: it is the name of a unit, function or constant", quote(id.text), t)
	default:
		return true
	}
	return false
}

// owner returns what has the id written in n, which must be one of these
// things.
func (r *register) owner(n node, about string, things ...thing) (owner, bool) {
	found, there := r.owners[n.text]
	switch {
	case !there:
		r.unknown(n, about, strings.Join(words(things), " or "), r.ids(things...))
	case !slices.Contains(things, found.thing):
		r.fault(n, "%s: %s is %s where the id of %s should be", about, quote(n.text), found.thing, either(things))
	default:
		return found, true
	}
	return owner{}, false
}

// either returns the things as one phrase.
func either(things []thing) string {
	phrase := things[0].String()
	for _, t := range things[1:] {
		phrase += " or " + t.String()
	}
	return phrase
}

// ids returns all ids of these things, as long as guesses are made among them.
func (r *register) ids(things ...thing) []string {
	if !r.guesses() {
		return nil
	}
	var ids []string
	for id, o := range r.owners {
		if slices.Contains(things, o.thing) {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	return ids
}

// claimAmong gives an id to a thing that has it among its like alone.
func (r *register) claimAmong(taken map[string]trade.Pos, id node, t thing) {
	if !r.checkID(id, t) {
		return
	}
	if first, there := taken[id.text]; there {
		r.fault(id, "the %s %s stands here a second time; the first is at %d:%d", string(t), quote(id.text), first.Line, first.Column)
		return
	}
	taken[id.text] = id.pos
}
