package term

import (
	"strings"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// table writes rows in columns as wide as they need, under their heads.
func (s *screen) table(t *doc.Table) {
	var shown []*doc.Column
	for i := range t.Columns {
		if c := &t.Columns[i]; shows(c.Where) {
			shown = append(shown, c)
		}
	}
	rows := [][]word{s.heads(shown)}
	for i := range t.Rows {
		var row []word
		for _, c := range shown {
			text, plain := t.Cell(&t.Rows[i], c, s.View)
			row = append(row, word{s.coloured(text, c.View.Of(s.View)), columns(plain)})
		}
		rows = append(rows, row)
	}
	if headless(rows[0]) {
		rows = rows[1:]
	}
	s.rows(rows, shown)
}

func (s *screen) heads(shown []*doc.Column) []word {
	var row []word
	for _, c := range shown {
		text := c.Heading().Shown(c.View.Of(s.View))
		row = append(row, word{text, columns(text)})
	}
	return row
}

// headless reports whether no column has a head.
func headless(row []word) bool {
	for _, w := range row {
		if w.wide > 0 {
			return false
		}
	}
	return true
}

func (s *screen) rows(rows [][]word, shown []*doc.Column) {
	widths := make([]int, len(shown))
	for _, row := range rows {
		for i, w := range row {
			widths[i] = max(widths[i], w.wide)
		}
	}
	for n, row := range rows {
		var b strings.Builder
		for i, w := range row {
			b.WriteString(w.text + strings.Repeat(" ", widths[i]-w.wide+2))
		}
		text := strings.TrimRight(b.String(), " ")
		if n == 0 {
			text = paint(s.Colour, bold, text)
		}
		s.line(2, text)
	}
}

// coloured writes a text on one line.
func (s *screen) coloured(t doc.Text, v unit.View) string {
	var b strings.Builder
	for i := range t {
		b.WriteString(s.toned(t[i].Tone, t[i].Shown(v)))
	}
	return b.String()
}

// The codes of ECMA-48 for bold letters and for colours.
const (
	bold   = "1"
	yellow = "33"
	red    = "31"
)

// tones are the codes of the tones that are told from the others.
var tones = map[doc.Tone]string{doc.Strong: bold, doc.Warning: yellow, doc.Alarm: red}

func (s *screen) toned(t doc.Tone, text string) string {
	return paint(s.Colour && tones[t] != "", tones[t], text)
}

// paint writes text in a colour.
func paint(colour bool, code, text string) string {
	if !colour || text == "" {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}

// columns returns how many columns a text takes.
func columns(text string) int { return utf8.RuneCountInString(text) }
