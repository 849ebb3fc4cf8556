package keys

import "codeberg.org/oddleg/oddleg/job/trade"

// measure is a key for a length of the shape: a size of the part or a value.
func measure(name, says string) Key {
	return Key{Name: name, Holds: above0(Measure), Example: "12 mm", Says: says}
}

// wanted returns a key as one that must be there.
func (k Key) wanted() Key {
	k.Required = true
	return k
}

// otherwise returns a key that may be left out, with what counts then.
func (k Key) otherwise(counts string) Key {
	k.Default = counts
	return k
}

// notBelow0 returns a key whose length may be 0.
func (k Key) notBelow0() Key {
	k.Holds.Sign = NotNegative
	return k
}

// threadKey is a key for the id of a thread of the part.
func threadKey(says string) Key {
	return Key{Name: "thread", Holds: reference("a thread of the part"), Example: "screw", Says: says}
}

// at is a key for a place of the shape.
func at(name, says string) Key {
	return Key{Name: name, Holds: anySign(Place), Example: "[20, 15]", Says: says}
}

// chamfer is a key for how far edges are broken.
func chamfer(what string) Key {
	return measure("chamfer", "How far "+what+" is broken at 45°, by its length.").otherwise("none")
}

// shape is what the key shape of a kind of part holds.
type shape struct {
	kind  trade.PartKind
	entry *Entry
}

// shapes returns the shape of every kind of part that has one.
func shapes() []shape {
	recess := counterbore()
	bored, holes := boredHole(recess), holeShape(recess)
	return []shape{
		{trade.TurnedPart, turned()},
		{trade.SectorShoe, shoe(bored)},
		{trade.PlatePart, plate(holes)},
		{trade.NutPart, nut()},
		{trade.BushPart, bush()},
		{trade.KeyPart, keyShape()},
		{trade.GibPart, gib(holes)},
		{trade.WasherPart, washer()},
	}
}

// shapeName names the shape of a kind of part.
func shapeName(kind trade.PartKind) string { return "part.shape." + string(kind) }

func shoe(hole *Entry) *Entry {
	return &Entry{
		Name: shapeName(trade.SectorShoe), Each: "the shape of a sector shoe",
		Says: "A piece of a ring with its radii and angle, or a block with straight sides.",
		Keys: []Key{
			measure("outer", "Outer radius of a sector."), measure("inner", "Its inner radius."),
			{
				Name: "angle", Holds: Holds{Kind: IncludedMeasure, Sign: Positive}, Example: "30 deg",
				Says: "Included angle of a sector, at the centre of its groove.",
			},
			measure("width", "Of straight sides: across the groove."),
			measure("length", "Of straight sides: the chord over its ends."),
			measure("height", "Height.").wanted(),
			{
				Name: "stem", Holds: mapping(stem()), Default: "none", Example: "{diameter: 8 mm, length: 20 mm}",
				Says: "A stem or stud that stands on it.",
			},
			{
				Name: "hole", Holds: mapping(hole), Default: "none", Example: "{diameter: 6 mm}",
				Says: "A hole in it, its place counted from the middle of the shoe.",
			},
			chamfer("each edge"),
		},
		Rules: []Rule{
			{
				Without: []string{"outer", "inner", "angle", "width", "length"},
				Lacks:   ": write outer, inner and angle of a sector, or width and length of straight sides",
			},
			{
				With: []string{"outer", "inner", "angle"}, Needs: []string{"outer", "inner", "angle"},
				Refuses: []string{"width", "length"}, Why: "it is of straight sides, which have no radii",
			},
			{
				With: []string{"width", "length"}, Without: []string{"outer", "inner", "angle"},
				Needs: []string{"width", "length"},
			},
		},
		Example: example("kind: sector-shoe", "    high: {kind: height, is: 9 mm, within: 0.05 mm}\n") +
			"  shape: {outer: 60 mm, inner: 48 mm, angle: 30 deg, height: high, chamfer: 0.5 mm,\n" +
			"    stem: {diameter: 8 mm, length: 20 mm, offset: 1 mm}, hole: {at: [0, 0], diameter: 3 mm,\n" +
			"      depth: 4 mm, countersink: 4 mm, counterbore: {diameter: 5 mm, depth: 1 mm}, say: for a pin}}\n",
	}
}

func stem() *Entry {
	return &Entry{
		Name: shapeName(trade.SectorShoe) + ".stem", Each: "the stem of a shoe",
		Says: "Round, or a thread.",
		Keys: []Key{
			measure("diameter", "Diameter of a round stem."), threadKey("Or the thread that it is."),
			measure("length", "How far it stands out.").wanted(),
			{
				Name: "offset", Holds: anySign(Measure), Default: "0", Example: "1 mm",
				Says: "How far from the middle of the shoe, outwards.",
			},
		},
		OneOf: [][]string{{"diameter", "thread"}},
	}
}

func nut() *Entry {
	return &Entry{
		Name: shapeName(trade.NutPart), Each: "the shape of a nut",
		Says: "Hexagonal, square or round.",
		Keys: []Key{
			measure("hexagon", "Width across the flats of a hexagon."),
			measure("square", "Width across the flats of a square."),
			measure("round", "Diameter of a round nut."), measure("height", "Height.").wanted(),
			threadKey("Its thread.").wanted(), chamfer("each mouth of the thread"),
			measure("tommies", "Diameter of cross holes for a bar.").otherwise("none"),
		},
		OneOf: [][]string{{"hexagon", "square", "round"}},
		Example: example("kind: nut", "    screw: {thread: M10, class: medium}\n") +
			"  shape: {square: 18 mm, height: 12 mm, thread: screw, chamfer: 0.5 mm}\n",
		Also: example("kind: nut", "    screw: {thread: M10, class: medium}\n") +
			"  shape: {round: 20 mm, height: 12 mm, thread: screw, tommies: 5 mm}\n",
	}
}

func bush() *Entry {
	flange := []string{"flange", "flange-width"}
	return &Entry{
		Name: shapeName(trade.BushPart), Each: "the shape of a bush",
		Says: "Plain, or with a flange at its left end.",
		Keys: []Key{
			measure("outside", "Outside diameter.").wanted(), measure("inside", "Diameter of the bore.").wanted(),
			measure("length", "Length over all.").wanted(),
			measure("flange", "Diameter of the flange.").otherwise("none"),
			measure("flange-width", "How thick the flange is."), chamfer("each edge"),
		},
		Rules: []Rule{{With: flange, Needs: flange}},
		Example: example("kind: bush", "    bore: {kind: diameter, goes-over: nose, clearance: 0.02..0.05 mm}\n") +
			"  shape: {outside: 20 mm, inside: bore, length: 25 mm,\n" +
			"    flange: 28 mm, flange-width: 4 mm, chamfer: 0.5 mm}\n",
	}
}

func keyShape() *Entry {
	return &Entry{
		Name: shapeName(trade.KeyPart), Each: "the shape of a parallel key",
		Says: "Its ends are square or round.",
		Keys: []Key{
			measure("width", "Width.").wanted(), measure("height", "Height.").wanted(),
			measure("length", "Length over all.").wanted(),
			{
				Name: "ends", Holds: word("round", "square"), Default: "square", Example: "round",
				Says: "What its ends look like from above.",
			},
			chamfer("each long edge"),
		},
		Example: example("kind: key", "    width: {kind: width, is: 6 mm, within: 0.02 mm}\n") +
			"  shape: {width: width, height: 6 mm, length: 30 mm, ends: round, chamfer: 0.3 mm}\n",
	}
}

func gib(hole *Entry) *Entry {
	return &Entry{
		Name: shapeName(trade.GibPart), Each: "the shape of a gib",
		Says: "Parallel, or tapered over its length.",
		Keys: []Key{
			measure("length", "Length.").wanted(), measure("width", "Width across the flank.").wanted(),
			measure("thick", "Thickness, at the thick end of a taper.").wanted(),
			measure("thin", "Thickness at the thin end.").otherwise("parallel"),
			{
				Name: "angle", Holds: Holds{Kind: AngleMeasure, Sign: Positive}, Default: "square edges",
				Example: "55 deg",
				Says:    "Angle of the dovetail.",
			},
			{
				Name: "holes", Holds: list(mapping(hole)), Default: "none",
				Example: "[{at: [20, 8], diameter: 5 mm}]",
				Says:    "Holes in it.",
			},
		},
		Example: example("kind: gib", "    long: {kind: length, is: 180 mm, within: 0.5 mm}\n") +
			"  shape: {length: long, width: 18 mm, thick: 6 mm, thin: 5 mm, angle: 55 deg,\n" +
			"    holes: [{at: [30, 9], diameter: 5 mm, depth: 2 mm}]}\n",
	}
}

func washer() *Entry {
	return &Entry{
		Name: shapeName(trade.WasherPart), Each: "the shape of a washer",
		Says: "A flat ring.",
		Keys: []Key{
			measure("outside", "Outside diameter.").wanted(), measure("inside", "Diameter of the hole.").wanted(),
			measure("thickness", "Thickness.").wanted(), chamfer("each outside edge"),
		},
		Example: example("kind: washer", "    hole: {kind: diameter, goes-over: nose, clearance: 0.2..0.5 mm}\n") +
			"  shape: {outside: 24 mm, inside: hole, thickness: 3 mm, chamfer: 0.5 mm}\n",
	}
}
