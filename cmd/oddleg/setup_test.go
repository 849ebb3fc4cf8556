package main

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/picture"
)

// TestEveryJobIsSetUpFor: of every job with a part, which mostly list no shop, the
// page and the JSON say something, and show no number that is none; one without is
// refused.
func TestEveryJobIsSetUpFor(t *testing.T) {
	none := regexp.MustCompile(`NaN|Inf|(^|[^\w])\? `)
	parts := 0
	for name, source := range jobs(t) {
		if testing.Short() && !strings.HasPrefix(name, "setup-") {
			continue
		}
		var page, object, complaints bytes.Buffer
		status := run([]string{"setup", "-"}, streams{in: bytes.NewReader(source), out: &page, complain: &complaints})
		if !bytes.Contains(source, []byte("\npart:")) {
			if status == done || !strings.Contains(complaints.String(), "makes no") {
				t.Errorf("%s: status %d: %s", name, status, &complaints)
			}
			continue
		}
		parts++
		if status != done {
			t.Errorf("%s: status %d: %s", name, status, &complaints)
			continue
		}
		if text := page.String(); none.MatchString(text) || !strings.Contains(text, "Stock") || !strings.Contains(text, "Never leave the key in the chuck") {
			t.Errorf("%s:\n%s", name, text)
		}
		status = run([]string{"setup", "--json", "-"}, streams{in: bytes.NewReader(source), out: &object, complain: &complaints})
		if status != done || !json.Valid(object.Bytes()) {
			t.Errorf("%s: status %d: %s\n%s", name, status, &complaints, &object)
		}
	}
	if parts < 10 && !testing.Short() {
		t.Errorf("only %d of the jobs have a part", parts)
	}
}

// TestPicturesOfSetUps: each can be drawn, on a page and by itself, and nothing in
// it lies over anything else.
func TestPicturesOfSetUps(t *testing.T) {
	drawn := 0
	for name, source := range jobs(t) {
		found, err := find(t.Context(), name, source, usualSeed)
		if err != nil || found.Result.Job.Part == nil {
			continue
		}
		plan, err := found.SetUps()
		if err != nil {
			t.Fatal(name, err)
		}
		for _, step := range plan.Steps {
			for _, scene := range plan.Scenes(step) {
				for _, height := range []float64{setUpHeight, setUpHeight / 2} {
					sheet, err := picture.SetUp(scene, plan.Job.Units, setUpWidth, height)
					if err != nil {
						t.Errorf("%s: %v", name, err)
						continue
					}
					drawn++
					for _, fault := range draw.Overlaps(sheet) {
						t.Errorf("%s, %s: %s", name, scene.Title, fault)
					}
				}
			}
		}
	}
	if drawn < 10 {
		t.Errorf("only %d pictures", drawn)
	}
}

// TestSetUpsOnPaper: the chapter is there where the job has a shop or an order of
// work, with its pictures, or why not.
func TestSetUpsOnPaper(t *testing.T) {
	source := string(jobs(t)["setup-shoe"])
	for name, c := range map[string]struct {
		source string
		want   []string
	}{
		"planned": {source, []string{"Set-ups", "Order of work", "Convex face, seen from above", "Hollow face, seen from above", "How it is held, seen from above"}},
		"refused": {strings.Replace(source, "diameter: 12 mm, teeth", "diameter: 120 mm, teeth", 1), []string{"Set-ups", "There are none: "}},
	} {
		_, _, pages := laidOut(t, name, []byte(c.source), ink.A4)
		said := ""
		for _, page := range pages {
			for _, m := range page.Flat() {
				if text, ok := m.(ink.Text); ok {
					said += text.Words + "\n"
				}
			}
		}
		for _, want := range c.want {
			if !strings.Contains(said, want) {
				t.Errorf("%s: the pages do not say %q", name, want)
			}
		}
	}
}
