package web_test

import (
	"net/http"
	"os"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/examples"
)

// checkedPin is a job with a part, a shop, joints and checks.
func checkedPin(t *testing.T) *bench {
	t.Helper()
	source, err := os.ReadFile("../../testdata/jobs/checked-pin.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return newBench(t, string(source))
}

// wants fails where a page lacks words that it must have.
func wants(t *testing.T, what, text string, words ...string) {
	t.Helper()
	for _, word := range words {
		if !strings.Contains(text, word) {
			t.Errorf("%s: %q is missing", what, word)
		}
	}
}

// TestEntries adds and changes entries of the text by their forms. What was not
// changed stays as it was written.
func TestEntries(t *testing.T) {
	for _, test := range []struct {
		name, page string
		fields     []string
		want       []string // in the text after it
		gone       string
	}{
		{
			"a size that goes in", "fit/new",
			[]string{"id", "nose", "how", "goes-in", "of", "guide", "kind", "diameter", "clearance", "0.02..0.05 mm", "say", "the new nose"},
			[]string{"nose:", "goes-in: guide", "clearance: 0.02..0.05 mm", "say: the new nose", "# Checks of a part: read warm"},
			"",
		},
		{
			"a thread", "fit/new",
			[]string{"id", "tail", "how", "thread", "of", "M10", "kind", "diameter", "class", "6g"},
			[]string{"tail:", "thread: M10", "class: 6g"},
			"",
		},
		{
			"a size that goes otherwise", "fit/shank",
			[]string{"how", "is", "of", "30 mm", "kind", "diameter", "surface", "outside", "within", "0.02 mm"},
			[]string{"shank: {kind: diameter", "is: 30 mm", "within: 0.02 mm"},
			"goes-in",
		},
		{
			"another clearance", "fit/shank",
			[]string{"how", "goes-in", "of", "guide", "kind", "diameter", "surface", "outside", "clearance", "0.02..0.06"},
			[]string{"shank: {kind: diameter, goes-in: guide, clearance: 0.02..0.06}"},
			"0.01..0.07",
		},
		{
			"a machine", "setups/machines/new",
			[]string{"id", "planer", "kind", "planer", "say", "slow"},
			[]string{"planer:", "kind: planer", "lathe: {kind: lathe, dials: {cross-slide: {division: 0.02 mm, reads: radius}}}"},
			"",
		},
		{
			"a lathe's gears", "setups/machines/lathe",
			[]string{"kind", "lathe", "speeds", "60, 120", "leadscrew", "8 tpi", "gears", "20, 40, 50, 127"},
			[]string{"dials: {cross-slide: {division: 0.02 mm, reads: radius}}", "speeds: [60, 120]", "leadscrew: 8 tpi", "gears: [20, 40, 50, 127]"},
			"",
		},
		{
			"an operation", "setups/operations/new",
			[]string{"do", "file the flats", "makes", "part", "on", ""},
			[]string{"do: file the flats", "makes: part", "{do: turn it, on: lathe, makes: part}"},
			"",
		},
		{
			"an operation without a name", "setups/operations/operation%201",
			[]string{"do", "turn it all over", "makes", "part", "on", "lathe"},
			[]string{"{do: turn it all over, on: lathe, makes: part}"},
			"",
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			b := checkedPin(t)
			if w := b.send(test.page, test.fields...); w.Code != http.StatusSeeOther {
				t.Fatalf("status %d\n%s", w.Code, w.Body)
			}
			wants(t, "the text", b.source(), test.want...)
			if test.gone != "" && strings.Contains(b.source(), test.gone) {
				t.Errorf("%q is still there", test.gone)
			}
		})
	}
}

// TestWrongEntry gives a form back as it was typed, with what is wrong, and saves
// nothing.
func TestWrongEntry(t *testing.T) {
	for _, test := range []struct {
		name, page string
		fields     []string
		want       []string
	}{
		{
			"no such mate", "fit/new",
			[]string{"id", "nose", "how", "goes-in", "of", "giude", "kind", "diameter", "clearance", "0.02..0.05 mm"},
			[]string{`value="giude"`, `value="0.02..0.05 mm"`, `value="nose"`, "guide", `role="alert"`},
		},
		{"called like another", "fit/new", []string{"id", "shank", "how", "is", "of", "3 mm", "kind", "diameter"}, []string{"already", `value="3 mm"`}},
		{"no choice", "fit/new", []string{"id", "nose", "how", "", "of", "3 mm", "kind", "diameter"}, []string{"none of its choices"}},
		{"no length", "setups/machines/lathe", []string{"kind", "lathe", "leadscrew", "eight"}, []string{`value="eight"`, `aria-invalid="true"`}},
		{
			"a survey without an instrument", "upkeep/new",
			[]string{"kind", "lost-motion", "date", "2024-03-31", "at", "10", "saw", "0.1"},
			[]string{"with", `value="2024-03-31"`, `value="0.1"`, `role="alert"`},
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			b := checkedPin(t)
			before := b.revision()
			w := b.send(test.page, test.fields...)
			if w.Code != http.StatusUnprocessableEntity {
				t.Errorf("status %d", w.Code)
			}
			wants(t, "the form", w.Body.String(), test.want...)
			if b.revision() != before {
				t.Error("it is saved all the same")
			}
		})
	}
}

// TestDropEntry takes a size of the part out that nothing needs.
func TestDropEntry(t *testing.T) {
	b := checkedPin(t)
	if w := b.send("fit/new", "id", "spare", "how", "is", "of", "3 mm", "kind", "length"); w.Code != http.StatusSeeOther {
		t.Fatalf("status %d\n%s", w.Code, w.Body)
	}
	if w := b.send("fit/spare/drop"); w.Code != http.StatusSeeOther || strings.Contains(b.source(), "spare") {
		t.Errorf("status %d\n%s", w.Code, b.source())
	}
	if w := b.send("fit/shank/drop"); w.Code != http.StatusUnprocessableEntity || !strings.Contains(b.source(), "shank:") {
		t.Errorf("a size that the shape needs is taken out: status %d", w.Code)
	}
}

// TestBeginPart begins each kind of part in a job that has none, and sees it
// drawn, in every format or with a reason.
func TestBeginPart(t *testing.T) {
	page := newBench(t, begun).see("part")
	for _, pattern := range examples.Parts() {
		wants(t, "the patterns", page, `value="`+pattern.Name+`"`)
		b := newBench(t, begun)
		for range 2 { // sent twice it is saved once
			if w := b.ask(http.MethodPost, "part/begin", map[string][]string{"from": {"1"}, "pattern": {pattern.Name}}); w.Code != http.StatusSeeOther {
				t.Fatalf("%s: status %d\n%s", pattern.Name, w.Code, w.Body)
			}
		}
		if b.revision() != 2 {
			t.Errorf("%s: revision %d", pattern.Name, b.revision())
		}
		wants(t, pattern.Name, b.see("part"), "<svg", "drawing.pdf", "body.step")
		for file, begins := range map[string]string{
			"drawing.pdf": "%PDF", "drawing.svg?angle=third&units=both": "<?xml", "drawing.dxf": "", "body.stl": "", "body.3mf": "PK", "sheet.pdf": "%PDF",
		} {
			w := b.ask(http.MethodGet, file, nil)
			if w.Code != http.StatusOK || !strings.HasPrefix(w.Body.String(), begins) || !strings.HasPrefix(w.Header().Get("Content-Disposition"), "attachment") {
				t.Errorf("%s, %s: status %d, %.100s", pattern.Name, file, w.Code, w.Body)
			}
		}
		if w := b.ask(http.MethodGet, "body.step", nil); w.Code != http.StatusOK && !strings.Contains(w.Body.String(), "a STEP body is made only of") {
			t.Errorf("%s: a body is refused without a reason: %d", pattern.Name, w.Code)
		}
	}
	if n := strings.Count(page, `class="picture"`); n != len(examples.Parts()) {
		t.Errorf("%d patterns have a picture, of %d", n, len(examples.Parts()))
	}
}

// TestPartHead changes what the part is called and made of.
func TestPartHead(t *testing.T) {
	b := checkedPin(t)
	if w := b.send("part", "name", "Guide pin", "material", "080M40 R", "quantity", "3", "holds", "0.02 mm"); w.Code != http.StatusSeeOther {
		t.Fatalf("status %d\n%s", w.Code, w.Body)
	}
	wants(t, "the text", b.source(), "material: 080M40 R", "quantity: 3", "name: Guide pin\n")
	w := b.send("part", "name", "Guide pin", "material", "cheese", "quantity", "many", "holds", "0.02 mm")
	if w.Code != http.StatusUnprocessableEntity {
		t.Errorf("status %d", w.Code)
	}
	wants(t, "the page", w.Body.String(), `value="many"`, `value="cheese"`)
	if w := b.ask(http.MethodGet, "part?scale=big", nil); !strings.Contains(w.Body.String(), "two numbers with : between") {
		t.Error("a scale that is none is not told")
	}
}

// TestCheckInTheMachine reads the part in the machine and is told at once what is to
// come off: the head is to be as the old one, which read 24.980 and 24.981 mm, and
// the new one reads 25.40 mm. The figures are constructed.
func TestCheckInTheMachine(t *testing.T) {
	b := checkedPin(t)
	wants(t, "the sheet", b.see("checks"), `id="check-head"`, "Should show", "Take off", `name="piece"`)
	w := b.send("checks", "size", "head", "with", "fine", "saw", "25.40", "unit", "mm", "in-machine", "yes", "piece", "2")
	if w.Code != http.StatusSeeOther || !strings.HasSuffix(w.Header().Get("Location"), "checks#check-head") {
		t.Fatalf("status %d, to %s\n%s", w.Code, w.Header().Get("Location"), w.Body)
	}
	wants(t, "the text", b.source(), "by: outside", "size: part.head", "saw: [25.40 mm]", "in-machine: yes", "piece: 2")
	page := b.see("checks")
	_, head, _ := strings.Cut(page, `id="check-head"`)
	head, _, _ = strings.Cut(head, "</li>")
	_, second, _ := strings.Cut(head, "Piece 2: ")
	wants(t, "what was read", second, "not there yet", "Take off 0.419 mm more on the diameter: one cut.")
	if w := b.send("checks", "size", "shank", "with", "nothing", "saw", "30.25", "unit", "mm"); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("with no instrument: status %d", w.Code)
	}
	if w := b.send("checks", "size", "shank", "with", "nibs", "saw", "thirty", "unit", "mm"); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "thirty") {
		t.Errorf("what is no length: status %d", w.Code)
	}
	if w := b.send("checks/old", "reading", "b", "saw", "24.99", "unit", "mm"); w.Code != http.StatusSeeOther {
		t.Fatalf("status %d\n%s", w.Code, w.Body)
	}
	wants(t, "the text", b.source(), "size: old", "on: old", "24.99 mm")
}

// TestTakeSurvey writes a survey with places, and one with rollers, as they are
// typed.
func TestTakeSurvey(t *testing.T) {
	b := newBench(t, begun+"kit:\n  clock: {kind: dial}\n  mic: {kind: micrometer}\n  r6: {kind: roller, size: 6 mm}\n")
	wants(t, "the kinds", b.see("upkeep/new"), "kind=lost-motion", "kind=dovetail")
	wants(t, "the form", b.see("upkeep/new?kind=lost-motion"), `name="end-float"`, `name="at"`, `type="date"`)
	for _, fields := range [][]string{
		{
			"kind", "lost-motion", "of", "cross screw", "date", "2024-02-29", "with", "clock", "end-float", "0.01, 0.02",
			"at", "20", "saw", "0.12", "at", "60", "saw", "0.20, 0.21", "at", "", "saw", "", "at", "100", "saw", "0.11",
		},
		{
			"kind", "dovetail", "of", "slide", "date", "2024-02-29", "with", "mic", "side", "male", "angle", "55",
			"at", "0", "roller", "r6", "raised", "", "saw", "80.11", "at", "200", "roller", "r6", "raised", "", "saw", "80.15",
		},
	} {
		if w := b.send("upkeep/new", fields...); w.Code != http.StatusSeeOther {
			t.Fatalf("%s: status %d\n%s", fields[1], w.Code, w.Body)
		}
	}
	wants(t, "the text", b.source(), "kind: lost-motion", "of: cross screw", "end-float: [0.01, 0.02]", "[0.20, 0.21]", "roller: r6", "saw: 80.15")
	wants(t, "the page", b.see("upkeep"), "cross screw")
}

// TestDividing asks how a table is turned.
func TestDividing(t *testing.T) {
	b := newBench(t, begun+"shop:\n  mill: {kind: mill, rotary-table: {ratio: 40, plates: [15, 21, 33]}}\n")
	wants(t, "by seven", b.see("setups/dividing?table=mill&into=7"), "7 divisions", "exact", "15", "21") // 40/7 = 5 15/21
	wants(t, "by an angle", b.see("setups/dividing?table=mill&into=12+deg"), "Steps of 12")
	wants(t, "nonsense", b.see("setups/dividing?table=mill&into=lots"), "lots", `role="alert"`)
}

// ended waits for the end of long work and returns its page.
func (b *bench) ended(at string) string {
	b.t.Helper()
	_, at, _ = strings.Cut(at, "/job/"+b.job+"/")
	b.wait(strings.TrimPrefix(at, "long/"))
	return b.see(at)
}

// TestLongWork draws a job, seeks gears, and stops what takes too long.
func TestLongWork(t *testing.T) {
	b := checkedPin(t)
	at := b.send("simulation", "trials", "10000").Header().Get("Location")
	if again := b.send("simulation", "trials", "10000").Header().Get("Location"); again != at {
		t.Errorf("asked twice it is done twice: %s and %s", at, again)
	}
	wants(t, "the simulation", b.ended(at), "Simulated 10000 times", "guide")
	if w := b.send("simulation", "trials", "10"); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("too few: status %d", w.Code)
	}

	endless := b.send("simulation", "trials", "1000000").Header().Get("Location")
	_, page, _ := strings.Cut(endless, "/job/"+b.job+"/")
	wants(t, "under way", b.see(page), "<progress", "Stop it", `hx-trigger="every 500ms"`, "Look again")
	if w := b.send("simulation", "trials", "100000"); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "stop it first") {
		t.Errorf("one person has two at once: status %d", w.Code)
	}
	if w := b.send(page + "/stop"); w.Code != http.StatusSeeOther {
		t.Errorf("status %d", w.Code)
	}
	wants(t, "stopped", b.ended(endless), "It was stopped.")

	if w := b.send("setups/machines/lathe", "kind", "lathe", "leadscrew", "8 tpi", "gears", "20, 35, 40, 50, 127"); w.Code != http.StatusSeeOther {
		t.Fatalf("status %d\n%s", w.Code, w.Body)
	}
	at = b.send("setups/gears", "lathe", "lathe", "pitch", "14 tpi", "starts", "1", "length", "50").Header().Get("Location")
	wants(t, "the gears", b.ended(at), "Change gears for 14 tpi", "20", "35", "exact") // 8/14 = 20/35
	if w := b.ask(http.MethodGet, "long/0000", nil); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "ask for it again") {
		t.Errorf("what was forgotten: status %d", w.Code)
	}
}
