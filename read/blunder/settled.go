package blunder

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Settled returns, for each group of a result that cannot be told apart, what
// would tell; nothing where that is not known.
func Settled(r *adjust.Result, doubts []Doubt) []unit.Text {
	list := make([]unit.Text, len(r.Either))
	for i, group := range r.Either {
		for _, d := range doubts {
			if slices.Equal(d.Suspects, group) {
				list[i] = d.Settle
			}
		}
	}
	return list
}

// Without returns what the others give for a suspect that is left out by itself,
// NaN where that is not known.
func Without(s adjust.Source, doubts []Doubt) float64 {
	for _, d := range doubts {
		if i := slices.Index(d.Suspects, s); i >= 0 {
			return d.Others[i]
		}
	}
	return math.NaN()
}
