package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Meant writes what the drawing seems to have said of each size: the candidates
// with their chances, where they lie about the reading, and what would settle
// what is open.
func Meant(w io.Writer, r *adjust.Result, m *meant.Result, style Style) error {
	p := &printer{w: w, r: r, units: r.Job.Shown(), style: style}
	if len(m.Sizes) == 0 {
		return nil
	}
	return p.report(func() { p.meanings(m) }, func() { p.openMeanings(m) })
}

// meanings writes the candidates of every size.
func (p *printer) meanings(m *meant.Result) {
	p.meaningHead()
	p.line("  on each line === is the reading, ± 95 %%, and each figure a candidate: its chance in tenths, + for less than one\n")
	p.table(p.meaningTable(m))
}

func (p *printer) meaningHead() {
	p.heading("What was meant")
	if len(p.suspectList()) > 0 {
		p.line("  %s", p.paint(yellow, "taking the readings as they stand, the suspect ones too: settle these first"))
	}
}

// meaningTable lists the candidates, with a picture in the last column.
func (p *printer) meaningTable(m *meant.Result) [][]string {
	rows := [][]string{{"size", "meant", "chance", ""}}
	for i := range m.Sizes {
		rows = append(rows, p.meaningRows(&m.Sizes[i])...)
	}
	return rows
}

// What is listed of a size below the leader.
const (
	mostListed  = 4
	leastListed = 0.05
)

// noRound says that no candidate was meant.
func (p *printer) noRound(s *meant.Size) string {
	if p.r.Job.Size(s.ID).Kind.Dimension() == unit.Angle {
		return "no round angle"
	}
	return "no round size"
}

// perhapsTaper follows a half angle that is no round one.
func (p *printer) perhapsTaper(s *meant.Size) string {
	if p.r.Job.Size(s.ID).Kind == trade.HalfAngle {
		return "; perhaps a taper: oddleg taper"
	}
	return ""
}

// meaningRows lists the candidates of one size worth reading, best first.
func (p *printer) meaningRows(s *meant.Size) [][]string {
	var rows [][]string
	shown := false
	noRound := func() {
		if !shown && s.NoRound >= leastListed {
			rows = append(rows, []string{"", p.noRound(s) + p.perhapsTaper(s), percent(s.NoRound), ""})
		}
		shown = true
	}
	for i, c := range s.Likely() {
		if c.P < s.NoRound {
			noRound()
		}
		if len(rows) < mostListed && (i == 0 || c.P >= leastListed) {
			rows = append(rows, []string{"", c.Text + p.change(s, c), p.chance(s, c), ""})
		}
	}
	noRound()
	if len(rows) == 0 {
		rows = [][]string{{"", p.noRound(s) + p.perhapsTaper(s), percent(s.NoRound), ""}}
	}
	rows[0][0], rows[0][3] = s.ID, p.picture(s)
	return rows
}

func (p *printer) chance(s *meant.Size, c meant.Candidate) string {
	if s.Decided {
		return "decided"
	}
	return percent(c.P)
}

// wrongWay is how many standard deviations a change may be beyond explanation
// before it is said that it is none.
const wrongWay = 2

// change says what has become of a size since, if this was meant: worn, or
// found larger or smaller.
func (p *printer) change(s *meant.Size, c meant.Candidate) string {
	size := p.r.Job.Size(s.ID)
	worn := wears(size)
	larger := (c.Off < 0) != (size.Surface == trade.Inside)
	off := p.small(math.Abs(c.Off), size.Kind.Dimension())
	switch {
	case worn && c.Off < 0 && c.Beyond > wrongWay:
		return fmt.Sprintf(", but found %s %s, which is no wear", off, largerOr(larger))
	case worn:
		if wear := p.small(c.Wear, unit.Length); wear != "" {
			return ", " + wear + " worn"
		}
		return ", unworn"
	case off != "":
		return fmt.Sprintf(", found %s %s", off, largerOr(larger))
	}
	return ""
}

// wears reports whether wear is thought to have changed a size.
func wears(size *trade.Size) bool {
	return size.Surface != "" && size.Surface != trade.NoSurface && size.Wear != "" && size.Wear != trade.NoWear
}

func largerOr(larger bool) string {
	if larger {
		return "larger"
	}
	return "smaller"
}

// small writes an amount of wear as far as it can be felt: a hundredth of a
// millimetre, a thou, a hundredth of a degree; nothing where it is less.
func (p *printer) small(x float64, d unit.Dimension) string {
	text := fmt.Sprintf("%.2f mm", x)
	switch {
	case d == unit.Angle:
		text = fmt.Sprintf("%.2f°", x*180/math.Pi)
	case p.units == unit.Inch:
		text = fmt.Sprintf("%.3f in", x/unit.MillimetresPerInch)
	}
	if strings.Trim(text, "0.°in m") == "" {
		return ""
	}
	return text
}

// pictureWidth is the number of cells of a picture.
const pictureWidth = 36

// picture draws the reading's band over the candidates in one line.
func (p *printer) picture(s *meant.Size) string {
	found := p.r.Size(s.ID)
	low, high := reachOf(s, found)
	cell := func(x float64) int {
		return max(0, min(pictureWidth-1, int((x-low)/(high-low)*pictureWidth)))
	}
	cells := []byte(strings.Repeat("-", pictureWidth))
	for i := cell(found.Low()); i <= cell(found.High()); i++ {
		cells[i] = '='
	}
	likely := s.Likely()
	for i, c := range slices.Backward(likely) {
		if i == 0 || c.P >= inPicture {
			cells[cell(c.Value)] = tenths(c.P)
		}
	}
	return p.amount(low, found.Dimension) + " " + string(cells) + " " + p.amount(high, found.Dimension)
}

// tenths writes a probability in one character.
func tenths(p float64) byte {
	if p < 0.1 {
		return '+'
	}
	return byte('0' + min(9, int(10*p)))
}

// inPicture is the probability from which a candidate has its place in a
// picture.
const inPicture = 0.02

// reachOf returns the range that a picture of a size shows: the reading's band
// and the candidates, and a little on either side.
func reachOf(s *meant.Size, found *adjust.Size) (low, high float64) {
	low, high = found.Low(), found.High()
	for i, c := range s.Likely() {
		if i == 0 || c.P >= inPicture {
			low, high = min(low, c.Value), max(high, c.Value)
		}
	}
	beside := max(0.08*(high-low), 1e-3)
	return low - beside, high + beside
}

// openMeanings writes what would settle what is open, what a set of sizes has in
// common, and the second opinion.
func (p *printer) openMeanings(m *meant.Result) {
	var lines []string
	for i := range m.Sizes {
		if t := m.Sizes[i].Tell; t != nil {
			lines = append(lines, p.telling(&m.Sizes[i], t)+p.nextFor(&m.Sizes[i], t))
		}
	}
	if m.Question != nil {
		lines = append(lines, questionText(m.Question))
	}
	for _, set := range m.Sets {
		if set.P >= worthSaying {
			lines = append(lines, setText(set))
		}
	}
	if len(m.Sizes) >= fewestForShares {
		lines = append(lines, systemsText(m.Shares))
	}
	if m.Quantum != nil {
		lines = append(lines, quantumText(m))
	}
	if len(lines)+len(m.Warnings) > 0 {
		p.line("")
	}
	for _, line := range lines {
		p.paragraph("", line)
	}
	for _, warning := range m.Warnings {
		p.line("  %s", p.paint(yellow, warning))
	}
}

// fewestForShares is how many sizes say something of a whole machine.
const fewestForShares = 3

// telling says how the leaders of a size can be told apart.
func (p *printer) telling(s *meant.Size, t *meant.Tell) string {
	start := fmt.Sprintf("%s: cannot tell %s from %s: ", s.ID, t.First, t.Second)
	other := "an unworn one"
	if !wears(p.r.Job.Size(s.ID)) {
		other = "another that was made to the same size"
	}
	switch {
	case math.IsNaN(t.U):
		return start + "no reading of this surface will tell; read " + other
	case t.U >= adjust.Coverage95*p.r.Size(s.ID).U:
		return start + "it was found between them, and a finer reading will hardly tell; read " + other
	}
	return fmt.Sprintf("%sread it to ±%s to separate these two", start, p.closely(t.U))
}

// nextFor names the verb that finds the readings that tell, where any do.
func (p *printer) nextFor(s *meant.Size, t *meant.Tell) string {
	if math.IsNaN(t.U) || t.U >= adjust.Coverage95*p.r.Size(s.ID).U {
		return ""
	}
	return fmt.Sprintf(" (oddleg next FILE --for %s --want %s)", s.ID, strings.ReplaceAll(p.closely(t.U), " ", ""))
}

// closely writes an uncertainty to be reached, to two digits.
func (p *printer) closely(U float64) string {
	name := "mm"
	if p.units == unit.Inch {
		U, name = U/unit.MillimetresPerInch, "in"
	}
	_, text := unit.WithUncertainty(0, U)
	return text + " " + name
}

// worthSaying is the probability from which a choice is named.
const worthSaying = 0.6

func setText(s meant.Set) string {
	return fmt.Sprintf("%s are tied by relations: the drawing seems to have given %s (%s), the rest follows",
		strings.Join(s.Sizes, ", "), strings.Join(s.Designers, ", "), percent(s.P))
}

func questionText(q *meant.Question) string {
	var answers []string
	for _, a := range q.Answers {
		var then []string
		for _, s := range a.Settles {
			then = append(then, s.ID+" "+s.Text)
		}
		if len(then) == 0 {
			then = []string{"nothing else"}
		}
		answers = append(answers, fmt.Sprintf("if %s, it settles %s", a.Text, strings.Join(then, ", ")))
	}
	return fmt.Sprintf("If you know what %s was meant to be, say so with `meant:`: %s.", q.Size, strings.Join(answers, "; "))
}

// systemsText says in what the part seems to have been made.
func systemsText(shares []meant.Share) string {
	var parts []string
	for _, s := range shares {
		parts = append(parts, fmt.Sprintf("%s %s", s.System, percent(s.Mean)))
	}
	return "How this machine was dimensioned, as far as these sizes tell: " + strings.Join(parts, ", ") + "."
}

// quantumText gives the second opinion, which knows nothing of the machine.
func quantumText(m *meant.Result) string {
	q := m.Quantum
	text := fmt.Sprintf("Second opinion (Kendall's quantum test, blind to the machine's country): %d sizes lie nearest to whole multiples of %s, ", q.Sizes, q.Step)
	if q.Chance > 0.05 {
		return text + fmt.Sprintf("but random ones would as closely in %s of cases: it cannot tell.", percent(q.Chance))
	}
	text += fmt.Sprintf("which random ones would in %s of cases.", percent(q.Chance))
	if inInches := m.Inches() > 0.5; inInches != q.InInches {
		text += " This does not agree with the above."
	}
	return text
}
