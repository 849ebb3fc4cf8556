// Package yamltree makes the tree of a YAML text, in time that grows with its
// length, and writes nothing into it: every scalar is text, with the place where it
// stands, so that 1:20 and NO stay what they look like. Anchors, tags, merge keys and
// second documents are faults. The tree knows no job; who changes one gets another
// (change.go).
//
// Only the lexer of the YAML library is used: its parser calls itself for every
// further key of a mapping.
package yamltree

import (
	"fmt"
	"unicode/utf8"

	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/token"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Shape is what a node of the file is.
type Shape uint8

const (
	Empty Shape = iota // nothing is written where a value should be
	Scalar
	List
	Mapping
)

// String returns the shape as a fault says it.
func (s Shape) String() string {
	return [...]string{"nothing", "one value", "a list", "a mapping {key: value}"}[s]
}

// Node is one value of the file: a text as it was written, a list or a mapping.
type Node struct {
	Shape Shape
	Pos   trade.Pos
	Text  string
	Inset int // how many columns the text begins after pos: 1 in quotes, or elsewhere
	Items []Node
	Pairs []Pair
}

// Elsewhere is the inset of a text that does not begin in the line of its pos.
const Elsewhere = -1

// Within returns the place of a column, from 1, of the text of a node.
func (n Node) Within(column int) trade.Pos {
	pos := n.Pos
	if n.Inset != Elsewhere {
		pos.Column += n.Inset + max(column, 1) - 1
	}
	return pos
}

// Pair is one key of a mapping and its value.
type Pair struct {
	Key, Value Node
}

// mostNesting is how deep lists and mappings may stand in each other.
const mostNesting = 20

// Parse returns the tree of a text that plainText has passed. Every scalar is
// text: nothing is taken for a number, a date or a truth value. The first
// fault of syntax ends the parse; keys given twice are all found.
//
// Only the lexer of the YAML library is used. Its parser calls itself for
// every further key of a mapping and copies them all each time, so a long file
// takes minutes or a gigabyte of stack, which no recover catches.
func Parse(text string) (Node, error) {
	root, _, err := ParseNoted(text)
	return root, err
}

// ParseNoted is parse, and also returns where comments begin.
func ParseNoted(text string) (root Node, comments []trade.Pos, err error) {
	var f Faults
	tokens, comments := tokenize(text, &f)
	if err := f.Err(); err != nil {
		return Node{}, nil, err
	}
	p := parser{tokens: tokens, faults: &f}
	root = p.document()
	return root, comments, f.Err()
}

// tokenize returns the tokens that count and where comments begin, and a fault for each
// token of a sort that a job file does not have.
func tokenize(text string, f *Faults) (kept []*token.Token, comments []trade.Pos) {
	// A fault inside the library must not take the program down with it: what
	// it cannot read is the user's to rewrite.
	defer func() {
		if recover() != nil {
			f.Add(trade.Pos{Line: 1, Column: 1}, "this text cannot be read as YAML")
		}
	}()
	for _, t := range lexer.Tokenize(text) {
		if t.Type == token.CommentType {
			comments = append(comments, posOf(t))
			continue
		}
		if why := refused(t, len(kept) == 0); why != "" {
			f.Add(posOf(t), "%s", why)
		}
		kept = append(kept, t)
	}
	return kept, comments
}

// refused says why a token has no place in a job file, nothing if it has.
func refused(t *token.Token, first bool) string {
	switch t.Type {
	case token.InvalidType:
		return "this is no YAML: " + t.Error
	case token.AnchorType:
		return "a job file has no anchors (&); a text that begins with & goes in quotes"
	case token.AliasType:
		return "a job file has no aliases (*); a text that begins with * goes in quotes"
	case token.TagType:
		return "a job file has no tags (!); a text that begins with ! goes in quotes"
	case token.MergeKeyType:
		return "a job file has no merge keys (<<)"
	case token.DirectiveType:
		return "a job file has no directives (%); a text that begins with % goes in quotes"
	case token.MappingKeyType:
		return "a key is written plainly, without ? before it"
	case token.DocumentHeaderType:
		if !first {
			return "a file holds one job: no second document"
		}
	}
	return ""
}

func posOf(t *token.Token) trade.Pos {
	return trade.Pos{Line: t.Position.Line, Column: t.Position.Column}
}

// parser reads tokens from left to right. After a fault of syntax no token is
// left, so that every loop ends.
type parser struct {
	tokens []*token.Token
	at     int
	depth  int
	failed bool
	faults *Faults
}

// peek returns the token n after the present one, nil at the end.
func (p *parser) peek(n int) *token.Token {
	if p.at+n < len(p.tokens) {
		return p.tokens[p.at+n]
	}
	return nil
}

// is reports whether the present token is of this type.
func (p *parser) is(t token.Type) bool {
	now := p.peek(0)
	return now != nil && now.Type == t
}

// take passes the present token if it is of this type.
func (p *parser) take(t token.Type) bool {
	if !p.is(t) {
		return false
	}
	p.at++
	return true
}

// fail ends the parse; what ends wrongly because of that is no further fault.
func (p *parser) fail(pos trade.Pos, format string, args ...any) {
	if !p.failed {
		p.faults.Add(pos, format, args...)
	}
	p.failed = true
	p.at = len(p.tokens)
}

// document reads the whole file, which is one mapping.
func (p *parser) document() Node {
	p.take(token.DocumentHeaderType)
	var root Node
	if p.peek(0) != nil && !p.is(token.DocumentEndType) {
		root = p.value()
	}
	p.take(token.DocumentEndType)
	if t := p.peek(0); t != nil {
		p.fail(posOf(t), "%s is out of place; check the indentation", found(t))
	}
	return root
}

// value reads what begins at the present token.
func (p *parser) value() Node {
	var read func() Node
	switch {
	case p.is(token.SequenceEntryType):
		read = p.blockList
	case p.atKey():
		read = p.blockMapping
	case p.is(token.MappingStartType):
		read = p.flowMapping
	case p.is(token.SequenceStartType):
		read = p.flowList
	default:
		return p.scalar()
	}
	if p.depth == mostNesting {
		p.fail(posOf(p.peek(0)), "lists and mappings stand more than %d deep in each other", mostNesting)
		return Node{}
	}
	p.depth++
	defer func() { p.depth-- }()
	return read()
}

// found names a token for a fault.
func found(t *token.Token) string {
	if t.Value == "" {
		return fmt.Sprintf("%q", t.Origin)
	}
	return Quote(t.Value)
}

// longestQuoted is how much of the file's text a fault shows, in characters.
const longestQuoted = 40

// Quote returns the text in quotes, cut if it is long.
func Quote(text string) string {
	if utf8.RuneCountInString(text) > longestQuoted {
		text = string([]rune(text)[:longestQuoted]) + "…"
	}
	return fmt.Sprintf("%q", text)
}
