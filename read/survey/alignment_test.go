package survey_test

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/read/survey"
	"codeberg.org/oddleg/oddleg/testdata/surveytest"
)

// TestTwoCollar, worked by hand: 40.06 and 40.00 at 150 mm, so atan(0.06/300); the
// micrometer's zero cancels and leaves 0.003·√2, or 0.003·√(1 + 1/4) where the far collar was
// read four times.
func TestTwoCollar(t *testing.T) {
	r := surveytest.Judge(t, "  - {kind: two-collar, date: 2024-03-01, with: mic, near: 40.06, far: 40, apart: 150, within: 0.02}\n"+
		"  - {kind: two-collar, date: 2024-03-01, with: mic, near: 40, far: [40.03, 40.03, 40.03, 40.03], apart: 150, held: centres}\n"+
		"  - {kind: two-collar, date: 2024-03-01, with: mic, near: 40, far: 40.002, apart: 150, within: 0.02}\n")
	chuck, centres, alike := &r.Answers[0], &r.Answers[1], &r.Answers[2]
	surveytest.Wants(t, chuck, "angle", math.Atan(0.0002), 0.003*math.Sqrt2/300/(1+0.0002*0.0002))
	surveytest.Wants(t, chuck, "offset", 0.03, 0.003/math.Sqrt2)
	surveytest.Says(t, chuck.Advice, "swing the headstock so that the axis moves back, away from the operator at the far collar, by 0.030 mm")
	surveytest.Wants(t, centres, "difference", -0.03, 0.003*math.Sqrt(1.25))
	surveytest.Says(t, centres.Advice, "Move the tailstock forward, towards the operator, by 0.015 mm")
	surveytest.Says(t, alike.Advice, "leave it")
	if chuck.Verdict != survey.Exceeds || centres.Verdict != survey.NotJudged || alike.Verdict != survey.Keeps {
		t.Errorf("the verdicts are %q, %q, %q", chuck.Verdict, centres.Verdict, alike.Verdict)
	}
}

// TestTestBar, worked by hand: the middle of the bar goes from 0.01 to 0.03 upwards and
// from 0.00 to -0.02 sideways; half a turn moves the dial by 0.03 and 0.04 at the free
// end, which is 0.05 of run-out.
func TestTestBar(t *testing.T) {
	a := &surveytest.Judge(t, "  - {kind: test-bar, date: 2024-03-01, with: clock, apart: 300, within: 0.03, up-near: [0.01, 0.01], "+
		"up-far: [0.045, 0.015], side-near: [0.002, -0.002], side-far: [0, -0.04]}\n").Answers[0]
	surveytest.Wants(t, a, "up", 0.02, 0.004)
	surveytest.Wants(t, a, "side", -0.02, 0.004)
	surveytest.Wants(t, a, "run_out_near", 0.004, 0.004*math.Sqrt2)
	surveytest.Wants(t, a, "run_out_far", 0.05, 0.004*math.Sqrt2)
	surveytest.Says(t, a.Advice, "rises by 0.020 mm, which is the better way")
	surveytest.Says(t, a.Advice, "leans away from the operator by 0.020 mm, which weight and the cut make worse")
	if a.Verdict != survey.Keeps {
		t.Errorf("the verdict is %q", a.Verdict)
	}
}

// TestFacing: what the dial shows across is twice the hollow. Only hollow is right.
func TestFacing(t *testing.T) {
	for _, c := range []struct {
		rim, within string
		verdict     survey.Verdict
		says        string
	}{
		{"0.04", "0.03", survey.Keeps, "as it must"},
		{"0.04", "", survey.Keeps, "as it must"},
		{"-0.04", "0.03", survey.Exceeds, "plates will rock"},
		{"0.1", "0.03", survey.Exceeds, "too hollow"},
		{"0.001", "0.03", survey.CannotTell, "cannot tell"},
	} {
		within := ""
		if c.within != "" {
			within = ", within: " + c.within
		}
		a := &surveytest.Judge(t, "  - {kind: facing, date: 2024-03-01, with: clock, centre: 0, rim: "+c.rim+", across: 150"+within+"}\n").Answers[0]
		if a.Verdict != c.verdict {
			t.Errorf("%s: the verdict is %q at %g, wanted %q", c.rim, a.Verdict, a.Conforms, c.verdict)
		}
		surveytest.Says(t, a.Advice, c.says)
	}
	a := &surveytest.Judge(t, "  - {kind: facing, date: 2024-03-01, with: clock, centre: 0.01, rim: 0.05, across: 150}\n").Answers[0]
	surveytest.Wants(t, a, "hollow", 0.02, 0.004/math.Sqrt2)
	surveytest.Wants(t, a, "angle", math.Atan(0.02/150), 0.004/math.Sqrt2/150)
}

// TestRam, worked by hand: 0.12 in 300 is 0.08 under feet 200 apart.
func TestRam(t *testing.T) {
	a := &surveytest.Judge(t, "  - {kind: ram, date: 2024-03-01, with: clock, feet: 200, within: 0.05, at: {0: 0, 150: 0.06, 300: 0.12}}\n").Answers[0]
	surveytest.Wants(t, a, "rise", 0.12, 0.004*math.Sqrt2) // 300·r/√45000
	surveytest.Wants(t, a, "packing", 0.08, 0.004*math.Sqrt2*2/3)
	surveytest.Says(t, a.Advice, "0.080 mm of packing under the feet on the side of 0.000 mm")
	if a.Verdict != survey.Exceeds {
		t.Errorf("the verdict is %q", a.Verdict)
	}
	a = &surveytest.Judge(t, "  - {kind: ram, date: 2024-03-01, with: clock, feet: 200, at: {0: 0.12, 150: 0.2, 300: 0}}\n").Answers[0]
	surveytest.Says(t, a.Advice, "on the side of 300.000 mm")
	surveytest.Says(t, a.Cautions, "not straight")
}

// TestVerdicts: the published figures of the default rule, ISO 14253-1:2017 (from
// memory): up to 1.645 u from its limit a figure is within. u is 0.003·√2 here.
func TestVerdicts(t *testing.T) {
	u := 0.003 * math.Sqrt2
	for _, c := range []struct {
		guard   float64
		verdict survey.Verdict
		p       float64 // Φ of the guard: from tables
	}{
		{1.66, survey.Keeps, 0.951543},
		{1.63, survey.CannotTell, 0.948449},
		{0, survey.CannotTell, 0.5},
		{-1.63, survey.CannotTell, 0.051551},
		{-1.66, survey.Exceeds, 0.048457},
	} {
		far := surveytest.Length(40.1 + c.guard*u).String()
		a := &surveytest.Judge(t, "  - {kind: two-collar, date: 2024-03-01, with: mic, near: 40.2, far: "+far+", apart: 150, within: 0.1}\n").Answers[0]
		if a.Verdict != c.verdict || math.Abs(a.Conforms-c.p) > 1e-6 {
			t.Errorf("%g u off: %q at %.6f, wanted %q at %.6f", c.guard, a.Verdict, a.Conforms, c.verdict, c.p)
		}
	}
}
