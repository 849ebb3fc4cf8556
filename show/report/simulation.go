package report

import (
	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/show/say"
)

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
			Mean: show(size.Mean), U: show(size.U), Low: show(low), High: show(high), Agrees: say.RemarkOn(size.Moved()) == say.Agrees,
		}
	}
	return func(r *resultJSON) { r.Simulation = out }
}
