package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// suspect is one observation that the others contradict, in words.
type suspect struct {
	source adjust.Source
	text   string
}

// suspects names every observation that the others contradict, and what may
// have gone wrong with it.
func (p *printer) suspects() {
	list := p.suspectList()
	if len(list) == 0 {
		return
	}
	order := make([]adjust.Source, len(list))
	for i, s := range list {
		order[i] = s.source
	}
	p.heading("Suspect: look at these again")
	for _, s := range list {
		p.line("  %s", p.paint(red, s.text))
		for _, line := range p.explained(s.source, order) {
			p.line("    %s", line)
		}
	}
}

func (p *printer) suspectList() []suspect {
	var list []suspect
	for _, v := range p.r.Readings {
		if v.Suspect {
			list = append(list, suspect{adjust.Source{Kind: adjust.FromReading, ID: v.ID, Index: v.Index}, p.suspectValue(v)})
		}
	}
	for _, z := range p.r.Instruments {
		if z.Suspect {
			list = append(list, suspect{
				adjust.Source{Kind: adjust.FromInstrument, ID: z.ID},
				p.suspectZero(z),
			})
		}
	}
	for _, piece := range p.r.Pieces {
		if piece.Suspect {
			list = append(list, suspect{
				adjust.Source{Kind: adjust.FromPiece, ID: piece.ID},
				p.suspectPiece(piece),
			})
		}
	}
	return append(list, p.suspectTies()...)
}

func (p *printer) suspectValue(v adjust.Value) string {
	name := p.valueName(v.ID, v.Index)
	if math.IsNaN(v.Others) {
		v.Others = p.others(adjust.Source{Kind: adjust.FromReading, ID: v.ID, Index: v.Index})
	}
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
func (p *printer) suspectTies() []suspect {
	var list []suspect
	for _, s := range p.r.Sizes {
		if s.Known != nil && s.Known.Suspect {
			list = append(list, suspect{
				adjust.Source{Kind: adjust.FromKnown, ID: s.ID},
				p.suspectKnown(s),
			})
		}
	}
	for _, t := range p.r.Relations {
		if t.Suspect {
			r := p.r.Job.Relations[t.Index]
			list = append(list, suspect{
				adjust.Source{Kind: adjust.FromRelation, Index: t.Index},
				fmt.Sprintf("relation %s = %s: the readings contradict it (%.1f standard deviations)", r.That, r.Is, math.Abs(t.Normalised)),
			})
		}
	}
	return list
}

// suspectZero, suspectPiece and suspectKnown say what the readings want where
// what was stated beforehand is left out; where nothing tells that, what they
// make of it together.
func (p *printer) suspectZero(z adjust.Zero) string {
	source := adjust.Source{Kind: adjust.FromInstrument, ID: z.ID}
	if want := p.others(source); !math.IsNaN(want) {
		return fmt.Sprintf("%s: the others want its zero %s out, more than it states", z.ID, p.amount(want, z.Dimension))
	}
	return fmt.Sprintf("%s: its zero is %s out, more than it states", z.ID, p.amount(z.Value, z.Dimension))
}

func (p *printer) suspectPiece(piece adjust.Piece) string {
	want := p.others(adjust.Source{Kind: adjust.FromPiece, ID: piece.ID})
	if math.IsNaN(want) {
		want = piece.Value
	}
	return fmt.Sprintf("%s: the readings want it %s; is it the right piece?", piece.ID, p.amount(want, unit.Length))
}

func (p *printer) suspectKnown(s adjust.Size) string {
	if want := p.others(adjust.Source{Kind: adjust.FromKnown, ID: s.ID}); !math.IsNaN(want) {
		return fmt.Sprintf("%s: known as %s, without that the readings give %s", s.ID,
			p.amount(p.r.Job.Size(s.ID).Known.Value.Inside(), s.Dimension), p.amount(want, s.Dimension))
	}
	return fmt.Sprintf("%s: what was known beforehand does not fit the readings (%.1f standard deviations)", s.ID, math.Abs(s.Known.Normalised))
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
	settle := settledBy(p.r, p.doubts)
	for i, group := range p.r.Either {
		p.line("  %s", strings.Join(p.rivals(group), "  or  "))
		if settle[i] != "" {
			p.line("    %s", settle[i])
		}
	}
}

// rivals names what stands in a group. Values of a reading that is there beside
// others are wrong together.
func (p *printer) rivals(group []adjust.Source) []string {
	beside := slices.ContainsFunc(group, func(s adjust.Source) bool { return s.Kind != group[0].Kind || s.ID != group[0].ID })
	var names []string
	for _, s := range group {
		name := p.sourceName(s)
		if beside && s.Kind == adjust.FromReading {
			name = s.ID + " (" + p.r.Job.Reading(s.ID).By + ")"
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
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
