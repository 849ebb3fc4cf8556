package yamltree

import (
	"github.com/goccy/go-yaml/token"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// isScalar reports whether the token is a text of one line or in quotes.
func isScalar(t *token.Token) bool {
	if t == nil {
		return false
	}
	switch t.Type {
	case token.StringType, token.SingleQuoteType, token.DoubleQuoteType,
		token.NullType, token.BoolType, token.InfinityType, token.NanType,
		token.IntegerType, token.BinaryIntegerType, token.OctetIntegerType,
		token.HexIntegerType, token.FloatType:
		return true
	}
	return false
}

// isQuoted reports whether the token is a text in quotes.
func isQuoted(t *token.Token) bool {
	return t.Type == token.SingleQuoteType || t.Type == token.DoubleQuoteType
}

// atKey reports whether a key and its colon come next.
func (p *parser) atKey() bool {
	colon := p.peek(1)
	return isScalar(p.peek(0)) && colon != nil && colon.Type == token.MappingValueType
}

// scalar reads a text.
func (p *parser) scalar() Node {
	t := p.peek(0)
	switch {
	case isScalar(t):
		p.at++
		return textNode(t)
	case p.is(token.LiteralType), p.is(token.FoldedType):
		return p.blockText()
	case t != nil:
		p.fail(posOf(t), "%s stands where a value should be", found(t))
	}
	return Node{}
}

func textNode(t *token.Token) Node {
	n := Node{Shape: Scalar, Pos: posOf(t), Text: t.Value}
	if isQuoted(t) {
		n.Inset = 1
	}
	return n
}

// blockText reads the text under a | or >.
func (p *parser) blockText() Node {
	n := Node{Shape: Scalar, Pos: posOf(p.peek(0)), Inset: Elsewhere}
	p.at++
	if p.is(token.StringType) {
		n.Text = p.peek(0).Value
		p.at++
	}
	return n
}

// blockMapping reads a mapping of one key a line, all in one column.
func (p *parser) blockMapping() Node {
	first := p.peek(0)
	n := Node{Shape: Mapping, Pos: posOf(first)}
	seen := map[string]trade.Pos{}
	for p.atKey() && p.peek(0).Position.Column == first.Position.Column {
		key, colon := p.peek(0), p.peek(1)
		if key.Position.Line != colon.Position.Line {
			p.fail(posOf(key), "%s: a key stands in one line", Quote(key.Value))
			break
		}
		p.at += 2
		p.add(&n, seen, textNode(key), p.blockValue(key, colon))
	}
	p.lineEnds(first.Position.Column)
	return n
}

// blockValue reads the value after a key, which may be nothing.
func (p *parser) blockValue(key, colon *token.Token) Node {
	t := p.peek(0)
	column := key.Position.Column
	switch {
	case t == nil, t.Type == token.DocumentEndType:
		return Node{Pos: posOf(colon)}
	case t.Position.Line == colon.Position.Line:
		if p.atKey() || t.Type == token.SequenceEntryType {
			p.fail(posOf(t), "%s after %s: put a text that has a colon or begins with - in quotes", found(t), Quote(key.Value))
		}
	case t.Position.Column < column, t.Position.Column == column && t.Type != token.SequenceEntryType:
		return Node{Pos: posOf(colon)}
	}
	return p.value()
}

// blockList reads a list of one item a line, each after a hyphen.
func (p *parser) blockList() Node {
	first := p.peek(0)
	n := Node{Shape: List, Pos: posOf(first)}
	for p.is(token.SequenceEntryType) && p.peek(0).Position.Column == first.Position.Column {
		hyphen := p.peek(0)
		p.at++
		n.Items = append(n.Items, p.item(hyphen))
	}
	p.lineEnds(first.Position.Column)
	return n
}

// item reads what stands after a hyphen, which may be nothing.
func (p *parser) item(hyphen *token.Token) Node {
	t := p.peek(0)
	if t == nil || t.Type == token.DocumentEndType ||
		t.Position.Line != hyphen.Position.Line && t.Position.Column <= hyphen.Position.Column {
		return Node{Pos: posOf(hyphen)}
	}
	return p.value()
}

// lineEnds fails if something is left over that stands right of the column of
// the mapping or list that has just ended.
func (p *parser) lineEnds(column int) {
	if t := p.peek(0); t != nil && t.Position.Column > column {
		p.fail(posOf(t), "%s is out of place; check the indentation", found(t))
	}
}

// add puts a key and its value into a mapping; each key stands there once.
func (p *parser) add(n *Node, seen map[string]trade.Pos, key, value Node) {
	if at, twice := seen[key.Text]; twice {
		p.faults.Add(key.Pos, "the key %s stands here a second time; the first is at %d:%d", Quote(key.Text), at.Line, at.Column)
	}
	seen[key.Text] = key.Pos
	n.Pairs = append(n.Pairs, Pair{key, value})
}
