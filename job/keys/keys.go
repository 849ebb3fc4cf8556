// Package keys describes every key of the job file: where it stands, what it
// holds, within what range, what counts where it is left out, in one plain
// sentence and with an example. The reader takes its checks from here, and so do
// the help, the page docs/job-file.md, the JSON Schema for editors and the
// page's forms: a new key is one entry in one of these tables, and it is then
// known everywhere. What one key asks of another of the same mapping stands here
// too, as a Rule or a Case; what an id means, and whether figures make sense
// together, is for others to say. The room stands below the catalogues, because
// what may be written under `of` are the roles of the methods, and in a survey the keys of
// its kind.
package keys

import (
	"slices"
	"strings"
)

// Entry is one sort of mapping in the file: which keys it may have, and what
// they ask of each other.
type Entry struct {
	Name      string // where it stands: "part.sizes"
	Each      string // what one of them is: "an instrument or a gauge piece"
	Says      string // one plain sentence
	Keys      []Key
	OneOf     [][]string  // of each of these just one must be there
	Exclusive [][2]string // of each pair one at most
	Rules     []Rule
	Cases     []Case
	Example   string // of a section as it stands in a file; of a part of one, with all that is round it
	Also      string // a second example of part of a section, where one cannot show all keys
}

// Key is one key of an entry.
type Key struct {
	Name     string
	Holds    Holds
	Required bool
	Default  string // what counts where it is left out, in words
	Says     string // one plain sentence
	Example  string // what may stand after the colon
}

// Rule is what keys that are written ask of others.
type Rule struct {
	With    []string // it counts where one of these is written, if any are named,
	Without []string // and none of these
	Needs   []string
	OneOf   []string // of these just one must be there
	Refuses []string
	Why     string // that these are refused
	Hint    string // that these are needed: said where the first of With stands
	Lacks   string // what is said if this rule counts, and nothing else will do
}

// Case is what the word under a key asks of the other keys.
type Case struct {
	Key     string
	Words   []string
	Needs   []string
	Refuses []Refusal
	Own     []Key // keys that only this case has, or that hold something else in it
}

// Refusal is keys that have no place, and why.
type Refusal struct {
	Keys []string
	Why  string
}

// Key returns the key with this name, in whatever case it stands; false where
// there is none.
func (e *Entry) Key(name string) (Key, bool) {
	if at := indexOf(e.Keys, name); at >= 0 {
		return e.Keys[at], true
	}
	for i := range e.Cases {
		if own := e.Cases[i].Own; indexOf(own, name) >= 0 {
			return own[indexOf(own, name)], true
		}
	}
	return Key{}, false
}

// indexOf returns the place of the key with this name in a list, -1 if there is
// none.
func indexOf(list []Key, name string) int {
	return slices.IndexFunc(list, func(k Key) bool { return k.Name == name })
}

// All returns the keys of an entry and of all its cases, each name once.
func (e *Entry) All() []Key {
	all := slices.Clone(e.Keys)
	for _, c := range e.Cases {
		for _, own := range c.Own {
			if indexOf(all, own.Name) < 0 {
				all = append(all, own)
			}
		}
	}
	return all
}

// Names returns the names of all keys of an entry, in the order in which they
// are written.
func (e *Entry) Names() []string { return NamesOf(e.All()) }

// NamesOf returns the names of keys.
func NamesOf(list []Key) []string {
	names := make([]string, len(list))
	for i, k := range list {
		names[i] = k.Name
	}
	return names
}

// Is reports whether a word is one of those of a case.
func (c *Case) Is(word string) bool { return slices.Contains(c.Words, word) }

// In returns the keys that may stand in an entry whose keys have these words,
// and the cases that count. Where a word is none that a case knows, the keys of
// all cases on that key may stand and hold anything: the word is fault enough.
func (e *Entry) In(word func(key string) string) (known []Key, counts []Case) {
	known = slices.Clone(e.Keys)
	for _, c := range e.Cases {
		switch at := word(c.Key); {
		case c.Is(at):
			counts = append(counts, c)
			known = with(known, c.Own, true)
		case !slices.ContainsFunc(e.Cases, func(other Case) bool { return other.Key == c.Key && other.Is(at) }):
			known = with(known, c.Own, false)
		}
	}
	return known, counts
}

// with adds keys; those that are there already are replaced, or left.
func with(known, own []Key, replace bool) []Key {
	for _, k := range own {
		if !replace {
			k = Key{Name: k.Name, Holds: anySign(Anything)}
		}
		at := indexOf(known, k.Name)
		switch {
		case at < 0:
			known = append(known, k)
		case replace:
			known[at] = k
		}
	}
	return known
}

// below returns the entries that stand directly in an entry, each once.
func (e *Entry) below() []*Entry {
	var found []*Entry
	keys := slices.Clone(e.Keys)
	for _, c := range e.Cases {
		keys = append(keys, c.Own...)
	}
	for _, k := range keys {
		for _, entry := range k.Holds.entries() {
			if !slices.Contains(found, entry) {
				found = append(found, entry)
			}
		}
	}
	return found
}

// Walk returns the entry and all that stand in it, each once, parents first.
func (e *Entry) Walk() []*Entry {
	found := []*Entry{e}
	for _, inner := range e.below() {
		for _, entry := range inner.Walk() {
			if !slices.Contains(found, entry) {
				found = append(found, entry)
			}
		}
	}
	return found
}

// Find returns the entry of this name within e, nil where there is none.
func (e *Entry) Find(name string) *Entry {
	for _, entry := range e.Walk() {
		if entry.Name == name {
			return entry
		}
	}
	return nil
}

// Described returns the entries that have a name: all but the roles of the
// single methods and pairs.
func (e *Entry) Described() []*Entry {
	return slices.DeleteFunc(e.Walk(), func(entry *Entry) bool { return entry.Name == "" })
}

// isIn reports whether an entry stands in the section of a name.
func (e *Entry) isIn(section string) bool {
	return e.Name == section || strings.HasPrefix(e.Name, section+".")
}

// Within returns the described entries of a section, itself first.
func (e *Entry) Within(section string) []*Entry {
	return slices.DeleteFunc(e.Described(), func(entry *Entry) bool { return !entry.isIn(section) })
}

// Examples returns the jobs that the examples make, by the names of their entries:
// one under the empty name of all sections together, and one of each part of a
// section that has an example of its own.
func (e *Entry) Examples() map[string]string {
	jobs := map[string]string{"": e.Example}
	for _, k := range e.Keys {
		for _, section := range k.Holds.entries() {
			jobs[""] += section.Example
		}
	}
	for _, inner := range e.Described() {
		if strings.Contains(inner.Name, ".") && inner.Example != "" {
			jobs[inner.Name] = inner.Example
		}
		if inner.Also != "" {
			jobs[inner.Name+", also"] = inner.Also
		}
	}
	return jobs
}
