package jobfile

import (
	"slices"
	"unicode"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var wearWords = words([]trade.Wear{trade.NoWear, trade.LightWear, trade.HeavyWear})

// sizeReader reads the sizes that are sought.
type sizeReader struct{ *values }

// readSizes reads the sizes that are sought.
func (r sizeReader) readSizes(f fields) {
	for _, entry := range f.entries("sizes") {
		s := f.item("sizes", entry.Value, describe("size", entry.Key))
		size := trade.Size{
			ID:      entry.Key.Text,
			Kind:    trade.SizeKind(s.text("kind")),
			Surface: trade.Surface(s.text("surface")),
			Meant:   s.text("meant"),
			Say:     s.text("say"),
			Pos:     entry.Key.Pos,
		}
		if size.Kind != "" {
			r.readFigures(s, &size)
		}
		r.claim(entry.Key, aSize, len(r.job.Sizes))
		r.job.Sizes = append(r.job.Sizes, size)
	}
}

// readFigures reads what is stated of a size in figures, all of which are in
// the dimension of its kind.
func (r sizeReader) readFigures(s fields, size *trade.Size) {
	read, spread := r.kindReader(size.Kind), r.measure(size.Kind.Dimension())
	sign := anySign
	if size.Kind.MustBePositive() {
		sign = positive
	}
	r.readWear(s, size, spread)
	size.Form = s.quantityIn("form", spread)
	size.Make = s.quantityIn("make", spread)
	size.Guess = s.quantityWithin("guess", read, sign)
	size.Known = trade.Prior{
		Value:  s.quantityWithin("known", read, sign),
		Within: s.quantityIn("within", spread),
		U:      s.quantityIn("u", spread),
		Pos:    s.at("known").Pos,
	}
}

// readWear reads a degree of wear or the typical loss.
func (r sizeReader) readWear(s fields, size *trade.Size, read quantityReader) {
	s.holds("wear")
	if !s.has("wear") {
		return
	}
	text := r.text(s.at("wear"), s.about("wear"))
	switch {
	case text == "":
	case slices.Contains(wearWords, text):
		size.Wear = trade.Wear(text)
	case unicode.IsLetter([]rune(text)[0]):
		r.unknown(s.at("wear"), s.what, "wear", append(wearWords, "a length"))
	default:
		size.Wear = trade.TypicalWear
		size.TypicalWear = r.quantity(s.at("wear"), s.about("wear"), read, positive)
	}
}

// kindReader returns the reader of values of sizes of a kind.
func (r sizeReader) kindReader(kind trade.SizeKind) quantityReader {
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
func (r *register) dimensionOf(o owner) (unit.Dimension, bool) {
	if o.thing == aPiece {
		return unit.Length, true
	}
	kind := r.job.Sizes[o.index].Kind
	return kind.Dimension(), kind != ""
}
