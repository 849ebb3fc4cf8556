package facts

import (
	_ "embed"
	"slices"
	"sync"
)

// The embedded tables of thread tolerances.
var (
	//go:embed thread_tolerances.csv
	threadTolerances string
	//go:embed iso965_fd.csv
	isoDeviations string
	//go:embed iso965_crest_dia_tol.csv
	isoCrests string
	//go:embed iso965_pitch_dia_tol.csv
	isoPitchDiameters string
)

// ThreadTolerance is one rule for the limits of a thread, in words: the
// formula is that of the standard, in its units.
type ThreadTolerance struct {
	System     string // "ISO metric", "Unified", "Whitworth", "BA"
	Class      string
	Element    string // "external", "internal", "both"
	Quantity   string
	Formula    string
	Conditions string
	Source     string
}

var readThreadTolerances = sync.OnceValue(func() []ThreadTolerance {
	var list []ThreadTolerance
	for _, r := range rows(threadTolerances) {
		list = append(list, ThreadTolerance{
			System: r["system"], Class: r["class"], Element: r["element"], Quantity: r["quantity"],
			Formula: r["formula"], Conditions: r["conditions"], Source: r["source"],
		})
	}
	return list
})

// ThreadTolerances returns the rules for the limits of threads.
func ThreadTolerances() []ThreadTolerance { return slices.Clone(readThreadTolerances()) }

// ISOThread is one tabled figure of ISO 965-1, in mm: a fundamental deviation
// or a tolerance, by pitch and, for pitch diameters, by a range of diameters.
type ISOThread struct {
	Element   string  // "external", "internal"; of crests "external major dia", "internal minor dia"
	Class     string  // position "g", "H" ... of a deviation, grade "6" of a tolerance
	Pitch     float64 // mm
	Over, To  float64 // of pitch diameters: major diameter over .. up to, mm; else 0
	Value     float64 // mm
	ByFormula float64 // what the standard's formula gives, before rounding to preferred numbers, mm
	Source    string
}

const micrometre = 1e-3

func isoRows(table, class, value string) []ISOThread {
	var list []ISOThread
	for _, r := range rows(table) {
		t := ISOThread{
			Element: r["element"], Class: r[class], Pitch: r.number("pitch_mm"),
			Value: micrometre * r.number(value), ByFormula: micrometre * r.number("formula_um"), Source: r["source"],
		}
		if r["dia_over_mm"] != "" {
			t.Over, t.To = r.number("dia_over_mm"), r.number("dia_to_mm")
		}
		list = append(list, t)
	}
	return list
}

var (
	readISODeviations = sync.OnceValue(func() []ISOThread { return isoRows(isoDeviations, "position", "deviation_um") })
	readISOCrests     = sync.OnceValue(func() []ISOThread { return isoRows(isoCrests, "grade", "tolerance_um") })
	readISOPitches    = sync.OnceValue(func() []ISOThread { return isoRows(isoPitchDiameters, "grade", "tolerance_um") })
)

// ISOThreadDeviations returns the fundamental deviations of metric threads:
// how far from the basic size the nearer limit of a screw or nut lies.
func ISOThreadDeviations() []ISOThread { return slices.Clone(readISODeviations()) }

// ISOCrestTolerances returns the tolerances of the major diameters of metric
// screws and of the minor diameters of their nuts.
func ISOCrestTolerances() []ISOThread { return slices.Clone(readISOCrests()) }

// ISOPitchDiameterTolerances returns the tolerances of the pitch diameters
// (effective diameters) of metric threads.
func ISOPitchDiameterTolerances() []ISOThread { return slices.Clone(readISOPitches()) }
