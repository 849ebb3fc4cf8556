package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The JSON form of tapping, in mm and degrees.
type (
	tapJSON struct {
		Thread  string       `json:"thread"`
		Left    bool         `json:"left"`
		Pitch   float64      `json:"pitch_mm"`
		Holes   []holeJSON   `json:"holes"`
		Bores   []boreJSON   `json:"nut_minor"`
		Cutting *cuttingJSON `json:"screwcutting,omitempty"`
	}
	holeJSON struct {
		Full    string         `json:"hundred_percent"`
		Percent float64        `json:"percent"`
		Hole    float64        `json:"hole_mm"`
		Drills  []tapDrillJSON `json:"drills"`
		Source  string         `json:"source"`
	}
	tapDrillJSON struct {
		Drill  string  `json:"drill"`
		Series string  `json:"series"`
		MM     float64 `json:"mm"`
		Gives  float64 `json:"gives_percent"`
		Source string  `json:"source"`
	}
	boreJSON struct {
		Class string  `json:"class"`
		Low   float64 `json:"low"`
		High  float64 `json:"high"`
	}
	cuttingJSON struct {
		Inside bool            `json:"inside"`
		Blank  float64         `json:"blank_mm"`
		Depth  float64         `json:"depth_mm"`
		Tip    float64         `json:"tool_end_mm"`
		Angle  *float64        `json:"top_slide_deg,omitempty"`
		Passes []passJSON      `json:"passes"`
		Wires  []overWiresJSON `json:"over_wires"`
		Relief reliefJSON      `json:"relief"`
		Advice []string        `json:"advice"`
	}
	passJSON struct {
		Depth  float64  `json:"depth_mm"`
		Slant  *float64 `json:"top_slide_mm,omitempty"`
		Cross  *float64 `json:"cross_divisions,omitempty"`
		Top    *float64 `json:"top_divisions,omitempty"`
		Spring bool     `json:"spring,omitempty"`
	}
	overWiresJSON struct {
		Wire float64 `json:"wire_mm"`
		boreJSON
	}
	reliefJSON struct {
		Width    float64 `json:"width_mm"`
		Diameter float64 `json:"diameter_mm"`
		RunOut   float64 `json:"run_out_mm"`
	}
)

// TapJSON writes the same as one JSON object.
func TapJSON(w io.Writer, t say.Tapping) error {
	out := tapJSON{Thread: t.Sheet.Thread.Designation, Left: t.Left, Pitch: t.Sheet.Thread.Pitch, Holes: []holeJSON{}, Bores: []boreJSON{}}
	for _, h := range t.Holes {
		hole := holeJSON{Full: h.Of, Percent: h.Wanted, Hole: h.Hole(h.Wanted), Drills: []tapDrillJSON{}, Source: h.Source}
		for _, d := range h.Drills {
			hole.Drills = append(hole.Drills, tapDrillJSON{drillName(&d.Drill), d.Series, d.Diameter, d.Gives, d.Source})
		}
		out.Holes = append(out.Holes, hole)
	}
	for _, l := range say.NutBores(t.Sheet) {
		out.Bores = append(out.Bores, boreJSON{l.Class, l.Low, l.High})
	}
	if t.Cutting != nil {
		out.Cutting = cuttingToJSON(t.Cutting)
	}
	return encode(w, out)
}

func cuttingToJSON(c *lathe.ThreadCutting) *cuttingJSON {
	out := &cuttingJSON{
		Inside: c.Wanted.Inside, Blank: c.Blank, Depth: c.Depth, Tip: c.Tip, Angle: number(c.Setting * degreesPerRadian),
		Wires: []overWiresJSON{}, Relief: reliefJSON(c.Relief), Advice: told(c.Advice, unit.View{}),
	}
	for _, p := range c.Passes {
		out.Passes = append(out.Passes, passJSON{p.Depth, number(p.Slant), number(p.CrossDial), number(p.TopDial), p.Spring})
	}
	for _, w := range c.Wires {
		out.Wires = append(out.Wires, overWiresJSON{w.Wire, boreJSON{w.Class, w.Low, w.High}})
	}
	return out
}
