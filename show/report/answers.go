package report

import (
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/show/booklet"
)

// SimulationChapters says what Simulation says, for a page.
func SimulationChapters(r *adjust.Result, s *simulate.Simulation) []booklet.Chapter {
	return asked(&printer{r: r, units: r.Job.Shown()}, func(p *printer) { p.simulated(s) })
}

// ChangeGearsChapters says what ChangeGears says, for a page.
func ChangeGearsChapters(lathe *trade.Machinery, found *lathe.ChangeGears, length float64, most int) []booklet.Chapter {
	return asked(&printer{}, func(p *printer) { p.changeGears(lathe, found, length, most) })
}

// DividingChapters says what Dividing says, for a page.
func DividingChapters(d *lathe.Dividing, assumed string) []booklet.Chapter {
	return asked(&printer{}, func(p *printer) { p.divided(d, assumed) })
}

// asked gathers what is written for a page.
func asked(p *printer, write func(*printer)) []booklet.Chapter {
	p.style, p.pages = Style{Colour: true}, &pages{}
	p.pages.begin("")
	write(p)
	return p.pages.all()
}

// InspectionStep says of one size of the inspection sheet how it is read, what
// the instrument should show, and what is to be done before.
func InspectionStep(c *inspect.Result, s *inspect.Step) (how, shows string, before []string) {
	p := newChecking(nil, c, Style{})
	how = p.how(s)
	if s.Reading != nil {
		shows = p.amount(s.Shows, s.Reads) + ", right from " + p.between(s.ShowsLow, s.ShowsHigh, s.Reads)
	}
	return strings.ToUpper(how[:1]) + how[1:], shows, s.Before
}

// VerdictWords says how one size of a piece stands: what it is, as found, then
// what else there is to say.
func VerdictWords(c *inspect.Result, v *inspect.Verdict) (says, found string, besides []string) {
	p := newChecking(nil, c, Style{})
	row := p.verdictRow(v)
	for _, words := range p.besides(v) {
		besides = append(besides, sentence(words))
	}
	return row[4], row[2], besides
}
