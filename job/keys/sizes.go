package keys

import "codeberg.org/oddleg/oddleg/job/trade"

func size() *Entry {
	wear := either(word(words([]trade.Wear{trade.NoWear, trade.LightWear, trade.HeavyWear})...), above0(OfKind))
	return &Entry{
		Name: "sizes", Each: "a size that is sought",
		Says: "Each size has an id, by which readings, relations and the part speak of it.",
		Keys: []Key{
			{
				Name: "kind", Holds: word(words(trade.SizeKinds)...), Required: true, Example: "diameter",
				Says: "What sort of size it is.",
			},
			{
				Name: "surface", Holds: word(words(trade.Surfaces)...), Default: "none", Example: "outside",
				Says: "Which way wear changes it: an outside gets smaller, an inside larger.",
			},
			{
				Name: "wear", Holds: wear, Default: "not said", Example: "light",
				Says: "How far it seems worn, in a word or as the typical loss.",
			},
			{
				Name: "form", Holds: notNegative(OfKind), Default: "none", Example: "0.05 mm",
				Says: "How far it may be out of round, bell-mouthed or wavy, ±.",
			},
			{
				Name: "make", Holds: notNegative(OfKind), Default: "0.03 mm", Example: "0.02 mm",
				Says: "How closely its first maker worked.",
			},
			{
				Name: "guess", Holds: anySign(OfKind), Default: "found by itself", Example: "5 deg",
				Says: "About what it is, to start the search from; no result leans on it.",
			},
			{
				Name: "known", Holds: anySign(OfKind), Example: "1 1/4 in",
				Says: "A value known beforehand: exact unless within or u say how closely.",
			},
			{
				Name: "within", Holds: above0(OfKind), Default: "exact", Example: "0.02 mm",
				Says: "The known value is right within this, ±.",
			},
			{
				Name: "u", Holds: above0(OfKind), Default: "exact", Example: "0.01 mm",
				Says: "Or the known value has this standard uncertainty.",
			},
			{
				Name: "meant", Holds: anySign(Text), Example: "1 1/8 in",
				Says: "What you decided the drawing once said.",
			},
			say("where it is"),
		},
		Exclusive: [][2]string{{"within", "u"}},
		Rules: []Rule{
			{Without: []string{"known"}, Refuses: []string{"within", "u"}, Why: `it stands beside "known"`},
		},
		Example: sizesExample,
	}
}

func relation() *Entry {
	return &Entry{
		Name: "relations", Each: "what ties sizes together",
		Says: "Two expressions that are equal, exactly unless within or u say how closely.",
		Keys: []Key{
			{
				Name: "that", Holds: anySign(Formula), Required: true, Example: "taper - socket",
				Says: "The one side, over sizes and gauge pieces.",
			},
			{
				Name: "is", Holds: anySign(Formula), Required: true, Example: "0 deg",
				Says: "The other side, of the same dimension.",
			},
			{
				Name: "within", Holds: above0(OfKind), Default: "exact", Example: "0.1 deg",
				Says: "They are equal within this, ±.",
			},
			{
				Name: "u", Holds: above0(OfKind), Default: "exact", Example: "0.05 deg",
				Says: "Or equal with this standard uncertainty.",
			},
			say("how it is known"),
		},
		Exclusive: [][2]string{{"within", "u"}},
		Example:   relationsExample,
	}
}

func plan() *Entry {
	return &Entry{
		Name: "plans", Each: "a set of holes",
		Says: "The first hole is the origin, and the second lies on the x axis.",
		Keys: []Key{
			{
				Name: "holes", Holds: list(Holds{Kind: ID, Of: "hole"}).from(2, 0), Required: true,
				Example: "[h1, h2, h3]",
				Says:    "The ids of the holes, two at least.",
			},
			{
				Name: "guess", Holds: byID("hole", anySign(Pair)), Default: "found by itself",
				Example: "{h3: [36, 37]}",
				Says:    "About where some lie: it settles which of two mirror images is meant.",
			},
		},
		Example: "plans:\n  plate: {holes: [h1, h2, h3], guess: {h3: [36, 37]}}\n",
	}
}

func place() *Entry {
	return &Entry{
		Name: "places", Each: "a circle or line that was touched",
		Says: "What a stylus touched while a digital readout showed where it stood.",
		Keys: []Key{
			{
				Name: "kind", Holds: word(words(trade.PlaceKinds)...), Required: true, Example: "circle",
				Says: "Circle or line.",
			},
			{
				Name: "diameter", Holds: Holds{Kind: Bound, Of: "a size"}, Example: "guide",
				Says: "Diameter of the circle: a size that is sought, or a value.",
			},
			{
				Name: "guess", Holds: anySign(PairOfKind), Default: "found by itself", Example: "[0, 0]",
				Says: "About where it is: [x, y] of a circle's centre; [β, p] of a line x·cos β + y·sin β = p.",
			},
			say("where it is"),
		},
		Cases: []Case{
			{Key: "kind", Words: []string{string(trade.Circle)}, Needs: []string{"diameter"}},
			{
				Key: "kind", Words: []string{string(trade.Line)},
				Refuses: []Refusal{{Keys: []string{"diameter"}, Why: "a line has none"}},
			},
		},
		Example: placesExample,
	}
}

// MostStarts is the largest number of starts a thread may have.
const MostStarts = 24

func thread() *Entry {
	return &Entry{
		Name: "threads", Each: "the sizes of one thread",
		Says: "Which of the sizes are those of one thread; what cannot be read is left out.",
		Keys: []Key{
			{Name: "major", Holds: reference("a size"), Example: "crest", Says: "Diameter over the crests."},
			{
				Name: "pitch", Holds: reference("a size"), Required: true, Example: "pitch",
				Says: "From crest to crest.",
			},
			{
				Name: "effective", Holds: reference("a size"), Example: "flank",
				Says: "Effective diameter, where thread and space are equally wide.",
			},
			{Name: "minor", Holds: reference("a size"), Example: "root", Says: "Diameter over the roots."},
			{Name: "angle", Holds: reference("a size"), Example: "angle", Says: "Angle between the flanks."},
			{
				Name: "surface", Holds: word(string(trade.Outside), string(trade.Inside)),
				Default: "as its sizes say", Example: "outside",
				Says: "Outside for a screw, inside for a nut.",
			},
			{
				Name: "hand", Holds: word(words(trade.Hands)...), Default: "right", Example: "left",
				Says: "Right hand or left.",
			},
			{
				Name: "starts", Holds: whole(1, MostStarts), Default: "1", Example: "2",
				Says: "How many starts it has.",
			},
			{Name: "meant", Holds: anySign(Text), Example: "7/16 BSW", Says: "Which thread you decided it once was."},
		},
		Example: "threads:\n  tail: {major: crest, minor: root, pitch: pitch, angle: angle, surface: outside,\n" +
			"         hand: right, starts: 1, meant: 7/16 BSW}\n",
	}
}
