package say

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// pieces says how each piece that has been read stands.
func (p *checking) pieces() {
	for i := range p.c.Pieces {
		piece := &p.c.Pieces[i]
		title := "Verdicts"
		if p.c.Job.Part.Quantity > 1 {
			title = fmt.Sprintf("Verdicts on piece %d", piece.Number)
		}
		p.chapter("%s", title)
		p.verdicts(piece)
		p.offers(piece)
	}
}

func (p *checking) verdicts(piece *inspect.Piece) {
	t := &doc.Table{Name: "verdicts", Columns: []doc.Column{
		plain("size"), plain("limits"),
		{Name: "found", Head: doc.Plain("found"), Within: within()},
		plain("within them"),
		{Name: "verdict", Head: doc.Plain("it is")},
	}}
	for i := range piece.Verdicts {
		t.Add(verdictRow(&piece.Verdicts[i]))
	}
	p.Add(t)
	for i := range piece.Verdicts {
		v := &piece.Verdicts[i]
		for _, words := range besides(v) {
			p.say("%s: %s", doc.In(doc.Strong, newSize(v.Made.Size.ID)), words)
		}
	}
}

func verdictRow(v *inspect.Verdict) doc.Cells {
	d := v.Made.Size.Kind.Dimension()
	row := doc.Cells{"size": newSize(v.Made.Size.ID), "verdict": verdict(v)}
	if v.Limits.Low < v.Limits.High {
		row["limits"] = doc.Show(between(v.Limits.Low, v.Limits.High, d))
	}
	if !math.IsNaN(v.Value) {
		row["found"] = doc.Show(measured(v.Value, v.U, d))
	}
	if !math.IsNaN(v.Chance) {
		row["within them"] = doc.Plain(fit.Percent(v.Chance))
	}
	return row
}

// verdict says what a size is; work in the machine that has something to come off is
// not wrong.
func verdict(v *inspect.Verdict) doc.Text {
	switch {
	case v.Says == inspect.Conforming:
		return doc.Judged(doc.Good, string(v.Says))
	case v.Take != nil && v.Take.Off > 0:
		return doc.Judged(doc.Doubtful, "not there yet")
	case v.Says == inspect.NotConforming:
		return doc.Judged(doc.Bad, string(v.Says))
	}
	return doc.Judged(doc.Doubtful, string(v.Says))
}

// besides says why a verdict says no more, what was corrected, and what is to come
// off yet.
func besides(v *inspect.Verdict) []doc.Text {
	var said []doc.Text
	if v.Why != "" {
		said = append(said, doc.Say("%s.", v.Why))
	}
	if v.Corrected != 0 {
		said = append(said, doc.Say("corrected for a warm piece; %s was taken off the reading.", length(v.Corrected)))
	}
	if v.Take != nil {
		said = append(said, take(v))
	}
	return said
}

// take says what is to come off in the machine.
func take(v *inspect.Verdict) doc.Text {
	t := v.Take
	on := ""
	if t.Round {
		on = " on the diameter"
	}
	switch {
	case t.Gone:
		return alarm(doc.Plain("past the limit: no cut brings it back."))
	case t.Off == 0 && v.Says == inspect.Conforming:
		return doc.Plain("leave it: it is right.")
	case t.Off == 0:
		return warning(doc.Plain("cut no more: read it more closely, it may be right."))
	case t.Now == 0:
		return warning(doc.Say("%s more%s would be right, but %s.", length(t.Off), on, t.Mind))
	}
	said := doc.Say("take off %s more%s: %s.", length(t.Off), on, counts(t.Cuts, "cut"))
	switch {
	case t.Cuts > 1:
		said = doc.Say("%s The next takes %s; then read it again.", said, length(t.Now))
	case t.Now < t.Off:
		said = doc.Say("%s It takes %s; then read it again.", said, length(t.Now))
	}
	return doc.Say("%s%s Chance of going past the limit: %s.%s", said, dialled(t), fit.Percent(t.Past), mindTaking(t))
}

// counts writes a number of things: one cut, 2 cuts.
func counts(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// dialled says how far a dial goes for the next cut.
func dialled(t *inspect.Take) string {
	d := t.Dial
	if d == nil {
		return ""
	}
	said := fmt.Sprintf(" On the %s dial of the %s: %s", d.Slide, d.Machine, divisions(d.Now))
	if t.Round {
		said += ", which counts " + string(d.Counts)
	}
	return said + "."
}

// divisions writes a number of divisions to a half.
func divisions(n float64) string {
	switch n = math.Round(2*n) / 2; n {
	case 0.5:
		return "half a division"
	case 1:
		return "1 division"
	}
	return fmt.Sprintf("%g divisions", n)
}

func mindTaking(t *inspect.Take) doc.Text {
	if t.Mind == "" {
		return nil
	}
	return doc.Say(" %s", warning(doc.Plain(sentence(t.Mind))))
}

// VerdictWords says how one size of a piece stands: what it is, as found, then what
// else there is to say.
func VerdictWords(v *inspect.Verdict) (says, found doc.Text, more []doc.Text) {
	row := verdictRow(v)
	for _, words := range besides(v) {
		more = append(more, raisedText(words))
	}
	return row["verdict"], row["found"], more
}

// offers says how a piece will go together, before it is tried.
func (p *checking) offers(piece *inspect.Piece) {
	if len(piece.Offers)+len(piece.Mates) == 0 {
		return
	}
	p.chapter("Before it is offered up")
	for i := range piece.Offers {
		p.say("%s", offer(&piece.Offers[i]))
	}
	for i := range piece.Mates {
		a := &piece.Mates[i]
		if !a.Known() {
			continue
		}
		p.say("%s: %s", strong(a.Mate.ID), goesIn(a))
		if face, by, binds := inspect.EaseFirst(a); binds {
			p.item("Ease the %s first, by %s at least.", face, length(by))
		}
	}
}

func offer(o *inspect.Offer) doc.Text {
	said := doc.Say("%s %s%s with %s ± %s, wanted %s to %s.", doc.In(doc.Strong, newSize(o.Made.Size.ID)), goes[o.Made.Size.From], o.Made.Size.Of.Text,
		clearance(o.Clearance), halfWidth(half(o.U), unit.Length), length(o.Least), length(o.Most))
	if o.Least >= 0 {
		said = doc.Say("%s It binds in %s; slacker than wanted in %s.", said, often(o.Binds), often(o.Slack))
	} else {
		said = doc.Say("%s Tighter than wanted in %s; it has no grip left in %s.", said, often(o.Tight), often(1-o.Binds))
	}
	if o.Ease > 0 {
		said = doc.Say("%s %s", said, alarm(doc.Say("Ease %s by %s before it is tried.", o.Made.Size.ID, length(o.Ease))))
	}
	return said
}

// takenApart says what the readings of the bare old part changed.
func (p *checking) takenApart() {
	a := p.c.Apart
	if a == nil {
		return
	}
	p.chapter("After taking apart")
	t := &doc.Table{Name: "changes", Columns: []doc.Column{
		plain("size"),
		{Name: "before", Head: doc.Plain("before"), Within: within()},
		{Name: "now", Head: doc.Plain("now"), Within: within()},
		plain("changed by"), plain("the first was"),
	}}
	for i := range a.Changes {
		t.Add(changeRow(&a.Changes[i]))
	}
	if len(t.Rows) > 0 {
		p.Add(t)
	}
	p.say("What is not listed is as it was.")
	if len(a.Dropped) > 0 {
		p.say("%s of the first readings contradict those of the bare part, which are believed here.", strings.Join(a.Dropped, ", "))
	}
	for _, next := range a.Next {
		d := next.Now.Size.Kind.Dimension()
		if !next.Then.Determined {
			p.say("%s can now be made: %s.", doc.In(doc.Strong, newSize(next.Now.Size.ID)), amount(next.Now.Target, d))
			continue
		}
		p.say("%s: next time make it %s, not %s.", doc.In(doc.Strong, newSize(next.Now.Size.ID)), amount(next.Now.Target, d), amount(next.Then.Target, d))
	}
}

func changeRow(c *inspect.Change) doc.Cells {
	d := c.Size.Dimension
	row := doc.Cells{"size": size(c.Size.ID), "before": doc.Plain("not found"), "now": doc.Show(measured(c.Size.Value, c.Size.U, d))}
	if math.IsNaN(c.UB) {
		return row
	}
	row["before"] = doc.Show(measured(c.Before, c.UB, d))
	row["changed by"] = doc.Say("%s ± %s", amount(c.Off, d), halfWidth(half(c.U), d))
	row["the first was"] = doc.Judged(doc.Good, "right")
	if c.Wrong {
		row["the first was"] = doc.Judged(doc.Bad, "not right")
	}
	return row
}

// puttingBack lists what to do and to mind in putting back.
func (p *checking) puttingBack() {
	when := inspect.CautionKind("")
	p.chapter("Putting back")
	for _, c := range p.c.Back {
		if c.When != when {
			when = c.When
			p.Add(doc.Paragraph{Words: strong(raised(string(when))), Keeps: true})
		}
		p.item("%s", c.Text)
	}
}
