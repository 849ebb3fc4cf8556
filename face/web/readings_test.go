package web_test

import (
	"net/http"
	"strings"
	"testing"
)

// turned is a job in which one of the values has a turn of the thimble too many.
// The figures are constructed.
const turned = `oddleg: 1
job: Planer screw
units: mm
kit:
  mic: {kind: micrometer, resolution: 0.01 mm}
  cal: {kind: caliper, resolution: 0.01 mm}
sizes:
  a: {kind: diameter, surface: outside, wear: light}   # at the journal
readings:
  - {id: r, by: outside, of: {size: a}, with: mic, saw: [20.00, 20.50]}
  - {id: s, by: outside, of: {size: a}, with: cal, saw: 20.00}
  - {id: t, by: outside, of: {size: a}, with: cal, saw: 20.01}
relations:
  - {that: a, is: 20 mm, within: 0.5 mm}
`

// TestReadingsPage looks at what is said of each reading.
func TestReadingsPage(t *testing.T) {
	b := newBench(t, turned)
	page := b.see("readings")
	for _, want := range []string{
		"Read a outside", "with mic", "20.00 mm", "20.50 mm", "turn of the thimble", "a = 20 mm ± 0.5 mm", "Take a reading", "Read this next",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is not there", want)
		}
	}
	if strings.Index(page, "reading-t") > strings.Index(page, "reading-r") {
		t.Error("the latest reading is not first")
	}
	if page = newBench(t, groove).see("readings"); !strings.Contains(page, "agrees within 0.00") {
		t.Error("what agrees is not said to")
	}
	if page = b.see("next"); !strings.Contains(page, `<ol class="proposals"><li>`) {
		t.Error("nothing is proposed to be read next")
	}
}

// TestReadingsChanged does with readings what can be done with them.
func TestReadingsChanged(t *testing.T) {
	for _, test := range []struct {
		name, page string
		fields     []string
		want, gone string
	}{
		{"read again", "readings/s/more", []string{"saw", "20.02", "unit", "mm"}, "saw: [20.00, 20.02]", ""},
		{"set aside", "readings/r/aside", []string{"index", "1", "why", "turn misread", "aside", "yes"}, "set-aside: [1], why: turn misread", ""},
		{"all set aside", "readings/r/aside", []string{"index", "-1", "why", "a bent screw", "aside", "yes"}, "set-aside: all, why: a bent screw", ""},
		{"taken out", "readings/s/drop", nil, "id: t", "id: s"},
		{"tied", "ties", []string{"that", "2*a", "is", "1.575 in", "within", "0.01 in", "say", "two journals"}, "{that: 2*a, is: 1.575 in, within: 0.01 in, say: two journals}", ""},
		{"untied", "ties/1/drop", nil, "relations:", "within: 0.5 mm"},
	} {
		t.Run(test.name, func(t *testing.T) {
			b := newBench(t, turned)
			if w := b.send(test.page, test.fields...); w.Code != http.StatusSeeOther {
				t.Fatalf("status %d\n%s", w.Code, plainWrongs(w.Body.String()))
			}
			text := b.source()
			if !strings.Contains(text, test.want) || test.gone != "" && strings.Contains(text, test.gone) || !strings.Contains(text, "# at the journal") {
				t.Errorf("not as it should be:\n%s", text)
			}
			b.see("readings")
		})
	}
}

// TestTakenBack: what was set aside counts again.
func TestTakenBack(t *testing.T) {
	b := newBench(t, turned)
	b.send("readings/r/aside", "index", "1", "why", "turn misread", "aside", "yes")
	if page := b.see("readings"); !strings.Contains(page, "turn misread") || strings.Contains(page, "turn of the thimble") {
		t.Error("it is not set aside")
	}
	b.send("readings/r/aside", "index", "1", "aside", "no")
	if b.source() != turned {
		t.Errorf("not as it was:\n%s", b.source())
	}
}

// TestReadingsRefused: what cannot be done is said, and what was typed is there.
func TestReadingsRefused(t *testing.T) {
	for _, test := range []struct {
		name, page string
		fields     []string
		want       string
	}{
		{"no value", "readings/s/more", []string{"saw", " "}, "type what it showed"},
		{"no figure", "readings/s/more", []string{"saw", "20,x"}, `value="20,x"`},
		{"no reason", "readings/r/aside", []string{"index", "0", "aside", "yes"}, "say why"},
		{"no such value", "readings/r/aside", []string{"index", "7", "why", "odd", "aside", "yes"}, `value="odd"`},
		{"no such reading", "readings/x/drop", nil, "role=\"alert\""},
		{"half a tie", "ties", []string{"that", "a"}, "write both sides"},
		{"a tie that is none", "ties", []string{"that", "a + ", "is", "2"}, `value="a +"`},
		{"a size that is none", "ties", []string{"that", "b", "is", "2 mm"}, `value="2 mm"`},
	} {
		t.Run(test.name, func(t *testing.T) {
			b := newBench(t, turned)
			w := b.send(test.page, test.fields...)
			if page := w.Body.String(); w.Code != http.StatusUnprocessableEntity || !strings.Contains(page, test.want) {
				t.Errorf("status %d, without %q: %s", w.Code, test.want, plainWrongs(page))
			}
			if b.source() != turned {
				t.Error("it was saved")
			}
		})
	}
}

// TestSizes looks at the figures and at the working of a size, and describes it.
func TestSizes(t *testing.T) {
	b := newBench(t, groove)
	if page := b.see("sizes"); !strings.Contains(page, "50.01") || !strings.Contains(page, " in ±") || !strings.Contains(page, "checked by other readings") {
		t.Errorf("the figures are not there:\n%s", page)
	}
	page := b.see("sizes/wall")
	for _, want := range []string{"m = D + 2d", "Where the ± comes from", "reading a", "zero of mic", "pin6", "Worked with its numbers"} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is not in the working", want)
		}
	}
	fields := []string{"kind", "diameter", "surface", "outside", "wear", "light", "form", "0.05 mm", "say", "under the lip"}
	if w := b.send("sizes/wall", fields...); w.Code != http.StatusSeeOther {
		t.Fatalf("status %d\n%s", w.Code, plainWrongs(w.Body.String()))
	}
	if want := "wall: {kind: diameter, surface: outside, wear: light, form: 0.05 mm, say: under the lip}"; !strings.Contains(b.source(), want) {
		t.Errorf("%s is not in\n%s", want, b.source())
	}
	w := b.send("sizes/wall", append(fields, "guess", "a foot")...)
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), `value="a foot"`) {
		t.Errorf("status %d: what cannot be read is not told", w.Code)
	}
	if w := b.ask(http.MethodGet, "sizes/none", nil); w.Code != http.StatusNotFound {
		t.Errorf("a size that is not there: status %d", w.Code)
	}
}

// TestMeant decides what was meant, and takes it back.
func TestMeant(t *testing.T) {
	b := newBench(t, groove)
	page := b.see("meant")
	if !strings.Contains(page, "<strong>50 mm</strong>") || !strings.Contains(page, "<meter") {
		t.Errorf("50 mm is not offered:\n%s", page)
	}
	b.send("meant", "section", "sizes", "id", "wall", "meant", "50 mm")
	if !strings.Contains(b.source(), "meant: 50 mm") || !strings.Contains(b.see("meant"), "Take back") {
		t.Errorf("it is not decided:\n%s", b.source())
	}
	b.send("meant", "section", "sizes", "id", "wall")
	if b.source() != groove {
		t.Errorf("it is not taken back:\n%s", b.source())
	}
	for _, wrong := range [][]string{{"section", "kit", "id", "mic", "meant", "x"}, {"section", "sizes", "id", "none", "meant", "1 mm"}, {"section", "sizes", "id", "wall", "meant", "\x00"}} {
		if w := b.send("meant", wrong...); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%q: status %d", wrong, w.Code)
		}
	}
}

// TestUnreadable: a job whose text is wrong has all its pages, which say so.
func TestUnreadable(t *testing.T) {
	b := newBench(t, groove+"nonsense: 1\n")
	for _, page := range []string{"readings", "take", "take/wall", "take/by/outside", "sizes", "meant", "next", "ties"} {
		b.see(page)
	}
	if page := b.see("readings"); !strings.Contains(page, "put that right first") {
		t.Error("the readings do not say that the text cannot be read")
	}
}
