package jobedit

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
)

// settlePairsBracketed notes the changes of a mapping in braces.
func (s *sheet) settlePairsBracketed(old, want yamltree.Node) {
	row := bracketed{sheet: s, open: s.begin(old)}
	for _, p := range old.Pairs {
		row.spans = append(row.spans, span{s.begin(p.Key), s.end(p.Value)})
	}
	row.cutAll(func(i int) bool { return want.Index(old.Pairs[i].Key.Text) >= 0 })
	last := -1
	for _, p := range want.Pairs {
		if i := old.Index(p.Key.Text); i >= 0 {
			s.settle(old.Pairs[i].Value, p.Value, slot{after: s.afterColon(old.Pairs[i]), bracketed: true})
			last = i
			continue
		}
		row.put(last, inlinePair(p, true))
	}
}

// settleItemsBracketed notes the changes of a list in brackets.
func (s *sheet) settleItemsBracketed(old, want yamltree.Node) {
	row := bracketed{sheet: s, open: s.begin(old)}
	for _, item := range old.Items {
		row.spans = append(row.spans, span{s.begin(item), s.end(item)})
	}
	partner := partners(old.Items, want.Items)
	row.cutAll(func(i int) bool { return slices.Contains(partner, i) })
	last := -1
	for i, item := range want.Items {
		if partner[i] < 0 {
			row.put(last, inline(item, true))
			continue
		}
		last = partner[i]
		s.settle(old.Items[last], item, slot{after: row.spans[last].from, bracketed: true})
	}
}

// span is from the first byte of a thing to behind its last.
type span struct{ from, to int }

// bracketed is what stands in one pair of brackets, with commas between.
type bracketed struct {
	*sheet
	open  int // the bracket
	spans []span
	isCut bool
}

// cutAll takes out what does not stay, each with one comma; one at least stays, if there
// is any. Where a comment stands
// between it and its neighbour the comment and its line end stay.
func (b *bracketed) cutAll(stays func(int) bool) {
	last := len(b.spans) - 1 // that stays
	for last >= 0 && !stays(last) {
		last--
	}
	for i, s := range b.spans {
		switch {
		case stays(i):
			continue
		case i > last:
			b.cutBetween(b.spans[i-1].to, s.from, s.to)
		default:
			b.cut(s.from, b.spans[i+1].from)
		}
		b.isCut = true
	}
}

// cutBetween takes out a thing and the comma before it, which stands somewhere behind
// its neighbour's end.
func (b bracketed) cutBetween(end, from, to int) {
	if len(b.commentsIn(end, from)) == 0 {
		b.cut(end, to)
		return
	}
	comma := b.next(end, "")
	b.cut(comma, comma+1)
	b.cut(b.lineBefore(from), to)
}

// put adds a thing behind that of an index, in front of all where that is -1.
func (b bracketed) put(after int, text string) {
	switch {
	case len(b.spans) == 0:
		b.insert(b.open+1, text)
	case after < 0:
		b.insert(b.spans[0].from, text+", ")
	case !b.isCut && b.inLines():
		b.putLine(b.spans[after].to, text)
	default:
		b.insert(b.spans[after].to, ", "+text)
	}
}

// inLines reports whether each thing but perhaps the first has a line of its own.
func (b bracketed) inLines() bool {
	for i, s := range b.spans {
		if !b.startsLine(s.from) && (i > 0 || len(b.spans) == 1) {
			return false
		}
	}
	return true
}

// putLine adds a thing in a line of its own behind the line that a place is in. A
// comma behind the last of all is kept to.
func (b bracketed) putLine(end int, text string) {
	line := "\n" + strings.Repeat(" ", b.column(b.spans[len(b.spans)-1].from)) + text
	if comma := b.next(end, ""); b.text[comma] == ',' {
		if b.lineStart(comma) == b.lineStart(end) {
			b.insert(b.lineEnd(end), line+",")
		} else {
			b.insert(comma+1, line+",")
		}
		return
	}
	b.insert(end, ",")
	at := b.lineEnd(end)
	if rest := strings.TrimLeft(b.text[end:at], " \t"); rest != "" && rest[0] != '#' {
		at = end // the closing bracket stands in this line
	}
	b.insert(at, line)
}

// column returns how many characters stand before a place in its line.
func (b bracketed) column(at int) int {
	return len([]rune(b.text[b.lineStart(at):at]))
}
