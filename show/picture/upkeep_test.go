package picture_test

import (
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/picture"
)

func judged(t *testing.T, source string) *upkeep.Result {
	t.Helper()
	job, err := jobfile.Read("", []byte("oddleg: 1\njob: x\nunits: mm\nkit: {clock: {kind: dial, zero: 0.003, repeat: 0.004}, mic: {kind: micrometer}}\nsurveys:\n"+source))
	if err != nil {
		t.Fatal(err)
	}
	r, err := upkeep.Judge(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func said(s *ink.Sheet) []string {
	var list []string
	for _, m := range s.Flat() {
		if text, ok := m.(ink.Text); ok {
			list = append(list, text.Words)
		}
	}
	return list
}

// lost is a survey of one screw on a day, with this lost motion in its middle.
func lost(day, most, more string) string {
	return "  - {kind: lost-motion, of: cross screw, date: " + day + ", with: clock, end-float: 0.01, at: {0: 0.05, 100: " + most + ", 200: 0.05}" + more + "}\n"
}

// TestSurveyInInches: axes count in the units of the job.
func TestSurveyInInches(t *testing.T) {
	r := judged(t, lost("2024-04-20", "0.254", ", within: 0.4"))
	sheet, err := picture.Survey(&r.Answers[0], unit.Inch, 150, 80)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"lost motion, in", "along the screw, in", "lost motion within 0.0157 in", "0.010"} {
		if !slices.Contains(said(sheet), want) {
			t.Errorf("%q is not said: %q", want, said(sheet))
		}
	}
}

// TestSurveyWithoutPlot: a dovetail read at one place has nothing to draw.
func TestSurveyWithoutPlot(t *testing.T) {
	r := judged(t, "  - {kind: dovetail, date: 2024-04-20, with: mic, angle: 60 deg, rollers: [{at: 0, roller: 6, saw: 100}, {at: 0, roller: 12, saw: 116}]}\n")
	if _, err := picture.Survey(&r.Answers[0], unit.Millimetre, 150, 80); err == nil || !strings.Contains(err.Error(), "nothing to draw") {
		t.Errorf("the error is %v", err)
	}
}

// TestWearIsDated: years are written, or months where surveys lie close; the limit and
// the day to look again are named.
func TestWearIsDated(t *testing.T) {
	for _, c := range []struct {
		surveys string
		want    []string
	}{
		{lost("2019-04-20", "0.1", ", within: 0.4") + lost("2024-04-20", "0.3", ", within: 0.4"), []string{"2020", "2023", "limit 0.400 mm", "at most, 95\u00a0% sure"}},
		{lost("2023-09-20", "0.1", "") + lost("2024-02-20", "0.3", ""), []string{"2023-10", "2024-01"}},
		{lost("1990-04-20", "0.1", "") + lost("2024-02-20", "0.3", ""), []string{"1994", "2018"}},
	} {
		r := judged(t, c.surveys)
		sheet, err := picture.Wear(r.Things()[0], unit.Millimetre, 150, 80)
		if err != nil {
			t.Fatal(err)
		}
		words := said(sheet)
		for _, want := range c.want {
			if !slices.Contains(words, want) {
				t.Errorf("%q is not said: %q", want, words)
			}
		}
		if !strings.Contains(strings.Join(words, ";"), "look again, ") {
			t.Errorf("when to look again is not said: %q", words)
		}
		for _, fault := range draw.Overlaps(sheet) {
			t.Error(fault)
		}
	}
}
