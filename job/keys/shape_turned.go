package keys

import "codeberg.org/oddleg/oddleg/job/trade"

// turnedName begins the names of what a turned part has.
var turnedName = shapeName(trade.TurnedPart)

func turned() *Entry {
	under, round := undercut(), groove()
	outside, bore := step(turnedName+".steps", under, round, true), step(turnedName+".bore", under, round, false)
	return &Entry{
		Name: turnedName, Each: "the shape of a turned part",
		Says: "Lengths of one diameter, taper, thread, hexagon or square along one axis, listed from the left end.",
		Keys: []Key{
			{
				Name: "steps", Holds: list(mapping(outside)).from(1, 0), Required: true,
				Example: "[{diameter: shank, length: 40 mm}]",
				Says:    "The outside, from the left end to the right.",
			},
			{
				Name: "bore", Holds: list(mapping(bore)), Default: "none", Example: "[{diameter: 8 mm}]",
				Says: "The inside, from the left end inwards; the last may go right through.",
			},
			{
				Name: "right-bore", Holds: list(mapping(bore)), Default: "none",
				Example: "[{diameter: 8 mm, length: 10 mm}]",
				Says:    "The inside, from the right end inwards.",
			},
			{
				Name: "cross-holes", Holds: list(mapping(crossHole())), Default: "none",
				Example: "[{at: 20 mm, diameter: 4 mm}]",
				Says:    "Holes through the axis, square to it.",
			},
			{
				Name: "flats", Holds: list(mapping(flat())), Default: "none",
				Example: "[{from: 2 mm, length: 8 mm, across: 14 mm}]",
				Says:    "Flats milled on it.",
			},
			measure("left-centre", "Centre hole in the left end, by the diameter of its pilot.").otherwise("none"),
			measure("right-centre", "The same in the right end.").otherwise("none"),
		},
		Example: example("kind: turned", "    shank: {kind: diameter, goes-in: guide, clearance: 0.01..0.04 mm}\n"+
			"    screw: {thread: 7/16 BSW}\n") + `  shape:
    steps:
      - {hexagon: 24 mm, length: 6 mm, chamfer: 1 mm}
      - {square: 16 mm, length: 10 mm, fillet: 0.5 mm}
      - {diameter: shank, length: 40 mm, grooves: [{at: 5 mm, width: 2 mm, diameter: 17 mm}], knurled: no, ra: 0.8,
         undercut: {width: 2 mm, depth: 0.3 mm}}
      - {diameter: 16 mm, to: 14 mm, length: 12 mm, say: the taper}
      - {thread: screw, length: 16 mm, chamfer: 1 mm}
    bore:
      - {thread: screw, length: 10 mm, chamfer: 0.5 mm, undercut: {width: 2 mm, depth: 0.3 mm}}
      - {diameter: 9 mm, length: 8 mm, fillet: 0.3 mm, grooves: [{at: 2 mm, width: 1 mm, diameter: 10 mm}],
         knurled: no, ra: 1.6, say: for the spring}
      - {diameter: 8 mm, to: 6 mm, length: 5 mm}
    right-bore: [{hexagon: 6 mm, length: 6 mm}, {square: 4 mm, length: 4 mm}]
    cross-holes: [{at: 30 mm, diameter: 4 mm, depth: 6 mm}]
    flats: [{from: 20 mm, length: 8 mm, across: 15 mm}, {from: 20 mm, length: 8 mm, height: 8 mm}]
    right-centre: 2 mm
    left-centre: 2 mm
`,
	}
}

// step describes a length of a turned part. Outside each has a length; inside the
// last may go right through.
func step(name string, under, round *Entry, outside bool) *Entry {
	length := measure("length", "Length along the axis.")
	if outside {
		length = length.wanted()
	}
	return &Entry{
		Name: name, Each: "a step",
		Says: "Just one of diameter, hexagon, square and thread says what it is.",
		Keys: []Key{
			measure("diameter", "Diameter of a round step, of a taper at its nearer end."),
			measure("hexagon", "Width across the flats of a hexagon."),
			measure("square", "Width across the flats of a square."), threadKey("The thread that it is."),
			measure("to", "Of a taper: the diameter at its further end."), length,
			chamfer("each free edge"),
			measure("fillet", "Radius in the corner to the next larger step.").otherwise("sharp"),
			{
				Name: "undercut", Holds: mapping(under), Default: "none", Example: "{width: 2 mm, depth: 0.3 mm}",
				Says: "A relief at the end where it meets a larger step, or at the end of a thread.",
			},
			{
				Name: "grooves", Holds: list(mapping(round)), Default: "none",
				Example: "[{at: 5 mm, width: 2 mm, diameter: 17 mm}]",
				Says:    "Grooves round it.",
			},
			{
				Name: "knurled", Holds: word("yes", "no"), Default: "no", Example: "yes",
				Says: "Whether it is knurled.",
			},
			{
				Name: "ra", Holds: above0(Number), Default: "as the rest of the part", Example: "0.8",
				Says: "Surface texture Ra that is wanted, in micrometres.",
			},
			say("what it is for"),
		},
		OneOf: [][]string{{"diameter", "hexagon", "square", "thread"}},
		Rules: []Rule{
			{Without: []string{"diameter"}, Refuses: []string{"to"}, Why: `a taper runs from "diameter" to it`},
		},
	}
}

func undercut() *Entry {
	return &Entry{
		Name: turnedName + ".steps.undercut", Each: "an undercut",
		Says: "So wide along the axis, and so deep below the step.",
		Keys: []Key{
			measure("width", "Width along the axis.").wanted(), measure("depth", "Depth below the step.").wanted(),
		},
	}
}

func groove() *Entry {
	return &Entry{
		Name: turnedName + ".steps.grooves", Each: "a groove", Says: "It runs round the step.",
		Keys: []Key{
			measure("at", "From where the step begins to the groove's nearer edge.").notBelow0().wanted(),
			measure("width", "Width along the axis.").wanted(), measure("diameter", "Diameter at its bottom.").wanted(),
		},
	}
}

func crossHole() *Entry {
	return &Entry{
		Name: turnedName + ".cross-holes", Each: "a cross hole", Says: "It goes through the axis, square to it.",
		Keys: []Key{
			measure("at", "How far from the left end.").wanted(), measure("diameter", "Diameter."),
			threadKey("Or the thread in it."),
			measure("depth", "Depth.").otherwise("right through"),
		},
		OneOf: [][]string{{"diameter", "thread"}},
	}
}

func flat() *Entry {
	return &Entry{
		Name: turnedName + ".flats", Each: "a flat",
		Says: "One at a height above the axis, or two with a width across them.",
		Keys: []Key{
			measure("from", "Where it begins, from the left end.").notBelow0().wanted(),
			measure("length", "Length along the axis.").wanted(),
			measure("across", "Width across two flats."),
			measure("height", "Height of one flat above the axis.").notBelow0(),
		},
		OneOf: [][]string{{"across", "height"}},
	}
}
