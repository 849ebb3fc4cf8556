package facts

import (
	_ "embed"
	"math"
	"slices"
	"strings"
	"sync"
)

// The embedded tables of limits and fits in millimetres.
var (
	//go:embed it_grades.csv
	itGrades string
	//go:embed delta.csv
	deltas string
	//go:embed shafts_fd.csv
	shaftDeviations string
	//go:embed holes_fd.csv
	holeDeviations string
)

// GradeBand is one line of a table by grade: what each grade has in a band of
// sizes over one up to another.
type GradeBand struct {
	Over, To float64            // mm; of InchGrades inches
	Values   map[string]float64 // by grade: "7", "01"; µm; of InchGrades thousandths of an inch
	Source   string
}

// gradeBands reads a table with a column for each grade, named so after a
// prefix. A grade that a band does not have is left out.
func gradeBands(table, prefix, over, to string) []GradeBand {
	var list []GradeBand
	for _, r := range rows(table) {
		b := GradeBand{Over: r.number(over), To: r.number(to), Values: map[string]float64{}, Source: r["source"]}
		for column := range r {
			if grade, ok := strings.CutPrefix(column, prefix); ok && r[column] != "" {
				b.Values[grade] = r.number(column)
			}
		}
		list = append(list, b)
	}
	return list
}

var (
	readITGrades = sync.OnceValue(func() []GradeBand { return gradeBands(itGrades, "IT", "over_mm", "to_mm") })
	readDeltas   = sync.OnceValue(func() []GradeBand { return gradeBands(deltas, "IT", "over_mm", "to_mm") })
)

// ITGrades returns the standard tolerances of ISO 286-1, in µm by grade, 01 and
// 0 to 18. Finer than 1 they end at 500 mm.
func ITGrades() []GradeBand { return slices.Clone(readITGrades()) }

// Deltas returns the Δ of ISO 286-1 in µm by grade, 3 to 8: what holes of the
// tighter fits have added to their upper deviation.
func Deltas() []GradeBand { return slices.Clone(readDeltas()) }

// Deviation is the fundamental deviation of ISO 286-1 of one letter, for a
// range of grades in a band of sizes: the limit that lies nearer to the nominal
// size. The other limit is the grade's tolerance away.
type Deviation struct {
	Letter             string
	GradeMin, GradeMax int
	Over, To           float64 // mm
	Value              float64 // µm; NaN of js and JS, which lie half a tolerance to each side
	Limit              string  // which limit it is: "es", "ei", "ES", "EI" or "both"
	AddDelta           bool    // Δ is to be added
	Rule               string  // in words, an exception or when it may not be used; mostly empty
	Source             string
}

func deviations(table string) []Deviation {
	var list []Deviation
	for _, r := range rows(table) {
		list = append(list, Deviation{
			Letter: r["letter"], GradeMin: int(r.number("grade_min")), GradeMax: int(r.number("grade_max")),
			Over: r.number("over_mm"), To: r.number("to_mm"), Value: r.optional("dev_um"), Limit: r["limit"],
			AddDelta: r["add_delta"] == "yes", Rule: r["rule"], Source: r["source"],
		})
		if d := list[len(list)-1]; math.IsNaN(d.Value) != (d.Limit == "both") {
			panic("facts: a fundamental deviation is missing")
		}
	}
	return list
}

var (
	readShaftDeviations = sync.OnceValue(func() []Deviation { return deviations(shaftDeviations) })
	readHoleDeviations  = sync.OnceValue(func() []Deviation { return deviations(holeDeviations) })
)

// ShaftDeviations returns the fundamental deviations of shafts, small letters.
func ShaftDeviations() []Deviation { return slices.Clone(readShaftDeviations()) }

// HoleDeviations returns the fundamental deviations of holes, capital letters.
func HoleDeviations() []Deviation { return slices.Clone(readHoleDeviations()) }
