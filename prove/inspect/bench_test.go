package inspect_test

import (
	"testing"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// BenchmarkCheck proves the part of the example: an aim of 50 ms.
func BenchmarkCheck(b *testing.B) {
	job, err := jobfile.Read("", examples.Jobs()[0].Source)
	if err != nil {
		b.Fatal(err)
	}
	found, err := adjust.Adjust(job)
	if err != nil {
		b.Fatal(err)
	}
	made, err := fit.Fit(b.Context(), found, nil)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := inspect.Check(b.Context(), made, meant.Tables{}, 1); err != nil {
			b.Fatal(err)
		}
	}
}
