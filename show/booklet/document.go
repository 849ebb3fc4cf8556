package booklet

import (
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Document lays a document out on pages. Every page has the name of the job, the
// date and its number of how many at its foot.
func Document(d *doc.Document, o Options) []*ink.Sheet {
	b := &book{options: o}
	b.turn()
	var strips []strip
	if !d.Title.Empty() {
		strips = chapterTitle.titled(d.Title.Shown(o.View), 9, b.width())
	}
	table := false
	for _, block := range d.Blocks {
		if h, ok := block.(doc.Heading); ok && h.Level == 1 {
			b.fill(strips)
			strips = nil
		}
		list := Said{block, o.View}.strips(b.width())
		if table && len(list) > 0 {
			list[0].above = max(list[0].above, afterTable)
		}
		_, table = block.(*doc.Table)
		strips = append(strips, list...)
	}
	b.fill(strips)
	b.close()
	b.number()
	return b.pages
}

// width is that of the text on a page.
func (b *book) width() float64 {
	return ink.Blank(b.options.Paper, true).Width - leftMargin - rightMargin
}

// Said is a block of a document as somebody reads it in a view.
type Said struct {
	Block doc.Block
	View  unit.View
}

// strips cuts a block into pieces of a page.
func (s Said) strips(width float64) []strip {
	switch block := s.Block.(type) {
	case doc.Heading:
		if block.Level == 1 {
			return chapterTitle.titled(block.Words.Shown(s.View), 9, width)
		}
		return headingStyle.titled(block.Words.Shown(s.View), 4.5, width)
	case doc.Paragraph:
		return paragraph(block, s.View, width)
	case *doc.Table:
		table := tableOf(block, s.View)
		if len(table.Columns) == 0 {
			return nil // it is a picture made of letters
		}
		return table.strips(width)
	case doc.Picture:
		sheet, words := block.Drawn(s.View)
		if sheet == nil {
			return set{style: styles[Plain], above: usualSpace}.strips(words, s.View, width)
		}
		return Picture{sheet}.strips(width)
	case doc.Form:
		return Room{block.Label.Shown(s.View), block.Lines}.strips(width)
	case doc.Caution:
		return set{style: styles[Strong], above: usualSpace}.strips(block.Words, s.View, width)
	}
	panic("booklet: a block of an unknown kind")
}

// usualSpace is left free over a paragraph.
const usualSpace = 1.4

// gaps are how far blocks stand off what is over them.
var gaps = map[doc.Space]float64{doc.Next: usualSpace, doc.Close: 0, doc.Apart: 3}

// weights are how words of a weight are set.
var weights = map[doc.Weight]Weight{doc.Usual: Plain, doc.Small: Small, doc.Figures: Figure, doc.Large: Large}

func paragraph(p doc.Paragraph, view unit.View, width float64) []strip {
	if p.Where == doc.Letters {
		return nil
	}
	indent := min(float64(p.Indent)*indentStep, width/2)
	mark := p.Mark
	if mark != "" {
		mark += " "
	}
	list := set{style: styles[weights[p.Weight]], mark: mark, indent: indent, above: gaps[p.Space]}.strips(p.Words, view, width)
	list[len(list)-1].keeps = list[len(list)-1].keeps || p.Keeps
	return list
}

// set is how a text is set: in a style, so far to the right, with a mark before
// it.
type set struct {
	style
	mark          string
	indent, above float64
}

// strips sets a text in lines. Strong words and alarms are bold, quiet ones grey.
func (s set) strips(t doc.Text, view unit.View, width float64) []strip {
	hang := s.indent + s.width(s.mark)
	var list []strip
	for i, line := range s.lines(t, view, width-hang) {
		l, x := blank(s.pitch()), hang
		if i == 0 {
			l.write(s.style, s.mark, s.indent)
		}
		for _, run := range merged(line) {
			words := strings.TrimLeft(run.words, " ")
			l.write(run.style, words, x+run.wide()-run.width(words))
			x += run.wide()
		}
		list = append(list, l)
	}
	list[0].above = s.above
	last := len(list) - 1
	for i := range list {
		list[i].keeps = i < last && (i == 0 || i == last-1)
	}
	return list
}

// merged puts runs of one style together: a blank that begins one is not written on
// paper, only one between words.
func merged(line []run) []run {
	var list []run
	for _, r := range line {
		if last := len(list) - 1; last >= 0 && list[last].style == r.style {
			list[last].words += r.words
			continue
		}
		list = append(list, r)
	}
	return list
}

// run is words of one style on one line.
type run struct {
	style
	words string
}

func (r *run) wide() float64 { return r.width(r.words) }

// toned returns the style of words of a tone.
func (s style) toned(t doc.Tone) style {
	switch t {
	case doc.Strong, doc.Alarm:
		s.bold = true
	case doc.Quiet:
		s.grey = true
	}
	return s
}

// lines breaks a text into lines of runs. A word may have several tones; it is
// broken only where it is longer than a line by itself.
func (s set) lines(t doc.Text, view unit.View, width float64) [][]run {
	lines, at := [][]run{nil}, 0.0
	for _, word := range s.words(t, view) {
		wide, space := total(widths(word)), s.style.width(" ")
		last := &lines[len(lines)-1]
		switch {
		case len(*last) == 0:
		case at+space+wide <= width+rounding:
			word[0].words = " " + word[0].words
		default:
			lines, at = append(lines, nil), 0
			last = &lines[len(lines)-1]
		}
		for total(widths(word)) > width+rounding {
			head, tail := word[0].broken(word[0].words, width)
			if tail == "" {
				break
			}
			*last = []run{{word[0].style, head}}
			word[0].words = tail
			lines = append(lines, nil)
			last = &lines[len(lines)-1]
		}
		*last = append(*last, word...)
		at = total(widths(*last))
	}
	return lines
}

func widths(line []run) []float64 {
	list := make([]float64, len(line))
	for i := range line {
		list[i] = line[i].wide()
	}
	return list
}

// words cuts a text where it may be broken.
func (s set) words(t doc.Text, view unit.View) [][]run {
	var list [][]run
	joined := false
	for i := range t {
		text := ink.Readable(t[i].Shown(view))
		joined = joined && !strings.HasPrefix(text, " ")
		for n, word := range strings.Fields(text) {
			r := run{s.toned(t[i].Tone), word}
			if n == 0 && joined && len(list) > 0 {
				list[len(list)-1] = append(list[len(list)-1], r)
				continue
			}
			list = append(list, []run{r})
		}
		if text != "" {
			joined = !strings.HasSuffix(text, " ")
		}
	}
	return list
}

// tableOf returns a table as it is set. The first column is strong. Measured figures
// to be read from a step away have their uncertainties in a column beside them.
func tableOf(t *doc.Table, view unit.View) Table {
	table := Table{Rows: make([][]string, len(t.Rows))}
	for i := range t.Columns {
		c := &t.Columns[i]
		if c.Where == doc.Letters {
			continue
		}
		for _, s := range columnsOf(c, view) {
			if len(table.Columns) == 0 {
				s.Weight = Strong
			}
			table.Columns = append(table.Columns, s.Column)
			for n := range t.Rows {
				table.Rows[n] = append(table.Rows[n], s.cell(&t.Rows[n]))
			}
		}
	}
	return table
}

// column is a column on paper, with what stands in it.
type column struct {
	Column
	cell func(row *doc.Row) string
}

func columnsOf(c *doc.Column, view unit.View) []column {
	view = c.View.Of(view)
	whole := column{Column{Head: c.Heading().Shown(view), Weight: weights[c.Weight], Write: c.Where == doc.ByHand}, func(row *doc.Row) string {
		return row.Cells[c.Name].Shown(view)
	}}
	if c.Tone == doc.Quiet {
		whole.Weight = Quiet
	}
	if c.Right {
		whole.Align = ink.RightAligned
	}
	if c.Weight != doc.Large || c.Within.Empty() {
		return []column{whole}
	}
	value, within := whole, whole
	value.Head, within.Head = c.Head.Shown(view), c.Within.Shown(view)
	value.Align, within.Align, within.Weight = ink.RightAligned, ink.LeftAligned, Figure
	value.cell = func(row *doc.Row) string { v, _ := parts(row.Cells[c.Name], view); return v }
	within.cell = func(row *doc.Row) string { _, w := parts(row.Cells[c.Name], view); return w }
	return []column{value, within}
}

// parts returns a measured value and its uncertainty apart; of any other text all
// is the value.
func parts(t doc.Text, view unit.View) (value, within string) {
	if len(t) == 1 {
		if m, ok := t[0].Words.(unit.Measured); ok {
			return m.Parts(view)
		}
	}
	return t.Shown(view), ""
}
