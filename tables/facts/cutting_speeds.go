package facts

import (
	_ "embed"
	"slices"
	"sync"
)

//go:embed cutting_speeds.csv
var cuttingSpeeds string

// CuttingSpeed is at which speed to start cutting a material with a tool. No
// standard stands behind any of them.
type CuttingSpeed struct {
	Material  string  // in words: "mild steel", "cast iron, soft"
	Operation string  // "turning", "turning and milling", "drilling" ...
	Tool      string  // "HSS", "carbide", "carbon or early HSS"
	Low, High float64 // m/min
	Source    string
}

var readCuttingSpeeds = sync.OnceValue(func() []CuttingSpeed {
	var list []CuttingSpeed
	for _, r := range rows(cuttingSpeeds) {
		list = append(list, CuttingSpeed{
			Material:  r["material"],
			Operation: r["operation"],
			Tool:      r["tool"],
			Low:       r.number("v_min_m_per_min"),
			High:      r.number("v_max_m_per_min"),
			Source:    r["source"],
		})
	}
	return list
})

// CuttingSpeeds returns the cutting speeds of the table.
func CuttingSpeeds() []CuttingSpeed { return slices.Clone(readCuttingSpeeds()) }
