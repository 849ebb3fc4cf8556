// Package doc is what there is to say, as blocks with a type: headings,
// paragraphs, tables with named cells, pictures, forms, cautions.
//
// Results become documents in one room and are shown in others: on a terminal, on
// paper, in a page, as JSON. Whoever makes a document owns the words and knows
// the results; whoever shows it knows how wide its medium is, in which units its
// reader thinks, and nothing of what the words are about. Amounts stay amounts
// until they are shown. No text is ever taken apart again.
package doc

import (
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Document is what there is to say of one thing. A heading of level 1 begins a
// chapter, which on paper is kept together as far as it goes.
type Document struct {
	Title  Text
	Blocks []Block
}

// Add adds blocks.
func (d *Document) Add(blocks ...Block) { d.Blocks = append(d.Blocks, blocks...) }

// Append adds all blocks of other documents, but not their titles.
func (d *Document) Append(others ...*Document) {
	for _, o := range others {
		d.Add(o.Blocks...)
	}
}

// Block is one piece of a document: Heading, Paragraph, Table, Picture, Form
// or Caution.
type Block interface{ block() }

// Heading stands over the blocks that follow it: of level 1 over a chapter, of
// level 2 over part of one.
type Heading struct {
	Level int
	Words Text
}

// Chapter is the heading of a chapter.
func Chapter(words string) Heading { return Heading{1, Plain(words)} }

// Section is the heading of part of a chapter.
func Section(words string) Heading { return Heading{2, Plain(words)} }

// Weight is how large words stand where there is room for it.
type Weight uint8

// The weights.
const (
	Usual   Weight = iota
	Small          // what is seldom read
	Figures        // what is read off or worked to
	Large          // figures to be read from a step away
)

// Space is how far a block stands off what is over it.
type Space uint8

// The spaces.
const (
	Next  Space = iota
	Close       // as lines of one paragraph do
	Apart       // a line is left free
)

// Paragraph is words set in lines. Mark, such as "1.", hangs before them. Indent
// counts steps to the right. Whole words are not broken into lines on a terminal: a
// formula, a list of figures. What Keeps stays on the page of what follows it.
type Paragraph struct {
	Mark   string
	Words  Text
	Indent int
	Weight Weight
	Space  Space
	Where  Where // on which media it stands
	Whole  bool
	Keeps  bool
}

// Picture shows a sheet, which is drawn when somebody sees it: its figures are in
// the units of who reads. Words say what it shows where it cannot be seen. An error
// says why it cannot be drawn, and is told in its place.
type Picture struct {
	Draw  func(v unit.View) (*ink.Sheet, error)
	Words Text
}

// Drawn returns the sheet of a picture, nil where it has none, and what is told in
// its place.
func (p Picture) Drawn(v unit.View) (*ink.Sheet, Text) {
	if p.Draw == nil {
		return nil, p.Words
	}
	sheet, err := p.Draw(v)
	if err != nil {
		return nil, Say("Not drawn: %s.", strings.TrimSuffix(err.Error(), "."))
	}
	return sheet, nil
}

// Form is room to write by hand: a word, and so many lines. It is there on paper
// only.
type Form struct {
	Label Text
	Lines int
}

// Caution is what keeps people whole: it is never left out, and stands out.
type Caution struct {
	Words Text
}

func (Heading) block()   {}
func (Paragraph) block() {}
func (*Table) block()    {}
func (Picture) block()   {}
func (Form) block()      {}
func (Caution) block()   {}

// Line is a paragraph of one line that is not broken, so many steps to the right.
func Line(indent int, words Text) Paragraph {
	return Paragraph{Words: words, Indent: indent, Whole: true, Space: Close}
}

// Item is a paragraph with a dash before it.
func Item(words Text) Paragraph { return Paragraph{Mark: "-", Words: words} }

// Said is a paragraph of words in the format of Say.
func Said(format string, args ...any) Paragraph { return Paragraph{Words: Say(format, args...)} }
