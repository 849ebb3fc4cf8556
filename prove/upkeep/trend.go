package upkeep

import (
	"math"
	"slices"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// Trend is how one figure has grown over surveys of one kind and of one thing: a
// straight line by least squares, each survey with its own uncertainty.
type Trend struct {
	Kind      *survey.Kind
	Of        string
	Key       string
	Name      unit.Text
	Dimension unit.Dimension
	Seen      []Seen    // by day
	From, To  time.Time // the first and the last day
	Value, U  float64   // of the line on the last day
	Rate      float64   // per year
	RateU     float64
	Limit     float64   // the tolerance of the last survey that this is held against; NaN: none
	Again     time.Time // when to look again
	Why       string    // why then
	Uneven    bool      // the surveys do not lie on a line

	cross float64 // covariance of Value and Rate
}

// Seen is what one survey found, with its standard uncertainty.
type Seen struct {
	Day      time.Time
	Value, U float64
}

// At returns the line on a day, with its standard uncertainty.
func (t *Trend) At(day time.Time) (value, u float64) {
	f := t.after(float64(day.Sub(t.To)) / year)
	return f.Value, f.U
}

// Upper returns what the line is at most on a day: its bound of 95 % on one side.
func (t *Trend) Upper(day time.Time) float64 { return t.upper(float64(day.Sub(t.To)) / year) }

func (t *Trend) upper(years float64) float64 {
	f := t.after(years)
	return f.Value + survey.OneSided*f.U
}

// Thing names what was looked at: that of the survey, or else its kind.
func (t *Trend) Thing() string {
	if t.Of != "" {
		return t.Of
	}
	return strings.ToLower(t.Kind.Title)
}

// after returns the line so many years after the last survey.
func (t *Trend) after(years float64) survey.Found {
	return survey.Found{Value: t.Value + years*t.Rate, U: math.Sqrt(t.U*t.U + 2*years*t.cross + years*years*t.RateU*t.RateU)}
}

// Things returns the trends of a result by what was looked at.
func (r *Result) Things() [][]Trend {
	var list [][]Trend
	for i, t := range r.Trends {
		if i > 0 && t.Kind == r.Trends[i-1].Kind && t.Of == r.Trends[i-1].Of {
			list[len(list)-1] = append(list[len(list)-1], t)
			continue
		}
		list = append(list, []Trend{t})
	}
	return list
}

// year is the time in which a rate counts.
const year = 365.25 * 24 * float64(time.Hour)

// What is foretold.
const (
	mostYears = 30 // a line of a few surveys says nothing further off
	leastWait = 1.0 / 12
)

// trends returns what the surveys of one thing say together.
func trends(r *Result) []Trend {
	type thing struct {
		kind trade.SurveyKind
		of   string
	}
	groups := map[thing][]*survey.Answer{}
	var order []thing
	for i := range r.Answers {
		a := &r.Answers[i]
		t := thing{a.Survey.Kind, a.Survey.Of}
		if groups[t] == nil {
			order = append(order, t)
		}
		groups[t] = append(groups[t], a)
	}
	var list []Trend
	for _, t := range order {
		list = append(list, trendsOf(groups[t])...)
	}
	return list
}

// trendsOf returns the trend of each figure that all of these surveys have and that
// only grows.
func trendsOf(answers []*survey.Answer) []Trend {
	slices.SortStableFunc(answers, func(a, b *survey.Answer) int { return a.Survey.Date.Compare(b.Survey.Date) })
	last := answers[len(answers)-1]
	if !answers[0].Survey.Date.Before(last.Survey.Date) {
		return nil
	}
	var list []Trend
	for _, f := range last.Findings {
		missing := func(a *survey.Answer) bool { return a.Finding(f.Key) == nil }
		if f.Wears && !slices.ContainsFunc(answers, missing) {
			list = append(list, trendOf(answers, f))
		}
	}
	return list
}

func trendOf(answers []*survey.Answer, f survey.Finding) Trend {
	first, last := answers[0].Survey, answers[len(answers)-1].Survey
	t := Trend{
		Kind: answers[0].Kind, Of: last.Of, Key: f.Key, Name: f.Name, Dimension: f.Dimension,
		From: first.Date, To: last.Date, Limit: math.NaN(),
	}
	if last.Within.Given() && t.Kind.Judged == f.Key {
		t.Limit = last.Within.Inside()
	}
	var times []float64
	var figures []survey.Found
	for _, a := range answers {
		seen := a.Finding(f.Key)
		t.Seen = append(t.Seen, Seen{a.Survey.Date, seen.Value, seen.U})
		times = append(times, float64(a.Survey.Date.Sub(last.Date))/year)
		figures = append(figures, survey.Found{Value: seen.Value, U: seen.U})
	}
	g := survey.Growing(times, figures)
	t.Value, t.U, t.Rate, t.RateU, t.cross, t.Uneven = g.Level.Value, g.Level.U, g.Rate.Value, g.Rate.U, g.Cross, g.Uneven
	t.lookAgain()
	return t
}

// lookAgain says when: where there is a limit, when the line with what it may be out by
// (95 % on one side) reaches that; else when the next survey can show that it has grown
// further, but not later than after as long as was looked at so far.
func (t *Trend) lookAgain() {
	span := float64(t.To.Sub(t.From)) / year
	grows := survey.Surely(survey.Found{Value: t.Rate, U: t.RateU})
	years := span
	switch {
	case t.upper(0) >= t.Limit:
		years, t.Why = leastWait, "it may be beyond its limit already: mend it, or read it finer"
	case !math.IsNaN(t.Limit) && grows:
		years, t.Why = t.reaches(), "by then it may reach its limit"
	case grows:
		years, t.Why = min(span, 2*math.Sqrt2*t.U/t.Rate), "by then its growth will show again"
	default:
		t.Why = "no growth can be told yet: look again after as long as so far"
	}
	t.Again = t.To.Add(time.Duration(min(max(years, leastWait), mostYears) * year)).Truncate(24 * time.Hour)
}

// reaches returns in how many years the upper bound comes to the limit, mostYears at
// most.
func (t *Trend) reaches() float64 {
	low, high := 0.0, float64(mostYears)
	for range 60 {
		if middle := (low + high) / 2; t.upper(middle) < t.Limit {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}
