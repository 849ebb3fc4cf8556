package jobfile

import (
	"slices"
	"unicode"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var sizeKeys = []string{"kind", "surface", "wear", "form", "make", "guess", "known", "within", "u", "meant", "say"}

var wearWords = words([]trade.Wear{trade.NoWear, trade.LightWear, trade.HeavyWear})

// readSizes reads the sizes that are sought.
func (r *reader) readSizes(f fields) {
	for _, entry := range f.entries("sizes") {
		s := r.fields(entry.value, describe("size", entry.key), sizeKeys...)
		s.need("kind")
		size := trade.Size{
			ID:      entry.key.text,
			Kind:    trade.SizeKind(s.word("kind", words(trade.SizeKinds))),
			Surface: trade.Surface(s.word("surface", words(trade.Surfaces))),
			Meant:   s.text("meant"),
			Say:     s.text("say"),
			Pos:     entry.key.pos,
		}
		if size.Kind != "" {
			r.readFigures(s, &size)
		}
		r.claim(entry.key, aSize, len(r.job.Sizes))
		r.job.Sizes = append(r.job.Sizes, size)
	}
}

// readFigures reads what is stated of a size in figures, all of which are in
// the dimension of its kind.
func (r *reader) readFigures(s fields, size *trade.Size) {
	read, spread := r.kindReader(size.Kind), r.measure(size.Kind.Dimension())
	sign := anySign
	if size.Kind.MustBePositive() {
		sign = positive
	}
	r.readWear(s, size, spread)
	size.Form = s.quantity("form", spread, notNegative)
	size.Make = s.quantity("make", spread, notNegative)
	size.Guess = s.quantity("guess", read, sign)
	size.Known = trade.Prior{
		Value:  s.quantity("known", read, sign),
		Within: s.quantity("within", spread, positive),
		U:      s.quantity("u", spread, positive),
		Pos:    s.at("known").pos,
	}
	s.exclusive("within", "u")
	if !s.has("known") {
		s.refuse(`it stands beside "known"`, "within", "u")
	}
}

// readWear reads a degree of wear or the typical loss.
func (r *reader) readWear(s fields, size *trade.Size, read quantityReader) {
	text := s.text("wear")
	switch {
	case text == "":
	case slices.Contains(wearWords, text):
		size.Wear = trade.Wear(text)
	case unicode.IsLetter([]rune(text)[0]):
		r.unknown(s.at("wear"), s.what, "wear", append(wearWords, "a length"))
	default:
		size.Wear = trade.TypicalWear
		size.TypicalWear = s.quantity("wear", read, positive)
	}
}

// kindReader returns the reader of values of sizes of a kind.
func (r *reader) kindReader(kind trade.SizeKind) quantityReader {
	switch kind {
	case trade.Pitch:
		return r.pitch
	case trade.Angle:
		return includedAngle
	}
	return r.measure(kind.Dimension())
}

// dimensionOf returns what the owner of an id measures, false for a size whose
// kind is wrong.
func (r *reader) dimensionOf(o owner) (unit.Dimension, bool) {
	if o.thing == aPiece {
		return unit.Length, true
	}
	kind := r.job.Sizes[o.index].Kind
	return kind.Dimension(), kind != ""
}
