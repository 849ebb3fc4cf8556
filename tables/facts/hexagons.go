package facts

import (
	_ "embed"
	"slices"
	"sync"

	"codeberg.org/oddleg/oddleg/num/unit"
)

//go:embed hex.csv
var hexagons string

// Hexagon is the hexagon of one size of bolt or nut.
type Hexagon struct {
	Family   string  // "BSW and BSF (present hexagon)", "BSW old large hexagon", "BA", "ISO metric" ...
	Thread   string  // the thread's size as the family has it: "7/16", "M8", "2 BA"
	Part     string  // "bolt and nut", "hex nut" ...
	Flats    float64 // across flats, nominal or largest, mm
	Standard string
	Source   string
}

var readHexagons = sync.OnceValue(func() []Hexagon {
	var list []Hexagon
	for _, r := range rows(hexagons) {
		flats := r.number("across_flats_max")
		if r["unit"] == "in" {
			flats *= unit.MillimetresPerInch
		}
		list = append(list, Hexagon{
			Family: r["family"], Thread: r["thread_size"], Part: r["part"], Flats: flats,
			Standard: r["standard"], Source: r["source"],
		})
	}
	return list
})

// Hexagons returns the hexagons of every family, present and old.
func Hexagons() []Hexagon { return slices.Clone(readHexagons()) }
