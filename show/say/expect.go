package say

import (
	"slices"

	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Expected says what to expect of readings that have not all been taken.
func Expected(e *advise.Expectation) *doc.Document {
	p := &forecast{&findings{page: titled(e.Result.Job.Name), r: e.Result}, e}
	p.head()
	p.expected()
	p.places()
	p.hangsOn()
	p.unseen()
	p.undetermined()
	p.warnings()
	return &p.Document
}

// forecast puts an expectation into words.
type forecast struct {
	*findings
	e *advise.Expectation
}

// head says how much is planned.
func (p *forecast) head() {
	switch planned, all := len(p.e.Planned), len(p.r.Job.Readings); {
	case all == 0:
		p.say("There are no readings in this job, taken or planned.")
	case planned == 0:
		p.say("Every reading has been taken: this is what they tell.")
	case planned == all:
		p.say("Nothing has been read yet: this is what to expect of the readings planned.")
	default:
		p.say("%d of %d readings are still planned: this is what to expect of all together.", planned, all)
	}
}

// expected says what to expect of each size.
func (p *forecast) expected() {
	t := &doc.Table{Name: "expected", Space: doc.Apart, Columns: []doc.Column{
		plain("size"), plain("about"), {Name: "within", Head: within()}, plain("readings"), {Name: "checked", Head: doc.Plain("checked by")},
	}}
	for _, s := range p.r.Sizes {
		t.Add(p.row(s))
	}
	p.Add(t)
}

func (p *forecast) row(s adjust.Size) doc.Cells {
	row := doc.Cells{"size": size(s.ID), "about": notFound(), "readings": doc.Say("%d", s.Readings)}
	if !s.Determined {
		return row
	}
	row["about"] = doc.Show(amount(s.Value, s.Dimension))
	if slices.Contains(p.e.Unknown, s.ID) {
		row["about"] = doc.Plain("?")
	}
	row["within"], row["checked"] = doc.Show(halfWidth(half(s.U), s.Dimension)), checked(s)
	return row
}

// hangsOn says what the figures are worth where nothing tells how large a size is.
func (p *forecast) hangsOn() {
	if len(p.e.HangsOn) == 0 {
		return
	}
	var assumed []doc.Text
	for _, id := range p.e.HangsOn {
		named := size(id)
		if s := p.r.Size(id); s.Determined {
			named = doc.Say("%s %s", named, amount(s.Value, s.Dimension))
		}
		assumed = append(assumed, named)
	}
	p.apart("What the readings are worth hangs on sizes that nothing tells yet; taken here are %s. Give them a `guess:`.", doc.Join(assumed, ", "))
}

// unseen names the readings that nothing checks.
func (p *forecast) unseen() {
	var lines []doc.Text
	for _, id := range p.e.Unseen {
		lines = append(lines, doc.Say("%s (%s)", doc.Name(doc.Reading, id), p.r.Job.Reading(id).By))
	}
	p.list("Nothing would show that one of these is wrong", lines)
}
