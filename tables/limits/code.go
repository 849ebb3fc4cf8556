// Package limits gives the limits of size that go with a nominal size and a
// tolerance class or a fit: 50 H8 and 50 H8/f7 of ISO 286, 1.5 in RC5 of ANSI
// B4.1.
//
// The figures are those of the standards' tables, combined by the standards'
// rules and not rounded; nothing is interpolated. A size, letter or grade that
// the tables do not have is an error that says what they have. Lengths are in
// mm; a deviation is a limit less the nominal size; a clearance is hole less
// shaft, negative where they interfere. Where each figure was read goes with it.
package limits

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Code is a tolerance class of ISO 286: letter and grade, H8 of a hole or f7 of
// a shaft.
type Code struct {
	Letter string // capital for holes, small for shafts
	Grade  int    // 1 to 18
}

// String returns the code as it is written.
func (c Code) String() string { return c.Letter + strconv.Itoa(c.Grade) }

// Hole reports whether the code is that of a hole.
func (c Code) Hole() bool { return c.Letter == strings.ToUpper(c.Letter) }

// The grades that holes and shafts have.
const (
	finestGrade   = 1
	coarsestGrade = 18
)

// codePattern is a letter and a grade. The letter may be wrong still.
var codePattern = regexp.MustCompile(`^([A-Za-z]{1,2}) ?([0-9]{1,3})$`)

// ParseCode reads a tolerance class. The error says what would be right.
func ParseCode(text string) (Code, error) {
	parts := codePattern.FindStringSubmatch(strings.TrimSpace(text))
	if parts == nil {
		return Code{}, fmt.Errorf("%q is no tolerance class: one is written H8 for a hole, f7 for a shaft", text)
	}
	letter, figures := parts[1], parts[2]
	if len(letters()[letter]) == 0 {
		return Code{}, fmt.Errorf("%q: %s", text, noLetter(letter))
	}
	grade, err := strconv.Atoi(figures)
	if err != nil {
		panic("limits: figures are no number")
	}
	if grade < finestGrade || grade > coarsestGrade || figures[0] == '0' {
		return Code{}, fmt.Errorf("%q: holes and shafts have grades %d to %d, not %s", text, finestGrade, coarsestGrade, figures)
	}
	return Code{Letter: letter, Grade: grade}, nil
}

// letters has the fundamental deviations of each letter.
var letters = sync.OnceValue(func() map[string][]facts.Deviation {
	all := map[string][]facts.Deviation{}
	for _, d := range append(facts.HoleDeviations(), facts.ShaftDeviations()...) {
		all[d.Letter] = append(all[d.Letter], d)
	}
	return all
})

// noLetter says what is wrong with a letter that the tables do not have.
func noLetter(letter string) string {
	hole, shaft := strings.ToUpper(letter), strings.ToLower(letter)
	switch {
	case len(letters()[hole]) > 0:
		return fmt.Sprintf("write %s for a hole or %s for a shaft", hole, shaft)
	case strings.ContainsAny(shaft, "iloqw"):
		return fmt.Sprintf("there is no letter %s: the standard leaves out i, l, o, q and w, which are taken for figures and for each other", letter)
	}
	return fmt.Sprintf("there is no letter %s: they are a to z without i, l, o, q and w, and cd, ef, fg, js, za, zb, zc; capitals for holes", letter)
}
