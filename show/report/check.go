package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
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
	p.zeros()
	p.steps(p.c.Sheet)
}

// zeros says which instruments show something else than the size because their
// zeros are off, as the readings of the old part told.
func (p *checking) zeros() {
	var list []string
	for i := range p.c.Sheet {
		s := &p.c.Sheet[i]
		if s.Reading == nil || s.Reads != unit.Length || math.Abs(s.Zero) < toldZero {
			continue
		}
		if said := s.Reading.With + " " + p.length(s.Zero); !slices.Contains(list, said) {
			list = append(list, said)
		}
	}
	if len(list) > 0 {
		p.paragraph("", "What they should show counts the zeros of the instruments, as they were found: "+strings.Join(list, ", ")+".")
	}
}

// toldZero is the least zero, mm, of which anybody need be told.
const toldZero = 0.005

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
	p.paragraph("", p.paint(bold, s.Made.Size.ID)+": "+p.how(s))
	p.stops(s)
}

// how says how a size is read, and how good that is.
func (p *checking) how(s *inspect.Step) string {
	if s.Reading == nil {
		return p.paint(yellow, "the kit allows no reading of it") + "; " + otherwise(s.Made.Size) + "."
	}
	said := []string{fmt.Sprintf("%s, with %s.", setUpOfPart(s), p.with(s))}
	if s.SameAsMate {
		said = append(said, "It has read the mate too, so its zero cancels in the clearance.")
	}
	switch s.Good {
	case inspect.Doubtful:
		said = append(said, p.paint(yellow, "A coarse judge: its uncertainty is more than a third of the tolerance."))
	case inspect.Unfit:
		said = append(said, p.paint(red, "No judge of this size: its uncertainty is more than half of the tolerance."), p.finer(s))
	}
	for _, r := range s.Remarks {
		said = append(said, sentence(r.Text))
	}
	return strings.Join(said, " ")
}

// setUpOfPart says how the reading of a step is set up, the sizes of the part without
// the word that tells them from those of the job.
func setUpOfPart(s *inspect.Step) string {
	said := lowered(setUp(s.Reading, s.Borrow))
	if m, _ := gauge.Find(s.Reading.By); m.Direct {
		said = strings.Replace(said, "part."+s.Made.Size.ID, "it", 1)
	}
	return strings.ReplaceAll(said, "part.", "")
}

// with names the instrument of a step: by its id, or what is to be got.
func (p *checking) with(s *inspect.Step) string {
	if s.Lent == nil {
		return s.Reading.With
	}
	return s.Lent.ID + p.frame(s) + ", which the kit lacks"
}

// frame says which frame of a micrometer spans a size: they go by 25 mm or by the
// inch. It is empty where none spans all of its limits.
func (p *checking) frame(s *inspect.Step) string {
	span, in := 25.0, unit.Millimetre
	if p.units == unit.Inch {
		span, in = unit.MillimetresPerInch, unit.Inch
	}
	from := math.Floor(s.ShowsLow / span)
	kind, _ := gauge.InstrumentOf(s.Lent.Kind)
	if !kind.Framed || s.ShowsHigh > (from+1)*span {
		return ""
	}
	per := span / map[unit.Unit]float64{unit.Millimetre: 1, unit.Inch: unit.MillimetresPerInch}[in]
	return fmt.Sprintf(" (for %g to %g %s)", from*per, (from+1)*per, in)
}

// finer says what would judge a size that the kit cannot.
func (p *checking) finer(s *inspect.Step) string {
	f := s.Finer
	if f == nil {
		return "No other instrument of a toolroom judges it either: " + otherwise(s.Made.Size) + "."
	}
	d := s.Made.Size.Kind.Dimension()
	said := "Borrow " + f.With.ID + fmt.Sprintf(": it would be good to ± %s", p.halfWidth(half(f.U), d))
	if f.Good != inspect.Fit {
		said += ", still a coarse judge"
	}
	return said + ". Or " + otherwise(s.Made.Size) + "."
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
	for _, words := range p.besides(v) {
		p.paragraph("", id+": "+words)
	}
}

// besides says why a verdict says no more, what was corrected, and what is to come
// off yet.
func (p *checking) besides(v *inspect.Verdict) []string {
	var said []string
	if v.Why != "" {
		said = append(said, v.Why+".")
	}
	if v.Corrected != 0 {
		said = append(said, fmt.Sprintf("corrected for a warm piece; %s was taken off the reading.", p.length(v.Corrected)))
	}
	if v.Take != nil {
		said = append(said, p.take(v))
	}
	return said
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
		said += " " + p.paint(yellow, sentence(t.Mind))
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
