package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestTheWholeWay takes the demo's plunger from its readings to the spare on the
// shelf: sizes, what was meant, what to make, drawing, set-up, first-off
// readings and their verdicts, record, and the search that finds it again.
func TestTheWholeWay(t *testing.T) {
	if testing.Short() {
		t.Skip("one thing after the other: nothing for the race detector")
	}
	folder := t.TempDir()
	output(t, []string{"demo", folder})
	job, record := filepath.Join(folder, "index-plunger.yaml"), filepath.Join(folder, "shop.db")

	var sizes struct {
		Sizes map[string]struct {
			Value, U float64
			Meant    []struct {
				Text string
				P    float64
			}
		}
	}
	fromJSON(t, &sizes, "sizes", "--json", job)
	guide := sizes.Sizes["guide"]
	if nose := sizes.Sizes["nose"]; nose.Meant[0].Text != "1/2 in" || nose.Meant[0].P < 0.9 {
		t.Errorf("the nose is meant to be %v", nose.Meant)
	}

	var made struct {
		Make map[string]struct {
			Target, Low, High float64
			Assembles         float64 `json:"p_assembles"`
		}
	}
	fromJSON(t, &made, "fit", "--json", job)
	shank := made.Make["shank"]
	if shank.Assembles < 0.99 || !(shank.Low < shank.Target && shank.Target < shank.High && shank.High < guide.Value) {
		t.Errorf("the shank is made to %+v, for a guide of %v", shank, guide.Value)
	}

	drawing := filepath.Join(folder, "plunger.svg")
	output(t, []string{"draw", job, "--to", drawing, "--date", "2026-11-25"})
	drawn, err := os.ReadFile(drawing)
	if err != nil || !strings.Contains(string(drawn), "19.048") {
		t.Errorf("the drawing does not show the shank: %v", err)
	}

	contains(t, output(t, []string{"setup", job}), "Change gears for 14 tpi", "the top slide")

	var proved struct {
		Pieces []struct {
			Verdicts []struct {
				Size, Verdict string
				P             float64 `json:"p_conforms"`
			}
		}
	}
	contains(t, output(t, []string{"check", job}), "Inspection sheet", "goes in guide", "Putting back")
	fromJSON(t, &proved, "check", "--json", job)
	verdicts := map[string]string{}
	for _, v := range proved.Pieces[0].Verdicts {
		verdicts[v.Size] = v.Verdict
	}
	// The nose has room on both sides; the shank's limits are finer than the micrometer.
	if verdicts["nose"] != "conforming" || verdicts["shank"] != "cannot tell" {
		t.Errorf("verdicts %v", verdicts)
	}

	output(t, []string{"keep", job, "--shop", record, "--note", "first off proved"})
	output(t, []string{"shelf", "plunger", "--shop", record, "--made", "2", "--fitted", "1", "--place", "drawer 4", "--size", "shank=19.045 mm"})
	for _, asked := range []string{"dividing table 1936", "plunger", "7/16 BSW", "19.045 mm"} {
		contains(t, output(t, []string{"find", asked, "--shop", record}), "Index plunger and its bush")
	}
	contains(t, output(t, []string{"shelf", "--shop", record}), "drawer 4")
}

// fromJSON runs a command line and reads what it answers.
func fromJSON(t *testing.T, into any, args ...string) {
	t.Helper()
	if err := json.Unmarshal([]byte(output(t, args)), into); err != nil {
		t.Fatalf("%v: %v", args, err)
	}
}

// contains looks for words in what was said.
func contains(t *testing.T, said string, words ...string) {
	t.Helper()
	for _, w := range words {
		if !strings.Contains(said, w) {
			t.Errorf("%q is not in\n%s", w, said)
		}
	}
}
