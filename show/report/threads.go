package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Thread writes what a thread may have been as a machinist reads it, and what
// is needed to cut and gauge the likeliest.
func Thread(w io.Writer, seen series.ThreadSeen, a series.ThreadAnswer, left bool, style Style) error {
	p := &printer{w: w, units: unit.Millimetre, style: style}
	sheet := series.ThreadSheet(a.Candidates[0].Thread)
	return p.report(
		func() { p.threadHeading(seen, left) },
		func() { p.threadCandidates(seen, a.Candidates) },
		func() { p.settle(a.Settle, a.Warnings) },
		func() { p.threadSheet(sheet, left) },
	)
}

func (p *printer) threadHeading(seen series.ThreadSeen, left bool) {
	what := "Screw"
	if seen.Inside {
		what = "Nut or tapped hole"
	}
	if left {
		what += ", left hand"
	}
	p.line("%s", p.paint(bold, what))
	var read []string
	add := func(name string, m series.Measured) {
		if m.Given() {
			read = append(read, fmt.Sprintf("%s %.3f mm", name, m.Value))
		}
	}
	add("major", seen.Major)
	add("effective", seen.Effective)
	add("minor", seen.Minor)
	if seen.Pitch.Given() {
		read = append(read, fmt.Sprintf("pitch %.3f mm or %.2f tpi", seen.Pitch.Value, unit.MillimetresPerInch/seen.Pitch.Value))
	}
	if seen.Angle.Given() {
		read = append(read, "flanks "+unit.ShowAngle(seen.Angle.Value))
	}
	p.line("  read: %s\n", strings.Join(read, ", "))
}

func (p *printer) threadCandidates(seen series.ThreadSeen, list []series.Thread) {
	lost := "crests worn or cut low by"
	if seen.Inside {
		lost = "bore larger than basic by"
	}
	rows := [][]string{{"may be", "chance", "basic major", "pitch", "flanks", lost}}
	for _, t := range list {
		name := t.Designation
		if t.Decided {
			name += ", as decided"
		}
		rows = append(rows, []string{
			p.marked(name, t.Source), percent(t.P), bothLengths(t.Major), pitchText(t.Thread), flanks(t.Angle), fmt.Sprintf("%.2f mm", t.Wear),
		})
	}
	p.table(rows)
	p.memoryNote(memoryOf(list))
}

func memoryOf(list []series.Thread) bool {
	return slices.ContainsFunc(list, func(t series.Thread) bool { return facts.FromMemory(t.Source) })
}

// memoryMark stands behind what is from memory, memoryText says so below.
const (
	memoryMark = " *"
	memoryText = "* from memory: no second place was seen for these figures; check them before you cut metal"
)

func (p *printer) marked(text, source string) string {
	if facts.FromMemory(source) {
		return text + p.paint(yellow, memoryMark)
	}
	return text
}

func (p *printer) memoryNote(any bool) {
	if any {
		p.line("  %s", p.paint(yellow, memoryText))
	}
}

// percent writes a probability, and never says that a thing is sure.
func percent(x float64) string {
	switch {
	case x > 0.995:
		return "over 99 %"
	case x < 0.001:
		return "under 0.1 %"
	case x < 0.01:
		return fmt.Sprintf("%.1f %%", 100*x)
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}

func bothLengths(mm float64) string {
	return fmt.Sprintf("%.3f mm  %s", mm, unit.ThouText(mm))
}

func pitchText(t facts.Thread) string {
	if t.TPI != 0 {
		return fmt.Sprintf("%g tpi  (%.4f mm)", t.TPI, t.Pitch)
	}
	return fmt.Sprintf("%g mm", t.Pitch)
}

// flanks writes an included angle as the trade does, 47.5° and 60°.
func flanks(angle float64) string {
	return fmt.Sprintf("%g°", math.Round(angle*degreesPerRadian*100)/100)
}

// settle says which reading to take next, and what is doubtful.
func (p *printer) settle(text string, warnings []string) {
	p.heading("To settle it")
	for _, sentence := range strings.Split(text, "; ") {
		p.paragraph("", sentence)
	}
	if len(warnings) > 0 {
		p.heading("Mind")
		for _, w := range warnings {
			p.paragraph("", w)
		}
	}
}

// threadSheet writes what is needed to cut and gauge a thread.
func (p *printer) threadSheet(s series.Sheet, left bool) {
	name := s.Thread.Designation
	if left {
		name += ", left hand"
	}
	p.heading("If it is " + name)
	var sources sourceList
	p.basicSizes(s, &sources)
	p.threadLimits(s, &sources)
	p.tapping(s, &sources)
	p.wires(s, &sources)
	p.hexagons(s, &sources)
	p.sources(sources)
}

func (p *printer) basicSizes(s series.Sheet, sources *sourceList) {
	b := s.Basic
	rows := [][]string{{"basic sizes", "mm", "in"}}
	for _, size := range []struct {
		name string
		mm   float64
	}{
		{"major", b.Major},
		{"effective", b.Effective},
		{"minor of the screw", b.MinorScrew},
		{"minor of the nut", b.MinorNut},
		{"major of the nut", b.MajorNut},
	} {
		if size.name != "major of the nut" || b.MajorNut != b.Major {
			rows = append(rows, []string{size.name, fmt.Sprintf("%.3f", size.mm), inches(size.mm)})
		}
	}
	p.table(rows)
	sources.add(s.Thread.Designation, s.Thread.Source)
	sources.add(s.Thread.Form+" form", b.Source)
}

func inches(mm float64) string { return strings.TrimSuffix(unit.ThouText(mm), " in") }

func (p *printer) threadLimits(s series.Sheet, sources *sourceList) {
	if len(s.Limits) == 0 {
		p.line("\n  The tables have no limits for this thread.")
		return
	}
	rows := [][]string{{"limits", "class", "mm", "in"}}
	for _, l := range s.Limits {
		rows = append(rows, []string{
			p.marked(l.Of, l.Source), l.Class, fmt.Sprintf("%.3f to %.3f", l.Low, l.High), inches(l.Low) + " to " + inches(l.High),
		})
		sources.add("limits", l.Source)
	}
	p.line("")
	p.table(rows)
}

func (p *printer) tapping(s series.Sheet, sources *sourceList) {
	if len(s.Tapping) == 0 {
		return
	}
	of := ""
	var rows [][]string
	flush := func() {
		if len(rows) > 1 {
			p.table(rows)
		}
	}
	for _, t := range s.Tapping {
		if t.Of != of {
			flush()
			of = t.Of
			p.line("\n  Hole for the tap; 100 %% is %s", of)
			rows = [][]string{{"thread", "hole, mm", "nearest drill", "mm", "leaves"}}
		}
		row := []string{fmt.Sprintf("%.0f %%", t.Percent), fmt.Sprintf("%.2f", t.Hole), "bore it", "", ""}
		if t.Drill != nil {
			row = append(row[:2], p.marked(drillName(t.Drill), t.Drill.Source), fmt.Sprintf("%.3f", t.Drill.Diameter), fmt.Sprintf("%.0f %%", t.Gives))
			sources.add("drills", t.Drill.Source)
		}
		rows = append(rows, row)
		sources.add("hole for the tap", t.Source)
	}
	flush()
}

func (p *printer) wires(s series.Sheet, sources *sourceList) {
	w := s.Wires
	if w == nil {
		return
	}
	p.line("\n  Over three wires")
	p.paragraph("", fmt.Sprintf("best wire %.3f mm (%s), from %.3f to %.3f mm will do; over the best the basic effective diameter reads %.3f mm (%s)",
		w.Best, unit.ThouText(w.Best), w.Smallest, w.Largest, w.Over, unit.ThouText(w.Over)))
	for _, advice := range w.Advice {
		p.paragraph("", advice)
	}
	sources.add("wires", w.Source)
}

func (p *printer) hexagons(s series.Sheet, sources *sourceList) {
	if len(s.Hexagons) == 0 {
		return
	}
	rows := [][]string{{"hexagon across flats", "part", "mm", "in"}}
	for _, h := range s.Hexagons {
		rows = append(rows, []string{p.marked(h.Family, h.Source), h.Part, fmt.Sprintf("%.2f", h.Flats), inches(h.Flats)})
		sources.add("hexagons", h.Standard+": "+h.Source)
	}
	p.line("")
	p.table(rows)
}

// sourceList keeps what each figure rests on, each source once.
type sourceList []string

func (l *sourceList) add(what, source string) {
	line := what + ": " + source
	if source != "" && !slices.Contains(*l, line) {
		*l = append(*l, line)
	}
}

func (p *printer) sources(list sourceList) {
	p.line("\n  Sources")
	memory := false
	for _, line := range list {
		p.paragraph("- ", line)
		memory = memory || facts.FromMemory(line)
	}
	p.memoryNote(memory)
}
