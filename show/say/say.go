// Package say puts what the stages found into words: results in, documents out.
//
// A sentence is written here once, and reads the same on a terminal, on paper, in
// a page and to programs. Amounts stay amounts, in the units of whoever reads; what
// a reader can do next is an action, what a word names a reference. Nothing here
// knows how wide a line is, or whether there are colours.
package say

import (
	"strings"
	"unicode"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// page is a document that is being written.
type page struct {
	doc.Document
}

// titled begins a document with its title.
func titled(words string) *page {
	return &page{doc.Document{Title: doc.Plain(words)}}
}

func (p *page) chapter(format string, args ...any) {
	p.Add(doc.Heading{Level: 1, Words: doc.Say(format, args...)})
}

func (p *page) section(format string, args ...any) {
	p.Add(doc.Heading{Level: 2, Words: doc.Say(format, args...)})
}

// say adds a paragraph.
func (p *page) say(format string, args ...any) { p.Add(doc.Said(format, args...)) }

// apart adds a paragraph with a line left free over it.
func (p *page) apart(format string, args ...any) {
	p.Add(doc.Paragraph{Words: doc.Say(format, args...), Space: doc.Apart})
}

// item adds a paragraph with a dash before it.
func (p *page) item(format string, args ...any) { p.Add(doc.Item(doc.Say(format, args...))) }

// under adds a line that belongs to the one over it, so many steps in.
func (p *page) under(steps int, format string, args ...any) {
	p.Add(doc.Line(steps, doc.Say(format, args...)))
}

// list adds a chapter of sentences, nothing where there are none.
func (p *page) list(title string, lines []doc.Text) {
	if len(lines) == 0 {
		return
	}
	p.chapter("%s", title)
	for _, line := range lines {
		p.Add(doc.Paragraph{Words: line})
	}
}

// Of all documents.

func strong(words string) doc.Text { return doc.In(doc.Strong, doc.Plain(words)) }

func warning(t doc.Text) doc.Text { return doc.In(doc.Warning, t) }

func alarm(t doc.Text) doc.Text { return doc.In(doc.Alarm, t) }

// size names a size by its id.
func size(id string) doc.Text { return doc.Name(doc.Size, id) }

// newSize names a size of the part to be made.
func newSize(id string) doc.Text { return doc.Name(doc.Part, id) }

// sized names a size in a loud voice: it is the head of what follows.
func sized(id string) doc.Text { return doc.In(doc.Strong, size(id)) }

func length(mm float64) unit.Told { return unit.LengthOf(mm) }

func amount(x float64, d unit.Dimension) unit.Told { return unit.Told{Value: x, Dimension: d} }

// half is the 95 % half width of a standard uncertainty.
func half(u float64) float64 { return adjust.Coverage95 * u }

// halfWidth is a 95 % half width.
func halfWidth(U float64, d unit.Dimension) unit.HalfWidth { return unit.HalfWidth{U: U, Dimension: d} }

// measured is a value with its standard uncertainty.
func measured(value, u float64, d unit.Dimension) unit.Measured {
	return unit.Measured{Value: value, U: half(u), Dimension: d}
}

// notFound stands where a size cannot be found.
func notFound() doc.Text { return doc.Judged(doc.Doubtful, "not found") }

// sentence begins with a capital and ends with a full stop.
func sentence(text string) string {
	text = raised(text)
	if strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}

// sentenceOf is a stage's text as a sentence.
func sentenceOf(t unit.Text) unit.Amount {
	return unit.Written(func(v unit.View) string { return sentence(t.Shown(v)) })
}

func raised(text string) string {
	if text == "" {
		return text
	}
	runes := []rune(text)
	runes[0] = unicode.ToUpper(runes[0])
	return string(runes)
}

func lowered(text string) string {
	runes := []rune(text)
	runes[0] = unicode.ToLower(runes[0])
	return string(runes)
}

// joined puts words in a row with an and before the last: a, b and c.
func joined(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// within is the head of 95 % half widths.
func within() doc.Text { return doc.Plain("± 95 %") }

// unitName is the head of amounts without a unit.
func unitName() doc.Text { return doc.Show(unit.Name{}) }

// plain is a column whose name is its head.
func plain(name string) doc.Column { return doc.Column{Name: name, Head: doc.Plain(name)} }

// millimetres is the view of who reads what has no job.
var millimetres = unit.View{In: unit.Millimetre}
