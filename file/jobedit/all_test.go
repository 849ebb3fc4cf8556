package jobedit

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// written in other ways: each is the same job.
var otherWays = map[string]func(string) string{
	"as it is":         func(text string) string { return text },
	"carriage returns": func(text string) string { return strings.ReplaceAll(text, "\n", "\r\n") },
	"byte-order mark":  func(text string) string { return yamltree.ByteOrderMark + text },
	"no last line end": func(text string) string { return strings.TrimRight(text, "\n") },
}

// hostileTexts are typed into every entry.
var hostileTexts = []string{
	"plain", "a: b", "a:b", "x #y", "x#y", "# x", "- x", "-5.48 in", "-", "?", "? x", "{", "}", "[a, b]", "a, b", `say "x"`, "'", "it's", `it's "x"`,
	`\`, `a\n`, "two\nlines", "\n", "ends in a line\n", " x", "x ", "&a", "*a", "!a", "|", ">", "%", "@", "`", "null", "~", "yes", "1:20", "0x1F", "1e-5 in",
	"⌀ 5 µm", "日本", "a\u2028b", "\ufeffa", "\u00a0", "...", "---", "<<", "=", "2024-03-01", "\"", "a:", ":", ":a", "::", ",", "2 9/64 in", "{a: b}", "a\n- b\n# c\n",
}

// skip reports whether an edit of a job is not tried, save one of so many, fewer in
// a short run. All are where ODDLEG_LONG=1, and in the job in blocks.
func skip(job string, count, of int) bool {
	if testing.Short() {
		of *= 5
	}
	return os.Getenv("ODDLEG_LONG") != "1" && job != "in blocks" && count%of != 0
}

func jobTexts(t *testing.T) map[string]string {
	t.Helper()
	texts := map[string]string{"in blocks": inBlocks}
	for _, pattern := range []string{"../../testdata/jobs/*.yaml", "../../examples/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatal(pattern, err)
		}
		for _, file := range files {
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			texts[filepath.Base(file)] = string(source)
		}
	}
	return texts
}

// inBlocks is a job in the styles that the files of testdata do not have.
const inBlocks = `# a job with a line for each key
oddleg: 1
job: >-
  one in
  two lines
units: mm # of bare numbers
kit: {mic: {kind: micrometer},   # it reads
  # under braces
  jaws: {kind: caliper} # well
} # all
sizes:
  # a: the first
  a: # of the sizes
    kind: width # across

    # none
    say: |
      # not a comment
        some text

  "b":
    kind: 'width'
    say: "it''s"

  c: {kind: width,
      say: goes
        on}
readings:
- id: r1
  by: outside # the jaws
  of:
    size: a
  with: mic
  saw:
  - 5.00 # once
  # twice
  - 5.01
-
  id: r2
  by: outside
  of: {size: b}
  with: mic
  saw: [5.00, # first
    5.01 # second
    ]
- {id: r3, by: outside, of: {size: c}, with: jaws,
   saw: 5}
relations:
  - {that: a
    - b, is: 0}
  - that: a - c
    is: >
      0 mm
# the end
`

// sectionsOf returns the sections of a job that have entries, and the ids of those.
func sectionsOf(root yamltree.Node) map[string][]string {
	ids := map[string][]string{}
	note := func(name string, n yamltree.Node) {
		for i := range n.Count() {
			switch {
			case n.ValueOf(i).Shape != yamltree.Mapping:
			case n.Shape == yamltree.Mapping:
				ids[name] = append(ids[name], n.Pairs[i].Key.Text)
			case n.Items[i].Index("id") >= 0:
				ids[name] = append(ids[name], n.Items[i].Under("id").Text)
			default:
				ids[name] = append(ids[name], fmt.Sprint(i+1))
			}
		}
	}
	for _, p := range root.Pairs {
		if p.Key.Text == "part" {
			note("part.sizes", p.Value.Under("sizes"))
			note("part.stacks", p.Value.Under("stacks"))
			note("part.mates", p.Value.Under("mates"))
		} else if p.Key.Text != "machine" {
			note(p.Key.Text, p.Value)
		}
	}
	return ids
}

func rootOf(t *testing.T, source []byte) yamltree.Node {
	t.Helper()
	text, err := yamltree.Plain(source)
	if err != nil {
		t.Fatalf("%v\n%s", err, source)
	}
	root, err := yamltree.Parse(text)
	if err != nil {
		t.Fatalf("%v\n%s", err, source)
	}
	return root
}

func entryOf(root yamltree.Node, section, id string) (found yamltree.Node) {
	for _, key := range strings.Split(section, ".") {
		root = root.Under(key)
	}
	if i := root.Entry(id); i >= 0 {
		found = root.ValueOf(i)
	}
	return found
}

// TestPutAndDropEverywhere adds an entry to every section of every job, and takes
// it out again: the bytes are those that were there before.
func TestPutAndDropEverywhere(t *testing.T) {
	count := 0
	for name, text := range jobTexts(t) {
		for way, in := range otherWays {
			source := []byte(in(text))
			for section := range sectionsOf(rootOf(t, source)) {
				if count++; skip(name, count, 3) {
					continue
				}
				more, err := Put(source, record.Item{Section: section, ID: "zz9", Fields: []record.Field{{Key: "kind", Text: "width"}, {Key: "of", Map: []record.Field{{Key: "a", Text: "b"}}}, {Key: "saw", List: []string{"1", "1 1/8 in"}}}})
				if err != nil {
					t.Errorf("%s, %s: put in %s: %v", name, way, section, err)
					continue
				}
				untouched(t, name+" "+way+" "+section, source, more, 0)
				less, err := Drop(more, section, "zz9")
				if err != nil || !bytes.Equal(less, source) {
					t.Errorf("%s, %s, %s: %v\nafter put\n%s\nafter drop\n%s", name, way, section, err, more, less)
				}
			}
		}
	}
}

// untouched holds the lines of two texts to each other: all but some of the old are
// in the new one, in their order and byte for byte.
func untouched(t *testing.T, what string, source, result []byte, changed int) {
	t.Helper()
	left := bytes.SplitAfter(result, []byte("\n"))
	missing := 0
	for _, line := range bytes.SplitAfter(source, []byte("\n")) {
		at := 0
		for at < len(left) && !bytes.Equal(bytes.TrimRight(left[at], "\r\n"), bytes.TrimRight(line, "\r\n")) {
			at++
		}
		if at == len(left) {
			missing++
			continue
		}
		left = left[at+1:]
	}
	if missing > changed && !strings.Contains(what, "in blocks") {
		t.Errorf("%s: %d lines are not as they were\n%s", what, missing, result)
	}
}

// TestHostileTexts types each text into every entry of every job: it is read back
// as it was typed; taken out again it leaves no trace.
func TestHostileTexts(t *testing.T) {
	count := 0
	for name, text := range jobTexts(t) {
		for way, in := range otherWays {
			source := []byte(in(text))
			root := rootOf(t, source)
			for section, ids := range sectionsOf(root) {
				for _, id := range ids {
					count++
					if skip(name, count, 9) {
						continue
					}
					typed := hostileTexts[count%len(hostileTexts)]
					typeInto(t, name+", "+way, source, record.Item{Section: section, ID: id, Fields: []record.Field{{Key: "zz", Text: typed}}})
				}
			}
		}
	}
	if count < 2*len(hostileTexts) {
		t.Error(count)
	}
}

func typeInto(t *testing.T, name string, source []byte, e record.Item) {
	t.Helper()
	typed := e.Fields[0].Text
	more, err := Put(source, e)
	if err != nil {
		t.Errorf("%s: %q in %s %s: %v", name, typed, e.Section, e.ID, err)
		return
	}
	if got := entryOf(rootOf(t, more), e.Section, e.ID).Under("zz").Text; got != typed {
		t.Errorf("%s: %q in %s %s was read as %q", name, typed, e.Section, e.ID, got)
	}
	untouched(t, name+" "+e.Section+" "+e.ID, source, more, 1)
	e.Fields[0].Text = ""
	if less, err := Put(more, e); err != nil || !bytes.Equal(less, source) {
		t.Errorf("%s: %s %s: %v\nwith %q\n%s\nwithout\n%s", name, e.Section, e.ID, err, typed, more, less)
	}
}

// TestTextsAgreeWithPyYAML: texts as they are written are read back by PyYAML
// (python3-yaml) too, within braces and on lines of their own.
func TestTextsAgreeWithPyYAML(t *testing.T) {
	python := oracle.Python(t, "yaml")
	var b strings.Builder
	for i, text := range hostileTexts {
		fmt.Fprintf(&b, "a%d: %s\nb%d: {c: %s, d: [%[4]s]}\n", i, textOf(text, false), i, textOf(text, true))
	}
	const load = "import json, sys, yaml; json.dump(yaml.load(sys.stdin.buffer.read().decode(), yaml.BaseLoader), sys.stdout)"
	read := oracle.Answer[map[string]any](t, python, []byte(b.String()), "-c", load)
	for i, text := range hostileTexts {
		if got := read[fmt.Sprint("a", i)]; got != text {
			t.Errorf("%q is read as %q", text, got)
		}
		if got, want := fmt.Sprint(read[fmt.Sprint("b", i)]), fmt.Sprint(map[string]any{"c": text, "d": []any{text}}); got != want {
			t.Errorf("%q in braces is read as %q", text, got)
		}
	}
}

// TestChangeEverything puts another value under every key of every entry, takes
// every key out, and drops every entry.
func TestChangeEverything(t *testing.T) {
	count := 0
	for name, text := range jobTexts(t) {
		source := []byte(text)
		root := rootOf(t, source)
		for section, ids := range sectionsOf(root) {
			for _, id := range ids {
				for _, p := range entryOf(root, section, id).Pairs {
					for _, f := range []record.Field{{Text: "other"}, {List: []string{"a", "b c"}}, {Map: []record.Field{{Key: "a", Text: "b"}, {Key: "c", List: []string{}}}}, {}} {
						f.Key = p.Key.Text
						if count++; skip(name, count, 41) {
							continue
						}
						if _, err := Put(source, record.Item{Section: section, ID: id, Fields: []record.Field{f}}); err != nil {
							t.Errorf("%s: %s of %s %s to %v: %v", name, f.Key, section, id, f, err)
						}
					}
				}
				if skip(name, count, 7) {
					continue
				}
				if _, err := Drop(source, section, id); err != nil {
					t.Errorf("%s: drop %s %s: %v", name, section, id, err)
				}
			}
		}
	}
}
