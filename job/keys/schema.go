package keys

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// Draft is the draft of JSON Schema that the schema keeps to.
const Draft = "https://json-schema.org/draft/2020-12/schema"

// object is a part of the schema.
type object map[string]any

// Schema returns the description as a JSON Schema. Readers of YAML differ in what
// they take for text, number or truth value, so most values may be any of them.
func (e *Entry) Schema() []byte {
	defs := object{}
	for _, entry := range e.Walk()[1:] {
		defs[entry.definition()] = entry.schema()
	}
	root := e.schema()
	root["$schema"], root["title"], root["$defs"] = Draft, "oddleg job file", defs
	text, err := json.MarshalIndent(root, "", " ")
	if err != nil {
		panic("keys: the schema cannot be written: " + err.Error())
	}
	return append(text, '\n')
}

// schema returns an entry: its keys and no others, and what they ask of each other.
func (e *Entry) schema() object {
	properties := object{}
	for _, k := range e.All() {
		properties[k.Name] = object{"description": k.Says}
	}
	for _, k := range e.Keys {
		properties[k.Name] = k.schema()
	}
	asks := e.ruled()
	for i := range e.Cases {
		asks = append(asks, e.cased(&e.Cases[i]))
	}
	s := object{"type": "object", "description": e.Says, "additionalProperties": false, "properties": properties}
	if required := requiredOf(e.Keys); len(required) > 0 {
		s["required"] = required
	}
	if len(asks) > 0 {
		s["allOf"] = asks
	}
	return s
}

func (k Key) schema() object {
	s := k.Holds.schema()
	says := k.Says
	if k.Default != "" {
		says += " Left out: " + k.Default + "."
	}
	s["description"] = says
	return s
}

// requiredOf returns the names of the keys that must be there.
func requiredOf(list []Key) []string {
	var names []string
	for _, k := range list {
		if k.Required {
			names = append(names, k.Name)
		}
	}
	return names
}

// anyOf returns that one at least of the keys is there.
func anyOf(keys []string) object {
	var any []object
	for _, key := range keys {
		any = append(any, object{"required": []string{key}})
	}
	return object{"anyOf": any}
}

// oneOf returns that just one of the keys is there.
func oneOf(keys []string) object { return object{"oneOf": anyOf(keys)["anyOf"]} }

// asked returns that keys are there, and that others are not.
func asked(needs, refuses []string) object {
	s, none := object{}, object{}
	if len(needs) > 0 {
		s["required"] = needs
	}
	for _, key := range refuses {
		none[key] = false
	}
	if len(none) > 0 {
		s["properties"] = none
	}
	return s
}

// ruled returns what the keys of an entry ask of each other.
func (e *Entry) ruled() []object {
	var asks []object
	for _, keys := range e.OneOf {
		asks = append(asks, oneOf(keys))
	}
	for _, pair := range e.Exclusive {
		asks = append(asks, object{"not": object{"required": pair}})
	}
	for _, rule := range e.Rules {
		asks = append(asks, rule.schema())
	}
	return asks
}

func (r Rule) schema() object {
	then := asked(r.Needs, r.Refuses)
	if len(r.OneOf) > 0 {
		then["oneOf"] = anyOf(r.OneOf)["anyOf"]
	}
	if r.Lacks != "" {
		then["not"] = object{}
	}
	var when []object
	if len(r.With) > 0 {
		when = append(when, anyOf(r.With))
	}
	if len(r.Without) > 0 {
		when = append(when, object{"not": anyOf(r.Without)})
	}
	return object{"if": object{"allOf": when}, "then": then}
}

// cased returns what one case asks: its own keys, and none that only others have.
func (e *Entry) cased(c *Case) object {
	var refuses []string
	for _, refusal := range c.Refuses {
		refuses = append(refuses, refusal.Keys...)
	}
	known, _ := e.In(func(key string) string {
		if key == c.Key {
			return c.Words[0]
		}
		return ""
	})
	for _, name := range e.Names() {
		if !contains(known, name) {
			refuses = append(refuses, name)
		}
	}
	then := asked(append(requiredOf(c.Own), c.Needs...), refuses)
	own, _ := then["properties"].(object)
	if own == nil {
		own = object{}
	}
	for _, k := range c.Own {
		own[k.Name] = k.schema()
	}
	then["properties"] = own
	is := object{"required": []string{c.Key}, "properties": object{c.Key: object{"enum": spellings(c.Words)}}}
	return object{"if": is, "then": then}
}

func contains(known []Key, name string) bool {
	for _, k := range known {
		if k.Name == name {
			return true
		}
	}
	return false
}

// spellings returns words as any reader of YAML may have them.
func spellings(words []string) []any {
	var all []any
	for _, w := range words {
		all = append(all, w)
		switch w {
		case "yes", "true":
			all = append(all, true)
		case "no", "false":
			all = append(all, false)
		case Version:
			all = append(all, 1)
		}
	}
	return all
}

// The patterns of what is written as text.
const (
	someText  = `\S`
	someDigit = `[0-9]`
	anIDOf    = `^[A-Za-z][A-Za-z0-9_.]*$` // part.ID among them
	aDate     = `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`
	aRange    = `[0-9].*\.\.`
	notBelow0 = `^[^-]*[0-9]` // 2-9/64" among them
	withUnit  = notBelow0 + `.*[A-Za-z]`
)

func text(pattern string) object { return object{"type": "string", "pattern": pattern} }

// anyScalar returns a text that a reader of YAML may take for something else.
func anyScalar() object {
	return object{"type": []string{"string", "number", "boolean"}, "pattern": someText}
}

func (h Holds) schema() object {
	switch h.Kind {
	case Word:
		return object{"enum": spellings(h.Among)}
	case FormatVersion:
		return object{"enum": spellings([]string{Version})}
	case YesNo:
		return object{"enum": spellings([]string{"yes", "no", "true", "false"})}
	case Side:
		return object{"enum": []any{1, -1, "1", "-1"}}
	case Whole, Count:
		number := object{"type": "integer", "minimum": h.Least, "maximum": h.Most}
		return object{"anyOf": []object{number, text(fmt.Sprintf(`^\+?0*[0-9]{1,%d}$`, len(strconv.Itoa(h.Most))))}}
	case Date:
		return text(aDate)
	case Force, Torque:
		return text(withUnit)
	case LengthRange, NumberRange, FrictionRange:
		return text(aRange)
	case Reference:
		return object{"type": []string{"string", "boolean"}, "pattern": anIDOf}
	case ID:
		return object{"type": []string{"string", "boolean"}, "pattern": anID}
	case Mapping, List, Map, Either, Anything, Place, Pair, PairOfKind:
		return h.composed()
	}
	if h.isNumber() {
		return object{"anyOf": []object{h.number(), text(h.written())}}
	}
	return anyScalar()
}

// isNumber reports whether a bare number may stand there.
func (h Holds) isNumber() bool {
	switch h.Kind {
	case OfKind, Measure, AngleMeasure, IncludedMeasure, Bound:
		return true
	}
	return h.IsQuantity()
}

// written returns what a text there looks like; where an id may stand in its place,
// any may.
func (h Holds) written() string {
	switch {
	case !h.IsQuantity() && h.Kind != OfKind:
		return someText
	case h.Sign == AnySign:
		return someDigit
	}
	return notBelow0
}

// number returns a bare number that may stand there.
func (h Holds) number() object {
	s := object{"type": "number"}
	switch h.Sign {
	case Positive:
		s["exclusiveMinimum"] = 0
	case NotNegative:
		s["minimum"] = 0
	}
	if h.Kind == Bound {
		s["exclusiveMinimum"] = 0
	}
	if h.Top > 0 && h.Kind != Angle {
		s["maximum"] = h.Top // an angle is written in degrees and kept in radians
	}
	return s
}

// composed returns what is made of several values.
func (h Holds) composed() object {
	switch h.Kind {
	case Mapping:
		return h.Entry.referred(h.OrNone)
	case List:
		return h.listed()
	case Map:
		return h.mapped()
	case Either:
		var others []object
		for _, other := range h.Others {
			others = append(others, other.schema())
		}
		return object{"anyOf": others}
	case Anything:
		return object{"type": "object"}
	}
	item := Holds{Kind: map[Kind]Kind{Place: Measure, Pair: Length, PairOfKind: OfKind}[h.Kind]}
	return object{"type": "array", "items": item.schema(), "minItems": 2, "maxItems": 2}
}

// referred returns an entry where it stands within another.
func (e *Entry) referred(orNone bool) object {
	s := object{"$ref": "#/$defs/" + e.definition()}
	if orNone {
		return object{"anyOf": []object{s, {"type": "object", "maxProperties": 0}}}
	}
	return s
}

// definition names an entry in the schema.
func (e *Entry) definition() string {
	if e.Name == "" {
		return strings.ReplaceAll(e.Each, " ", "-")
	}
	return e.Name
}

func (h Holds) listed() object {
	item := h.Item.schema()
	s := object{"type": "array", "items": item}
	if h.Least > 0 {
		s["minItems"] = h.Least
	} else {
		s["type"] = []string{"array", "null"} // nothing after the colon is an empty list
	}
	if h.Most > 0 {
		s["maxItems"] = h.Most
	}
	if h.Unlisted && h.Least <= 1 {
		return object{"anyOf": []object{item, s}}
	}
	return s
}

func (h Holds) mapped() object {
	s := object{"type": "object", "additionalProperties": h.Item.schema()}
	if h.Least > 0 {
		s["minProperties"] = h.Least
	} else {
		s["type"] = []string{"object", "null"}
	}
	if h.Most > 0 {
		s["maxProperties"] = h.Most
	}
	if !h.Named {
		s["propertyNames"] = object{"pattern": anID}
	}
	return s
}
