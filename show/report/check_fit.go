package report

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/inspect"
)

// offers says how a piece will go together, before it is tried.
func (p *checking) offers(piece *inspect.Piece) {
	if len(piece.Offers)+len(piece.Mates) == 0 {
		return
	}
	p.heading("Before it is offered up")
	for i := range piece.Offers {
		p.paragraph("", p.offer(&piece.Offers[i]))
	}
	for i := range piece.Mates {
		a := &piece.Mates[i]
		if !a.Known() {
			continue
		}
		p.paragraph("", p.paint(bold, a.Mate.ID)+": "+p.goesIn(a))
		if face, by, binds := inspect.EaseFirst(a); binds {
			p.paragraph("- ", fmt.Sprintf("Ease the %s first, by %s at least.", face, p.length(by)))
		}
	}
}

func (p *checking) offer(o *inspect.Offer) string {
	said := fmt.Sprintf("%s %s%s with %s ± %s, wanted %s to %s.", p.paint(bold, o.Made.Size.ID), goes[o.Made.Size.From], o.Made.Size.Of.Text,
		clearance(o.Clearance, p.length), p.halfWidth(half(o.U), unit.Length), p.length(o.Least), p.length(o.Most))
	if o.Least >= 0 {
		said += fmt.Sprintf(" It binds in %s; slacker than wanted in %s.", often(o.Binds), often(o.Slack))
	} else {
		said += fmt.Sprintf(" Tighter than wanted in %s; it has no grip left in %s.", often(o.Tight), often(1-o.Binds))
	}
	if o.Ease > 0 {
		said += " " + p.paint(red, fmt.Sprintf("Ease %s by %s before it is tried.", o.Made.Size.ID, p.length(o.Ease)))
	}
	return said
}

// takenApart says what the readings of the bare old part changed.
func (p *checking) takenApart() {
	a := p.c.Apart
	if a == nil {
		return
	}
	p.heading("After taking apart")
	rows := [][]string{{"size", "before, ± 95 %", "now, ± 95 %", "changed by", "the first was"}}
	for i := range a.Changes {
		rows = append(rows, p.changeRow(&a.Changes[i]))
	}
	if len(rows) > 1 {
		p.table(rows)
	}
	p.paragraph("", "What is not listed is as it was.")
	if len(a.Dropped) > 0 {
		p.paragraph("", fmt.Sprintf("%s of the first readings contradict those of the bare part, which are believed here.", strings.Join(a.Dropped, ", ")))
	}
	for _, next := range a.Next {
		d := next.Now.Size.Kind.Dimension()
		if !next.Then.Determined {
			p.paragraph("", fmt.Sprintf("%s can now be made: %s.", p.paint(bold, next.Now.Size.ID), p.amount(next.Now.Target, d)))
			continue
		}
		p.paragraph("", fmt.Sprintf("%s: next time make it %s, not %s.", p.paint(bold, next.Now.Size.ID), p.amount(next.Now.Target, d), p.amount(next.Then.Target, d)))
	}
}

func (p *checking) changeRow(c *inspect.Change) []string {
	d := c.Size.Dimension
	now, _ := p.both(c.Size.Value, half(c.Size.U), d)
	row := []string{c.Size.ID, "not found", now, "", ""}
	if math.IsNaN(c.UB) {
		return row
	}
	row[1], _ = p.both(c.Before, half(c.UB), d)
	row[3] = p.amount(c.Off, d) + " ± " + p.halfWidth(half(c.U), d)
	row[4] = "right"
	if c.Wrong {
		row[4] = p.paint(red, "not right")
	}
	return row
}

// puttingBack lists what to do and to mind in putting back.
func (p *checking) puttingBack() {
	when := inspect.CautionKind("")
	p.heading("Putting back")
	for _, c := range p.c.Back {
		if c.When != when {
			when = c.When
			p.line("  %s", p.paint(bold, strings.ToUpper(string(when[:1]))+string(when[1:])))
		}
		p.paragraph("- ", c.Text)
	}
}
