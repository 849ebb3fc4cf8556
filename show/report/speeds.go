package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The JSON form of speeds.
type (
	speedsJSON struct {
		Material   string         `json:"material"`
		CountsAs   string         `json:"counts_as"`
		Operation  string         `json:"operation"`
		Tool       string         `json:"tool"`
		DiameterMM float64        `json:"diameter_mm"`
		RPM        float64        `json:"rpm"`
		MachineRPM *float64       `json:"machine_rpm,omitempty"`
		Starting   bool           `json:"starting_values"`
		Feed       *feedJSON      `json:"feed,omitempty"`
		Rows       []speedRowJSON `json:"rows"`
		Warnings   []string       `json:"warnings"`
	}
	feedJSON struct {
		Low  float64 `json:"low"`
		High float64 `json:"high"`
		Of   string  `json:"of"`
	}
	speedRowJSON struct {
		Material  string  `json:"material"`
		Operation string  `json:"operation"`
		Tool      string  `json:"tool"`
		SlowMPM   float64 `json:"low_m_per_min"`
		FastMPM   float64 `json:"high_m_per_min"`
		SlowRPM   float64 `json:"low_rpm"`
		FastRPM   float64 `json:"high_rpm"`
		Source    string  `json:"source"`
	}
)

// CutSpeedsJSON writes the speeds as one JSON object.
func CutSpeedsJSON(w io.Writer, s *lathe.CutSpeeds) error {
	out := speedsJSON{
		Material: s.Wanted.Material, CountsAs: s.CountsAs, Operation: s.Wanted.Operation, Tool: s.Wanted.Tool, DiameterMM: s.Wanted.Diameter,
		RPM: s.Start, MachineRPM: numberIf(s.Set > 0, s.Set), Starting: true, Warnings: append([]string{}, s.Warnings...),
	}
	if f := s.Feed; f != nil {
		out.Feed = &feedJSON{f.Low, f.High, say.FeedWords[f.Of]}
	}
	for _, r := range s.Rows {
		out.Rows = append(out.Rows, speedRowJSON{r.Material, r.Operation, r.Tool, r.Low, r.High, r.Slow, r.Fast, r.Source})
	}
	return encode(w, out)
}
