package jobfile_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// The size of hostile files and how long one may take: a hundredth of what the
// square of its length would cost, many times what it takes. Under the race
// detector, which slows everything, the files are smaller.
var hostileSize = jobfile.MaxSize / 4

const patience = 5 * time.Second

// fill repeats a text until it has the size of hostile files.
func fill(before, text string) string {
	return before + strings.Repeat(text, (hostileSize-len(before))/len(text))
}

// numbered repeats a pattern with a number in it.
func numbered(before, pattern string) string {
	var b strings.Builder
	b.WriteString(before)
	for i := 0; b.Len() < hostileSize-2*len(pattern); i++ {
		fmt.Fprintf(&b, pattern, i)
	}
	return b.String()
}

// steps indents each line one blank more.
func steps(line string) string {
	var b strings.Builder
	for i := 0; b.Len() < hostileSize; i++ {
		b.WriteString(strings.Repeat(" ", i) + line + "\n")
	}
	return b.String()
}

// hostile returns texts made to take time or memory with the square of
// their length, or to nest without end. All are wrong.
func hostile() map[string]string {
	return map[string]string{
		"open brackets":      fill("a: ", "["),
		"open braces":        fill("a: ", "{"),
		"nested mappings":    fill("", "{a: "),
		"closed brackets":    fill("", "]"),
		"hyphens":            fill("", "- "),
		"hyphens in lines":   fill("", "-\n"),
		"hyphens on end":     fill("a: b\n  ", "-"),
		"keys in one line":   fill("", "a: "),
		"keys without value": numbered("", "a%d:\n"),
		"nested by steps":    steps("a:"),
		"lists by steps":     steps("-"),
		"anchors":            fill("", "&a "),
		"aliases":            fill("a: ", "*a "),
		"tags":               fill("a: ", "!a "),
		"merge keys":         fill("", "<<: "),
		"arrows":             fill("a: ", "<"),
		"complex keys":       fill("", "? "),
		"documents":          fill("", "---\n"),
		"document ends":      fill("", "...\n"),
		"directives":         fill("", "%a\n"),
		"the same key":       fill("", "a: b\n"),
		"many keys":          numbered("", "a%d: b\n"),
		"many keys in flow":  numbered("a: {", "a%d: b, "),
		"commas":             fill("a: [", ","),
		"colons":             fill("a", ":"),
		"values":             fill(head+"machine: {what: [", "1,"),
		"tabs in quotes":     fill("a: \"", "\t") + "x\"",
		"line ends":          fill("a: |\n  b\n", "\n"),
		"blank lines":        fill("a: |\n  b\n", " \n"),
		"block texts":        fill("", "|\n"),
		"block lines":        fill("a: |\n", "  b\n"),
		"folded lines":       fill("a: >\n", "  b\n\n"),
		"comments":           fill("", "#\n"),
		"reserved":           fill("", "@"),
		"quotes":             fill("", "\""),
		"single quotes":      fill("a: '", "''"),
		"escapes":            fill("a: \"", "\\q"),
		"open quote":         fill("a: \"", "b\n"),
		"plain lines":        fill("a: b\n", "  c\n"),
		"same size":          fill(head+"sizes:\n", "  a: {kind: width}\n"),
		"unknown sizes":      numbered(head+"readings:\n", "  - {id: r%d, by: outside, of: {size: x}, with: y, saw: 1}\n"),
		"unknown methods":    numbered(head+"readings:\n", "  - {id: r%d, by: x}\n"),
		"unknown names":      numbered(head+"sizes: {a: {kind: width}}\nrelations:\n", "  - {that: a + b%d, is: 1}\n"),
		"unknown guesses":    numbered(head+"plans:\n  p: {holes: [a, b], guess: {", "h%d: [1, 2], "),
		"long formula":       fill(head+"sizes: {a: {kind: width}}\nrelations:\n  - that: a", " + a") + "\n    is: 1\n",
		"brackets in it":     fill(head+"sizes: {a: {kind: width}}\nrelations:\n  - that: a + ", "(") + "\n    is: 1\n",
		"long number":        fill(head+"sizes: {a: {kind: width, known: 1", "0") + "}}\n",
		"unknown materials":  numbered(head+"joints:\n", "  - {stud: {thread: M10, material: EM%d}, into: {thread: M10}}\n"),
		"long material":      fill(head+"part: {kind: nut, material: EN8", " EN8") + "}\n",
		"unknown threads":    numbered(head+"part:\n  kind: nut\n  sizes:\n", "    s%d: {thread: M10x%[1]d}\n"),
		"unknown mates":      numbered(head+"part:\n  kind: nut\n  sizes:\n", "    s%[1]d: {kind: width, goes-in: part.s%[1]d, fit: h%[1]d}\n"),
		"unknown measures":   numbered(head+"part:\n  kind: turned\n  shape:\n    steps:\n", "      - {diameter: s%d, length: 5}\n"),
		"unknown in stacks":  numbered(head+"part:\n  kind: nut\n  stacks:\n", "    s%[1]d: {that: part.s%[1]d}\n"),
		"unknown machines":   numbered(head+"shop: {lathe: {kind: lathe}}\nwork:\n", "  - {do: turn it, on: lathe%d}\n"),
		"many contacts":      numbered(head+"work:\n  - do: a\n    hold:\n      contacts:\n", "        c%d: {kind: stop, at: [0, 0], towards: 0}\n"),
		"the same joint":     fill(head+"joints:\n", "  - {id: a, sheared: []}\n"),
		"the same hole":      fill(head+"plans: {p: {holes: [a, b]}}\npart: {kind: plate, shape: {thickness: 5, disc: 9, holes: [{plan: p, diameter: 5, of: [", "a, ") + "b]}]}}\n",
		"too many values":    numbered(head+"kit: {m: {kind: micrometer}}\nsizes: {a: {kind: width}}\nreadings:\n  - {id: a, by: outside, of: {size: a}, with: m, saw: [", "%d, ") + "1]}\n",
	}
}

// TestHostile: each of these is refused, and soon.
func TestHostile(t *testing.T) {
	for name, source := range hostile() {
		start := time.Now()
		job, err := jobfile.Read("", []byte(source))
		if job != nil || err == nil {
			t.Errorf("%s: was read", name)
		}
		if took := time.Since(start); took > patience {
			t.Errorf("%s: took %v", name, took)
		}
	}
}

// TestLargeJob: a job that is large but right is read, and as quickly.
func TestLargeJob(t *testing.T) {
	source := numbered(head+"kit: {mic: {kind: micrometer}}\nsizes:\n", "  s%[1]d: {kind: width, surface: outside, say: one of very many}\n")
	source = source[:strings.LastIndex(source[:len(source)/2], "\n")+1]
	source = numbered(source+"readings:\n", "  - {id: r%[1]d, by: outside, of: {size: s%[1]d}, with: mic, saw: [5.00, 5.01]}\n")
	start := time.Now()
	job, err := jobfile.Read("", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	if least := hostileSize / 200; len(job.Sizes) < least || len(job.Readings) < least {
		t.Errorf("%d sizes, %d readings", len(job.Sizes), len(job.Readings))
	}
	if took := time.Since(start); took > patience {
		t.Errorf("took %v", took)
	}
}

// TestLargePart: a part with very many sizes, steps, holes, stacks and joints is
// read as quickly.
func TestLargePart(t *testing.T) {
	each := hostileSize / 500
	share := func(pattern string) string {
		var b strings.Builder
		for i := range each {
			fmt.Fprintf(&b, pattern, i)
		}
		return b.String()
	}
	source := head + "kit: {mic: {kind: micrometer}}\nsizes: {a: {kind: width}}\npart:\n  kind: turned\n  sizes:\n" +
		share("    s%[1]d: {kind: width, goes-in: a, fit: H7/g6}\n") +
		share("    t%[1]d: {thread: 7/16 BSW}\n") +
		"  stacks:\n" + share("    u%[1]d: {that: part.s%[1]d - a}\n") +
		"  shape:\n    steps:\n" + share("      - {diameter: s%[1]d, length: 5}\n") +
		"joints:\n" + share("  - {id: j%[1]d, stud: part.t%[1]d, into: {of: part.t%[1]d, material: EN8 R}, fuse: nut}\n")
	start := time.Now()
	job, err := jobfile.Read("", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	same(t, "sizes, steps, joints", []int{len(job.Part.Sizes), len(job.Part.Shape.Turned.Steps), len(job.Joints)}, []int{2 * each, each, each})
	if took := time.Since(start); took > patience {
		t.Errorf("took %v", took)
	}
}

// FuzzRead: whatever the bytes, there is either a job or faults that have their
// places, and nothing panics.
func FuzzRead(f *testing.F) {
	for _, pattern := range []string{"../../testdata/faults/*.yaml", "../../testdata/jobs/part-*.yaml", "../../examples/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range files {
			source, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(source)
		}
	}
	f.Add([]byte(example))
	f.Add([]byte(otherThings))
	f.Add([]byte(beforePart + joints))
	f.Add([]byte(shop + work))
	f.Fuzz(func(t *testing.T, source []byte) {
		job, err := jobfile.Read("", source)
		if (job == nil) == (err == nil) {
			t.Fatalf("job %v, error %v", job, err)
		}
		var faults trade.Faults
		if err != nil && !errors.As(err, &faults) {
			t.Fatalf("an error that is not faults: %v", err)
		}
		for _, fault := range faults {
			if fault.Pos.Line < 1 || fault.Pos.Column < 1 {
				t.Errorf("no place: %q", fault.Text)
			}
		}
	})
}
