package report

import (
	"fmt"
	"io"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/meaning/series"
)

// Tapping is what there is to say of tapping a thread, and of cutting it where
// that was asked for too.
type Tapping struct {
	Sheet   series.Sheet
	Left    bool
	Holes   []lathe.TapHole
	Cutting *lathe.ThreadCutting // nil where it was not asked for
}

// Tap writes the holes for a tap, then the passes of a thread that is cut.
func Tap(w io.Writer, t Tapping, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		p.line("%s", p.paint(bold, threadName(t)))
		var sources sourceList
		sources.add(t.Sheet.Thread.Designation, t.Sheet.Thread.Source)
		for _, h := range t.Holes {
			p.tapHole(h, &sources)
		}
		p.nutBore(t.Sheet, &sources)
		if t.Cutting != nil {
			p.screwcutting(t.Cutting, &sources)
			p.atTheMachine()
		}
		p.sources(sources)
	})
}

func threadName(t Tapping) string {
	if t.Left {
		return t.Sheet.Thread.Designation + ", left hand"
	}
	return t.Sheet.Thread.Designation
}

func (p *printer) tapHole(h lathe.TapHole, sources *sourceList) {
	hole := h.Hole(h.Wanted)
	p.line("\n  Hole for %s %% of thread: %s; 100 %% is %s", figure(h.Wanted), p.paint(bold, p.bothLengths(hole)), h.Of)
	sources.add("hole for the tap", h.Source)
	if len(h.Drills) == 0 {
		p.line("  no drill of the tables comes near: bore it")
		return
	}
	rows := [][]string{{"nearest drills", "mm", "in", "leaves"}}
	for _, d := range h.Drills {
		rows = append(rows, []string{p.marked(drillName(&d.Drill), d.Source), decimal(d.Diameter, 3), inches(d.Diameter), fmt.Sprintf("%.0f %%", d.Gives)})
		sources.add("drills", d.Source)
	}
	p.table(p.columns(rows))
}

// nutBores returns the limits of the bore of a nut.
func nutBores(sheet series.Sheet) []series.Limit {
	return slices.DeleteFunc(slices.Clone(sheet.Limits), func(l series.Limit) bool { return l.Of != "nut, minor" })
}

// nutBore writes the limits that the hole must keep to.
func (p *printer) nutBore(sheet series.Sheet, sources *sourceList) {
	bores := nutBores(sheet)
	if len(bores) == 0 {
		return
	}
	rows := [][]string{{"the standard's bore", "mm", "in"}}
	for _, l := range bores {
		rows = append(rows, []string{p.marked(l.Class, l.Source), decimal(l.Low, 3) + " to " + decimal(l.High, 3), inches(l.Low) + " to " + inches(l.High)})
		sources.add("limits", l.Source)
	}
	p.line("")
	p.table(p.columns(rows))
}

// screwcutting writes how a thread is cut with a single point.
func (p *printer) screwcutting(c *lathe.ThreadCutting, sources *sourceList) {
	p.heading("Cut on the lathe")
	what := "turn to"
	if c.Wanted.Inside {
		what = "bore to"
	}
	p.line("  %s %s, depth of thread %s", what, p.bothLengths(c.Blank), p.bothLengths(c.Depth))
	p.line("  end of the tool %s wide", p.bothLengths(c.Tip))
	p.line("  relief %s wide, %s across; without one the last %s are not full", p.told(c.Relief.Width, 1), p.told(c.Relief.Diameter, 2), p.told(c.Relief.RunOut, 1))
	p.line("")
	p.passes(c)
	if len(c.Wires) > 0 {
		p.line("")
		p.overWires(c, sources)
	}
	p.line("")
	for _, text := range c.Advice {
		p.paragraph("- ", text)
	}
}

// passes writes the infeed, straight and along the top slide.
func (p *printer) passes(c *lathe.ThreadCutting) {
	rows := [][]string{{"pass", "straight in, " + p.lengthUnit(), "divisions", "", "divisions"}}
	slanted := !math.IsNaN(c.Setting)
	if slanted {
		rows[0][3] = fmt.Sprintf("or top slide at %s°, %s", decimal(c.Setting*degreesPerRadian, 1), p.lengthUnit())
	}
	for i, pass := range c.Passes {
		row := []string{count(i + 1), p.inUnit(pass.Depth, 3), dial(pass.CrossDial), "", ""}
		if slanted {
			row[3], row[4] = p.inUnit(pass.Slant, 3), dial(pass.TopDial)
		}
		if pass.Spring {
			row[0] += ", spring"
		}
		rows = append(rows, row)
	}
	p.table(filled(rows))
	p.paragraph("", "All from where the tool touches. Each pass takes off the same area; the angle is that of the top slide from square to the axis.")
}

// dial writes divisions of a dial to a tenth.
func dial(divisions float64) string {
	if math.IsNaN(divisions) {
		return ""
	}
	return decimal(divisions, 1)
}

func (p *printer) overWires(c *lathe.ThreadCutting, sources *sourceList) {
	rows := [][]string{{"over wires of " + p.told(c.Wires[0].Wire, 3), "mm", "in"}}
	for _, w := range c.Wires {
		rows = append(rows, []string{p.marked(w.Class, w.Source), decimal(w.Low, 3) + " to " + decimal(w.High, 3), inches(w.Low) + " to " + inches(w.High)})
		sources.add("limits", w.Source)
	}
	p.table(p.columns(rows))
	sources.add("wires", c.Sheet.Wires.Source)
}

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
func TapJSON(w io.Writer, t Tapping) error {
	out := tapJSON{Thread: t.Sheet.Thread.Designation, Left: t.Left, Pitch: t.Sheet.Thread.Pitch, Holes: []holeJSON{}, Bores: []boreJSON{}}
	for _, h := range t.Holes {
		hole := holeJSON{Full: h.Of, Percent: h.Wanted, Hole: h.Hole(h.Wanted), Drills: []tapDrillJSON{}, Source: h.Source}
		for _, d := range h.Drills {
			hole.Drills = append(hole.Drills, tapDrillJSON{drillName(&d.Drill), d.Series, d.Diameter, d.Gives, d.Source})
		}
		out.Holes = append(out.Holes, hole)
	}
	for _, l := range nutBores(t.Sheet) {
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
		Wires: []overWiresJSON{}, Relief: reliefJSON(c.Relief), Advice: c.Advice,
	}
	for _, p := range c.Passes {
		out.Passes = append(out.Passes, passJSON{p.Depth, number(p.Slant), number(p.CrossDial), number(p.TopDial), p.Spring})
	}
	for _, w := range c.Wires {
		out.Wires = append(out.Wires, overWiresJSON{w.Wire, boreJSON{w.Class, w.Low, w.High}})
	}
	return out
}
