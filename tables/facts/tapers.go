package facts

import (
	_ "embed"
	"math"
	"slices"
	"sync"

	"codeberg.org/oddleg/oddleg/num/unit"
)

//go:embed tapers.csv
var tapers string

// Taper is one taper of a standard or customary series.
type Taper struct {
	Family    string  // "Morse", "Jarno" ...
	Number    string  // "3", "4 1/2"; "all" where the family has one taper for all sizes
	HalfAngle float64 // rad, from the printed inches per foot
	Large     float64 // diameter at the gauge line or large end, mm; NaN where none is fixed
	Small     float64 // diameter at the small end, mm; NaN where none is given
	Length    float64 // between the two, mm; NaN where none is given
	Between   string  // what the length lies between, in words
	Standard  string
	Source    string
}

var readTapers = sync.OnceValue(func() []Taper {
	var list []Taper
	for _, r := range rows(tapers) {
		list = append(list, Taper{
			Family:    r["family"],
			Number:    r["number"],
			HalfAngle: math.Atan(r.number("taper_per_foot_in") / 24),
			Large:     r.optional("large_dia_mm"),
			Small:     unit.MillimetresPerInch * r.optional("small_dia_in"),
			Length:    unit.MillimetresPerInch * r.optional("length_between_in"),
			Between:   r["length_meaning"],
			Standard:  r["standard"],
			Source:    r["source"],
		})
	}
	return list
})

// Tapers returns every taper of the table.
func Tapers() []Taper { return slices.Clone(readTapers()) }
