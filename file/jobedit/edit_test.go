package jobedit_test

import (
	"errors"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

type (
	field  = record.Field
	fields = []record.Field
)

func put(section, id string, f fields) func([]byte) ([]byte, error) {
	return func(source []byte) ([]byte, error) {
		return jobedit.Put(source, record.Item{Section: section, ID: id, Fields: f})
	}
}

func drop(section, id string) func([]byte) ([]byte, error) {
	return func(source []byte) ([]byte, error) { return jobedit.Drop(source, section, id) }
}

func setHead(fields ...field) func([]byte) ([]byte, error) {
	return func(source []byte) ([]byte, error) { return jobedit.SetHead(source, fields...) }
}

func text(key, text string) field { return field{Key: key, Text: text} }

// edits are texts before and after; all are constructed.
var edits = []struct {
	name   string
	source string
	edit   func([]byte) ([]byte, error)
	want   string
}{
	{
		"a first reading", "oddleg: 1\njob: x\n\nsizes:\n  a: {kind: width}\n",
		put("readings", "r1", fields{text("by", "outside"), {Key: "of", Map: fields{text("size", "a")}}, text("with", "mic")}),
		"oddleg: 1\njob: x\n\nsizes:\n  a: {kind: width}\n\nreadings:\n  - {id: r1, by: outside, of: {size: a}, with: mic}\n",
	},
	{
		"a section before one that is there", "oddleg: 1\njob: x\nunits: mm # all of them\n\n# what is sought\nsizes:\n  a: {kind: width}\n",
		put("kit", "mic", fields{text("kind", "micrometer")}),
		"oddleg: 1\njob: x\nunits: mm # all of them\n\nkit:\n  mic: {kind: micrometer}\n\n# what is sought\nsizes:\n  a: {kind: width}\n",
	},
	{
		"an empty section", "kit: # tools\nsizes: {}\n", put("kit", "mic", fields{text("kind", "micrometer")}),
		"kit: # tools\n  mic: {kind: micrometer}\nsizes: {}\n",
	},
	{
		"empty braces", "sizes: {}\n", put("sizes", "a", fields{text("kind", "width")}), "sizes: {a: {kind: width}}\n",
	},
	{
		"values in one column", "kit:\n  mic:    {kind: micrometer}\n  roll6:  {kind: roller}\n# end\n",
		put("kit", "deep", fields{text("kind", "rule")}),
		"kit:\n  mic:    {kind: micrometer}\n  roll6:  {kind: roller}\n  deep:   {kind: rule}\n# end\n",
	},
	{
		"a new key where it belongs", "sizes:\n  a: {kind: width,  say: the slot} # !\n",
		put("sizes", "a", fields{text("wear", "light"), text("surface", "inside")}),
		"sizes:\n  a: {kind: width, surface: inside, wear: light,  say: the slot} # !\n",
	},
	{
		"one value changed", "sizes:\n  a: {kind:  'width', say: old} # !\n", put("sizes", "a", fields{text("kind", "width"), text("say", "a: b")}),
		"sizes:\n  a: {kind:  'width', say: \"a: b\"} # !\n",
	},
	{
		"a value in another order", "readings:\n  - {id: a, of: {size: x, ball: y, n: 3}}\n",
		put("readings", "a", fields{{Key: "of", Map: fields{text("ball", "z"), text("wall", "w"), text("size", "x")}}}),
		"readings:\n  - {id: a, of: {size: x, ball: z, wall: w}}\n",
	},
	{
		"a key taken out", "sizes:\n  a: {kind: width, say: old, wear: light}\n", put("sizes", "a", fields{text("say", "")}),
		"sizes:\n  a: {kind: width, wear: light}\n",
	},
	{
		"in lines", "sizes:\n  a:\n    kind: width # across\n    say: old\n\n  b:\n    kind: depth\n",
		put("sizes", "c", fields{text("kind", "length"), text("known", "1 1/4 in")}),
		"sizes:\n  a:\n    kind: width # across\n    say: old\n\n  b:\n    kind: depth\n\n  c:\n    kind: length\n    known: 1 1/4 in\n",
	},
	{
		"a value of several lines gives way", "readings:\n- id: a\n  saw: # mm\n  - 1 # one\n  - 2\n  say: x\n",
		put("readings", "a", fields{text("saw", "3")}),
		"readings:\n- id: a\n  # mm\n  # one\n  saw: 3\n  say: x\n",
	},
	{
		"quotes", "sizes:\n  a: {kind: width}\n", put("sizes", "a", fields{text("say", `it's 5" #2`), text("meant", `7/16" BSW`)}),
		"sizes:\n  a: {kind: width, meant: 7/16\" BSW, say: \"it's 5\\\" #2\"}\n",
	},
	{
		"a relation by its place", "relations:\n  - {that: a, is: 1}\n  - {that: b, is: 2} # b\n", put("relations", "2", fields{text("is", "3"), text("within", "0.1")}),
		"relations:\n  - {that: a, is: 1}\n  - {that: b, is: 3, within: 0.1} # b\n",
	},
	{
		"one more relation", "relations:\n  - {that: a, is: 1}", put("relations", "", fields{text("that", "b"), text("is", "2")}),
		"relations:\n  - {that: a, is: 1}\n  - {that: b, is: 2}",
	},
	{
		"a plain entry", "shop:\n  lathe: {kind: lathe, travels: {cross: 100}}\n", put("shop.lathe.travels", "top", fields{text("", "60 mm")}),
		"shop:\n  lathe: {kind: lathe, travels: {cross: 100, top: 60 mm}}\n",
	},
	{
		"items", "part:\n  kind: turned\n", put("part", "shape", fields{{Key: "steps", Items: []field{{Map: fields{text("diameter", "a"), text("length", "5")}}}}}),
		"part:\n  kind: turned\n  shape: {steps: [{diameter: a, length: 5}]}\n",
	},
	{
		"drop with its own comments", "kit:\n  # tools\n  # mic: worn,\n  # so beware\n  mic: {kind: micrometer} # mine\n  rod: {kind: rod, size: 3}\n", drop("kit", "mic"),
		"kit:\n  # tools\n  rod: {kind: rod, size: 3}\n",
	},
	{
		"drop the last", "kit:\n  # tools\n  mic: {kind: micrometer}\nsizes:\n", drop("kit", "mic"), "kit:\n  # tools\nsizes:\n",
	},
	{
		"drop one set apart", "a: 1\nsizes:\n  b:\n    kind: width\n\n  c:\n    kind: width\n\n  d:\n    kind: depth\n", drop("sizes", "c"),
		"a: 1\nsizes:\n  b:\n    kind: width\n\n  d:\n    kind: depth\n",
	},
	{
		"drop in braces", "kit: {mic: {kind: micrometer}, rod: {kind: rod}} # all\n", drop("kit", "rod"), "kit: {mic: {kind: micrometer}} # all\n",
	},
	{
		"the head", "oddleg: 1\njob: x\nkit:\n", setHead(text("job", "y"), text("machine.what", "planer"), text("machine.built", "1911"), text("units", "in")),
		"oddleg: 1\njob: y\nmachine: {what: planer, built: 1911}\nunits: in\nkit:\n",
	},
	{
		"the head taken out", "oddleg: 1\njob: x\nmachine: {what: planer}\nunits: mm\n", setHead(text("machine.what", ""), text("units", "")), "oddleg: 1\njob: x\n",
	},
	{
		"a part begun", "oddleg: 1\njob: x\n", setHead(text("part.kind", "bush"), text("part.name", "Bush")), "oddleg: 1\njob: x\n\npart:\n  name: Bush\n  kind: bush\n",
	},
	{
		"other line ends", "\ufeffoddleg: 1\r\njob: x\r\nsizes:\r\n  a: {kind: width}\r\n", put("sizes", "b", fields{text("say", "one\r\ntwo")}),
		"\ufeffoddleg: 1\r\njob: x\r\nsizes:\r\n  a: {kind: width}\r\n  b: {say: \"one\\ntwo\"}\r\n",
	},
	{"nothing there yet", "# a note", put("kit", "mic", fields{text("kind", "rule")}), "# a note\nkit:\n  mic: {kind: rule}\n"},
}

func TestEdits(t *testing.T) {
	for _, test := range edits {
		got, err := test.edit([]byte(test.source))
		if err != nil || string(got) != test.want {
			t.Errorf("%s: %v\ngot\n%s\nwant\n%s", test.name, err, got, test.want)
		}
	}
}

// TestEditsRefused: what cannot be written, or is not there, is a fault in words.
func TestEditsRefused(t *testing.T) {
	const source = "oddleg: 1\njob: x\nsizes:\n  a: {kind: width}\n  b: text\nreadings:\n  - {id: t, by: touch, saw: [1, 2]}\n  - {id: g, goes: 1, stops: 2}\n"
	for _, test := range []struct {
		source string
		edit   func([]byte) ([]byte, error)
		want   string
	}{
		{source, put("sizes", "a", fields{text("say", "a\x1bb")}), "control character"},
		{source, put("sizes", "a", fields{text("say", "a\tb")}), "control character"},
		{source, put("sizes", "a", fields{text("say", "a\xffb")}), "no text in UTF-8"},
		{source, put("sizes", "", fields{text("kind", "width")}), "needs an id"},
		{source, put("sizes", "b", fields{text("kind", "width")}), `found "text"`},
		{source, put("job", "b", fields{text("kind", "width")}), "where entries should be"},
		{source, put("job.b", "b", fields{text("kind", "width")}), "where a mapping"},
		{source, put("", "b", nil), "no key"},
		{source, put("sizes", "a\rb", nil), "no key"},
		{source, put("sizes", "a", fields{text("a\nb", "1")}), "no key"},
		{source, drop("sizes", "c"), `no entry "c"`},
		{source, drop("kit", "c"), `no entry "c"`},
		{source, addSaw("x", "1"), "no reading"},
		{source, addSaw("g", "1"), "goes and stops"},
		{source, addSaw("t", "1"), "in pairs"},
		{source, setAside("t", 1, "", true), "no value 1"},
		{"a: [", setHead(text("job", "x")), "1:4"},
		{"- a", setHead(text("job", "x")), "where a mapping"},
		{"a: \xff", setHead(text("job", "x")), "no text"},
		{strings.Repeat("#", yamltree.MaxSize+1), setHead(text("job", "x")), "1 MB"},
		{strings.Repeat("#", yamltree.MaxSize-1) + "\n", setHead(text("job", "x")), "1 MB"},
	} {
		got, err := test.edit([]byte(test.source))
		var faults trade.Faults
		if got != nil || !errors.As(err, &faults) || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v\n%s", test.want, err, got)
		}
	}
}

// FuzzPut: whatever the file and the texts, the entry is read back as it was typed,
// or there are faults and no text.
func FuzzPut(f *testing.F) {
	for _, test := range edits {
		f.Add([]byte(test.source), "sizes", "a", "x: y")
	}
	f.Add([]byte(sample(f, "change-wheel")), "readings", "b", "a\n- b")
	f.Add([]byte(""), "\r", "0", "0000 ")
	f.Fuzz(func(t *testing.T, source []byte, section, id, typed string) {
		got, err := put(section, id, fields{text("say", typed), {Key: "saw", List: []string{typed, "1"}}})(source)
		var faults trade.Faults
		if (got == nil) == (err == nil) || err != nil && !errors.As(err, &faults) {
			t.Fatalf("%v\n%s", err, got)
		}
		if err == nil {
			if again, err := put(section, id, fields{text("say", typed)})(got); err == nil && id != "" && string(again) != string(got) {
				t.Errorf("a second time:\n%s\n%s", got, again)
			}
		}
	})
}
