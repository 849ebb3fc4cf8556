package jobedit

import (
	"slices"
	"strings"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// sheet is the text of a job file as it was written, with its tree, and the
// changes to be made in it. Places are bytes of the text, from 0.
type sheet struct {
	text     string
	begins   []int  // of each line
	newline  string // how lines end in this file
	root     yamltree.Node
	comments []int  // where each begins
	less     bool   // comments go with what is taken out,
	gone     string // the entry of this id
	edits    []edit
}

// edit puts a text in the place of those bytes.
type edit struct {
	from, to int
	text     string
}

// newSheet reads a file to be changed.
func newSheet(source []byte) (*sheet, error) {
	plain, err := yamltree.Plain(source)
	if err != nil {
		return nil, err
	}
	root, comments, err := yamltree.ParseNoted(plain)
	if err != nil {
		return nil, err
	}
	s := &sheet{text: string(source), root: root, newline: "\n"}
	s.findLines()
	for _, pos := range comments {
		s.comments = append(s.comments, s.place(pos))
	}
	if root.Shape != yamltree.Mapping && root.Shape != yamltree.Empty {
		return nil, refusal("the file: found %s where a mapping {key: value} should be", root.Found())
	}
	return s, nil
}

// findLines finds where lines begin, and how the first of them ends.
func (s *sheet) findLines() {
	at := len(s.text) - len(strings.TrimPrefix(s.text, yamltree.ByteOrderMark))
	s.begins = []int{at}
	for at = s.lineEnd(at); at < len(s.text); at = s.lineEnd(at) {
		end := s.nextLine(at)
		if len(s.begins) == 1 {
			s.newline = s.text[at:end]
		}
		s.begins = append(s.begins, end)
		at = end
	}
}

// place returns where in the text a line and column are.
func (s *sheet) place(pos trade.Pos) int {
	at := s.begins[min(max(pos.Line, 1), len(s.begins))-1]
	for column := 1; column < pos.Column && at < len(s.text); column++ {
		_, size := utf8.DecodeRuneInString(s.text[at:])
		at += size
	}
	return at
}

// lineEnd returns where the line ends that a place is in, before its line end.
func (s *sheet) lineEnd(at int) int {
	if n := strings.IndexAny(s.text[at:], "\r\n"); n >= 0 {
		return at + n
	}
	return len(s.text)
}

// nextLine returns where the next line begins, the end of the text in the last.
func (s *sheet) nextLine(at int) int {
	at = s.lineEnd(at)
	switch {
	case strings.HasPrefix(s.text[at:], "\r\n"):
		return at + 2
	case at < len(s.text):
		return at + 1
	}
	return at
}

// lineBefore returns where the line before that of a place ends.
func (s *sheet) lineBefore(at int) int { return s.lineEnd(s.lineStart(max(s.lineStart(at)-1, 0))) }

// lineStart returns where the line begins that a place is in.
func (s *sheet) lineStart(at int) int {
	i, found := slices.BinarySearch(s.begins, at)
	if found {
		return at
	}
	return s.begins[max(i-1, 0)]
}

// startsLine reports whether only blanks stand before a place in its line.
func (s *sheet) startsLine(at int) bool { return s.indentOf(at) == s.text[s.lineStart(at):at] }

// isBlank reports whether nothing stands in the line of a place.
func (s *sheet) isBlank(at int) bool {
	return strings.TrimSpace(s.text[s.lineStart(at):s.lineEnd(at)]) == ""
}

// indentOf returns the blanks that the line of a place begins with.
func (s *sheet) indentOf(at int) string {
	line := s.text[s.lineStart(at):s.lineEnd(at)]
	return line[:len(line)-len(strings.TrimLeft(line, " "))]
}

// begin returns where a node begins.
func (s *sheet) begin(n yamltree.Node) int { return s.place(n.Pos) }

// inBrackets reports whether a list or mapping is written in brackets or braces.
func (s *sheet) inBrackets(n yamltree.Node) bool {
	at := s.begin(n)
	return n.Shape != yamltree.Scalar && n.Shape != yamltree.Empty && at < len(s.text) && strings.IndexByte("{[", s.text[at]) >= 0
}

// end returns where a node ends: after its last character.
func (s *sheet) end(n yamltree.Node) int {
	at := s.begin(n)
	switch n.Shape {
	case yamltree.Empty:
		return min(at+1, len(s.text)) // its place is that of the colon or the hyphen
	case yamltree.Scalar:
		return s.textEnd(n, at)
	}
	last := at
	if s.inBrackets(n) {
		last++
	}
	if count := n.Count(); count > 0 {
		last = s.end(n.ValueOf(count - 1))
	}
	if s.inBrackets(n) {
		return min(s.next(last, ",")+1, len(s.text))
	}
	return last
}

// next passes blanks, line ends, comments and some marks.
func (s *sheet) next(at int, marks string) int {
	for at < len(s.text) {
		switch {
		case s.text[at] == '#':
			at = s.lineEnd(at)
		case strings.IndexByte(" \t\r\n"+marks, s.text[at]) >= 0:
			at++
		default:
			return at
		}
	}
	return at
}

// textEnd returns where the text of a scalar ends.
func (s *sheet) textEnd(n yamltree.Node, at int) int {
	switch {
	case n.Inset == yamltree.Elsewhere:
		return s.blockEnd(n, at)
	case n.Inset == 1:
		return s.quoteEnd(at)
	}
	// A text may go on in further lines: its words are looked for one by one.
	const blanks = " \t\r\n"
	for _, c := range n.Text {
		if strings.ContainsRune(blanks, c) {
			continue
		}
		at = len(s.text) - len(strings.TrimLeft(s.text[at:], blanks))
		at = min(at+utf8.RuneLen(c), len(s.text))
	}
	return at
}

// quoteEnd returns where a text in quotes ends.
func (s *sheet) quoteEnd(at int) int {
	quote := s.text[at]
	for at++; at < len(s.text); at++ {
		switch {
		case s.text[at] == '\\' && quote == '"':
			at++
		case s.text[at] != quote:
		case quote == '\'' && strings.HasPrefix(s.text[at+1:], "'"):
			at++
		default:
			return at + 1
		}
	}
	return len(s.text)
}

// blockEnd returns where the last line of a text under | or > ends: those lines
// are indented as the first is, or further.
func (s *sheet) blockEnd(n yamltree.Node, at int) int {
	last := s.lineEnd(at)
	if strings.TrimSpace(n.Text) == "" {
		return last
	}
	indent := ""
	for at = s.nextLine(at); at < len(s.text); at = s.nextLine(at) {
		switch {
		case s.isBlank(at):
			continue
		case indent == "":
			indent = s.indentOf(at)
		}
		if !strings.HasPrefix(s.text[at:], indent) {
			break
		}
		last = s.lineEnd(at)
	}
	return last
}

// hyphen returns where the hyphen before an item of a list stands, each of which is
// in the column of the list.
func (s *sheet) hyphen(of, item yamltree.Node) int {
	for line := item.Pos.Line; line > of.Pos.Line; line-- {
		at := s.place(trade.Pos{Line: line, Column: of.Pos.Column})
		if at < len(s.text) && s.text[at] == '-' && s.startsLine(at) {
			return at
		}
	}
	return s.begin(of)
}

// commentsIn returns the comments that begin between two places.
func (s *sheet) commentsIn(from, to int) []string {
	first, _ := slices.BinarySearch(s.comments, from)
	var found []string
	for _, at := range s.comments[first:] {
		if at >= to {
			break
		}
		found = append(found, strings.TrimRight(s.text[at:s.lineEnd(at)], " \t"))
	}
	return found
}
