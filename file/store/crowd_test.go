package store

import (
	"fmt"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
)

// BenchmarkCrowd has 50 people save at once, each a job of his own and of 10 KB,
// and reports how long a save takes, in the middle and at the 99th percentile.
func BenchmarkCrowd(b *testing.B) {
	const people = 50
	s, err := Make(filepath.Join(b.TempDir(), "shop.db"))
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	took := make([][]time.Duration, people)
	var all sync.WaitGroup
	b.ResetTimer()
	for who := range people {
		all.Go(func() {
			from := record.Saved{}
			for i := range max(1, b.N/people) {
				begin := time.Now()
				saved, err := s.Save(ctx, record.Save{Stamp: at(i), Job: from.Job, From: from.Number, Source: fmt.Appendf(nil, "%d %d %10000d", who, i, 0), Index: clamp})
				if err != nil {
					b.Error(err)
					return
				}
				from = saved
				took[who] = append(took[who], time.Since(begin))
			}
		})
	}
	all.Wait()
	b.StopTimer()
	each := slices.Concat(took...)
	slices.Sort(each)
	for name, part := range map[string]float64{"ms-p50": 0.5, "ms-p99": 0.99} {
		b.ReportMetric(float64(each[int(part*float64(len(each)-1))])/1e6, name)
	}
}

// BenchmarkJobs lists 1000 jobs, each with a branch that nobody has taken in.
func BenchmarkJobs(b *testing.B) {
	s, err := Make(filepath.Join(b.TempDir(), "shop.db"))
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	for i := range 1000 {
		save := record.Save{Stamp: at(i), Source: fmt.Append(nil, i), Index: clamp}
		saved, err := s.Save(ctx, save)
		if err == nil {
			save.Job, save.Source = saved.Job, fmt.Append(nil, -i)
			_, err = s.Save(ctx, save)
		}
		if err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		jobs, err := s.Jobs(ctx)
		if err != nil || len(jobs) != 1000 || len(jobs[0].Branches) != 1 {
			b.Fatal(err, len(jobs))
		}
	}
}
