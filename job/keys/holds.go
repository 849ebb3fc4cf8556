package keys

import (
	"fmt"
	"slices"
	"strings"
)

// Kind is what sort of thing a key holds.
type Kind uint8

// The kinds. What is written in units may stand as a bare number where the file's
// units say what it is.
const (
	Text Kind = iota
	Word
	FormatVersion
	YesNo
	Whole
	Date
	Count // how many: a whole number above 0
	Side  // 1 or -1
	Length
	Angle
	IncludedAngle // from flank to flank; a taper counts double
	PlainAngle    // an angle that is no taper
	Direction     // such an angle, from the x axis
	Pitch
	Number
	Force
	Torque
	Temperature
	Chance
	Friction
	Ratio
	LengthRange
	NumberRange
	FrictionRange
	OfKind    // a quantity in the dimension that another key gives it
	ID        // by which it is called elsewhere
	Reference // the id of something
	Formula
	Measure      // a length, or the id of a size of the part
	AngleMeasure // the same of an angle
	IncludedMeasure
	Place      // [x, y] of such lengths
	Pair       // two lengths
	PairOfKind // two quantities of which the kind of the place says what they are
	Bound      // a length, or the id of a gauge piece or size
	Thread
	Material
	Fit
	ToleranceClass
	Mapping
	List
	Map
	Either
	Anything // a mapping whose keys depend on another key that is missing or wrong
)

// Sign is what sign a quantity may have.
type Sign uint8

// The signs.
const (
	AnySign Sign = iota
	NotNegative
	Positive
)

// Holds is what stands under a key.
type Holds struct {
	Kind        Kind
	Sign        Sign
	Among       []string // of words
	Least, Most int      // of a whole number, or of how many there are; Most 0: no end
	Top         float64  // the largest that a quantity may be, in its own unit; 0: no end
	Why         string   // that it may be no larger
	Of          string   // what an id is of, or what the keys of a map are
	Unlisted    bool     // of a list: one value may stand for a list of one
	OrNone      bool     // an empty mapping is as good as none
	Named       bool     // of a map: its keys are no ids
	Item        *Holds   // of a list or map
	Entry       *Entry   // of a mapping
	Others      []Holds  // one of which it is
}

// entries returns the mappings that may stand there.
func (h Holds) entries() []*Entry {
	var found []*Entry
	if h.Entry != nil {
		found = append(found, h.Entry)
	}
	if h.Item != nil {
		found = append(found, h.Item.entries()...)
	}
	for _, other := range h.Others {
		found = append(found, other.entries()...)
	}
	return found
}

// IsQuantity reports whether it is one value with a dimension of its own.
func (h Holds) IsQuantity() bool { return h.Kind >= Length && h.Kind <= Ratio }

// told says of each kind what it is, in words, in what or how it is written, and what
// may stand in its place.
var told = map[Kind]struct{ phrase, unit, or string }{
	Text:            {"a text", "", ""},
	FormatVersion:   {Version, "", ""},
	YesNo:           {"yes or no", "", ""},
	Date:            {"a date", "year-month-day", ""},
	Side:            {"1 or -1", "", ""},
	Length:          {"a length", "mm or in", ""},
	Angle:           {"an angle", "degrees", ""},
	IncludedAngle:   {"an included angle", "degrees, or a taper", ""},
	PlainAngle:      {"an angle", "degrees", ""},
	Direction:       {"a direction", "degrees from the x axis", ""},
	Pitch:           {"a pitch", "mm, in or tpi", ""},
	Number:          {"a number", "", ""},
	Force:           {"a force", "N, kN or lbf", ""},
	Torque:          {"a torque", "N m, N mm, lbf ft or lbf in", ""},
	Temperature:     {"a temperature", "°C", ""},
	Chance:          {"a chance", "0.99 or 99 %", ""},
	Friction:        {"a coefficient of friction", "", ""},
	Ratio:           {"a ratio", "1/2 or 1.5", ""},
	LengthRange:     {"a range of lengths", "mm or in", ""},
	NumberRange:     {"a range of numbers", "", ""},
	FrictionRange:   {"a range of coefficients of friction", "", ""},
	OfKind:          {"a length, angle or number", "as its kind is", ""},
	ID:              {"an id", "", ""},
	Formula:         {"an expression", "", ""},
	Measure:         {"a length", "mm or in", ", or a size of the part"},
	AngleMeasure:    {"an angle", "degrees", ", or a size of the part"},
	IncludedMeasure: {"an included angle", "degrees", ", or a size of the part"},
	Place:           {"a place [x, y]", "mm or in", ""},
	Pair:            {"two lengths [x, y]", "mm or in", ""},
	PairOfKind:      {"two values", "", ""},
	Thread:          {"a thread by its name", "", ""},
	Material:        {"a material", "", ""},
	Fit:             {"a fit", "", ""},
	ToleranceClass:  {"a tolerance class", "", ""},
	Anything:        {"a mapping", "", ""},
}

// Unit returns the unit or manner in which it is written, empty where there is
// none.
func (h Holds) Unit() string { return told[h.Kind].unit }

// String says what stands there, in a phrase: "a length above 0 (mm or in)".
func (h Holds) String() string {
	switch h.Kind {
	case Word:
		if len(h.Among) == 1 {
			return h.Among[0]
		}
		return "one of " + strings.Join(h.Among, ", ")
	case Whole, Count:
		return fmt.Sprintf("a whole number from %d to %d", h.Least, h.Most)
	case Reference:
		return "the id of " + h.Of
	case Bound:
		return "a length above 0, or the id of " + h.Of
	case Mapping:
		return h.Entry.phrase()
	case List, Map, Either:
		return h.several()
	}
	return told[h.Kind].phrase + h.extent()
}

// extent says how large a quantity may be and in what it is written.
func (h Holds) extent() string {
	phrase := [...]string{"", ", not negative", " above 0"}[h.Sign]
	if h.Top > 0 {
		phrase += fmt.Sprintf(" up to %.4g", h.Top)
	}
	if unit := h.Unit(); unit != "" {
		phrase += " (" + unit + ")"
	}
	return phrase + told[h.Kind].or
}

// several says what a list, a map or a choice holds.
func (h Holds) several() string {
	switch h.Kind {
	case List:
		if h.Unlisted {
			return h.Item.String() + ", or a list of such"
		}
		return "a list, each " + h.Item.String()
	case Map:
		return "by " + h.Of + ": " + h.Item.String()
	}
	var phrases []string
	for _, other := range h.Others {
		phrases = append(phrases, other.String())
	}
	return strings.Join(phrases, "; or ")
}

// phrase names the entry where it stands within another.
func (e *Entry) phrase() string {
	if e.Name == "" {
		return "a mapping of " + strings.Join(e.Names(), ", ")
	}
	return e.Each + " {…}, see " + e.Name
}

// What follows makes the tables short to write.

func word(among ...string) Holds { return Holds{Kind: Word, Among: among} }

func whole(least, most int) Holds { return Holds{Kind: Whole, Least: least, Most: most} }

func above0(k Kind) Holds { return Holds{Kind: k, Sign: Positive} }

func notNegative(k Kind) Holds { return Holds{Kind: k, Sign: NotNegative} }

func anySign(k Kind) Holds { return Holds{Kind: k} }

func reference(of string) Holds { return Holds{Kind: Reference, Of: of} }

func mapping(e *Entry) Holds { return Holds{Kind: Mapping, Entry: e} }

func list(item Holds) Holds { return Holds{Kind: List, Item: &item} }

func byID(of string, item Holds) Holds { return Holds{Kind: Map, Of: of, Item: &item} }

// byName is a map whose keys are no ids.
func byName(of string, item Holds) Holds { return Holds{Kind: Map, Of: of, Item: &item, Named: true} }

func either(others ...Holds) Holds { return Holds{Kind: Either, Others: others} }

// from returns it with a least and a largest number of items, 0 for no end.
func (h Holds) from(least, most int) Holds {
	h.Least, h.Most = least, most
	return h
}

// orOne returns a list in whose place one value may stand.
func (h Holds) orOne() Holds {
	h.Unlisted = true
	return h
}

// upTo returns a quantity that may be no larger, and why.
func (h Holds) upTo(top float64, why string) Holds {
	h.Top, h.Why = top, why
	return h
}

// words returns words of a named type as plain texts.
func words[T ~string](lists ...[]T) []string {
	var texts []string
	for _, w := range slices.Concat(lists...) {
		texts = append(texts, string(w))
	}
	return texts
}

// Mapping returns the description of the mapping that stands there, or may stand
// there; nil where none may.
func (h Holds) Mapping() *Entry {
	if found := h.entries(); len(found) > 0 && (h.Kind == Mapping || h.Kind == Either) {
		return found[0]
	}
	return nil
}
