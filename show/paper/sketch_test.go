package paper

import (
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// sketches lays out the sketch of every gauging method: sheets as they really
// are.
func sketches(t testing.TB) map[string]*ink.Sheet {
	t.Helper()
	list := map[string]*ink.Sheet{}
	for _, m := range gauge.Methods() {
		s, ok := m.Draw(m.Example)
		if !ok {
			continue
		}
		sheet, err := draw.Sketch(s, m.ID, func(role int) string { return fmt.Sprintf("%s-%d ⌀±°", m.ID, role+1) })
		if err != nil {
			t.Fatal(err)
		}
		list[m.ID] = sheet
	}
	return list
}

func TestPDFOfEverySketchIsSearched(t *testing.T) {
	pdftotext := oracle.Find(t, "pdftotext", "poppler-utils")
	var sheets []*ink.Sheet
	for _, sheet := range sketches(t) {
		sheets = append(sheets, sheet)
	}
	path := file(t, "all.pdf", func(w io.Writer) error { return PDF(w, sheets, about) })
	// The reader may break a line that stands upright between two words.
	text := strings.Join(strings.Fields(string(pdftotext.Output(t, nil, "-raw", path, "-"))), " ")
	for _, sheet := range sheets {
		for _, m := range sheet.Marks {
			if d, ok := m.(ink.Dimension); ok && !strings.Contains(text, d.Words) {
				t.Errorf("%s: %q is not found", sheet.Title, d.Words)
			}
		}
	}
}

// TestDXFOfSketches has lines at all angles, and angles.
func TestDXFOfSketches(t *testing.T) {
	all := sketches(t)
	for _, id := range []string{"sine-bar", "three-wires", "bolt-circle-chord"} {
		sheet := all[id]
		d := readDXF(t, sheet)
		for _, fault := range d.Faults {
			t.Errorf("%s: %s", id, fault)
		}
		i := 0
		for _, m := range sheet.Marks {
			want, ok := m.(ink.Dimension)
			if !ok {
				continue
			}
			if got := d.Dimensions[i]; math.Abs(got.Measures-want.Measures) > 1e-6 || got.Words != signs(want.Words) {
				t.Errorf("%s: %s measures %v, want %s and %v", id, got.Words, got.Measures, want.Words, want.Measures)
			}
			i++
		}
	}
}
