package report

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

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
