package report

import (
	"fmt"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Fit writes what to make a part to, how each size will go with its mate, and
// what chains of sizes come to.
func Fit(w io.Writer, f *fit.Result, style Style) error {
	p := newMaking(w, f, style)
	return p.report(p.head, p.toMake, p.threads, p.matings, p.rest, p.stacks, p.doubtful)
}

// making writes the parts of what to make.
type making struct {
	*printer
	f *fit.Result
}

func newMaking(w io.Writer, f *fit.Result, style Style) *making {
	return &making{printer: &printer{w: w, r: f.Found, units: f.Found.Job.Shown(), style: style}, f: f}
}

// head writes the name of the job, and what is made.
func (p *making) head() {
	p.line("%s\n", p.paint(bold, p.r.Job.Name))
	if part := p.r.Job.Part; part != nil {
		p.line("  %s\n", partText(part))
	}
}

// partText says what is made.
func partText(part *trade.Part) string {
	said := []string{string(part.Kind)}
	if part.Material != "" {
		said = append(said, part.Material)
	}
	if part.Quantity > 1 {
		said = append(said, fmt.Sprintf("%d off", part.Quantity))
	}
	return part.Name + ": " + strings.Join(said, ", ")
}

// toMake writes the table for the bench.
func (p *making) toMake() {
	if len(p.f.Make) > 0 {
		p.table(p.makeRows())
	}
}

// makeRows says of each size what to work to, under a head.
func (p *making) makeRows() [][]string {
	first, second := unit.Millimetre, unit.Inch
	if p.units == unit.Inch {
		first, second = second, first
	}
	rows := [][]string{{"size", "make to", "limits, " + first.String(), "limits, " + second.String(), "it"}}
	for i := range p.f.Make {
		m := &p.f.Make[i]
		if !m.Determined {
			rows = append(rows, []string{m.Size.ID, p.paint(yellow, "not found"), "", "", origin(m)})
			continue
		}
		rows = append(rows, []string{m.Size.ID, p.amount(m.Target, m.Size.Kind.Dimension()), p.limits(m, first), p.limits(m, second), origin(m)})
	}
	return rows
}

// limits writes the limits to work to in a unit, rounded inward; where that
// leaves nothing, as they are.
func (p *making) limits(m *fit.Made, in unit.Unit) string {
	switch d := m.Size.Kind.Dimension(); {
	case !(m.Low < m.High), d != unit.Length && in != p.firstUnit():
		return ""
	case d != unit.Length:
		return p.amount(m.Low, d) + " to " + p.amount(m.High, d)
	}
	low, high, ok := m.Limits(in)
	if !ok {
		return p.paint(yellow, bareLength(m.Low, in)+" to "+bareLength(m.High, in)+" !")
	}
	return bareLength(low, in) + " to " + bareLength(high, in)
}

func (p *printer) firstUnit() unit.Unit {
	if p.units == unit.Inch {
		return unit.Inch
	}
	return unit.Millimetre
}

// bareLength writes a length in mm or inches without its unit.
func bareLength(mm float64, in unit.Unit) string {
	return strings.TrimSuffix(unit.ShowLength(mm, in), " "+in.String())
}

// goes says which way a size meets its mate.
var goes = map[trade.Origin]string{trade.GoesIn: "goes in ", trade.GoesOver: "goes over "}

// origin says where a size comes from.
func origin(m *fit.Made) string {
	s := m.Size
	switch s.From {
	case trade.GoesIn, trade.GoesOver:
		if s.Fit != "" {
			return goes[s.From] + s.Of.Text + ", " + s.Fit
		}
		return goes[s.From] + s.Of.Text
	case trade.Copies:
		if m.Decided {
			return "copies " + s.Of.Text + " as it was meant"
		}
		return "copies " + s.Of.Text
	case trade.IsThread:
		return "thread " + s.Thread
	}
	return "as stated"
}

// threads writes the limits of the threads.
func (p *making) threads() {
	rows := [][]string{{"thread", "limits of", "class", "mm", "in"}}
	memory := false
	for i := range p.f.Make {
		m := &p.f.Make[i]
		if m.Thread == nil {
			continue
		}
		name := m.Size.ID + ", " + m.Thread.Thread.Designation + handText(m.Size.Hand)
		if len(m.Thread.Limits) == 0 {
			rows = append(rows, []string{name, "none in the tables", "", "", ""})
		}
		for _, l := range m.Thread.Limits {
			memory = memory || p.marked("", l.Source) != ""
			rows = append(rows, []string{name, p.marked(l.Of, l.Source), l.Class, fmt.Sprintf("%.3f to %.3f", l.Low, l.High), inches(l.Low) + " to " + inches(l.High)})
			name = ""
		}
	}
	if len(rows) > 1 {
		p.line("")
		p.table(rows)
		p.memoryNote(memory)
	}
}

func handText(h trade.Hand) string {
	if h == trade.LeftHand {
		return ", left-handed"
	}
	return ""
}

// matings says of each size with a mate how the two will go together.
func (p *making) matings() {
	first := true
	for i := range p.f.Make {
		m := &p.f.Make[i]
		if m.Mating == nil {
			continue
		}
		if first {
			p.heading("How they go together")
		}
		first = false
		p.paragraph("", p.paint(bold, m.Size.ID)+" "+p.mating(m))
		for _, said := range p.advice(m) {
			p.paragraph("- ", said)
		}
	}
}

// mating says what to expect of a size and its mate.
func (p *making) mating(m *fit.Made) string {
	w := m.Mating
	mate := p.length(w.Mate) + " ± " + p.halfWidth(adjust.Coverage95*w.UMate, unit.Length)
	if w.LeastMate < w.MostMate {
		mate = fmt.Sprintf("%s to %s, out of form", p.length(w.LeastMate), p.length(w.MostMate))
	}
	said := fmt.Sprintf("%s%s (%s): %s on average, 95 %% between %s and %s, wanted %s to %s. ",
		goes[m.Size.From], m.Size.Of.Text, mate, clearance(w.Mean, p.length),
		p.length(w.ClearanceLow), p.length(w.ClearanceHigh), p.length(w.Least), p.length(w.Most))
	if w.Grips() {
		return said + fmt.Sprintf("It grips in %s; tighter than wanted in %s.", often(w.Binds), often(1-w.Assembles))
	}
	return said + fmt.Sprintf("It goes together in %s; binds in %s; slacker than wanted in %s.", often(w.Assembles), often(w.Binds), often(w.Rattles))
}

func (p *printer) length(mm float64) string { return unit.ShowLength(mm, p.units) }

func clearance(c float64, show func(float64) string) string {
	if c < 0 {
		return "interference " + show(-c)
	}
	return "clearance " + show(c)
}

// often writes a chance in per cent and in words.
func often(p float64) string {
	const rare = 0.001
	words := fmt.Sprintf("%.0f in 10", 10*p)
	switch {
	case p < rare/10:
		return "as good as none"
	case p > 1-rare/10:
		return "as good as all cases"
	case p < rare || p > 1-rare:
		return fit.Percent(p) + " of cases"
	case p >= 0.9:
		words = fmt.Sprintf("all but 1 in %.0f", 1/(1-p))
	case p <= 0.1:
		words = fmt.Sprintf("1 in %.0f", 1/p)
	}
	return fit.Percent(p) + " of cases (" + words + ")"
}

// advice returns what is worth saying of a size.
func (p *making) advice(m *fit.Made) []string {
	list := append([]string{}, m.Advice...)
	if m.Read != nil {
		list = append(list, p.reading(m))
	}
	return list
}

// reading says which reading is worth taking before the part is made.
func (p *making) reading(m *fit.Made) string {
	read := m.Read
	c := &counsel{printer: p.printer, a: read.Advice}
	switch {
	case read.Candidate == nil:
		return fmt.Sprintf("%s is not found, and no reading that this kit allows would find it.", read.Advice.For)
	case read.Then == nil:
		return fmt.Sprintf("%s is not found yet. %s.%s", read.Advice.For, c.what(read.Candidate)+": "+c.promise(read.Candidate), c.cost(read.Candidate))
	case !m.Mating.Kept:
		return fmt.Sprintf("%s first: it would then go together in %s of cases, not %s; %s.",
			c.what(read.Candidate), fit.Percent(read.Then.Assembles), fit.Percent(m.Mating.Assembles), c.promise(read.Candidate))
	case m.Mating.Grips():
		return fmt.Sprintf("Your measuring costs interference. %s first: the same grip would need %s less; %s.",
			c.what(read.Candidate), p.length(read.Saves), c.promise(read.Candidate))
	}
	return fmt.Sprintf("Your measuring eats the clearance. %s first would buy %s: it would then be slacker than wanted in %s, not %s; %s.",
		c.what(read.Candidate), p.length(read.Saves), fit.Percent(read.Then.Rattles), fit.Percent(m.Mating.Rattles), c.promise(read.Candidate))
}

// rest says what is worth saying of sizes without a mate.
func (p *making) rest() {
	first := true
	for i := range p.f.Make {
		m := &p.f.Make[i]
		for _, said := range p.advice(m) {
			if m.Mating != nil {
				continue
			}
			if first {
				p.heading("Of the other sizes")
			}
			first = false
			p.paragraph("", p.paint(bold, m.Size.ID)+": "+said)
		}
	}
}

// doubtful writes the warnings of this stage and of the readings.
func (p *making) doubtful() {
	p.mindMade()
	p.warnings()
}

func (p *making) mindMade() {
	var lines []string
	for _, w := range p.f.Warnings {
		lines = append(lines, w.Text)
	}
	p.list("Mind, in what is made", lines)
}
