package report

import (
	"fmt"
	"io"
	"math"

	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Gear writes what a gear may have been.
func Gear(w io.Writer, seen series.GearSeen, a series.GearAnswer, style Style) error {
	p := &printer{w: w, units: unit.Millimetre, style: style}
	return p.report(func() { p.gearCandidates(seen, a.Candidates) }, func() { p.settle(a.Settle, a.Warnings) }, func() { p.gearSource(a) })
}

func (p *printer) gearCandidates(seen series.GearSeen, list []series.Gear) {
	p.line("%s\n", p.paint(bold, fmt.Sprintf("Spur gear of %d teeth", seen.Teeth)))
	rows := [][]string{{"may be", "chance", "module, mm", "DP", "shift", "tip diameter, mm", "teeth thinner by"}}
	for _, g := range list {
		thinner := "flanks not read"
		if len(seen.Spans)+len(seen.Pins) > 0 {
			thinner = fmt.Sprintf("%.2f mm", g.Wear)
		}
		rows = append(rows, []string{
			p.marked(g.Designation, g.Source), percent(g.P), fmt.Sprintf("%.4g", g.Module), fmt.Sprintf("%.4g", unit.MillimetresPerInch/g.Module),
			shiftText(g), fmt.Sprintf("%.2f", g.Module*(float64(seen.Teeth)+2*g.Addendum+2*g.Shift)), thinner,
		})
	}
	p.table(rows)
}

// shiftText writes the profile shift, none where that is the likelier.
func shiftText(g series.Gear) string {
	if g.Shifted < 0.5 {
		return "none"
	}
	v, u := unit.WithUncertainty(g.Shift, 1.96*g.UShift)
	return v + " ± " + u
}

func (p *printer) gearSource(a series.GearAnswer) {
	var sources sourceList
	for _, g := range a.Candidates {
		sources.add(g.Family, g.Source)
	}
	p.sources(sources)
}

// Taper writes what a taper may have been.
func Taper(w io.Writer, a series.TaperAnswer, style Style) error {
	p := &printer{w: w, units: unit.Millimetre, style: style}
	return p.report(func() { p.taperCandidates(a) }, func() { p.settle(a.Settle, a.Warnings) }, func() { p.taperSource(a) })
}

func (p *printer) taperCandidates(a series.TaperAnswer) {
	rows := [][]string{{"may be", "chance", "half angle", "1 in", "in/ft", "gauge line", "which lies"}}
	for _, t := range a.Candidates {
		tangent := math.Tan(t.HalfAngle)
		row := []string{
			p.marked(t.Designation, t.Source), percent(t.P), fmt.Sprintf("%.4f°", t.HalfAngle*degreesPerRadian),
			fmt.Sprintf("%.3f", 1/(2*tangent)), fmt.Sprintf("%.4f", 24*tangent), "", "",
		}
		if !math.IsNaN(t.GaugeLine) {
			row[5], row[6] = bothLengths(t.Large), gaugeLineText(t)
		}
		rows = append(rows, row)
	}
	if a.None >= 0.001 {
		rows = append(rows, []string{"no series", percent(a.None), "", "", "", "", ""})
	}
	p.table(rows)
}

// gaugeLineText says how far in or out the gauge line sits.
func gaugeLineText(t series.Taper) string {
	v, u := unit.WithUncertainty(math.Abs(t.GaugeLine), 1.96*t.UGaugeLine)
	where := "inside the large end"
	if t.GaugeLine < 0 {
		where = "beyond the large end"
	}
	return fmt.Sprintf("%s ± %s mm %s", v, u, where)
}

func (p *printer) taperSource(a series.TaperAnswer) {
	var sources sourceList
	for _, t := range a.Candidates {
		sources.add(t.Family, t.Source)
	}
	p.sources(sources)
}
