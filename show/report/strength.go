package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Strength writes what gives way first in each joint, as a machinist reads it at
// the bench: the order, whether it is as meant, what tightening does. The cautions
// come last and are always there. Without joints nothing is written.
func Strength(w io.Writer, answers []strength.Answer, style Style) error {
	if len(answers) == 0 {
		return nil
	}
	p := &printer{w: w, units: unit.Millimetre, style: style}
	return p.report(func() {
		for i := range answers {
			p.joint(&answers[i])
		}
		p.taken(answers)
		p.cautions(answers)
	})
}

func (p *printer) joint(a *strength.Answer) {
	title := "What gives way first: " + a.Joint.ID
	if a.Joint.Say != "" {
		title += ", " + a.Joint.Say
	}
	p.heading(title)
	p.waysOf(a)
	for _, text := range a.Verdict {
		p.paragraph("", sentence(text))
	}
	p.screw(a.Screw)
	p.press(a.Press)
	p.mind(a.Warnings)
}

// mind writes what makes a result doubtful.
func (p *printer) mind(warnings []string) {
	if len(warnings) == 0 {
		return
	}
	p.heading("Mind")
	for _, text := range warnings {
		p.paragraph("", sentence(text))
	}
}

// sentence begins with a capital and ends with a full stop.
func sentence(text string) string {
	text = strings.ToUpper(text[:1]) + text[1:]
	if strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}

// newtonsPerPound is the force of a pound at standard gravity, N.
const newtonsPerPound = 4.4482216152605

func (p *printer) waysOf(a *strength.Answer) {
	if len(a.Ways) == 0 {
		return
	}
	rows := [][]string{{"gives way", "at", "", "times first", "yields from", "may hold up to", "by"}}
	for _, w := range a.Ways {
		name := w.Piece + " " + string(w.Mode)
		switch {
		case w.Fuse && a.Ways[0].Fuse:
			name += ", as meant"
		case w.Fuse:
			name += p.paint(yellow, ", meant to be first")
		}
		rows = append(rows, []string{
			name, strength.ForceText(w.Load), fmt.Sprintf("%.0f lbf", w.Load/newtonsPerPound), fmt.Sprintf("%.2f", w.Margin),
			whereGiven(w.Yield, strength.ForceText), whereGiven(w.Most, strength.ForceText), w.How,
		})
	}
	p.table(rows)
	p.line("")
}

// whereGiven writes a figure that the tables may lack.
func whereGiven(x float64, show func(float64) string) string {
	if math.IsNaN(x) {
		return "-"
	}
	return show(x)
}

func (p *printer) screw(s *strength.Screw) {
	if s == nil {
		return
	}
	p.line("\n  %s: stress area %.1f mm²", s.Thread.Designation, s.StressArea)
	if s.Full > 0 {
		p.line("  %.1f mm of full thread; stripping areas %.0f mm² of the stud's thread, %.0f mm² of the nut's", s.Full, s.ScrewShear, s.NutShear)
	}
	t := s.Tightening
	if t.Stated {
		p.line("  tightened to %s: preload %s (by the rule T = 0.2 F d: %s)", torques(t.Torque), forces(t.Preload), strength.ForceText(t.ByRule))
		p.line("  friction %.2f to %.2f; pulled and twisted to %.0f MPa; undone by %s", t.Friction.Low, t.Friction.High, t.Stress, torques(t.Undo))
	}
	p.line("  by hand: a strong pull on a spanner of %.0f mm is %s, a preload of up to %s", t.Spanner, strength.TorqueText(t.Hand), strength.ForceText(t.HandPull))
}

func torques(s strength.Span) string { return between(s, strength.TorqueText) }

func forces(s strength.Span) string { return between(s, strength.ForceText) }

func between(s strength.Span, show func(float64) string) string {
	low, high := show(s.Low), show(s.High)
	if low == high {
		return low
	}
	return low + " to " + high
}

func (p *printer) press(f *strength.Press) {
	if f == nil {
		return
	}
	rows := [][]string{{"press fit", "at the least", "at the greatest interference"}}
	add := func(name string, s strength.Span, show func(float64) string) {
		rows = append(rows, []string{name, show(s.Low), show(s.High)})
	}
	add("interference in service", f.Interference, bothLengths)
	add("pressure", f.Pressure, stressText)
	add("pull round the outer one's bore", f.OuterHoop, stressText)
	add("pushes off at", f.Push, strength.ForceText)
	add("turns at", f.Torque, strength.TorqueText)
	p.line("")
	p.table(rows)
	p.paragraph("", fmt.Sprintf("To put together with %.3f mm to spare: the outer one %.0f K warmer, or the inner one %.0f K colder.", f.Allowance, f.Heat, f.Cool))
}

func stressText(mpa float64) string { return fmt.Sprintf("%.1f MPa", mpa) }

// taken writes what was assumed of every joint, then of each, and what the
// strengths rest on.
func (p *printer) taken(answers []strength.Answer) {
	p.heading("Taken for granted")
	for _, text := range answers[0].Notes {
		if ofAll(answers, text) {
			p.paragraph("- ", text)
		}
	}
	var sources sourceList
	for _, a := range answers {
		for _, text := range a.Notes {
			if !ofAll(answers, text) {
				p.paragraph("- ", a.Joint.ID+": "+text)
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

// cautions writes what is to be said of all joints, each once, what holds for every
// joint last.
func (p *printer) cautions(answers []strength.Answer) {
	var list []string
	for _, a := range answers {
		for _, text := range a.Cautions {
			list = append(slices.DeleteFunc(list, func(said string) bool { return said == text }), text)
		}
	}
	p.heading("Caution")
	for _, text := range list {
		p.paragraph("", p.paint(red, text))
	}
}
