package upkeep_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/testdata/surveytest"
)

// gather judges jobs together, and fails where they cannot be.
func gather(t *testing.T, jobs ...*trade.Job) *upkeep.Result {
	t.Helper()
	r, err := upkeep.Judge(upkeep.Gather(jobs))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestGatherIsOneFile: what stands in several jobs says what it says in one. The
// surveys are constructed.
func TestGatherIsOneFile(t *testing.T) {
	gib := "  - {kind: slide-play, of: gib, date: 2019-03-01, with: feelers, gib-near: 6, gib-with: mic, at: {0: 0.3, 200: 0.5}}\n"
	tail := "  - {kind: dovetail, of: slide, date: 2019-03-01, with: mic, angle: 60 deg, rollers: [{at: 0, roller: r6, saw: 100}, {at: 200, roller: 12, saw: 116.4}]}\n"
	first, second := lost("2016", "0.2")+gib+tail, lost("2020", "0.3")
	whole := surveytest.Judge(t, first+second+lost("2024", "0.35"))
	parts := gather(t, surveytest.Read(t, first), surveytest.Read(t, second), surveytest.Read(t, lost("2024", "0.35")))
	if got, want := fmt.Sprint(parts.Trends), fmt.Sprint(whole.Trends); got != want || len(whole.Trends) == 0 { // NaN is not equal to itself
		t.Errorf("trends %s\nwant %s", got, want)
	}
	for i, a := range whole.Answers {
		if got := parts.Answers[i]; !reflect.DeepEqual(got.Findings, a.Findings) || got.Survey.Date != a.Survey.Date {
			t.Errorf("%s %s: %+v, want %+v", got.Survey.Kind, got.Survey.Date, got.Findings, a.Findings)
		}
	}
}

// TestGatherTakesTheLastWord: a survey written in two jobs is that of the later one;
// two of one day in one job are two.
func TestGatherTakesTheLastWord(t *testing.T) {
	old := surveytest.Read(t, lost("2020", "0.9")+lost("2016", "0.2"))
	last := surveytest.Read(t, lost("2020", "0.3")+lost("2024", "0.4")+lost("2024", "0.4"))
	last.Name = "The job at hand"
	r := gather(t, old, last)
	if len(r.Answers) != 4 || r.Job.Name != last.Name || r.Answers[0].Survey.Date.Year() != 2016 {
		t.Fatalf("%d surveys of %s", len(r.Answers), r.Job.Name)
	}
	if most := surveytest.Figure(t, &r.Answers[1], "lost_motion").Value; !surveytest.Near(most, 0.3) {
		t.Errorf("the survey of 2020 says %g, want 0.3 of the later job", most)
	}
	if x := trend(t, r, "lost_motion"); len(x.Seen) != 4 || x.From.Year() != 2016 {
		t.Errorf("trend %+v", x)
	}
	if len(old.Surveys) != 2 || old.Surveys[0].With != "clock" {
		t.Errorf("the old job was changed: %+v", old.Surveys)
	}
}

// TestGatherKeepsInstrumentsApart: an instrument of another job with the same id is
// another one.
func TestGatherKeepsInstrumentsApart(t *testing.T) {
	better := strings.Replace(surveytest.Kit, "clock:   {kind: dial, zero: 0.003, repeat: 0.004}", "clock:   {kind: dial, zero: 0, repeat: 0.001}", 1)
	old, err := jobfile.Read("", []byte(better+lost("2020", "0.2")))
	if err != nil {
		t.Fatal(err)
	}
	alone, err := upkeep.Judge(old)
	if err != nil {
		t.Fatal(err)
	}
	r := gather(t, old, surveytest.Read(t, lost("2024", "0.2")))
	fine, coarse := surveytest.Figure(t, &r.Answers[0], "lost_motion").U, surveytest.Figure(t, &r.Answers[1], "lost_motion").U
	if want := surveytest.Figure(t, &alone.Answers[0], "lost_motion").U; fine != want || fine >= coarse {
		t.Errorf("u is %g by the finer clock, want %g, and %g by the other", fine, want, coarse)
	}
}
