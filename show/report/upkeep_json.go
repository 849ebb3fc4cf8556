package report

import (
	"io"
	"time"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// The JSON form of upkeep, in mm and degrees; U is the half width of 95 %.
type (
	upkeepJSON struct {
		Job     string       `json:"job"`
		Surveys []surveyJSON `json:"surveys"`
		Trends  []trendJSON  `json:"trends"`
	}
	surveyJSON struct {
		ID       string         `json:"id"`
		Kind     string         `json:"kind"`
		Of       string         `json:"of"`
		Date     string         `json:"date"`
		Found    []findingJSON  `json:"found"`
		Verdict  survey.Verdict `json:"verdict"`
		Judged   string         `json:"judged"`
		Conforms *float64       `json:"conforms"`
		Advice   []string       `json:"advice"`
		Cautions []string       `json:"cautions"`
		Plot     plotJSON       `json:"plot"`
	}
	findingJSON struct {
		Key   string  `json:"key"`
		Name  string  `json:"name"`
		Value float64 `json:"value"`
		U     float64 `json:"U"`
		Unit  string  `json:"unit"`
	}
	plotJSON struct {
		X      string           `json:"x"`
		Y      string           `json:"y"`
		Series []plotSeriesJSON `json:"series"`
		Limits [][2]spotJSON    `json:"limits"`
	}
	plotSeriesJSON struct {
		Name   string          `json:"name"`
		Line   bool            `json:"line"`
		Points []plotPointJSON `json:"points"`
	}
	plotPointJSON struct {
		spotJSON
		U float64 `json:"U"`
	}
	trendJSON struct {
		Kind    string   `json:"kind"`
		Of      string   `json:"of"`
		Key     string   `json:"key"`
		Surveys int      `json:"surveys"`
		From    string   `json:"from"`
		To      string   `json:"to"`
		Value   float64  `json:"value"`
		U       float64  `json:"U"`
		Rate    float64  `json:"rate_per_year"`
		RateU   float64  `json:"U_rate"`
		Unit    string   `json:"unit"`
		Limit   *float64 `json:"limit"`
		Again   string   `json:"look_again"`
		Why     string   `json:"why"`
		Uneven  bool     `json:"uneven"`
	}
)

// UpkeepJSON writes the same as one JSON object.
func UpkeepJSON(w io.Writer, r *upkeep.Result) error {
	out := upkeepJSON{Job: r.Job.Name, Surveys: []surveyJSON{}, Trends: []trendJSON{}}
	for i := range r.Answers {
		out.Surveys = append(out.Surveys, surveyToJSON(&r.Answers[i], inJob(r.Job)))
	}
	for i := range r.Trends {
		out.Trends = append(out.Trends, trendToJSON(&r.Trends[i]))
	}
	return encode(w, out)
}

func surveyToJSON(a *survey.Answer, view unit.View) surveyJSON {
	s := surveyJSON{
		ID: a.Survey.ID, Kind: string(a.Survey.Kind), Of: a.Survey.Of, Date: a.Survey.Date.Format(time.DateOnly),
		Found: []findingJSON{}, Verdict: a.Verdict, Judged: a.Judged, Conforms: number(a.Conforms),
		Advice: told(a.Advice, view), Cautions: told(a.Cautions, view),
		Plot: plotToJSON(&a.Plot),
	}
	for _, f := range a.Findings {
		s.Found = append(s.Found, findingJSON{f.Key, f.Name.Shown(view), natural(f.Value, f.Dimension), natural(adjust.Coverage95*f.U, f.Dimension), unitName(f.Dimension)})
	}
	return s
}

func plotToJSON(p *survey.Plot) plotJSON {
	out := plotJSON{X: p.X, Y: p.Y, Series: []plotSeriesJSON{}, Limits: [][2]spotJSON{}}
	for _, x := range p.Series {
		series := plotSeriesJSON{Name: x.Name, Line: x.Line, Points: []plotPointJSON{}}
		for i, at := range x.Points {
			series.Points = append(series.Points, plotPointJSON{spotJSON{at.X, at.Y}, adjust.Coverage95 * x.U[i]})
		}
		out.Series = append(out.Series, series)
	}
	for _, l := range p.Limits {
		out.Limits = append(out.Limits, [2]spotJSON{{l.From.X, l.From.Y}, {l.To.X, l.To.Y}})
	}
	return out
}

func trendToJSON(t *upkeep.Trend) trendJSON {
	return trendJSON{
		Kind: string(t.Kind.Name), Of: t.Of, Key: t.Key, Surveys: len(t.Seen),
		From: t.From.Format(time.DateOnly), To: t.To.Format(time.DateOnly),
		Value: natural(t.Value, t.Dimension), U: natural(adjust.Coverage95*t.U, t.Dimension),
		Rate: natural(t.Rate, t.Dimension), RateU: natural(adjust.Coverage95*t.RateU, t.Dimension), Unit: unitName(t.Dimension),
		Limit: number(t.Limit), Again: t.Again.Format(time.DateOnly), Why: t.Why, Uneven: t.Uneven,
	}
}
