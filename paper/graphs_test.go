package paper

import (
	"io"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"oddleg/booklet"
	"oddleg/draw"
	"oddleg/jobfile"
	"oddleg/unit"
	"oddleg/upkeep"
)

// graphs plots a survey of every kind, and wear over years, in millimetres, and one
// survey in inches.
func graphs(t *testing.T, width, height float64) map[string]*draw.Sheet {
	t.Helper()
	data, err := os.ReadFile("../upkeep/testdata/worn-lathe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobfile.Read("", data)
	if err != nil {
		t.Fatal(err)
	}
	r, err := upkeep.Judge(job)
	if err != nil {
		t.Fatal(err)
	}
	list := map[string]*draw.Sheet{}
	add := func(name string, sheet *draw.Sheet, err error) {
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		list["survey-"+name] = sheet
	}
	for i := range r.Answers {
		sheet, err := booklet.Survey(&r.Answers[i], unit.Millimetre, width, height)
		add(r.Answers[i].Survey.ID, sheet, err)
	}
	sheet, err := booklet.Survey(&r.Answers[1], unit.Inch, width, height)
	add("inch", sheet, err)
	for _, trends := range r.Things() {
		sheet, err := booklet.Wear(trends, unit.Millimetre, width, height)
		add(strings.ReplaceAll(trends[0].Thing(), " ", "-"), sheet, err)
	}
	return list
}

// TestGraphsDoNotOverlap: nothing lies over anything else, small or large.
func TestGraphsDoNotOverlap(t *testing.T) {
	for _, size := range [][2]float64{{90, 70}, {150, 85}, {190, 120}} {
		for name, sheet := range graphs(t, size[0], size[1]) {
			for _, fault := range draw.Overlaps(sheet) {
				t.Errorf("%s, %v: %s", name, size, fault)
			}
		}
	}
}

// TestGraphsInEveryFormat: DXF is sound, and what is written is found in PDF.
func TestGraphsInEveryFormat(t *testing.T) {
	all := graphs(t, 150, 85)
	for _, name := range []string{"survey-cross-screw", "survey-bed"} {
		for _, fault := range readDXF(t, all[name]).Faults {
			t.Errorf("%s: %s", name, fault)
		}
	}
	need(t, "poppler-utils", "pdftotext", "-v")
	sheets := slices.Collect(maps.Values(all))
	path := file(t, "graphs.pdf", func(w io.Writer) error { return PDF(w, sheets, about) })
	text := strings.Join(strings.Fields(output(t, "pdftotext", "-raw", path, "-")), " ")
	for _, sheet := range sheets {
		if words := sheet.Title; !strings.Contains(text, words) {
			t.Errorf("%q is not found", words)
		}
	}
}
