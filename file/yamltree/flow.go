package yamltree

import (
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/token"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// flowMapping reads a mapping in braces.
func (p *parser) flowMapping() Node {
	open := p.peek(0)
	n := Node{Shape: Mapping, Pos: posOf(open)}
	seen := map[string]trade.Pos{}
	p.at++
	for !p.take(token.MappingEndType) {
		if key, value, ok := p.flowPair(open); ok {
			p.add(&n, seen, key, value)
		}
		if !p.separated(open, token.MappingEndType, "}") {
			break
		}
	}
	return n
}

// flowPair reads a key, its colon and its value.
func (p *parser) flowPair(open *token.Token) (key, value Node, ok bool) {
	t, colon := p.peek(0), p.peek(1)
	switch {
	case t == nil:
		p.unclosed(open, "}")
		return Node{}, Node{}, false
	case !isScalar(t):
		p.fail(posOf(t), "%s stands where a key should be", found(t))
		return Node{}, Node{}, false
	case !p.atKey():
		p.fail(posOf(t), "%s has no value: write {key: value}; decimals have a point, a text with a comma goes in quotes", Quote(t.Value))
		return Node{}, Node{}, false
	}
	p.at += 2
	if !isQuoted(t) && p.touches(colon) {
		p.fail(posOf(colon), "a blank is missing after the colon of %s", Quote(t.Value))
	}
	if p.is(token.CollectEntryType) || p.is(token.MappingEndType) {
		return textNode(t), Node{Pos: posOf(colon)}, true
	}
	return textNode(t), p.flowValue(open, "}"), true
}

// flowList reads a list in brackets.
func (p *parser) flowList() Node {
	open := p.peek(0)
	n := Node{Shape: List, Pos: posOf(open)}
	p.at++
	for !p.take(token.SequenceEndType) {
		n.Items = append(n.Items, p.flowValue(open, "]"))
		if !p.separated(open, token.SequenceEndType, "]") {
			break
		}
	}
	return n
}

// flowValue reads one value inside brackets or braces.
func (p *parser) flowValue(open *token.Token, closing string) Node {
	switch {
	case p.peek(0) == nil:
		p.unclosed(open, closing)
		return Node{}
	case p.atKey():
		return p.colonText()
	case p.is(token.LiteralType), p.is(token.FoldedType), p.is(token.SequenceEntryType):
		p.fail(posOf(p.peek(0)), "%s has no meaning inside brackets", found(p.peek(0)))
		return Node{}
	}
	quoted := isQuoted(p.peek(0))
	n := p.value()
	if n.Shape != Scalar || quoted {
		return n
	}
	for p.continues() {
		n.Text += " " + p.peek(0).Value
		p.at++
	}
	if strings.ContainsAny(n.Text, ",[]{}") {
		p.fail(n.Pos, "this text goes on in a line that begins with -; put it in quotes")
	}
	return n
}

// continues reports whether the present token goes on with a text of the line
// before: inside brackets the lexer ends a text where a line begins further
// left than its key, and takes a minus there for the hyphen of a list. (Where the
// line begins further right, a minus makes it take all that follows, commas and
// brackets too, for one text; flowValue finds that.)
func (p *parser) continues() bool {
	t, before := p.peek(0), p.peek(-1)
	if t == nil || isScalar(t) && (isQuoted(t) || p.atKey()) || !isScalar(t) && t.Type != token.SequenceEntryType {
		return false
	}
	return t.Position.Line > before.Position.Line || before.Type == token.SequenceEntryType
}

// colonText reads a text such as 1:20, which the lexer takes for a key and its
// value where it stands in a list within braces.
func (p *parser) colonText() Node {
	t, colon := p.peek(0), p.peek(1)
	n := textNode(t)
	p.at += 2
	value := p.peek(0)
	if isQuoted(t) || endOf(t) != posOf(colon) || !isScalar(value) || isQuoted(value) || !p.touches(colon) {
		p.fail(n.Pos, "%s is followed by a colon: a mapping goes in braces, a text in quotes", Quote(t.Value))
		return n
	}
	p.at++
	n.Text += ":" + value.Value
	return n
}

// touches reports whether the present token stands right after this colon.
func (p *parser) touches(colon *token.Token) bool {
	t := p.peek(0)
	return isScalar(t) && t.Position.Line == colon.Position.Line && t.Position.Column == colon.Position.Column+1
}

// separated passes the comma after an item. It returns false after a fault;
// the closing bracket is left to be taken.
func (p *parser) separated(open *token.Token, end token.Type, closing string) bool {
	t := p.peek(0)
	switch {
	case t == nil:
		p.unclosed(open, closing)
		return false
	case p.take(token.CollectEntryType), t.Type == end:
		return true
	}
	p.fail(posOf(t), "%s stands where a comma or the %s for %d:%d should be", found(t), closing, open.Position.Line, open.Position.Column)
	return false
}

// unclosed ends the parse for want of a closing bracket.
func (p *parser) unclosed(open *token.Token, closing string) {
	p.fail(posOf(open), "this %s has no %s", open.Value, closing)
}

// endOf returns the place after a plain text.
func endOf(t *token.Token) trade.Pos {
	pos := posOf(t)
	pos.Column += utf8.RuneCountInString(t.Value)
	return pos
}
