package say

import (
	"math"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/survey"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/picture"
)

// Upkeep says what surveys found, what to do about it, and how wear goes on.
func Upkeep(r *upkeep.Result) *doc.Document {
	p := titled(r.Job.Name)
	p.upkeep(r)
	return &p.Document
}

func (p *page) upkeep(r *upkeep.Result) {
	for i := range r.Answers {
		p.survey(&r.Answers[i])
	}
	p.trends(r)
	p.Add(doc.Caution{Words: doc.Plain(
		"Isolate the machine before you reach into it, and prop what could fall. Its own book and your local rules come first.")})
}

// The size of a graph on a page, in mm.
const graphWidth, graphHeight = 150.0, 80.0

func (p *page) survey(a *survey.Answer) {
	p.section("%s", a.Name())
	if a.Survey.Say != "" {
		p.say("%s", sentence(a.Survey.Say))
	}
	t := &doc.Table{Name: "found", Columns: []doc.Column{
		plain("found"), {Name: "first", Head: unitName(), Within: within()}, {Name: "second", Head: unitName(), Within: within(), View: doc.Second},
	}}
	for _, f := range a.Findings {
		t.Add(twice(doc.Cells{"found": doc.Show(f.Name)}, measured(f.Value, f.U, f.Dimension)))
	}
	p.Add(t)
	p.surveyVerdict(a)
	for _, text := range a.Advice {
		p.item("%s", text)
	}
	for _, text := range a.Cautions {
		p.item("%s", warning(doc.Show(text)))
	}
	p.plot(&a.Plot)
	if len(a.Plot.Series) > 0 {
		p.Add(doc.Picture{Draw: func(v unit.View) (*ink.Sheet, error) { return picture.Survey(a, v.Unit(), graphWidth, graphHeight) }})
	}
}

// surveyVerdict says whether the tolerance is kept, and how sure that is.
func (p *page) surveyVerdict(a *survey.Answer) {
	if a.Verdict == survey.NotJudged {
		return
	}
	limit := "as it must be"
	if a.Survey.Within.Given() {
		limit = "within " + a.Survey.Within.String()
	}
	chance := toATenth(a.Conforms)
	switch a.Verdict {
	case survey.Keeps:
		p.apart("%s", doc.In(doc.Strong, doc.Say("The %s is %s: the chance of that is %s.", a.Judged, limit, chance)))
	case survey.Exceeds:
		p.apart("%s", alarm(doc.Say("The %s is not %s: the chance that it were is %s.", a.Judged, limit, chance)))
	default:
		p.apart("%s", warning(doc.Say("Whether the %s is %s cannot be told: the chance of that is %s; 95 %% are wanted to say so, "+
			"5 %% or less to deny it. Read it finer, or more often.", a.Judged, limit, chance)))
	}
}

// plot draws each series that was read as lines of letters, one a place: its band of
// 95 % over a scale that all share, a bar at nothing.
func (p *page) plot(plot *survey.Plot) {
	low, high := plotReach(plot)
	if len(plot.Series) > 0 {
		p.Add(doc.Paragraph{Words: doc.Plain(sentence(plot.Y)), Space: doc.Apart, Where: doc.Letters})
	}
	for _, s := range plot.Series {
		if s.Line {
			continue
		}
		t := &doc.Table{Name: "plot", Columns: []doc.Column{
			{Name: "at", Head: doc.Plain(plot.X), Where: doc.Letters},
			{Name: "value", Head: doc.Plain(s.Name), Where: doc.Letters},
			{Name: "line", Head: doc.Say("%s to %s", length(low), length(high)), Where: doc.Letters},
		}}
		for i, at := range s.Points {
			t.Add(doc.Cells{
				"at": doc.Show(length(at.X)), "value": doc.Show(length(at.Y)), "line": doc.Plain(band(at.Y, half(s.U[i]), low, high)),
			})
		}
		p.Add(t)
	}
}

// plotReach returns what a plot must show: every band, and nothing at all.
func plotReach(plot *survey.Plot) (low, high float64) {
	for _, s := range plot.Series {
		for i, at := range s.Points {
			low, high = min(low, at.Y-half(s.U[i])), max(high, at.Y+half(s.U[i]))
		}
	}
	return low, max(high, low+1e-6)
}

// band draws one value: its band as =, the value as o, nothing as |.
func band(value, U, low, high float64) string {
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

// trends says how fast things wear, and when to look again.
func (p *page) trends(r *upkeep.Result) {
	if len(r.Trends) == 0 {
		return
	}
	p.section("Wear from year to year")
	t := &doc.Table{Name: "trends", Columns: []doc.Column{
		plain("of"), plain("what"), {Name: "a year", Head: doc.Plain("a year"), Within: within()}, plain("surveys"), plain("look again"),
	}}
	for i := range r.Trends {
		trend := &r.Trends[i]
		t.Add(doc.Cells{
			"of": doc.Plain(trend.Thing()), "what": doc.Show(trend.Name), "a year": doc.Show(measured(trend.Rate, trend.RateU, trend.Dimension)),
			"surveys":    doc.Say("%d from %s to %s", len(trend.Seen), trend.From.Format(time.DateOnly), trend.To.Format(time.DateOnly)),
			"look again": doc.Plain(trend.Again.Format(time.DateOnly)),
		})
	}
	p.Add(t)
	for i := range r.Trends {
		p.trendNotes(&r.Trends[i])
	}
	for _, trends := range r.Things() {
		p.Add(doc.Picture{Draw: func(v unit.View) (*ink.Sheet, error) { return picture.Wear(trends, v.Unit(), graphWidth, graphHeight) }})
	}
	p.say("A straight line is taken through the surveys. It foretells only as long as the machine is used and oiled as it was.")
}

func (p *page) trendNotes(t *upkeep.Trend) {
	var limit doc.Text
	if !math.IsNaN(t.Limit) {
		limit = doc.Say(" (%s)", amount(t.Limit, t.Dimension))
	}
	p.item("%s: %s%s.", t.Name, t.Why, limit)
	if t.Uneven {
		p.item("%s", warning(doc.Say("%s: the surveys do not lie on a line; something was mended or misread between them, or it wears faster now.", t.Name)))
	}
}
