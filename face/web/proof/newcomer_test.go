package proof

import (
	"encoding/json"
	"io"
	"math"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// plunger is what a newcomer reads on the index plunger: as the example has it.
var plunger = []struct {
	id  string
	saw []string
}{
	{"a", []string{"19.04", "19.04", "19.04"}},
	{"b", []string{"25.25", "25.25"}},
	{"c", []string{"28.74", "28.73"}},
	{"d", []string{"7.90", "7.90"}},
	{"e", []string{"20.89", "20.90"}},
	{"f", []string{"22.77", "22.77"}},
	{"g", []string{"11.03", "11.03"}},
	{"h", []string{"11.52", "11.52"}},
	{"i", []string{"11.84", "11.83"}},
	{"j", []string{"19.07", "19.08", "19.07"}},
}

// hand is how a person uses a page: by pointing, or with the keyboard alone.
type hand struct {
	press func(words string)
	fill  func(label, value string)
}

func pointing(p *tab) hand { return hand{p.press, p.fill} }

func typing(p *tab) hand {
	return hand{
		press: func(words string) {
			to := p.leadsTo(p.focus(p.found(words)))
			p.focusSeen()
			p.key("\r")
			p.arrive(to)
		},
		fill: func(label, value string) {
			p.settle()
			p.focus(p.field(label))
			p.focusSeen()
			p.typeOver(value)
		},
	}
}

// TestNewcomer takes the part of an example from no reading to a printed sheet
// and its spare on the shelf: on a telephone, on a desktop, and with the keyboard
// alone.
func TestNewcomer(t *testing.T) {
	chromium := browser(t)
	for _, way := range []struct {
		name string
		on   screen
		by   func(*tab) hand
	}{{"telephone", phone, pointing}, {"desktop", desktop, pointing}, {"keyboard", desktop, typing}} {
		t.Run(way.name, func(t *testing.T) {
			s := fresh(t)
			p := open(t, chromium, s, way.on)
			p.visit("/")
			fromReadingsToTheShelf(p, way.by(p))
		})
	}
}

func fromReadingsToTheShelf(p *tab, by hand) {
	p.t.Helper()
	by.press("Index plunger and its bush")
	by.press("Record")
	by.fill("Another job like it", "Plunger of the second table")
	by.press("Begin it")
	p.says("Plunger of the second table")
	for _, r := range plunger {
		ask := "Read it: "
		for _, saw := range r.saw {
			by.press(ask + r.id)
			by.fill("It showed", saw)
			p.key("\r")
			p.settle()
			p.says("Read again")
			p.wait("document.activeElement !== document.body") // the keyboard goes on from there
			ask = "Read again: "
		}
	}
	p.says("10 of 10 sizes found")

	by.press("Sizes")
	sameAsTheProgram(p)
	by.press("Meant")
	by.press("Decide: shank was meant to be 3/4 in")
	by.press("Fit")
	p.says("What to make")
	by.press("Part")
	p.wait("document.querySelector('figure.sheet svg') !== null")
	by.press("The whole sheet")
	printed(p)
	by.press("Set-ups")
	p.says("Order of work")
	by.press("Checks")
	p.says("Should show 25.250 mm")
	by.fill("Shows", "25.25") // the first on the sheet: the nose over rollers
	by.press("Take")
	p.says("conform")
	by.press("Record")
	by.fill("Made", "2")
	by.fill("Fitted", "1")
	by.fill("Where the rest is", "drawer 4")
	by.press("Write it down")
	p.says("1 spare")
	by.press("Find")
	by.fill("Find", "plunger second table")
	p.key("\r")
	p.settle()
	p.says("Plunger of the second table")
}

// sameAsTheProgram holds the sizes on the page against those that the program
// finds in the job's text.
func sameAsTheProgram(p *tab) {
	p.t.Helper()
	file := filepath.Join(p.t.TempDir(), "job.yaml")
	if err := os.WriteFile(file, p.download(strings.TrimSuffix(p.path(), "/sizes")+"/job.yaml"), 0o666); err != nil {
		p.t.Fatal(err)
	}
	out, err := exec.Command(program, "sizes", "--json", file).Output()
	if err != nil {
		p.t.Fatal(err)
	}
	var answer struct {
		Sizes map[string]struct{ Value float64 }
	}
	if err := json.Unmarshal(out, &answer); err != nil {
		p.t.Fatal(err)
	}
	for _, want := range []string{"shank", "nose", "mouth", "guide"} {
		text := ask[string](p, `[...document.querySelectorAll("#answer li")].find(l => l.querySelector(".name").textContent === "`+want+`").querySelector(".value").textContent`)
		var got float64
		if err := json.Unmarshal([]byte(strings.TrimSuffix(text, " mm")), &got); err != nil || math.Abs(got-answer.Sizes[want].Value) > 0.0006 {
			p.t.Errorf("%s is %s on the page, %.5f mm by the program", want, text, answer.Sizes[want].Value)
		}
	}
}

// printed fetches the sheet as it is printed, and finds the sizes on it.
func printed(p *tab) {
	p.t.Helper()
	at := ask[string](p, `[...document.querySelectorAll("a[href]")].find(a => a.pathname.endsWith("/sheet.pdf")).pathname`)
	text := pdfText(p.t, p.download(at))
	for _, words := range []string{"Plunger of the second table", "19.04", "Index plunger", "What to make", "Drawing"} {
		if !strings.Contains(text, words) {
			p.t.Errorf("the sheet does not say %q", words)
		}
	}
}

// download fetches a file of the page's server.
func (p *tab) download(path string) []byte {
	p.t.Helper()
	answer, err := http.Get(p.base + path)
	if err != nil {
		p.t.Fatal(err)
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		p.t.Fatalf("%s: %s %v", path, answer.Status, err)
	}
	return data
}

// pdfText returns the words of a PDF, by poppler.
func pdfText(t *testing.T, data []byte) string {
	t.Helper()
	return string(oracle.Find(t, "pdftotext", "poppler-utils").Output(t, data, "-layout", "-", "-"))
}
