package report

import (
	"fmt"
	"math"
	"strings"

	"oddleg/adjust"
	"oddleg/unit"
)

// suspects names every observation that the others contradict.
func (p *printer) suspects() {
	var lines []string
	for _, v := range p.r.Readings {
		if v.Suspect {
			lines = append(lines, p.suspectValue(v))
		}
	}
	for _, z := range p.r.Instruments {
		if z.Suspect {
			lines = append(lines, fmt.Sprintf("%s: its zero is %s out, more than it states", z.ID, p.amount(z.Value, z.Dimension)))
		}
	}
	for _, piece := range p.r.Pieces {
		if piece.Suspect {
			lines = append(lines, fmt.Sprintf("%s: the readings want it %s; is it the right piece?", piece.ID, p.amount(piece.Value, unit.Length)))
		}
	}
	lines = append(lines, p.suspectTies()...)
	if len(lines) == 0 {
		return
	}
	p.heading("Suspect: look at these again")
	for _, line := range lines {
		p.line("  %s", p.paint(red, line))
	}
}

func (p *printer) suspectValue(v adjust.Value) string {
	name := p.valueName(v.ID, v.Index)
	if v.Impossible && math.IsNaN(v.Others) {
		return name + ": cannot be with the other readings"
	}
	if v.Pair {
		return fmt.Sprintf("%s: %s off the circle or line that the others give (%.1f standard deviations)",
			name, p.amount(math.Abs(v.Residual), unit.Length), math.Abs(v.Normalised))
	}
	if !math.IsNaN(v.Others) {
		return fmt.Sprintf("%s: saw %s, without it the others give %s", name, p.amount(v.Saw[0], v.Dimension), p.amount(v.Others, v.Dimension))
	}
	if v.Redundancy == 0 {
		return fmt.Sprintf("%s: saw %s, which does not go with what is named below", name, p.amount(v.Saw[0], v.Dimension))
	}
	return fmt.Sprintf("%s: saw %s, all together give %s (%.1f standard deviations)",
		name, p.amount(v.Saw[0], v.Dimension), p.amount(v.Predicted[0], v.Dimension), math.Abs(v.Normalised))
}

// suspectTies names the known sizes and relations that the readings contradict.
func (p *printer) suspectTies() []string {
	var lines []string
	for _, s := range p.r.Sizes {
		if s.Known != nil && s.Known.Suspect {
			lines = append(lines, fmt.Sprintf("%s: what was known beforehand does not fit the readings (%.1f standard deviations)", s.ID, math.Abs(s.Known.Normalised)))
		}
	}
	for _, t := range p.r.Relations {
		if t.Suspect {
			r := p.r.Job.Relations[t.Index]
			lines = append(lines, fmt.Sprintf("relation %s = %s: the readings contradict it (%.1f standard deviations)", r.That, r.Is, math.Abs(t.Normalised)))
		}
	}
	return lines
}

// valueName names one value of a reading, with its place in the list only
// where there are several.
func (p *printer) valueName(id string, index int) string {
	r := p.r.Job.Reading(id)
	name := id
	if len(r.Saw) > 1 {
		name = fmt.Sprintf("%s, value %d", id, index+1)
	}
	return name + " (" + r.By + ")"
}

// either names what cannot be told apart.
func (p *printer) either() {
	if len(p.r.Either) == 0 {
		return
	}
	p.heading("One of these is wrong, but the readings cannot tell which")
	for _, group := range p.r.Either {
		var names []string
		for _, source := range group {
			names = append(names, p.sourceName(source))
		}
		p.line("  %s", strings.Join(names, "  or  "))
	}
}

func (p *printer) sourceName(s adjust.Source) string {
	switch s.Kind {
	case adjust.FromReading:
		return p.valueName(s.ID, s.Index)
	case adjust.FromKnown:
		return s.ID + " as known"
	case adjust.FromRelation:
		r := p.r.Job.Relations[s.Index]
		return "relation " + r.That + " = " + r.Is
	}
	return s.ID
}

// setAside shows the values that the user left out.
func (p *printer) setAside() {
	var shown []string
	for _, v := range p.r.Readings {
		if !v.SetAside {
			continue
		}
		line := fmt.Sprintf("%s: saw %s", p.valueName(v.ID, v.Index), p.saw(v))
		if !v.Unknown && !v.Pair {
			line += ", the others give " + p.amount(v.Predicted[0], v.Dimension)
		}
		if why := p.r.Job.Reading(v.ID).Why; why != "" {
			line += ": " + why
		}
		shown = append(shown, line)
	}
	p.list("Set aside", shown)
}

func (p *printer) saw(v adjust.Value) string {
	if v.Pair {
		return p.amount(v.Saw[0], unit.Length) + ", " + p.amount(v.Saw[1], unit.Length)
	}
	return p.amount(v.Saw[0], v.Dimension)
}

// list writes a heading and its lines, nothing where there are none.
func (p *printer) list(heading string, lines []string) {
	if len(lines) == 0 {
		return
	}
	p.heading(heading)
	for _, line := range lines {
		p.line("  %s", line)
	}
}

func (p *printer) undetermined() {
	var lines []string
	for _, u := range p.r.Undetermined {
		lines = append(lines, u.Text)
	}
	p.list("Cannot be found from these readings", lines)
}

func (p *printer) warnings() {
	var lines []string
	for _, w := range p.r.Warnings {
		if w.Reading != "" {
			lines = append(lines, fmt.Sprintf("%s (%s): %s", w.Reading, p.r.Job.Reading(w.Reading).By, w.Text))
			continue
		}
		lines = append(lines, w.Text)
	}
	p.list("Mind", lines)
}
