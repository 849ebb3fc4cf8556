package jobfile

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
)

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
func (r *register) claim(id yamltree.Node, t thing, index int) {
	if !r.checkID(id, t) {
		return
	}
	if first, taken := r.owners[id.Text]; taken {
		r.fault(id, "the id %s stands here a second time; the first, of %s, is at %d:%d",
			yamltree.Quote(id.Text), first.thing, first.pos.Line, first.pos.Column)
		return
	}
	r.owners[id.Text] = owner{t, index, id.Pos}
}

// claimReading gives an id to a reading; readings have theirs among themselves.
func (r *register) claimReading(id yamltree.Node) {
	if !r.checkID(id, aReading) {
		return
	}
	if first, taken := r.readings[id.Text]; taken {
		r.fault(id, "the reading %s stands here a second time; the first is at %d:%d", yamltree.Quote(id.Text), first.Line, first.Column)
		return
	}
	r.readings[id.Text] = id.Pos
}

// checkID reports whether a text may be an id, with a fault if not.
func (r *register) checkID(id yamltree.Node, t thing) bool {
	switch {
	case id.Shape != yamltree.Scalar:
		r.fault(id, "found %s where the id of %s should be", id.Found(), t)
	case !keys.IsID(id.Text):
		r.fault(id, "%s is no id of %s: a letter first, then letters, digits and _", yamltree.Quote(id.Text), t)
	case keys.IsReserved(id.Text):
		r.fault(id, "%s cannot be the id of %s: it is the name of a unit, function or constant", yamltree.Quote(id.Text), t)
	default:
		return true
	}
	return false
}

// owner returns what has the id written in n, which must be one of these
// things.
func (r *register) owner(n yamltree.Node, about string, things ...thing) (owner, bool) {
	found, there := r.owners[n.Text]
	switch {
	case !there:
		r.unknown(n, about, strings.Join(words(things), " or "), r.ids(things...))
	case !slices.Contains(things, found.thing):
		r.fault(n, "%s: %s is %s where the id of %s should be", about, yamltree.Quote(n.Text), found.thing, either(things))
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
func (r *register) claimAmong(taken map[string]trade.Pos, id yamltree.Node, t thing) {
	if !r.checkID(id, t) {
		return
	}
	if first, there := taken[id.Text]; there {
		r.fault(id, "the %s %s stands here a second time; the first is at %d:%d", string(t), yamltree.Quote(id.Text), first.Line, first.Column)
		return
	}
	taken[id.Text] = id.Pos
}
