package advise

import (
	"testing"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// BenchmarkNext asks for the neediest size of every job on file.
func BenchmarkNext(b *testing.B) {
	for _, job := range onFile(b) {
		b.Run(job.Name, func(b *testing.B) {
			r, err := adjust.Adjust(job)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				Next(b.Context(), r, Options{})
			}
		})
	}
}

// BenchmarkEverySize asks for every size of the first example: one by one, and from
// one overview.
func BenchmarkEverySize(b *testing.B) {
	job := read(b, string(examples.Jobs()[0].Source))
	r, err := adjust.Adjust(job)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("one by one", func(b *testing.B) {
		for b.Loop() {
			for _, size := range job.Sizes {
				Next(b.Context(), r, Options{For: size.ID, Want: 0.001})
			}
		}
	})
	b.Run("overview", func(b *testing.B) {
		for b.Loop() {
			over := LookOver(b.Context(), r)
			for _, size := range job.Sizes {
				over.Of(size.ID, 0.001, anyOfThem)
			}
		}
	})
}
