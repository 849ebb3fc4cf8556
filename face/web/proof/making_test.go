package proof

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
)

// TestPrinted prints the sheet as the page shows it: as many pages of the same
// sizes as the file has, and every word that stands on its page once at the same
// place within half a millimetre, so that a drawing is true to scale.
func TestPrinted(t *testing.T) {
	s := fresh(t)
	p := open(t, browser(t), s, desktop)
	job := "/job/" + s.jobs()[0]
	p.visit(job + "/sheet")
	p.wait("document.querySelector('.paper') !== null")
	file := placed(t, []byte(s.get(job+"/sheet.pdf")))
	printed := placed(t, call(p, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: new(true)}).Data)
	if len(printed) != len(file) {
		t.Fatalf("%d pages are printed, and the file has %d", len(printed), len(file))
	}
	const near = 0.5 / 25.4 * 72 // points
	compared := 0
	for i := range file {
		if math.Abs(printed[i].width-file[i].width) > near || math.Abs(printed[i].height-file[i].height) > near {
			t.Errorf("page %d is %v by %v points, and of the file %v by %v", i+1, printed[i].width, printed[i].height, file[i].width, file[i].height)
		}
		for word, at := range file[i].words {
			there, ok := printed[i].words[word]
			if !ok || len(at) > 1 || len(there) > 1 {
				continue
			}
			compared++
			if math.Abs(there[0][0]-at[0][0]) > near || math.Abs(there[0][1]-at[0][1]) > near {
				t.Errorf("page %d: %q stands at %v, and in the file at %v", i+1, word, there[0], at[0])
			}
		}
	}
	if compared < 100 {
		t.Errorf("only %d words could be compared", compared)
	}
}

// pdfPage is one page of a PDF: its size, and the upper left corners of its words, in
// points.
type pdfPage struct {
	width, height float64
	words         map[string][][2]float64
}

var (
	pageOf = regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)">`)
	wordOf = regexp.MustCompile(`<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="[\d.-]+" yMax="[\d.-]+">(.*)</word>`)
)

// placed reads a PDF with poppler.
func placed(t *testing.T, data []byte) []pdfPage {
	t.Helper()
	path, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("pdftotext is missing (Debian: apt-get install poppler-utils)")
		}
		t.Skip("pdftotext is missing (Debian: apt-get install poppler-utils)")
	}
	command := exec.Command(path, "-bbox", "-", "-")
	command.Stdin = bytes.NewReader(data)
	out, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	number := func(text string) float64 {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	var pages []pdfPage
	for _, line := range strings.Split(string(out), "\n") {
		if m := pageOf.FindStringSubmatch(line); m != nil {
			pages = append(pages, pdfPage{number(m[1]), number(m[2]), map[string][][2]float64{}})
		}
		if m := wordOf.FindStringSubmatch(line); m != nil {
			words := pages[len(pages)-1].words
			words[m[3]] = append(words[m[3]], [2]float64{number(m[1]), number(m[2])})
		}
	}
	return pages
}

// TestProgress draws a job over and over: how far it is comes by itself, and it can
// be stopped; a shorter one shows what came of it by itself.
func TestProgress(t *testing.T) {
	s := fresh(t)
	p := open(t, browser(t), s, phone)
	job := "/job/" + s.jobs()[0]
	p.visit(job + "/simulation")
	ask[string](p, `document.querySelector("#trials").value = "1000000"`)
	p.press("Draw")
	p.wait("document.querySelector('progress').value > 0")
	p.accessible()
	before := ask[float64](p, "document.querySelector('progress').value")
	p.wait("document.querySelector('progress').value > " + strconv.FormatFloat(before, 'f', 0, 64))
	p.press("Stop it")
	p.says("It was stopped.")
	p.visit(job + "/simulation")
	p.press("Draw")
	p.says("Simulated 100000 times")
	p.accessible()
}
