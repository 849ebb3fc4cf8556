package yamltree

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// MaxSize is the most bytes a job file may have: 1 MB.
const MaxSize = 1 << 20

// What else a file may hold at most. The lexer of the YAML library takes time with
// the square of a run of < and of the blank lines under a block of text, and
// memory for every mark, so these are counted before it sees the text.
const (
	mostMarks      = 300_000
	mostBlankLines = 40
	mostArrows     = 40
)

// marks are the characters that can make a token of their own.
const marks = ",:[]{}@`|>?&*!%"

// ByteOrderMark may stand before a text.
const ByteOrderMark = "\ufeff"

// Plain returns the file as lines that end in a line feed, without a
// byte-order mark. A tab between words counts as one blank.
func Plain(data []byte) (string, error) {
	var f Faults
	start := trade.Pos{Line: 1, Column: 1}
	if len(data) > MaxSize {
		f.Add(start, "the file has %d bytes; at most %d (1 MB) are read", len(data), MaxSize)
		return "", f.Err()
	}
	text := strings.TrimPrefix(string(data), ByteOrderMark)
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	g := guard{pos: start, blank: true}
	for at, c := range text {
		if fault := g.next(c, c == utf8.RuneError && !strings.HasPrefix(text[at:], "\ufffd")); fault != "" {
			f.Add(g.pos, "%s", fault)
			return "", f.Err()
		}
	}
	return strings.ReplaceAll(text, "\t", " "), nil
}

// guard counts what the limits are about, character by character.
type guard struct {
	pos        trade.Pos // of the next character
	blank      bool      // nothing but blanks in this line so far
	blankLines int
	arrows     int
	marks      int
}

// next takes the next character and returns what is wrong with it, in words.
func (g *guard) next(c rune, broken bool) string {
	switch {
	case broken:
		return "this byte is no text; write the file in UTF-8"
	case c == '\t' && g.blank:
		return "a tab at the beginning of a line; indent with blanks"
	case c != '\t' && c != '\n' && unicode.IsControl(c):
		return "a control character; a job file is plain text"
	}
	g.count(c)
	switch {
	case g.blankLines > mostBlankLines:
		return fmt.Sprintf("more than %d blank lines on end", mostBlankLines)
	case g.arrows > mostArrows:
		return fmt.Sprintf("more than %d < on end", mostArrows)
	case g.marks > mostMarks:
		return fmt.Sprintf("more than %d brackets, commas, colons and the like", mostMarks)
	}
	g.advance(c)
	return ""
}

func (g *guard) count(c rune) {
	if c != '<' {
		g.arrows = -1
	}
	g.arrows++
	switch {
	case c == '\n' && g.blank:
		g.blankLines++
	case c != '\n' && c != ' ' && c != '\t':
		g.blankLines = 0
	}
	if strings.ContainsRune(marks, c) {
		g.marks++
	}
}

func (g *guard) advance(c rune) {
	if c == '\n' {
		g.pos = trade.Pos{Line: g.pos.Line + 1, Column: 1}
		g.blank = true
		return
	}
	g.pos.Column++
	g.blank = g.blank && c == ' '
}

// HasControl reports whether a text has a control character that is no line end.
func HasControl(text string) bool {
	return strings.ContainsFunc(strings.ReplaceAll(text, "\n", ""), unicode.IsControl)
}
