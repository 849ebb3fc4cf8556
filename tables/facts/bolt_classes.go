package facts

import (
	_ "embed"
	"slices"
	"sync"
)

//go:embed bolt_classes.csv
var boltClasses string

// BoltClass is a property class of bolts or of nuts, for a range of diameters.
// Stresses are in MPa on the tensile stress area of the screw: the least that
// the class promises.
type BoltClass struct {
	Class    string  // "8.8" of a bolt, "8" of a nut
	Nut      bool    // a nut has no tensile strength and no yield, only a proof stress
	Over, To float64 // major diameters over .. up to, mm
	Tensile  float64 // NaN of a nut
	Yield    float64 // NaN of a nut; lower yield, or the 0.2 % proof stress, as the class has it
	Proof    float64 // stress under proof load: held without lasting stretch, or by a nut without stripping
	Source   string
}

var readBoltClasses = sync.OnceValue(func() []BoltClass {
	var list []BoltClass
	for _, r := range rows(boltClasses) {
		list = append(list, BoltClass{
			Class: r["class"], Nut: r["part"] == "nut", Over: r.number("over_mm"), To: r.number("to_mm"),
			Tensile: r.optional("tensile_min_MPa"), Yield: r.optional("yield_or_proof_min_MPa"),
			Proof: r.number("stress_under_proof_load_MPa"), Source: r["source"],
		})
	}
	return list
})

// BoltClasses returns the property classes of bolts (ISO 898-1) and of nuts (ISO
// 898-2).
func BoltClasses() []BoltClass { return slices.Clone(readBoltClasses()) }
