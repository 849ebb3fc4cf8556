package keys

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// MostFriction is the largest coefficient of friction of metal on metal that is
// believed.
const MostFriction = 1

// length is a key for a plain length above 0.
func length(name, says string) Key {
	return Key{Name: name, Holds: above0(Length), Example: "20 mm", Says: says}
}

// shownAs returns a key with another example.
func (k Key) shownAs(example string) Key {
	k.Example = example
	return k
}

// material is a key for a row of the materials table.
func material(name, says string) Key {
	return Key{Name: name, Holds: anySign(Material), Example: "EN8 condition Q", Says: says}
}

// friction returns a coefficient of friction, or a range of such.
func friction(k Kind) Holds {
	return above0(k).upTo(MostFriction, fmt.Sprintf("a coefficient of friction is at most %d", MostFriction))
}

func joint() *Entry {
	side := either(reference("a thread of the part"), mapping(member()))
	beside := []string{"into", "head", "tighten", "spanner"}
	return &Entry{
		Name: "joints", Each: "a joint",
		Says: "What it can carry, what gives way first, and how hard to tighten it. It has a stud, pieces that are " +
			"sheared, or a press fit, or several of these.",
		Keys: []Key{
			{
				Name: "id", Holds: Holds{Kind: ID, Of: "joint"}, Default: "joint 1, 2 ...", Example: "knob",
				Says: "By which it is called.",
			},
			{
				Name: "stud", Holds: side, Example: "part.screw",
				Says: "The screw: a thread of the part, or what is known of it.",
			},
			{
				Name: "into", Holds: side, Example: "{thread: 7/16 BSW, length: 9 mm, material: CZ121}",
				Says: "The tapped hole or nut that it goes into.",
			},
			{
				Name: "head", Holds: mapping(head()), Example: "{kind: head, height: 7 mm}",
				Says: "What the stud pulls by.",
			},
			{
				Name: "sheared", Holds: list(mapping(sheared())), Example: "[{id: pin, kind: pin, diameter: 5 mm}]",
				Says: "Pins and keys that the load shears or crushes.",
			},
			{
				Name: "press", Holds: mapping(press()), Example: "{diameter: 30 mm, …}",
				Says: "Two rings that hold by interference.",
			},
			{
				Name: "tighten", Holds: mapping(tighten()), Default: "by hand, with the spanner",
				Example: "{torque: 25 N m}",
				Says:    "How it is tightened.",
			},
			{Name: "service", Holds: above0(Force), Example: "2000 N", Says: "The load that it carries in use."},
			length("spanner", "Length of the spanner at hand.").otherwise("12 times the width across flats and 20 mm"),
			{
				Name: "holds", Holds: word(words(trade.Duties)...), Example: "lifting",
				Says: "What depends on it, for the caution that it needs.",
			},
			{
				Name: "fuse", Holds: reference("a piece of the joint"), Example: "nut",
				Says: "What is meant to give way first: stud, nut, head, or the id of a sheared piece.",
			},
			say("where it is"),
		},
		Rules: []Rule{
			{
				Without: []string{"stud", "sheared", "press"},
				Lacks:   " holds nothing together; write its stud, sheared or press",
			},
			{With: []string{"stud"}, Needs: []string{"into"}},
			{Without: []string{"stud"}, Refuses: beside, Why: `it stands beside "stud"`},
		},
		Example: jointsExample,
	}
}

func member() *Entry {
	return &Entry{
		Name: "joints.stud", Each: "one side of a screwed joint",
		Says: "What is known of the stud, and under into of what it is screwed into.",
		Keys: []Key{
			{Name: "thread", Holds: anySign(Thread), Example: "7/16 BSW", Says: "Its thread, by its name."},
			{
				Name: "of", Holds: reference("a thread of the part"), Example: "part.screw",
				Says: "Or the thread of the part that it is.",
			},
			{
				Name: "class", Holds: anySign(Text), Default: "the usual one", Example: "medium",
				Says: "Tolerance class of the thread.",
			},
			material("material", "What it is made of."),
			{
				Name: "grade", Holds: anySign(Text), Example: `"8.8"`,
				Says: "Or the property class stamped on a bolt or nut.",
			},
			length("length", "Length of thread in engagement."),
			{
				Name:    "around",
				Holds:   above0(Angle).upTo(2*math.Pi, "a thread goes at most all the way round, 360 deg"),
				Default: "all the way", Example: "300 deg",
				Says: "How far round the thread goes, where a slot or a flat cuts it.",
			},
			length("outside", "Diameter, or width across flats, round the hole."),
			length("section", "Thickness of the bar it is cut from, for the strength of its steel."),
		},
		OneOf:     [][]string{{"thread", "of"}},
		Exclusive: [][2]string{{"material", "grade"}},
	}
}

func head() *Entry {
	return &Entry{
		Name: "joints.head", Each: "what a stud pulls by", Says: "A head, or a tee in a slot.",
		Keys: []Key{
			{Name: "kind", Holds: word(words(trade.HeadKinds)...), Required: true, Example: "tee", Says: "A head or a tee."},
			{
				Name: "height", Holds: above0(Length), Required: true, Example: "6 mm",
				Says: "Height of the head, thickness of the tee.",
			},
			length("across", "Width across flats of a head, length over a tee."), length("width", "Width of a tee."),
			length("slot", "Opening of the slot that a tee bridges."),
			material("material", "What it is made of.").otherwise("that of the stud"),
		},
		Cases: []Case{{
			Key: "kind", Words: []string{"head"},
			Refuses: []Refusal{{Keys: []string{"width", "slot"}, Why: "only a tee has it"}},
		}},
	}
}

func sheared() *Entry {
	return &Entry{
		Name: "joints.sheared", Each: "a pin or key that is sheared",
		Says: "How much it carries before it shears or is crushed.",
		Keys: []Key{
			{
				Name: "id", Holds: Holds{Kind: ID, Of: "sheared piece"}, Required: true, Example: "pin",
				Says: "By which fuse can name it.",
			},
			{Name: "kind", Holds: word(words(trade.ShearedKinds)...), Required: true, Example: "pin", Says: "A pin or a key."},
			length("diameter", "Diameter of a pin."), length("width", "Width of a key."),
			length("height", "Height of a key."),
			length("length", "Length of a key, or of a pin where it bears."),
			{
				Name: "planes", Holds: whole(1, 2), Default: "1", Example: "2",
				Says: "In how many places it must shear.",
			},
			length("at", "Radius from the axis at which a torque acts on it."),
			material("material", "What it is made of."), material("against", "What it bears on."),
		},
		Cases: []Case{
			{
				Key: "kind", Words: []string{"pin"}, Needs: []string{"diameter"},
				Refuses: []Refusal{{Keys: []string{"width", "height"}, Why: "a pin has a diameter"}},
			},
			{
				Key: "kind", Words: []string{"key"}, Needs: []string{"width", "height", "length"},
				Refuses: []Refusal{{Keys: []string{"diameter"}, Why: "a key has a width and a height"}},
			},
		},
	}
}

func press() *Entry {
	return &Entry{
		Name: "joints.press", Each: "a press or shrink fit",
		Says: "Two rings that hold by interference: what they carry and how warm to make the outer.",
		Keys: []Key{
			length("diameter", "Diameter where they meet.").wanted(),
			length("inside", "Bore of the inner.").otherwise("solid"),
			length("outside", "Outside diameter of the outer.").wanted(),
			length("length", "Length on which they meet.").wanted(),
			{
				Name: "interference", Holds: notNegative(LengthRange), Required: true, Example: "0.02..0.04 mm",
				Says: "How much the inner is larger, on the diameter.",
			},
			material("inner", "What the inner is made of.").wanted(),
			material("outer", "What the outer is made of.").wanted(),
			{
				Name: "friction", Holds: friction(FrictionRange), Default: "0.08..0.15", Example: "0.1..0.15",
				Says: "Coefficient of friction between them.",
			},
			{
				Name: "warmer", Holds: anySign(Number), Default: "0", Example: "40",
				Says: "How much warmer it runs than it was put together, in °C.",
			},
		},
	}
}

func tighten() *Entry {
	return &Entry{
		Name: "joints.tighten", Each: "how a joint is tightened", Says: "To a torque or to a preload.",
		Keys: []Key{
			{Name: "torque", Holds: above0(Torque), Example: "25 N m", Says: "The torque it is tightened to."},
			{Name: "preload", Holds: above0(Force), Example: "9 kN", Says: "Or the pull in the stud."},
			{
				Name: "friction", Holds: friction(FrictionRange), Default: "0.10..0.20", Example: "0.12..0.20",
				Says: "Coefficient of friction in thread and under the head.",
			},
		},
		Exclusive: [][2]string{{"torque", "preload"}},
	}
}
