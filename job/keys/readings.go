package keys

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// MostValues is how many values one reading may have.
const MostValues = 1000

// MostCounted is the largest number in a role that counts something.
const MostCounted = 100_000

func reading() *Entry {
	saw := either(anySign(OfKind), list(either(anySign(OfKind), anySign(Pair))).from(1, MostValues))
	aside := either(word("all"), whole(0, MostValues-1), list(whole(0, MostValues-1)))
	return &Entry{
		Name: "readings", Each: "a reading",
		Says: "How it was taken, of what, with what, and what was seen.",
		Keys: []Key{
			{
				Name: "id", Holds: Holds{Kind: ID, Of: "reading"}, Required: true, Example: "a",
				Says: "By which it is called; readings have their ids among themselves.",
			},
			{
				Name: "by", Holds: Holds{Kind: Word, Among: methods(), Of: "method"}, Required: true,
				Example: "outside",
				Says:    "The method, one of those that `oddleg methods` explains.",
			},
			{
				Name: "of", Holds: anySign(Anything), Example: "{size: shank}",
				Says: "What stands in each role of the method: a size, a gauge piece, or a plain value.",
			},
			{
				Name: "that", Holds: anySign(Formula), Example: "(mouth - nose)/2",
				Says: "What a reading by formula shows, as an expression over sizes and gauge pieces.",
			},
			{Name: "with", Holds: reference("an instrument"), Example: "mic", Says: "The instrument that showed it."},
			{
				Name: "saw", Holds: saw, Example: "[19.04, 19.05]",
				Says: "What it showed: one value, or each of several; [x, y] of a touch.",
			},
			{
				Name: "goes", Holds: Holds{Kind: Bound, Of: "a piece"}, Example: "7/16 in",
				Says: "In place of with and saw: the largest gauge that enters a hole, or the smallest that passes " +
					"over a shaft.",
			},
			{
				Name: "stops", Holds: Holds{Kind: Bound, Of: "a piece"}, Example: "29/64 in",
				Says: "The next gauge, which does not.",
			},
			{Name: "at", Holds: anySign(Length), Example: "40 mm", Says: "Where along the work it was taken."},
			{
				Name: "feel", Holds: notNegative(OfKind), Default: "0", Example: "0.02 mm",
				Says: "Standard uncertainty of how the instrument or the gauge pieces sat.",
			},
			{
				Name: "seated", Holds: word("once"), Default: "anew for each value", Example: "once",
				Says: "All values were read in one seating, so they share its error.",
			},
			{
				Name: "set-aside", Holds: aside, Default: "none", Example: "[0, 2]",
				Says: "Values that are left out but kept and shown: all, or some, the first being 0.",
			},
			{Name: "why", Holds: anySign(Text), Example: "the plate was bent", Says: "Why they are set aside."},
			say("how it was taken"),
		},
		Rules: []Rule{
			{
				With: []string{"goes", "stops"}, Refuses: []string{"with", "saw", "set-aside"},
				Why: `"goes" and "stops" stand in its place`,
			},
			{Without: []string{"goes", "stops"}, Needs: []string{"with"}},
			{With: []string{"goes"}, Needs: []string{"stops"}, Hint: "try the next size, until one does not go"},
			{With: []string{"stops"}, Needs: []string{"goes"}, Hint: "try the next size, until one goes"},
		},
		Cases:   readingCases(),
		Example: readingsExample,
	}
}

// methods returns the ids of the methods.
func methods() []string {
	var ids []string
	for _, m := range gauge.Methods() {
		ids = append(ids, m.ID)
	}
	return ids
}

// readingCases returns what each method wants under `of`.
func readingCases() []Case {
	cases := []Case{{
		Key: "by", Words: []string{trade.FormulaMethod}, Needs: []string{"that"},
		Refuses: []Refusal{{Keys: []string{"of"}, Why: `a formula has "that" in its place`}},
	}}
	for _, m := range gauge.Methods() {
		if m.ID == trade.FormulaMethod {
			continue
		}
		cases = append(cases, Case{
			Key: "by", Words: []string{m.ID}, Needs: []string{"of"},
			Refuses: []Refusal{{Keys: []string{"that"}, Why: `only the method formula has it; the others have "of"`}},
			Own:     []Key{{Name: "of", Holds: mapping(roles(m)), Says: m.When}},
		})
	}
	return cases
}

// The keys that may stand in the place of a role: two holes for a distance.
const (
	FromHole = "from"
	ToHole   = "to"
)

// roles returns what stands under `of` in a reading by a method.
func roles(m *gauge.Method) *Entry {
	e := &Entry{Each: "the roles of the method " + m.ID, Says: m.When}
	for _, role := range m.Roles {
		e.Keys = append(e.Keys, Key{Name: role.Name, Holds: roleHolds(role), Says: said[role.Kind]})
		instead := []string{role.Name}
		if role.Also != "" {
			e.Keys = append(e.Keys, Key{Name: role.Also, Holds: roleHolds(role), Says: said[role.Kind]})
			e.Exclusive = append(e.Exclusive, [2]string{role.Name, role.Also})
			instead = append(instead, role.Also)
		}
		if role.Name == m.HolesFor {
			instead = append(instead, FromHole, ToHole)
		}
		if !role.Optional {
			e.Rules = append(e.Rules, Rule{Without: instead, Needs: []string{role.Name}})
		}
	}
	if m.HolesFor != "" {
		e.addHoles(m.HolesFor)
	}
	return e
}

// addHoles lets two holes of a plan stand in the place of a distance.
func (e *Entry) addHoles(distance string) {
	hole := reference("a hole")
	e.Keys = append(e.Keys,
		Key{Name: FromHole, Holds: hole, Says: "the one hole"},
		Key{Name: ToHole, Holds: hole, Says: "the other"},
	)
	e.Exclusive = append(e.Exclusive, [2]string{distance, FromHole}, [2]string{distance, ToHole})
	e.Rules = append(e.Rules, Rule{With: []string{FromHole, ToHole}, Needs: []string{FromHole, ToHole}})
}

// said are the kinds of role in words.
var said = map[gauge.RoleKind]string{
	gauge.AnyLength: "a length", gauge.Diameter: "a diameter; a radius counts double",
	gauge.Radius:      "a radius; a diameter counts half",
	gauge.PitchLength: "a pitch", gauge.IncludedAngle: "an included angle; a half angle counts double",
	gauge.HalfAngle: "a half angle; an included one counts half", gauge.PlainAngle: "an angle",
	gauge.PlainNumber: "a number",
	gauge.Count:       "how many", gauge.Side: "1 or -1", gauge.HoleOfPlan: "a hole of a plan",
	gauge.PlaceTouched: "a place that was touched",
}

// roleHolds returns what may stand in a role: for most an id or a plain value.
func roleHolds(role gauge.Role) Holds {
	switch role.Kind {
	case gauge.PlaceTouched:
		return reference("a place")
	case gauge.HoleOfPlan:
		return reference("a hole")
	case gauge.Count:
		return Holds{Kind: Count, Least: 1, Most: MostCounted}
	case gauge.Side:
		return anySign(Side)
	}
	sign := Positive
	switch {
	case role.Signed:
		sign = AnySign
	case role.Optional && (role.Default == 0 && !math.IsNaN(role.Default)):
		sign = NotNegative
	}
	return either(Holds{Kind: OfKind, Sign: sign}, reference("a size or a piece"))
}

func check() *Entry {
	e := reading()
	e.Name, e.Each = "checks", "a reading of the finished part"
	e.Says = "The same as a reading; sizes of the part are written part.ID. " +
		"One that is still to be taken has no saw yet."
	e.Keys = append(e.Keys,
		Key{
			Name: "on", Holds: word("new", "old"), Default: "new", Example: "old",
			Says: "Whether the new part was read, or the old one once it was apart.",
		},
		Key{
			Name: "piece", Holds: whole(1, MostParts), Default: "1", Example: "2",
			Says: "Which of the parts made was read.",
		},
		Key{
			Name: "at-temp", Holds: anySign(Temperature), Default: "20 °C", Example: "28 C",
			Says: "How warm the part was when it was read.",
		},
		Key{
			Name: "with-temp", Holds: anySign(Temperature), Default: "between 20 °C and that of the part", Example: "22 C",
			Says: "How warm the instrument was.",
		},
		Key{
			Name: "in-machine", Holds: anySign(YesNo), Default: "no", Example: "yes",
			Says: "The part was read where it was cut, still held and before it had sprung back.",
		},
	)
	e.Rules = append(e.Rules, Rule{
		Without: []string{"at-temp"}, Refuses: []string{"with-temp"}, Why: `it stands beside "at-temp"`,
	})
	e.Cases = append(e.Cases, Case{Key: "on", Words: []string{"old"}, Refuses: []Refusal{
		{Keys: []string{"piece", "in-machine", "at-temp", "with-temp"}, Why: "it is of the new part"},
	}})
	e.Example = checksExample
	return e
}
