package survey_test

import (
	"testing"

	"codeberg.org/oddleg/oddleg/read/survey"
	"codeberg.org/oddleg/oddleg/testdata/surveytest"
)

// series returns the points of a series that must be there.
func series(t *testing.T, a *survey.Answer, name string) *survey.Series {
	t.Helper()
	for i := range a.Plot.Series {
		if a.Plot.Series[i].Name == name {
			return &a.Plot.Series[i]
		}
	}
	t.Fatalf("%s plots no %s", a.Survey.ID, name)
	return nil
}

// goes fails unless a series has these heights.
func goes(t *testing.T, a *survey.Answer, name string, line bool, want ...float64) {
	t.Helper()
	s := series(t, a, name)
	if len(s.Points) != len(want) || len(s.U) != len(want) || s.Line != line {
		t.Fatalf("%s has %d points and %d uncertainties; a line: %t", name, len(s.Points), len(s.U), s.Line)
	}
	for i, p := range s.Points {
		if !surveytest.Near(p.Y, want[i]) {
			t.Errorf("%s is %.10g at %g, wanted %.10g", name, p.Y, p.X, want[i])
		}
	}
}

// bounded fails unless the limits have these heights at their ends.
func bounded(t *testing.T, a *survey.Answer, want ...[2]float64) {
	t.Helper()
	if len(a.Plot.Limits) != len(want) {
		t.Fatalf("%s: the limits are %v", a.Survey.ID, a.Plot.Limits)
	}
	for i, l := range a.Plot.Limits {
		if !surveytest.Near(l.From.Y, want[i][0]) || !surveytest.Near(l.To.Y, want[i][1]) {
			t.Errorf("%s: a limit goes from %.10g to %.10g, wanted %v", a.Survey.ID, l.From.Y, l.To.Y, want[i])
		}
	}
}

// TestPlotOfScrew: the parts of the lost motion of TestLostMotionByHand, which add up.
func TestPlotOfScrew(t *testing.T) {
	a := &surveytest.Judge(t, "  - {kind: lost-motion, date: 2024-03-01, with: clock, end-float: 0.03, within: 0.3, at: {0: 0.09, 150: 0.25, 300: 0.09}}\n").Answers[0]
	goes(t, a, "lost motion", false, 0.09, 0.25, 0.09)
	goes(t, a, "wear of the screw", false, 0, 0.16, 0)
	goes(t, a, "wear of the nut", true, 0.06, 0.06)
	goes(t, a, "end float", true, 0.03, 0.03)
	bounded(t, a, [2]float64{0.3, 0.3})
	a = &surveytest.Judge(t, "  - {kind: lost-motion, date: 2024-03-01, with: clock, at: {0: 0.09, 150: 0.25, 300: 0.09}}\n").Answers[0]
	goes(t, a, "end float and wear of the nut", true, 0.09, 0.09)
	bounded(t, a)
}

// TestPlotOfSlide, worked by hand: the heights of TestStraightnessByHand, of which the
// line of least squares is 0.02 + 0.004·(x - 1.5) and the departures lie between -0.026
// and 0.038; and a gap whose line is 0.2 + 0.1·x.
func TestPlotOfSlide(t *testing.T) {
	a := &surveytest.Judge(t, "  - {kind: straightness, date: 2024-03-01, with: clock, within: 0.05, at: {0: 0, 1: 0.02, 2: 0.06, 3: 0}}\n").Answers[0]
	goes(t, a, "height", false, 0, 0.02, 0.06, 0)
	goes(t, a, "line of least squares", true, 0.014, 0.026)
	bounded(t, a, [2]float64{-0.005, 0.007}, [2]float64{0.045, 0.057}) // 0.006 above the line, ±0.025
	a = &surveytest.Judge(t, "  - {kind: slide-play, date: 2024-03-01, with: feelers, within: 0.5, at: {0: 0.21, 1: 0.28, 2: 0.41}}\n").Answers[0]
	goes(t, a, "play", false, 0.21, 0.28, 0.41)
	goes(t, a, "line for the gib", true, 0.2, 0.4)
	bounded(t, a, [2]float64{0.5, 0.5})
}

// TestPlotOfPitch: errors count from the first place; 0.05 lies about their middle.
func TestPlotOfPitch(t *testing.T) {
	a := &surveytest.Judge(t, "  - {kind: screw-pitch, date: 2024-03-01, with: fine, pitch: 5, within: 0.05, at: {0: 0.01, 50: 0.02, 100: 0.03}}\n").Answers[0]
	goes(t, a, "error", false, 0, 0.01, 0.02)
	goes(t, a, "even error", true, 0, 0.02)
	bounded(t, a, [2]float64{-0.015, -0.015}, [2]float64{0.035, 0.035})
}

// TestPlotOfAlignment: each from where it is right to where it is off, its tolerance
// spreading from there; a face is right only below its rim.
func TestPlotOfAlignment(t *testing.T) {
	r := surveytest.Judge(t, "  - {kind: two-collar, date: 2024-03-01, with: mic, near: 40.06, far: 40, apart: 150, within: 0.02}\n"+
		"  - {kind: test-bar, date: 2024-03-01, with: clock, apart: 300, within: 0.03, up-near: [0.01, 0.01], up-far: [0.045, 0.015], side-near: [0.002, -0.002], side-far: [0, -0.04]}\n"+
		"  - {kind: facing, date: 2024-03-01, with: clock, centre: 0, rim: 0.04, across: 150, within: 0.03}\n"+
		"  - {kind: facing, date: 2024-03-01, with: clock, centre: 0, rim: 0.04, across: 150}\n"+
		"  - {kind: ram, date: 2024-03-01, with: clock, feet: 200, within: 0.05, at: {0: 0.01, 150: 0.07, 300: 0.13}}\n"+
		"  - {kind: dovetail, date: 2024-03-01, with: mic, angle: 60 deg, within: 0.05, rollers: [{at: 0, roller: r6, saw: 100}, {at: 150, roller: r6, saw: 99.9}, {at: 300, roller: r6, saw: 100.1}]}\n")
	collars, bar, face, bare, ram, dovetail := &r.Answers[0], &r.Answers[1], &r.Answers[2], &r.Answers[3], &r.Answers[4], &r.Answers[5]
	goes(t, collars, "axis", false, 0, 0.03)
	bounded(t, collars, [2]float64{0, -0.01}, [2]float64{0, 0.01})
	goes(t, bar, "upright", false, 0, 0.02)
	goes(t, bar, "sideways", false, 0, -0.02)
	bounded(t, bar, [2]float64{0, -0.03}, [2]float64{0, 0.03})
	goes(t, face, "face", false, 0, -0.02) // from the rim in
	bounded(t, face, [2]float64{0, 0}, [2]float64{-0.03, 0})
	bounded(t, bare, [2]float64{0, 0})
	goes(t, ram, "height", false, 0, 0.06, 0.12)
	bounded(t, ram, [2]float64{0, -0.05}, [2]float64{0, 0.05})
	goes(t, dovetail, "width", false, 0, -0.1, 0.1)
	bounded(t, dovetail, [2]float64{0, -0.05}, [2]float64{0, 0.05})
}
