package report

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/say"
)

// surveyed judges a job with a survey of every kind.
func surveyed(t *testing.T, units string) *upkeep.Result {
	t.Helper()
	source, err := os.ReadFile("../../testdata/jobs/worn-slides.yaml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobfile.Read("", source)
	if err != nil {
		t.Fatal(err)
	}
	if units == "in" {
		inch, err := jobfile.Read("", []byte("oddleg: 1\njob: x\nunits: in\n"))
		if err != nil {
			t.Fatal(err)
		}
		job.Units = inch.Units
	}
	r, err := upkeep.Judge(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestUpkeepPage: every kind of survey has its heading, and no figure is none.
func TestUpkeepPage(t *testing.T) {
	for _, units := range []string{"mm", "in"} {
		var page bytes.Buffer
		r := surveyed(t, units)
		if err := Upkeep(&page, r, Style{}); err != nil {
			t.Fatal(err)
		}
		text := page.String()
		for _, a := range r.Answers {
			if !strings.Contains(text, a.Kind.Title+", ") {
				t.Errorf("%s: no heading %q", units, a.Kind.Title)
			}
		}
		for _, wrong := range []string{"NaN", "Inf", "? ", "%!"} {
			if strings.Contains(text, wrong) {
				t.Errorf("%s: the page shows %q", units, wrong)
			}
		}
		if head := "found " + strings.Repeat(" ", 3); !strings.Contains(text, head) || !strings.Contains(text, units+", ± 95 %") {
			t.Errorf("%s: the columns have no heading", units)
		}
	}
}

// TestUpkeepJSON: the same as an object, angles in degrees.
func TestUpkeepJSON(t *testing.T) {
	var out bytes.Buffer
	if err := UpkeepJSON(&out, surveyed(t, "mm")); err != nil {
		t.Fatal(err)
	}
	var got upkeepJSON
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Surveys) != 11 || len(got.Trends) != 4 {
		t.Fatalf("%d surveys, %d trends", len(got.Surveys), len(got.Trends))
	}
	dovetail := got.Surveys[10]
	if f := dovetail.Found[0]; f.Key != "angle" || f.Unit != "deg" || f.Value < 59.9 || f.Value > 60.1 {
		t.Errorf("the angle is %+v", f)
	}
	if len(dovetail.Plot.Limits) != 2 || len(dovetail.Plot.Series) != 1 || len(dovetail.Plot.Series[0].Points) != 3 {
		t.Errorf("the plot is %+v", dovetail.Plot)
	}
}

// TestUpkeepChapter: a job of surveys alone has a chapter with a heading, a table and
// a graph of each, and one of each thing's wear; what cannot be is told in it.
func TestUpkeepChapter(t *testing.T) {
	sheet := func(job *trade.Job) []doc.Block {
		t.Helper()
		found, err := reckon.Job(context.Background(), job, 1)
		if err != nil {
			t.Fatal(err)
		}
		d, err := say.Sheet(say.Contents{Found: found})
		if err != nil {
			t.Fatal(err)
		}
		return d.Blocks
	}
	r := surveyed(t, "in")
	headings, tables, pictures := 0, 0, 0
	for i, b := range sheet(r.Job) {
		switch b := b.(type) {
		case doc.Heading:
			if chapter := b.Level == 1; chapter != (i == 0) || chapter && b.Words.Shown(unit.View{}) != "Upkeep" {
				t.Errorf("block %d is the heading %q of level %d", i, b.Words.Shown(unit.View{}), b.Level)
			}
			headings++
		case *doc.Table:
			if b.Name != "plot" { // which is made of letters, for a terminal
				tables++
			}
		case doc.Picture:
			if drawn, why := b.Drawn(unit.View{In: unit.Inch}); drawn == nil {
				t.Errorf("not drawn: %s", why.Shown(unit.View{}))
			}
			pictures++
		}
	}
	headings--                                                                  // that of the chapter
	if n := len(r.Answers) + 1; headings != n || tables != n || pictures != n { // and wear
		t.Errorf("%d headings, %d tables and %d pictures of %d surveys and the wear of one screw", headings, tables, pictures, len(r.Answers))
	}
	slip, err := jobfile.Read("", []byte("oddleg: 1\njob: x\nkit: {mic: {kind: micrometer}}\nsurveys: [{kind: dovetail, date: 2024-04-20, with: mic, rollers: [{at: 0, roller: 6, saw: 100}, {at: 0, roller: 12, saw: 100}]}]\n"))
	if err != nil {
		t.Fatal(err)
	}
	said, _ := sheet(slip)[1].(doc.Paragraph)
	if words := said.Words.Shown(unit.View{}); !strings.Contains(words, "no such thing can give these readings") {
		t.Errorf("what cannot be is told as %q", words)
	}
}
