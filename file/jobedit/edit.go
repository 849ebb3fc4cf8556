// Package jobedit changes the text of a job file as a person would: one entry, one
// value, one section, with all other bytes and every comment as they were. Each
// change is a change of the tree first, and what was written is read back before it
// is returned. Merge brings the changes of two people together.
package jobedit

import (
	"slices"
	"strings"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/file/yamltree"
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
	return rewrite(source, func(s *sheet) (yamltree.Node, error) {
		return changed(s.root, strings.Split(e.Section, "."), sections, func(n yamltree.Node) (yamltree.Node, error) {
			return put(n, e)
		})
	})
}

// Drop returns the text without an entry. What stands in its lines goes with it:
// comments within it and behind it, and of those on lines of their own directly
// above it the ones that begin with its id and a colon. The section stays, even
// if nothing is left in it.
func Drop(source []byte, section, id string) ([]byte, error) {
	return rewriteLess(source, id, func(s *sheet) (yamltree.Node, error) {
		return changed(s.root, strings.Split(section, "."), sections, func(n yamltree.Node) (yamltree.Node, error) {
			i := n.Entry(id)
			if i < 0 {
				return n, refusal("%s: there is no entry %s", section, yamltree.Quote(id))
			}
			n = n.Without(i)
			if n.Count() == 0 && !s.inBrackets(n) {
				n = yamltree.Node{Pos: n.Pos}
			}
			return n, nil
		})
	})
}

// SetHead returns the text with these keys set: job and units, and within a
// mapping by their way, machine.built or part.material. One that holds nothing is
// taken out; a mapping whose last key is taken out goes with it.
func SetHead(source []byte, fields ...record.Field) ([]byte, error) {
	return rewrite(source, func(s *sheet) (root yamltree.Node, err error) {
		root = s.root
		for _, f := range fields {
			way := strings.Split(f.Key, ".")
			last := len(way) - 1
			f.Key = way[last]
			root, err = changed(root, way[:last], sections, func(n yamltree.Node) (yamltree.Node, error) {
				if last == 0 {
					return set(n, f, sections)
				}
				return set(n, f, keyOrder[strings.Join(way[:last], ".")])
			})
			if err != nil {
				return yamltree.Node{}, err
			}
			if holdsNothing(f) {
				root = root.Pruned(way[:last])
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
func put(n yamltree.Node, e record.Item) (yamltree.Node, error) {
	order := keyOrder[e.Section]
	i := n.Entry(e.ID)
	if i >= 0 {
		value, err := fill(n.ValueOf(i), e, order)
		return n.Replaced(i, value), err
	}
	inList := n.Shape == yamltree.List || n.Shape == yamltree.Empty && slices.Contains(listed, e.Section)
	switch {
	case n.Shape == yamltree.Scalar:
		return n, refusal("%s: found %s where entries should be", e.Section, n.Found())
	case !inList && e.ID == "":
		return n, refusal("%s: an entry needs an id", e.Section)
	case inList && e.ID != "":
		e.Fields = append([]record.Field{{Key: "id", Text: e.ID}}, e.Fields...)
	}
	value, err := fill(yamltree.Node{Shape: yamltree.Mapping}, e, nil)
	if err != nil {
		return n, err
	}
	if inList {
		n.Shape, n.Items = yamltree.List, append(slices.Clone(n.Items), value)
		return n, nil
	}
	key, err := writtenKey(e.ID)
	return n.With(key, value, nil), err
}

// fill returns an entry with fields set in it, all else as it was.
func fill(n yamltree.Node, e record.Item, order []string) (yamltree.Node, error) {
	if len(e.Fields) == 1 && e.Fields[0].Key == "" {
		return nodeOf(e.Fields[0])
	}
	if n.Shape == yamltree.Empty {
		n = yamltree.Node{Shape: yamltree.Mapping, Pos: n.Pos}
	}
	if n.Shape != yamltree.Mapping {
		return n, refusal("%s %s: found %s where a mapping {key: value} should be", e.Section, yamltree.Quote(e.ID), n.Found())
	}
	var err error
	for _, f := range e.Fields {
		if n, err = set(n, f, order); err != nil {
			return n, err
		}
	}
	return n, nil
}

// set returns a mapping with one field set, or without it if it holds nothing.
func set(n yamltree.Node, f record.Field, order []string) (yamltree.Node, error) {
	key, err := writtenKey(f.Key)
	if err != nil {
		return n, err
	}
	if holdsNothing(f) {
		if i := n.Index(f.Key); i >= 0 {
			n = n.Without(i)
		}
		return n, nil
	}
	value, err := nodeOf(f)
	return n.With(key, value, order), err
}

func holdsNothing(f record.Field) bool {
	return f.Text == "" && f.List == nil && f.Map == nil && f.Items == nil
}

// nodeOf returns what a field holds.
func nodeOf(f record.Field) (yamltree.Node, error) {
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

func fieldMap(fields []record.Field) (yamltree.Node, error) {
	n := yamltree.Node{Shape: yamltree.Mapping}
	var err error
	for _, f := range fields {
		if n, err = set(n, f, nil); err != nil {
			return n, err
		}
	}
	return n, nil
}

func fieldList(fields []record.Field) (yamltree.Node, error) {
	n := yamltree.Node{Shape: yamltree.List}
	for _, f := range fields {
		item, err := nodeOf(f)
		if err != nil {
			return n, err
		}
		n.Items = append(n.Items, item)
	}
	return n, nil
}

// changed returns the tree with what stands at the end of a way changed. What is
// missing on the way is made.
func changed(n yamltree.Node, way, order []string, change func(yamltree.Node) (yamltree.Node, error)) (yamltree.Node, error) {
	if len(way) == 0 {
		return change(n)
	}
	if n.Shape != yamltree.Mapping && n.Shape != yamltree.Empty {
		return n, refusal("no %s here: found %s where a mapping {key: value} should be", yamltree.Quote(way[0]), n.Found())
	}
	key, err := writtenKey(way[0])
	if err != nil {
		return n, err
	}
	value, err := changed(n.Under(way[0]), way[1:], keyOrder[way[0]], change)
	if err != nil || n.Index(way[0]) < 0 && value.Shape == yamltree.Empty {
		return n, err
	}
	return n.With(key, value, order), nil
}

// written returns a text that was typed, if it can be written.
func written(text string) (yamltree.Node, error) {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	if !utf8.ValidString(text) {
		return yamltree.Node{}, refusal("%s is no text in UTF-8", yamltree.Quote(text))
	}
	if yamltree.HasControl(text) {
		return yamltree.Node{}, refusal("%s has a control character", yamltree.Quote(text))
	}
	return yamltree.Node{Shape: yamltree.Scalar, Text: text}, nil
}

// writtenKey returns a text that is to stand before a colon.
func writtenKey(text string) (yamltree.Node, error) {
	if text == "" || strings.ContainsAny(text, "\r\n") {
		return yamltree.Node{}, refusal("%s is no key: a key stands in one line", yamltree.Quote(text))
	}
	return written(text)
}

// refusal returns the one fault of an edit that cannot be made.
func refusal(format string, args ...any) error {
	var f trade.Faults
	f.Add(trade.Pos{}, format, args...)
	return f
}
