package adjust

import (
	"math"
	"os"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// TestWhole moves all the values of a reading together, to and fro, and
// compares: chi-square as a parabola of the shift b is least by w² below where
// it stands, and has the curvature 1/s² of a shift known to s = σ/√(n·r). The
// jobs are linear, or chi-square would be no parabola.
func TestWhole(t *testing.T) {
	compared := 0
	for _, file := range []string{"annular-groove", "casting-layout", "comparator", "digital-caliper", "screw-backlash", "stepped-shaft"} {
		source, err := os.ReadFile("../../testdata/jobs/" + file + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		r := mustAdjust(t, mustRead(t, source))
		for i := range r.Job.Readings {
			reading := &r.Job.Readings[i]
			if reading.GoNoGo() || reading.Saw[0].Y.Given() {
				continue
			}
			w := r.Whole(reading.ID)
			step := w.SmallestCatchable / 4
			if math.IsInf(step, 1) {
				continue
			}
			up, down := movedChi2(t, r, i, step), movedChi2(t, r, i, -step)
			slope, bend := (up-down)/(2*step), (up+down-2*r.Chi2)/2/(step*step)
			if drop := slope * slope / (4 * bend); math.Abs(drop-w.Normalised*w.Normalised) > 1e-4*(1+drop) {
				t.Errorf("%s, %s: chi-square falls by %g, the test says %g", file, reading.ID, drop, w.Normalised*w.Normalised)
			}
			if s := 1 / math.Sqrt(bend); math.Abs(w.SmallestCatchable/s/4.132147965064809-1) > 1e-4 {
				t.Errorf("%s, %s: a shift is known to %g, the test says %g", file, reading.ID, s, w.SmallestCatchable/4.132147965064809)
			}
			compared++
		}
	}
	if compared < 20 {
		t.Errorf("only %d readings were compared", compared)
	}
}

// movedChi2 returns chi-square where all the values of a reading are moved. The
// last figures of a value that count as one with others are moved too little to
// part them.
func movedChi2(t *testing.T, r *Result, reading int, by float64) float64 {
	t.Helper()
	job := *r.Job
	job.Readings = append([]trade.Reading(nil), job.Readings...)
	saw := append([]trade.Seen(nil), job.Readings[reading].Saw...)
	for i := range saw {
		if !saw[i].SetAside {
			saw[i].X = spoiled(t, saw[i].X, by)
		}
	}
	job.Readings[reading].Saw = saw
	moved, err := r.Refit(&job)
	if err != nil {
		t.Fatal(err)
	}
	return moved.Chi2
}
