package gauge

import (
	"regexp"
	"slices"
	"strings"
)

// The parts of a SetUp: a place, such as {pin} or {pin:two}, and what is said
// only where something stands in its places, as in [ on equal blocks ({block})].
var (
	placeInWords = regexp.MustCompile(`\{([a-z0-9-]+)(?::([a-z]+))?\}`)
	onlyIfThere  = regexp.MustCompile(`\[([^\]]*)\]`)
)

// Said returns the sentence by which a method is set up and read, with what
// stands in its places written by fill: by the name of the role and how many
// equal pieces it takes, "two" or "three", empty for one. What stands in no
// place is left as it is; words in brackets are said only where all of their
// places are filled.
func (m *Method) Said(fill func(role, number string) (string, bool)) string {
	said := onlyIfThere.ReplaceAllStringFunc(m.SetUp, func(part string) string {
		part = strings.Trim(part, "[]")
		for _, found := range placeInWords.FindAllStringSubmatch(part, -1) {
			if _, ok := fill(found[1], found[2]); !ok {
				return ""
			}
		}
		return part
	})
	return placeInWords.ReplaceAllStringFunc(said, func(place string) string {
		found := placeInWords.FindStringSubmatch(place)
		if text, ok := fill(found[1], found[2]); ok {
			return text
		}
		return place
	})
}

// ThatPlace is the place of a reading's own expression in a SetUp.
const ThatPlace = "that"

// unsaid returns the places of a SetUp that are no roles.
func (m *Method) unsaid() []string {
	var list []string
	for _, found := range placeInWords.FindAllStringSubmatch(m.SetUp, -1) {
		if m.Role(found[1]) < 0 && found[1] != ThatPlace {
			list = append(list, found[1])
		}
	}
	return list
}

// says reports whether a SetUp names a role.
func (m *Method) says(role string) bool {
	places := placeInWords.FindAllStringSubmatch(m.SetUp, -1)
	return slices.ContainsFunc(places, func(found []string) bool { return found[1] == role })
}

// Mentions reports whether a method has to do with a word: it stands in its
// name, its family, its roles, among the words that it is looked for by, or in
// the names of the instruments that are made to read it.
func (m *Method) Mentions(word string) bool {
	text := []string{m.ID, m.Family, m.When, strings.Join(m.Words, ", ")}
	for _, role := range m.Roles {
		text = append(text, role.Name)
	}
	for _, kind := range m.ReadBy {
		i, _ := InstrumentOf(kind)
		text = append(text, i.Name, strings.Join(i.Words, ", "))
	}
	return strings.Contains(strings.ToLower(strings.Join(text, "; ")), strings.ToLower(word))
}
