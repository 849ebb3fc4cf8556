package paper

import (
	"io"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/picture"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// surveyed are jobs with surveys, in millimetres and in inches, by what the names of
// their graphs begin with.
var surveyed = map[string]string{"lathe": "../../testdata/jobs/worn-slides.yaml", "slide": "../../examples/dovetail-slide.yaml"}

// graphs plots a survey of every kind, and wear over years.
func graphs(t *testing.T, width, height float64) map[string]*ink.Sheet {
	t.Helper()
	list := map[string]*ink.Sheet{}
	for of, path := range surveyed {
		data, err := os.ReadFile(path)
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
		add := func(name string, sheet *ink.Sheet, err error) {
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			list[of+"-"+name] = sheet
		}
		for i := range r.Answers {
			sheet, err := picture.Survey(&r.Answers[i], job.Units, width, height)
			add(r.Answers[i].Survey.ID, sheet, err)
		}
		for _, trends := range r.Things() {
			sheet, err := picture.Wear(trends, job.Units, width, height)
			add("wear-"+strings.ReplaceAll(trends[0].Thing(), " ", "-"), sheet, err)
		}
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
	for _, name := range []string{"lathe-wear-cross-screw", "slide-slide"} {
		for _, fault := range readDXF(t, all[name]).Faults {
			t.Errorf("%s: %s", name, fault)
		}
	}
	pdftotext := oracle.Find(t, "pdftotext", "poppler-utils")
	sheets := slices.Collect(maps.Values(all))
	path := file(t, "graphs.pdf", func(w io.Writer) error { return PDF(w, sheets, about) })
	text := strings.Join(strings.Fields(string(pdftotext.Output(t, nil, "-raw", path, "-"))), " ")
	for _, sheet := range sheets {
		if words := sheet.Title; !strings.Contains(text, words) {
			t.Errorf("%q is not found", words)
		}
	}
}
