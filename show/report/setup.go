package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/hold"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/make/strength"
)

// Setup writes how the part of a job is set up for, operation by operation. What
// to mind at the machines comes last and is always there.
func Setup(w io.Writer, plan *plan.Plan, style Style) error {
	s := &settingUp{printer: &printer{w: w, units: plan.Job.Shown(), style: style}, plan: plan}
	return s.report(s.head, s.order, s.steps, s.holdingNotes, s.atTheMachine, s.allSources)
}

// settingUp writes the set-ups of one part.
type settingUp struct {
	*printer
	plan    *plan.Plan
	sources sourceList
}

func (p *settingUp) head() {
	m := p.plan.Model
	said := []string{string(m.Kind)}
	if m.Material != "" {
		said = append(said, m.Material)
	}
	p.line("%s\n", p.paint(bold, p.plan.Job.Name))
	p.line("  %s: %s", m.Name, strings.Join(append(said, fmt.Sprintf("%d off", m.Quantity)), ", "))
	p.stocked()
}

func (p *settingUp) stocked() { p.stock(p.plan.Stock) }

// steps writes each operation, then what no operation was named for.
func (p *settingUp) steps() {
	for i, s := range p.plan.Steps {
		p.stepHeading(i, s)
		p.held(s.Held)
		p.speedsOf(s)
		p.shoe(s.Arcs)
		p.holes(s)
		p.divided(s.Divided)
		p.threadsOf(s)
		p.tapsOf(s.Taps)
		p.tapersOf(s.Tapers)
		for _, note := range s.Notes {
			p.paragraph("- ", sentence(note))
		}
	}
}

// allSources writes where the figures of the tables are from.
func (p *settingUp) allSources() {
	if len(p.sources) > 0 {
		p.printer.sources(p.sources)
	}
}

func (p *settingUp) stepHeading(i int, s *plan.Step) {
	op := s.Operation
	if op == nil {
		name := "On a machine that the shop does not list"
		if s.Machine != nil {
			name = "On the " + s.Machine.ID + ", of no operation in the order of work"
		}
		p.heading(name)
		return
	}
	title := fmt.Sprintf("%d. %s", i+1, op.Do)
	if op.On != "" {
		title += ", on the " + op.On
	}
	p.heading(title)
	p.setBy(s)
	for _, text := range s.Turn.Cautions(p.plan.Job) {
		p.paragraph("- ", p.paint(yellow, text))
	}
	if op.Say != "" {
		p.paragraph("", sentence(op.Say))
	}
}

// setBy says what the operation does to machines, and its cutter.
func (p *settingUp) setBy(s *plan.Step) {
	op := s.Operation
	if op.Back != "" {
		p.paragraph("", fmt.Sprintf("Puts the %s back.", op.Back))
	}
	if op.Apart != "" {
		p.paragraph("", p.paint(yellow, fmt.Sprintf("The %s is in pieces from here on, until it is put back.", op.Apart)))
	}
	if c := s.Cutter; c != nil {
		p.line("  cutter: %s (%s, %v)", c.ID, strings.ReplaceAll(string(c.Kind), "-", " "), c.Diameter)
	}
}

// held writes what keeps the work in its place.
func (p *settingUp) held(h *hold.Judgement) {
	if h == nil {
		return
	}
	p.line("\n  %s", p.paint(bold, "How it is held"))
	p.shares(h)
	p.paragraph("", p.freedom(h))
	for _, text := range h.Said {
		p.paragraph("", p.paint(verdictColour(h.Verdict), sentence(text)))
	}
	for _, text := range h.Warnings {
		p.paragraph("- ", p.paint(yellow, sentence(text)))
	}
	p.picture(h.Scene(p.plan.Outline()))
}

// verdictColour is how loudly a verdict is said.
func verdictColour(v hold.Verdict) string {
	switch v {
	case hold.Slips, hold.Unseated:
		return red
	case hold.ByFriction, hold.Hardly:
		return yellow
	}
	return bold
}

// freedom says which motions the contacts leave free.
func (p *settingUp) freedom(h *hold.Judgement) string {
	var free []string
	for _, m := range h.Free {
		free = append(free, h.MotionText(m))
	}
	switch len(free) {
	case 0:
		return "Stops, jaws and screws leave it no way to move, even without friction."
	case 1:
		return "Without friction it " + free[0] + ", and not otherwise."
	}
	return "Without friction it " + strings.Join(free, "; it ") + "; and any of these together."
}

// shares writes what each contact presses with.
func (p *settingUp) shares(h *hold.Judgement) {
	if len(h.Shares) == 0 {
		return
	}
	rows := [][]string{{"contact", "", "at rest", "cutting", "heel"}}
	rubs := false
	for _, s := range h.Shares {
		row := []string{s.Contact.ID, contactText(s.Contact), forceRange(s.Rest), "", ""}
		if h.Verdict != hold.NoForce {
			row[3] = forceRange(s.Cutting)
		}
		if s.Contact.Kind == trade.ClampContact {
			row[4] = strength.ForceText(s.Heel)
		}
		rows, rubs = append(rows, row), rubs || s.Rubs
	}
	p.table(filled(rows))
	if rubs {
		p.paragraph("", "Without friction these do not balance, so what rubs is counted in them.")
	}
}

func contactText(c *trade.Contact) string {
	if c.Kind == trade.JawContact && c.Clamping.Given() {
		return "jaw that moves"
	}
	return string(c.Kind)
}

// forceRange writes what a contact may press with.
func forceRange(s strength.Span) string {
	switch {
	case math.IsNaN(s.Low):
		return "gives way"
	case math.IsInf(s.High, 1):
		return strength.ForceText(s.Low) + " or more"
	}
	return forces(s)
}

// holdingNotes says what every judgement of holding rests on, once.
func (p *settingUp) holdingNotes() {
	held, straps := false, false
	for _, s := range p.plan.Steps {
		if s.Held == nil {
			continue
		}
		held = true
		for _, c := range s.Held.Holding.Contacts {
			straps = straps || c.Kind == trade.ClampContact
		}
	}
	if !held {
		return
	}
	p.heading("Of holding")
	p.paragraph("- ", fmt.Sprintf("Reckoned in one plane, the work rigid and its weight not counted: whether the cutter lifts or tips it is not looked at. The cutting force is yours. Friction is judged at %g, and %g times the force is wanted of it (common practice, no source).", hold.JudgedFriction, float64(hold.SafeFactor)))
	if straps {
		p.paragraph("- ", "Strap clamps: heel packing level with the work or a little high, the bolt nearer the work than the heel (common practice, no source).")
	}
}
