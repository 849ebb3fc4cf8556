package report

import (
	"fmt"
	"io"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
)

func ratioText(r trade.Ratio) string {
	if !r.Given() {
		return ""
	}
	return fmt.Sprintf("%d/%d", r.Num, r.Den)
}

// trainJSON is one train, in mm.
type trainJSON struct {
	Drivers  []int    `json:"drivers"`
	Driven   []int    `json:"driven"`
	Gearbox  string   `json:"gearbox,omitempty"`
	Pitch    float64  `json:"pitch_mm"`
	Lead     *float64 `json:"lead_mm,omitempty"` // of several starts
	ErrorPPM float64  `json:"error_ppm"`
	Over     *float64 `json:"error_over_length_mm,omitempty"`
}

// ChangeGearsJSON writes the trains as one JSON list, best first.
func ChangeGearsJSON(w io.Writer, found *lathe.ChangeGears, length float64) error {
	list := []trainJSON{}
	starts := max(1, found.Wanted.Starts)
	for _, t := range found.Trains {
		out := trainJSON{Drivers: t.Drivers, Driven: t.Driven, Gearbox: ratioText(t.Gearbox), Pitch: t.Lead / float64(starts), ErrorPPM: t.Error * 1e6}
		out.Lead = numberIf(starts > 1, t.Lead)
		out.Over = numberIf(length > 0 && !math.IsInf(length, 0), t.Over(length))
		list = append(list, out)
	}
	return encode(w, list)
}
