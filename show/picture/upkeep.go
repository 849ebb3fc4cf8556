package picture

import (
	"math"
	"time"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/survey"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Survey plots what a survey found over places, in the units given, on a sheet so
// wide and so high. The error says that there is nothing to draw, or no room.
func Survey(a *survey.Answer, units unit.Unit, width, height float64) (*ink.Sheet, error) {
	g := draw.Graph{
		Title: a.Name(), Width: width, Height: height,
		X: lengthAxis(a.Plot.X, units), Y: lengthAxis(a.Plot.Y, units),
		Caption: a.Name() + barWords,
	}
	g.Y.Zero = true
	for _, s := range a.Plot.Series {
		row := draw.Row{Name: s.Name, Points: s.Points, Found: s.Line}
		if !s.Line {
			row.Half = halfWidths(s.U)
		}
		g.Rows = append(g.Rows, row)
	}
	for _, l := range a.Plot.Limits {
		g.Limits = append(g.Limits, draw.Limit{Name: limitName(a, units), From: l.From, To: l.To})
	}
	return draw.Plot(g)
}

// barWords says what the bars of a graph are.
const barWords = "; bars\u00a0are\u00a095\u00a0%"

// limitName says what the limits are of.
func limitName(a *survey.Answer, units unit.Unit) string {
	of := a.Judged
	if a.Kind.Bounds != "" {
		of = a.Kind.Bounds
	}
	if !a.Survey.Within.Given() {
		return of + " as it must be"
	}
	return of + " within " + unit.ShowLength(a.Survey.Within.Inside(), units)
}

func lengthAxis(name string, units unit.Unit) draw.Axis {
	if units == unit.Inch {
		return draw.Axis{Name: name, Unit: "in", Inside: unit.MillimetresPerInch}
	}
	return draw.Axis{Name: name, Unit: "mm", Inside: 1}
}

func halfWidths(u []float64) []float64 {
	list := make([]float64, len(u))
	for i := range u {
		list[i] = adjust.Coverage95 * u[i]
	}
	return list
}

// Wear plots how the figures of one thing grew from survey to survey, each with its
// line, as far as the day to look again. Where one has a limit, that is shown with
// what its line is at most (95 % on one side), and the day is that of this one.
func Wear(trends []upkeep.Trend, units unit.Unit, width, height float64) (*ink.Sheet, error) {
	title := trends[0].Thing() + ": wear from year to year"
	next := nextLook(trends)
	g := draw.Graph{
		Title: title, Width: width, Height: height, Caption: title + barWords,
		X:        draw.Axis{Name: "year", Inside: 1, Ticks: calendar(next.From, next.Again)},
		Y:        lengthAxis("wear", units),
		Uprights: []draw.Upright{{Name: "look again, " + next.Again.Format(time.DateOnly), At: years(next.Again)}},
	}
	g.Y.Zero = true
	for i := range trends {
		g.Rows = append(g.Rows, wearRow(&trends[i], units, next.Again))
	}
	if !math.IsNaN(next.Limit) {
		g.Rows = append(g.Rows, upperBound(next))
		g.Limits = []draw.Limit{{
			Name: "limit " + unit.ShowLength(next.Limit, units),
			From: geom.Point{X: years(next.From), Y: next.Limit}, To: geom.Point{X: years(next.Again), Y: next.Limit},
		}}
	}
	return draw.Plot(g)
}

// nextLook returns the trend that says when to look again: the one with a limit, or
// else the first to be due.
func nextLook(trends []upkeep.Trend) *upkeep.Trend {
	next := &trends[0]
	for i := range trends {
		t := &trends[i]
		if !math.IsNaN(t.Limit) {
			return t
		}
		if t.Again.Before(next.Again) {
			next = t
		}
	}
	return next
}

// wearRow is what the surveys found of one figure, and its line as far as a day.
func wearRow(t *upkeep.Trend, units unit.Unit, until time.Time) draw.Row {
	row := draw.Row{Name: t.Name.Shown(unit.View{In: units})}
	for _, s := range t.Seen {
		row.Points = append(row.Points, geom.Point{X: years(s.Day), Y: s.Value})
		row.Half = append(row.Half, adjust.Coverage95*s.U)
	}
	for _, day := range []time.Time{t.From, until} {
		value, _ := t.At(day)
		row.Through = append(row.Through, geom.Point{X: years(day), Y: value})
	}
	return row
}

// upperBound is what a line is at most from its last survey on.
func upperBound(t *upkeep.Trend) draw.Row {
	row := draw.Row{Name: "at most, 95\u00a0% sure", Found: true}
	const steps = 12
	for i := range steps + 1 {
		day := t.To.Add(t.Again.Sub(t.To) / steps * time.Duration(i))
		row.Points = append(row.Points, geom.Point{X: years(day), Y: t.Upper(day)})
	}
	return row
}

// years is a day as a year and a part of it.
func years(day time.Time) float64 {
	start := time.Date(day.Year(), 1, 1, 0, 0, 0, 0, time.UTC)
	next := start.AddDate(1, 0, 0)
	return float64(day.Year()) + float64(day.Sub(start))/float64(next.Sub(start))
}

// calendar returns the beginnings of years between two days, or of months where
// there are less than two years.
func calendar(from, to time.Time) []draw.Tick {
	form, months := "2006", 12
	switch span := years(to) - years(from); {
	case span < 2:
		form, months = "2006-01", 1
	case span > 10:
		months = 12 * int(math.Ceil(span/10))
	}
	var list []draw.Tick
	day := time.Date(from.Year(), 1, 1, 0, 0, 0, 0, time.UTC)
	for ; !day.After(to); day = day.AddDate(0, months, 0) {
		if !day.Before(from) {
			list = append(list, draw.Tick{At: years(day), Words: day.Format(form)})
		}
	}
	return list
}
