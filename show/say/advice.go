package say

import (
	"math"
	"strconv"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// The most readings listed, of the kit and of borrowed pieces.
const (
	mostOwn      = 5
	mostBorrowed = 3
)

// Advice says what to read next.
func Advice(a *advise.Advice) *doc.Document {
	c := newCounsel(a)
	c.Title = doc.Plain(a.Result.Job.Name)
	for _, line := range c.why() {
		c.Add(doc.Paragraph{Words: line})
	}
	c.aim()
	c.own()
	c.borrowed()
	c.steps()
	c.bound()
	c.surface()
	return &c.Document
}

// counsel puts an advice into words.
type counsel struct {
	*findings
	a *advise.Advice
}

func newCounsel(a *advise.Advice) *counsel {
	return &counsel{&findings{page: &page{}, r: a.Result}, a}
}

// Candidates says of each candidate of an advice what to do, what it promises and
// what it costs; nothing of one that promises nothing, after the first.
func Candidates(a *advise.Advice) []doc.Text {
	p := newCounsel(a)
	list := make([]doc.Text, len(a.Best))
	for i := range a.Best {
		if i == 0 || !p.tellsNothing(&a.Best[i]) {
			list[i] = p.sentence(&a.Best[i])
		}
	}
	return list
}

// Promise says of one candidate what to do, what it promises and what it settles.
func Promise(a *advise.Advice, c *advise.Candidate) doc.Text { return newCounsel(a).promised(c) }

// DimensionOf is what the size that is sought measures.
func DimensionOf(a *advise.Advice) unit.Dimension { return newCounsel(a).dimension() }

// Reads is what a candidate reads.
func Reads(a *advise.Advice, c *advise.Candidate) unit.Dimension { return newCounsel(a).dimensionOf(c) }

// Why says what is to be known better and why.
func Why(a *advise.Advice) doc.Text { return doc.Join(newCounsel(a).why(), " ") }

func (p *counsel) why() []doc.Text {
	id, now := p.a.For, p.a.Now
	if id == "" {
		return []doc.Text{doc.Plain("Nothing is sought in this job: every size is given.")}
	}
	var list []doc.Text
	if len(p.a.Best) > 0 && p.a.Best[0].Settle != nil {
		list = append(list, doc.Plain("Readings contradict each other: settle that first."))
	}
	return append(list, map[advise.Reason]doc.Text{
		advise.Asked: doc.Say("%s: %s.", size(id), p.standing(now)),
		advise.Open:  doc.Say("%s is not found yet.", size(id)),
		advise.Worst: doc.Say("%s is the least well known: %s, where %s is near enough for most work.",
			size(id), p.standing(now), p.half(advise.Usual(p.r.Job, id))),
		advise.Unchecked: doc.Say("All sizes are known closely enough, but of %s (%s) a wrong reading would go unseen.", size(id), p.half(now.U95())),
		advise.Well:      doc.Say("All sizes are known closely enough and checked; the least well known is %s: %s.", size(id), p.half(now.U95())),
	}[p.a.Why])
}

// standing says how well the size is known now.
func (p *counsel) standing(s advise.State) doc.Text {
	if !s.Determined {
		return doc.Plain("not found yet")
	}
	return doc.Say("now %s%s", p.half(s.U95()), map[adjust.Check]string{
		adjust.NothingChecks: ", and nothing checks it",
		adjust.RepeatsCheck:  ", checked by its own repeats only",
	}[s.Check])
}

// half is a 95 % half width of the size.
func (p *counsel) half(U float64) doc.Text { return doc.Say("±%s", halfWidth(U, p.dimension())) }

func (p *counsel) dimension() unit.Dimension {
	if size := p.r.Job.Size(p.a.For); size != nil {
		return size.Kind.Dimension()
	}
	return unit.Length
}

// own lists the readings that the kit allows.
func (p *counsel) own() {
	const title = "Read next, with what you own"
	n := p.choices(title, mostOwn, func(c *advise.Candidate) bool { return len(c.Borrow) == 0 })
	if n == 0 && p.a.For != "" {
		p.chapter(title)
		p.say("Nothing: no reading that this kit allows would tell more of %s.", size(p.a.For))
	}
}

// borrowed lists those that need a piece from a standard set.
func (p *counsel) borrowed() {
	p.choices("Worth borrowing", mostBorrowed, func(c *advise.Candidate) bool { return len(c.Borrow) > 0 })
}

// choices lists the candidates that fit, and returns how many do.
func (p *counsel) choices(title string, most int, fits func(c *advise.Candidate) bool) int {
	n := 0
	for i := range p.a.Best {
		c := &p.a.Best[i]
		if !fits(c) || n == most || n > 0 && p.tellsNothing(c) {
			continue
		}
		if n++; n == 1 {
			p.chapter("%s", title)
		}
		p.Add(doc.Paragraph{Mark: strconv.Itoa(n) + ".", Words: p.sentence(c)})
		if len(c.Remarks) > 0 {
			p.Add(doc.Paragraph{Indent: 1, Words: doc.Say("Mind: %s.", c.Remarks[0].Text)})
		}
	}
	return n
}

// tellsNothing reports whether a promise reads the same as what is known.
func (p *counsel) tellsNothing(c *advise.Candidate) bool {
	return c.Settle == nil && c.Then.Determined && c.Then.Check == p.a.Now.Check && p.same(c.Then, p.a.Now)
}

// same reports whether two states are as well known, as far as anybody is told.
func (p *counsel) same(a, b advise.State) bool {
	view := unit.View{In: p.r.Job.Units}
	return p.half(a.U95()).Shown(view) == p.half(b.U95()).Shown(view)
}

// sentence says what to do, what it promises and what it costs.
func (p *counsel) sentence(c *advise.Candidate) doc.Text {
	return doc.Say("%s %s", p.promised(c), p.cost(c))
}

// promised says it without what it costs.
func (p *counsel) promised(c *advise.Candidate) doc.Text {
	said := doc.Say("%s: %s.", p.what(c), p.promise(c))
	if c.Settle != nil {
		said = doc.Say("%s %s", said, p.settles(c))
	}
	return said
}

// what says what to do.
func (p *counsel) what(c *advise.Candidate) doc.Text {
	with := ""
	if c.Reading.With != "" {
		with = " with " + c.Reading.With
	}
	switch {
	case c.At != nil:
		return doc.Say("Touch %s once more%s, the stylus near x %s, y %s", placeOf(&c.Reading), with, length(c.At[0]), length(c.At[1]))
	case c.Again:
		return doc.Say("Read %s once more: %s%s", doc.Name(doc.Reading, c.Reading.ID), lowered(SetUp(&c.Reading, nil)), with)
	case c.Fresh:
		return doc.Say("Turn the work a quarter and %s again%s", lowered(SetUp(&c.Reading, nil)), with)
	}
	return doc.Plain(SetUp(&c.Reading, c.Borrow) + with)
}

func placeOf(r *trade.Reading) string {
	for _, arg := range r.Of {
		if arg.Role == "circle" || arg.Role == "line" {
			return arg.ID
		}
	}
	return ""
}

// promise says what would be known.
func (p *counsel) promise(c *advise.Candidate) doc.Text {
	id, now, then := size(p.a.For), p.a.Now, c.Then
	about := ""
	if c.Rough {
		about = "about "
	}
	var said doc.Text
	switch {
	case !then.Determined:
		return doc.Say("%s would still be open, but nearer to be found", id)
	case !now.Determined:
		said = doc.Say("%s would be found, to %s%s", id, about, p.half(then.U95()))
	case !p.same(then, now):
		said = doc.Say("%s would be known to %s%s (now %s)", id, about, p.half(then.U95()), p.half(now.U95()))
	default:
		said = doc.Say("%s would stay at %s", id, p.half(now.U95()))
	}
	switch {
	case then.Check == adjust.OthersCheck && now.Check != adjust.OthersCheck:
		return doc.Say("%s, and other readings would check it", said)
	case then.Check == adjust.NothingChecks:
		return doc.Say("%s, though nothing would check it", said)
	}
	return said
}

// settles says what the reading would tell between those that contradict each
// other.
func (p *counsel) settles(c *advise.Candidate) doc.Text {
	d := p.dimensionOf(c)
	if len(c.Settle.Between) == 1 {
		return doc.Say("It is suspect: the others give %s.", amount(c.Settle.Shows[0], d))
	}
	var shown []doc.Text
	wrong, view := map[string][]doc.Text{}, unit.View{In: p.r.Job.Units}
	var order []string
	for i, source := range c.Settle.Between {
		told := amount(c.Settle.Shows[i], d)
		key := told.Shown(view)
		if wrong[key] == nil {
			order, shown = append(order, key), append(shown, doc.Show(told))
		}
		wrong[key] = append(wrong[key], p.culprit(source))
	}
	for i, key := range order {
		shown[i] = doc.Say("%s if %s is wrong", shown[i], doc.Join(wrong[key], " or "))
	}
	return doc.Say("It tells which is wrong: it would show about %s.", doc.Join(shown, ", "))
}

func (p *counsel) culprit(s adjust.Source) doc.Text {
	if s.Kind == adjust.FromInstrument {
		return doc.Say("the zero of %s", s.ID)
	}
	return p.sourceName(s)
}

// dimensionOf is what a candidate reads.
func (p *counsel) dimensionOf(c *advise.Candidate) unit.Dimension {
	for _, v := range p.r.Readings {
		if v.ID == c.Reading.ID {
			return v.Dimension
		}
	}
	m, _ := gauge.Find(c.Reading.By)
	return m.Reads
}

// cost says what a reading costs in trouble, and about what it will show.
func (p *counsel) cost(c *advise.Candidate) doc.Text {
	said := doc.Plain(map[advise.Effort]string{
		advise.OneMoreValue: "One more value", advise.NewSetUp: "A new set-up", advise.BorrowedPiece: "A piece to borrow and a new set-up",
	}[c.Effort])
	if c.Again {
		return doc.Say("%s.", said)
	}
	if !math.IsNaN(c.Shows) && c.Settle == nil {
		said = doc.Say("%s; it will show about %s", said, amount(c.Shows, p.dimensionOf(c)))
	}
	for _, piece := range c.Borrow {
		said = doc.Say("%s; taken as true to ±%s", said, halfWidth(piece.Tolerance.Inside(), unit.Length))
	}
	return doc.Say("%s.", said)
}

// aim says whether what is wanted can be had, and by how many readings.
func (p *counsel) aim() {
	if p.a.Want == 0 || p.a.For == "" {
		return
	}
	want := p.half(p.a.Want)
	switch {
	case p.a.Reaches(p.a.Now):
		p.apart("%s is reached already.", want)
	case len(p.a.Best) > 0 && p.a.Reaches(p.a.Best[0].Then):
		p.apart("One reading reaches %s: the first below.", want)
	case len(p.a.Steps) > 0:
		p.apart("No single reading reaches %s; several together do, as listed below.", want)
	case p.a.Limit.Determined && !p.a.Reaches(p.a.Limit):
		p.apart("No readings reach %s: with what you own it cannot get below %s.", want, p.half(p.a.Limit.U95()))
	default:
		p.apart("No %d readings reach %s: a better instrument is wanted.", advise.MostSteps, want)
	}
}

// steps says what together reaches the aim where no single reading does.
func (p *counsel) steps() {
	if len(p.a.Steps) == 0 {
		return
	}
	p.chapter("These together, in this order")
	var told []string
	times := map[string]int{}
	for i := range p.a.Steps {
		step := &p.a.Steps[i]
		said := SetUp(&step.Reading, step.Borrow) + " with " + step.Reading.With
		if times[said]++; times[said] == 1 {
			told = append(told, said)
		}
	}
	for i, said := range told {
		p.Add(doc.Paragraph{Mark: strconv.Itoa(i+1) + ".", Words: doc.Say("%s%s.", said, severally(times[said]))})
	}
	p.say("%s would then be known to %s.", size(p.a.For), p.half(p.a.Steps[len(p.a.Steps)-1].Then.U95()))
}

func severally(times int) string {
	if times == 1 {
		return ""
	}
	return ", " + strconv.Itoa(times) + " times"
}

// bound says how well the size can be known at all with the kit.
func (p *counsel) bound() {
	if p.a.Limit.Determined && p.a.Limit.U > 0 {
		p.apart("However often you read, with what you own %s cannot be known better than %s.", size(p.a.For), p.half(p.a.Limit.U95()))
	}
}

// surface says where to read a surface that is worn or out of form.
func (p *counsel) surface() {
	s := p.r.Job.Size(p.a.For)
	if s == nil {
		return
	}
	if wears(s) {
		p.apart("%s has worn: read where it has not, at an end, under a washer or where nothing runs; there it is as it was made.", size(s.ID))
	}
	if s.Form.Given() && s.Form.Sign() > 0 {
		p.apart("%s is out of form by up to ±%s: turn it a quarter and read again, each place a reading of its own.", size(s.ID), s.Form)
	}
}
