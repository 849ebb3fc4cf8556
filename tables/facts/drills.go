package facts

import (
	_ "embed"
	"slices"
	"sync"

	"codeberg.org/oddleg/oddleg/num/unit"
)

//go:embed drills.csv
var drills string

// Drill is one twist drill of a standard series.
type Drill struct {
	Series      string // "number", "letter", "fraction" or "metric"
	Designation string // "#7", "F", "9/64", "5.1"
	Diameter    float64
	Source      string
}

var readDrills = sync.OnceValue(func() []Drill {
	var list []Drill
	for _, r := range rows(drills) {
		d := Drill{Series: r["series"], Designation: r["designation"], Source: r["source"]}
		d.Diameter = r.inchOrMetric(d.Series == "metric")
		list = append(list, d)
	}
	return list
})

// inchOrMetric returns the cell mm of a metric row, and of any other the cell
// inch in mm: the table rounds the one that the standard does not state.
func (r row) inchOrMetric(metric bool) float64 {
	if metric {
		return r.number("mm")
	}
	return unit.MillimetresPerInch * r.number("inch")
}

// Drills returns the number, letter, fraction and metric drills. Diameters are
// in mm.
func Drills() []Drill { return slices.Clone(readDrills()) }

// Asked is what one asks for at the drill rack.
func (d *Drill) Asked() string {
	switch d.Series {
	case "metric":
		return d.Designation + " mm"
	case "fraction":
		return d.Designation + " in"
	}
	return d.Designation
}
