package report

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// The most readings listed for people, of the kit and of borrowed pieces.
const (
	mostOwn      = 5
	mostBorrowed = 3
)

// Advice writes what to read next in words.
func Advice(w io.Writer, a *advise.Advice, style Style) error {
	p := &counsel{printer: &printer{w: w, r: a.Result, units: a.Result.Job.Shown(), style: style}, a: a}
	return p.report(p.named, p.why, p.aim, p.own, p.borrowed, p.steps, p.bound, p.surface)
}

// counsel writes the parts of an advice.
type counsel struct {
	*printer
	a *advise.Advice
}

func (p *counsel) named() { p.line("%s\n", p.paint(bold, p.r.Job.Name)) }

// why says what is to be known better and why.
func (p *counsel) why() {
	id, now := p.a.For, p.a.Now
	if id == "" {
		p.paragraph("", "Nothing is sought in this job: every size is given.")
		return
	}
	if len(p.a.Best) > 0 && p.a.Best[0].Settle != nil {
		p.paragraph("", "Readings contradict each other: settle that first.")
	}
	enough := p.half(advise.Usual(p.r.Job, id))
	switch p.a.Why {
	case advise.Asked:
		p.paragraph("", id+": "+p.standing(now)+".")
	case advise.Open:
		p.paragraph("", id+" is not found yet.")
	case advise.Worst:
		p.paragraph("", fmt.Sprintf("%s is the least well known: %s, where %s is near enough for most work.", id, p.standing(now), enough))
	case advise.Unchecked:
		p.paragraph("", fmt.Sprintf("All sizes are known closely enough, but of %s (%s) a wrong reading would go unseen.", id, p.half(now.U95())))
	case advise.Well:
		p.paragraph("", fmt.Sprintf("All sizes are known closely enough and checked; the least well known is %s: %s.", id, p.half(now.U95())))
	}
}

// standing says how well the size is known now.
func (p *counsel) standing(s advise.State) string {
	if !s.Determined {
		return "not found yet"
	}
	return "now " + p.half(s.U95()) + map[adjust.Check]string{
		adjust.NothingChecks: ", and nothing checks it",
		adjust.RepeatsCheck:  ", checked by its own repeats only",
	}[s.Check]
}

// half writes a 95 % half width of the size with its unit.
func (p *counsel) half(U float64) string { return "±" + p.halfWidth(U, p.dimension()) }

func (p *counsel) dimension() unit.Dimension {
	if size := p.r.Job.Size(p.a.For); size != nil {
		return size.Kind.Dimension()
	}
	return unit.Length
}

// halfWidth writes a half width to two digits with its unit.
func (p *printer) halfWidth(U float64, d unit.Dimension) string {
	scale, name := 1.0, ""
	switch {
	case d == unit.Angle:
		scale, name = natural(1, d), "°"
	case d == unit.Length && p.units == unit.Inch:
		scale, name = 1/unit.MillimetresPerInch, " in"
	case d == unit.Length:
		name = " mm"
	}
	_, text := unit.WithUncertainty(U*scale, U*scale)
	return text + name
}

// own lists the readings that the kit allows.
func (p *counsel) own() {
	p.choices("Read next, with what you own", mostOwn, func(c *advise.Candidate) bool { return len(c.Borrow) == 0 })
}

// borrowed lists those that need a piece from a standard set.
func (p *counsel) borrowed() {
	p.choices("Worth borrowing", mostBorrowed, func(c *advise.Candidate) bool { return len(c.Borrow) > 0 })
}

func (p *counsel) choices(heading string, most int, fits func(c *advise.Candidate) bool) {
	n := 0
	for i := range p.a.Best {
		c := &p.a.Best[i]
		if !fits(c) || n == most || n > 0 && p.tellsNothing(c) {
			continue
		}
		if n++; n == 1 {
			p.heading(heading)
		}
		p.paragraph(fmt.Sprintf("%d. ", n), p.sentence(c)+p.cost(c))
		if mind := remarkOf(c); mind != "" {
			p.paragraph("   ", "Mind: "+mind+".")
		}
	}
	if n == 0 && heading == "Read next, with what you own" && p.a.For != "" {
		p.heading(heading)
		p.paragraph("", "Nothing: no reading that this kit allows would tell more of "+p.a.For+".")
	}
}

// tellsNothing reports whether a promise reads the same as what is known.
func (p *counsel) tellsNothing(c *advise.Candidate) bool {
	return c.Settle == nil && c.Then.Determined && c.Then.Check == p.a.Now.Check && p.half(c.Then.U95()) == p.half(p.a.Now.U95())
}

// remarkOf returns the first thing to mind about a set-up.
func remarkOf(c *advise.Candidate) string {
	if len(c.Remarks) == 0 {
		return ""
	}
	return c.Remarks[0].Text
}

// sentence says what to do and what it promises.
func (p *counsel) sentence(c *advise.Candidate) string {
	said := p.what(c) + ": " + p.promise(c) + "."
	if c.Settle != nil {
		said += " " + p.settles(c)
	}
	return said
}

// what says what to do.
func (p *counsel) what(c *advise.Candidate) string {
	with := ""
	if c.Reading.With != "" {
		with = " with " + c.Reading.With
	}
	switch {
	case c.At != nil:
		return fmt.Sprintf("Touch %s once more%s, the stylus near x %s, y %s", placeOf(&c.Reading), with,
			p.amount(c.At[0], unit.Length), p.amount(c.At[1], unit.Length))
	case c.Again:
		return fmt.Sprintf("Read %s once more: %s%s", c.Reading.ID, lowered(setUp(&c.Reading, nil)), with)
	case c.Fresh:
		return "Turn the work a quarter and " + lowered(setUp(&c.Reading, nil)) + " again" + with
	}
	return setUp(&c.Reading, c.Borrow) + with
}

func placeOf(r *trade.Reading) string {
	for _, arg := range r.Of {
		if arg.Role == "circle" || arg.Role == "line" {
			return arg.ID
		}
	}
	return ""
}

func lowered(text string) string {
	runes := []rune(text)
	runes[0] = unicode.ToLower(runes[0])
	return string(runes)
}

// promise says what would be known.
func (p *counsel) promise(c *advise.Candidate) string {
	id, now, then := p.a.For, p.a.Now, c.Then
	about, said := "", ""
	if c.Rough {
		about = "about "
	}
	switch {
	case !then.Determined:
		return id + " would still be open, but nearer to be found"
	case !now.Determined:
		said = fmt.Sprintf("%s would be found, to %s%s", id, about, p.half(then.U95()))
	case p.half(then.U95()) != p.half(now.U95()):
		said = fmt.Sprintf("%s would be known to %s%s (now %s)", id, about, p.half(then.U95()), p.half(now.U95()))
	default:
		said = fmt.Sprintf("%s would stay at %s", id, p.half(now.U95()))
	}
	switch {
	case then.Check == adjust.OthersCheck && now.Check != adjust.OthersCheck:
		return said + ", and other readings would check it"
	case then.Check == adjust.NothingChecks:
		return said + ", though nothing would check it"
	}
	return said
}

// settles says what the reading would tell between those that contradict each
// other.
func (p *counsel) settles(c *advise.Candidate) string {
	d := p.dimensionOf(c)
	if len(c.Settle.Between) == 1 {
		return fmt.Sprintf("It is suspect: the others give %s.", p.amount(c.Settle.Shows[0], d))
	}
	var shown []string
	wrong := map[string][]string{}
	for i, source := range c.Settle.Between {
		text := p.amount(c.Settle.Shows[i], d)
		if wrong[text] == nil {
			shown = append(shown, text)
		}
		wrong[text] = append(wrong[text], p.culprit(source))
	}
	for i, text := range shown {
		shown[i] = text + " if " + strings.Join(wrong[text], " or ") + " is wrong"
	}
	return "It tells which is wrong: it would show about " + strings.Join(shown, ", ") + "."
}

func (p *counsel) culprit(s adjust.Source) string {
	if s.Kind == adjust.FromInstrument {
		return "the zero of " + s.ID
	}
	return p.sourceName(s)
}

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
func (p *counsel) cost(c *advise.Candidate) string {
	words := map[advise.Effort]string{
		advise.OneMoreValue: "One more value", advise.NewSetUp: "A new set-up", advise.BorrowedPiece: "A piece to borrow and a new set-up",
	}
	if c.Again {
		return " " + words[c.Effort] + "."
	}
	said := " " + words[c.Effort]
	if !math.IsNaN(c.Shows) && c.Settle == nil {
		said += "; it will show about " + p.amount(c.Shows, p.dimensionOf(c))
	}
	for _, piece := range c.Borrow {
		said += "; taken as true to ±" + p.halfWidth(piece.Tolerance.Inside(), unit.Length)
	}
	return said + "."
}

// aim says whether what is wanted can be had, and by how many readings.
func (p *counsel) aim() {
	if p.a.Want == 0 || p.a.For == "" {
		return
	}
	want := p.half(p.a.Want)
	p.line("")
	switch {
	case p.a.Reaches(p.a.Now):
		p.paragraph("", want+" is reached already.")
	case len(p.a.Best) > 0 && p.a.Reaches(p.a.Best[0].Then):
		p.paragraph("", fmt.Sprintf("One reading reaches %s: the first below.", want))
	case len(p.a.Steps) > 0:
		p.paragraph("", fmt.Sprintf("No single reading reaches %s; several together do, as listed below.", want))
	case p.a.Limit.Determined && !p.a.Reaches(p.a.Limit):
		p.paragraph("", fmt.Sprintf("No readings reach %s: with what you own it cannot get below %s.", want, p.half(p.a.Limit.U95())))
	default:
		p.paragraph("", fmt.Sprintf("No %d readings reach %s: a better instrument is wanted.", advise.MostSteps, want))
	}
}

// steps says what together reaches the aim where no single reading does.
func (p *counsel) steps() {
	if len(p.a.Steps) == 0 {
		return
	}
	p.heading("These together, in this order")
	var told []string
	times := map[string]int{}
	for i := range p.a.Steps {
		step := &p.a.Steps[i]
		said := setUp(&step.Reading, step.Borrow) + " with " + step.Reading.With
		if times[said]++; times[said] == 1 {
			told = append(told, said)
		}
	}
	for i, said := range told {
		p.paragraph(fmt.Sprintf("%d. ", i+1), said+severally(times[said])+".")
	}
	p.paragraph("", fmt.Sprintf("%s would then be known to %s.", p.a.For, p.half(p.a.Steps[len(p.a.Steps)-1].Then.U95())))
}

func severally(times int) string {
	if times == 1 {
		return ""
	}
	return fmt.Sprintf(", %d times", times)
}

// bound says how well the size can be known at all with the kit.
func (p *counsel) bound() {
	if p.a.Limit.Determined && p.a.Limit.U > 0 {
		p.line("")
		p.paragraph("", fmt.Sprintf("However often you read, with what you own %s cannot be known better than %s.", p.a.For, p.half(p.a.Limit.U95())))
	}
}

// surface says where to read a surface that is worn or out of form.
func (p *counsel) surface() {
	size := p.r.Job.Size(p.a.For)
	if size == nil {
		return
	}
	if worn := size.Wear != "" && size.Wear != trade.NoWear; worn && size.Surface != trade.NoSurface && size.Surface != "" {
		p.line("")
		p.paragraph("", size.ID+" has worn: read where it has not, at an end, under a washer or where nothing runs; there it is as it was made.")
	}
	if size.Form.Given() && size.Form.Sign() > 0 {
		p.line("")
		p.paragraph("", fmt.Sprintf("%s is out of form by up to ±%s: turn it a quarter and read again, each place a reading of its own.", size.ID, size.Form))
	}
}
