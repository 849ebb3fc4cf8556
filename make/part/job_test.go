package part_test

import (
	"bytes"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/solid"
)

// fromFile takes a job file through the stages.
func fromFile(t *testing.T, file string) (*trade.Job, *part.Model) {
	t.Helper()
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobfile.Read(file, source)
	if err != nil {
		t.Fatal(err)
	}
	found, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	made, err := fit.Fit(t.Context(), found, meant.Round(found, meant.Tables{}))
	if err != nil {
		t.Fatal(err)
	}
	model, err := part.Build(job, made, found)
	if err != nil {
		t.Fatalf("refused: %v", err)
	}
	return job, model
}

// TestJobs builds the part of every job that makes one, and writes it as a
// solid. What STEP does not take it must say in words of the user's faults.
func TestJobs(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/part-*.yaml")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d jobs, %v", len(files), err)
	}
	kinds := map[trade.PartKind]bool{}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			job, m := fromFile(t, file)
			kinds[m.Kind] = true
			if m.Quantity < 1 || m.Density <= 0 || !(m.Mass() > 0) || math.IsInf(m.Mass(), 0) {
				t.Errorf("%d pieces of %v kg", m.Quantity, m.Mass())
			}
			if len(m.Measures) != len(job.Part.Sizes) {
				t.Errorf("%d measures of %d sizes", len(m.Measures), len(job.Part.Sizes))
			}
			checkDimensions(t, m)
			mesh, err := solid.MeshOf(m, solid.Chord)
			if err != nil {
				t.Fatal(err)
			}
			if off := math.Abs(mesh.Volume()/m.Volume() - 1); !(off < 0.01) {
				t.Errorf("mesh %v, formula %v", mesh.Volume(), m.Volume())
			}
			var faults trade.Faults
			if err := solid.STEP(io.Discard, m); err != nil && !errors.As(err, &faults) {
				t.Error(err)
			}
			var b bytes.Buffer
			if err := solid.STL(&b, m); err != nil {
				t.Error(err)
			}
			t.Logf("%d dimensions, %.4g kg", len(m.Dimensions), m.Mass())
		})
	}
	for _, kind := range trade.PartKinds() {
		if !kinds[kind] {
			t.Errorf("no job makes a %s", kind)
		}
	}
}
