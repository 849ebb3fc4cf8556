package limits

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Interval is a nominal size with its limits, in mm.
type Interval struct {
	Low, High    float64
	Lower, Upper float64  // deviations of Low and High from the nominal size
	Sources      []string // where the figures were read, each once
	Notes        []string // what to bear in mind of them
}

const micrometre = 1e-3 // mm

// Of returns the limits of a nominal size in mm by ISO 286. Where the size is
// on the boundary of two bands it belongs to the lower: over 30 up to 50. The
// deviations are those of the standard's tables, Δ and exceptions included; js
// and JS are ± half the tolerance, not rounded.
//
// It is an error where the size is not a positive number, where the letter or
// grade is not for it, and where a limit would not be above zero.
func Of(mm float64, c Code) (Interval, error) {
	if err := checkSize(mm); err != nil {
		return Interval{}, err
	}
	d, err := deviationOf(mm, c)
	if err != nil {
		return Interval{}, err
	}
	grades := bandOf(itGrades(), mm)
	tolerance, given := grades.Values[c.grade()]
	if !given {
		panic("limits: a grade has no tolerance where a letter has a deviation")
	}
	in := Interval{Sources: []string{d.Source, grades.Source}}
	switch d.Limit {
	case "both":
		in.Lower, in.Upper = -tolerance/2, tolerance/2
		in.noteHalves(c, tolerance)
	case "ei", "EI":
		in.Lower, in.Upper = d.Value, d.Value+tolerance
	default:
		upper, err := in.upper(mm, c, d)
		if err != nil {
			return Interval{}, err
		}
		in.Lower, in.Upper = upper-tolerance, upper
	}
	return in.about(mm, micrometre)
}

var (
	itGrades = sync.OnceValue(facts.ITGrades)
	deltas   = sync.OnceValue(facts.Deltas)
)

func (c Code) grade() string { return fmt.Sprint(c.Grade) }

// checkSize refuses what no nominal size can be.
func checkSize(mm float64) error {
	if !(mm > 0) || math.IsInf(mm, 1) {
		return fmt.Errorf("a nominal size of %g mm cannot be: a length greater than 0 is wanted", mm)
	}
	return nil
}

// same is how far two lengths may differ by rounding alone, in mm: a boundary
// belongs to the lower band, in whatever unit the size was written.
const same = 1e-9

func within(size, over, to, same float64) bool { return over+same < size && size <= to+same }

func bandOf(bands []facts.GradeBand, mm float64) facts.GradeBand {
	i := slices.IndexFunc(bands, func(b facts.GradeBand) bool { return within(mm, b.Over, b.To, same) })
	if i < 0 {
		panic("limits: a size has no band where a letter has a deviation")
	}
	return bands[i]
}

// deviationOf finds the fundamental deviation of a code at a size.
func deviationOf(mm float64, c Code) (facts.Deviation, error) {
	var here []facts.Deviation
	rows := letters()[c.Letter]
	if len(rows) == 0 {
		return facts.Deviation{}, fmt.Errorf("%s: %s", c, noLetter(c.Letter))
	}
	for _, d := range rows {
		if within(mm, d.Over, d.To, same) {
			here = append(here, d)
		}
	}
	if len(here) == 0 {
		return facts.Deviation{}, fmt.Errorf("%s is for sizes %s, not for %s", c.Letter, bandsOf(rows), length(mm))
	}
	i := slices.IndexFunc(here, func(d facts.Deviation) bool { return d.GradeMin <= c.Grade && c.Grade <= d.GradeMax })
	if i < 0 {
		return facts.Deviation{}, fmt.Errorf("%s at %s has grades %d to %d, not %d", c.Letter, length(mm), lowestGrade(here), highestGrade(here), c.Grade)
	}
	return here[i], c.checkSmall(mm, here[i])
}

// smallest is the size up to which some letters and grades are not used, in mm.
const smallest = 1

// firstCoarse is the first grade that is not for sizes up to the smallest.
const firstCoarse = 14

// checkSmall refuses what the standard does not have for the smallest sizes.
func (c Code) checkSmall(mm float64, d facts.Deviation) error {
	if mm > smallest+same {
		return nil
	}
	never := strings.HasPrefix(d.Rule, "not for sizes up to 1 mm")
	coarse := strings.HasPrefix(d.Rule, "above IT8 not for sizes up to 1 mm") && c.Grade > 8
	switch {
	case never, coarse:
		return fmt.Errorf("%s is not for sizes up to %d mm; %s was asked for", c, smallest, length(mm))
	case c.Grade >= firstCoarse:
		return fmt.Errorf("grades %d and up are not for sizes up to %d mm (ISO 286-1, from memory); %s %s was asked for", firstCoarse, smallest, length(mm), c)
	}
	return nil
}

// bandsOf says from where to where a letter goes.
func bandsOf(rows []facts.Deviation) string {
	low, high := math.Inf(1), 0.0
	for _, d := range rows {
		low, high = min(low, d.Over), max(high, d.To)
	}
	return fmt.Sprintf("over %g up to %g mm", low, high)
}

func lowestGrade(rows []facts.Deviation) int {
	lowest := coarsestGrade
	for _, d := range rows {
		if d.AddDelta {
			d.GradeMin = max(d.GradeMin, firstDelta)
		}
		lowest = min(lowest, d.GradeMin)
	}
	return lowest
}

func highestGrade(rows []facts.Deviation) int {
	return slices.MaxFunc(rows, func(a, b facts.Deviation) int { return a.GradeMax - b.GradeMax }).GradeMax
}

func length(mm float64) string { return fmt.Sprintf("%.10g %v", mm, unit.Millimetre) }

// upper returns the upper deviation in µm of a code whose upper limit is the
// tabled one.
func (in *Interval) upper(mm float64, c Code, d facts.Deviation) (float64, error) {
	if !d.AddDelta {
		return d.Value, nil
	}
	if exception, ok := exceptions[c]; ok && within(mm, exception.over, exception.to, same) {
		in.Notes = append(in.Notes, fmt.Sprintf("%s over %g up to %g mm is an exception of the standard", c, exception.over, exception.to))
		return exception.upper, nil
	}
	band := bandOf(deltas(), mm)
	delta, given := band.Values[c.grade()]
	if !given {
		return 0, fmt.Errorf("%s at %s is not in the standard: it has %s from grade %d, where Δ begins", c, length(mm), c.Letter, firstDelta)
	}
	in.Sources = append(in.Sources, band.Source)
	return d.Value + delta, nil
}

// firstDelta is the finest grade for which the standard has a Δ.
const firstDelta = 3

// exceptions are the holes whose upper deviation the standard gives otherwise
// than its rule does (the column of rules of the table), in µm.
var exceptions = map[Code]struct{ over, to, upper float64 }{
	{"M", 6}: {over: 250, to: 315, upper: -9},
}

// noteHalves says that the earlier edition rounded js.
func (in *Interval) noteHalves(c Code, tolerance float64) {
	if odd := math.Mod(tolerance, 2) == 1; odd && c.Grade >= 7 && c.Grade <= 11 {
		in.Notes = append(in.Notes, fmt.Sprintf("Tables of the 1988 edition may have %s rounded to ±%g µm (from memory)", c, (tolerance-1)/2))
	}
}

// about turns deviations in a small unit of so many mm into mm and limits.
func (in Interval) about(mm, small float64) (Interval, error) {
	in.Lower, in.Upper = tidy(in.Lower*small), tidy(in.Upper*small)
	in.Low, in.High = tidy(mm+in.Lower), tidy(mm+in.Upper)
	if in.Low <= 0 {
		return Interval{}, fmt.Errorf("%s is too small: its lower limit would be %s", length(mm), length(in.Low))
	}
	return in, nil
}

// tidy takes the rounding of binary fractions off what has no more than eight
// decimals: 50 and 0.039 make 50.039.
func tidy(mm float64) float64 {
	const decimals, noise = 1e8, 1e-11
	if plain := math.Round(mm*decimals) / decimals; math.Abs(plain-mm) < noise {
		return plain
	}
	return mm
}
