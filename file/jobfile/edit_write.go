package jobfile

import (
	"fmt"
	"strings"
)

// inline returns a node as it stands in one line, within brackets or not.
func inline(n node, bracketed bool) string {
	switch n.shape {
	case scalar:
		return textOf(n.text, bracketed)
	case list:
		items := make([]string, len(n.items))
		for i, item := range n.items {
			items[i] = inline(item, true)
		}
		return "[" + strings.Join(items, ", ") + "]"
	case mapping:
		pairs := make([]string, len(n.pairs))
		for i, p := range n.pairs {
			pairs[i] = inlinePair(p, true)
		}
		return "{" + strings.Join(pairs, ", ") + "}"
	}
	return ""
}

func inlinePair(p pair, bracketed bool) string {
	return keyOf(p.key.text) + ": " + inline(p.value, bracketed)
}

// lines returns a node as a block of lines, each indented so far, with a line end
// before each.
func lines(n node, indent string) string {
	var b strings.Builder
	for _, item := range n.items {
		b.WriteString("\n" + indent + "- " + inline(item, false))
	}
	for _, p := range n.pairs {
		b.WriteString("\n" + indent + pairText(p, indent, false))
	}
	return b.String()
}

// entryLines returns an entry as a block of lines with the first of its keys in
// the present line.
func entryLines(n node, indent string) string {
	return strings.TrimPrefix(lines(n, indent), "\n"+indent)
}

// pairText returns a pair in block style, its key indented so far already.
func pairText(p pair, indent string, top bool) string {
	if wantsLines(p.value) || top && p.key.text == "part" && p.value.shape == mapping {
		return keyOf(p.key.text) + ":" + lines(p.value, indent+step)
	}
	return inlinePair(p, false)
}

// step is how far a block of lines is indented.
const step = "  "

// wantsLines reports whether a node reads better with a line for each of its
// entries: where all are mappings.
func wantsLines(n node) bool {
	for i := range n.count() {
		if n.valueOf(i).shape != mapping {
			return false
		}
	}
	return n.count() > 0
}

// keyOf returns a key as it is written.
func keyOf(key string) string { return textOf(key, true) }

// textOf returns a text as it is written: in quotes only where it would not be
// read back as it is.
func textOf(text string, bracketed bool) string {
	switch {
	case isPlain(text, bracketed):
		return text
	case strings.ContainsAny(text, `"\`) && !strings.ContainsAny(text, "'"+escaped):
		return "'" + text + "'"
	}
	return inQuotes(text)
}

// escaped are the characters that end a line somewhere, or are not seen.
const escaped = "\n\u2028\u2029\ufeff"

// inQuotes returns a text in double quotes.
func inQuotes(text string) string {
	var b strings.Builder
	for _, c := range text {
		switch {
		case c == '"' || c == '\\':
			b.WriteString(`\` + string(c))
		case c == '\n':
			b.WriteString(`\n`)
		case strings.ContainsRune(escaped, c):
			fmt.Fprintf(&b, `\u%04x`, c)
		default:
			b.WriteRune(c)
		}
	}
	return `"` + b.String() + `"`
}

// isPlain reports whether a text can stand without quotes. YAML's own rules come
// first, so that other programs read it too; then it is tried.
func isPlain(text string, bracketed bool) bool {
	switch {
	case text == "", strings.TrimSpace(text) != text, strings.ContainsAny(text, escaped),
		strings.ContainsRune("?:,[]{}#&*!|>'\"%@`", rune(text[0])), text[0] == '-' && strings.HasPrefix(text[1:]+" ", " "),
		strings.Contains(text, ": "), strings.Contains(text, " #"), strings.HasSuffix(text, ":"),
		strings.HasPrefix(text, "---"), strings.HasPrefix(text, "..."),
		bracketed && strings.ContainsAny(text, ",[]{}"):
		return false
	}
	word := node{shape: scalar, text: text}
	key := node{shape: scalar, text: "a"}
	try, want := "a: "+text+"\n", word
	if bracketed {
		try = "a: {a: " + text + ", b: [" + text + ", " + text + "]}\n"
		want = node{shape: mapping, pairs: []pair{{key, word}, {node{text: "b"}, node{shape: list, items: []node{word, word}}}}}
	}
	got, comments, err := parseNoted(try)
	return err == nil && len(comments) == 0 && got.same(node{shape: mapping, pairs: []pair{{key, want}}})
}
