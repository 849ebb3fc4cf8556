package keys

import "codeberg.org/oddleg/oddleg/job/trade"

// The most that is believed of a machine.
const (
	MostGears     = 60 // change gears, or circles of holes: every train and pair of them is tried
	LeastTeeth    = 6
	MostTeeth     = 1000
	MostTableTurn = 1000 // turns of the handle for one of a rotary table
	MostRatio     = 10_000
	mostClearance = 200
)

func machinery() *Entry {
	teeth := list(whole(LeastTeeth, MostTeeth)).from(0, MostGears)
	return &Entry{
		Name: "shop", Each: "a machine of the shop",
		Says: "What is used to make the part, not the machine that is being mended.",
		Keys: []Key{
			{
				Name: "kind", Holds: word(words(trade.MachineKinds)...), Required: true, Example: "lathe",
				Says: "What sort of machine it is.",
			},
			{
				Name: "speeds", Holds: list(above0(Number)), Example: "[35, 60, 105]",
				Says: "Speeds of its spindle, in turns a minute.",
			},
			{Name: "leadscrew", Holds: above0(Pitch), Example: "8 tpi", Says: "Pitch of a lathe's leadscrew."},
			{
				Name: "fixed-ratio", Holds: above0(Ratio), Default: "1/1", Example: "1/2",
				Says: "Turns of the first stud for one of the spindle.",
			},
			{
				Name: "gearbox", Holds: list(above0(Ratio)), Default: "none", Example: "[1/2, 1/1, 2/1]",
				Says: "Turns of the leadscrew for one of the gearbox's input, each it can be set to.",
			},
			{
				Name: "gears", Holds: teeth, Example: "[20, 25, 30, 127]",
				Says: "Change gears at hand, by their teeth; one written twice is there twice.",
			},
			{
				Name:  "gear-clearance",
				Holds: above0(Number).upTo(mostClearance, "it is counted in teeth, at most 200"), Default: "15",
				Example: "12",
				Says:    "Teeth that two gears in mesh must have over the one beside, so that its stud clears.",
			},
			{
				Name: "dials", Holds: byName("slide", mapping(dial())), Example: "{cross: {division: 0.001 in}}",
				Says: "Dials, by the slide that each moves.",
			},
			{
				Name: "travels", Holds: byName("slide", above0(Length)), Example: "{x: 400 mm}",
				Says: "How far each slide goes.",
			},
			{
				Name: "readout", Holds: anySign(YesNo), Default: "no", Example: "yes",
				Says: "Whether it has a digital readout.",
			},
			{
				Name: "rotary-table", Holds: mapping(rotaryTable()), Default: "none",
				Example: "{ratio: 40, plates: [15, 16, 17]}",
				Says:    "A rotary table or dividing head that goes with it.",
			},
			{
				Name: "cutters", Holds: byID("cutter", mapping(cutter())), Default: "none",
				Example: "{em12: {kind: end-mill, diameter: 12 mm}}",
				Says:    "Cutters, drills and reamers at hand.",
			},
			length("saw-kerf", "How wide a saw cuts.").otherwise("2 mm"),
			say("what else is to be known of it"),
		},
		Cases: []Case{{
			Key: "kind", Words: words(trade.MachineKinds[1:]),
			Refuses: []Refusal{{
				Keys: []string{"leadscrew", "fixed-ratio", "gearbox", "gears", "gear-clearance"},
				Why:  "only a lathe cuts threads by change gears",
			}},
		}},
		Example: shopExample,
	}
}

func dial() *Entry {
	return &Entry{
		Name: "shop.dials", Each: "a dial", Says: "What the graduated collar of a slide counts.",
		Keys: []Key{
			{
				Name: "division", Holds: above0(Length), Required: true, Example: "0.001 in",
				Says: "What one division moves.",
			},
			{Name: "turn", Holds: above0(Length), Example: "0.1 in", Says: "What one turn of the handle moves."},
			{
				Name: "reads", Holds: word(string(trade.ReadsDiameter), string(trade.ReadsRadius)),
				Example: "diameter",
				Says:    "Whether a cross slide's dial counts on the diameter or the radius.",
			},
		},
	}
}

func rotaryTable() *Entry {
	return &Entry{
		Name: "shop.rotary-table", Each: "a rotary table or dividing head", Says: "How it divides a circle.",
		Keys: []Key{
			{
				Name: "ratio", Holds: whole(1, MostTableTurn), Required: true, Example: "40",
				Says: "Turns of the handle for one of the table.",
			},
			{
				Name: "plates", Holds: list(whole(2, MostTeeth)).from(0, MostGears), Example: "[15, 16, 17]",
				Says: "Holes in the circles of its plates.",
			},
			{
				Name: "divisions", Holds: whole(1, MostTeeth), Default: "none", Example: "60",
				Says: "Divisions of the handle's dial in one turn.",
			},
			{
				Name: "gears", Holds: list(whole(LeastTeeth, MostTeeth)).from(0, MostGears), Example: "[24, 28, 32]",
				Says: "Gears for differential dividing.",
			},
		},
	}
}

func cutter() *Entry {
	return &Entry{
		Name: "shop.cutters", Each: "a cutter", Says: "A milling cutter, drill, reamer or tap at hand.",
		Keys: []Key{
			{
				Name:     "kind",
				Holds:    word(words(trade.CutterKinds)...),
				Required: true, Example: "end-mill",
				Says: "What it is.",
			},
			{Name: "diameter", Holds: above0(Length), Required: true, Example: "12 mm", Says: "Its diameter."},
			{Name: "teeth", Holds: whole(1, MostTeeth), Example: "4", Says: "How many teeth it has."},
			{
				Name: "material", Holds: word(words(trade.ToolMaterials)...), Default: "not said", Example: "carbide",
				Says: "What it is made of.",
			},
		},
	}
}
