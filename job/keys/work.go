package keys

import "codeberg.org/oddleg/oddleg/job/trade"

// MostContacts is how many places of one piece of work may be touched.
const MostContacts = 24

func operation() *Entry {
	machine := reference("a machine of the shop")
	return &Entry{
		Name: "work", Each: "an operation",
		Says: "What is done, on which machine, and what must be done before.",
		Keys: []Key{
			{
				Name: "id", Holds: Holds{Kind: ID, Of: "operation"}, Default: "operation 1, 2 ...", Example: "turn",
				Says: "By which others can need it.",
			},
			{
				Name: "do", Holds: anySign(Text), Required: true, Example: "turn the shank",
				Says: "What is done, in your words.",
			},
			{Name: "on", Holds: machine, Example: "lathe", Says: "The machine it is done on."},
			{Name: "makes", Holds: word("part"), Example: "part", Says: "The part is made by it."},
			{
				Name: "needs", Holds: list(reference("an operation")), Default: "all that stand before it", Example: "[saw]",
				Says: "What must be done first; [] if nothing.",
			},
			{
				Name: "apart", Holds: machine, Example: "mill",
				Says: "The machine that is taken apart by it, and is not to be had from then on.",
			},
			{Name: "back", Holds: machine, Example: "mill", Says: "The machine that is put together again."},
			{
				Name: "cutter", Holds: reference("a cutter of that machine"), Example: "em12",
				Says: "The cutter that is used.",
			},
			{
				Name: "leave", Holds: notNegative(Length), Default: "0", Example: "0.2 mm",
				Says: "How much is left on for a finishing cut.",
			},
			{
				Name: "centre", Holds: anySign(Pair), Default: "none", Example: "[0, 0]",
				Says: "Where the centre of the rotary table stands, in the coordinates of the part.",
			},
			{
				Name: "datum", Holds: mapping(datum()),
				Example: "{at: [0, 0], edge-finder: 10 mm, sides: [left, front]}",
				Says:    "Where the coordinates are counted from, and how that is found.",
			},
			{
				Name: "hold", Holds: mapping(hold()), Example: "{contacts: {…}}",
				Says: "How the work is held against the cut.",
			},
			say("what to watch"),
		},
		Rules:   []Rule{{Without: []string{"on"}, Refuses: []string{"cutter"}, Why: `it stands beside "on"`}},
		Example: workExample,
	}
}

func datum() *Entry {
	return &Entry{
		Name: "work.datum", Each: "where coordinates are counted from",
		Says: "One edge along x and one along y are touched with an edge finder.",
		Keys: []Key{
			{
				Name: "at", Holds: anySign(Pair), Required: true, Example: "[0, 0]",
				Says: "The point of the part that the readout shall count from.",
			},
			length("edge-finder", "Diameter of the edge finder."),
			{
				Name: "sides", Holds: list(word(words(trade.Sides)...)), Example: "[left, front]",
				Says: "The edges that it touches.",
			},
			{
				Name: "turned", Holds: anySign(Direction), Default: "0", Example: "30 deg",
				Says: "How far the part is turned on the table, anticlockwise.",
			},
		},
		Rules: []Rule{
			{With: []string{"sides"}, Needs: []string{"edge-finder"}},
			{Without: []string{"sides"}, Refuses: []string{"edge-finder"}, Why: `it stands beside "sides"`},
		},
	}
}

func hold() *Entry {
	push := []string{"at", "towards"}
	return &Entry{
		Name: "work.hold", Each: "how the work is held", Says: "Whether it stays where it is when the cutter pushes.",
		Keys: []Key{
			{
				Name: "contacts", Holds: byID("contact", mapping(contact())).from(1, MostContacts), Required: true,
				Example: "{stop: {kind: stop, at: [0, 10], towards: 0 deg}}",
				Says:    "Where the work is touched.",
			},
			{Name: "force", Holds: above0(Force), Example: "500 N", Says: "Cutting force."},
			{Name: "at", Holds: anySign(Pair), Example: "[30, 15]", Says: "Where the cutter pushes."},
			{Name: "towards", Holds: anySign(Direction), Example: "90 deg", Says: "Which way it pushes the work."},
			{
				Name: "friction", Holds: friction(Friction), Default: "0.1", Example: "0.12",
				Says: "Coefficient of friction at the contacts.",
			},
		},
		Rules: []Rule{
			{With: []string{"force"}, Needs: push},
			{Without: []string{"force"}, Refuses: push, Why: `it stands beside "force"`},
		},
	}
}

func contact() *Entry {
	notJaw := Refusal{Keys: []string{"width"}, Why: "only a jaw has it"}
	notClamp := Refusal{Keys: []string{"bolt", "heel"}, Why: "only a strap clamp has it"}
	pressesDown := Refusal{Keys: []string{"towards", "width"}, Why: "a strap clamp presses down on the work"}
	still := Refusal{Keys: []string{"clamping"}, Why: "it stands still and pushes back as much as it must"}
	needs := func(k trade.ContactKind, keys []string, refuses ...Refusal) Case {
		return Case{Key: "kind", Words: []string{string(k)}, Needs: keys, Refuses: refuses}
	}
	return &Entry{
		Name: "work.hold.contacts", Each: "a place where the work is touched",
		Says: "A stop, a jaw, a screw, a strap clamp, or the wall of a bore round the work.",
		Keys: []Key{
			{
				Name: "kind", Holds: word(words(trade.ContactKinds)...), Required: true, Example: "jaw",
				Says: "What touches it.",
			},
			{Name: "at", Holds: anySign(Pair), Required: true, Example: "[0, 10]", Says: "Where."},
			{Name: "towards", Holds: anySign(Direction), Example: "0 deg", Says: "Which way it can push the work."},
			length("width", "Width of a jaw."),
			{
				Name: "clamping", Holds: above0(Force), Example: "4 kN",
				Says: "Force of a screw, of a jaw that moves, or of a clamp's bolt.",
			},
			length("bolt", "From a strap clamp's toe to its bolt."),
			length("heel", "From its toe to the packing at its heel."),
		},
		Cases: []Case{
			needs(trade.ClampContact, []string{"clamping", "bolt", "heel"}, pressesDown),
			needs(trade.JawContact, []string{"width", "towards"}, notClamp),
			needs(trade.ScrewContact, []string{"clamping", "towards"}, notJaw, notClamp),
			needs(trade.StopContact, []string{"towards"}, notJaw, still, notClamp),
			needs(trade.WallContact, []string{"towards"}, notJaw, still, notClamp),
		},
	}
}
