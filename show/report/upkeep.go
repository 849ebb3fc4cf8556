package report

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Upkeep writes what surveys found, what to do about it, and how wear goes on.
func Upkeep(w io.Writer, r *upkeep.Result, style Style) error {
	p := &printer{w: w, units: r.Job.Shown(), style: style}
	return p.report(func() { p.surveys(r) }, func() { p.trends(r) }, p.upkeepCautions)
}

func (p *printer) surveys(r *upkeep.Result) {
	p.line("%s", p.paint(bold, r.Job.Name))
	for i := range r.Answers {
		p.survey(&r.Answers[i])
	}
}

func (p *printer) survey(a *upkeep.Answer) {
	p.heading(a.Name())
	if a.Survey.Say != "" {
		p.paragraph("", sentence(a.Survey.Say))
	}
	rows := [][]string{p.findingHead()}
	for _, f := range a.Findings {
		first, second := p.both(f.Value, adjust.Coverage95*f.U, f.Dimension)
		rows = append(rows, []string{f.Name, first, second})
	}
	p.table(rows)
	p.line("")
	p.surveyVerdict(a)
	for _, text := range a.Advice {
		p.paragraph("- ", text)
	}
	for _, text := range a.Cautions {
		p.paragraph("- ", p.paint(yellow, text))
	}
	p.surveyPlot(a)
}

func (p *printer) findingHead() []string {
	if p.units == unit.Inch {
		return []string{"found", "in, ± 95 %", "mm, ± 95 %"}
	}
	return []string{"found", "mm, ± 95 %", "in, ± 95 %"}
}

// surveyVerdict says whether the tolerance is kept, and how sure that is.
func (p *printer) surveyVerdict(a *upkeep.Answer) {
	if a.Verdict == upkeep.NotJudged {
		return
	}
	within := "as it must be"
	if a.Survey.Within.Given() {
		within = fmt.Sprintf("within %s", a.Survey.Within)
	}
	switch a.Verdict {
	case upkeep.Keeps:
		p.paragraph("", p.paint(bold, fmt.Sprintf("The %s is %s: the chance of that is %s.", a.Judged, within, chanceText(a.Conforms))))
	case upkeep.Exceeds:
		p.paragraph("", p.paint(red, fmt.Sprintf("The %s is not %s: the chance that it were is %s.", a.Judged, within, chanceText(a.Conforms))))
	default:
		p.paragraph("", p.paint(yellow, fmt.Sprintf("Whether the %s is %s cannot be told: the chance of that is %s; 95 %% are wanted to say so, 5 %% or less to deny it. Read it finer, or more often.", a.Judged, within, chanceText(a.Conforms))))
	}
}

// chanceText writes a probability, of which neither end is ever reached.
func chanceText(p float64) string {
	switch {
	case p > 0.999:
		return "over 99.9 %"
	case p < 0.001:
		return "under 0.1 %"
	}
	return fmt.Sprintf("%.1f %%", 100*p)
}

// plot draws each series that was read as lines of text, one a place: its band of 95 %
// over a scale that all share, a bar at nothing.
func (p *printer) plot(plot *upkeep.Plot) {
	low, high := plotReach(plot)
	if len(plot.Series) > 0 {
		p.line("\n  %s", sentence(plot.Y))
	}
	for _, s := range plot.Series {
		if s.Line {
			continue
		}
		rows := [][]string{{plot.X, s.Name, p.amount(low, unit.Length) + " to " + p.amount(high, unit.Length)}}
		for i, at := range s.Points {
			rows = append(rows, []string{p.amount(at.X, unit.Length), p.amount(at.Y, unit.Length), bandPicture(at.Y, adjust.Coverage95*s.U[i], low, high)})
		}
		p.table(rows)
	}
}

// plotReach returns what a plot must show: every band, and nothing at all.
func plotReach(plot *upkeep.Plot) (low, high float64) {
	for _, s := range plot.Series {
		for i, at := range s.Points {
			U := adjust.Coverage95 * s.U[i]
			low, high = min(low, at.Y-U), max(high, at.Y+U)
		}
	}
	return low, max(high, low+1e-6)
}

// bandPicture draws one value: its band as =, the value as o, nothing as |.
func bandPicture(value, U, low, high float64) string {
	cell := func(x float64) int {
		return max(0, min(pictureWidth-1, int((x-low)/(high-low)*pictureWidth)))
	}
	cells := []byte(strings.Repeat("-", pictureWidth))
	for i := cell(value - U); i <= cell(value+U); i++ {
		cells[i] = '='
	}
	cells[cell(0)] = '|'
	cells[cell(value)] = 'o'
	return string(cells)
}

// trends writes how fast things wear, and when to look again.
func (p *printer) trends(r *upkeep.Result) {
	if len(r.Trends) == 0 {
		return
	}
	p.heading("Wear from year to year")
	rows := [][]string{{"of", "what", "a year, ± 95 %", "surveys", "look again"}}
	for i := range r.Trends {
		t := &r.Trends[i]
		rate, _ := p.both(t.Rate, adjust.Coverage95*t.RateU, t.Dimension)
		rows = append(rows, []string{t.Thing(), t.Name, rate, fmt.Sprintf("%d from %s to %s", len(t.Seen), t.From.Format(time.DateOnly), t.To.Format(time.DateOnly)), t.Again.Format(time.DateOnly)})
	}
	p.table(rows)
	for i := range r.Trends {
		p.trendNotes(&r.Trends[i])
	}
	p.wearPlots(r)
	p.paragraph("", "A straight line is taken through the surveys. It foretells only as long as the machine is used and oiled as it was.")
}

func (p *printer) trendNotes(t *upkeep.Trend) {
	limit := ""
	if !math.IsNaN(t.Limit) {
		limit = " (" + p.amount(t.Limit, t.Dimension) + ")"
	}
	p.paragraph("- ", fmt.Sprintf("%s: %s%s.", t.Name, t.Why, limit))
	if t.Uneven {
		p.paragraph("- ", p.paint(yellow, t.Name+": the surveys do not lie on a line; something was mended or misread between them, or it wears faster now."))
	}
}

// upkeepCautions closes the page.
func (p *printer) upkeepCautions() {
	p.line("")
	p.paragraph("", "Isolate the machine before you reach into it, and prop what could fall. Its own book and your local rules come first.")
}
