package keys

import "codeberg.org/oddleg/oddleg/job/trade"

// plateName begins the names of what a plate has.
var plateName = shapeName(trade.PlatePart)

// MostAround is the largest number of holes in one circle of them.
const MostAround = 360

func plate(hole *Entry) *Entry {
	return &Entry{
		Name: plateName, Each: "the shape of a plate",
		Says: "Its outline is just one of rectangle, disc and outline.",
		Keys: []Key{
			measure("thickness", "Thickness.").wanted(),
			{
				Name: "rectangle", Holds: mapping(rectangle()), Example: "{length: 80 mm, width: 50 mm}",
				Says: "A rectangle, its left lower corner at the origin.",
			},
			measure("disc", "Diameter of a round plate, its centre at the origin."),
			{
				Name: "outline", Holds: list(mapping(corner())),
				Example: "[{at: [0, 0]}, {at: [40, 0]}, {at: [0, 30]}]",
				Says:    "The corners one after the other; the last is joined to the first.",
			},
			{
				Name: "holes", Holds: list(mapping(hole)), Default: "none",
				Example: "[{at: [20, 15], diameter: 6 mm}]",
				Says:    "Holes in it.",
			},
			{
				Name: "slots", Holds: list(mapping(slot())), Default: "none",
				Example: "[{from: [10, 10], to: [30, 10], width: 6 mm}]",
				Says:    "Slots with round ends.",
			},
			{
				Name: "ledges", Holds: list(mapping(ledge())), Default: "none",
				Example: "[{from: [0, 0], to: [20, 50], depth: 2 mm}]",
				Says:    "Rectangles that are milled lower.",
			},
			chamfer("each edge of the outline"),
		},
		OneOf: [][]string{{"rectangle", "disc", "outline"}},
		Example: example("kind: plate", "    eye: {kind: diameter, goes-over: nose, clearance: 0.1..0.3 mm}\n"+
			"    screw: {thread: M6}\n") + `  shape:
    thickness: 8 mm
    rectangle: {length: 80 mm, width: 50 mm, corners: 5 mm, centred: no}
    holes:
      - {at: [20, 15], diameter: eye, counterbore: {diameter: 20 mm, depth: 3 mm}, say: for the nose}
      - {at: [50, 25], circle: 20 mm, count: 4, first: 45 deg, thread: screw, depth: 6 mm}
    slots: [{from: [66, 12], to: [66, 36], width: 6 mm, depth: 3 mm}]
    ledges: [{from: [0, 40], to: [80, 50], depth: 2 mm}]
    chamfer: 0.5 mm
`,
	}
}

func rectangle() *Entry {
	return &Entry{
		Name: plateName + ".rectangle", Each: "a rectangle",
		Says: "Its left lower corner is at the origin, or its centre.",
		Keys: []Key{
			measure("length", "Along x.").wanted(), measure("width", "Along y.").wanted(),
			measure("corners", "Radius of the corners.").otherwise("sharp"),
			{
				Name: "centred", Holds: word("yes", "no"), Default: "no", Example: "yes",
				Says: "Whether the origin is its centre.",
			},
		},
	}
}

func corner() *Entry {
	return &Entry{
		Name: plateName + ".outline", Each: "a corner",
		Says: "The edge that leads here from the corner before is straight, or an arc.",
		Keys: []Key{
			at("at", "Where it is.").wanted(),
			measure("radius", "Radius of the arc that leads here.").otherwise("straight"),
			{
				Name: "turn", Holds: word(string(trade.Anticlockwise), string(trade.Clockwise)),
				Example: "clockwise",
				Says:    "Which way the arc runs, seen from above.",
			},
			measure("round", "Radius in this corner.").otherwise("sharp"), say("what it is"),
		},
		Rules: []Rule{
			{With: []string{"radius"}, Needs: []string{"turn"}},
			{Without: []string{"radius"}, Refuses: []string{"turn"}, Why: `it stands beside "radius"`},
		},
		Example: example("kind: plate", "") +
			"  shape: {thickness: 6 mm, outline: [{at: [0, 0]}, {at: [40, 0], round: 3 mm}, {at: [40, 30]},\n" +
			"    {at: [0, 30], radius: 25 mm, turn: anticlockwise, say: the ear}]}\n",
	}
}

// bored returns what is written of one hole.
func bored(recess *Entry) []Key {
	return []Key{
		at("at", "Where it is."), measure("diameter", "Diameter."), threadKey("Or the thread in it."),
		measure("depth", "Depth.").otherwise("right through"),
		{
			Name: "counterbore", Holds: mapping(recess), Default: "none", Example: "{diameter: 11 mm, depth: 6 mm}",
			Says: "A flat recess round its mouth.",
		},
		measure("countersink", "Diameter of a 90° countersink at its mouth.").otherwise("none"), say("what it is for"),
	}
}

func boredHole(recess *Entry) *Entry {
	return &Entry{
		Name: shapeName(trade.SectorShoe) + ".hole", Each: "the hole of a shoe",
		Says:  "It goes through the height of the shoe.",
		Keys:  bored(recess),
		OneOf: [][]string{{"diameter", "thread"}},
	}
}

func holeShape(recess *Entry) *Entry {
	return &Entry{
		Name: "part.shape.holes", Each: "a hole, a circle of holes, or the holes of a plan",
		Says: "In a plate or a gib. A hole of a plan goes where the old one was found.",
		Keys: append([]Key{
			{
				Name: "plan", Holds: reference("a plan"), Example: "studs",
				Says: "A plan whose holes are drilled where they were found.",
			},
			{
				Name: "of", Holds: list(reference("a hole")), Default: "all", Example: "[h1, h3]",
				Says: "Which of the plan's holes.",
			},
			measure("circle", "Diameter of a circle of holes round the place, or round the one hole of a plan."),
			{Name: "count", Holds: whole(2, MostAround), Example: "6", Says: "How many there are in the circle."},
			{
				Name: "first", Holds: Holds{Kind: AngleMeasure}, Default: "0", Example: "30 deg",
				Says: "Where the first of the circle is, from the x axis.",
			},
		}, bored(recess)...),
		OneOf: [][]string{{"diameter", "thread"}},
		Rules: []Rule{
			{With: []string{"plan"}, Refuses: []string{"at"}, Why: "the plan says where its holes are"},
			{Without: []string{"plan"}, Refuses: []string{"of"}, Why: `it stands beside "plan"`},
			{Without: []string{"plan", "circle"}, Needs: []string{"at"}},
			{With: []string{"circle"}, Needs: []string{"count"}},
			{Without: []string{"circle"}, Refuses: []string{"count", "first"}, Why: `it stands beside "circle"`},
		},
		Example: `oddleg: 1
job: example
plans: {studs: {holes: [h1, h2, h3]}}
part:
  kind: plate
  shape:
    thickness: 6 mm
    disc: 120 mm
    holes:
      - {plan: studs, of: [h1, h3], diameter: 9 mm, countersink: 14 mm}
      - {plan: studs, of: [h2], circle: 20 mm, count: 6, first: 30 deg, diameter: 3 mm}
`,
	}
}

func counterbore() *Entry {
	return &Entry{
		Name: "part.shape.holes.counterbore", Each: "a counterbore", Says: "A flat recess round the mouth of a hole.",
		Keys: []Key{measure("diameter", "Its diameter.").wanted(), measure("depth", "Its depth.").wanted()},
	}
}

func slot() *Entry {
	return &Entry{
		Name: plateName + ".slots", Each: "a slot", Says: "It has round ends and runs from centre to centre.",
		Keys: []Key{
			at("from", "Centre of the one end.").wanted(), at("to", "Centre of the other.").wanted(),
			measure("width", "Width.").wanted(),
			measure("depth", "Depth.").otherwise("right through"),
		},
	}
}

func ledge() *Entry {
	return &Entry{
		Name: plateName + ".ledges", Each: "a ledge", Says: "A rectangle that is milled lower.",
		Keys: []Key{
			at("from", "One corner.").wanted(), at("to", "The corner across from it.").wanted(),
			measure("depth", "How much lower it is.").wanted(),
		},
	}
}
