package jobedit_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
)

func addSaw(reading string, saw ...string) func([]byte) ([]byte, error) {
	return func(source []byte) ([]byte, error) { return jobedit.AddSaw(source, reading, saw...) }
}

func setAside(reading string, index int, why string, aside bool) func([]byte) ([]byte, error) {
	return func(source []byte) ([]byte, error) { return jobedit.SetAside(source, reading, index, why, aside) }
}

// TestReadingEdits changes one line of a reading; all are constructed.
func TestReadingEdits(t *testing.T) {
	const before, after = "readings:\n  # first\n  - {id: o, saw: 1}\n", "\n  - {id: p, saw: 2} # last\n"
	for _, test := range []struct {
		line string
		edit func([]byte) ([]byte, error)
		want string
	}{
		{"- {id: a, by: outside, say: x}", addSaw("a", "5.01"), "- {id: a, by: outside, saw: 5.01, say: x}"},
		{"- {id: a, saw: 5.00, say: x} # !", addSaw("a", "5.01"), "- {id: a, saw: [5.00, 5.01], say: x} # !"},
		{"- {id: a, saw: [5.00,  5.01]}", addSaw("a", "1 1/8 in", "5.0 mm"), "- {id: a, saw: [5.00,  5.01, 1 1/8 in, 5.0 mm]}"},
		{"- {id: a, saw: [5.00]}", addSaw("a"), "- {id: a, saw: [5.00]}"},
		{"- id: a\n    saw:\n      - 5.00 # one\n      - 5.01", addSaw("a", "5.02"), "- id: a\n    saw:\n      - 5.00 # one\n      - 5.01\n      - 5.02"},
		{"- {id: t, by: touch, saw: [[1, 2], [3, 4]]}", addSaw("t", "5", "6"), "- {id: t, by: touch, saw: [[1, 2], [3, 4], [5, 6]]}"},
		{"- {id: t, by: touch, saw: [1, 2]}", addSaw("t", "5", "6"), "- {id: t, by: touch, saw: [[1, 2], [5, 6]]}"},
		{"- {id: t, by: touch}", addSaw("t", "5", "6"), "- {id: t, by: touch, saw: [5, 6]}"},
		{"- {id: a, saw: 1, say: x}", setAside("a", 0, "it slipped", true), "- {id: a, saw: 1, set-aside: [0], why: it slipped, say: x}"},
		{"- {id: a, saw: [1, 2, 3], set-aside: 2, why: bent}", setAside("a", 0, "", true), "- {id: a, saw: [1, 2, 3], set-aside: [0, 2], why: bent}"},
		{"- {id: a, saw: [1, 2, 3], set-aside: [0, 2], why: bent}", setAside("a", 0, "", false), "- {id: a, saw: [1, 2, 3], set-aside: [2], why: bent}"},
		{"- {id: a, saw: [1, 2, 3], set-aside: all, why: bent}", setAside("a", 1, "", false), "- {id: a, saw: [1, 2, 3], set-aside: [0, 2], why: bent}"},
		{"- {id: a, saw: [1, 2], set-aside: [1], why: bent}", setAside("a", 1, "", false), "- {id: a, saw: [1, 2]}"},
		{"- {id: a, saw: [1, 2], say: x}", setAside("a", -1, "bent", true), "- {id: a, saw: [1, 2], set-aside: all, why: bent, say: x}"},
		{"- {id: a, saw: [1, 2], set-aside: all, why: bent}", setAside("a", -1, "", false), "- {id: a, saw: [1, 2]}"},
	} {
		got, err := test.edit([]byte(before + "  " + test.line + after))
		if want := before + "  " + test.want + after; err != nil || string(got) != want {
			t.Errorf("%s: %v\ngot\n%s\nwant\n%s", test.line, err, got, want)
		}
	}
}

// TestWithoutReadings makes another of every job: it is read as planned, and nothing
// in it was seen.
func TestWithoutReadings(t *testing.T) {
	files, _ := filepath.Glob("../../testdata/jobs/*.yaml")
	shown, _ := filepath.Glob("../../examples/*.yaml")
	for _, file := range append(files, shown...) {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		old := read(t, string(source))
		text, err := jobedit.WithoutReadings(source, "Another: one")
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		job, err := jobfile.ReadPlanned(file, text)
		if err != nil {
			t.Errorf("%s: %v\n%s", file, err, text)
			continue
		}
		equal(t, file, []any{job.Name, len(job.Sizes), len(job.Instruments), len(job.Work)}, []any{"Another: one", len(old.Sizes), len(old.Instruments), len(old.Work)})
		for _, r := range job.Readings {
			if len(r.Saw) > 0 || r.Goes.Given() || r.Why != "" {
				t.Errorf("%s: reading %s was taken", file, r.ID)
			}
		}
		if strings.Count(string(source), "#") != strings.Count(string(text), "#") {
			t.Errorf("%s: a comment is lost\n%s", file, text)
		}
	}
}

// TestUnderWay: a job is read from its first line on.
func TestUnderWay(t *testing.T) {
	blank, err := jobedit.Blank("Nut: 1/2\"", "in", trade.Machine{What: "press", Built: 1936})
	equal(t, "blank", string(blank), "oddleg: 1\njob: 'Nut: 1/2\"'\nmachine: {what: press, built: 1936}\nunits: in\n")
	if err != nil {
		t.Error(err)
	}
	for _, source := range []string{
		string(blank), "oddleg: 1\njob: x\n", heading + "sizes:\nreadings:\nkit:\nchecks:\n", heading + "kit: {mic: {kind: micrometer}}\n",
		heading + "kit: {mic: {kind: micrometer}}\nsizes: {a: {kind: width}}\n", heading + "plans: {p: {holes: [a, b]}}\n", heading + "part: {kind: nut}\n",
	} {
		read(t, source)
	}
	for _, wrong := range []struct{ name, units string }{{"", "mm"}, {"x", "cm"}, {"a\x00", "mm"}} {
		if _, err := jobedit.Blank(wrong.name, wrong.units, trade.Machine{}); err == nil {
			t.Errorf("%q was taken", wrong)
		}
	}
}

func TestNextID(t *testing.T) {
	source := []byte("kit: {mic: {kind: micrometer}, r2: {kind: roller}}\nplans: {p: {holes: [h1, h2]}}\nreadings:\n  - {id: r1, saw: 1}\n")
	for _, test := range []struct{ section, stem, want string }{
		{"readings", "r", "r3"},
		{"readings", "", "r3"},
		{"kit", "mic", "mic2"},
		{"kit", "deep", "deep"},
		{"plans", "h", "h3"},
		{"sizes", "7/16 ⌀", "size716"},
		{"sizes", "in", "in2"},
		{"sizes", "bore of it", "boreofit"},
		{"joints", "", "n1"},
	} {
		equal(t, test.section+" "+test.stem, jobedit.NextID(source, test.section, test.stem), test.want)
	}
	equal(t, "no job", jobedit.NextID([]byte("a: ["), "kit", "r"), "r1")
}

func TestSections(t *testing.T) {
	const source = "oddleg: 1\r\njob: x\r\n\r\n# tools\r\nkit: # all\r\n  mic: {kind: micrometer}\r\n  # worn\r\n\r\n# sought\r\nsizes:\r\n  a: {kind: width}"
	kit, err := jobedit.Section([]byte(source), "kit")
	equal(t, "kit", []any{kit, err}, []any{"kit: # all\n  mic: {kind: micrometer}\n  # worn", nil})
	none, err := jobedit.Section([]byte(source), "work")
	equal(t, "none", []any{none, err}, []any{"", nil})
	for _, test := range []struct{ name, section, text, want string }{
		{"as it was", "kit", kit + "\n", source},
		{"changed", "kit", "kit:\n  rod: {kind: rod, size: 3}\n", strings.Replace(source, strings.ReplaceAll(kit, "\n", "\r\n"), "kit:\r\n  rod: {kind: rod, size: 3}", 1)},
		{"taken out", "sizes", " \n", strings.TrimSuffix(source, "\r\nsizes:\r\n  a: {kind: width}")},
		{"taken out with its comment", "kit", "", strings.Replace(source, strings.ReplaceAll(kit, "\n", "\r\n")+"\r\n", "", 1)},
		{"not there", "work", "", source},
		{"new", "readings", "readings: []", source + "\r\nreadings: []"},
		{"new in lines", "readings", "readings:\n  # none\n", source + "\r\n\r\nreadings:\r\n  # none"},
		{"new in the middle", "units", "units: in", strings.Replace(source, "job: x", "job: x\r\nunits: in", 1)},
	} {
		got, err := jobedit.SetSection([]byte(source), test.section, test.text)
		equal(t, test.name, []any{string(got), err}, []any{test.want, nil})
	}
	for _, wrong := range [][2]string{{"kit", "sizes:\n"}, {"kit", "kit:\nsizes:\n"}, {"kit", "kit: ["}, {"other", "other: 1"}, {"kit", "  kit: {}"}, {"kit", "text"}} {
		if got, err := jobedit.SetSection([]byte(source), wrong[0], wrong[1]); err == nil {
			t.Errorf("%q was taken:\n%s", wrong, got)
		}
	}
}

// BenchmarkAddSaw adds a value to a job of a hundred readings.
func BenchmarkAddSaw(b *testing.B) {
	var source strings.Builder
	source.WriteString(heading + "kit: {mic: {kind: micrometer}}\nsizes:\n  a: {kind: width}\nreadings:\n")
	for i := range 100 {
		fmt.Fprintf(&source, "  - {id: r%d, by: outside, of: {size: a}, with: mic, saw: [5.00, 5.01]} # by hand\n", i)
	}
	for b.Loop() {
		if _, err := jobedit.AddSaw([]byte(source.String()), "r50", "5.02"); err != nil {
			b.Fatal(err)
		}
	}
}
