package jobedit

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
)

// rewrite returns the text with the least changes that make its tree the one that
// change returns. No comment is lost.
func rewrite(source []byte, change func(*sheet) (yamltree.Node, error)) ([]byte, error) {
	s, err := newSheet(source)
	if err != nil {
		return nil, err
	}
	return s.rewritten(change)
}

// rewriteLess is rewrite in which comments go with the entry that is taken out.
func rewriteLess(source []byte, id string, change func(*sheet) (yamltree.Node, error)) ([]byte, error) {
	s, err := newSheet(source)
	if err != nil {
		return nil, err
	}
	s.less, s.gone = true, id
	return s.rewritten(change)
}

func (s *sheet) rewritten(change func(*sheet) (yamltree.Node, error)) ([]byte, error) {
	want, err := change(s)
	if err != nil {
		return nil, err
	}
	if s.root.Shape == yamltree.Empty && want.Shape == yamltree.Mapping {
		s.begun(want)
	} else {
		s.settle(s.root, want, slot{})
	}
	return s.proved(want)
}

// begun notes the lines of a file that has held nothing but comments.
func (s *sheet) begun(want yamltree.Node) {
	end := len(s.text)
	if s.lineStart(end) != end {
		s.insert(end, "\n")
	}
	for _, p := range want.Pairs {
		s.insert(end, pairText(p, "", true)+"\n")
	}
}

// proved makes the changes and reads the text again: it must say what is wanted,
// and have every comment that it had.
func (s *sheet) proved(want yamltree.Node) ([]byte, error) {
	const spoilt = "this cannot be changed here without harm to what stands around it; change it by hand"
	slices.SortStableFunc(s.edits, func(a, b edit) int {
		if a.from != b.from {
			return a.from - b.from
		}
		return a.to - b.to
	})
	var b strings.Builder
	at := 0
	for _, e := range s.edits {
		if e.from < at {
			return nil, refusal(spoilt)
		}
		b.WriteString(s.text[at:e.from] + e.text)
		at = e.to
	}
	b.WriteString(s.text[at:])
	result := []byte(b.String())
	now, err := newSheet(result)
	if err != nil {
		return nil, err
	}
	if !now.root.Same(want) || !s.less && !now.hasComments(s) {
		return nil, refusal(spoilt)
	}
	return result, nil
}

// hasComments reports whether each comment of another sheet is in this one too.
func (s *sheet) hasComments(of *sheet) bool {
	left := map[string]int{}
	for _, c := range s.commentsIn(0, len(s.text)) {
		left[c]++
	}
	for _, c := range of.commentsIn(0, len(of.text)) {
		if left[c]--; left[c] < 0 {
			return false
		}
	}
	return true
}

func (s *sheet) replace(from, to int, text string) {
	s.edits = append(s.edits, edit{from, to, s.ended(text)})
}

func (s *sheet) insert(at int, text string) { s.replace(at, at, text) }

// ended returns a text with the line ends of the file.
func (s *sheet) ended(text string) string { return strings.ReplaceAll(text, "\n", s.newline) }

// slot is where a value stands: after a colon or hyphen, of a line or lines that are
// indented so far, or within brackets.
type slot struct {
	after     int
	indent    string
	bracketed bool
}

// settle notes the changes that make one node of another.
func (s *sheet) settle(old, want yamltree.Node, at slot) {
	within := s.inBrackets(old)
	switch {
	case old.Same(want):
	case old.Shape == yamltree.Mapping && want.Shape == yamltree.Mapping && s.keeps(old, want):
		if within {
			s.settlePairsBracketed(old, want)
		} else {
			s.settlePairs(old, want)
		}
	case old.Shape == yamltree.List && want.Shape == yamltree.List && want.Count() > 0 && !within:
		s.settleItems(old, want)
	case old.Shape == yamltree.List && want.Shape == yamltree.List && old.Count() > 0 && want.Count() > 0:
		s.settleItemsBracketed(old, want)
	case want.Shape == yamltree.Empty && !within && old.Count() > 0:
		s.cutLines(s.begin(old), s.end(old))
	default:
		s.giveWay(old, want, at)
	}
}

// keeps reports whether a mapping keeps one of its keys, or is in braces and has
// none.
func (s *sheet) keeps(old, want yamltree.Node) bool {
	return old.Count() == 0 || slices.ContainsFunc(old.Pairs, func(p yamltree.Pair) bool { return want.Index(p.Key.Text) >= 0 })
}

// giveWay puts one value whole in the place of another.
func (s *sheet) giveWay(old, want yamltree.Node, at slot) {
	text, after := inline(want, at.bracketed), at.after
	block := !at.bracketed && wantsLines(want)
	if block {
		text = lines(want, at.indent+step)
	}
	switch from, to := s.begin(old), s.end(old); {
	case old.Shape == yamltree.Empty && block:
		s.insert(s.lineEnd(after), text)
	case old.Shape == yamltree.Empty:
		s.insert(after, " "+text)
	case block:
		s.rescue(after, to)
		s.replace(after, to, text)
	case s.lineStart(from) != s.lineStart(after):
		s.rescue(after, to)
		s.replace(after, to, " "+text)
	default:
		s.rescue(from, to)
		s.replace(from, to, text)
	}
}

// cut takes out a piece of the text.
func (s *sheet) cut(from, to int) {
	s.rescue(from, to)
	if from < to {
		s.replace(from, to, "")
	}
}

// rescue puts the comments between two places, which are to be overwritten, on
// lines of their own above the line of the first.
func (s *sheet) rescue(from, to int) {
	if s.less {
		return
	}
	start := s.lineStart(from)
	for _, comment := range s.commentsIn(from, to) {
		s.insert(start, s.indentOf(from)+comment+"\n")
	}
}

// endsBlock reports whether the lines up to an end are the last of their block, or a
// blank line stands behind them.
func (s *sheet) endsBlock(from, end int) bool {
	if end == len(s.text) || s.isBlank(end) {
		return true
	}
	indent := s.indentOf(from)
	isItem := func(at int) bool { return s.text[at+len(indent)] == '-' }
	return s.indentOf(end) != indent || isItem(end) != isItem(s.lineStart(from))
}

// ownComment returns where the comment above a line begins that opens with the id
// of what is taken out and a colon, the line itself if there is none.
func (s *sheet) ownComment(line int) int {
	for at := line; at > s.begins[0]; {
		at = s.lineStart(at - 1)
		begin := at + len(s.indentOf(at))
		if _, isComment := slices.BinarySearch(s.comments, begin); !isComment {
			break
		}
		if strings.HasPrefix(strings.TrimLeft(s.text[begin:], "# "), s.gone+":") {
			return at
		}
	}
	return line
}

// cutLines takes out the lines from that of one place to that of another. At the
// end of a file whose last line has no end the line end before goes.
func (s *sheet) cutLines(from, to int) {
	start, end := s.lineStart(from), s.nextLine(to)
	if s.less {
		start = s.ownComment(start)
		if start > s.begins[0] && s.isBlank(s.lineBefore(start)) && s.endsBlock(from, end) {
			start = s.lineStart(s.lineBefore(start))
		}
	}
	s.rescue(start, end)
	if end == s.lineEnd(to) && start > s.begins[0] {
		start = s.lineBefore(start)
	}
	s.replace(start, end, "")
}
