package report

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/say"
)

func adjusted(t *testing.T, source string) *adjust.Result {
	t.Helper()
	job, err := jobfile.Read("", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

const head = `
oddleg: 1
job: test
kit:
  mic: {kind: micrometer, resolution: 0.01 mm}
  cal: {kind: caliper, resolution: 0.01 mm}
  pro: {kind: protractor, resolution: 0.1 deg}
  tip: {kind: stylus, size: 2 mm}
  dro: {kind: readout, resolution: 0.005 mm}
`

// decoded returns a result's JSON as any other program reads it.
func decoded(t *testing.T, r *adjust.Result) map[string]any {
	t.Helper()
	var page bytes.Buffer
	if err := JSON(&page, r); err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(page.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// at walks into decoded JSON by keys and indices.
func at(t *testing.T, value any, path ...any) any {
	t.Helper()
	for _, step := range path {
		switch key := step.(type) {
		case string:
			object, ok := value.(map[string]any)
			if _, there := object[key]; !ok || !there {
				t.Fatalf("no %v of %v in %v", key, path, value)
			}
			value = object[key]
		case int:
			value = value.([]any)[key]
		}
	}
	return value
}

func TestJSONOfWhatIsNotDetermined(t *testing.T) {
	out := decoded(t, adjusted(t, head+`
sizes: {a: {kind: width}, lost: {kind: angle}}
readings: [{id: r, by: outside, of: {size: a}, with: mic, saw: 20}]
`))
	for _, key := range []string{"value", "u", "low", "high"} {
		if got := at(t, out, "sizes", "lost", key); got != nil {
			t.Errorf("%s of a size that is not determined is %v, want null", key, got)
		}
	}
	if at(t, out, "sizes", "lost", "determined") != false || at(t, out, "sizes", "lost", "unit") != "deg" {
		t.Errorf("lost is %v", at(t, out, "sizes", "lost"))
	}
	if got := at(t, out, "readings", 0, "smallest_catchable"); got != nil {
		t.Errorf("smallest catchable blunder of a value that nothing checks is %v, want null", got)
	}
	if at(t, out, "undetermined", 0, "sizes", 0) != "lost" {
		t.Errorf("undetermined: %v", at(t, out, "undetermined"))
	}
}

func TestJSONIsInDegreesAndMillimetres(t *testing.T) {
	out := decoded(t, adjusted(t, strings.Replace(head, "job: test", "job: test\nunits: in", 1)+`
sizes: {w: {kind: width}, v: {kind: angle}, n: {kind: number, known: 2, within: 0.1}}
readings:
  - {id: r, by: outside, of: {size: w}, with: mic, saw: 1}
  - {id: s, by: protractor, of: {angle: v}, with: pro, saw: 60.5}
`))
	if at(t, out, "sizes", "w", "value") != 25.4 || at(t, out, "sizes", "w", "unit") != "mm" {
		t.Errorf("w is %v, want 25.4 mm", at(t, out, "sizes", "w"))
	}
	if got := at(t, out, "sizes", "v", "value").(float64); got < 60.4999 || got > 60.5001 {
		t.Errorf("v is %v, want 60.5 deg", got)
	}
	if got := at(t, out, "readings", 1, "saw").(float64); got < 60.4999 || got > 60.5001 {
		t.Errorf("saw %v, want 60.5", got)
	}
	if at(t, out, "sizes", "n", "unit") != "" {
		t.Error("a number has no unit")
	}
}

func TestShownInOtherUnitsNothingElseChanges(t *testing.T) {
	source := head + `
sizes: {a: {kind: width}, b: {kind: width}}
readings: [{id: r, by: outside, of: {size: a}, with: mic, saw: 25.4}]
relations: [{that: b - a, is: "1"}]
`
	r := adjusted(t, source)
	before := decoded(t, r)
	r.Job.Units = unit.Inch
	if got := decoded(t, r); !reflect.DeepEqual(got, before) {
		t.Errorf("the figures changed: %v, were %v", got, before)
	}
	var page bytes.Buffer
	if err := Table(&page, r, Style{}); err != nil {
		t.Fatal(err)
	}
	if inch, mm := strings.Index(page.String(), "1.0000"), strings.Index(page.String(), "25.400"); inch < 0 || mm < inch {
		t.Errorf("want inches first, then mm:\n%s", &page)
	}
}

func TestJSONOfPlacesAndPairs(t *testing.T) {
	out := decoded(t, adjusted(t, head+`
sizes: {d: {kind: diameter}}
places: {ring: {kind: circle, diameter: d}, edge: {kind: line}}
readings:
  - {id: t, by: touch, of: {circle: ring, stylus: tip, side: 1}, with: dro, saw: [[11, 0], [-11, 0], [0, 11], [0, -11]]}
  - {id: u, by: touch, of: {line: edge, stylus: tip, side: -1}, with: dro, saw: [[0, 20], [30, 20], [60, 20]]}
`))
	if at(t, out, "places", "ring", "determined") != true || at(t, out, "places", "edge", "determined") != true {
		t.Errorf("places %v", at(t, out, "places"))
	}
	if angle := at(t, out, "places", "edge", "angle").(float64); angle < 89.99 || angle > 90.01 {
		t.Errorf("the line's angle is %v, want 90", angle)
	}
	if offset := at(t, out, "places", "edge", "offset").(float64); offset < 20.99 || offset > 21.01 {
		t.Errorf("the line's offset is %v, want 21", offset)
	}
	if pair := at(t, out, "readings", 0, "saw").([]any); len(pair) != 2 {
		t.Errorf("a touch saw %v, want a pair", pair)
	}
}

func TestJSONOfWhatCannotBeToldApart(t *testing.T) {
	out := decoded(t, adjusted(t, head+`
sizes: {a: {kind: width}}
readings:
  - {id: r, by: outside, of: {size: a}, with: mic, saw: 20}
  - {id: s, by: outside, of: {size: a}, with: cal, saw: 21}
`))
	group := at(t, out, "either", 0).([]any)
	if len(group) != 4 || at(t, group, 2, "reading") != "r" || at(t, group, 2, "index") != 0.0 || at(t, group, 0, "kit") == "" {
		t.Errorf("either %v", group)
	}
}

// TestEveryJobReports prints every job in every form: nothing that is no
// number, and no line of the table so wide that a page cuts it.
func TestEveryJobReports(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no jobs")
	}
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		r := adjusted(t, string(source))
		decoded(t, r)
		var table, working bytes.Buffer
		if Table(&table, r, Style{}) != nil || Working(&working, r, Style{}) != nil {
			t.Errorf("%s cannot be printed", file)
		}
		for _, word := range []string{"NaN", "Inf", "%!", "?"} {
			if strings.Contains(table.String()+working.String(), word) {
				t.Errorf("%s prints %s", file, word)
			}
		}
		for _, s := range r.Sizes {
			if !strings.Contains(table.String(), s.ID) {
				t.Errorf("%s: the table does not show %s", file, s.ID)
			}
		}
	}
}

func TestEveryMethodIsExplained(t *testing.T) {
	for _, m := range gauge.Methods() {
		var page bytes.Buffer
		if err := spoken(&page, say.Method(m), nil, Style{}); err != nil {
			t.Fatal(err)
		}
		text := page.String()
		for _, word := range []string{"NaN", "Inf", "%!"} {
			if strings.Contains(text, word) {
				t.Errorf("%s: the explanation prints %s", m.ID, word)
			}
		}
		for _, role := range m.Roles {
			if !strings.Contains(text, role.Name) {
				t.Errorf("%s: role %s is not explained", m.ID, role.Name)
			}
		}
	}
}

func TestFaultsShowTheirPlace(t *testing.T) {
	source := []byte("job: x\r\n" + strings.Repeat("é", 200) + "\x1b[31mfault\n")
	var page bytes.Buffer
	Faults(&page, "job.yaml", source, trade.Faults{
		{Pos: trade.Pos{Line: 2, Column: 206}, Text: "wrong"},
		{Text: "nowhere"},
		{Pos: trade.Pos{Line: 99, Column: 1}, Text: "beyond"},
	})
	lines := strings.Split(page.String(), "\n")
	if lines[0] != "job.yaml:2:206: wrong" || strings.Contains(page.String(), "\x1b") {
		t.Errorf("%q", page.String())
	}
	if mark := strings.IndexRune(lines[2], '^'); []rune(lines[1])[mark] != 'f' {
		t.Errorf("the mark is not below the f:\n%s\n%s", lines[1], lines[2])
	}
	if !strings.Contains(page.String(), "job.yaml: nowhere") || !strings.Contains(page.String(), "job.yaml: beyond") {
		t.Errorf("%q", page.String())
	}
}
