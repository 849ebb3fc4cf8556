package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/blunder"
	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/say"
	"codeberg.org/oddleg/oddleg/show/term"
)

// Style says whether a terminal has colours.
type Style struct{ Colour bool }

// spoken writes a document as a terminal shows it to somebody who reads a job in its
// units.
func spoken(w io.Writer, d *doc.Document, r *adjust.Result, style Style) error {
	view := unit.View{}
	if r != nil {
		view.In = r.Job.Units
	}
	return term.Write(w, d, term.Options{Colour: style.Colour, View: view})
}

func Table(w io.Writer, r *adjust.Result, style Style, doubts ...blunder.Doubt) error {
	return spoken(w, say.Sizes(r, doubts), r, style)
}

func Working(w io.Writer, r *adjust.Result, style Style) error {
	return spoken(w, say.Working(r), r, style)
}

func Meant(w io.Writer, r *adjust.Result, m *meant.Result, style Style) error {
	return spoken(w, say.Meant(r, m), r, style)
}

func Advice(w io.Writer, a *advise.Advice, style Style) error {
	return spoken(w, say.Advice(a), a.Result, style)
}

func Expected(w io.Writer, e *advise.Expectation, style Style) error {
	return spoken(w, say.Expected(e), e.Result, style)
}

func Simulation(w io.Writer, r *adjust.Result, s *simulate.Simulation, style Style) error {
	return spoken(w, say.Simulation(s), r, style)
}

func Fit(w io.Writer, f *fit.Result, style Style) error { return spoken(w, say.Fit(f), f.Found, style) }

func Mates(w io.Writer, answers []mating.Answer, style Style) error {
	if len(answers) == 0 {
		return nil
	}
	return spoken(w, say.Mates(answers), answers[0].Found, style)
}

func Strength(w io.Writer, answers []strength.Answer, style Style) error {
	return spoken(w, say.Strength(answers), nil, style)
}

func Threads(w io.Writer, threads []series.JobThread, style Style) error {
	return spoken(w, say.Threads(threads), nil, style)
}

func Check(w io.Writer, c *inspect.Result, style Style) error {
	return spoken(w, say.Check(c), c.Made.Found, style)
}

func Upkeep(w io.Writer, r *upkeep.Result, style Style) error {
	return term.Write(w, say.Upkeep(r), term.Options{Colour: style.Colour, View: unit.View{In: r.Job.Units}})
}

func Thread(w io.Writer, seen series.ThreadSeen, a series.ThreadAnswer, left bool, style Style) error {
	return spoken(w, say.Thread(seen, a, left), nil, style)
}

func Tap(w io.Writer, t say.Tapping, style Style) error { return spoken(w, say.Tap(t), nil, style) }

func TaperSetting(w io.Writer, s *lathe.TaperSetting, style Style) error {
	return spoken(w, say.TaperSetting(s), nil, style)
}

func Stock(w io.Writer, s *plan.Stock, style Style) error { return spoken(w, say.Stock(s), nil, style) }
