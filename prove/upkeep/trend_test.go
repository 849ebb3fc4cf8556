package upkeep_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/survey"
	"codeberg.org/oddleg/oddleg/testdata/surveytest"
)

// lost is a survey of a screw in a year, with this wear in its middle.
func lost(year, wear string) string {
	return "  - {kind: lost-motion, of: cross screw, date: " + year + "-01-01, with: clock, within: 0.4, end-float: 0, at: {0: 0, 100: " + wear + ", 200: 0}}\n"
}

func trend(t *testing.T, r *upkeep.Result, key string) upkeep.Trend {
	t.Helper()
	for _, x := range r.Trends {
		if x.Key == key {
			return x
		}
	}
	t.Fatalf("no trend of %s in %v", key, r.Trends)
	return upkeep.Trend{}
}

// TestTrendByHand: 0.1 in four years of 365.25 days. Each lost motion has u² = 0.004² + 0.003²,
// so the rate has √2·0.005/4. The line's upper bound, 0.3 + 0.025·t + 1.645·u(t) with u² = 0.005²(1 +
// 2t/4 + 2t²/16), must be at 0.4 on the day named.
func TestTrendByHand(t *testing.T) {
	r := surveytest.Judge(t, lost("2024", "0.3")+lost("2020", "0.2")) // in whatever order
	x := trend(t, r, "lost_motion")
	if !surveytest.Near(x.Value, 0.3) || !surveytest.Near(x.U, 0.005) || !surveytest.Near(x.Rate, 0.025) || !surveytest.Near(x.RateU, 0.005*math.Sqrt2/4) {
		t.Errorf("%.10g ± %.10g, growing %.10g ± %.10g", x.Value, x.U, x.Rate, x.RateU)
	}
	if x.Limit != 0.4 || len(x.Seen) != 2 {
		t.Errorf("limit %g, %d surveys", x.Limit, len(x.Seen))
	}
	years := x.Again.Sub(x.To).Hours() / 24 / 365.25
	u := 0.005 * math.Sqrt(1+years/2+years*years/8)
	if at := 0.3 + 0.025*years + 1.6448536*u; math.Abs(at-0.4) > 1e-4 { // a day is 7e-5
		t.Errorf("look again %s, when the bound is %g", x.Again.Format(time.DateOnly), at)
	}
	if r.Answers[0].Survey.Date.Year() != 2024 {
		t.Error("the answers are not in the order of the file")
	}
}

// TestTrends: what is said where nothing grows, where the limit is near, and where the
// surveys do not lie on a line; and what makes no trend at all.
func TestTrends(t *testing.T) {
	for _, c := range []struct {
		surveys, why string
		uneven       bool
	}{
		{lost("2020", "0.2") + lost("2024", "0.201"), "no growth", false},
		{lost("2020", "0.2") + lost("2024", "0.395"), "beyond its limit already", false},
		{lost("2016", "0.3") + lost("2020", "0.2") + lost("2024", "0.3"), "no growth", true},
	} {
		x := trend(t, surveytest.Judge(t, c.surveys), "lost_motion")
		surveytest.Says(t, []unit.Text{unit.Words(x.Why)}, c.why)
		if x.Uneven != c.uneven {
			t.Errorf("%s: uneven is %t", c.surveys, x.Uneven)
		}
	}
	other := "  - {kind: lost-motion, of: table slide, date: 2024-01-01, with: clock, at: {0: 0, 100: 0.1, 200: 0}}\n"
	if r := surveytest.Judge(t, lost("2024", "0.2")+other+lost("2024", "0.2")); len(r.Trends) != 0 {
		t.Errorf("surveys of two screws, or of one day, make trends: %v", r.Trends)
	}
}

// TestTrendCovers simulates four surveys of a screw that wears evenly.
func TestTrendCovers(t *testing.T) {
	surveytest.Simulates(t)
	years := []string{"2012", "2016", "2020", "2024"}
	text := ""
	for _, year := range years {
		text += lost(year, "0.1")
	}
	job := surveytest.Read(t, text)
	random := rand.New(rand.NewPCG(surveytest.Seed, 6))
	var rate surveytest.Coverage
	for range surveytest.Rounds / 4 {
		for i := range job.Surveys {
			shows := surveytest.Dial(random, 0.003, 0.004)
			s := &job.Surveys[i]
			s.Figures[0].Values = shows(0.02)
			for k := range s.Stations {
				s.Stations[k].Saw = shows(0.05 + []float64{0, 0.04 * float64(i), 0}[k])
			}
		}
		r, err := upkeep.Judge(job)
		if err != nil {
			t.Fatal(err)
		}
		x := trend(t, r, "screw_wear")
		rate.Add(&survey.Finding{Value: x.Rate, U: x.RateU}, 0.01)
	}
	rate.WantsPromised(t, "rate of wear")
}

// TestNoSurveys says what to write.
func TestNoSurveys(t *testing.T) {
	if _, err := upkeep.Judge(surveytest.Read(t, "")); err == nil || err.Error() != "the job has no surveys: write what was read under surveys:" {
		t.Errorf("the error is %v", err)
	}
}

// TestTrendLine: the line of TestTrendByHand on its last day and four years on, where
// it is twice the second less the first: u² is 5·0.005²; and the surveys it goes through.
func TestTrendLine(t *testing.T) {
	r := surveytest.Judge(t, lost("2020", "0.2")+lost("2024", "0.3"))
	x := trend(t, r, "lost_motion")
	later := x.To.AddDate(4, 0, 0)
	for _, c := range []struct {
		day      time.Time
		value, u float64
	}{{x.To, 0.3, 0.005}, {later, 0.4, 0.005 * math.Sqrt(5)}} {
		if value, u := x.At(c.day); !surveytest.Near(value, c.value) || !surveytest.Near(u, c.u) {
			t.Errorf("on %s %.10g ± %.10g", c.day.Format(time.DateOnly), value, u)
		}
	}
	if got, want := x.Upper(later), 0.4+0.005*math.Sqrt(5)*1.6448536269514722; math.Abs(got-want) > 1e-9 {
		t.Errorf("at most %.10g, wanted %.10g", got, want)
	}
	if len(x.Seen) != 2 || !surveytest.Near(x.Seen[0].Value, 0.2) || x.Seen[1].Day != x.To {
		t.Errorf("seen: %v", x.Seen)
	}
	if things := r.Things(); len(things) != 1 || len(things[0]) != len(r.Trends) || x.Thing() != "cross screw" {
		t.Errorf("%d things", len(things))
	}
}
