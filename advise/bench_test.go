package advise

import (
	"testing"

	"oddleg/adjust"
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
				Next(r, Options{})
			}
		})
	}
}
