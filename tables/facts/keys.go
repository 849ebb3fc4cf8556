package facts

import (
	_ "embed"
	"math"
	"slices"
	"sync"

	"codeberg.org/oddleg/oddleg/num/unit"
)

//go:embed keys.csv
var keys string

// Key is one standard key and the shafts it is for. Lengths are in mm.
type Key struct {
	Standard   string
	Type       string // "parallel metric", "square inch" ...
	Metric     bool
	Over, To   float64 // shaft diameters
	Width      float64
	Height     float64
	ShaftDepth float64 // of the seat in the shaft, NaN where not given
	HubDepth   float64 // of the seat in the hub, NaN where not given
	Source     string
}

var readKeys = sync.OnceValue(func() []Key {
	var list []Key
	for _, r := range rows(keys) {
		list = append(list, Key{
			Standard: r["standard"], Type: r["type"], Metric: r["unit"] == "mm",
			Over: r.length("shaft_over"), To: r.length("shaft_to"),
			Width: r.length("key_width"), Height: r.length("key_height"),
			ShaftDepth: r.length("shaft_depth"), HubDepth: r.length("hub_depth"),
			Source: r["source"],
		})
	}
	return list
})

// length returns a cell in mm, written in the row's own unit, inches perhaps as
// a fraction; NaN where it is empty. A cell that is no length is our bug.
func (r row) length(column string) float64 {
	if r[column] == "" {
		return math.NaN()
	}
	own := unit.Millimetre
	if r["unit"] == "in" {
		own = unit.Inch
	}
	q, err := unit.ParseLength(r[column], own)
	if err != nil {
		panic("facts: a cell of an embedded table is not a length")
	}
	return q.Inside()
}

// Keys returns the parallel keys of the metric, British and American standards.
func Keys() []Key { return slices.Clone(readKeys()) }
