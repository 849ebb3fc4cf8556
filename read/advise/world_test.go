package advise

import (
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// seed of every random choice, fixed before the first run.
const seed = 20260307

// rounds returns how often every job is thinned anew.
func rounds() int {
	if os.Getenv("ODDLEG_LONG") != "" {
		return 20
	}
	return 1
}

// onFile returns the jobs of testdata/jobs and the examples, in order: those that
// have something to read, and not surveys alone.
func onFile(t testing.TB) []*trade.Job {
	t.Helper()
	var jobs []*trade.Job
	for _, pattern := range []string{"../../testdata/jobs/*.yaml", "../../examples/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: no jobs there", pattern)
		}
		for _, file := range files {
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if job := read(t, string(source)); len(Targets(job)) > 0 {
				jobs = append(jobs, job)
			}
		}
	}
	return jobs
}

func read(t testing.TB, source string) *trade.Job {
	t.Helper()
	job, err := jobfile.Read("", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func adjusted(t testing.TB, job *trade.Job) *adjust.Result {
	t.Helper()
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(job.Name, err)
	}
	return r
}

// thinned returns the job without some of its readings, at least one kept.
func thinned(job *trade.Job, random *rand.Rand) *trade.Job {
	less := *job
	less.Readings = nil
	keep := random.IntN(len(job.Readings))
	for i, r := range job.Readings {
		if i == keep || random.Float64() < 0.7 {
			less.Readings = append(less.Readings, r)
		}
	}
	return &less
}

// aim returns something to ask for: mostly one size or place, now and then
// nothing.
func aim(job *trade.Job, random *rand.Rand) string {
	targets := Targets(job)
	if i := random.IntN(len(targets) + 1); i < len(targets) {
		return targets[i]
	}
	return ""
}

// redrawn returns the job with every value drawn anew about what a result has
// it show: scattered by the instrument's repeat and the feel, and rounded to
// its step.
func redrawn(job *trade.Job, truth *adjust.Result, random *rand.Rand) *trade.Job {
	drawn := *job
	drawn.Readings = slices.Clone(job.Readings)
	for i := range drawn.Readings {
		r := &drawn.Readings[i]
		r.Saw = slices.Clone(r.Saw)
		for _, v := range truth.Readings {
			if v.ID != r.ID || v.Pair || r.GoNoGo() {
				continue
			}
			r.Saw[v.Index].X = shown(job, r, v.Predicted[0], v.Dimension, random)
		}
	}
	return &drawn
}

// shown returns what an instrument shows where a size is exactly so much.
func shown(job *trade.Job, r *trade.Reading, exact float64, d unit.Dimension, random *rand.Rand) unit.Quantity {
	e, err := gauge.ErrorOf(job.Instrument(r.With))
	if err != nil {
		panic(err)
	}
	feel := 0.0
	if r.Feel.Given() && !r.SeatedOnce {
		feel = r.Feel.Inside()
	}
	if d == unit.Number && job.Units == unit.Inch {
		e.Repeat, e.Resolution = e.Repeat/25.4, e.Resolution/25.4
	}
	x := exact + math.Hypot(e.Repeat, feel)*random.NormFloat64()
	if e.Resolution > 0 {
		x = e.Resolution * math.Round(x/e.Resolution)
	}
	q, err := unit.New(int64(math.Round(x*1e9)), 1e9, map[unit.Dimension]unit.Unit{unit.Length: unit.Millimetre, unit.Angle: unit.Radian}[d])
	if err != nil {
		panic(err)
	}
	return q
}
