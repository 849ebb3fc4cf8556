package facts

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
)

// Strength is what a material bears in one condition and range of ruling
// sections. Stresses are in MPa, NaN where the table does not say.
type Strength struct {
	Condition  string
	Over, To   float64 // limiting ruling section, bar diameter or wall, mm; To is +Inf where none is stated
	TensileMin float64
	TensileMax float64
	Yield      float64 // least yield or proof stress
	Elongation string  // least, per cent, as tabled
	Hardness   string  // with its scale
	ELow       float64 // Young's modulus lies between these, MPa
	EHigh      float64
	CTE        float64 // linear expansion, 1/K
	Density    float64 // kg/m³
	Borrowed   string  // material whose E, expansion or density stand in for what the row does not say; else empty
	Source     string
	Provenance string   // "seen", "from memory", or which is which
	Note       string   // what the table remarks, on names too
	Doubts     []string // set by At: what to bear in mind of these figures, beside the note
}

// E returns the middle of the tabled range of Young's modulus in MPa, NaN where
// there is none.
func (s Strength) E() float64 { return (s.ELow + s.EHigh) / 2 }

// covers reports whether a section is within the row's. The smallest section
// of a table belongs to its first row.
func (s Strength) covers(section float64) bool {
	return section == 0 || (s.Over < section || s.Over == section && s.Over > 0) && section <= s.To
}

// fillElastic completes what the rows of a material do not say of its
// elasticity, expansion and density: from its own other rows, from the generic
// row of its family, else from its next of kin in the table. These depend
// little on condition and grade.
func fillElastic(list []Material, i int) {
	lenders := []int{i}
	for j, m := range list {
		if m.generic && m.Family == list[i].Family {
			lenders = append(lenders, j)
		}
	}
	for d := 1; d < len(list); d++ {
		for _, j := range []int{i - d, i + d} {
			if j >= 0 && j < len(list) && list[j].Family == list[i].Family {
				lenders = append(lenders, j)
			}
		}
	}
	for row := range list[i].strengths {
		for _, j := range lenders {
			list[i].strengths[row].borrow(list[j], j != i)
		}
	}
}

// borrow takes over what a lender's own rows say and this row does not.
func (s *Strength) borrow(lender Material, foreign bool) {
	for _, row := range lender.strengths {
		if row.Borrowed != "" {
			continue
		}
		took := false
		for _, f := range []struct{ mine, theirs *float64 }{
			{&s.ELow, &row.ELow}, {&s.EHigh, &row.EHigh}, {&s.CTE, &row.CTE}, {&s.Density, &row.Density},
		} {
			if math.IsNaN(*f.mine) && !math.IsNaN(*f.theirs) {
				*f.mine, took = *f.theirs, true
			}
		}
		if took && foreign {
			s.Borrowed = lender.Name
		}
	}
}

// At returns what holds of the material in a condition, as the table words it
// or by some of its words ("R", "cold drawn"), and in a ruling section of this
// many mm. An empty condition or a section of 0 is one not known: the weakest
// row that may hold is taken and a doubt says so, as it does where two sources
// differ. The strength itself is NaN where the table has none. It is an error
// where the table has no such condition, or not in that section.
func (m Material) At(condition string, section float64) (Strength, error) {
	if !(section >= 0) || math.IsInf(section, 1) {
		return Strength{}, fmt.Errorf("a ruling section of %g mm cannot be: a positive number of mm is wanted", section)
	}
	rows, err := m.inCondition(condition)
	if err != nil {
		return Strength{}, err
	}
	held := slices.DeleteFunc(slices.Clone(rows), func(s Strength) bool { return !s.covers(section) })
	if len(held) == 0 {
		return Strength{}, m.noSection(rows, condition, section)
	}
	held = narrowest(held, section)
	s := slices.MinFunc(held, weaker)
	s.Doubts = slices.Concat(s.Doubts, doubts(s, held, condition, section))
	return s, nil
}

// inCondition returns the rows of a condition: the one that is worded so, else
// those that have all its words.
func (m Material) inCondition(condition string) ([]Strength, error) {
	if condition == "" {
		return m.strengths, nil
	}
	wanted := m.conditionNamed(condition)
	var rows []Strength
	for _, s := range m.strengths {
		if s.Condition == wanted && wanted != "" {
			rows = append(rows, s)
		}
	}
	if len(rows) == 0 {
		return nil, fmt.Errorf("%s has no condition %q, or several of it; the table has %s", m.Short(), condition, m.conditionList(0))
	}
	return rows, nil
}

// conditionNamed returns the condition as the table words it, nothing where
// none or more than one may be meant.
func (m Material) conditionNamed(text string) string {
	var named []string
	for _, s := range m.strengths {
		switch {
		case strings.EqualFold(s.Condition, text):
			return s.Condition
		case len(text) > 1 && hasWords(s.Condition, text) && !slices.Contains(named, s.Condition):
			named = append(named, s.Condition)
		}
	}
	if len(named) != 1 {
		return ""
	}
	return named[0]
}

// letterRange is the condition of a row that names letters of BS 970 only.
var letterRange = regexp.MustCompile(`^([P-Z]) to ([P-Z]) by section$`)

// byLetters turns a row that only names letters of BS 970 into one for each,
// with the tensile strength that the letter stands for in every steel.
func (s Strength) byLetters() []Strength {
	limits := letterRange.FindStringSubmatch(s.Condition)
	if limits == nil {
		return []Strength{s}
	}
	var list []Strength
	for _, c := range Conditions() {
		if limits[1] <= c.Letter && c.Letter <= limits[2] {
			s.Condition, s.TensileMin, s.TensileMax, s.Hardness = c.Letter, c.TensileMin, c.TensileMax, c.Hardness+" HB"
			s.Doubts = []string{"strength and hardness are what the letter stands for in every steel (BS 970:1991); to what section this one reaches them is not tabled"}
			list = append(list, s)
		}
	}
	return list
}

// conditionList lists the conditions that hold in a section, 0 for any.
func (m Material) conditionList(section float64) string {
	var list []string
	for _, s := range m.strengths {
		name := cmp.Or(s.Condition, "one of no name")
		if s.covers(section) && !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	if len(list) == 0 {
		return "nothing"
	}
	return strings.Join(list, "; ")
}

func (m Material) noSection(rows []Strength, condition string, section float64) error {
	low, high := math.Inf(1), 0.0
	for _, s := range rows {
		low, high = min(low, s.Over), max(high, s.To)
	}
	in := ""
	if condition != "" {
		in = " in condition " + rows[0].Condition
	}
	return fmt.Errorf("%s%s is tabled for ruling sections from %g to %g mm, not for %g mm; there the table has %s",
		m.Short(), in, low, high, section, m.conditionList(section))
}

// narrowest keeps of each condition and source the row with the smallest limit
// that holds: a bar of 50 mm is within "up to 100" and "up to 150" alike. Where
// the section is not known all rows stay.
func narrowest(rows []Strength, section float64) []Strength {
	if section == 0 {
		return rows
	}
	return slices.DeleteFunc(slices.Clone(rows), func(s Strength) bool {
		return slices.ContainsFunc(rows, func(o Strength) bool {
			return o.Condition == s.Condition && o.Source == s.Source && o.To < s.To
		})
	})
}

// weaker puts the lower tensile strength, then the lower yield first, and what
// is not known last.
func weaker(a, b Strength) int {
	known := func(x float64) float64 {
		if math.IsNaN(x) {
			return math.Inf(1)
		}
		return x
	}
	return cmp.Or(cmp.Compare(known(a.TensileMin), known(b.TensileMin)), cmp.Compare(known(a.Yield), known(b.Yield)))
}

// doubts says what to bear in mind of the row that was taken among those held.
func doubts(s Strength, held []Strength, condition string, section float64) []string {
	var list []string
	add := func(when bool, format string, args ...any) {
		if when {
			list = append(list, fmt.Sprintf(format, args...))
		}
	}
	add(math.IsNaN(s.TensileMin), "the table has no strength for it")
	add(condition == "" && len(held) > 1 && s.Condition != "", "no condition was stated: taken as %s, the weakest that the table has here", s.Condition)
	add(section == 0 && !math.IsInf(s.To, 1), "no ruling section was stated: these figures are for %g to %g mm", s.Over, s.To)
	for _, o := range held {
		add(o.Condition == s.Condition && o.Source != s.Source && section > 0,
			"sources differ: another gives %g MPa tensile and %g MPa yield; the lower figures are taken", o.TensileMin, o.Yield)
	}
	add(FromMemory(s.Provenance), "where the figures are from: %s", s.Provenance)
	add(s.Borrowed != "", "E, expansion and density, where its own row is silent, are those of %s", s.Borrowed)
	add(s.ELow < s.EHigh, "E lies from %g to %g GPa; the middle is taken", s.ELow/gigapascal, s.EHigh/gigapascal)
	return list
}

// hasWords reports whether all the words of one text stand in the other.
func hasWords(text, words string) bool {
	list := strings.FieldsFunc(strings.ToLower(text), notOfWord)
	for _, word := range strings.FieldsFunc(strings.ToLower(words), notOfWord) {
		if !slices.Contains(list, word) {
			return false
		}
	}
	return true
}
