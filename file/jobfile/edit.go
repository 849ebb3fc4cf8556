package jobfile

import (
	"slices"
	"strings"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// Put returns the text with the entry in it. Where there is one of this id only
// the keys given change: each has the new value then, whole, or is taken out if
// it holds nothing; keys that are new stand where files usually have them. Else the entry is added at the end of
// its section, which is made if need be. All other bytes stay as they are, line
// ends too; comments are all kept, those inside a value that gives way to one of
// another shape on lines of their own above it.
//
// Texts are written as they were typed, in quotes only where YAML needs them; a
// line end is one line feed however it was typed. What was changed is read back
// before it is returned: where it would not be what was asked for there is an
// error and no text. Whether it makes sense is for Read to say. The error, of
// this and of every other edit, is trade.Faults.
func Put(source []byte, e record.Item) ([]byte, error) {
	return rewrite(source, func(s *sheet) (node, error) {
		return s.root.changed(strings.Split(e.Section, "."), sections, func(n node) (node, error) {
			return n.put(e)
		})
	})
}

// Drop returns the text without an entry. What stands in its lines goes with it:
// comments within it and behind it, and of those on lines of their own directly
// above it the ones that begin with its id and a colon. The section stays, even
// if nothing is left in it.
func Drop(source []byte, section, id string) ([]byte, error) {
	return rewriteLess(source, id, func(s *sheet) (node, error) {
		return s.root.changed(strings.Split(section, "."), sections, func(n node) (node, error) {
			i := n.entry(id)
			if i < 0 {
				return n, refusal("%s: there is no entry %s", section, quote(id))
			}
			n = n.less(i)
			if n.count() == 0 && !s.inBrackets(n) {
				n = node{pos: n.pos}
			}
			return n, nil
		})
	})
}

// SetHead returns the text with these keys set: job and units, and within a
// mapping by their way, machine.built or part.material. One that holds nothing is
// taken out; a mapping whose last key is taken out goes with it.
func SetHead(source []byte, fields ...record.Field) ([]byte, error) {
	return rewrite(source, func(s *sheet) (root node, err error) {
		root = s.root
		for _, f := range fields {
			way := strings.Split(f.Key, ".")
			last := len(way) - 1
			f.Key = way[last]
			root, err = root.changed(way[:last], sections, func(n node) (node, error) {
				if last == 0 {
					return n.set(f, sections)
				}
				return n.set(f, keyOrder[strings.Join(way[:last], ".")])
			})
			if err != nil {
				return node{}, err
			}
			if holdsNothing(f) {
				root = root.pruned(way[:last])
			}
		}
		return root, nil
	})
}

// keyOrder is the order of keys within entries, and within the part.
var keyOrder = map[string][]string{
	"machine":    {"what", "built", "country"},
	"kit":        kitKeys,
	"sizes":      sizeKeys,
	"readings":   readingKeys,
	"part":       partKeys,
	"part.sizes": newSizeKeys,
	"part.mates": mateKeys,
	"joints":     jointKeys,
	"shop":       machineKeys,
	"work":       operationKeys,
	"checks":     append(slices.Clone(readingKeys), checkKeys...),
	"surveys":    surveyKeys,
}

// listed are the sections whose entries are items of a list.
var listed = []string{"readings", "relations", "joints", "work", "checks", "surveys"}

// put returns the section n with an entry in it.
func (n node) put(e record.Item) (node, error) {
	order := keyOrder[e.Section]
	i := n.entry(e.ID)
	if i >= 0 {
		value, err := n.valueOf(i).fill(e, order)
		return n.replaced(i, value), err
	}
	inList := n.shape == list || n.shape == empty && slices.Contains(listed, e.Section)
	switch {
	case n.shape == scalar:
		return n, refusal("%s: found %s where entries should be", e.Section, n.found())
	case !inList && e.ID == "":
		return n, refusal("%s: an entry needs an id", e.Section)
	case inList && e.ID != "":
		e.Fields = append([]record.Field{{Key: "id", Text: e.ID}}, e.Fields...)
	}
	value, err := node{shape: mapping}.fill(e, nil)
	if err != nil {
		return n, err
	}
	if inList {
		n.shape, n.items = list, append(slices.Clone(n.items), value)
		return n, nil
	}
	key, err := writtenKey(e.ID)
	return n.with(key, value, nil), err
}

// fill returns an entry with fields set in it, all else as it was.
func (n node) fill(e record.Item, order []string) (node, error) {
	if len(e.Fields) == 1 && e.Fields[0].Key == "" {
		return nodeOf(e.Fields[0])
	}
	if n.shape == empty {
		n = node{shape: mapping, pos: n.pos}
	}
	if n.shape != mapping {
		return n, refusal("%s %s: found %s where a mapping {key: value} should be", e.Section, quote(e.ID), n.found())
	}
	var err error
	for _, f := range e.Fields {
		if n, err = n.set(f, order); err != nil {
			return n, err
		}
	}
	return n, nil
}

// set returns a mapping with one field set, or without it if it holds nothing.
func (n node) set(f record.Field, order []string) (node, error) {
	key, err := writtenKey(f.Key)
	if err != nil {
		return n, err
	}
	if holdsNothing(f) {
		if i := n.index(f.Key); i >= 0 {
			n = n.less(i)
		}
		return n, nil
	}
	value, err := nodeOf(f)
	return n.with(key, value, order), err
}

func holdsNothing(f record.Field) bool {
	return f.Text == "" && f.List == nil && f.Map == nil && f.Items == nil
}

// nodeOf returns what a field holds.
func nodeOf(f record.Field) (node, error) {
	switch {
	case f.Map != nil:
		return fieldMap(f.Map)
	case f.Items != nil:
		return fieldList(f.Items)
	case f.List != nil:
		var items []record.Field
		for _, text := range f.List {
			items = append(items, record.Field{Text: text})
		}
		return fieldList(items)
	}
	return written(f.Text)
}

func fieldMap(fields []record.Field) (node, error) {
	n := node{shape: mapping}
	var err error
	for _, f := range fields {
		if n, err = n.set(f, nil); err != nil {
			return n, err
		}
	}
	return n, nil
}

func fieldList(fields []record.Field) (node, error) {
	n := node{shape: list}
	for _, f := range fields {
		item, err := nodeOf(f)
		if err != nil {
			return n, err
		}
		n.items = append(n.items, item)
	}
	return n, nil
}

// written returns a text that was typed, if it can be written.
func written(text string) (node, error) {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	if !utf8.ValidString(text) {
		return node{}, refusal("%s is no text in UTF-8", quote(text))
	}
	if hasControl(text) {
		return node{}, refusal("%s has a control character", quote(text))
	}
	return node{shape: scalar, text: text}, nil
}

// writtenKey returns a text that is to stand before a colon.
func writtenKey(text string) (node, error) {
	if text == "" || strings.ContainsAny(text, "\r\n") {
		return node{}, refusal("%s is no key: a key stands in one line", quote(text))
	}
	return written(text)
}

// refusal returns the one fault of an edit that cannot be made.
func refusal(format string, args ...any) error {
	var f trade.Faults
	f.Add(trade.Pos{}, format, args...)
	return f
}
