package say

import (
	"fmt"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Thread says what a thread may have been, and what is needed to cut and gauge the
// likeliest.
func Thread(seen series.ThreadSeen, a series.ThreadAnswer, left bool) *doc.Document {
	p := titled(threadKind(seen, left))
	p.threadRead(seen)
	p.threadCandidates(seen, a.Candidates)
	p.settle(a.Settle, a.Warnings)
	p.threadSheet(series.ThreadSheet(a.Candidates[0].Thread), left)
	return &p.Document
}

// Threads says what the threads of a job may have been.
func Threads(threads []series.JobThread) *doc.Document {
	p := &page{}
	p.allThreads(threads)
	return &p.Document
}

func (p *page) allThreads(threads []series.JobThread) {
	for _, t := range threads {
		p.chapter("Thread %s", t.ID)
		p.say("%s", strong(threadKind(t.Seen, t.Left)))
		p.threadRead(t.Seen)
		p.threadCandidates(t.Seen, t.Candidates)
		p.settle(t.Settle, t.Warnings)
	}
}

func threadKind(seen series.ThreadSeen, left bool) string {
	what := "Screw"
	if seen.Inside {
		what = "Nut or tapped hole"
	}
	if left {
		what += ", left hand"
	}
	return what
}

func (p *page) threadRead(seen series.ThreadSeen) {
	var read []doc.Text
	add := func(name string, m series.Measured) {
		if m.Given() {
			read = append(read, doc.Say("%s %s", name, length(m.Value)))
		}
	}
	add("major", seen.Major)
	add("effective", seen.Effective)
	add("minor", seen.Minor)
	if seen.Pitch.Given() {
		read = append(read, doc.Say("pitch %.3f mm or %.2f tpi", seen.Pitch.Value, unit.MillimetresPerInch/seen.Pitch.Value))
	}
	if seen.Angle.Given() {
		read = append(read, doc.Say("flanks %s", amount(seen.Angle.Value, unit.Angle)))
	}
	p.say("read: %s", doc.Join(read, ", "))
}

func (p *page) threadCandidates(seen series.ThreadSeen, list []series.Thread) {
	lost := "crests worn or cut low by"
	if seen.Inside {
		lost = "bore larger than basic by"
	}
	t := &doc.Table{Name: "threads", Space: doc.Apart, Columns: []doc.Column{
		plain("may be"), plain("chance"), plain("basic major"), plain("pitch"), plain("flanks"), {Name: "lost", Head: doc.Plain(lost)},
	}}
	for _, c := range list {
		name := c.Designation
		if c.Decided {
			name += ", as decided"
		}
		t.Add(doc.Cells{
			"may be": marked(name, c.Source), "chance": doc.Plain(percent(c.P)), "basic major": doc.Show(unit.Twice(c.Major)),
			"pitch": doc.Plain(pitchText(c.Thread)), "flanks": doc.Plain(flanks(c.Angle)), "lost": doc.Say("%.2f mm", c.Wear),
		})
	}
	p.Add(t)
	p.memoryNote(slices.ContainsFunc(list, func(t series.Thread) bool { return facts.FromMemory(t.Source) }))
}

// pitchText writes a pitch as the thread has it.
func pitchText(t facts.Thread) string {
	if t.TPI != 0 {
		return fmt.Sprintf("%g tpi  (%.4f mm)", t.TPI, t.Pitch)
	}
	return fmt.Sprintf("%g mm", t.Pitch)
}

// flanks writes an included angle as the trade does, 47.5° and 60°.
func flanks(angle float64) string {
	return fmt.Sprintf("%g°", math.Round(angle*degreesPerRadian*100)/100)
}

const degreesPerRadian = 180 / math.Pi

// settle says which reading to take next, and what is doubtful.
func (p *page) settle(how, warnings []unit.Text) {
	p.chapter("To settle it")
	for i, text := range how {
		if i == len(how)-1 {
			text = unit.Say("%s.", text)
		}
		p.say("%s", text)
	}
	p.mind(warnings)
}

// Settling is what settles a question in one text.
func Settling(how []unit.Text) unit.Text { return unit.Say("%s.", unit.Join(how, "; ")) }

// mind says what makes a result doubtful.
func (p *page) mind(warnings []unit.Text) {
	if len(warnings) == 0 {
		return
	}
	p.chapter("Mind")
	for _, text := range warnings {
		p.say("%s", sentenceOf(text))
	}
}

// threadSheet says what is needed to cut and gauge a thread.
func (p *page) threadSheet(s series.Sheet, left bool) {
	p.chapter("If it is %s", handed(s.Thread.Designation, left))
	var sources sourceList
	p.basicSizes(s, &sources)
	p.threadLimits(s, &sources)
	p.tapping(s, &sources)
	p.wires(s, &sources)
	p.hexagons(s, &sources)
	p.sources(sources)
}

// handed is a designation with its hand.
func handed(designation string, left bool) string {
	if left {
		return designation + ", left hand"
	}
	return designation
}

// handText follows the name of a thread.
func handText(h trade.Hand) string {
	if h == trade.LeftHand {
		return ", left-handed"
	}
	return ""
}

// inBoth are two columns of amounts in mm and in inches, those of the reader first.
func inBoth() []doc.Column {
	return []doc.Column{{Name: "first", Head: unitName()}, {Name: "second", Head: unitName(), View: doc.Second}}
}

// twice puts an amount in both.
func twice(cells doc.Cells, a unit.Amount) doc.Cells {
	cells["first"], cells["second"] = doc.Show(a), doc.Show(a)
	return cells
}

// bare is a length to a thousandth without its unit, limits two of them.
func bare(mm float64) unit.Amount { return unit.Told{Value: mm, Dimension: unit.Length, Bare: true} }

func bareLimits(low, high float64) unit.Amount {
	return unit.Between{Low: low, High: high, Dimension: unit.Length, Bare: true}
}

func (p *page) basicSizes(s series.Sheet, sources *sourceList) {
	b := s.Basic
	t := &doc.Table{Name: "basic", Columns: append([]doc.Column{plain("basic sizes")}, inBoth()...)}
	for _, size := range []struct {
		name string
		mm   float64
	}{
		{"major", b.Major},
		{"effective", b.Effective},
		{"minor of the screw", b.MinorScrew},
		{"minor of the nut", b.MinorNut},
		{"major of the nut", b.MajorNut},
	} {
		if size.name != "major of the nut" || b.MajorNut != b.Major {
			t.Add(twice(doc.Cells{"basic sizes": doc.Plain(size.name)}, bare(size.mm)))
		}
	}
	p.Add(t)
	sources.add(s.Thread.Designation, s.Thread.Source)
	sources.add(s.Thread.Form+" form", b.Source)
}

func (p *page) threadLimits(s series.Sheet, sources *sourceList) {
	if len(s.Limits) == 0 {
		p.apart("The tables have no limits for this thread.")
		return
	}
	t := &doc.Table{Name: "limits", Space: doc.Apart, Columns: append([]doc.Column{plain("limits"), plain("class")}, inBoth()...)}
	for _, l := range s.Limits {
		t.Add(twice(doc.Cells{"limits": marked(l.Of, l.Source), "class": doc.Plain(l.Class)}, bareLimits(l.Low, l.High)))
		sources.add("limits", l.Source)
	}
	p.Add(t)
}

func (p *page) tapping(s series.Sheet, sources *sourceList) {
	of := ""
	var t *doc.Table
	for _, hole := range s.Tapping {
		if hole.Of != of {
			of = hole.Of
			p.apart("Hole for the tap; 100 %% is %s", of)
			t = &doc.Table{Name: "holes", Columns: []doc.Column{
				plain("thread"), {Name: "hole", Head: doc.Plain("hole, mm")}, plain("nearest drill"), plain("mm"), plain("leaves"),
			}}
			p.Add(t)
		}
		row := doc.Cells{"thread": doc.Say("%.0f %%", hole.Percent), "hole": doc.Say("%.2f", hole.Hole), "nearest drill": doc.Plain("bore it")}
		if hole.Drill != nil {
			row["nearest drill"], row["mm"] = marked(hole.Drill.Asked(), hole.Drill.Source), doc.Say("%.3f", hole.Drill.Diameter)
			row["leaves"] = doc.Say("%.0f %%", hole.Gives)
			sources.add("drills", hole.Drill.Source)
		}
		t.Add(row)
		sources.add("hole for the tap", hole.Source)
	}
}

func (p *page) wires(s series.Sheet, sources *sourceList) {
	w := s.Wires
	if w == nil {
		return
	}
	p.section("Over three wires")
	p.say("best wire %s, from %s to %s will do; over the best the basic effective diameter reads %s",
		unit.Twice(w.Best), length(w.Smallest), length(w.Largest), unit.Twice(w.Over))
	for _, advice := range w.Advice {
		p.say("%s", advice)
	}
	sources.add("wires", w.Source)
}

func (p *page) hexagons(s series.Sheet, sources *sourceList) {
	if len(s.Hexagons) == 0 {
		return
	}
	t := &doc.Table{Name: "hexagons", Space: doc.Apart, Columns: append([]doc.Column{plain("hexagon across flats"), plain("part")}, inBoth()...)}
	for _, h := range s.Hexagons {
		t.Add(twice(doc.Cells{"hexagon across flats": marked(h.Family, h.Source), "part": doc.Plain(h.Part)}, bare(h.Flats)))
		sources.add("hexagons", h.Standard+": "+h.Source)
	}
	p.Add(t)
}
