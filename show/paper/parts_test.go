package paper

import (
	"bytes"
	"context"
	"flag"
	"io"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// drawn are the drawings of all jobs that have a part with a shape, by the name
// of the job's file.
var drawn = sync.OnceValues(func() (map[string]*ink.Sheet, error) {
	files, err := filepath.Glob("../../testdata/jobs/part-*.yaml")
	if err != nil {
		return nil, err
	}
	examples, err := filepath.Glob("../../examples/*.yaml")
	sheets := map[string]*ink.Sheet{}
	for _, file := range append(files, examples...) {
		if err != nil {
			return nil, err
		}
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		sheets[name], err = drawingOf(file)
	}
	return sheets, err
})

func drawingOf(file string) (*ink.Sheet, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	job, err := jobfile.Read(file, data)
	if err != nil {
		return nil, err
	}
	found, err := adjust.Adjust(job)
	if err != nil {
		return nil, err
	}
	made, err := fit.Fit(context.Background(), found, meant.Round(found, meant.Tables{}))
	if err != nil {
		return nil, err
	}
	model, err := part.Build(job, made, found)
	if err != nil {
		return nil, err
	}
	return draw.Part(model, draw.Options{Units: job.Units, Job: job.Name, Date: "2026-11-25"})
}

// sheets are the sample and the drawings of parts.
func sheets(t *testing.T) map[string]*ink.Sheet {
	t.Helper()
	found, err := drawn()
	if err != nil {
		t.Fatal(err)
	}
	if len(found) < 15 {
		t.Fatalf("only %d parts are drawn", len(found))
	}
	all := map[string]*ink.Sheet{"sample": shared}
	for name, s := range found {
		if !testing.Short() || strings.HasPrefix(name, "part-s") {
			all[name] = s
		}
	}
	return all
}

// shared is one sample for all that read what is written of it.
var shared = sample()

// figure is the first number of what a dimension says, after its count.
var figure = regexp.MustCompile(`^(?:\d+ × )?[⌀R]?(\d+(?:\.\d+)?)`)

// TestDimensionsPrintWhatTheyMeasure: what is printed is what is measured,
// rounded to the decimals that are printed.
func TestDimensionsPrintWhatTheyMeasure(t *testing.T) {
	checked := 0
	for name, s := range sheets(t) {
		inches := slices.ContainsFunc(s.Flat(), func(m ink.Mark) bool { text, ok := m.(ink.Text); return ok && text.Words == "in" })
		for _, m := range s.Marks {
			d, ok := m.(ink.Dimension)
			if name == "sample" || !ok || d.Kind == ink.Leader {
				continue
			}
			if strings.Contains(d.Words, "BSW") || strings.HasPrefix(d.Words, "M") {
				continue // a thread is called by its name
			}
			found := figure.FindStringSubmatch(d.Words)
			if found == nil {
				t.Errorf("%s: %q has no figure", name, d.Words)
				continue
			}
			want, scale := parsed(t, found[1]), 1.0
			if inches && d.Kind != ink.Angular {
				scale = unit.MillimetresPerInch
			}
			_, decimals, _ := strings.Cut(found[1], ".")
			if math.Abs(d.Measures/scale-want) > 0.5001*math.Pow(10, -float64(len(decimals))) {
				t.Errorf("%s: %q measures %v", name, d.Words, d.Measures/scale)
			}
			checked++
		}
	}
	if checked < 80 && !testing.Short() {
		t.Errorf("only %d dimensions checked", checked)
	}
}

func parsed(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestDimensionsAreSearched finds every text of every drawing in its PDF.
func TestDimensionsAreSearched(t *testing.T) {
	pdftotext := oracle.Find(t, "pdftotext", "poppler-utils")
	for name, s := range sheets(t) {
		if name == "sample" {
			continue
		}
		path := file(t, "part.pdf", func(w io.Writer) error { return PDF(w, []*ink.Sheet{s}, about) })
		text := string(pdftotext.Output(t, nil, "-raw", path, "-"))
		for _, m := range s.Flat() {
			if words, ok := m.(ink.Text); ok && !strings.Contains(text, strings.TrimSpace(words.Words)) {
				t.Errorf("%s: %q is not found", name, words.Words)
			}
		}
	}
}

var bless = flag.Bool("bless", false, "write the drawings that were looked at as the ones to compare with")

// TestGoldenDrawings compares the drawings of parts and the graphs of surveys with
// those that were looked at: go test ./paper -run Golden -bless writes them anew.
func TestGoldenDrawings(t *testing.T) {
	all := maps.Clone(sheets(t))
	maps.Copy(all, graphs(t, 110, 80))
	for name, s := range all {
		if name == "sample" {
			continue
		}
		var now bytes.Buffer
		if err := SVG(&now, s); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join("testdata", "drawings", name+".svg")
		if *bless {
			if err := os.WriteFile(path, now.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		then, err := os.ReadFile(path)
		if err != nil {
			t.Error(err)
			continue
		}
		if !bytes.Equal(then, now.Bytes()) {
			t.Errorf("%s is drawn otherwise than when it was looked at: render it, look at it, and bless it anew", name)
		}
	}
}
