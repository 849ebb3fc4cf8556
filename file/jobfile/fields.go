package jobfile

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/near"
)

// fields is one mapping of the file, of which every key is known. What is read
// from a key that is absent or wrong is the zero value.
type fields struct {
	r      *reader
	what   string // what the mapping describes, for faults
	pos    trade.Pos
	keys   map[string]node
	values map[string]node
}

// fields returns the mapping n, with a fault for each key that is not known.
func (r *reader) fields(n node, what string, known ...string) fields {
	if n.shape != mapping {
		r.fault(n, "%s: found %s where a mapping {key: value} should be", what, n.found())
		return fields{r: r, what: what, pos: n.pos}
	}
	f := fields{r, what, n.pos, map[string]node{}, map[string]node{}}
	for _, p := range n.pairs {
		if !slices.Contains(known, p.key.text) {
			r.unknown(p.key, what, "key", known)
			continue
		}
		f.keys[p.key.text], f.values[p.key.text] = p.key, p.value
	}
	return f
}

// found describes a node for a fault.
func (n node) found() string {
	if n.shape == scalar {
		return quote(n.text)
	}
	return n.shape.String()
}

// mostGuesses is how many unknown words of a file get a guess at what they
// should have been: each is compared with all that there are.
const mostGuesses = 100

// mostListed is how many words a fault lists of which one would be right.
const mostListed = 20

// unknown adds a fault for a word that is none of those known.
func (r *reader) unknown(word node, about, what string, known []string) {
	likely, found := "", false
	if r.guesses() {
		likely, found = near.Word(word.text, known)
	}
	switch {
	case found:
		r.fault(word, "%s: unknown %s %s; did you mean %s?", about, what, quote(word.text), quote(likely))
	case len(known) > 0 && len(known) <= mostListed:
		r.fault(word, "%s: unknown %s %s; it can be %s", about, what, quote(word.text), strings.Join(known, ", "))
	default:
		r.fault(word, "%s: unknown %s %s", about, what, quote(word.text))
	}
}

// guesses reports whether a guess at what a word should have been is still made.
func (r *reader) guesses() bool { return len(r.faults.list) < mostGuesses }

// absent reports whether there is no mapping at all.
func (f fields) absent() bool { return f.values == nil }

// has reports whether the key is there.
func (f fields) has(key string) bool {
	_, there := f.values[key]
	return there
}

// hasAny reports whether one of the keys is there.
func (f fields) hasAny(keys []string) bool { return slices.ContainsFunc(keys, f.has) }

// at returns what is written under the key.
func (f fields) at(key string) node { return f.values[key] }

// need adds a fault for each key that is not there.
func (f fields) need(keys ...string) {
	for _, key := range keys {
		if !f.has(key) && !f.absent() {
			f.r.faults.add(f.pos, "%s: %q is missing", f.what, key)
		}
	}
}

// refuse adds a fault for each of these keys that is there.
func (f fields) refuse(why string, keys ...string) {
	for _, key := range keys {
		if f.has(key) {
			f.r.fault(f.keys[key], "%s: %q does not belong here: %s", f.what, key, why)
		}
	}
}

// exclusive adds a fault if both keys are there.
func (f fields) exclusive(key, other string) {
	if f.has(key) && f.has(other) {
		f.r.fault(f.keys[other], "%s: %q and %q exclude each other", f.what, key, other)
	}
}

// oneOf returns which of the keys is there: just one of them must be.
func (f fields) oneOf(keys ...string) string {
	if !f.absent() && !f.hasAny(keys) {
		f.r.faults.add(f.pos, "%s: one of %s is missing", f.what, strings.Join(keys, ", "))
	}
	found := ""
	for _, key := range keys {
		switch {
		case !f.has(key):
		case found == "":
			found = key
		default:
			f.exclusive(found, key)
		}
	}
	return found
}

// about names a value for a fault.
func (f fields) about(key string) string { return key + " in " + f.what }

// text returns the text under the key, empty if there is none.
func (f fields) text(key string) string {
	if !f.has(key) {
		return ""
	}
	return f.r.text(f.at(key), f.about(key))
}

// text returns the text of a node, which must be one value and not empty. A
// text in double quotes could spell characters that a terminal obeys.
func (r *reader) text(n node, about string) string {
	switch {
	case n.shape != scalar || strings.TrimSpace(n.text) == "":
		r.fault(n, "%s: found %s where a text should be", about, n.found())
	case hasControl(n.text):
		r.fault(n, "%s: %s has a control character", about, quote(n.text))
	default:
		return n.text
	}
	return ""
}

// hasControl reports whether a text has a control character that is no line end.
func hasControl(text string) bool {
	return strings.ContainsFunc(strings.ReplaceAll(text, "\n", ""), unicode.IsControl)
}

// word returns the text under the key, which must be one of some.
func (f fields) word(key string, among []string) string {
	text := f.text(key)
	if text == "" || slices.Contains(among, text) {
		return text
	}
	f.r.unknown(f.at(key), f.what, key, among)
	return ""
}

// words returns words of a named type as plain texts.
func words[T ~string](list []T) []string {
	texts := make([]string, len(list))
	for i, w := range list {
		texts[i] = string(w)
	}
	return texts
}

// whole returns the whole number under the key, from least to most; 0 if there
// is none.
func (f fields) whole(key string, least, most int) int {
	if !f.has(key) {
		return 0
	}
	return f.r.whole(f.at(key), f.about(key), least, most)
}

// whole reads a whole number from least to most.
func (r *reader) whole(n node, about string, least, most int) int {
	text := r.text(n, about)
	if text == "" {
		return 0
	}
	number, err := strconv.Atoi(text)
	if err != nil || number < least || number > most {
		r.fault(n, "%s: found %s where a whole number from %d to %d should be", about, quote(text), least, most)
		return 0
	}
	return number
}

// entries returns the named entries of a section, a mapping of id to what it
// describes. A section may be empty.
func (f fields) entries(section string) []pair {
	if !f.has(section) {
		return nil
	}
	n := f.at(section)
	if n.shape != mapping && n.shape != empty {
		f.r.fault(n, "%s: found %s where a mapping of ids should be", section, n.found())
	}
	return n.pairs
}

// list returns the items of a section that is a list. It may be empty.
func (f fields) list(section string) []node {
	if !f.has(section) {
		return nil
	}
	n := f.at(section)
	if n.shape != list && n.shape != empty {
		f.r.fault(n, "%s: found %s where a list should be, one item after each hyphen", section, n.found())
	}
	return n.items
}

// describe names the entry of an id for faults.
func describe(what string, id node) string { return what + " " + quote(id.text) }
