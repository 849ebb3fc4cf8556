package jobfile

import (
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// fields is one mapping of the file, read by the description of it. What is read
// from a key that is absent or wrong is the zero value. A key that is asked for
// and stands in no description is a bug of ours.
type fields struct {
	r      *values
	entry  *keys.Entry
	known  []keys.Key // those that may stand in it as it is written
	what   string     // what the mapping describes, for faults
	pos    trade.Pos
	keys   map[string]yamltree.Node
	values map[string]yamltree.Node
	ready  map[string]any // what could be read by the description alone
}

// fields returns the mapping n as an entry describes it, with a fault for each key
// that is not known, is missing or has no place beside the others.
func (r *values) fields(n yamltree.Node, what string, entry *keys.Entry) fields {
	f := fields{r: r, entry: entry, what: what, pos: n.Pos}
	if n.Shape != yamltree.Mapping {
		r.fault(n, "%s: found %s where a mapping {key: value} should be", what, n.Found())
		return f
	}
	f.keys, f.values, f.ready = map[string]yamltree.Node{}, map[string]yamltree.Node{}, map[string]any{}
	var cases []keys.Case
	f.known, cases = entry.In(func(key string) string { return textUnder(n, key) })
	for _, p := range n.Pairs {
		at := slices.IndexFunc(f.known, func(k keys.Key) bool { return k.Name == p.Key.Text })
		if at < 0 {
			r.unknown(p.Key, what, "key", keys.NamesOf(f.known))
			continue
		}
		f.keys[p.Key.Text], f.values[p.Key.Text] = p.Key, p.Value
		if value := r.value(f.known[at].Holds, p.Value, f.about(p.Key.Text)); value != nil {
			f.ready[p.Key.Text] = value
		}
	}
	f.keepRules(cases)
	return f
}

// keepRules faults what is missing, and what has no place beside the others.
func (f fields) keepRules(cases []keys.Case) {
	for _, k := range f.known {
		if k.Required {
			f.need(k.Name)
		}
	}
	for _, one := range f.entry.OneOf {
		f.oneOf(one...)
	}
	for _, pair := range f.entry.Exclusive {
		f.exclusive(pair[0], pair[1])
	}
	for _, c := range cases {
		f.need(c.Needs...)
		for _, refusal := range c.Refuses {
			f.refuse(refusal.Why, refusal.Keys...)
		}
	}
	for _, rule := range f.entry.Rules {
		if len(rule.With) > 0 && !f.hasAny(rule.With) || len(rule.Without) > 0 && f.hasAny(rule.Without) {
			continue
		}
		f.keep(rule)
	}
}

// keep faults what breaks a rule.
func (f fields) keep(rule keys.Rule) {
	switch {
	case rule.Lacks != "":
		f.r.faults.Add(f.pos, "%s%s", f.what, rule.Lacks)
	case rule.Hint != "" && !f.has(rule.Needs[0]):
		f.r.fault(f.keys[rule.With[0]], "%s: %q is missing: %s", f.what, rule.Needs[0], rule.Hint)
	case rule.Hint == "":
		f.need(rule.Needs...)
	}
	f.refuse(rule.Why, rule.Refuses...)
	if len(rule.OneOf) > 0 {
		f.oneOf(rule.OneOf...)
	}
}

// holds returns what stands under a key by the description, and notes that it is
// read. Where the key has no place in this case, nothing is known of it.
func (f fields) holds(key string) keys.Holds {
	described, there := f.entry.Key(key)
	if !there {
		panic("jobfile: a key is read that the description does not have: " + f.entry.Each + ": " + key)
	}
	if f.r.asked != nil && f.has(key) {
		f.r.asked(f.entry, key)
	}
	for _, k := range f.known {
		if k.Name == key {
			return k.Holds
		}
	}
	return described.Holds
}

// below returns the description of the mapping under a key, or of each in the list
// or map there.
func (f fields) below(key string) *keys.Entry {
	holds := f.holds(key)
	if holds.Item != nil {
		holds = *holds.Item
	}
	return holds.Mapping()
}

// inner returns the mapping under a key.
func (f fields) inner(key string) fields { return f.item(key, f.at(key), f.about(key)) }

// item returns one mapping of a list or map under a key.
func (f fields) item(key string, n yamltree.Node, what string) fields {
	return f.r.fields(n, what, f.below(key))
}

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
func (f fields) at(key string) yamltree.Node {
	f.holds(key)
	return f.values[key]
}

// need adds a fault for each key that is not there.
func (f fields) need(keys ...string) {
	for _, key := range keys {
		if !f.has(key) && !f.absent() {
			f.r.faults.Add(f.pos, "%s: %q is missing", f.what, key)
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

// oneOf adds a fault where not just one of the keys is there.
func (f fields) oneOf(keys ...string) {
	if !f.absent() && !f.hasAny(keys) {
		f.r.faults.Add(f.pos, "%s: one of %s is missing", f.what, strings.Join(keys, ", "))
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
}

// which returns the first of the keys that is there.
func (f fields) which(keys ...string) string {
	for _, key := range keys {
		f.holds(key)
		if f.has(key) {
			return key
		}
	}
	return ""
}

// about names a value for a fault.
func (f fields) about(key string) string { return key + " in " + f.what }

// got returns what the description alone could read under a key, the zero value
// where there is nothing or it is wrong. To ask for another sort of value than is
// described is a bug of ours.
func got[T any](f fields, key string) T {
	f.holds(key)
	value, is := f.ready[key].(T)
	if _, there := f.ready[key]; there && !is {
		panic("jobfile: a key is read as something else than is described: " + f.entry.Each + ": " + key)
	}
	return value
}

// text returns the text, word or id under the key, empty if there is none.
func (f fields) text(key string) string { return got[string](f, key) }

// whole returns the whole number under the key; 0 if there is none.
func (f fields) whole(key string) int { return got[int](f, key) }

// yes returns whether the key says yes.
func (f fields) yes(key string) bool { return got[bool](f, key) }

// quantity returns the quantity under the key, not given if there is none.
func (f fields) quantity(key string) unit.Quantity { return got[unit.Quantity](f, key) }

// number returns the plain number under the key; 0 if there is none.
func (f fields) number(key string) float64 {
	q := f.quantity(key)
	if !q.Given() {
		return 0
	}
	return q.Inside()
}

// span returns the range under the key, not given if there is none.
func (f fields) span(key string) unit.Range { return got[unit.Range](f, key) }

// measure returns a length or angle of a shape, not given if there is none.
func (f fields) measure(key string) trade.Measure { return got[trade.Measure](f, key) }

// place returns the two lengths [x, y] of a shape.
func (f fields) place(key string) (x, y trade.Measure) {
	at := got[[2]trade.Measure](f, key)
	return at[0], at[1]
}

// pair returns the two values [x, y] under the key.
func (f fields) pair(key string) [2]unit.Quantity { return got[[2]unit.Quantity](f, key) }

// quantityIn returns a quantity whose dimension another key says.
func (f fields) quantityIn(key string, read quantityReader) unit.Quantity {
	return f.quantityWithin(key, read, limitOf[f.holds(key).Sign])
}

// quantityWithin returns the same of one that must keep another limit.
func (f fields) quantityWithin(key string, read quantityReader, l limit) unit.Quantity {
	f.holds(key)
	if !f.has(key) {
		return unit.Quantity{}
	}
	return f.r.quantity(f.at(key), f.about(key), read, l)
}

// text returns the text of a node, which must be one value and not empty. A
// text in double quotes could spell characters that a terminal obeys.
func (r *values) text(n yamltree.Node, about string) string {
	switch {
	case n.Shape != yamltree.Scalar || strings.TrimSpace(n.Text) == "":
		r.fault(n, "%s: found %s where a text should be", about, n.Found())
	case yamltree.HasControl(n.Text):
		r.fault(n, "%s: %s has a control character", about, yamltree.Quote(n.Text))
	default:
		return n.Text
	}
	return ""
}

// among returns the text under the key, which must be one of some.
func (f fields) among(key string, words []string) string {
	text := f.text(key)
	if text == "" || slices.Contains(words, text) {
		return text
	}
	f.r.unknown(f.at(key), f.what, key, words)
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

// whole reads a whole number from least to most.
func (r *values) whole(n yamltree.Node, about string, least, most int) int {
	text := r.text(n, about)
	if text == "" {
		return 0
	}
	number, err := strconv.Atoi(text)
	if err != nil || number < least || number > most {
		r.fault(n, "%s: found %s where a whole number from %d to %d should be", about, yamltree.Quote(text), least, most)
		return 0
	}
	return number
}

// entries returns the named entries of a section, a mapping of id to what it
// describes. A section may be empty.
func (f fields) entries(section string) []yamltree.Pair {
	f.holds(section)
	if !f.has(section) {
		return nil
	}
	n := f.at(section)
	if n.Shape != yamltree.Mapping && n.Shape != yamltree.Empty {
		f.r.fault(n, "%s: found %s where a mapping of ids should be", section, n.Found())
	}
	return n.Pairs
}

// list returns the items of a section that is a list. It may be empty.
func (f fields) list(section string) []yamltree.Node {
	f.holds(section)
	if !f.has(section) {
		return nil
	}
	n := f.at(section)
	if n.Shape != yamltree.List && n.Shape != yamltree.Empty {
		f.r.fault(n, "%s: found %s where a list should be, one item after each hyphen", section, n.Found())
	}
	return n.Items
}

// describe names the entry of an id for faults.
func describe(what string, id yamltree.Node) string { return what + " " + yamltree.Quote(id.Text) }
