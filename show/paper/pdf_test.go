package paper

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// pages writes the sample and a smaller page of other size.
func pages(w io.Writer) error {
	small := &ink.Sheet{Title: "small", Width: 150, Height: 100, Scale: 1}
	small.Add(dimensions()...)
	return PDF(w, []*ink.Sheet{sample(), small}, about)
}

func TestPDFIsSound(t *testing.T) {
	qpdf := oracle.Find(t, "qpdf", "qpdf")
	path := file(t, "sheet.pdf", pages)
	if said := string(qpdf.Output(t, nil, "--check", path)); !strings.Contains(said, "No syntax or stream encoding errors found") {
		t.Error(said)
	}
}

// TestPDFDraws counts the operators in the streams.
func TestPDFDraws(t *testing.T) {
	qpdf := oracle.Find(t, "qpdf", "qpdf")
	s := sample()
	path := file(t, "sheet.pdf", func(w io.Writer) error { return PDF(w, []*ink.Sheet{s}, about) })
	plain := string(qpdf.Output(t, nil, "--qdf", "--object-streams=disable", path, "-"))
	operators := map[string]int{}
	page, _, _ := strings.Cut(plain, "endstream") // the page comes first
	for line := range strings.Lines(page) {
		line = strings.TrimSpace(line)
		operators[line[strings.LastIndexByte(line, ' ')+1:]]++
	}
	want := counted(s)
	strokes := 0
	for _, m := range s.Flat() {
		if _, ok := m.(ink.Stroke); ok {
			strokes++
		}
	}
	if operators["S"] != strokes || operators["f"] != want.areas {
		t.Errorf("%d strokes and %d areas, want %d and %d", operators["S"], operators["f"], strokes, want.areas)
	}
	if got := strings.Count(page, "Tj"); got != want.texts {
		t.Errorf("%d texts, want %d", got, want.texts)
	}
}

func TestPDFIsSearched(t *testing.T) {
	pdftotext := oracle.Find(t, "pdftotext", "poppler-utils")
	path := file(t, "sheet.pdf", pages)
	text := string(pdftotext.Output(t, nil, "-raw", path, "-"))
	for _, words := range []string{"100 ±0.2", "⌀80 h6", "R20", "45°", "4 × ⌀8.5", "left ⌀19.02 ±0.01 at 45°", "Кириллица ελληνικά", "</text></svg>", `)Tj ET (\`} {
		if !strings.Contains(text, words) {
			t.Errorf("%q is not found in\n%s", words, text)
		}
	}
}

func TestPDFBringsItsFonts(t *testing.T) {
	pdffonts := oracle.Find(t, "pdffonts", "poppler-utils")
	list := strings.Split(strings.TrimSpace(string(pdffonts.Output(t, nil, file(t, "sheet.pdf", pages)))), "\n")[2:]
	if len(list) != 2 {
		t.Fatalf("%d fonts, want plain and bold:\n%s", len(list), strings.Join(list, "\n"))
	}
	for _, font := range list {
		fields := strings.Fields(font)
		if embedded := fields[len(fields)-5]; embedded != "yes" {
			t.Errorf("not embedded: %s", font)
		}
	}
}

func TestPDFPagesHaveTheirSize(t *testing.T) {
	pdfinfo := oracle.Find(t, "pdfinfo", "poppler-utils")
	said := string(pdfinfo.Output(t, nil, "-f", "1", "-l", "2", file(t, "sheet.pdf", pages)))
	for page, size := range map[int][2]float64{1: {210, 297}, 2: {150, 100}} {
		var wide, high float64
		_, after, _ := strings.Cut(said, fmt.Sprintf("Page    %d size:", page))
		if _, err := fmt.Sscanf(after, "%f x %f pts", &wide, &high); err != nil {
			t.Fatalf("page %d: %v in\n%s", page, err, said)
		}
		// MediaBox is written to a hundredth of a point, 0.0035 mm.
		if dw, dh := wide/pointsPerMillimetre-size[0], high/pointsPerMillimetre-size[1]; dw*dw+dh*dh > 0.0036*0.0036 {
			t.Errorf("page %d is %v × %v pt, want %v mm", page, wide, high, size)
		}
	}
	if !strings.Contains(said, about.Title) || !strings.Contains(said, "2024") {
		t.Errorf("title or date is missing:\n%s", said)
	}
}
