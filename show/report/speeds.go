package report

import (
	"fmt"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/make/lathe"
)

// CutSpeeds writes at what speed to start cutting. The machine is the id of the
// one whose speeds were looked at, empty where there is none.
func CutSpeeds(w io.Writer, s *lathe.CutSpeeds, machine string, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		p.speedsHeading(s, machine)
		p.speedRows(s)
		if s.Feed != nil {
			p.line("")
		}
		p.feed(s)
		for _, warning := range s.Warnings {
			p.line("")
			p.paragraph("", p.paint(yellow, warning))
		}
		p.atTheMachine()
		var sources sourceList
		for _, row := range s.Rows {
			sources.add(row.Material+", "+row.Operation, row.Source)
		}
		p.sources(sources)
	})
}

func (p *printer) speedsHeading(s *lathe.CutSpeeds, machine string) {
	p.line("%s", p.paint(bold, fmt.Sprintf("%s of %s, %s, %s tool", s.Wanted.Operation, s.Wanted.Material, p.across(s.Wanted.Diameter), s.Wanted.Tool)))
	if s.CountsAs != s.Wanted.Material {
		p.line("  counts as %s", s.CountsAs)
	}
	start := decimal(s.Start, 0) + " rev/min"
	if s.Set > 0 {
		start = fmt.Sprintf("%s rev/min of the %s, the nearest not over %s", figure(s.Set), machine, start)
		if s.Set > s.Start {
			start = fmt.Sprintf("%s rev/min of the %s, its lowest, for %s", figure(s.Set), machine, decimal(s.Start, 0))
		}
	}
	p.line("  start with %s\n", p.paint(bold, start))
}

// feetPerMetre turns m/min into ft/min.
const feetPerMetre = 1 / 0.3048

func (p *printer) speedRows(s *lathe.CutSpeeds) {
	rows := [][]string{{"the tables have", "for", "m/min", "ft/min", "rev/min"}}
	between := func(low, high float64) string {
		if low == high {
			return decimal(low, 0)
		}
		return decimal(low, 0) + " to " + decimal(high, 0)
	}
	for _, r := range s.Rows {
		rows = append(rows, []string{
			p.marked(r.Material, r.Source), r.Operation + ", " + r.Tool,
			between(r.Low, r.High), between(r.Low*feetPerMetre, r.High*feetPerMetre), between(r.Slow, r.Fast),
		})
	}
	p.table(rows)
	p.line("")
	p.paragraph("", "These are starting values, and no standard stands behind them: rev/min = 1000·v/(π·d). Work, tool and machine say what they bear.")
}

// feedWords says what a feed is counted in.
var feedWords = map[lathe.FeedOf]string{
	lathe.PerTurn:     "mm for a turn of the spindle",
	lathe.PerDiameter: "of the diameter for a turn",
	lathe.PerTooth:    "mm for a tooth",
}

func (p *printer) feed(s *lathe.CutSpeeds) {
	if f := s.Feed; f != nil {
		low, high, words := figure(f.Low), figure(f.High), feedWords[f.Of]
		if of, isLength := strings.CutPrefix(words, "mm "); isLength && p.inchFirst() {
			low, high, words = p.inUnit(f.Low, 3), p.inUnit(f.High, 3), p.lengthUnit()+" "+of
		}
		p.paragraph("", fmt.Sprintf("Feed: %s to %s %s, the least of it to finish (common practice, no source).", low, high, words))
	}
}

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
		out.Feed = &feedJSON{f.Low, f.High, feedWords[f.Of]}
	}
	for _, r := range s.Rows {
		out.Rows = append(out.Rows, speedRowJSON{r.Material, r.Operation, r.Tool, r.Low, r.High, r.Slow, r.Fast, r.Source})
	}
	return encode(w, out)
}
