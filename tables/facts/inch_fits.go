package facts

import (
	_ "embed"
	"slices"
	"sync"
)

// The embedded tables of limits and fits in inches.
var (
	//go:embed fits_b41.csv
	inchFits string
	//go:embed b41_grades.csv
	inchGrades string
)

// InchFit is one line of ANSI B4.1: a class of fit in a band of sizes. Sizes
// are in inches, deviations and fits in thousandths of an inch; a negative fit
// is an interference.
type InchFit struct {
	Class                  string // "RC5"
	HoleCode, ShaftCode    string // "H8" and "e7", the shaft's empty where the standard has none
	Over, To               float64
	HoleLower, HoleUpper   float64
	ShaftLower, ShaftUpper float64
	FitMin, FitMax         float64 // as printed
	Source                 string
}

var readInchFits = sync.OnceValue(func() []InchFit {
	var list []InchFit
	for _, r := range rows(inchFits) {
		list = append(list, InchFit{
			Class: r["class"], HoleCode: r["hole_code"], ShaftCode: r["shaft_code"], Over: r.number("over_in"), To: r.number("to_in"),
			HoleLower: r.number("hole_lower_thou"), HoleUpper: r.number("hole_upper_thou"),
			ShaftLower: r.number("shaft_lower_thou"), ShaftUpper: r.number("shaft_upper_thou"),
			FitMin: r.number("fit_min_thou"), FitMax: r.number("fit_max_thou"), Source: r["source"],
		})
	}
	return list
})

var readInchGrades = sync.OnceValue(func() []GradeBand { return gradeBands(inchGrades, "grade", "over_in", "to_in") })

// InchFits returns the fits of ANSI B4.1: running and sliding (RC), locational
// (LC, LT, LN), force and shrink (FN).
func InchFits() []InchFit { return slices.Clone(readInchFits()) }

// InchGrades returns the standard tolerances of ANSI B4.1 in thousandths of an
// inch by grade, 4 to 13. Within RC and LC fits the smallest sizes have other
// tolerances for grades 4 and 5.
func InchGrades() []GradeBand { return slices.Clone(readInchGrades()) }
