package report

import (
	"fmt"
	"io"

	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// making writes the parts of what to make.
type making struct {
	*printer
	f *fit.Result
}

func newMaking(w io.Writer, f *fit.Result, style Style) *making {
	return &making{printer: &printer{w: w, r: f.Found, units: f.Found.Job.Shown(), style: style}, f: f}
}

func (p *printer) firstUnit() unit.Unit {
	if p.units == unit.Inch {
		return unit.Inch
	}
	return unit.Millimetre
}

func (p *printer) length(mm float64) string { return unit.ShowLength(mm, p.units) }

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
