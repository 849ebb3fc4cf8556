package adjust

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// stride is how many blunders are passed over for each one tried: all are
// tried in the long run.
func stride() int {
	switch {
	case os.Getenv("ODDLEG_LONG") != "":
		return 1
	case testing.Short():
		return 97
	}
	return 11
}

// TestOneGrossBlunderIsFound spoils the values of every job in turn, far
// beyond what any start value survives, and wants each among the suspects
// wherever other readings check it well.
func TestOneGrossBlunderIsFound(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no jobs")
	}
	count, tried, found := 0, 0, 0
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		sound := mustAdjust(t, mustRead(t, source))
		for n, v := range sound.Readings {
			if v.Redundancy < 0.2 || v.SetAside || v.Pair || sound.Job.Reading(v.ID).GoNoGo() {
				continue
			}
			for _, g := range gross {
				job := mustRead(t, source)
				reading := job.Reading(v.ID)
				blunder := g.spoil(v.Saw[0]) - v.Saw[0]
				if math.Abs(blunder) < 5*v.SmallestCatchable {
					continue // a tenth more of next to nothing is no gross blunder
				}
				if count++; count%stride() != 0 {
					continue
				}
				for i := range reading.Saw {
					if sound.found.values[n].observation == sound.found.observationOf(v.ID, i) {
						reading.Saw[i].X = spoiled(t, reading.Saw[i].X, blunder)
					}
				}
				r, err := Adjust(job)
				if err != nil {
					t.Errorf("%s, %s[%d] %s: %v", file, v.ID, v.Index, g.name, err)
					continue
				}
				tried++
				if r.Readings[n].Suspect {
					found++
				} else {
					t.Logf("%s, %s[%d] (%s) %s: not found (redundancy %.2f)", filepath.Base(file), v.ID, v.Index, reading.By, g.name, v.Redundancy)
				}
			}
		}
	}
	t.Logf("%d of %d gross blunders found", found, tried)
	if tried < 15 || found < tried {
		t.Errorf("%d of %d gross blunders found", found, tried)
	}
}

// gross are the blunders: what people do with units and figures.
var gross = []struct {
	name  string
	spoil func(float64) float64
}{
	{"inches for mm", func(x float64) float64 { return x / 25.4 }},
	{"mm for inches", func(x float64) float64 { return x * 25.4 }},
	{"half", func(x float64) float64 { return x / 2 }},
	{"double", func(x float64) float64 { return 2 * x }},
	{"a tenth more", func(x float64) float64 { return 1.1 * x }},
	{"one figure dropped", func(x float64) float64 { return x / 10 }},
}

func (f *findings) observationOf(id string, index int) int {
	for _, v := range f.values {
		if v.reading.reading.ID == id && v.index == index {
			return v.observation
		}
	}
	return -1
}

// spoiled returns a quantity with a blunder added to it.
func spoiled(t *testing.T, q unit.Quantity, blunder float64) unit.Quantity {
	t.Helper()
	u := unit.Millimetre
	switch q.Dimension() {
	case unit.Angle:
		u = unit.Radian
	case unit.Number:
		u = unit.One
	}
	out, err := unit.New(int64(math.Round((q.Inside()+blunder)*1e9)), 1e9, u)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func mustRead(t *testing.T, source []byte) *trade.Job {
	t.Helper()
	job, err := jobfile.Read("", source)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func mustAdjust(t *testing.T, job *trade.Job) *Result {
	t.Helper()
	r, err := Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
