package say

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Check says how a part is to be inspected, how the pieces made so far stand, what
// the bare old part told, and how the machine goes together again.
func Check(c *inspect.Result) *doc.Document {
	p := newChecking(c)
	p.Title = doc.Plain(c.Job.Name)
	if part := c.Job.Part; part != nil {
		p.Add(doc.Line(0, PartText(part)))
	}
	p.all()
	return &p.Document
}

// BesidesSheet says the same but for the inspection sheet.
func BesidesSheet(c *inspect.Result) *doc.Document {
	p := newChecking(c)
	p.besides()
	return &p.Document
}

// checking puts the proving of a part into words.
type checking struct {
	*findings
	c *inspect.Result
}

func newChecking(c *inspect.Result) *checking {
	return &checking{&findings{page: &page{}, r: c.Made.Found}, c}
}

// all says all of it.
func (p *checking) all() {
	p.sheet()
	p.besides()
}

// besides says all but the inspection sheet.
func (p *checking) besides() {
	p.pieces()
	p.takenApart()
	p.puttingBack()
}

// sheet says how to read each size and what it should show.
func (p *checking) sheet() {
	if len(p.c.Sheet) == 0 {
		return
	}
	p.chapter("Inspection sheet, in the order of making")
	p.Add(p.sheetTable())
	p.zeros()
	p.steps(p.c.Sheet)
}

// zeros says which instruments show something else than the size because their
// zeros are off, as the readings of the old part told.
func (p *checking) zeros() {
	var list []doc.Text
	var seen []string
	for i := range p.c.Sheet {
		s := &p.c.Sheet[i]
		if s.Reading == nil || s.Reads != unit.Length || math.Abs(s.Zero) < toldZero || slices.Contains(seen, s.Reading.With) {
			continue
		}
		seen = append(seen, s.Reading.With)
		list = append(list, doc.Say("%s %s", doc.Name(doc.Instrument, s.Reading.With), length(s.Zero)))
	}
	if len(list) > 0 {
		p.say("What they should show counts the zeros of the instruments, as they were found: %s.", doc.Join(list, ", "))
	}
}

// toldZero is the least zero, mm, of which anybody need be told.
const toldZero = 0.005

func (p *checking) sheetTable() *doc.Table {
	t := &doc.Table{Name: "sheet", Columns: []doc.Column{
		plain("size"), plain("limits"),
		{Name: "shows", Head: doc.Plain("should show"), Weight: doc.Figures},
		plain("between"),
		{Name: "sure", Head: doc.Plain("surely right between")},
		{Name: "within", Head: within()},
		{Name: "read", Head: doc.Plain("read"), Where: doc.ByHand},
	}}
	for i := range p.c.Sheet {
		s := &p.c.Sheet[i]
		d := s.Made.Size.Kind.Dimension()
		row := doc.Cells{
			"size": newSize(s.Made.Size.ID), "limits": doc.Show(between(s.Limits.Low, s.Limits.High, d)),
			"shows": doc.Judged(doc.Doubtful, "no reading"),
		}
		if s.Reading != nil {
			row["shows"], row["between"] = doc.Show(amount(s.Shows, s.Reads)), doc.Show(between(s.ShowsLow, s.ShowsHigh, s.Reads))
			row["sure"], row["within"] = doc.Plain("nowhere"), doc.Show(halfWidth(half(s.U), d))
			if !math.IsNaN(s.Sure.Low) {
				row["sure"] = doc.Show(between(s.Sure.Low, s.Sure.High, s.Reads))
			}
		}
		t.Add(row)
	}
	return t
}

// between is two limits, with the unit behind the second only.
func between(low, high float64, d unit.Dimension) unit.Amount {
	return unit.Between{Low: low, High: high, Dimension: d}
}

// steps says in words how each size is read; distances of holes that are read alike
// are said at once.
func (p *checking) steps(list []inspect.Step) {
	var alike []string
	for i := range list {
		said := p.overPlugs(&list[i])
		if said == nil {
			p.say("%s: %s", doc.In(doc.Strong, newSize(list[i].Made.Size.ID)), p.how(&list[i]))
			for _, before := range list[i].Before {
				p.Add(doc.Paragraph{Indent: 1, Words: doc.Say("%s read it %s.", strong("Stop:"), before)})
			}
			continue
		}
		alike = append(alike, list[i].Made.Size.ID)
		if i+1 == len(list) || !same(p.overPlugs(&list[i+1]), said) {
			p.say("%s: %s", strong(strings.Join(alike, ", ")), said)
			alike = nil
		}
	}
}

// same reports whether two texts read the same.
func same(a, b doc.Text) bool { return a.Shown(unit.View{}) == b.Shown(unit.View{}) }

// overPlugs says how the distance of two holes is read over or between plugs that
// fill them, nothing of other readings and of one that is no good judge.
func (p *checking) overPlugs(s *inspect.Step) doc.Text {
	if s.Reading == nil || s.Good != inspect.Fit {
		return nil
	}
	m, _ := gauge.Find(s.Reading.By)
	how, ok := map[gauge.Jaw]string{gauge.Closing: "over", gauge.Opening: "between"}[m.Jaw]
	if !ok || m.HolesFor == "" {
		return nil
	}
	var plugs []doc.Text
	for _, arg := range s.Reading.Of {
		if !strings.HasPrefix(arg.Role, "plug") {
			continue
		}
		plug := doc.Plain(arg.ID)
		if arg.ID == "" {
			plug = doc.Say("turned to %s", length(arg.Value.Inside()))
		}
		if len(plugs) == 0 || !same(plugs[len(plugs)-1], plug) {
			plugs = append(plugs, plug)
		}
	}
	return doc.Say("read %s plugs that fill the holes (%s), with %s.", how, doc.Join(plugs, ", "), p.with(s))
}

// how says how a size is read, and how good that is.
func (p *checking) how(s *inspect.Step) doc.Text {
	if s.Reading == nil {
		return doc.Say("%s; %s.", warning(doc.Plain("the kit allows no reading of it")), otherwise(s.Made.Size))
	}
	said := []doc.Text{doc.Say("%s, with %s.", setUpOfPart(s), p.with(s))}
	if s.SameAsMate {
		said = append(said, doc.Plain("It has read the mate too, so its zero cancels in the clearance."))
	}
	switch s.Good {
	case inspect.Doubtful:
		said = append(said, warning(doc.Plain("A coarse judge: its uncertainty is more than a third of the tolerance.")))
	case inspect.Unfit:
		said = append(said, alarm(doc.Plain("No judge of this size: its uncertainty is more than half of the tolerance.")), p.finer(s))
	}
	for _, r := range s.Remarks {
		said = append(said, doc.Show(sentenceOf(r.Text)))
	}
	return doc.Join(said, " ")
}

// setUpOfPart says how the reading of a step is set up, the sizes of the part
// without the word that tells them from those of the job.
func setUpOfPart(s *inspect.Step) string {
	said := lowered(SetUp(s.Reading, s.Borrow))
	if m, _ := gauge.Find(s.Reading.By); m.Direct {
		said = strings.Replace(said, "part."+s.Made.Size.ID, "it", 1)
	}
	return strings.ReplaceAll(said, "part.", "")
}

// with names the instrument of a step: by its id, or what is to be got.
func (p *checking) with(s *inspect.Step) doc.Text {
	if s.Lent == nil {
		return doc.Name(doc.Instrument, s.Reading.With)
	}
	return doc.Say("%s%s, which the kit lacks", s.Lent.ID, frame{s})
}

// frame says which frame of a micrometer spans a size: they go by 25 mm or by the
// inch. It is empty where none spans all of its limits.
type frame struct{ s *inspect.Step }

// Shown names the frame as the trade lists it in a unit.
func (f frame) Shown(v unit.View) string {
	span, step := 25.0, 25.0
	if v.Unit() == unit.Inch {
		span, step = unit.MillimetresPerInch, 1
	}
	from := math.Floor(f.s.ShowsLow / span)
	kind, _ := gauge.InstrumentOf(f.s.Lent.Kind)
	if !kind.Framed || f.s.ShowsHigh > (from+1)*span {
		return ""
	}
	return fmt.Sprintf(" (for %g to %g %s)", from*step, (from+1)*step, v.Unit())
}

// finer says what would judge a size that the kit cannot.
func (p *checking) finer(s *inspect.Step) doc.Text {
	f := s.Finer
	if f == nil {
		return doc.Say("No other instrument of a toolroom judges it either: %s.", otherwise(s.Made.Size))
	}
	coarse := ""
	if f.Good != inspect.Fit {
		coarse = ", still a coarse judge"
	}
	return doc.Say("Borrow %s: it would be good to ± %s%s. Or %s.",
		f.With.ID, halfWidth(half(f.U), s.Made.Size.Kind.Dimension()), coarse, otherwise(s.Made.Size))
}

// otherwise says how a size is proved that nothing reads. How far a NOT GO gauge may
// enter is that of ISO 1502, from memory.
func otherwise(size *trade.NewSize) string {
	switch {
	case size.From == trade.IsThread && size.Surface == trade.Inside:
		return "a GO plug gauge must enter by hand over the whole thread, a NOT GO one by two turns at most; without gauges, try it on its screw"
	case size.From == trade.IsThread:
		return "a GO ring must run on by hand over the whole thread, a NOT GO one by two turns at most; without gauges, try it with its nut"
	case size.From == trade.GoesIn, size.From == trade.GoesOver:
		return "fit it to its mate, " + size.Of.Text + ", with blue and feelers"
	}
	return "hold it against the old part"
}

// raisedText begins a text with a capital.
func raisedText(t doc.Text) doc.Text {
	list := slices.Clone(t)
	first := list[0].Words
	list[0].Words = unit.Written(func(v unit.View) string { return raised(first.Shown(v)) })
	return list
}

// InspectionStep says of one size of the inspection sheet how it is read, what the
// instrument should show, and what is to be done before.
func InspectionStep(c *inspect.Result, s *inspect.Step) (how, shows doc.Text, before []string) {
	p := newChecking(c)
	how = raisedText(p.how(s))
	if s.Reading != nil {
		shows = doc.Say("%s, right from %s", amount(s.Shows, s.Reads), between(s.ShowsLow, s.ShowsHigh, s.Reads))
	}
	return how, shows, s.Before
}
