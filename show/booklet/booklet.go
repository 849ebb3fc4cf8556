// Package booklet lays a job out on pages to be read at the bench: large
// figures, quiet tables, room to write.
//
// What is to be said comes as chapters, each a list of blocks: headings,
// paragraphs, tables, pictures, room to write. Whoever makes chapters owns the
// words; this package knows only how wide they are and where a page ends. Nothing
// is cut: long texts are wrapped, tables go on under their head on the next page,
// a heading stays with what follows it. All lengths are in mm.
package booklet

import (
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Chapter is one part of a booklet.
type Chapter struct {
	Title  string
	Blocks []Block
}

// Add adds blocks.
func (c *Chapter) Add(blocks ...Block) { c.Blocks = append(c.Blocks, blocks...) }

// Block is a piece of a chapter: a Heading, Paragraph, Table, Picture or Room.
type Block interface {
	strips(width float64) []strip
}

// Weight is how loudly words speak.
type Weight uint8

// The weights.
const (
	Plain  Weight = iota
	Quiet         // small and grey
	Small         // small: what is seldom read
	Strong        // bold
	Figure        // larger: what is read off or worked to
	Large         // figures to be read from a step away, 5 mm high and bold
)

// style is how words of a weight are set.
type style struct {
	height     float64 // of capitals
	bold, grey bool
}

var styles = map[Weight]style{
	Plain:  {height: 2.5},
	Quiet:  {height: 2.1, grey: true},
	Small:  {height: 2.1},
	Strong: {height: 2.5, bold: true},
	Figure: {height: 3.5},
	Large:  {height: 5, bold: true},
}

// Heading stands over the blocks that follow it.
type Heading string

// Paragraph is words set in lines. Mark, such as "- ", hangs before them, Lead
// is their bold beginning, which they follow as they stand, and Indent counts
// steps to the right.
type Paragraph struct {
	Mark, Lead, Words string
	Indent            int
	Weight            Weight
	Space             Space
	Keep              bool // stays on the page of what follows
}

// Space is how far a paragraph stands off what is over it.
type Space uint8

// The spaces.
const (
	Usual Space = iota
	Close       // as lines of one paragraph do
	Apart
)

// Table has a row of heads, which is repeated on each page that it runs over. A
// row whose first cell is empty goes on with the row over it.
type Table struct {
	Columns []Column
	Rows    [][]string
}

// Column is one column of a table. One with Write is left free to write in,
// whatever its rows say.
type Column struct {
	Head   string
	Align  ink.Align
	Weight Weight
	Write  bool
}

// Picture shows a sheet. One too large to stand among words has a page to
// itself, of its own size.
type Picture struct {
	Sheet *ink.Sheet
}

// Room is so many ruled lines to write on, with a word before the first.
type Room struct {
	Label string
	Lines int
}

// Options is what stands on every page, and the paper.
type Options struct {
	Job   string
	Date  string // as it is to be printed
	Paper ink.Paper
	View  unit.View // in which units amounts are shown
}

// Pages lays chapters out. Every page has the name of the job, the date and its
// number of how many at its foot.
func Pages(chapters []Chapter, o Options) []*ink.Sheet {
	b := &book{options: o}
	b.turn()
	for i := range chapters {
		b.chapter(&chapters[i])
	}
	b.close()
	b.number()
	return b.pages
}
