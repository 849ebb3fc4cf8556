package say

import (
	"math"

	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Gear says what a gear may have been.
func Gear(seen series.GearSeen, a series.GearAnswer) *doc.Document {
	p := &page{}
	p.Title = doc.Say("Spur gear of %d teeth", seen.Teeth)
	p.gearCandidates(seen, a.Candidates)
	p.settle(a.Settle, a.Warnings)
	var sources sourceList
	for _, g := range a.Candidates {
		sources.add(g.Family, g.Source)
	}
	p.sources(sources)
	return &p.Document
}

func (p *page) gearCandidates(seen series.GearSeen, list []series.Gear) {
	t := &doc.Table{Name: "gears", Columns: []doc.Column{
		plain("may be"), plain("chance"),
		{Name: "module", Head: doc.Plain("module, mm")},
		plain("DP"), plain("shift"),
		{Name: "tip", Head: doc.Say("tip diameter, %s", unitName())},
		plain("teeth thinner by"),
	}}
	for _, g := range list {
		thinner := doc.Plain("flanks not read")
		if len(seen.Spans)+len(seen.Pins) > 0 {
			thinner = doc.Say("%.2f mm", g.Wear)
		}
		tip := g.Module * (float64(seen.Teeth) + 2*g.Addendum + 2*g.Shift)
		t.Add(doc.Cells{
			"may be": marked(g.Designation, g.Source), "chance": doc.Plain(percent(g.P)), "module": doc.Say("%.4g", g.Module),
			"DP": doc.Say("%.4g", unit.MillimetresPerInch/g.Module), "shift": doc.Plain(shiftText(g)),
			"tip": doc.Show(unit.Rounded{MM: tip, Decimals: 2, Bare: true}), "teeth thinner by": thinner,
		})
	}
	p.Add(t)
}

// shiftText writes the profile shift, none where that is the likelier.
func shiftText(g series.Gear) string {
	if g.Shifted < 0.5 {
		return "none"
	}
	v, u := unit.WithUncertainty(g.Shift, half(g.UShift))
	return v + " ± " + u
}

// Taper says what a taper may have been.
func Taper(a series.TaperAnswer) *doc.Document {
	p := &page{}
	p.taperCandidates(a)
	p.settle(a.Settle, a.Warnings)
	var sources sourceList
	for _, t := range a.Candidates {
		sources.add(t.Family, t.Source)
	}
	p.sources(sources)
	return &p.Document
}

func (p *page) taperCandidates(a series.TaperAnswer) {
	table := &doc.Table{Name: "tapers", Columns: []doc.Column{
		plain("may be"), plain("chance"), plain("half angle"), plain("1 in"), plain("in/ft"), plain("gauge line"), plain("which lies"),
	}}
	for _, t := range a.Candidates {
		tangent := math.Tan(t.HalfAngle)
		row := doc.Cells{
			"may be": marked(t.Designation, t.Source), "chance": doc.Plain(percent(t.P)), "half angle": doc.Say("%.4f°", t.HalfAngle*degreesPerRadian),
			"1 in": doc.Say("%.3f", 1/(2*tangent)), "in/ft": doc.Say("%.4f", 24*tangent),
		}
		if !math.IsNaN(t.GaugeLine) {
			row["gauge line"], row["which lies"] = doc.Show(unit.Twice(t.Large)), gaugeLine(t)
		}
		table.Add(row)
	}
	if a.None >= 0.001 {
		table.Add(doc.Cells{"may be": doc.Plain("no series"), "chance": doc.Plain(percent(a.None))})
	}
	p.Add(table)
}

// gaugeLine says how far in or out the gauge line sits.
func gaugeLine(t series.Taper) doc.Text {
	where := "inside the large end"
	if t.GaugeLine < 0 {
		where = "beyond the large end"
	}
	return doc.Say("%s %s %s", measured(math.Abs(t.GaugeLine), t.UGaugeLine, unit.Length), unitName(), where)
}
