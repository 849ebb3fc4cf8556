package limits

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Fit is a named fit without a size: H7/g6 of ISO 286 or RC5 of ANSI B4.1.
type Fit struct {
	hole, shaft Code
	class       string // of ANSI B4.1, else empty
}

// String returns the fit as it is written.
func (f Fit) String() string {
	if f.class != "" {
		return f.class
	}
	return f.hole.String() + "/" + f.shaft.String()
}

// Inch reports whether the fit is of ANSI B4.1, whose sizes are in inches.
func (f Fit) Inch() bool { return f.class != "" }

// classPattern is a class of ANSI B4.1. Its number may be wrong still.
var classPattern = regexp.MustCompile(`^(RC|LC|LT|LN|FN) ?([0-9]{1,2})$`)

// ParseFit reads a named fit. The error says what would be right.
func ParseFit(text string) (Fit, error) {
	trimmed := strings.TrimSpace(text)
	if parts := classPattern.FindStringSubmatch(strings.ToUpper(trimmed)); parts != nil {
		return inchFit(parts[1], parts[2])
	}
	first, second, both := strings.Cut(trimmed, "/")
	if !both {
		return Fit{}, fmt.Errorf("%q is no fit: one is written H7/g6, hole before shaft, or RC5", text)
	}
	hole, err := ParseCode(first)
	if err != nil {
		return Fit{}, err
	}
	shaft, err := ParseCode(second)
	switch {
	case err != nil:
		return Fit{}, err
	case !hole.Hole() && shaft.Hole():
		return Fit{}, fmt.Errorf("%q: the hole comes first: %s/%s", text, shaft, hole)
	case hole.Hole() == shaft.Hole():
		return Fit{}, fmt.Errorf("%q: a fit is a hole (capital letter) and a shaft (small letter), such as H7/g6", text)
	}
	return Fit{hole: hole, shaft: shaft}, nil
}

// Kind is whether there is always, sometimes or never a clearance.
type Kind uint8

// The kinds of fit, as ISO 286 tells them apart: no clearance at all still
// counts as one of the first, no interference at all as one of the last.
const (
	Clearance Kind = iota
	Transition
	Interference
)

// Pair is a hole and a shaft of one nominal size, in mm.
type Pair struct {
	Nominal      float64
	Hole, Shaft  Interval
	MinClearance float64 // smallest hole less largest shaft
	MaxClearance float64 // largest hole less smallest shaft
	HoleCode     string  // "H7"; of ANSI B4.1 in its own grades
	ShaftCode    string  // "g6"; empty where ANSI B4.1 has none
	Sources      []string
	Notes        []string
}

// Kind returns which kind of fit it is.
func (p Pair) Kind() Kind {
	switch {
	case p.MinClearance >= 0:
		return Clearance
	case p.MaxClearance <= 0:
		return Interference
	}
	return Transition
}

// At returns the limits that the fit has at a nominal size in mm. It fails as
// Of does, and where the size is not in the tables of ANSI B4.1.
func (f Fit) At(mm float64) (Pair, error) {
	if f.Inch() {
		return f.atInch(mm)
	}
	hole, err := Of(mm, f.hole)
	if err != nil {
		return Pair{}, err
	}
	shaft, err := Of(mm, f.shaft)
	if err != nil {
		return Pair{}, err
	}
	return pair(mm, hole, shaft, f.hole.String(), f.shaft.String()), nil
}

func pair(mm float64, hole, shaft Interval, holeCode, shaftCode string) Pair {
	p := Pair{
		Nominal: mm, Hole: hole, Shaft: shaft, HoleCode: holeCode, ShaftCode: shaftCode,
		MinClearance: tidy(hole.Lower - shaft.Upper), MaxClearance: tidy(hole.Upper - shaft.Lower),
		Notes: append(slices.Clone(hole.Notes), shaft.Notes...),
	}
	for _, source := range append(slices.Clone(hole.Sources), shaft.Sources...) {
		if !slices.Contains(p.Sources, source) {
			p.Sources = append(p.Sources, source)
		}
	}
	return p
}

// inchFit returns a class of ANSI B4.1.
func inchFit(series, number string) (Fit, error) {
	var numbers []string
	for _, row := range facts.InchFits() {
		n, ok := strings.CutPrefix(row.Class, series)
		if ok && !slices.Contains(numbers, n) {
			numbers = append(numbers, n)
		}
	}
	if !slices.Contains(numbers, number) {
		return Fit{}, fmt.Errorf("%s has classes %s to %s, not %s", series, numbers[0], numbers[len(numbers)-1], number)
	}
	return Fit{class: series + number}, nil
}

// atInch reads the table of ANSI B4.1.
func (f Fit) atInch(mm float64) (Pair, error) {
	if err := checkSize(mm); err != nil {
		return Pair{}, err
	}
	const thou = unit.MillimetresPerInch / 1000
	in := mm / unit.MillimetresPerInch
	rows := slices.DeleteFunc(facts.InchFits(), func(r facts.InchFit) bool { return r.Class != f.class })
	i := slices.IndexFunc(rows, func(r facts.InchFit) bool { return within(in, r.Over, r.To, same/unit.MillimetresPerInch) })
	if i < 0 {
		return Pair{}, fmt.Errorf("%s is for sizes over %g up to %g in, not for %.10g in", f, rows[0].Over, rows[len(rows)-1].To, in)
	}
	r := rows[i]
	hole, err := Interval{Lower: r.HoleLower, Upper: r.HoleUpper, Sources: []string{r.Source}}.about(mm, thou)
	if err != nil {
		return Pair{}, err
	}
	shaft, err := Interval{Lower: r.ShaftLower, Upper: r.ShaftUpper, Sources: []string{r.Source}}.about(mm, thou)
	if err != nil {
		return Pair{}, err
	}
	return pair(mm, hole, shaft, r.HoleCode, r.ShaftCode), nil
}
