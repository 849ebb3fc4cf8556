// Package manual tells people what may stand in a job file: on the screen, section
// by section, and as the page docs/job-file.md. Every word of it is the
// description's (package keys); this room only puts them in order.
package manual

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Contents returns what sections a file has.
func Contents(file *keys.Entry) *doc.Document {
	d := &doc.Document{Title: doc.Plain("The job file")}
	d.Add(doc.Said("%s It is YAML: a mapping of these sections, in any order.", file.Says))
	d.Add(described(file)...)
	d.Add(
		apart(doc.Plain(writing)),
		apart(doc.Plain("`oddleg help job SECTION` says what may stand in one: "+strings.Join(sections(file), ", ")+
			". `oddleg help job --schema` prints a JSON Schema for an editor.")),
	)
	return d
}

// writing says how values are written.
const writing = "Lengths are written 12.7, 2.35 mm, 7/32 in or 2 9/64 in, and a bare number is in the units of the file; " +
	"angles 60 deg, 1d 29m 27s, or a taper 1:20; pitches 1.5 mm or 14 tpi; ranges 0.05..0.20 mm. " +
	"An id is a letter, then letters, digits and _."

// Section returns what may stand in a section, and in what stands in it; false
// where there is no such section.
func Section(file *keys.Entry, name string) (*doc.Document, bool) {
	entries := file.Within(name)
	if len(entries) == 0 {
		return nil, false
	}
	d := &doc.Document{Title: doc.Plain("The job file: " + name)}
	for _, e := range entries {
		d.Add(doc.Chapter(e.Name+": "+e.Each), doc.Said("%s", e.Says))
		d.Add(described(e)...)
		if e.Example != "" {
			d.Add(apart(doc.Plain("An example:")))
			d.Add(lines(e.Example)...)
			d.Add(lines(e.Also)...)
		}
	}
	return d, true
}

// sections returns the names of the sections that have keys of their own.
func sections(file *keys.Entry) []string {
	var names []string
	for _, e := range file.Described() {
		if !strings.Contains(e.Name, ".") {
			names = append(names, e.Name)
		}
	}
	return names
}

func apart(words doc.Text) doc.Paragraph { return doc.Paragraph{Words: words, Space: doc.Apart} }

// described returns a block for each key: its name, what it is, what it holds, and
// what counts without it.
func described(e *keys.Entry) []doc.Block {
	var blocks []doc.Block
	for _, k := range shown(e) {
		name := doc.In(doc.Strong, doc.Plain(k.Name))
		blocks = append(blocks, doc.Paragraph{Words: doc.Say("%s  %s", name, doc.Plain(k.Says+must(k))), Indent: 1, Space: doc.Apart})
		blocks = append(blocks, doc.Paragraph{Words: doc.Plain(held(k)), Indent: 2})
	}
	for _, rule := range rules(e) {
		blocks = append(blocks, doc.Item(doc.Plain(rule)))
	}
	return blocks
}

// shown returns the keys of an entry: those that only some of its cases have say of
// which.
func shown(e *keys.Entry) []keys.Key {
	list := slices.Clone(e.Keys)
	for _, k := range e.All()[len(e.Keys):] {
		list = append(list, inCases(e, k))
	}
	return list
}

// inCases returns a key that only some cases have, with what it is in each of them,
// and what it may hold in any.
func inCases(e *keys.Entry, k keys.Key) keys.Key {
	var says, held []string
	words := map[string][]string{}
	var holds []keys.Holds
	for _, c := range e.Cases {
		for _, own := range c.Own {
			if own.Name != k.Name {
				continue
			}
			if words[own.Says] == nil {
				says = append(says, own.Says)
			}
			words[own.Says] = append(words[own.Says], c.Words...)
			if !slices.Contains(held, own.Holds.String()) {
				held, holds = append(held, own.Holds.String()), append(holds, own.Holds)
			}
		}
	}
	for i, text := range says {
		says[i] = strings.Join(words[text], ", ") + ": " + strings.TrimSuffix(text, ".")
	}
	k.Says = "With " + e.Cases[0].Key + " " + strings.Join(says, "; with ") + "."
	if len(holds) > 1 {
		k.Holds, k.Default = keys.Holds{Kind: keys.Either, Others: holds}, ""
	}
	return k
}

func must(k keys.Key) string {
	if k.Required {
		return " It must be there."
	}
	return ""
}

// held says what stands under a key.
func held(k keys.Key) string {
	text := k.Holds.String()
	if k.Default != "" {
		text += "; left out: " + k.Default
	}
	if k.Example != "" {
		text += ". Example: " + k.Name + ": " + k.Example
	}
	return text
}

// lines returns a text line by line, as it stands.
func lines(text string) []doc.Block {
	var blocks []doc.Block
	for line := range strings.Lines(text) {
		blocks = append(blocks, doc.Line(1, doc.Plain(strings.TrimSuffix(line, "\n"))))
	}
	return blocks
}

// rules says what the keys of an entry ask of each other.
func rules(e *keys.Entry) []string {
	var list []string
	for _, one := range e.OneOf {
		list = append(list, "Just one of "+strings.Join(one, ", ")+" is written.")
	}
	for _, pair := range e.Exclusive {
		list = append(list, "Either "+pair[0]+" or "+pair[1]+" is written, or neither.")
	}
	for _, rule := range e.Rules {
		list = append(list, ruled(rule)...)
	}
	return append(list, cased(e)...)
}

// ruled says what one rule asks.
func ruled(rule keys.Rule) []string {
	when := condition(rule)
	var list []string
	if len(rule.Needs) > 0 {
		list = append(list, when+", "+strings.Join(rule.Needs, ", ")+" must be there.")
	}
	if len(rule.OneOf) > 0 {
		list = append(list, when+", just one of "+strings.Join(rule.OneOf, ", ")+" is written.")
	}
	if len(rule.Refuses) > 0 {
		list = append(list, when+", there is no "+strings.Join(rule.Refuses, ", ")+": "+rule.Why+".")
	}
	if rule.Lacks != "" {
		list = append(list, "One at least of "+strings.Join(rule.Without, ", ")+" is written.")
	}
	return list
}

// condition says when a rule counts.
func condition(rule keys.Rule) string {
	var when []string
	if len(rule.With) > 0 {
		when = append(when, "with "+strings.Join(rule.With, " or "))
	}
	if len(rule.Without) > 0 {
		when = append(when, "without "+strings.Join(rule.Without, " and "))
	}
	text := strings.Join(when, " and ")
	return strings.ToUpper(text[:1]) + text[1:]
}

// cased says what the words of a key ask; where most words ask the same of the roles
// under another key, the catalogue of methods says it.
func cased(e *keys.Entry) []string {
	var list []string
	for _, c := range e.Cases {
		if len(c.Own) > 0 {
			continue
		}
		when := "With " + c.Key + " " + strings.Join(c.Words, ", ")
		if len(c.Needs) > 0 {
			list = append(list, when+", "+strings.Join(c.Needs, ", ")+" must be there.")
		}
		for _, refusal := range c.Refuses {
			list = append(list, when+", there is no "+strings.Join(refusal.Keys, ", ")+": "+refusal.Why+".")
		}
	}
	return list
}
