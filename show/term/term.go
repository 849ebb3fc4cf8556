// Package term shows a document on a terminal: lines of letters, a few colours.
//
// Every line begins two blanks in, four for each step to the right after that.
// Paragraphs are broken at 96 columns, what is whole is not. Columns are as wide
// as they need. A form to fill in by hand is nothing for a terminal, and a picture
// is told in words.
package term

import (
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Options says how a document is shown. The zero value is without colours, in
// millimetres.
type Options struct {
	Colour bool
	View   unit.View
}

// textWidth is how wide paragraphs are, in columns.
const textWidth = 96

// Write writes a document.
func Write(w io.Writer, d *doc.Document, o Options) error {
	s := &screen{Options: o}
	if !d.Title.Empty() {
		s.line(0, paint(o.Colour, bold, d.Title.Shown(o.View)))
		s.gap = true
	}
	for _, b := range d.Blocks {
		s.block(b)
	}
	_, err := io.WriteString(w, s.b.String())
	return err
}

// shows reports whether what is meant for some media stands on a terminal.
func shows(w doc.Where) bool { return w == doc.Everywhere || w == doc.Letters }

// screen is a terminal being written on. A gap is an empty line that is due
// before what comes next.
type screen struct {
	Options
	b   strings.Builder
	gap bool
}

// line writes a line so many columns in.
func (s *screen) line(in int, text string) {
	if s.gap {
		s.b.WriteString("\n")
	}
	s.gap = false
	if text != "" {
		s.b.WriteString(strings.Repeat(" ", in) + text)
	}
	s.b.WriteString("\n")
}

// apart leaves a line free before what comes next, but not at the very top.
func (s *screen) apart() { s.gap = s.gap || s.b.Len() > 0 }

func (s *screen) block(b doc.Block) {
	switch b := b.(type) {
	case doc.Heading:
		s.apart()
		s.line(0, paint(s.Colour, bold, b.Words.Shown(s.View)))
	case doc.Paragraph:
		s.paragraph(b)
	case *doc.Table:
		if b.Space == doc.Apart {
			s.apart()
		}
		s.table(b)
	case doc.Picture:
		if !b.Words.Empty() {
			s.wrapped(2, "", b.Words)
		}
	case doc.Form:
	case doc.Caution:
		s.wrapped(2, "", doc.In(doc.Alarm, b.Words))
	default:
		panic("term: a block of an unknown kind")
	}
}

func (s *screen) paragraph(p doc.Paragraph) {
	if !shows(p.Where) {
		return
	}
	if p.Space == doc.Apart {
		s.apart()
	}
	in := 2 + 2*p.Indent
	if p.Whole {
		s.line(in, s.coloured(p.Words, s.View))
		return
	}
	mark := p.Mark
	if mark != "" {
		mark += " "
	}
	s.wrapped(in, mark, p.Words)
}

// wrapped writes words in lines, a mark before the first.
func (s *screen) wrapped(in int, mark string, text doc.Text) {
	line, wide, empty := mark, len(mark), true
	for _, word := range s.words(text) {
		if !empty && in+wide+1+word.wide > textWidth {
			s.line(in, line)
			line, wide, empty = strings.Repeat(" ", len(mark)), len(mark), true
		}
		if !empty {
			line, wide = line+" ", wide+1
		}
		line, wide, empty = line+word.text, wide+word.wide, false
	}
	s.line(in, line)
}

// word is one word as it is written, and how many columns it takes.
type word struct {
	text string
	wide int
}

// words cuts a text where it may be broken. A word of several tones stays one.
func (s *screen) words(t doc.Text) []word {
	var list []word
	joined := false
	for i := range t {
		text := t[i].Shown(s.View)
		if strings.HasPrefix(text, " ") {
			joined = false
		}
		for n, part := range strings.Fields(text) {
			w := word{s.toned(t[i].Tone, part), columns(part)}
			if n == 0 && joined && len(list) > 0 {
				last := &list[len(list)-1]
				last.text, last.wide = last.text+w.text, last.wide+w.wide
				continue
			}
			list = append(list, w)
		}
		if text != "" {
			joined = !strings.HasSuffix(text, " ")
		}
	}
	return list
}
