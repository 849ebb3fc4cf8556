package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/tables/limits"
)

// The JSON form of limits, in mm.
type (
	limitsJSON struct {
		Hole      *intervalJSON  `json:"hole,omitempty"`
		Shaft     *intervalJSON  `json:"shaft,omitempty"`
		Clearance *clearanceJSON `json:"clearance,omitempty"`
	}
	intervalJSON struct {
		Low  float64 `json:"low"`
		High float64 `json:"high"`
	}
	clearanceJSON struct {
		Min float64 `json:"min"`
		Max float64 `json:"max"`
	}
)

// LimitsJSON writes the limits of one hole or shaft as one JSON object.
func LimitsJSON(w io.Writer, code limits.Code, in limits.Interval) error {
	interval := &intervalJSON{in.Low, in.High}
	if code.Hole() {
		return encode(w, limitsJSON{Hole: interval})
	}
	return encode(w, limitsJSON{Shaft: interval})
}

// LimitsOfFitJSON writes the limits of a hole and its shaft as one JSON object;
// an interference is a negative clearance.
func LimitsOfFitJSON(w io.Writer, pair limits.Pair) error {
	return encode(w, limitsJSON{
		Hole:      &intervalJSON{pair.Hole.Low, pair.Hole.High},
		Shaft:     &intervalJSON{pair.Shaft.Low, pair.Shaft.High},
		Clearance: &clearanceJSON{pair.MinClearance, pair.MaxClearance},
	})
}
