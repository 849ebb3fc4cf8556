package sound

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/near"
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

// String returns the thing with its article.
func (t thing) String() string {
	if t == anInstrument || t == anOperation {
		return "an " + string(t)
	}
	return "a " + string(t)
}

// owner is the thing that has an id: its index in the job's list of such things
// (a hole has that of its plan) and where it was written.
type owner struct {
	thing thing
	index int
	pos   trade.Pos
}

// claimAll gives their ids to all that share them: kit, sizes, plans, holes and
// places. It comes first, for what names them may stand anywhere.
func (c *check) claimAll() {
	for i, x := range c.job.Instruments {
		c.claim(x.ID, anInstrument, i, x.Pos)
	}
	for i, x := range c.job.Pieces {
		c.claim(x.ID, aPiece, i, x.Pos)
	}
	for i, x := range c.job.Sizes {
		c.claim(x.ID, aSize, i, x.Pos)
	}
	for i, x := range c.job.Plans {
		c.claim(x.ID, aPlan, i, x.Pos)
		for _, hole := range x.Holes {
			c.claim(hole, aHole, i, x.Pos)
		}
	}
	for i, x := range c.job.Places {
		c.claim(x.ID, aPlace, i, x.Pos)
	}
}

// claim gives an id to a thing.
func (c *check) claim(id string, t thing, index int, pos trade.Pos) {
	if !c.isID(id, t, pos) {
		return
	}
	if first, taken := c.owners[id]; taken {
		c.fault(pos, "the id %s stands here a second time; the first, of %s, is %s", quote(id), first.thing,
			there(first.pos))
		return
	}
	c.owners[id] = owner{t, index, pos}
}

// among are the ids of things that have theirs among their like alone.
type among map[string]trade.Pos

// claim gives an id to a thing among its like.
func (a among) claim(c *check, id string, t thing, pos trade.Pos) {
	if !c.isID(id, t, pos) {
		return
	}
	if first, taken := a[id]; taken {
		c.fault(pos, "the %s %s stands here a second time; the first is %s", string(t), quote(id), there(first))
		return
	}
	a[id] = pos
}

// claimNumbered does so for a thing that may go by its number: "joint 2".
func (a among) claimNumbered(c *check, id string, t thing, index int, pos trade.Pos) {
	if id != numbered(string(t), index) {
		a.claim(c, id, t, pos)
	}
}

// there says where the first of two is.
func there(pos trade.Pos) string {
	if pos.Line == 0 {
		return "before it"
	}
	return fmt.Sprintf("at %d:%d", pos.Line, pos.Column)
}

// isID reports whether a text may be an id, with a fault if not.
func (c *check) isID(id string, t thing, pos trade.Pos) bool {
	switch {
	case id == "":
		c.fault(pos, "%s has no id", t)
	case !keys.IsID(id):
		c.fault(pos, "%s is no id of %s: a letter first, then letters, digits and _", quote(id), t)
	case keys.IsReserved(id):
		c.fault(pos, "%s cannot be the id of %s: it is the name of a unit, function or constant", quote(id), t)
	default:
		return true
	}
	return false
}

// owner returns what has the id, which must be one of these things.
func (c *check) owner(id, about string, pos trade.Pos, things ...thing) (owner, bool) {
	found, known := c.owners[id]
	switch {
	case !known:
		c.unknown(id, about, eitherWord(things), pos, c.ids(things...))
	case !slices.Contains(things, found.thing):
		c.fault(pos, "%s: %s is %s where the id of %s should be", about, quote(id), found.thing, either(things))
	default:
		return found, true
	}
	return owner{}, false
}

// either returns the things as one phrase, with their articles.
func either(things []thing) string {
	phrase := things[0].String()
	for _, t := range things[1:] {
		phrase += " or " + t.String()
	}
	return phrase
}

// eitherWord returns them without.
func eitherWord(things []thing) string {
	words := make([]string, len(things))
	for i, t := range things {
		words[i] = string(t)
	}
	return strings.Join(words, " or ")
}

// ids returns all ids of these things.
func (c *check) ids(things ...thing) []string {
	var ids []string
	for id, o := range c.owners {
		if slices.Contains(things, o.thing) {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	return ids
}

// The most unknown words of a job that get a guess at what they should have been,
// each being compared with all that there are; and the most that a fault lists.
const (
	mostGuesses = 100
	mostListed  = 20
)

// unknown adds a fault for a word that is none of those known.
func (c *check) unknown(word, about, what string, pos trade.Pos, known []string) {
	likely, found := "", false
	if len(c.faults) < mostGuesses {
		likely, found = near.Word(word, known)
	}
	switch {
	case found:
		c.fault(pos, "%s: unknown %s %s; did you mean %s?", about, what, quote(word), quote(likely))
	case len(known) > 0 && len(known) <= mostListed:
		c.fault(pos, "%s: unknown %s %s; it can be %s", about, what, quote(word), strings.Join(known, ", "))
	default:
		c.fault(pos, "%s: unknown %s %s", about, what, quote(word))
	}
}

// longestQuoted is how much of a text a fault repeats.
const longestQuoted = 40

func quote(text string) string {
	if utf8.RuneCountInString(text) > longestQuoted {
		text = string([]rune(text)[:longestQuoted]) + "…"
	}
	return fmt.Sprintf("%q", text)
}

// describe names an entry by its id for faults, numbered an item of a list by its
// place.
func describe(what, id string) string { return what + " " + quote(id) }

func numbered(what string, index int) string { return fmt.Sprintf("%s %d", what, index+1) }

// called names what has an id of its own, or goes by its number.
func called(t thing, id string, index int) string {
	if id == numbered(string(t), index) {
		return id
	}
	return describe(string(t), id)
}

// words returns words of a named type as plain texts.
func words[T ~string](list []T) []string {
	texts := make([]string, len(list))
	for i, w := range list {
		texts[i] = string(w)
	}
	return texts
}
