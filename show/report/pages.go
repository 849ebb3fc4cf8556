package report

import (
	"regexp"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// pages gathers what a printer writes, for paper. The printer colours it as for
// a terminal: on paper a bold beginning stays bold, and what is red is bold as a
// whole.
type pages struct {
	chapters []booklet.Chapter
	weight   booklet.Weight // of what is not said louder
}

// begin begins a chapter, whose title is the first heading in it where none is
// given.
func (g *pages) begin(title string) {
	g.chapters = append(g.chapters, booklet.Chapter{Title: plain(title)})
}

// all returns the chapters that have something in them.
func (g *pages) all() []booklet.Chapter {
	var list []booklet.Chapter
	for _, c := range g.chapters {
		if len(c.Blocks) > 0 {
			list = append(list, c)
		}
	}
	return list
}

// ChaptersOf is a document as somebody reads it in a view, for a page.
func ChaptersOf(d *doc.Document, v unit.View) []booklet.Chapter {
	g := &pages{}
	g.begin(d.Title.Shown(v))
	g.say(d, v)
	return g.all()
}

// say adds what a document says. A heading of level 1 begins a chapter.
func (g *pages) say(d *doc.Document, v unit.View) {
	for _, b := range d.Blocks {
		if h, ok := b.(doc.Heading); ok && h.Level == 1 {
			g.begin(h.Words.Shown(v))
			continue
		}
		g.add(booklet.Said{Block: b, View: v})
	}
}

func (g *pages) add(blocks ...booklet.Block) { g.chapters[len(g.chapters)-1].Add(blocks...) }

func (g *pages) heading(text string) {
	c := &g.chapters[len(g.chapters)-1]
	if c.Title == "" && len(c.Blocks) == 0 {
		c.Title = plain(text)
		return
	}
	g.add(booklet.Heading(plain(text)))
}

// line takes a line for a terminal: two spaces at its start, and two more for
// each step to the right. A bold beginning is the head of the lines under it.
func (g *pages) line(text string) {
	text = strings.TrimRight(text, "\n ")
	bare := strings.TrimLeft(text, "\n")
	words := strings.TrimLeft(bare, " ")
	if words == "" {
		return
	}
	p := g.words(words)
	p.Indent = max(0, (len(bare)-len(words))/2-1)
	p.Keep = p.Lead != ""
	switch {
	case bare != text:
		p.Space = booklet.Apart
	case p.Indent > 0:
		p.Space = booklet.Close
	}
	g.add(p)
}

func (g *pages) paragraph(mark, text string) {
	p := g.words(text)
	p.Mark = mark
	g.add(p)
}

// words reads how words were painted.
func (g *pages) words(text string) booklet.Paragraph {
	p := booklet.Paragraph{Words: plain(text), Weight: g.weight}
	if strings.Contains(text, escape(red)) {
		p.Weight = booklet.Strong
	}
	if after, found := strings.CutPrefix(text, escape(bold)); found {
		lead, rest, _ := strings.Cut(after, escape("0"))
		p.Lead, p.Words = plain(lead), plain(rest)
	}
	return p
}

// escape is how a terminal is told a colour.
func escape(code string) string { return "\x1b[" + code + "m" }

var painted = regexp.MustCompile("\x1b\\[[0-9]*m")

// plain returns text without its colours.
func plain(text string) string { return painted.ReplaceAllString(text, "") }

// plainRow returns the cells of a row without their colours.
func plainRow(row []string) []string {
	list := make([]string, len(row))
	for i, cell := range row {
		list[i] = strings.TrimSpace(plain(cell))
	}
	return list
}

// table takes a table whose first row is its head.
func (g *pages) table(rows [][]string) {
	t := booklet.Table{}
	for i, head := range rows[0] {
		column := booklet.Column{Head: head, Weight: g.weight}
		if i == 0 {
			column.Weight = booklet.Strong
		}
		t.Columns = append(t.Columns, column)
	}
	for _, row := range rows[1:] {
		t.Rows = append(t.Rows, plainRow(row))
	}
	g.add(t)
}
