package report

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
)

// Style says how a result is printed for people.
type Style struct {
	Colour bool // ANSI colours, for a terminal
}

// checkWords says what would show a wrong reading of a size.
var checkWords = map[adjust.Check]string{
	adjust.OthersCheck:   "others",
	adjust.RepeatsCheck:  "repeats",
	adjust.NothingChecks: "nothing",
}

// printer writes the parts of a report in order.
type printer struct {
	w      io.Writer
	r      *adjust.Result
	units  unit.Unit
	style  Style
	doubts []blunder.Doubt
	pages  *pages // where it goes if it is for paper; then w is not used
}

// Table writes the sizes as a machinist reads them, then what is suspect, what
// cannot be found and what makes the result doubtful. Doubts explain what is
// suspect.
func Table(w io.Writer, r *adjust.Result, style Style, doubts ...blunder.Doubt) error {
	p := &printer{w: w, r: r, units: r.Job.Shown(), style: style, doubts: doubts}
	return p.report(p.sizes, p.agreement, p.places, p.warnings, p.suspects, p.either, p.setAside, p.undetermined)
}

// report runs the parts with a buffered writer that keeps the first error.
func (p *printer) report(parts ...func()) error {
	out := &firstError{w: p.w}
	p.w = out
	for _, part := range parts {
		part()
	}
	return out.err
}

// firstError writes until something goes wrong and remembers what.
type firstError struct {
	w   io.Writer
	err error
}

func (f *firstError) Write(data []byte) (int, error) {
	if f.err == nil {
		_, f.err = f.w.Write(data)
	}
	return len(data), nil
}

func (p *printer) line(format string, args ...any) {
	if p.pages != nil {
		p.pages.line(fmt.Sprintf(format, args...))
		return
	}
	fmt.Fprintf(p.w, format+"\n", args...)
}

func (p *printer) heading(text string) {
	if p.pages != nil {
		p.pages.heading(text)
		return
	}
	p.line("\n%s", p.paint("1", text))
}

// paint colours text where the style asks for it.
func (p *printer) paint(code, text string) string {
	if !p.style.Colour {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}

const (
	red    = "31"
	yellow = "33"
	bold   = "1"
)

// sizes writes the main table.
func (p *printer) sizes() {
	first, second := "mm", "in"
	if p.units == unit.Inch {
		first, second = second, first
	}
	p.line("%s\n", p.paint(bold, p.r.Job.Name))
	rows := [][]string{{"size", first + ", ± 95 %", second + ", ± 95 %", "nearest 1/64 in", "readings", "checked by"}}
	for _, s := range p.r.Sizes {
		rows = append(rows, p.sizeRow(s))
		if s.Extent != nil {
			rows = append(rows, p.extentRow("  tightest", s.Extent.Least, s.Extent.ULeast, s.Extent.LeastBy),
				p.extentRow("  slackest", s.Extent.Most, s.Extent.UMost, s.Extent.MostBy))
		}
	}
	p.table(rows)
}

func (p *printer) sizeRow(s adjust.Size) []string {
	if !s.Determined {
		return []string{s.ID, p.paint(yellow, "not found"), "", "", count(s.Readings), ""}
	}
	first, second := p.both(s.Value, adjust.Coverage95*s.U, s.Dimension)
	checked := checkWords[s.Check]
	switch {
	case s.U == 0:
		checked = "given"
	case s.Check != adjust.OthersCheck:
		checked = p.paint(yellow, checked+" !")
	}
	return []string{s.ID, first, second, p.near(s), count(s.Readings), checked}
}

// near writes a size as a rule has it, and a pitch in threads per inch.
func (p *printer) near(s adjust.Size) string {
	switch kind := p.r.Job.Size(s.ID).Kind; {
	case kind == trade.Pitch:
		return fmt.Sprintf("%.2f tpi", unit.MillimetresPerInch/s.Value)
	case kind == trade.Module || s.Dimension != unit.Length:
		return ""
	}
	return unit.FractionText(s.Value, 64)
}

func (p *printer) extentRow(name string, value, u float64, by string) []string {
	first, second := p.both(value, adjust.Coverage95*u, unit.Length)
	return []string{name, first, second, "", "", "found by " + by}
}

func count(n int) string { return fmt.Sprint(n) }

// both writes a value in the job's own units and in the others: lengths in mm
// and inches, angles in degrees and in degrees and minutes.
func (p *printer) both(value, U float64, d unit.Dimension) (first, second string) {
	switch d {
	case unit.Angle:
		return degrees(value, U), minutes(value, U)
	case unit.Number:
		v, u := unit.WithUncertainty(value, U)
		return v + " ± " + u, ""
	}
	v, u := unit.WithUncertainty(value, U)
	first, second = v+" ± "+u, strings.TrimSuffix(unit.InchWithUncertainty(value, U), " in")
	if U == 0 {
		first, second = v, strings.TrimSuffix(unit.ThouText(value), " in")
	}
	if p.units == unit.Inch {
		return second, first
	}
	return first, second
}

func degrees(value, U float64) string {
	v, u := unit.WithUncertainty(value*180/math.Pi, U*180/math.Pi)
	if U == 0 {
		return v + "°"
	}
	return v + "° ± " + u + "°"
}

// minutes writes an angle as degrees and minutes, 5° 0.4' ± 1.0'.
func minutes(value, U float64) string {
	all := math.Abs(value) * 180 / math.Pi * 60
	whole := math.Floor(all / 60)
	v, u := unit.WithUncertainty(all-60*whole, U*180/math.Pi*60)
	sign := ""
	if value < 0 {
		sign = "-"
	}
	if U == 0 {
		return fmt.Sprintf("%s%.0f° %s'", sign, whole, v)
	}
	return fmt.Sprintf("%s%.0f° %s' ± %s'", sign, whole, v, u)
}

// amount writes one length, angle or number in the job's units.
func (p *printer) amount(x float64, d unit.Dimension) string {
	switch d {
	case unit.Angle:
		return unit.ShowAngle(x)
	case unit.Number:
		v, _ := unit.WithUncertainty(x, 0)
		return v
	}
	return unit.ShowLength(x, p.units)
}

// table writes rows in columns as wide as they need, the first row as a heading.
func (p *printer) table(rows [][]string) {
	if p.pages != nil {
		p.pages.table(rows)
		return
	}
	widths := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], width(cell))
		}
	}
	for n, row := range rows {
		var b strings.Builder
		for i, cell := range row {
			b.WriteString(cell + strings.Repeat(" ", widths[i]-width(cell)+2))
		}
		text := strings.TrimRight(b.String(), " ")
		if n == 0 {
			text = p.paint(bold, text)
		}
		p.line("  %s", text)
	}
}

// width returns how many columns a text takes on a terminal.
func width(text string) int {
	n := utf8.RuneCountInString(text)
	for _, part := range strings.Split(text, "\x1b[")[1:] {
		n -= 3 + strings.IndexByte(part, 'm')
	}
	return n
}

// agreement says whether the readings fit each other. Where they do not, a
// warning says so.
func (p *printer) agreement() {
	switch {
	case p.r.Dof == 0:
		p.line("\n  Nothing is read twice over: no reading checks another.")
	case !p.r.Scatters():
		p.line("\n  The readings agree: chi-square %.1f where about %d is expected (chance %.2g).", p.r.Chi2, p.r.Dof, p.r.P)
	}
}

// places writes holes, circles and lines.
func (p *printer) places() {
	if len(p.r.Places) == 0 {
		return
	}
	p.heading("Places")
	rows := [][]string{{"place", "x", "y", "±x", "±y"}}
	for _, place := range p.r.Places {
		rows = append(rows, p.placeRow(place))
	}
	p.table(rows)
}

func (p *printer) placeRow(place adjust.Place) []string {
	if !place.Determined {
		return []string{place.ID, p.paint(yellow, "not found"), "", "", ""}
	}
	first := unit.Length
	if place.Line {
		first = unit.Angle
	}
	return []string{
		place.ID, p.amount(place.At[0], first), p.amount(place.At[1], unit.Length),
		p.amount(adjust.Coverage95*place.U[0], first), p.amount(adjust.Coverage95*place.U[1], unit.Length),
	}
}
