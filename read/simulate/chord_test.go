package simulate

import (
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// seed of the errors drawn here, fixed before the first run.
const seed = 20260306

// adjusted returns the result of a job file.
func adjusted(t testing.TB, file string) *adjust.Result {
	t.Helper()
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return adjustedText(t, file, source)
}

func adjustedText(t testing.TB, name string, source []byte) *adjust.Result {
	t.Helper()
	job, err := jobfile.Read(name, source)
	if err != nil {
		t.Fatal(err)
	}
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// files returns every sound job there is.
func files(t testing.TB) []string {
	t.Helper()
	jobs, _ := filepath.Glob("../../testdata/jobs/*.yaml")
	examples, _ := filepath.Glob("../../examples/*.yaml")
	if len(jobs) < 20 || len(examples) < 3 {
		t.Fatalf("only %d jobs and %d examples found", len(jobs), len(examples))
	}
	return append(jobs, examples...)
}

// TestChord compares solving by chords with solving from scratch, with errors
// up to twice as large as the kit says, in every job.
func TestChord(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 1))
	solved, stepped, worst := 0, 0, 0.0
	rounds := 60
	if testing.Short() {
		rounds = 10
	}
	for _, file := range files(t) {
		r := adjusted(t, file)
		w := newChord(r).walk()
		errors := make([]float64, len(w.curves))
		for round := range rounds {
			for k, o := range r.Observations() {
				errors[k] = float64(1+round%2) * o.Sigma * random.NormFloat64()
			}
			want, ok := r.Perturbed(errors)
			if !ok {
				continue
			}
			solved++
			if !w.approach(errors) {
				continue
			}
			stepped++
			for _, s := range r.Sizes {
				j, varies := r.Column(s.ID)
				if !s.Determined || !varies {
					continue
				}
				off := math.Abs(w.x[j]-want[j]) / w.reach[j]
				worst = max(worst, off)
				if off > 5*enough {
					t.Errorf("%s, round %d: %s is %.2g standard uncertainties off", file, round, s.ID, off)
				}
			}
		}
	}
	t.Logf("%d of %d solved by chords, at most %.2g standard uncertainties off", stepped, solved, worst)
	if stepped < solved*99/100 {
		t.Errorf("only %d of %d solved by chords", stepped, solved)
	}
}

// TestChordStandsStill starts from no error at all.
func TestChordStandsStill(t *testing.T) {
	r := adjusted(t, "../../testdata/jobs/first-example.yaml")
	w := newChord(r).walk()
	if !w.approach(make([]float64, len(w.curves))) {
		t.Fatal("no solution without errors")
	}
	for j, x := range w.x {
		if math.Abs(x-w.solution[j]) > 1e-6*w.reach[j] {
			t.Errorf("unknown %d moves by %.2g standard uncertainties", j, (x-w.solution[j])/w.reach[j])
		}
	}
}
