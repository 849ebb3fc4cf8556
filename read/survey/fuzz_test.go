package survey_test

import (
	"errors"
	"math"
	"os"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/testdata/surveytest"
)

// FuzzJudge: whatever surveys a job that can be read has, each is judged with figures
// that are some, or refused with faults.
func FuzzJudge(f *testing.F) {
	source, err := os.ReadFile("../../testdata/jobs/worn-slides.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(source))
	for _, survey := range []string{
		"{kind: lost-motion, date: 2024-03-01, with: clock, at: {0: 0, 1: 0, 2: 0}}",
		"{kind: screw-pitch, date: 2024-03-01, with: clock, pitch: 1e-9, at: {0: 1e9, 1e-9: -1e9, 1e6: 0, 3: 1, 4: 2, 7.3: 1}}",
		"{kind: straightness, date: 2024-03-01, with: clock, at: {0: 1, 1e-9: 2, 1e9: 3}}",
		"{kind: slide-play, date: 2024-03-01, with: clock, reads: dial, angle: 1e-9, at: {0: 0, 1e-9: 1}}",
		"{kind: dovetail, date: 2024-03-01, with: coarse, rollers: [{at: 0, roller: 1e-9, saw: 1e9}, {at: 0, roller: 1e9, saw: 1e-9}]}",
		"{kind: facing, date: 2024-03-01, with: coarse, centre: 1e9, rim: -1e9, across: 1e-9}",
	} {
		f.Add(surveytest.Kit + "  - " + survey + "\n")
	}
	f.Fuzz(func(t *testing.T, source string) {
		job, err := jobfile.Read("", []byte(source))
		if err != nil {
			return
		}
		r, err := upkeep.Judge(job)
		var faults trade.Faults
		switch {
		case errors.As(err, &faults):
		case err != nil:
			t.Errorf("the error is no fault: %v", err)
		default:
			checkFigures(t, r)
		}
	})
}

func checkFigures(t *testing.T, r *upkeep.Result) {
	t.Helper()
	some := func(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
	for _, a := range r.Answers {
		for _, f := range a.Findings {
			if !some(f.Value) || !some(f.U) || f.U < 0 {
				t.Errorf("%s, %s: %g ± u %g", a.Survey.ID, f.Key, f.Value, f.U)
			}
		}
	}
	for _, x := range r.Trends {
		if !some(x.Rate) || !some(x.RateU) || x.Again.Before(x.To) {
			t.Errorf("%s: %g ± u %g a year, look again %v", x.Name, x.Rate, x.RateU, x.Again)
		}
	}
}
