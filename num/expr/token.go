package expr

import "unicode/utf8"

// tokenKind is what sort of mark a token is.
type tokenKind uint8

const (
	endToken tokenKind = iota
	numberToken
	nameToken
	signToken
	wrongToken // a character that has no place in a formula
)

// token is one mark of a formula: text[start:end].
type token struct {
	kind       tokenKind
	start, end int
	text       string
}

// tokens cuts text into its marks; the last is an endToken.
func tokens(text string) []token {
	var list []token
	for at := 0; at < len(text); {
		if isBlank(text[at]) {
			at++
			continue
		}
		kind, size := next(text[at:])
		list = append(list, token{kind, at, at + size, text[at : at+size]})
		at += size
	}
	return append(list, token{kind: endToken, start: len(text), end: len(text)})
}

// next returns the kind and size of the token that text begins with.
func next(text string) (tokenKind, int) {
	switch c := text[0]; {
	case isLetter(c):
		return nameToken, nameSize(text)
	case isDigit(c), c == '.' && digitAt(text, 1):
		return numberToken, numberSize(text)
	}
	switch text[0] {
	case '+', '-', '*', '/', '^', '(', ')', ',':
		return signToken, 1
	}
	_, size := utf8.DecodeRuneInString(text)
	return wrongToken, size
}

// nameSize returns the size of the name that text begins with: an id, or several
// with a dot between each two.
func nameSize(text string) int {
	at := span(text, 1, isOfName)
	for at+1 < len(text) && text[at] == '.' && isLetter(text[at+1]) {
		at = span(text, at+1, isOfName)
	}
	return at
}

// numberSize returns the size of the decimal that text begins with.
func numberSize(text string) int {
	at := span(text, 0, isDigit)
	if at < len(text) && text[at] == '.' && digitAt(text, at+1) {
		at = span(text, at+1, isDigit)
	}
	if at == len(text) || text[at] != 'e' && text[at] != 'E' {
		return at
	}
	digits := at + 1
	if digits < len(text) && (text[digits] == '+' || text[digits] == '-') {
		digits++
	}
	if !digitAt(text, digits) {
		return at
	}
	return span(text, digits, isDigit)
}

// span returns the end of the run of bytes from at that are all of a kind.
func span(text string, at int, is func(byte) bool) int {
	for at < len(text) && is(text[at]) {
		at++
	}
	return at
}

func digitAt(text string, at int) bool { return at < len(text) && isDigit(text[at]) }

func isDigit(c byte) bool  { return '0' <= c && c <= '9' }
func isLetter(c byte) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }
func isOfName(c byte) bool { return isLetter(c) || isDigit(c) || c == '_' }
func isBlank(c byte) bool  { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }
