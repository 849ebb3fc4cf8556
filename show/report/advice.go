package report

import (
	"fmt"
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
const ()

// counsel writes the parts of an advice.
type counsel struct {
	*printer
	a *advise.Advice
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
