package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/paper"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

var fixedDay = time.Date(2024, 3, 1, 0, 0, 0, 0, time.UTC)

// jobs returns the sources of all example and test jobs by their names.
func jobs(t testing.TB) map[string][]byte {
	t.Helper()
	sources := map[string][]byte{}
	for _, folder := range []string{"../../testdata/jobs", "../../examples"} {
		files, err := filepath.Glob(folder + "/*.yaml")
		if err != nil || len(files) == 0 {
			t.Fatal("no jobs in", folder, err)
		}
		for _, file := range files {
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			sources[strings.TrimSuffix(filepath.Base(file), ".yaml")] = source
		}
	}
	return sources
}

// laidOut puts a job on paper. Its drawing is nil where it has no part.
func laidOut(t testing.TB, name string, source []byte, on ink.Paper) (*reckon.Found, *ink.Sheet, []*ink.Sheet) {
	t.Helper()
	found, err := find(t.Context(), name, source, usualSeed)
	if err != nil {
		t.Fatal(err)
	}
	job := found.Result.Job
	pages, err := onPaper(found, reckon.Stages(job), on, fixedDay)
	if err != nil || job.Part == nil {
		return found, nil, pages
	}
	drawing, err := found.Drawing(draw.Options{Paper: on, Units: job.Units, Job: job.Name, Date: fixedDay.Format(time.DateOnly)})
	if err != nil {
		t.Fatal(err)
	}
	return found, drawing, pages
}

// TestNothingOverlaps lays out every job and finds nothing over anything else
// nor beyond a page.
func TestNothingOverlaps(t *testing.T) {
	for name, source := range jobs(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			found, drawing, pages := laidOut(t, name, source, ink.AnyPaper)
			if part := found.Result.Job.Part; part != nil && drawing == nil {
				t.Error("its part is not drawn")
			} else if part != nil && pictures(pages) != len(part.Mates) {
				t.Errorf("%d pictures of %d mates", pictures(pages), len(part.Mates))
			}
			for i, page := range pages {
				for _, fault := range draw.Overlaps(page) {
					t.Errorf("page %d: %s", i+1, fault)
				}
			}
		})
	}
}

// pictures counts those of mates on pages, by their captions.
func pictures(pages []*ink.Sheet) int {
	n := 0
	for _, page := range pages {
		for _, m := range page.Marks {
			if text, ok := m.(ink.Text); ok && strings.Contains(text.Words, "in the place where it mates") {
				n++
			}
		}
	}
	return n
}

// TestLongNames lays out a job whose words are longer than any line (constructed).
func TestLongNames(t *testing.T) {
	long := strings.Repeat("Hinterachsgetriebegehäusedeckel ", 30) + strings.Repeat("x", 300) + ` <b>&amp;)( \ %s 😀`
	source := strings.NewReplacer(
		"job: Index plunger and its bush", "job: '"+long+"'", "say: the plunger's straight part", "say: '"+long+"'",
		"what: dividing table", "what: '"+long+"'", "name: Index plunger", "name: '"+long+"'",
		"say: the knob on the tail", "say: '"+long+"'", "nose", "n"+strings.Repeat("o", 60)+"se",
	).Replace(string(examples.Jobs()[0].Source))
	for _, on := range []ink.Paper{ink.A4, ink.A3, ink.Letter} {
		_, _, pages := laidOut(t, "long", []byte(source), on)
		for i, page := range pages {
			for _, fault := range draw.Overlaps(page) {
				t.Errorf("page %d: %s", i+1, fault)
			}
		}
	}
}

// read returns what an independent program finds in a PDF, a page after each
// form feed.
func read(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := writeNew(path, false, write); err != nil {
		t.Fatal(err)
	}
	return string(oracle.Find(t, "pdftotext", "poppler-utils").Output(t, nil, "-layout", path, "-"))
}

// TestSheetHasEverything looks for all sizes, dimensions and chapters in what an
// independent program reads from the file.
func TestSheetHasEverything(t *testing.T) {
	for _, job := range examples.Jobs() {
		t.Run(job.Name, func(t *testing.T) {
			found, drawing, pages := laidOut(t, job.Name, job.Source, ink.AnyPaper)
			text := read(t, bound(pages, "test", fixedDay))
			if got := strings.Count(text, "\f"); got != len(pages) {
				t.Errorf("%d pages, want %d", got, len(pages))
			}
			want := []string{"Readings", "Sizes", "What was meant", "What to make", "Drawing", "The kit, as the readings have it", found.Result.Job.Name}
			if len(found.Result.Job.Joints) > 0 {
				want = append(want, "What gives way first", "Caution", "Taken for granted")
			}
			if len(found.Result.Job.Part.Mates) > 0 {
				want = append(want, "How the shapes mate")
			}
			for i := range pages {
				want = append(want, fmt.Sprintf("page %d of %d", i+1, len(pages)))
			}
			for _, words := range append(want, figures(t, found, drawing)...) {
				if !strings.Contains(text, words) {
					t.Errorf("%q is not found", words)
				}
			}
		})
	}
}

// figures returns the sizes found, those to work to, and the words of every
// dimension without tolerances in two lines.
func figures(t *testing.T, f *reckon.Found, drawing *ink.Sheet) []string {
	t.Helper()
	var list []string
	in := f.Result.Job.Units
	for _, s := range f.Result.Sizes {
		if s.Determined && s.Dimension == unit.Length && in == unit.Millimetre {
			value, _ := unit.WithUncertainty(s.Value, 1.959963984540054*s.U)
			list = append(list, value)
		}
	}
	made, err := fit.Fit(t.Context(), f.Result, f.Meaning())
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range made.Make {
		if m.Size.Kind.Dimension() == unit.Length {
			list = append(list, strings.TrimSuffix(unit.ShowLength(m.Target, in), " "+in.String()))
		}
	}
	for _, m := range drawing.Marks {
		d, ok := m.(ink.Dimension)
		if !ok {
			continue
		}
		for _, part := range d.Parts {
			if text, ok := part.(ink.Text); ok && text.Angle == 0 {
				list = append(list, strings.TrimSpace(text.Words))
			}
		}
	}
	return list
}

// TestStatusOnPaper tells what is wrong with a job or a command from what is wrong
// with the disk.
func TestStatusOnPaper(t *testing.T) {
	folder := t.TempDir()
	there := filepath.Join(folder, "there.pdf")
	if err := os.WriteFile(there, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	part, bare := "../../examples/index-plunger.yaml", "../../testdata/jobs/vee-block.yaml"
	for _, test := range []struct {
		args   []string
		status int
	}{
		{[]string{"draw", part, "--to", filepath.Join(folder, "new.svg")}, done},
		{[]string{"draw", part, "--to", filepath.Join(folder, "new.png")}, wrongInput},
		{[]string{"draw", bare, "--to", filepath.Join(folder, "bare.svg")}, wrongInput},
		{[]string{"draw", part, "--scale", "20:1", "--to", filepath.Join(folder, "large.svg")}, wrongInput},
		{[]string{"draw", part, "--to", there}, broken},
		{[]string{"draw", part, "--to", filepath.Join(folder, "none", "new.svg")}, broken},
		{[]string{"sheet", bare, "--to", filepath.Join(folder, "bare.pdf")}, done},
		{[]string{"sheet", bare, "--to", filepath.Join(folder, "bare.txt")}, wrongInput},
		{[]string{"sheet", bare, "--to", filepath.Join(folder, "x.pdf"), "--date", "soon"}, wrongInput},
		{[]string{"sheet", bare, "--to", there}, broken},
		{[]string{"sheet", filepath.Join(folder, "no.yaml"), "--to", filepath.Join(folder, "x.pdf")}, broken},
	} {
		var out, complain bytes.Buffer
		if got := run(test.args, streams{in: strings.NewReader(""), out: &out, complain: &complain}); got != test.status {
			t.Errorf("%s: status %d, want %d: %s", test.args, got, test.status, &complain)
		}
	}
}

// TestOnPaperAtOnce writes the same job many times at once: each time the same
// bytes.
func TestOnPaperAtOnce(t *testing.T) {
	job := examples.Jobs()[0]
	all := func() string {
		_, drawing, pages := laidOut(t, job.Name, job.Source, ink.A4)
		var b bytes.Buffer
		if err := bound(pages, "test", fixedDay)(&b); err != nil {
			return err.Error()
		}
		if err := paper.SVG(&b, drawing); err != nil {
			return err.Error()
		}
		return b.String()
	}
	want := all()
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			if all() != want {
				t.Error("the bytes differ")
			}
		})
	}
	group.Wait()
}

// BenchmarkDrawing draws the first example from its sizes; 50 ms is the aim.
func BenchmarkDrawing(b *testing.B) {
	found, _, _ := laidOut(b, "first", examples.Jobs()[0].Source, ink.A4)
	for b.Loop() {
		if _, err := found.Drawing(draw.Options{Paper: ink.A4}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSheet takes the first example from its file to a PDF; 300 ms is the
// aim.
func BenchmarkSheet(b *testing.B) {
	for b.Loop() {
		found, err := find(b.Context(), "first", examples.Jobs()[0].Source, usualSeed)
		if err != nil {
			b.Fatal(err)
		}
		pages, err := onPaper(found, reckon.Stages(found.Result.Job), ink.A4, fixedDay)
		if err != nil {
			b.Fatal(err)
		}
		if err := bound(pages, "test", fixedDay)(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
