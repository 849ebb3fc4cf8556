package upkeep

import (
	"math"
	"slices"
	"time"

	"oddleg"
	"oddleg/unit"
)

// Trend is how one figure has grown over surveys of one kind and of one thing: a
// straight line by least squares, each survey with its own uncertainty.
type Trend struct {
	Kind      oddleg.SurveyKind
	Of        string
	Key, Name string
	Dimension unit.Dimension
	Surveys   int
	From, To  time.Time // the first and the last day
	Value, U  float64   // of the line on the last day
	Rate      float64   // per year
	RateU     float64
	Limit     float64   // the tolerance of the last survey that this is held against; NaN: none
	Again     time.Time // when to look again
	Why       string    // why then
	Uneven    bool      // the surveys do not lie on a line
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
		kind oddleg.SurveyKind
		of   string
	}
	groups := map[thing][]*Answer{}
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
func trendsOf(answers []*Answer) []Trend {
	slices.SortStableFunc(answers, func(a, b *Answer) int { return a.Survey.Date.Compare(b.Survey.Date) })
	last := answers[len(answers)-1]
	if !answers[0].Survey.Date.Before(last.Survey.Date) {
		return nil
	}
	var list []Trend
	for _, f := range last.Findings {
		missing := func(a *Answer) bool { return a.Finding(f.Key) == nil }
		if f.Wears && !slices.ContainsFunc(answers, missing) {
			list = append(list, trendOf(answers, f))
		}
	}
	return list
}

func trendOf(answers []*Answer, f Finding) Trend {
	first, last := answers[0].Survey, answers[len(answers)-1].Survey
	t := Trend{
		Kind: last.Kind, Of: last.Of, Key: f.Key, Name: f.Name, Dimension: f.Dimension,
		Surveys: len(answers), From: first.Date, To: last.Date, Limit: math.NaN(),
	}
	if last.Within.Given() && judgedBy[last.Kind] == f.Key {
		t.Limit = last.Within.Inside()
	}
	m := &model{}
	now := line{one(m.unknown(0)), one(m.unknown(0)), 0}
	for _, a := range answers {
		seen := a.Finding(f.Key)
		m.observe(misclosure{now.at(float64(a.Survey.Date.Sub(last.Date)) / year), -1, seen.Value}, seen.U)
	}
	s, err := m.solve()
	if err != nil {
		panic("upkeep: a line through surveys of different days has no solution")
	}
	level, rate := s.of(now.a), s.of(now.b)
	t.Value, t.U, t.Rate, t.RateU = level.value, level.u, rate.value, rate.u
	t.Uneven = s.misfits()
	t.lookAgain(func(years float64) float64 {
		at := s.of(now.at(years))
		return at.value + oneSided*at.u
	})
	return t
}

// judgedBy is the figure that the tolerance of a kind is held against, of those that
// grow.
var judgedBy = map[oddleg.SurveyKind]string{
	oddleg.LostMotion: "lost_motion", oddleg.Straightness: "straightness", oddleg.SlidePlay: "play",
}

// lookAgain says when: where there is a limit, when the line with what it may be out by
// (95 % on one side) reaches that; else when the next survey can show that it has grown
// further, but not later than after as long as was looked at so far.
func (t *Trend) lookAgain(upper func(years float64) float64) {
	span := float64(t.To.Sub(t.From)) / year
	grows := surely(found{t.Rate, t.RateU})
	years := span
	switch {
	case upper(0) >= t.Limit:
		years, t.Why = leastWait, "it may be beyond its limit already: mend it, or read it finer"
	case !math.IsNaN(t.Limit) && grows:
		years, t.Why = reaches(upper, t.Limit), "by then it may reach its limit"
	case grows:
		years, t.Why = min(span, 2*math.Sqrt2*t.U/t.Rate), "by then its growth will show again"
	default:
		t.Why = "no growth can be told yet: look again after as long as so far"
	}
	t.Again = t.To.Add(time.Duration(min(max(years, leastWait), mostYears) * year)).Truncate(24 * time.Hour)
}

// reaches returns in how many years a rising bound comes to a limit, mostYears at
// most.
func reaches(upper func(years float64) float64, limit float64) float64 {
	low, high := 0.0, float64(mostYears)
	for range 60 {
		if middle := (low + high) / 2; upper(middle) < limit {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}
