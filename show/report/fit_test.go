package report

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// TestFitOfEveryPart: what is made of every part of testdata/jobs prints without
// a number that is none, in both forms, and the limits shown lie within those
// worked out.
func TestFitOfEveryPart(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/part-*.yaml")
	if err != nil || len(files) < 12 {
		t.Fatalf("only %d parts in testdata/jobs (%v)", len(files), err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			f := fitOf(t, file)
			var page bytes.Buffer
			if err := Fit(&page, f, Style{}); err != nil {
				t.Fatal(err)
			}
			for _, no := range []string{"NaN", "Inf", "%!", "?"} {
				if strings.Contains(page.String(), no) {
					t.Errorf("%q is printed:\n%s", no, &page)
				}
			}
			out := asJSON(t, func(w io.Writer) error { return FitJSON(w, f, nil, nil) })
			for i := range f.Make {
				m := &f.Make[i]
				if !m.Determined || !strings.Contains(page.String(), "\n  "+m.Size.ID+" ") {
					t.Errorf("%s is not shown", m.Size.ID)
				}
				shown := at(t, out, "make", m.Size.ID).(map[string]any)
				if _, mated := shown["p_binds"]; mated != (m.Mating != nil) {
					t.Errorf("%s: p_binds is there: %v", m.Size.ID, mated)
				}
				if printed, ok := shown["printed"].(map[string]any); ok && (printed["low"].(float64) < shown["low"].(float64)-1e-6 || printed["high"].(float64) > shown["high"].(float64)+1e-6) {
					t.Errorf("%s is printed as %v, worked out %v to %v", m.Size.ID, printed, shown["low"], shown["high"])
				}
			}
		})
	}
}

func fitOf(t *testing.T, file string) *fit.Result {
	t.Helper()
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobfile.Read(file, source)
	if err != nil {
		t.Fatal(err)
	}
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	f, err := fit.Fit(t.Context(), r, meant.Round(r, meant.Tables{}))
	if err != nil {
		t.Fatal(err)
	}
	return f
}
