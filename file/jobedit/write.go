package jobedit

import (
	"fmt"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
)

// inline returns a node as it stands in one line, within brackets or not.
func inline(n yamltree.Node, bracketed bool) string {
	switch n.Shape {
	case yamltree.Scalar:
		return textOf(n.Text, bracketed)
	case yamltree.List:
		items := make([]string, len(n.Items))
		for i, item := range n.Items {
			items[i] = inline(item, true)
		}
		return "[" + strings.Join(items, ", ") + "]"
	case yamltree.Mapping:
		pairs := make([]string, len(n.Pairs))
		for i, p := range n.Pairs {
			pairs[i] = inlinePair(p, true)
		}
		return "{" + strings.Join(pairs, ", ") + "}"
	}
	return ""
}

func inlinePair(p yamltree.Pair, bracketed bool) string {
	return keyOf(p.Key.Text) + ": " + inline(p.Value, bracketed)
}

// lines returns a node as a block of lines, each indented so far, with a line end
// before each.
func lines(n yamltree.Node, indent string) string {
	var b strings.Builder
	for _, item := range n.Items {
		b.WriteString("\n" + indent + "- " + inline(item, false))
	}
	for _, p := range n.Pairs {
		b.WriteString("\n" + indent + pairText(p, indent, false))
	}
	return b.String()
}

// entryLines returns an entry as a block of lines with the first of its keys in
// the present line.
func entryLines(n yamltree.Node, indent string) string {
	return strings.TrimPrefix(lines(n, indent), "\n"+indent)
}

// pairText returns a pair in block style, its key indented so far already.
func pairText(p yamltree.Pair, indent string, top bool) string {
	if wantsLines(p.Value) || top && p.Key.Text == "part" && p.Value.Shape == yamltree.Mapping {
		return keyOf(p.Key.Text) + ":" + lines(p.Value, indent+step)
	}
	return inlinePair(p, false)
}

// step is how far a block of lines is indented.
const step = "  "

// wantsLines reports whether a node reads better with a line for each of its
// entries: where all are mappings.
func wantsLines(n yamltree.Node) bool {
	for i := range n.Count() {
		if n.ValueOf(i).Shape != yamltree.Mapping {
			return false
		}
	}
	return n.Count() > 0
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
	word := yamltree.Node{Shape: yamltree.Scalar, Text: text}
	key := yamltree.Node{Shape: yamltree.Scalar, Text: "a"}
	try, want := "a: "+text+"\n", word
	if bracketed {
		try = "a: {a: " + text + ", b: [" + text + ", " + text + "]}\n"
		want = yamltree.Node{Shape: yamltree.Mapping, Pairs: []yamltree.Pair{
			{Key: key, Value: word},
			{Key: yamltree.Node{Text: "b"}, Value: yamltree.Node{Shape: yamltree.List, Items: []yamltree.Node{word, word}}},
		}}
	}
	got, comments, err := yamltree.ParseNoted(try)
	return err == nil && len(comments) == 0 && got.Same(yamltree.Node{Shape: yamltree.Mapping, Pairs: []yamltree.Pair{{Key: key, Value: want}}})
}
