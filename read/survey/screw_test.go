package survey_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/survey"
	"codeberg.org/oddleg/oddleg/testdata/surveytest"
)

// TestLostMotionByHand: at the ends the screw shows 0.084 and 0.096, so that what is the
// same everywhere is their mean, 0.09; less an end float of 0.03. Worked by hand:
// u² of the nut is r²(1 + 1/2), the zero cancelling; of the wear in the middle
// r²(1 + 1/2); of the end float r² + z², with r = 0.004 and z = 0.003.
func TestLostMotionByHand(t *testing.T) {
	r := surveytest.Judge(t, "  - {kind: lost-motion, date: 2024-03-01, with: clock, end-float: 0.03, within: 0.3, at: {0: 0.084, 150: 0.25, 300: 0.096}}\n")
	a := &r.Answers[0]
	surveytest.Wants(t, a, "end_float", 0.03, 0.005)
	surveytest.Wants(t, a, "nut_wear", 0.06, 0.004*math.Sqrt(1.5))
	surveytest.Wants(t, a, "screw_wear", 0.16, 0.004*math.Sqrt(1.5))
	surveytest.Wants(t, a, "lost_motion", 0.25, 0.005)
	surveytest.Wants(t, a, "with_collar_adjusted", 0.22, 0.004*math.Sqrt2)
	// e + s is (b₀ + b₂ in the mean taken off) 0.03 + 0.16: variance r² + z² + 1.5r², as the
	// two share the zero only.
	surveytest.Wants(t, a, "with_new_nut", 0.19, math.Sqrt(2.5*0.004*0.004+0.003*0.003))
	if a.Verdict != survey.Keeps {
		t.Errorf("the verdict is %q at a probability of %g", a.Verdict, a.Conforms)
	}
}

// TestLostMotionWithoutFloat: nut and float are found together, and what would tell
// them apart is said.
func TestLostMotionWithoutFloat(t *testing.T) {
	a := &surveytest.Judge(t, "  - {kind: lost-motion, date: 2024-03-01, with: clock, at: {0: 0.084, 150: 0.25, 300: 0.096}}\n").Answers[0]
	surveytest.Wants(t, a, "float_and_nut", 0.09, math.Sqrt(0.5*0.004*0.004+0.003*0.003))
	surveytest.Says(t, a.Advice, "Read the end float apart")
	if a.Finding("nut_wear") != nil {
		t.Error("the nut's wear was found without the end float")
	}
}

// TestLostMotionCautions: readings that contradict what is supposed of them.
func TestLostMotionCautions(t *testing.T) {
	for _, c := range []struct{ survey, says string }{
		{"end-float: 0.02, at: {0: 0.08, 150: 0.25, 300: 0.18}", "do not agree"},
		{"end-float: 0.02, at: {0: 0.18, 150: 0.25, 300: 0.08}", "unworn at 300.000 mm:"},
		{"end-float: 0.12, at: {0: 0.08, 150: 0.25, 300: 0.08}", "more end float than lost motion"},
		{"end-float: 0.02, at: {0: 0.18, 100: 0.3, 150: 0.05, 300: 0.18}", "At 150.000 mm the screw shows less wear"},
	} {
		a := &surveytest.Judge(t, "  - {kind: lost-motion, date: 2024-03-01, with: clock, "+c.survey+"}\n").Answers[0]
		surveytest.Says(t, a.Cautions, c.says)
	}
}

// TestLostMotionCovers simulates surveys of a screw that is worn in the middle: each
// figure comes within its U as often as promised.
func TestLostMotionCovers(t *testing.T) {
	surveytest.Simulates(t)
	job := surveytest.Read(t, "  - {kind: lost-motion, date: 2024-03-01, with: clock, end-float: 0, at: {0: 0, 75: 0, 150: 0, 225: 0, 300: 0}}\n")
	random := rand.New(rand.NewPCG(surveytest.Seed, 1))
	var float, nut, screw, newNut, collar surveytest.Coverage
	worn := []float64{0, 0.05, 0.2, 0.07, 0}
	for range surveytest.Rounds {
		shows := surveytest.Dial(random, 0.003, 0.004)
		s := &job.Surveys[0]
		s.Figures[0].Values = shows(0.04)
		for i := range s.Stations {
			s.Stations[i].Saw = shows(0.04 + 0.06 + worn[i])
		}
		r, err := upkeep.Judge(job)
		if err != nil {
			t.Fatal(err)
		}
		a := &r.Answers[0]
		float.Add(surveytest.Figure(t, a, "end_float"), 0.04)
		nut.Add(surveytest.Figure(t, a, "nut_wear"), 0.06)
		screw.Add(surveytest.Figure(t, a, "screw_wear"), 0.2)
		newNut.Add(surveytest.Figure(t, a, "with_new_nut"), 0.24)
		collar.Add(surveytest.Figure(t, a, "with_collar_adjusted"), 0.26)
	}
	float.WantsPromised(t, "end float")
	nut.WantsPromised(t, "wear of the nut")
	screw.WantsPromised(t, "wear of the screw")
	newNut.WantsPromised(t, "left by a new nut")
	collar.WantsPromised(t, "left by the collar")
}

// quarters are the stations of a pitch survey: twelve turns of 5 mm by seven quarters.
func quarters(error func(x float64) float64) string {
	text := ""
	for i := range 8 {
		x := 8.75 * float64(i)
		text += surveytest.Length(x).String() + ": " + surveytest.Length(error(x)).String() + ", "
	}
	return strings.TrimSuffix(text, ", ")
}

// TestScrewPitchExactly: an error made of a mean and a periodic part gives both back;
// read as travel it gives the same.
func TestScrewPitchExactly(t *testing.T) {
	drunken := func(x float64) float64 {
		return 0.01 + 2e-4*x + 0.03*math.Cos(2*math.Pi*x/5) - 0.04*math.Sin(2*math.Pi*x/5)
	}
	travel := func(x float64) float64 { return x + drunken(x) }
	r := surveytest.Judge(t, "  - {kind: screw-pitch, date: 2024-03-01, with: fine, pitch: 5, at: {"+quarters(drunken)+"}}\n"+
		"  - {kind: screw-pitch, date: 2024-03-01, with: fine, pitch: 5, reads: travel, at: {"+quarters(travel)+"}}\n")
	for i := range r.Answers {
		a := &r.Answers[i]
		for key, want := range map[string]float64{"pitch": 5.001, "mean_error": 2e-4 * 61.25, "periodic_error": 0.05} {
			if got := surveytest.Figure(t, a, key); math.Abs(got.Value-want) > 2e-9 { // the readings are rounded to 1e-9
				t.Errorf("%s is %.10g, wanted %.10g", key, got.Value, want)
			}
		}
		surveytest.Says(t, a.Advice, "once a turn")
		surveytest.Says(t, a.Advice, "The screw is long")
	}
}

// TestScrewPitchAtWholeTurns: at whole turns nothing tells a periodic error.
func TestScrewPitchAtWholeTurns(t *testing.T) {
	a := &surveytest.Judge(t, "  - {kind: screw-pitch, date: 2024-03-01, with: fine, pitch: 5, within: 0.02, at: {0: 0, 50: -0.01, 100: -0.02, 150: -0.03, 200: -0.04, 250: -0.05}}\n").Answers[0]
	if a.Finding("periodic_error") != nil {
		t.Error("a periodic error was found at whole turns")
	}
	surveytest.Says(t, a.Cautions, "every quarter")
	surveytest.Wants(t, a, "pitch", 5*(1-2e-4), 5*0.001/math.Sqrt(43750)) // Σ(x - x̄)² = 43750, by hand
	surveytest.Wants(t, a, "largest_error", -0.05+0.1, 0.001*math.Sqrt2)
	if a.Verdict != survey.Exceeds {
		t.Errorf("the verdict is %q", a.Verdict)
	}
}

// TestScrewPitchCovers simulates surveys of a screw with both errors.
func TestScrewPitchCovers(t *testing.T) {
	surveytest.Simulates(t)
	job := surveytest.Read(t, "  - {kind: screw-pitch, date: 2024-03-01, with: fine, pitch: 5, at: {"+quarters(math.Sqrt)+"}}\n")
	random := rand.New(rand.NewPCG(surveytest.Seed, 2))
	var pitch, periodic surveytest.Coverage
	for range surveytest.Rounds {
		shows := surveytest.Dial(random, 0.002, 0.001)
		for i := range job.Surveys[0].Stations {
			s := &job.Surveys[0].Stations[i]
			x := s.At.Inside()
			s.Saw = shows(1e-4*x + 0.01*math.Sin(2*math.Pi*x/5))
		}
		r, err := upkeep.Judge(job)
		if err != nil {
			t.Fatal(err)
		}
		pitch.Add(surveytest.Figure(t, &r.Answers[0], "pitch"), 5.0005)
		periodic.Add(surveytest.Figure(t, &r.Answers[0], "periodic_error"), 0.01)
	}
	pitch.WantsPromised(t, "pitch")
	periodic.WantsPromised(t, "periodic error")
}
