package keys

import "codeberg.org/oddleg/oddleg/job/trade"

// MostParts is the largest number of parts of one sort.
const MostParts = 100_000

func part() *Entry {
	e := &Entry{
		Name: "part", Each: "the part that is to be made",
		Says: "Its sizes come from the old part, from what they go into, or from plain values; elsewhere they are " +
			"written part.ID.",
		Keys: []Key{
			{
				Name: "name", Holds: anySign(Text), Default: "the name of the job", Example: "Index plunger",
				Says: "What it is called on drawing and label.",
			},
			{
				Name: "kind", Holds: word(words(trade.PartKinds())...), Required: true, Example: "turned",
				Says: "What sort of part it is.",
			},
			{
				Name: "material", Holds: anySign(Material), Example: "080M40 R",
				Says: "What it is made of: a row of the materials table, as `oddleg material` lists them.",
			},
			{
				Name: "quantity", Holds: whole(1, MostParts), Default: "1", Example: "2",
				Says: "How many to make, spares included.",
			},
			{
				Name: "holds", Holds: above0(Length), Default: "0.02 mm, with a warning", Example: "0.02 mm",
				Says: "How closely this shop works, ±.",
			},
			{
				Name: "chance", Holds: anySign(Chance), Default: "0.99", Example: "99 %",
				Says: "The chance that each size shall have of going together.",
			},
			{Name: "revision", Holds: anySign(Text), Example: "B", Says: "Revision of the drawing."},
			{
				Name: "sizes", Holds: byID("size", mapping(newSize())),
				Says: "The sizes of the new part, and where each comes from.",
			},
			{Name: "stacks", Holds: byID("stack", mapping(stack())), Says: "Chains of sizes whose sum matters."},
			{Name: "mates", Holds: byID("mate", mapping(mate())), Says: "Shapes that go together in the plane."},
			{
				Name: "shape", Holds: anySign(Anything), Example: "{steps: [{diameter: shank, length: 40 mm}]}",
				Says: "Which size is which, by the kind of part.",
			},
		},
		Example: partExample,
	}
	for _, shape := range shapes() {
		e.Cases = append(e.Cases, Case{Key: "kind", Words: []string{string(shape.kind)}, Own: []Key{
			{
				Name: "shape", Holds: Holds{Kind: Mapping, Entry: shape.entry, OrNone: true}, Example: "{…}",
				Says: "Which size is which, by the kind of part.",
			},
		}})
	}
	return e
}

func newSize() *Entry {
	wanted := []string{"clearance", "interference", "fit"}
	meets, plain := []string{"goes-in", "goes-over"}, []string{"copies", "is"}
	return &Entry{
		Name: "part.sizes", Each: "a size of the part",
		Says:      "Just one of goes-in, goes-over, copies, is and thread says where it comes from.",
		Keys:      newSizeKeys(),
		OneOf:     [][]string{{"goes-in", "goes-over", "copies", "is", "thread"}},
		Exclusive: [][2]string{{"within", "tolerance"}},
		Rules: []Rule{
			{
				With:    []string{"thread"},
				Refuses: append([]string{"within", "tolerance", "holds", "chance"}, wanted...),
				Why:     "a thread has the limits of its class",
			},
			{
				Without: []string{"thread"}, Needs: []string{"kind"}, Refuses: []string{"class", "hand"},
				Why: "only a thread has it",
			},
			{
				With: meets, Without: plain, OneOf: wanted, Refuses: []string{"within", "tolerance"},
				Why: `it stands beside "is" or "copies"`,
			},
			{
				With: plain, Without: meets, Refuses: append([]string{"chance"}, wanted...),
				Why: `it stands beside "goes-in" or "goes-over"`,
			},
		},
		Example: example("kind: washer", "") + `  sizes:
    shank: {kind: diameter, goes-in: guide, clearance: 0.01..0.04 mm, holds: 0.01 mm, chance: 0.95, rework: easy}
    ring:  {kind: diameter, goes-over: nose, interference: 0.01..0.03 mm, rework: hard, say: pressed on}
    pilot: {kind: diameter, goes-in: guide, fit: H7/g6}
    nose:  {kind: diameter, surface: outside, copies: nose, within: 0.02 mm}
    seat:  {kind: diameter, surface: outside, is: 20 mm, tolerance: h6}
    screw: {thread: 7/16 BSW, class: medium, hand: left}
`,
	}
}

// newSizeKeys are where a size comes from, and how closely it is held.
func newSizeKeys() []Key {
	return []Key{
		{
			Name: "kind", Holds: word(words(trade.SizeKinds)...), Example: "diameter",
			Says: "What sort of size it is; a thread needs none.",
		},
		{
			Name: "surface", Holds: word(words(trade.Surfaces)...), Default: "as it meets its mate",
			Example: "outside",
			Says:    "Whether it is an outside or an inside.",
		},
		{
			Name: "goes-in", Holds: anySign(Formula), Example: "guide",
			Says: "What it enters, as an expression over sizes of the job.",
		},
		{Name: "goes-over", Holds: anySign(Formula), Example: "pin", Says: "What it takes in."},
		{Name: "copies", Holds: anySign(Formula), Example: "nose", Says: "The old size that it is to be again."},
		{Name: "is", Holds: anySign(Formula), Example: "62 mm", Says: "A value of its own."},
		{
			Name: "thread", Holds: anySign(Thread), Example: "7/16 BSW",
			Says: "It is a thread of a standard series.",
		},
		{
			Name: "clearance", Holds: anySign(LengthRange), Example: "0.01..0.04 mm",
			Says: "How much play it shall have in its mate, on the diameter for diameters.",
		},
		{
			Name: "interference", Holds: notNegative(LengthRange), Example: "0.01..0.03 mm",
			Says: "How much too large it shall be for its mate.",
		},
		{Name: "fit", Holds: anySign(Fit), Example: "H7/g6", Says: "Or a named fit."},
		{Name: "within", Holds: above0(OfKind), Example: "0.2 mm", Says: "Tolerance about a value or a copy, ±."},
		{Name: "tolerance", Holds: anySign(ToleranceClass), Example: "h6", Says: "Or a tolerance class on it."},
		{
			Name: "holds", Holds: above0(OfKind), Default: "as the part says", Example: "0.01 mm",
			Says: "How closely this shop works here, ±.",
		},
		{
			Name: "chance", Holds: anySign(Chance), Default: "as the part says", Example: "0.95",
			Says: "The chance of going together that is wanted here.",
		},
		{
			Name: "rework", Holds: word(words(trade.Reworks)...), Default: "not said", Example: "easy",
			Says: "Whether it can be eased once the part has been tried.",
		},
		{
			Name: "class", Holds: anySign(Text), Default: "the usual one", Example: "medium",
			Says: "Tolerance class of a thread.",
		},
		{
			Name: "hand", Holds: word(words(trade.Hands)...), Default: "right", Example: "left",
			Says: "Hand of a thread.",
		},
		say("what it is for"),
	}
}

// example returns a whole job of the sizes that most examples speak of and a part
// that begins so.
func example(partHead, sizes string) string {
	text := "oddleg: 1\njob: example\nunits: mm\nsizes:\n  guide: {kind: diameter, surface: inside, known: 19 mm}\n" +
		"  nose: {kind: diameter, surface: outside, known: 12.7 mm}\npart:\n  " + partHead + "\n"
	if sizes != "" {
		text += "  sizes:\n" + sizes
	}
	return text
}

func stack() *Entry {
	return &Entry{
		Name: "part.stacks", Each: "a chain of sizes",
		Says: "The sum is simulated, and compared with the range that is wanted.",
		Keys: []Key{
			{
				Name: "that", Holds: anySign(Formula), Required: true, Example: "part.body + 16 mm",
				Says: "The sum, over sizes of the job and of the part.",
			},
			{
				Name: "wanted", Holds: anySign(LengthRange), Example: "61..63 mm",
				Says: "The range that it should end in.",
			},
			say("why it matters"),
		},
		Example: example("kind: washer", "    body: {kind: length, is: 46 mm, within: 0.2 mm}\n") +
			"  stacks:\n    whole: {that: part.body + 16 mm, wanted: 61..63 mm, say: it must clear the lid}\n",
	}
}

func mate() *Entry {
	e := &Entry{
		Name: "part.mates", Each: "two shapes that go together",
		Says: "Whether they go together, how far they rattle, and whether the part passes the opening on its way.",
		Keys: []Key{
			{
				Name: "pair", Holds: word(pairs(trade.Pairs)...), Required: true, Example: "key-in-keyway",
				Says: "Which shapes they are.",
			},
			{
				Name: "of", Holds: anySign(Anything), Required: true, Example: "{width: part.width}",
				Says: "An expression in each role of the pair; in the role plan the id of a plan.",
			},
			{
				Name: "entry", Holds: mapping(entry()), Example: "{kind: round-hole, of: {diameter: 20 mm}}",
				Says: "The opening that the part must pass to get to its place.",
			},
			say("where it is"),
		},
		Cases: pairCases("pair", trade.Pairs),
		Example: example("kind: key", "    width: {kind: width, is: 6 mm, within: 0.02 mm}\n"+
			"    height: {kind: height, is: 6 mm, within: 0.05 mm}\n") + `  mates:
    key:
      pair: key-in-keyway
      of: {width: part.width, height: part.height, shaft-width: 6.03 mm, shaft-depth: 3.5 mm,
           hub-width: 6.05 mm, hub-depth: 2.8 mm}
      entry: {kind: slot, of: {width: 7 mm, length: 40 mm, height: part.height}}
      say: the old key was sheared
`,
	}
	return e
}

func entry() *Entry {
	return &Entry{
		Name: "part.mates.entry", Each: "an opening",
		Says: "The part is offered to it flat, and where its height is known on its side and on end too.",
		Keys: []Key{
			{
				Name: "kind", Holds: word(pairs(trade.Openings)...), Required: true, Example: "round-hole",
				Says: "What sort of opening it is.",
			},
			{
				Name: "of", Holds: anySign(Anything), Required: true, Example: "{diameter: 20 mm}",
				Says: "An expression in each of its roles.",
			},
		},
		Cases: pairCases("kind", trade.Openings),
	}
}

// pairs returns the words of pairs.
func pairs(list []trade.Pair) []string {
	var ids []string
	for _, p := range list {
		ids = append(ids, string(p.ID))
	}
	return ids
}

// pairCases returns what each pair wants under `of`.
func pairCases(key string, list []trade.Pair) []Case {
	var cases []Case
	for _, p := range list {
		e := &Entry{Each: p.Title, Says: p.Title + "."}
		for _, role := range p.Roles {
			holds := anySign(Formula)
			if role.Plan {
				holds = reference("a plan")
			}
			e.Keys = append(e.Keys, Key{Name: role.Name, Holds: holds, Required: !role.Optional, Says: role.Say})
		}
		cases = append(cases, Case{Key: key, Words: []string{string(p.ID)}, Own: []Key{
			{
				Name: "of", Holds: mapping(e), Required: true, Example: "{…}",
				Says: "An expression in each role of the pair.",
			},
		}})
	}
	return cases
}
