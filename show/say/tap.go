package say

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Tapping is what there is to say of tapping a thread, and of cutting it where that
// was asked for too.
type Tapping struct {
	Sheet   series.Sheet
	Left    bool
	Holes   []lathe.TapHole
	Cutting *lathe.ThreadCutting // nil where it was not asked for
}

// Tap says which hole a tap wants, then the passes of a thread that is cut.
func Tap(t Tapping) *doc.Document {
	p := titled(handed(t.Sheet.Thread.Designation, t.Left))
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
	return &p.Document
}

func (p *page) tapHole(h lathe.TapHole, sources *sourceList) {
	hole := doc.In(doc.Strong, doc.Show(unit.Twice(h.Hole(h.Wanted))))
	p.apart("Hole for %s %% of thread: %s; 100 %% is %s", figure(h.Wanted), hole, h.Of)
	sources.add("hole for the tap", h.Source)
	if len(h.Drills) == 0 {
		p.say("no drill of the tables comes near: bore it")
		return
	}
	t := &doc.Table{Name: "drills", Columns: append(append([]doc.Column{plain("nearest drills")}, inBoth()...), plain("leaves"))}
	for _, d := range h.Drills {
		t.Add(twice(doc.Cells{"nearest drills": marked(d.Asked(), d.Source), "leaves": doc.Say("%.0f %%", d.Gives)}, bare(d.Diameter)))
		sources.add("drills", d.Source)
	}
	p.Add(t)
}

// NutBores returns the limits of the bore of a nut.
func NutBores(sheet series.Sheet) []series.Limit {
	return slices.DeleteFunc(slices.Clone(sheet.Limits), func(l series.Limit) bool { return l.Of != "nut, minor" })
}

// nutBore lists the limits that the hole must keep to.
func (p *page) nutBore(sheet series.Sheet, sources *sourceList) {
	t := &doc.Table{Name: "bores", Space: doc.Apart, Columns: append([]doc.Column{plain("the standard's bore")}, inBoth()...)}
	for _, l := range NutBores(sheet) {
		t.Add(twice(doc.Cells{"the standard's bore": marked(l.Class, l.Source)}, bareLimits(l.Low, l.High)))
		sources.add("limits", l.Source)
	}
	if len(t.Rows) > 0 {
		p.Add(t)
	}
}

// screwcutting says how a thread is cut with a single point.
func (p *page) screwcutting(c *lathe.ThreadCutting, sources *sourceList) {
	p.section("Cut on the lathe")
	what := "turn to"
	if c.Wanted.Inside {
		what = "bore to"
	}
	p.under(0, "%s %s, depth of thread %s", what, unit.Twice(c.Blank), unit.Twice(c.Depth))
	p.under(0, "end of the tool %s wide", unit.Twice(c.Tip))
	p.under(0, "relief %s wide, %s across; without one the last %s are not full",
		told(c.Relief.Width, 1), told(c.Relief.Diameter, 2), told(c.Relief.RunOut, 1))
	p.passes(c)
	p.overWires(c, sources)
	for _, text := range c.Advice {
		p.item("%s", text)
	}
}

// passes lists the infeed, straight and along the top slide.
func (p *page) passes(c *lathe.ThreadCutting) {
	t := &doc.Table{Name: "passes", Space: doc.Apart, Columns: []doc.Column{
		plain("pass"),
		{Name: "straight", Head: doc.Say("straight in, %s", unitName())},
		{Name: "cross", Head: doc.Plain("divisions")},
		{Name: "slant", Head: doc.Say("or top slide at %s°, %s", decimal(c.Setting*degreesPerRadian, 1), unitName())},
		{Name: "top", Head: doc.Plain("divisions")},
	}}
	for i, pass := range c.Passes {
		name := decimal(float64(i+1), 0)
		if pass.Spring {
			name += ", spring"
		}
		row := doc.Cells{"pass": doc.Plain(name), "straight": doc.Show(toldBare(pass.Depth, 3)), "cross": divided(pass.CrossDial)}
		if !math.IsNaN(c.Setting) {
			row["slant"], row["top"] = doc.Show(toldBare(pass.Slant, 3)), divided(pass.TopDial)
		}
		t.Add(row)
	}
	p.Add(t.Filled())
	p.say("All from where the tool touches. Each pass takes off the same area; the angle is that of the top slide from square to the axis.")
}

// divided is a number of divisions of a dial to a tenth, nothing where there is no
// dial.
func divided(n float64) doc.Text {
	if math.IsNaN(n) {
		return nil
	}
	return doc.Plain(decimal(n, 1))
}

func (p *page) overWires(c *lathe.ThreadCutting, sources *sourceList) {
	if len(c.Wires) == 0 {
		return
	}
	t := &doc.Table{Name: "wires", Space: doc.Apart, Columns: append([]doc.Column{
		{Name: "class", Head: doc.Say("over wires of %s", told(c.Wires[0].Wire, 3))},
	}, inBoth()...)}
	for _, w := range c.Wires {
		t.Add(twice(doc.Cells{"class": marked(w.Class, w.Source)}, bareLimits(w.Low, w.High)))
		sources.add("limits", w.Source)
	}
	p.Add(t)
	sources.add("wires", c.Sheet.Wires.Source)
}
