package say

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Fit says what to make a part to, how each size will go with its mate, and what
// chains of sizes come to.
func Fit(f *fit.Result) *doc.Document {
	p := newMaking(f)
	p.Title = doc.Plain(p.r.Job.Name)
	if part := p.r.Job.Part; part != nil {
		p.Add(doc.Line(0, PartText(part)))
	}
	p.all()
	p.warnings()
	return &p.Document
}

// MakeChapter says what to make as a chapter of the sheet: of a job that makes
// nothing there is none.
func MakeChapter(f *fit.Result) *doc.Document {
	p := newMaking(f)
	if len(f.Make) > 0 {
		p.chapter("What to make")
		p.all()
	}
	return &p.Document
}

// making puts what to make into words.
type making struct {
	*findings
	f *fit.Result
}

func newMaking(f *fit.Result) *making { return &making{&findings{page: &page{}, r: f.Found}, f} }

// all says all of it.
func (p *making) all() {
	p.toMake()
	p.threads()
	p.matings()
	p.rest()
	p.stacks()
	p.mindMade()
}

// PartText says what is made.
func PartText(part *trade.Part) doc.Text {
	said := []string{string(part.Kind)}
	if part.Material != "" {
		said = append(said, part.Material)
	}
	if part.Quantity > 1 {
		said = append(said, fmt.Sprintf("%d off", part.Quantity))
	}
	return doc.Say("%s: %s", doc.Plain(part.Name), strings.Join(said, ", "))
}

// FitAdvice is what is worth saying of one size.
func FitAdvice(f *fit.Result, m *fit.Made) []doc.Text { return newMaking(f).advice(m) }

// LinkDimension is what a link of a chain measures.
func LinkDimension(f *fit.Result, c *fit.Chain, l fit.Link) unit.Dimension {
	return newMaking(f).linkDimension(c, l)
}

// toMake says of each size what to work to, with room to write what came of it.
func (p *making) toMake() {
	if len(p.f.Make) == 0 {
		return
	}
	limits := func(name string, which doc.Which) doc.Column {
		return doc.Column{Name: name, Head: doc.Say("limits, %s", unitName()), Weight: doc.Figures, View: which}
	}
	t := &doc.Table{Name: "make", Space: doc.Apart, Columns: []doc.Column{
		plain("size"),
		{Name: "make to", Head: doc.Plain("make to"), Weight: doc.Large, Right: true},
		limits("limits", doc.First), limits("limits beside", doc.Second),
		{Name: "it", Head: doc.Plain("it"), Tone: doc.Quiet},
		{Name: "made", Head: doc.Plain("made"), Where: doc.ByHand},
	}}
	t.Column("limits beside").Weight, t.Column("limits beside").Tone = doc.Usual, doc.Quiet
	for i := range p.f.Make {
		m := &p.f.Make[i]
		row := doc.Cells{"size": newSize(m.Size.ID), "make to": notFound(), "it": origin(m)}
		if m.Determined {
			row["make to"] = doc.Show(amount(m.Target, m.Size.Kind.Dimension()))
			row["limits"], row["limits beside"] = limitsOf(m)
		}
		t.Add(row)
	}
	p.Add(t)
}

// limitsOf are the limits to work to in both units, rounded inward; where that
// leaves nothing, as they are, with a mark.
func limitsOf(m *fit.Made) (first, second doc.Text) {
	d := m.Size.Kind.Dimension()
	switch {
	case !(m.Low < m.High):
		return nil, nil
	case d != unit.Length:
		return doc.Say("%s to %s", amount(m.Low, d), amount(m.High, d)), nil
	}
	told := madeTo{m}
	if _, _, inMM := m.Limits(unit.Millimetre); !inMM {
		return warning(doc.Show(told)), doc.Show(told)
	}
	return doc.Show(told), doc.Show(told)
}

// madeTo is the limits of a length to work to, rounded inward in the unit in which
// they are told.
type madeTo struct{ m *fit.Made }

// Shown writes the limits without their unit.
func (l madeTo) Shown(v unit.View) string {
	low, high, ok := l.m.Limits(v.Unit())
	mark := ""
	if !ok {
		low, high, mark = l.m.Low, l.m.High, " !"
	}
	return bareLimits(low, high).Shown(v) + mark
}

// MarshalJSON writes the limits in mm.
func (l madeTo) MarshalJSON() ([]byte, error) {
	return unit.Between{Low: l.m.Low, High: l.m.High, Dimension: unit.Length}.MarshalJSON()
}

// goes says which way a size meets its mate.
var goes = map[trade.Origin]string{trade.GoesIn: "goes in ", trade.GoesOver: "goes over "}

// origin says where a size comes from.
func origin(m *fit.Made) doc.Text {
	s := m.Size
	said := "as stated"
	switch s.From {
	case trade.GoesIn, trade.GoesOver:
		said = goes[s.From] + s.Of.Text
		if s.Fit != "" {
			said += ", " + s.Fit
		}
	case trade.Copies:
		said = "copies " + s.Of.Text
		if m.Decided {
			said += " as it was meant"
		}
	case trade.IsThread:
		said = "thread " + s.Thread
	}
	return doc.Plain(said)
}

// threads lists the limits of the threads.
func (p *making) threads() {
	t := &doc.Table{Name: "threads", Space: doc.Apart, Columns: append([]doc.Column{
		plain("thread"), {Name: "of", Head: doc.Plain("limits of")}, plain("class"),
	}, inBoth()...)}
	memory := false
	for i := range p.f.Make {
		m := &p.f.Make[i]
		if m.Thread == nil {
			continue
		}
		name := doc.Plain(m.Size.ID + ", " + m.Thread.Thread.Designation + handText(m.Size.Hand))
		if len(m.Thread.Limits) == 0 {
			t.Add(doc.Cells{"thread": name, "of": doc.Plain("none in the tables")})
		}
		for n, l := range m.Thread.Limits {
			mark := marked(l.Of, l.Source)
			memory = memory || len(mark) > 1
			row := twice(doc.Cells{"of": mark, "class": doc.Plain(l.Class)}, bareLimits(l.Low, l.High))
			if n > 0 {
				t.AddOn(row)
				continue
			}
			row["thread"] = name
			t.Add(row)
		}
	}
	if len(t.Rows) > 0 {
		p.Add(t)
		p.memoryNote(memory)
	}
}

// matings says of each size with a mate how the two will go together.
func (p *making) matings() {
	first := true
	for i := range p.f.Make {
		m := &p.f.Make[i]
		if m.Mating == nil {
			continue
		}
		if first {
			p.chapter("How they go together")
		}
		first = false
		p.say("%s %s", doc.In(doc.Strong, newSize(m.Size.ID)), matingWords(m))
		for _, said := range p.advice(m) {
			p.Add(doc.Item(said))
		}
	}
}

// matingWords says what to expect of a size and its mate.
func matingWords(m *fit.Made) doc.Text {
	w := m.Mating
	mate := doc.Say("%s ± %s", length(w.Mate), halfWidth(half(w.UMate), unit.Length))
	if w.LeastMate < w.MostMate {
		mate = doc.Say("%s to %s, out of form", length(w.LeastMate), length(w.MostMate))
	}
	said := doc.Say("%s%s (%s): %s on average, 95 %% between %s and %s, wanted %s to %s.",
		goes[m.Size.From], m.Size.Of.Text, mate, clearance(w.Mean),
		length(w.ClearanceLow), length(w.ClearanceHigh), length(w.Least), length(w.Most))
	if w.Grips() {
		return doc.Say("%s It grips in %s; tighter than wanted in %s.", said, often(w.Binds), often(1-w.Assembles))
	}
	return doc.Say("%s It goes together in %s; binds in %s; slacker than wanted in %s.", said, often(w.Assembles), often(w.Binds), often(w.Rattles))
}

// clearance is a clearance, or an interference where it is negative.
func clearance(c float64) doc.Text {
	if c < 0 {
		return doc.Say("interference %s", length(-c))
	}
	return doc.Say("clearance %s", length(c))
}

// advice returns what is worth saying of a size.
func (p *making) advice(m *fit.Made) []doc.Text {
	var list []doc.Text
	for _, text := range m.Advice {
		list = append(list, doc.Show(text))
	}
	if m.Read != nil {
		list = append(list, p.reading(m))
	}
	return list
}

// reading says which reading is worth taking before the part is made.
func (p *making) reading(m *fit.Made) doc.Text {
	read, c := m.Read, newCounsel(m.Read.Advice)
	mate := size(read.Advice.For)
	switch {
	case read.Candidate == nil:
		return doc.Say("%s is not found, and no reading that this kit allows would find it.", mate)
	case read.Then == nil:
		return doc.Say("%s is not found yet. %s: %s. %s", mate, c.what(read.Candidate), c.promise(read.Candidate), c.cost(read.Candidate))
	case !m.Mating.Kept:
		return doc.Say("%s first: it would then go together in %s of cases, not %s; %s.",
			c.what(read.Candidate), fit.Percent(read.Then.Assembles), fit.Percent(m.Mating.Assembles), c.promise(read.Candidate))
	case m.Mating.Grips():
		return doc.Say("Your measuring costs interference. %s first: the same grip would need %s less; %s.",
			c.what(read.Candidate), length(read.Saves), c.promise(read.Candidate))
	}
	return doc.Say("Your measuring eats the clearance. %s first would buy %s: it would then be slacker than wanted in %s, not %s; %s.",
		c.what(read.Candidate), length(read.Saves), fit.Percent(read.Then.Rattles), fit.Percent(m.Mating.Rattles), c.promise(read.Candidate))
}

// rest says what is worth saying of sizes without a mate.
func (p *making) rest() {
	first := true
	for i := range p.f.Make {
		m := &p.f.Make[i]
		if m.Mating != nil {
			continue
		}
		for _, said := range p.advice(m) {
			if first {
				p.chapter("Of the other sizes")
			}
			first = false
			p.say("%s: %s", doc.In(doc.Strong, newSize(m.Size.ID)), said)
		}
	}
}

// mindMade says what makes doubtful what is made.
func (p *making) mindMade() {
	var lines []doc.Text
	for _, w := range p.f.Warnings {
		lines = append(lines, doc.Show(w.Text))
	}
	p.list("Mind, in what is made", lines)
}

// stacks says what each chain of sizes comes to.
func (p *making) stacks() {
	if len(p.f.Stacks) == 0 {
		return
	}
	p.chapter("Sums of sizes")
	for i := range p.f.Stacks {
		c := &p.f.Stacks[i]
		name := doc.Say("%s = %s", strong(c.Stack.ID), c.Stack.That.Text)
		if !c.Determined {
			p.say("%s: %s, as not all sizes in it are.", name, notFound())
			continue
		}
		p.say("%s: %s", name, sum(c))
		p.links(c)
	}
}

// sum says what a chain comes to.
func sum(c *fit.Chain) doc.Text {
	show := func(x float64) unit.Amount { return amount(x, c.Dimension) }
	said := doc.Say("%s, 95 %% between %s and %s; at the worst %s to %s; ±%s by root-sum-square.",
		show(c.Value), show(c.Low), show(c.High), show(c.WorstLow), show(c.WorstHigh), halfWidth(c.RSS, c.Dimension))
	if math.IsNaN(c.Within) {
		return said
	}
	said = doc.Say("%s It ends in what is wanted, %s to %s, in %s.",
		said, show(c.Stack.Wanted.Low.Inside()), show(c.Stack.Wanted.High.Inside()), often(c.Within))
	if c.Halved > c.Within {
		said = doc.Say("%s With %s known or held twice as closely it would in %s.", said, c.Links[0].Name, often(c.Halved))
	}
	return said
}

// links lists the links of a chain, that with most part in its scatter first.
func (p *making) links(c *fit.Chain) {
	t := &doc.Table{Name: "links", Columns: []doc.Column{
		plain("link"), {Name: "within", Head: doc.Plain("±")}, plain("counts"), {Name: "part", Head: doc.Plain("part of the scatter")},
	}}
	for _, l := range c.Links {
		t.Add(doc.Cells{
			"link": doc.Plain(l.Name), "within": doc.Show(halfWidth(l.Half, p.linkDimension(c, l))),
			"counts": doc.Say("× %.3g", l.Sensitivity), "part": doc.Say("%.0f %%", 100*l.Part),
		})
	}
	p.Add(t)
}

// linkDimension returns what a link measures; of several sizes together, what the
// chain does.
func (p *making) linkDimension(c *fit.Chain, l fit.Link) unit.Dimension {
	id, _ := strings.CutPrefix(l.Name, "part.")
	if m := p.f.Of(id); m != nil && id != l.Name {
		return m.Size.Kind.Dimension()
	}
	if d, known := p.r.DimensionOf(l.Name); known {
		return d
	}
	return c.Dimension
}
