package examples_test

import (
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/draw"
)

// TestParts puts each pattern into a new job of either unit, as a user would: it is
// read, worked out, built and drawn, with nothing on top of anything else.
func TestParts(t *testing.T) {
	var kinds []trade.PartKind
	for _, pattern := range examples.Parts() {
		for _, units := range []string{"mm", "in"} {
			t.Run(pattern.Name+" "+units, func(t *testing.T) {
				model := made(t, pattern, units)
				sheet, err := draw.Part(model, draw.Options{Job: "a trial"})
				if err != nil {
					t.Fatal(err)
				}
				for _, o := range draw.Overlaps(sheet) {
					t.Error(o)
				}
			})
		}
		kinds = append(kinds, trade.PartKind(pattern.Kind))
	}
	for _, kind := range trade.PartKinds() {
		if !slices.Contains(kinds, kind) {
			t.Errorf("there is no pattern for a %s", kind)
		}
	}
}

func made(t *testing.T, pattern examples.Part, units string) *part.Model {
	t.Helper()
	blank, err := jobedit.Blank("A trial", units, trade.Machine{})
	if err != nil {
		t.Fatal(err)
	}
	source, err := jobedit.SetSection(blank, "part", string(pattern.Source))
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobfile.Read("", source)
	if err != nil {
		t.Fatal(err)
	}
	if string(job.Part.Kind) != pattern.Kind {
		t.Errorf("it is a %s", job.Part.Kind)
	}
	found, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	fitted, err := fit.Fit(t.Context(), found, meant.Round(found, meant.Tables{}))
	if err != nil {
		t.Fatal(err)
	}
	model, err := part.Build(job, fitted, found)
	if err != nil {
		t.Fatal(err)
	}
	return model
}
