package facts

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"

	"codeberg.org/oddleg/oddleg/num/near"
)

// Stock is a material as somebody asks for it: which, and in what condition.
type Stock struct {
	Material
	Condition  string // as the table words it; empty where none was asked for
	Equivalent string // another system's name, by which it was found; empty where its own was written
}

// Strength returns what the stock bears in a ruling section of this many mm, as
// At does.
func (s Stock) Strength(section float64) (Strength, error) {
	found, err := s.At(s.Condition, section)
	if err == nil && s.Equivalent != "" {
		found.Doubts = append(found.Doubts, fmt.Sprintf("%s is only approximately %s", s.Equivalent, s.Short()))
	}
	return found, err
}

// FindMaterial returns the material that is written by any of its names, with
// or without a condition: EN8, 080M40, "080M40 R", EN24T, "EN8 condition R",
// "EN8 cold drawn", S275JR, CZ121, or another system's name such as 4140, which
// is approximate. Case, blanks and hyphens do not count. The error says what
// would be right.
func FindMaterial(text string) (Stock, error) {
	words := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(",;()", r) })
	for n := len(words); n > 0; n-- {
		if hits := named(strings.Join(words[:n], " ")); len(hits) > 0 {
			return stock(hits, words[n:])
		}
	}
	if len(words) == 1 {
		if short := letterBehind.FindStringSubmatch(words[0]); short != nil && len(named(short[1])) > 0 {
			return stock(named(short[1]), short[2:])
		}
	}
	return Stock{}, unknownMaterial(text)
}

// letterBehind splits EN24T: the trade writes the condition behind the number.
var letterBehind = regexp.MustCompile(`^(.*[0-9])([P-Zp-z])$`)

// How near a name stands to a material: the nearest wins where two have it.
const (
	ownName       = iota
	wordOfName    // EN58, which is five steels
	equivalent    // approximate
	faintlySo     // what the table has in brackets
	familyOrWords // too little to say which
)

// naming is one name of one material.
type naming struct {
	key   string // what counts of the name
	shown string
	rank  int
	of    Material
}

// keyOf leaves of a name what counts.
func keyOf(name string) string {
	return strings.Map(func(r rune) rune {
		if notOfWord(r) {
			return -1
		}
		return unicode.ToUpper(r)
	}, name)
}

func notOfWord(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }

var readNamings = sync.OnceValue(func() []naming {
	var list []naming
	for _, m := range readMaterials() {
		add := func(rank int, names ...string) {
			for _, name := range names {
				list = append(list, naming{key: keyOf(name), shown: name, rank: rank, of: m})
			}
		}
		add(ownName, m.Name)
		add(ownName, namesIn(m.EN)...)
		add(ownName, namesIn(m.BS)...)
		for _, word := range strings.Fields(m.Name) {
			if isCode(word) {
				add(wordOfName, word)
			}
		}
		for _, e := range m.Equivalents {
			plain, brackets, _ := strings.Cut(e.Names, "(")
			add(equivalent, namesIn(plain)...)
			add(faintlySo, namesIn(brackets)...)
		}
		if !m.generic {
			add(familyOrWords, m.Family)
		}
	}
	return list
})

var (
	// betweenNames is what stands between the names of one cell.
	betweenNames = regexp.MustCompile(` / |, | \(|\(|\)`)
	// ofStandard is a standard's number before the name that it gives.
	ofStandard = regexp.MustCompile(`^BS [0-9]+ ?`)
)

// namesIn returns the names that a cell holds: "303S31 (303S21)" two, "BS 1400
// PB1" that and PB1. Words that are no designation, such as "near", are none.
func namesIn(cell string) []string {
	var list []string
	for _, name := range betweenNames.Split(cell, -1) {
		name = strings.TrimSpace(name)
		short := ofStandard.ReplaceAllString(name, "")
		if !strings.ContainsFunc(short, unicode.IsDigit) {
			continue
		}
		list = append(list, short)
		if short != name {
			list = append(list, name)
		}
	}
	return list
}

// isCode reports whether a word of a name is a designation: S275JR and 6082,
// but not 1.5% or 55.
func isCode(word string) bool {
	digits := strings.ContainsFunc(word, unicode.IsDigit)
	letters := strings.ContainsFunc(word, unicode.IsLetter)
	return digits && !strings.Contains(word, "%") && (letters || len(word) >= 4)
}

// named returns the materials that have a name, of those whose claim to it is
// best.
func named(name string) []naming {
	var hits []naming
	for _, n := range readNamings() {
		if n.key != keyOf(name) || len(hits) > 0 && n.rank > hits[0].rank {
			continue
		}
		if len(hits) > 0 && n.rank < hits[0].rank {
			hits = nil
		}
		if !slices.ContainsFunc(hits, func(h naming) bool { return h.of.Name == n.of.Name && h.of.BS == n.of.BS }) {
			hits = append(hits, n)
		}
	}
	return hits
}

// stock returns the one material that is named, in the condition that the rest
// of the words says.
func stock(hits []naming, rest []string) (Stock, error) {
	if len(hits) > 1 || hits[0].rank == familyOrWords {
		var list []string
		for _, h := range hits {
			list = append(list, h.of.Short())
		}
		return Stock{}, fmt.Errorf("%q does not say which material; the table has %s", hits[0].shown, strings.Join(list, ", "))
	}
	s := Stock{Material: hits[0].of}
	if hits[0].rank == equivalent || hits[0].rank == faintlySo {
		s.Equivalent = hits[0].shown
	}
	if len(rest) > 1 && slices.Contains([]string{"condition", "cond", "cond."}, strings.ToLower(rest[0])) {
		rest = rest[1:]
	}
	rows, err := s.inCondition(strings.Join(rest, " "))
	if err != nil {
		return Stock{}, err
	}
	if len(rest) > 0 {
		s.Condition = rows[0].Condition
	}
	return s, nil
}

func unknownMaterial(text string) error {
	var keys []string
	for _, n := range readNamings() {
		keys = append(keys, n.key)
	}
	hint := "a material is written EN8, 080M40 R, EN24T, S275JR or CZ121"
	if key, ok := near.Word(keyOf(text), keys); ok {
		i := slices.Index(keys, key)
		hint = "did you mean " + readNamings()[i].shown + "?"
	}
	return fmt.Errorf("the table has no material %q; %s", text, hint)
}
