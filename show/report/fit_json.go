package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/say"
)

// The JSON forms of what to make. Lengths are in mm, angles in degrees; a figure
// that does not exist is null or left out.
type (
	fitJSON struct {
		Job      string                `json:"job"`
		Part     string                `json:"part,omitempty"`
		Make     map[string]madeJSON   `json:"make"`
		Stacks   map[string]chainJSON  `json:"stacks"`
		Mates    map[string]matingJSON `json:"mates"`
		GivesWay []givesWayJSON        `json:"gives_way"`
		Joints   map[string]jointJSON  `json:"joints"`
		Warnings []warningJSON         `json:"warnings"`
	}
	madeJSON struct {
		Unit       string     `json:"unit"`
		From       string     `json:"from"`
		Of         string     `json:"of,omitempty"`
		Determined bool       `json:"determined"`
		Target     *float64   `json:"target"`
		Low        *float64   `json:"low"`
		High       *float64   `json:"high"`
		Printed    *rangeJSON `json:"printed,omitempty"` // the limits rounded inward, in mm, as the bench is shown them
		U          *float64   `json:"u"`
		Code       string     `json:"code,omitempty"`
		Decided    bool       `json:"decided,omitempty"`

		PAssembles *float64   `json:"p_assembles,omitempty"`
		PBinds     *float64   `json:"p_binds,omitempty"`
		PRattles   *float64   `json:"p_rattles,omitempty"`
		Promised   *float64   `json:"promised,omitempty"`
		Kept       *bool      `json:"kept,omitempty"`
		Grips      bool       `json:"grips,omitempty"`
		Clearance  *playJSON  `json:"clearance,omitempty"`
		Wanted     *rangeJSON `json:"wanted,omitempty"`
		Mate       *mateJSON  `json:"mate,omitempty"`
		Leave      *leaveJSON `json:"leave,omitempty"`

		Thread string            `json:"thread,omitempty"`
		Limits []threadLimitJSON `json:"limits,omitempty"`
		Advice []string          `json:"advice"`
	}
	rangeJSON struct {
		Low  float64 `json:"low"`
		High float64 `json:"high"`
	}
	playJSON struct {
		Mean float64 `json:"mean"`
		Low  float64 `json:"low"`
		High float64 `json:"high"`
		U    float64 `json:"u"`
	}
	mateJSON struct {
		Value float64 `json:"value"`
		U     float64 `json:"u"`
		Least float64 `json:"least"`
		Most  float64 `json:"most"`
	}
	leaveJSON struct {
		First float64 `json:"first"`
		On    float64 `json:"on"`
	}
	threadLimitJSON struct {
		Of     string  `json:"of"`
		Class  string  `json:"class"`
		Low    float64 `json:"low_mm"`
		High   float64 `json:"high_mm"`
		Source string  `json:"source"`
	}
	chainJSON struct {
		That       string     `json:"that"`
		Unit       string     `json:"unit"`
		Determined bool       `json:"determined"`
		Value      *float64   `json:"value"`
		U          *float64   `json:"u"`
		Low        *float64   `json:"low"`
		High       *float64   `json:"high"`
		WorstLow   *float64   `json:"worst_low"`
		WorstHigh  *float64   `json:"worst_high"`
		RSS        *float64   `json:"rss"`
		Wanted     *rangeJSON `json:"wanted,omitempty"`
		PWithin    *float64   `json:"p_within"`
		PHalved    *float64   `json:"p_within_halved"` // with the range of the first link halved
		UHalved    *float64   `json:"u_halved"`
		Links      []linkJSON `json:"links"`
	}
	linkJSON struct {
		Name        string  `json:"name"`
		Sensitivity float64 `json:"sensitivity"` // mm or rad of the sum for one of the link
		Half        float64 `json:"half"`
		Part        float64 `json:"part"`
	}
)

// FitJSON writes what to make, how its shapes mate and what gives way in its
// joints as one JSON object.
func FitJSON(w io.Writer, f *fit.Result, mates []mating.Answer, joints []strength.Answer) error {
	view := inJob(f.Found.Job)
	out := fitJSON{
		Job: f.Found.Job.Name, Make: map[string]madeJSON{}, Stacks: map[string]chainJSON{},
		Mates: matesJSON(mates), GivesWay: waysToJSON(joints, view), Joints: jointsToJSON(joints, view), Warnings: []warningJSON{},
	}
	if part := f.Found.Job.Part; part != nil {
		out.Part = part.Name
	}
	for i := range f.Make {
		out.Make[f.Make[i].Size.ID] = madeToJSON(f, &f.Make[i])
	}
	for i := range f.Stacks {
		out.Stacks[f.Stacks[i].Stack.ID] = chainToJSON(f, &f.Stacks[i])
	}
	for _, warning := range append(f.Warnings[:len(f.Warnings):len(f.Warnings)], f.Found.Warnings...) {
		out.Warnings = append(out.Warnings, warningToJSON(warning, f.Found.Job))
	}
	return encode(w, out)
}

func madeToJSON(f *fit.Result, m *fit.Made) madeJSON {
	d := m.Size.Kind.Dimension()
	show := func(x float64) *float64 { return numberIf(m.Determined, natural(x, d)) }
	out := madeJSON{
		Unit: unitName(d), From: string(m.Size.From), Of: m.Size.Of.Text, Determined: m.Determined,
		Target: show(m.Target), Low: show(m.Low), High: show(m.High), U: show(m.U), Code: m.Code, Decided: m.Decided, Advice: advised(f, m),
	}
	if low, high, ok := m.Limits(inJob(f.Found.Job).Unit()); ok && d == unit.Length && m.Low < m.High {
		out.Printed = &rangeJSON{low, high}
	}
	if m.Mating != nil {
		out.mating(m.Mating)
	}
	if m.Thread != nil {
		out.Thread = m.Thread.Thread.Designation
		for _, l := range m.Thread.Limits {
			out.Limits = append(out.Limits, threadLimitJSON{Of: l.Of, Class: l.Class, Low: l.Low, High: l.High, Source: l.Source})
		}
	}
	return out
}

// advised is what is worth saying of a size.
func advised(f *fit.Result, m *fit.Made) []string {
	list := []string{}
	for _, text := range say.FitAdvice(f, m) {
		list = append(list, text.Shown(inJob(f.Found.Job)))
	}
	return list
}

// mating fills in how a size goes with its mate.
func (out *madeJSON) mating(w *fit.Mating) {
	out.PAssembles, out.PBinds, out.PRattles = &w.Assembles, &w.Binds, &w.Rattles
	out.Promised, out.Kept, out.Grips = &w.Promised, &w.Kept, w.Grips()
	out.Clearance = &playJSON{Mean: w.Mean, Low: w.ClearanceLow, High: w.ClearanceHigh, U: w.ClearanceU}
	out.Wanted = &rangeJSON{w.Least, w.Most}
	out.Mate = &mateJSON{Value: w.Mate, U: w.UMate, Least: w.LeastMate, Most: w.MostMate}
	if w.Leave != nil {
		out.Leave = &leaveJSON{First: w.Leave.First, On: w.Leave.On}
	}
}

func chainToJSON(f *fit.Result, c *fit.Chain) chainJSON {
	show := func(x float64) *float64 { return numberIf(c.Determined, natural(x, c.Dimension)) }
	out := chainJSON{
		That: c.Stack.That.Text, Unit: unitName(c.Dimension), Determined: c.Determined, Value: show(c.Value), U: show(c.U),
		Low: show(c.Low), High: show(c.High), WorstLow: show(c.WorstLow), WorstHigh: show(c.WorstHigh), RSS: show(c.RSS),
		Wanted: wantedToJSON(c.Stack), PWithin: number(c.Within), PHalved: number(c.Halved), UHalved: show(c.HalvedU), Links: []linkJSON{},
	}
	for _, l := range c.Links {
		out.Links = append(out.Links, linkJSON{Name: l.Name, Sensitivity: l.Sensitivity, Half: natural(l.Half, say.LinkDimension(f, c, l)), Part: l.Part})
	}
	return out
}

func wantedToJSON(s *trade.Stack) *rangeJSON {
	if !s.Wanted.Low.Given() {
		return nil
	}
	return &rangeJSON{s.Wanted.Low.Inside(), s.Wanted.High.Inside()}
}
