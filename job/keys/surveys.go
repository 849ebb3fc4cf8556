package keys

import (
	"slices"

	"codeberg.org/oddleg/oddleg/read/survey"
)

// The most that is read of a survey, the fewest readings of a dovetail, and the years
// in which any can have been made.
const (
	MostStations  = 200
	MostRepeats   = 50
	FewestRollers = 2
	FirstSurveyed = 1850
	LastSurveyed  = 2100
)

// seen is what was read in one place: a length, or several.
func seen() Holds { return list(anySign(Length)).from(1, MostRepeats).orOne() }

func surveyed() *Entry {
	var kinds []string
	var cases []Case
	var rules []Rule
	rollers := rollerReading()
	for _, k := range survey.Kinds() {
		kinds = append(kinds, string(k.Name))
		cases = append(cases, surveyCase(k, rollers))
		rules = append(rules, besideRules(k)...)
	}
	return &Entry{
		Name: "surveys", Each: "a survey",
		Says: "One look at how far a machine has worn, or at how true it stands; those of one kind and one thing, " +
			"on several days, show a trend.",
		Keys: []Key{
			{
				Name: "id", Holds: Holds{Kind: ID, Of: "survey"}, Default: "survey 1, 2 ...", Example: "cross",
				Says: "By which it is called.",
			},
			{
				Name: "kind", Holds: word(kinds...), Required: true, Example: "lost-motion",
				Says: "What is looked at, and how.",
			},
			{Name: "of", Holds: anySign(Text), Example: "cross slide", Says: "Which screw or slide it is of."},
			{Name: "date", Holds: anySign(Date), Required: true, Example: "2024-03-31", Says: "The day it was made."},
			{
				Name: "with", Holds: reference("an instrument"), Required: true, Example: "clock",
				Says: "The instrument that was read.",
			},
			length("within", "What is still good enough, ±.").shownAs("0.1 mm").otherwise("nothing is judged"),
			say("how it was done"),
		},
		Rules:   rules,
		Cases:   cases,
		Example: surveysExample,
	}
}

// besideRules returns which keys of a kind of survey stand only beside others.
func besideRules(k *survey.Kind) []Rule {
	var rules []Rule
	for _, key := range k.Keys {
		needs := []string{key.Beside}
		i := slices.IndexFunc(rules, func(r Rule) bool { return slices.Equal(r.Needs, needs) })
		switch {
		case key.Beside == "":
		case i >= 0:
			rules[i].With = append(rules[i].With, key.Name)
		default:
			rules = append(rules, Rule{With: []string{key.Name}, Needs: needs})
		}
	}
	return rules
}

// surveyCase returns what the kind of a survey adds.
func surveyCase(k *survey.Kind, rollers *Entry) Case {
	c := Case{Key: "kind", Words: []string{string(k.Name)}}
	for _, key := range k.Keys {
		own := Key{Name: key.Name, Holds: surveyHolds(key), Required: key.Obligatory, Says: key.Say}
		if key.Sort == survey.Word {
			own.Default = key.Words[0]
		}
		c.Own = append(c.Own, own)
	}
	if k.Stations > 0 {
		at := byName("place along the slide", seen()).from(k.Stations, MostStations)
		c.Own = append(c.Own, Key{
			Name: "at", Holds: at, Required: true, Example: "{0: 0.08, 60: [0.12, 0.13]}",
			Says: "What was read at each place, by its distance along the slide.",
		})
	}
	if k.Rollers {
		c.Own = append(c.Own, Key{
			Name: "rollers", Holds: list(mapping(rollers)).from(FewestRollers, MostStations), Required: true,
			Example: "[{at: 0, roller: roll6, saw: 93.10}]",
			Says:    "What was read over or between rollers, at both ends at least.",
		})
	}
	return c
}

// surveyHolds returns what stands under a key of a survey.
func surveyHolds(key survey.Key) Holds {
	switch key.Sort {
	case survey.Word:
		return word(key.Words...)
	case survey.Instrument:
		return reference("an instrument")
	case survey.Readings:
		if key.Count > 0 {
			return seen().from(key.Count, key.Count)
		}
		return seen()
	case survey.Angle:
		return above0(PlainAngle)
	case survey.Pitch:
		return above0(Pitch)
	}
	return above0(Length)
}

func rollerReading() *Entry {
	return &Entry{
		Name: "surveys.rollers", Each: "a reading over or between rollers",
		Says: "Across a dovetail, at a place along it.",
		Keys: []Key{
			{Name: "at", Holds: anySign(Length), Required: true, Example: "0", Says: "Where along the slide."},
			{
				Name: "roller", Holds: Holds{Kind: Bound, Of: "a piece"}, Required: true, Example: "roll6",
				Says: "The rollers: a piece of the kit, or their diameter.",
			},
			length("raised", "Height of the blocks under them.").otherwise("none"),
			{Name: "saw", Holds: seen(), Required: true, Example: "93.10", Says: "What was read."},
		},
	}
}
