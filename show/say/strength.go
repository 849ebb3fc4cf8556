package say

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Strength says what gives way first in each joint: the order, whether it is as
// meant, what tightening does. The cautions come last and are always there. Without
// joints nothing is said.
func Strength(answers []strength.Answer) *doc.Document {
	p := &page{}
	if len(answers) > 0 {
		for i := range answers {
			p.joint(&answers[i])
		}
		p.granted(answers)
		p.cautions(answers)
	}
	return &p.Document
}

// Joints says what gives way first in each joint, with the cautions, but not what
// the strengths rest on: that is for the end of the sheet.
func Joints(answers []strength.Answer) *doc.Document {
	p := &page{}
	for i := range answers {
		p.joint(&answers[i])
	}
	p.cautions(answers)
	return &p.Document
}

// Granted says what strengths rest on.
func Granted(answers []strength.Answer) *doc.Document {
	p := &page{}
	p.granted(answers)
	return &p.Document
}

func (p *page) joint(a *strength.Answer) {
	title := "What gives way first: " + a.Joint.ID
	if a.Joint.Say != "" {
		title += ", " + a.Joint.Say
	}
	p.chapter("%s", title)
	p.waysOf(a)
	for i, text := range a.Verdict {
		space := doc.Next
		if i == 0 && len(a.Ways) > 0 {
			space = doc.Apart
		}
		p.Add(doc.Paragraph{Words: doc.Show(sentenceOf(text)), Space: space})
	}
	p.screw(a.Screw)
	p.press(a.Press)
	p.mind(a.Warnings)
}

// newtonsPerPound is the force of a pound at standard gravity, N.
const newtonsPerPound = 4.4482216152605

func (p *page) waysOf(a *strength.Answer) {
	if len(a.Ways) == 0 {
		return
	}
	t := &doc.Table{Name: "ways", Columns: []doc.Column{
		plain("gives way"), plain("at"),
		{Name: "pounds"},
		plain("times first"), plain("yields from"),
		{Name: "most", Head: doc.Plain("may hold up to")},
		{Name: "by", Head: doc.Plain("by"), Tone: doc.Quiet},
	}}
	for _, w := range a.Ways {
		name := doc.Plain(string(w.Piece) + " " + string(w.Mode))
		switch {
		case w.Fuse && a.Ways[0].Fuse:
			name = doc.Say("%s, as meant", name)
		case w.Fuse:
			name = doc.Say("%s%s", name, warning(doc.Plain(", meant to be first")))
		}
		t.Add(doc.Cells{
			"gives way": name, "at": doc.Plain(strength.ForceText(w.Load)), "pounds": doc.Say("%.0f lbf", w.Load/newtonsPerPound),
			"times first": doc.Say("%.2f", w.Margin), "yields from": whereGiven(w.Yield), "most": whereGiven(w.Most), "by": doc.Show(w.How),
		})
	}
	p.Add(t)
}

// whereGiven is a force that the tables may lack.
func whereGiven(x float64) doc.Text {
	if math.IsNaN(x) {
		return doc.Plain("-")
	}
	return doc.Plain(strength.ForceText(x))
}

func (p *page) screw(s *strength.Screw) {
	if s == nil {
		return
	}
	p.Add(doc.Paragraph{Words: doc.Say("%s: stress area %.1f mm²", s.Thread.Designation, s.StressArea), Space: doc.Apart})
	if s.Full > 0 {
		p.under(0, "%.1f mm of full thread; stripping areas %.0f mm² of the stud's thread, %.0f mm² of the nut's", s.Full, s.ScrewShear, s.NutShear)
	}
	t := s.Tightening
	if t.Stated {
		p.under(0, "tightened to %s: preload %s (by the rule T = 0.2 F d: %s)",
			spanText(t.Torque, strength.TorqueText), spanText(t.Preload, strength.ForceText), strength.ForceText(t.ByRule))
		p.under(0, "friction %.2f to %.2f; pulled and twisted to %.0f MPa; undone by %s",
			t.Friction.Low, t.Friction.High, t.Stress, spanText(t.Undo, strength.TorqueText))
	}
	p.under(0, "by hand: a strong pull on a spanner of %.0f mm is %s, a preload of up to %s",
		t.Spanner, strength.TorqueText(t.Hand), strength.ForceText(t.HandPull))
}

// spanText writes a span, or one figure where both ends read the same.
func spanText(s strength.Span, show func(float64) string) string {
	low, high := show(s.Low), show(s.High)
	if low == high {
		return low
	}
	return low + " to " + high
}

func (p *page) press(f *strength.Press) {
	if f == nil {
		return
	}
	t := &doc.Table{Name: "press", Space: doc.Apart, Columns: []doc.Column{
		plain("press fit"), plain("at the least"), {Name: "at the greatest", Head: doc.Plain("at the greatest interference")},
	}}
	add := func(name string, s strength.Span, show func(float64) unit.Amount) {
		t.Add(doc.Cells{"press fit": doc.Plain(name), "at the least": doc.Show(show(s.Low)), "at the greatest": doc.Show(show(s.High))})
	}
	words := func(show func(float64) string) func(float64) unit.Amount {
		return func(x float64) unit.Amount { return unit.Words(show(x)) }
	}
	stress := func(mpa float64) unit.Amount { return unit.Say("%.1f MPa", mpa) }
	add("interference in service", f.Interference, func(mm float64) unit.Amount { return unit.Twice(mm) })
	add("pressure", f.Pressure, stress)
	add("pull round the outer one's bore", f.OuterHoop, stress)
	add("pushes off at", f.Push, words(strength.ForceText))
	add("turns at", f.Torque, words(strength.TorqueText))
	p.Add(t)
	p.say("To put together with %s to spare: the outer one %.0f K warmer, or the inner one %.0f K colder.", length(f.Allowance), f.Heat, f.Cool)
}

// granted says what was assumed of every joint, then of each, and what the
// strengths rest on.
func (p *page) granted(answers []strength.Answer) {
	if len(answers) == 0 {
		return
	}
	p.chapter("Taken for granted")
	for _, text := range answers[0].Notes {
		if ofAll(answers, text) {
			p.item("%s", text)
		}
	}
	var sources sourceList
	for _, a := range answers {
		for _, text := range a.Notes {
			if !ofAll(answers, text) {
				p.item("%s: %s", a.Joint.ID, text)
			}
		}
		for _, w := range a.Ways {
			for _, source := range w.Sources {
				sources.add("strength", source)
			}
		}
	}
	if len(sources) > 0 {
		p.sources(sources)
	}
}

// ofAll reports whether a note stands with every joint.
func ofAll(answers []strength.Answer, text string) bool {
	return !slices.ContainsFunc(answers, func(a strength.Answer) bool { return !slices.Contains(a.Notes, text) })
}

// cautions says what is to be said of all joints, each once, what holds for every
// joint last.
func (p *page) cautions(answers []strength.Answer) {
	if len(answers) == 0 {
		return
	}
	var list []string
	for _, a := range answers {
		for _, text := range a.Cautions {
			list = append(slices.DeleteFunc(list, func(said string) bool { return said == text }), text)
		}
	}
	p.chapter("Caution")
	for _, text := range list {
		p.Add(doc.Caution{Words: doc.Plain(text)})
	}
}
