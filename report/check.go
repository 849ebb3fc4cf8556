package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"oddleg"
	"oddleg/adjust"
	"oddleg/fit"
	"oddleg/inspect"
	"oddleg/unit"
)

// Check writes the inspection sheet of a part, how the pieces made so far stand,
// what the bare old part told, and how the machine goes together again.
func Check(w io.Writer, c *inspect.Result, style Style) error {
	p := newChecking(w, c, style)
	return p.report(p.head, p.sheet, p.pieces, p.takenApart, p.puttingBack)
}

// checking writes the parts of the proving of a job's part.
type checking struct {
	*printer
	c *inspect.Result
}

func newChecking(w io.Writer, c *inspect.Result, style Style) *checking {
	return &checking{printer: &printer{w: w, r: c.Made.Found, units: c.Job.Shown(), style: style}, c: c}
}

func (p *checking) head() {
	p.line("%s", p.paint(bold, p.c.Job.Name))
	if part := p.c.Job.Part; part != nil {
		p.line("\n  %s", partText(part))
	}
}

// sheet says how to read each size and what it should show.
func (p *checking) sheet() {
	if len(p.c.Sheet) == 0 {
		return
	}
	p.heading("Inspection sheet, in the order of making")
	p.table(p.sheetRows())
	for i := range p.c.Sheet {
		p.step(&p.c.Sheet[i])
	}
}

func (p *checking) sheetRows() [][]string {
	rows := [][]string{{"size", "limits", "should show", "between", "surely right between", "± 95 %"}}
	for i := range p.c.Sheet {
		s := &p.c.Sheet[i]
		d := s.Made.Size.Kind.Dimension()
		row := []string{s.Made.Size.ID, p.between(s.Limits.Low, s.Limits.High, d), p.paint(yellow, "no reading"), "", "", ""}
		if s.Reading != nil {
			row[2], row[3], row[4] = p.amount(s.Shows, s.Reads), p.between(s.ShowsLow, s.ShowsHigh, s.Reads), "nowhere"
			row[5] = p.halfWidth(half(s.U), d)
			if !math.IsNaN(s.Sure.Low) {
				row[4] = p.between(s.Sure.Low, s.Sure.High, s.Reads)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// between writes two limits, with the unit behind the second only.
func (p *checking) between(low, high float64, d unit.Dimension) string {
	first := p.amount(low, d)
	if d == unit.Length {
		first = bareLength(low, p.firstUnit())
	}
	return first + " to " + p.amount(high, d)
}

// step says in words how one size is read.
func (p *checking) step(s *inspect.Step) {
	id := p.paint(bold, s.Made.Size.ID)
	if s.Reading == nil {
		p.paragraph("", id+": "+p.paint(yellow, "the kit allows no reading of it")+"; "+otherwise(s.Made.Size))
		p.stops(s)
		return
	}
	said := []string{fmt.Sprintf("%s: %s, with %s.", id, lowered(setUp(s.Reading, s.Borrow)), s.Reading.With)}
	if s.SameAsMate {
		said = append(said, "It has read the mate too, so its zero cancels in the clearance.")
	}
	switch s.Good {
	case inspect.Doubtful:
		said = append(said, p.paint(yellow, "A coarse judge: its uncertainty is more than a third of the tolerance."))
	case inspect.Unfit:
		said = append(said, p.paint(red, "No judge of this size: its uncertainty is more than half of the tolerance. Borrow a finer instrument, or fit it to its mate."))
	}
	if len(s.Remarks) > 0 {
		said = append(said, sentence(s.Remarks[0].Text))
	}
	p.paragraph("", strings.Join(said, " "))
	p.stops(s)
}

func otherwise(size *oddleg.NewSize) string {
	switch size.From {
	case oddleg.IsThread:
		return "try it with its nut, or with a go and a no-go gauge."
	case oddleg.GoesIn, oddleg.GoesOver:
		return "try it in its mate, " + size.Of.Text + "."
	}
	return "borrow what reads it, or hold it against the old part."
}

func (p *checking) stops(s *inspect.Step) {
	for _, before := range s.Before {
		p.paragraph("  ", p.paint(bold, "Stop:")+" read it "+before+".")
	}
}

// pieces says how each piece that has been read stands.
func (p *checking) pieces() {
	for i := range p.c.Pieces {
		piece := &p.c.Pieces[i]
		title := "Verdicts"
		if p.c.Job.Part.Quantity > 1 {
			title = fmt.Sprintf("Verdicts on piece %d", piece.Number)
		}
		p.heading(title)
		p.verdicts(piece)
		p.offers(piece)
	}
}

func (p *checking) verdicts(piece *inspect.Piece) {
	rows := [][]string{{"size", "limits", "found, ± 95 %", "within them", "it is"}}
	for i := range piece.Verdicts {
		rows = append(rows, p.verdictRow(&piece.Verdicts[i]))
	}
	p.table(rows)
	for i := range piece.Verdicts {
		p.verdict(&piece.Verdicts[i])
	}
}

func (p *checking) verdictRow(v *inspect.Verdict) []string {
	d := v.Made.Size.Kind.Dimension()
	row := []string{v.Made.Size.ID, "", "", "", p.saying(v)}
	if v.Limits.Low < v.Limits.High {
		row[1] = p.between(v.Limits.Low, v.Limits.High, d)
	}
	if !math.IsNaN(v.Value) {
		row[2], _ = p.both(v.Value, half(v.U), d)
	}
	if !math.IsNaN(v.Chance) {
		row[3] = fit.Percent(v.Chance)
	}
	return row
}

// saying writes a verdict; work in the machine that has something to come off is
// not wrong.
func (p *checking) saying(v *inspect.Verdict) string {
	switch {
	case v.Says == inspect.Conforming:
		return string(v.Says)
	case v.Take != nil && v.Take.Off > 0:
		return p.paint(yellow, "not there yet")
	case v.Says == inspect.NotConforming:
		return p.paint(red, string(v.Says))
	}
	return p.paint(yellow, string(v.Says))
}

// verdict says what the table has no room for.
func (p *checking) verdict(v *inspect.Verdict) {
	id := p.paint(bold, v.Made.Size.ID)
	if v.Why != "" {
		p.paragraph("", id+": "+v.Why+".")
	}
	if v.Corrected != 0 {
		p.paragraph("", fmt.Sprintf("%s: corrected for a warm piece; %s was taken off the reading.", id, p.length(v.Corrected)))
	}
	if v.Take != nil {
		p.paragraph("", id+": "+p.take(v))
	}
}

// take says what is to come off in the machine.
func (p *checking) take(v *inspect.Verdict) string {
	t := v.Take
	on := ""
	if t.Round {
		on = " on the diameter"
	}
	switch {
	case t.Gone:
		return p.paint(red, "past the limit: no cut brings it back.")
	case t.Off == 0 && v.Says == inspect.Conforming:
		return "leave it: it is right."
	case t.Off == 0:
		return p.paint(yellow, "cut no more: read it more closely, it may be right.")
	case t.Now == 0:
		return p.paint(yellow, fmt.Sprintf("%s more%s would be right, but %s.", p.length(t.Off), on, t.Mind))
	}
	said := fmt.Sprintf("take off %s more%s: %s.", p.length(t.Off), on, cutsText(t.Cuts))
	if t.Cuts > 1 {
		said += fmt.Sprintf(" The next takes %s; then read it again.", p.length(t.Now))
	} else if t.Now < t.Off {
		said += fmt.Sprintf(" It takes %s; then read it again.", p.length(t.Now))
	}
	if d := t.Dial; d != nil {
		said += fmt.Sprintf(" On the %s dial of the %s: %s", d.Slide, d.Machine, divisions(d.Now))
		if t.Round {
			said += ", which counts " + string(d.Counts)
		}
		said += "."
	}
	said += fmt.Sprintf(" Chance of going past the limit: %s.", fit.Percent(t.Past))
	if t.Mind != "" {
		said += " " + p.paint(yellow, sentence(t.Mind)+".")
	}
	return said
}

func cutsText(n int) string {
	if n == 1 {
		return "one cut"
	}
	return fmt.Sprintf("%d cuts", n)
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

// half returns the 95 % half width of a standard uncertainty.
func half(u float64) float64 { return adjust.Coverage95 * u }

// checks says how the part is proved, with how it stands, and how the machine goes
// together again.
func (a *author) checks() error {
	checked, err := a.Found.Proved()
	if err != nil {
		return err
	}
	p := &checking{printer: a.printer, c: checked}
	for _, write := range []func(){p.sheet, p.pieces, p.takenApart, p.puttingBack} {
		a.pages.begin("")
		write()
	}
	return nil
}
