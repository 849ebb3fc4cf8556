package jobfile_test

import (
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

const surveys = head + `units: in
kit:
  clock: {kind: dial}
  mic: {kind: micrometer}
  r6: {kind: roller, size: 6 mm}
surveys:
  - {id: cross, kind: lost-motion, of: cross screw, date: 2024-02-29, with: clock, within: 0.01, say: stiff,
     end-float: [0.001, 0.002], at: {4: 0.005, 1: [0.003, 0.1 mm], -2: 0.004}}
  - {kind: screw-pitch, date: 2024-02-29, with: clock, pitch: 8 tpi, reads: travel, at: {0: 0, 1: 1, 2: 2}}
  - {kind: slide-play, date: 2024-02-29, with: clock, gib-near: 0.25, gib-with: mic, angle: 55, at: {0: 0.001, 6: 0.002}}
  - {kind: dovetail, date: 2024-02-29, with: mic, side: female, rollers: [
      {at: 0, roller: r6, saw: 3}, {at: 6, roller: 0.5, raised: 0.125, saw: [3, 3.001]}]}
`

// TestSurveys reads one survey of each shape; the values stand in the text above.
func TestSurveys(t *testing.T) {
	job := mustRead(t, surveys)
	if len(job.Surveys) != 4 {
		t.Fatalf("%d surveys", len(job.Surveys))
	}
	checkLostMotion(t, &job.Surveys[0])
	if s := &job.Surveys[1]; s.ID != "survey 2" || !s.Values("pitch")[0].Equal(inches(t, "1/8")) || s.Word("reads", "") != "travel" {
		t.Errorf("screw pitch: %+v", s)
	}
	if s := &job.Surveys[2]; s.Word("gib-with", "") != "mic" || s.Values("angle")[0].String() != "55 deg" || s.Values("gib-far") != nil {
		t.Errorf("slide play: %+v", s)
	}
	rollers := job.Surveys[3].Rollers
	if len(rollers) != 2 || rollers[0].Roller.ID != "r6" || rollers[0].Raised.Given() ||
		!rollers[1].Roller.Value.Equal(inches(t, "0.5")) || !rollers[1].Raised.Equal(inches(t, "1/8")) || len(rollers[1].Saw) != 2 {
		t.Errorf("dovetail: %+v", rollers)
	}
}

// checkLostMotion: stations come in the order of their places.
func checkLostMotion(t *testing.T, s *trade.Survey) {
	t.Helper()
	if s.ID != "cross" || s.Of != "cross screw" || s.With != "clock" || s.Say != "stiff" || !s.Within.Equal(inches(t, "0.01")) {
		t.Errorf("lost motion: %+v", s)
	}
	if want := time.Date(2024, time.February, 29, 0, 0, 0, 0, time.UTC); !s.Date.Equal(want) {
		t.Errorf("the date is %v", s.Date)
	}
	if len(s.Values("end-float")) != 2 || len(s.Stations) != 3 {
		t.Fatalf("lost motion: %+v", s)
	}
	for i, want := range []string{"-2", "1", "4"} {
		if !s.Stations[i].At.Equal(inches(t, want)) {
			t.Errorf("station %d is at %v, wanted %s", i, s.Stations[i].At, want)
		}
	}
	if saw := s.Stations[1].Saw; len(saw) != 2 || saw[1].String() != "0.1 mm" {
		t.Errorf("at 1 in: %v", saw)
	}
}

func inches(t *testing.T, text string) unit.Quantity {
	t.Helper()
	q, err := unit.ParseLength(text, unit.Inch)
	if err != nil {
		t.Fatal(err)
	}
	return q
}
