package jobedit_test

import (
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
)

// shared is what two people have before each goes his way; constructed, as all here.
const shared = `# the press
oddleg: 1
job: x

kit:
  # in the drawer
  mic: {kind: micrometer}
  jaws: {kind: caliper}

sizes:
  a: {kind: width}
  b: {kind: depth} # deep

readings:
  - {id: r1, by: outside, of: {size: a}, with: mic, saw: 5.00}

relations:
  - {that: a, is: b}

part:
  kind: key
  sizes:
    w: {kind: width, copies: a}
    h: {kind: height, copies: b}
`

// swapped returns a text with pieces put in the place of others.
func swapped(text string, pairs ...string) string {
	return strings.NewReplacer(pairs...).Replace(text)
}

// What becomes of the last reading.
const lastReading, withR2, withR3 = "saw: 5.00}\n", "saw: 5.00}\n  - {id: r2, by: x}\n", "saw: 5.00}\n  # late\n  - {id: r3, by: x}\n"

// merges are what two people made of it.
var merges = []struct {
	name         string
	mine, theirs string
	want         string
	clashes      []record.Clash
}{
	{"nothing", shared, shared, shared, nil},
	{"mine", swapped(shared, "5.00", "5.01"), shared, swapped(shared, "5.00", "5.01"), nil},
	{"theirs", shared, swapped(shared, "# in the drawer", "# on the bench"), swapped(shared, "# in the drawer", "# on the bench"), nil},
	{"both alike", swapped(shared, "5.00", "5.01"), swapped(shared, "5.00", "5.01"), swapped(shared, "5.00", "5.01"), nil},
	{"neighbours", swapped(shared, "a: {kind: width}", "a: {kind: length}"), swapped(shared, "depth} # deep", "depth} # shallow"), swapped(shared, "a: {kind: width}", "a: {kind: length}", "# deep", "# shallow"), nil},
	{"one reading each", swapped(shared, lastReading, withR2), swapped(shared, lastReading, withR3), swapped(shared, lastReading, "saw: 5.00}\n  # late\n  - {id: r3, by: x}\n  - {id: r2, by: x}\n"), nil},
	{"sizes of the part", swapped(shared, "copies: a", "is: 5"), swapped(shared, "copies: b", "is: 6"), swapped(shared, "copies: a", "is: 5", "copies: b", "is: 6"), nil},
	{
		"taken out and added", swapped(shared, "readings:\n  - {id: r1, by: outside, of: {size: a}, with: mic, saw: 5.00}\n\n", ""), swapped(shared, lastReading, withR2),
		swapped(shared, "  - {id: r1, by: outside, of: {size: a}, with: mic, saw: 5.00}\n", "  - {id: r2, by: x}\n"), nil,
	},
	{"a section each", shared + "\nshop:\n  m: {kind: mill}\n", shared + "\nchecks:\n  - {id: k}\n", shared + "\nchecks:\n  - {id: k}\n\nshop:\n  m: {kind: mill}\n", nil},
	{
		"in two ways", swapped(shared, "5.00", "5.01"), swapped(shared, "5.00", "5.02"), swapped(shared, "5.00", "5.01"),
		[]record.Clash{{Section: "readings", ID: "r1", Mine: "5.01", Theirs: "5.02"}},
	},
	{
		"taken out and changed", swapped(shared, "  jaws: {kind: caliper}\n", ""), swapped(shared, "caliper", "rule"), swapped(shared, "caliper", "rule"),
		[]record.Clash{{Section: "kit", ID: "jaws", Mine: "", Theirs: "rule"}},
	},
	{
		"changed and taken out", swapped(shared, "caliper", "rule"), swapped(shared, "  jaws: {kind: caliper}\n", ""), swapped(shared, "caliper", "rule"),
		[]record.Clash{{Section: "kit", ID: "jaws", Mine: "rule", Theirs: ""}},
	},
	{
		"a relation", swapped(shared, "is: b", "is: 2*b"), swapped(shared, "is: b", "is: 3*b"), swapped(shared, "is: b", "is: 2*b"),
		[]record.Clash{{Section: "relations", ID: "a", Mine: "2*b", Theirs: "3*b"}},
	},
	{
		"in braces now", swapped(shared, "kit:\n  # in the drawer\n  mic: {kind: micrometer}\n  jaws: {kind: caliper}", "kit: {mic: {kind: micrometer}}"), swapped(shared, "caliper", "rule"),
		swapped(shared, "kit:\n  # in the drawer\n  mic: {kind: micrometer}\n  jaws: {kind: caliper}", "kit: {mic: {kind: micrometer}}"),
		[]record.Clash{{Section: "kit", ID: "", Mine: "kit: {mic", Theirs: "rule"}},
	},
	{"no YAML", swapped(shared, "5.00", "[5.00"), swapped(shared, "caliper", "rule"), swapped(shared, "5.00", "[5.00", "caliper", "rule"), nil},
	{
		"no YAML in two ways", swapped(shared, "saw: 5.00", "saw: [5.00"), swapped(shared, "saw: 5.00", "saw: 5.02"), swapped(shared, "saw: 5.00", "saw: [5.00"),
		[]record.Clash{{Section: "", ID: "line 15", Mine: "[5.00", Theirs: "5.02"}},
	},
	{"other line ends", strings.ReplaceAll("\ufeff"+strings.TrimSpace(swapped(shared, "5.00", "5.01")), "\n", "\r\n"), swapped(shared, "caliper", "rule"), strings.ReplaceAll("\ufeff"+strings.TrimSpace(swapped(shared, "5.00", "5.01", "caliper", "rule")), "\n", "\r\n"), nil},
}

func TestMerge(t *testing.T) {
	for _, test := range merges {
		got, clashes, err := jobedit.Merge([]byte(shared), []byte(test.mine), []byte(test.theirs))
		if err != nil || string(got) != test.want {
			t.Errorf("%s: %v\ngot\n%s\nwant\n%s", test.name, err, got, test.want)
		}
		if len(clashes) != len(test.clashes) {
			t.Errorf("%s: clashes %+v", test.name, clashes)
			continue
		}
		for i, want := range test.clashes {
			is := clashes[i]
			said := func(text, part string) bool { return (text == "") == (part == "") && strings.Contains(text, part) }
			if is.Section != want.Section || is.ID != want.ID || !said(is.Mine, strings.TrimSpace(want.Mine)) || !said(is.Theirs, want.Theirs) {
				t.Errorf("%s: clash %+v", test.name, is)
			}
		}
	}
	if _, _, err := jobedit.Merge(nil, []byte("a\xff"), nil); err == nil {
		t.Error("broken bytes were taken")
	}
}

// FuzzMerge: what only one of two has changed is all that is changed, and two who did
// the same agree.
func FuzzMerge(f *testing.F) {
	f.Add(shared, swapped(shared, "5.00", "5.01"))
	f.Add(shared, "")
	f.Add("a: [\nb\nc\n", "a\nc\nb\n")
	f.Add(sample(f, "worn-slides"), sample(f, "change-wheel"))
	f.Fuzz(func(t *testing.T, base, changed string) {
		for i, texts := range [][3]string{{base, changed, base}, {base, base, changed}, {base, changed, changed}} {
			got, clashes, err := jobedit.Merge([]byte(texts[0]), []byte(texts[1]), []byte(texts[2]))
			if err != nil {
				return
			}
			if !sameLines(string(got), changed) || len(clashes) > 0 {
				t.Errorf("%d: got\n%q\nwant\n%q\nclashes %q", i, got, changed, clashes)
			}
		}
	})
}

// sameLines compares texts without regard to how lines and the file end, and the file
// begins.
func sameLines(a, b string) bool {
	plain := strings.NewReplacer("\r\n", "\n", "\r", "\n", "\ufeff", "")
	return strings.TrimRight(plain.Replace(a), "\n") == strings.TrimRight(plain.Replace(b), "\n")
}
