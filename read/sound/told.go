package sound

import (
	"slices"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// told is a value as it would stand under its key.
type told struct {
	key   string
	value any
}

// several stands for a list or mapping, whose entries are told by themselves: how
// many there are. One that is there and empty has none.
type several int

// one stands for a mapping that is there, or is not.
func one(there bool) several {
	if there {
		return 1
	}
	return 0
}

// place is two measures, [x, y].
type place struct{ x, y trade.Measure }

// given reports whether a value states anything.
func given(value any) bool {
	switch v := value.(type) {
	case nil:
		return false
	case string:
		return v != ""
	case bool:
		return v
	case int:
		return v != 0
	case float64:
		return v != 0
	case several:
		return v > 0
	case time.Time:
		return !v.IsZero()
	case unit.Quantity:
		return v.Given()
	case unit.Range:
		return v.Low.Given() || v.High.Given()
	case trade.Measure:
		return v.Given()
	case trade.Bound:
		return v.Given()
	case trade.Ratio:
		return v != trade.Ratio{}
	case place:
		return v.x.Given() || v.y.Given()
	case [2]unit.Quantity:
		return v[0].Given() || v[1].Given()
	}
	panic("sound: a value was told that is of no known type")
}

// mapping is a thing of the job as the file would describe it.
type mapping struct {
	*check
	what  string // for faults
	pos   trade.Pos
	kind  unit.Dimension // of what is measured as the kind of the thing says
	given []string       // the keys that are there
}

// tell checks a thing against the description of the section that it stands in.
func (c *check) tell(section, what string, pos trade.Pos, values ...told) *mapping {
	return c.tellIn(section, unit.Length, what, pos, values...)
}

// tellIn does so for a thing whose kind says what it is measured in.
func (c *check) tellIn(section string, kind unit.Dimension, what string, pos trade.Pos, values ...told) *mapping {
	entry := keys.Section(section)
	if entry == nil {
		panic("sound: no section of the file has this name")
	}
	return c.against(entry, kind, what, pos, values...)
}

// against checks a thing against its description.
func (c *check) against(entry *keys.Entry, kind unit.Dimension, what string, pos trade.Pos, values ...told) *mapping {
	m := &mapping{check: c, what: what, pos: pos, kind: kind}
	all := map[string]any{}
	for _, v := range values {
		all[v.key] = v.value
		if given(v.value) {
			m.given = append(m.given, v.key)
		}
	}
	known, cases := entry.In(func(key string) string {
		word, _ := all[key].(string)
		return word
	})
	m.knows(known, all)
	m.ask(entry)
	for _, counts := range cases {
		m.need(counts.Needs...)
		for _, r := range counts.Refuses {
			m.refuse(r.Why, r.Keys...)
		}
	}
	return m
}

// knows faults keys that the thing cannot have, those that are missing, and values
// that cannot stand under theirs.
func (m *mapping) knows(known []keys.Key, all map[string]any) {
	for _, key := range m.given {
		i := slices.IndexFunc(known, func(k keys.Key) bool { return k.Name == key })
		if i < 0 {
			m.unknown(key, m.what, "key", m.pos, keys.NamesOf(known))
			continue
		}
		m.value(known[i], all[key])
	}
	for _, k := range known {
		if _, spoken := all[k.Name]; k.Required && spoken {
			m.need(k.Name)
		}
	}
}

// ask checks what the keys of an entry ask of each other.
func (m *mapping) ask(entry *keys.Entry) {
	for _, some := range entry.OneOf {
		m.oneOf(some)
	}
	for _, pair := range entry.Exclusive {
		m.exclusive(pair[0], pair[1])
	}
	for _, rule := range entry.Rules {
		if len(rule.With) > 0 && !m.hasAny(rule.With) || m.hasAny(rule.Without) {
			continue
		}
		m.need(rule.Needs...)
		m.refuse(rule.Why, rule.Refuses...)
		if len(rule.OneOf) > 0 {
			m.oneOf(rule.OneOf)
		}
	}
}

// has reports whether something stands under the key.
func (m *mapping) has(key string) bool { return slices.Contains(m.given, key) }

func (m *mapping) hasAny(some []string) bool { return slices.ContainsFunc(some, m.has) }

// about names a value for a fault.
func (m *mapping) about(key string) string { return key + " in " + m.what }

// wrong adds a fault of a value.
func (m *mapping) wrong(key, format string, args ...any) {
	m.fault(m.pos, "%s"+format, append([]any{m.about(key)}, args...)...)
}

func (m *mapping) need(some ...string) {
	for _, key := range some {
		if !m.has(key) {
			m.fault(m.pos, "%s: %q is missing", m.what, key)
		}
	}
}

func (m *mapping) refuse(why string, some ...string) {
	for _, key := range some {
		if m.has(key) {
			m.fault(m.pos, "%s: %q does not belong here: %s", m.what, key, why)
		}
	}
}

func (m *mapping) exclusive(key, other string) {
	if m.has(key) && m.has(other) {
		m.fault(m.pos, "%s: %q and %q exclude each other", m.what, key, other)
	}
}

// oneOf faults what has none of the keys, or several.
func (m *mapping) oneOf(some []string) {
	if !m.hasAny(some) {
		m.fault(m.pos, "%s: one of %s is missing", m.what, strings.Join(some, ", "))
	}
	first := ""
	for _, key := range some {
		switch {
		case !m.has(key):
		case first == "":
			first = key
		default:
			m.exclusive(first, key)
		}
	}
}
