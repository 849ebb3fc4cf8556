package proof

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"

	"codeberg.org/oddleg/oddleg/testdata/oracle"
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
	out := oracle.Find(t, "pdftotext", "poppler-utils").Output(t, data, "-bbox", "-", "-")
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

// longJob is a job that takes minutes to draw a million times, however quick the
// machine: a wall read over hundreds of pins, each of which is unknown too. The
// figures are constructed.
func longJob() string {
	const pins = 300
	var kit, readings strings.Builder
	for i := range pins {
		size := 3 + 0.01*float64(i)
		fmt.Fprintf(&kit, "  pin%d: {kind: pin, size: %.2f mm, tolerance: 0.002 mm}\n", i, size)
		fmt.Fprintf(&readings, "  - {id: r%d, by: over-two-pins, of: {wall: wall, pin: pin%d}, with: mic, saw: %.2f}\n", i, i, 50+2*size+0.01*float64(i%2))
	}
	return "oddleg: 1\njob: A wall over many pins\nunits: mm\nkit:\n  mic: {kind: micrometer, resolution: 0.01 mm}\n" + kit.String() +
		"sizes:\n  wall: {kind: diameter, surface: outside, wear: light}\nreadings:\n" + readings.String()
}

// TestProgress draws a job over and over: how far it is comes by itself, and it can
// be stopped, for the work lasts longer than the test looks at it; a shorter one
// shows what came of it by itself.
func TestProgress(t *testing.T) {
	s := fresh(t)
	p := open(t, browser(t), s, phone)
	long := strings.TrimSuffix(s.send("/new", "once", "CDEFGH", "name", "A wall over many pins", "units", "mm"), "/readings")
	s.send(long+"/text", "from", "1", "text", longJob())
	p.visit(long + "/simulation")
	ask[string](p, `document.querySelector("#trials").value = "1000000"`)
	p.press("Draw")
	p.wait("document.querySelector('progress').value > 0")
	p.accessible()
	before := ask[float64](p, "document.querySelector('progress').value")
	p.wait("document.querySelector('progress').value > " + strconv.FormatFloat(before, 'f', 0, 64))
	p.press("Stop it")
	p.says("It was stopped.")
	p.visit("/job/" + s.jobs()[0] + "/simulation")
	p.press("Draw")
	p.says("Simulated 100000 times")
	p.accessible()
}
