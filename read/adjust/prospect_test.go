package adjust

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// jobsOnFile returns the jobs of testdata/jobs by their names.
func jobsOnFile(t *testing.T) map[string]*trade.Job {
	t.Helper()
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	if err != nil || len(files) < 20 {
		t.Fatalf("only %d jobs in testdata/jobs (%v)", len(files), err)
	}
	jobs := map[string]*trade.Job{}
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		jobs[filepath.Base(file)] = mustRead(t, source)
	}
	return jobs
}

// lacking returns the job less two readings, one of them only where both are
// the same, and the same with the first of them planned at the end.
func lacking(job *trade.Job, i, j int) (less, planned *trade.Job) {
	one, two := *job, *job
	one.Readings = nil
	for k, r := range job.Readings {
		if k != i && k != j {
			one.Readings = append(one.Readings, r)
		}
	}
	again := job.Readings[i]
	again.Saw = nil
	two.Readings = append(slices.Clone(one.Readings), again)
	return &one, &two
}

// TestProspectsAreWhatAdjustingGives takes every reading, by itself and with
// the next, out of every job and plans it anew: what its prospect promises for
// each size, by one update of the cofactors, is what the whole adjustment gives
// with it. The other way of computing is the oracle; agreement to 1e-6 of the
// uncertainty.
func TestProspectsAreWhatAdjustingGives(t *testing.T) {
	compared, closing := 0, 0
	for name, job := range jobsOnFile(t) {
		for i := range job.Readings {
			for _, j := range []int{i, (i + 1) % len(job.Readings)} {
				less, planned := lacking(job, i, j)
				promised, full := promise(t, less, planned)
				if promised == nil {
					continue
				}
				compared++
				if promised.along != nil {
					closing++
				}
				compareStates(t, name+" "+job.Readings[i].ID, promised, full, job)
			}
		}
	}
	t.Logf("%d readings compared, %d of them close a direction", compared, closing)
	if compared < 300 || closing < 40 {
		t.Errorf("only %d readings compared, %d of them closing a direction", compared, closing)
	}
}

// promise returns the prospect of the one reading planned and what adjusting
// with it says; nil for a touch, a go / no-go pair, a guess at which the set-up
// cannot be, and a job with a suspect, which is adjusted from elsewhere.
func promise(t *testing.T, less, planned *trade.Job) (promised, full *Prospect) {
	t.Helper()
	r, err := Adjust(less)
	if err != nil {
		t.Fatal(less.Name, err)
	}
	prospects := r.Prospects(planned)
	filled, err := r.Foretell(planned)
	if len(prospects) != 1 || err != nil || slices.ContainsFunc(r.Readings, func(v Value) bool { return v.Suspect }) {
		return nil, nil
	}
	after, err := r.Refit(filled)
	if err != nil {
		t.Fatal(less.Name, err)
	}
	return prospects[0], after.Present()
}

func compareStates(t *testing.T, name string, promised, full *Prospect, job *trade.Job) {
	t.Helper()
	for _, size := range job.Sizes {
		u, determined := promised.Uncertainty(size.ID)
		want, really := full.Uncertainty(size.ID)
		if determined != really || determined && math.Abs(u-want) > 1e-6*want {
			t.Errorf("%s, %s: promised %.9g (%v), adjusting gives %.9g (%v)", name, size.ID, u, determined, want, really)
		}
		if !determined {
			continue
		}
		check, weakest := promised.Standing(size.ID)
		wantCheck, wantWeakest := full.Standing(size.ID)
		if check != wantCheck || math.Abs(weakest-wantWeakest) > 1e-6 {
			t.Errorf("%s, %s: promised check %d, redundancy %.9g; adjusting gives %d, %.9g", name, size.ID, check, weakest, wantCheck, wantWeakest)
		}
	}
}
