package facts

import (
	_ "embed"
	"slices"
	"sync"
)

//go:embed bs970_conditions.csv
var conditions string

// Condition is what a letter of BS 970 says of a hardened and tempered steel,
// whichever it is. Stresses are in MPa, NaN where not given.
type Condition struct {
	Letter     string
	TensileMin float64
	TensileMax float64
	Hardness   string // Brinell
}

var readConditions = sync.OnceValue(func() []Condition {
	var list []Condition
	for _, r := range rows(conditions) {
		list = append(list, Condition{
			Letter: r["condition"], TensileMin: r.optional("tensile_min_MPa"), TensileMax: r.optional("tensile_max_MPa"), Hardness: r["hardness_HB"],
		})
	}
	return list
})

// Conditions returns the condition letters of BS 970:1991, softest first. The
// table restates the standard and has no column for the source of each row.
func Conditions() []Condition { return slices.Clone(readConditions()) }
