package jobfile

import (
	"slices"
	"unicode"

	"oddleg"
	"oddleg/unit"
)

var sizeKeys = []string{"kind", "surface", "wear", "form", "make", "guess", "known", "within", "u", "meant", "say"}

var wearWords = words([]oddleg.Wear{oddleg.NoWear, oddleg.LightWear, oddleg.HeavyWear})

// readSizes reads the sizes that are sought.
func (r *reader) readSizes(f fields) {
	for _, entry := range f.entries("sizes") {
		s := r.fields(entry.value, describe("size", entry.key), sizeKeys...)
		s.need("kind")
		size := oddleg.Size{
			ID:      entry.key.text,
			Kind:    oddleg.SizeKind(s.word("kind", words(oddleg.SizeKinds))),
			Surface: oddleg.Surface(s.word("surface", words(oddleg.Surfaces))),
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
func (r *reader) readFigures(s fields, size *oddleg.Size) {
	read, spread := r.kindReader(size.Kind), r.measure(size.Kind.Dimension())
	sign := anySign
	if size.Kind.MustBePositive() {
		sign = positive
	}
	r.readWear(s, size, spread)
	size.Form = s.quantity("form", spread, notNegative)
	size.Make = s.quantity("make", spread, notNegative)
	size.Guess = s.quantity("guess", read, sign)
	size.Known = oddleg.Prior{
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
func (r *reader) readWear(s fields, size *oddleg.Size, read quantityReader) {
	text := s.text("wear")
	switch {
	case text == "":
	case slices.Contains(wearWords, text):
		size.Wear = oddleg.Wear(text)
	case unicode.IsLetter([]rune(text)[0]):
		r.unknown(s.at("wear"), s.what, "wear", append(wearWords, "a length"))
	default:
		size.Wear = oddleg.TypicalWear
		size.TypicalWear = s.quantity("wear", read, positive)
	}
}

// kindReader returns the reader of values of sizes of a kind.
func (r *reader) kindReader(kind oddleg.SizeKind) quantityReader {
	switch kind {
	case oddleg.Pitch:
		return r.pitch
	case oddleg.Angle:
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
