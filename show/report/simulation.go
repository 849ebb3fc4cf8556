package report

import (
	"codeberg.org/oddleg/oddleg/read/simulate"
)

const agrees = "agrees"

// remarkOn says how the simulated interval lies beside the other, given which
// way its ends have moved.
func remarkOn(low, high int) string {
	switch [2]int{low, high} {
	case [2]int{0, 0}:
		return agrees
	case [2]int{1, -1}:
		return "narrower"
	case [2]int{-1, 1}:
		return "wider"
	case [2]int{1, 1}:
		return "higher"
	case [2]int{-1, -1}:
		return "lower"
	case [2]int{0, 1}:
		return "reaches higher"
	case [2]int{-1, 0}:
		return "reaches lower"
	case [2]int{1, 0}:
		return "reaches less low"
	}
	return "reaches less high"
}

// The JSON forms: mm and degrees, as everywhere.
type (
	simulationJSON struct {
		Trials int                          `json:"trials"`
		Failed int                          `json:"failed"`
		Seed   uint64                       `json:"seed"`
		Sizes  map[string]simulatedSizeJSON `json:"sizes"`
	}
	simulatedSizeJSON struct {
		Mean   *float64 `json:"mean"`
		U      *float64 `json:"u"`
		Low    *float64 `json:"low"`
		High   *float64 `json:"high"`
		Agrees bool     `json:"agrees"`
	}
)

// WithSimulation adds simulated sizes to the JSON of a result.
func WithSimulation(s *simulate.Simulation) Addition {
	out := &simulationJSON{Trials: s.Trials, Failed: s.Failed, Seed: s.Seed, Sizes: map[string]simulatedSizeJSON{}}
	for i := range s.Sizes {
		size := &s.Sizes[i]
		show := func(x float64) *float64 { return number(natural(x, size.Dimension)) }
		low, high := size.Interval()
		out.Sizes[size.ID] = simulatedSizeJSON{
			Mean: show(size.Mean), U: show(size.U), Low: show(low), High: show(high), Agrees: remarkOn(size.Moved()) == agrees,
		}
	}
	return func(r *resultJSON) { r.Simulation = out }
}
