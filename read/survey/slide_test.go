package survey_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/survey"
	"codeberg.org/oddleg/oddleg/testdata/surveytest"
)

// TestStraightnessByHand: heights 0, 0.02, 0.06, 0 at even places, the dial's zero
// cancelling. The line of least squares is 0.02 + 0.004·(x - 1.5): Σ(x - x̄)y = 0.02, over
// 5. Its departures are -0.014, 0.002, 0.038, -0.026, so it is 0.064 out; the line through
// both ends is 0, so 0.06. Of y₂ - y₃ less the line, u² is r²(1 + 1 - 1/5).
func TestStraightnessByHand(t *testing.T) {
	a := &surveytest.Judge(t, "  - {kind: straightness, date: 2024-03-01, with: clock, at: {0: 0, 1: 0.02, 2: 0.06, 3: 0}}\n").Answers[0]
	surveytest.Wants(t, a, "straightness", 0.064, 0.004*math.Sqrt(1.8))
	surveytest.Wants(t, a, "by_ends", 0.06, 0.004*math.Sqrt(1+1.0/9+4.0/9))
	surveytest.Says(t, a.Advice, "highest at 2.000 mm and lowest at 3.000 mm")
}

// TestStraightEnough: what is within the scatter is left alone, and the reference
// counts at each place for itself, ±t as t/√3.
func TestStraightEnough(t *testing.T) {
	a := &surveytest.Judge(t, "  - {kind: straightness, date: 2024-03-01, with: clock, reference: 0.006, at: {0: 0, 1: 0.004, 2: 0.001, 3: -0.002}}\n").Answers[0]
	surveytest.Says(t, a.Advice, "leave it alone")
	surveytest.Says(t, a.Cautions, "likely straighter")
	of := surveytest.Figure(t, a, "by_ends")
	if want := math.Sqrt(0.004*0.004 + 0.006*0.006/3); !(of.U > want) {
		t.Errorf("u is %g, under that of one place, %g", of.U, want)
	}
}

// TestStraightnessCovers simulates a slide that is hollow by 0.05 mm: with the middle
// 0.05 below both ends and the quarters 0.03, it is 0.05 out about the line of least
// squares too, since that is level.
func TestStraightnessCovers(t *testing.T) {
	surveytest.Simulates(t)
	job := surveytest.Read(t, "  - {kind: straightness, date: 2024-03-01, with: clock, at: {0: 0, 100: 0, 200: 0, 300: 0, 400: 0}}\n")
	random := rand.New(rand.NewPCG(surveytest.Seed, 7))
	var ends, least surveytest.Coverage
	for range surveytest.Rounds {
		shows := surveytest.Dial(random, 0.003, 0.004)
		for i, height := range []float64{0, -0.03, -0.05, -0.03, 0} {
			job.Surveys[0].Stations[i].Saw = shows(height)
		}
		r, err := upkeep.Judge(job)
		if err != nil {
			t.Fatal(err)
		}
		ends.Add(surveytest.Figure(t, &r.Answers[0], "by_ends"), 0.05)
		least.Add(surveytest.Figure(t, &r.Answers[0], "straightness"), 0.05)
	}
	ends.WantsPromised(t, "straightness by both ends")
	least.WantsPromised(t, "straightness by least squares")
}

// TestStraightSlideIsLeftAlone simulates a slide that is straight: the figure, which is
// never nothing, is said to be no more than scatter in 99 % of surveys, as chi-square is
// held against its 1 %.
func TestStraightSlideIsLeftAlone(t *testing.T) {
	surveytest.Simulates(t)
	job := surveytest.Read(t, "  - {kind: straightness, date: 2024-03-01, with: clock, at: {0: 0, 100: 0, 200: 0, 300: 0, 400: 0, 500: 0}}\n")
	random := rand.New(rand.NewPCG(surveytest.Seed, 9))
	var straight surveytest.Coverage
	left := 0
	for range surveytest.Rounds {
		shows := surveytest.Dial(random, 0.003, 0.004)
		for i := range job.Surveys[0].Stations {
			job.Surveys[0].Stations[i].Saw = shows(0)
		}
		r, err := upkeep.Judge(job)
		if err != nil {
			t.Fatal(err)
		}
		straight.Add(surveytest.Figure(t, &r.Answers[0], "straightness"), 0)
		if strings.Contains(r.Answers[0].Advice[0].Shown(unit.View{}), "leave it alone") {
			left++
		}
	}
	share, bound := float64(left)/surveytest.Rounds, surveytest.Bound99*math.Sqrt(0.99*0.01/surveytest.Rounds)
	t.Logf("left alone: %.4f, wanted 0.99 ± %.4f; nothing within the 95 %% of the figure: %.4f", share, bound, float64(straight.Hits)/surveytest.Rounds)
	if math.Abs(share-0.99) > bound {
		t.Errorf("left alone: %.4f, wanted 0.99 ± %.4f", share, bound)
	}
}

// TestGibCovers simulates the play beside a gib that is to be thicker at one end.
func TestGibCovers(t *testing.T) {
	surveytest.Simulates(t)
	job := surveytest.Read(t, "  - {kind: slide-play, date: 2024-03-01, with: feelers, clearance: 0.03, gib-near: 6, gib-far: 6, gib-with: mic, at: {0: 0, 100: 0, 200: 0}}\n")
	random := rand.New(rand.NewPCG(surveytest.Seed, 8))
	var near, far, taper surveytest.Coverage
	for range surveytest.Rounds {
		thick, gap := surveytest.Dial(random, 0.002, 0.003), surveytest.Dial(random, 0, 0.01)
		s := &job.Surveys[0]
		for i := range s.Figures {
			switch s.Figures[i].Key {
			case "gib-near":
				s.Figures[i].Values = thick(6)
			case "gib-far":
				s.Figures[i].Values = thick(6.1)
			}
		}
		for i := range s.Stations {
			s.Stations[i].Saw = gap(0.2 + 0.05*float64(i))
		}
		r, err := upkeep.Judge(job)
		if err != nil {
			t.Fatal(err)
		}
		near.Add(surveytest.Figure(t, &r.Answers[0], "near"), 6.17)
		far.Add(surveytest.Figure(t, &r.Answers[0], "far"), 6.37)
		taper.Add(surveytest.Figure(t, &r.Answers[0], "taper"), 0.2)
	}
	near.WantsPromised(t, "gib to make, near")
	far.WantsPromised(t, "gib to make, far")
	taper.WantsPromised(t, "its taper")
}

// TestGibByHand: a gib of 6 mm with 0.30 and 0.50 of gap at its ends. The taper comes
// to 0.2 in 200.
func TestGibByHand(t *testing.T) {
	const gib = ", gib-near: 6, gib-with: mic, clearance: 0.03"
	a := &surveytest.Judge(t, "  - {kind: slide-play, date: 2024-03-01, with: feelers"+gib+", at: {0: 0.3, 200: 0.5}}\n").Answers[0]
	u := math.Sqrt(0.01*0.01 + 0.003*0.003 + 0.002*0.002)
	surveytest.Wants(t, a, "near", 6.27, u)
	surveytest.Wants(t, a, "far", 6.47, u)
	surveytest.Wants(t, a, "taper", 0.2, 0.01*math.Sqrt2)
	surveytest.Wants(t, a, "play", 0.5, 0.01)
	surveytest.Says(t, a.Advice, "tapers by 0.200 mm in 200.000 mm, 1:1000, thicker at 200.000 mm")
}

// TestGibExactly builds dovetail slides, lets a dial read the play sideways and has the
// gib made: in exact geometry it then fills what was there but for the clearance.
// Flanks at α that are w apart at the flat leave w·sin α beside each other, square to
// them.
func TestGibExactly(t *testing.T) {
	random := rand.New(rand.NewPCG(surveytest.Seed, 3))
	for range 200 {
		angle := 45 + 40*random.Float64()
		sin := math.Sin(angle * math.Pi / 180)
		room := [2]float64{8 + 4*random.Float64(), 8 + 4*random.Float64()} // along the flat
		thin := [2]float64{5 + random.Float64(), 5 + random.Float64()}
		play := func(i int) string { return surveytest.Length(room[i] - thin[i]/sin).String() }
		a := &surveytest.Judge(t, fmt.Sprintf("  - {kind: slide-play, date: 2024-03-01, with: fine, reads: dial, angle: %.17g deg, clearance: 0.02, "+
			"gib-near: %v, gib-far: %v, gib-with: mic, at: {0: %s, 300: %s}}\n", angle, surveytest.Length(thin[0]), surveytest.Length(thin[1]), play(0), play(1))).Answers[0]
		for i, key := range []string{"near", "far"} {
			if got, want := surveytest.Figure(t, a, key).Value, room[i]*sin-0.02; math.Abs(got-want) > 3e-9 {
				t.Errorf("%s is %.10g, wanted %.10g", key, got, want)
			}
		}
	}
}

// TestGibAdvice: a hollow flank is warned of, a gib that tapers can be driven in, and
// without one there is packing.
func TestGibAdvice(t *testing.T) {
	at := ", at: {0: 0.3, 100: 0.5, 200: 0.3}}\n"
	a := &surveytest.Judge(t, "  - {kind: slide-play, date: 2024-03-01, with: feelers"+at).Answers[0]
	surveytest.Says(t, a.Cautions, "worn hollow")
	surveytest.Says(t, a.Cautions, "A clearance of 0.020 mm is left")
	surveytest.Says(t, a.Advice, "Make packing parallel, 0.347 mm thick")
	a = &surveytest.Judge(t, "  - {kind: slide-play, date: 2024-03-01, with: feelers, clearance: 0.02, gib-near: 6, gib-far: 8, gib-with: mic, at: {0: 0.12, 200: 0.12}}\n").Answers[0]
	surveytest.Says(t, a.Advice, "driven in by 10.000 mm") // 0.10 over 2 in 200, by hand
}

// overRollers is what a dovetail shows, from where the middles of its rollers lie: a
// roller of radius ρ that touches the flat at height h and the flank at α to it has its
// middle at h + ρ, and ρ from the flank. The flank leans out from the sharp corner at
// W/2 over the height: its distance from (X, Y) is (X - W/2)·sin α - Y·cos α.
func overRollers(width, angle, roller, raised float64, female bool) float64 {
	radius := roller / 2
	sin, cos := math.Sincos(angle)
	out := (radius + (raised+radius)*cos) / sin
	if female {
		return width - 2*out - roller
	}
	return width + 2*out + roller
}

// TestDovetailExactly gives back dovetails from rollers at two depths and both ends,
// male and female, by a second size of roller or on blocks.
func TestDovetailExactly(t *testing.T) {
	random := rand.New(rand.NewPCG(surveytest.Seed, 4))
	for i := range 200 {
		female := i%2 == 1
		angle := (45 + 30*random.Float64()) * math.Pi / 180
		width := [2]float64{90 + 10*random.Float64(), 90 + 10*random.Float64()}
		text := "  - {kind: dovetail, date: 2024-03-01, with: mic, side: " + map[bool]string{true: "female", false: "male"}[female] + ", rollers: ["
		for end, w := range width {
			text += fmt.Sprintf("{at: %d, roller: r6, saw: %v}, ", 300*end, surveytest.Length(overRollers(w, angle, 6, 0, female)))
			if i%4 < 2 {
				text += fmt.Sprintf("{at: %d, roller: 12, saw: %v}, ", 300*end, surveytest.Length(overRollers(w, angle, 12, 0, female)))
			} else {
				text += fmt.Sprintf("{at: %d, roller: r6, raised: 7, saw: %v}, ", 300*end, surveytest.Length(overRollers(w, angle, 6, 7, female)))
			}
		}
		a := &surveytest.Judge(t, text+"]}\n").Answers[0]
		for key, want := range map[string]float64{"angle": angle, "near": width[0], "far": width[1], "parallel": width[1] - width[0]} {
			if got := surveytest.Figure(t, a, key).Value; math.Abs(got-want) > 1e-8 { // from readings rounded to 1e-9
				t.Errorf("%d: %s is %.11g, wanted %.11g", i, key, got, want)
			}
		}
	}
}

// TestDovetailJudged: with a stated angle one depth is enough, parallelism has nothing
// of the roller in it, and hollow is what lies beside the line through both ends.
func TestDovetailJudged(t *testing.T) {
	r := surveytest.Judge(t, "  - {kind: dovetail, date: 2024-03-01, with: mic, angle: 60 deg, within: 0.05, rollers: ["+
		"{at: 0, roller: r6, saw: 100}, {at: 150, roller: r6, saw: 99.9}, {at: 300, roller: r6, saw: 100.1}]}\n")
	a := &r.Answers[0]
	surveytest.Wants(t, a, "parallel", 0.1, 0.003*math.Sqrt2)
	surveytest.Wants(t, a, "hollow", 0.15, 0.003*math.Sqrt(1.5))
	if a.Verdict != survey.Exceeds || a.Finding("angle") != nil {
		t.Errorf("the verdict is %q; an angle was found: %t", a.Verdict, a.Finding("angle") != nil)
	}
	surveytest.Says(t, a.Cautions, "exactly 60.000°")
	surveytest.Says(t, a.Advice, "worn hollow by 0.150 mm at 150.000 mm")
}

// TestDovetailRefused: readings that no dovetail gives, and depths that are one.
func TestDovetailRefused(t *testing.T) {
	for _, c := range []struct{ rollers, says string }{
		{"{at: 0, roller: 6, saw: 100}, {at: 0, roller: 12, saw: 100}", "no such thing"},
		{"{at: 0, roller: 6, saw: 100}, {at: 300, roller: r6, saw: 100}", "one depth"},
	} {
		_, err := upkeep.Judge(surveytest.Read(t, "  - {kind: dovetail, date: 2024-03-01, with: mic, rollers: ["+c.rollers+"]}\n"))
		if err == nil {
			t.Errorf("%s: no error", c.rollers)
			continue
		}
		surveytest.Says(t, []unit.Text{unit.Words(err.Error())}, c.says)
	}
}

// TestDovetailCovers simulates a dovetail worn hollow, rollers off as their tolerance
// lets them.
func TestDovetailCovers(t *testing.T) {
	surveytest.Simulates(t)
	text := "  - {kind: dovetail, date: 2024-03-01, with: mic, rollers: ["
	for _, at := range []string{"0", "150", "300"} {
		text += "{at: " + at + ", roller: r6, saw: 100}, {at: " + at + ", roller: r12, saw: 120}, "
	}
	job := surveytest.Read(t, text+"]}\n")
	random := rand.New(rand.NewPCG(surveytest.Seed, 5))
	truth := map[string]float64{"angle": 55 * math.Pi / 180, "near": 80, "far": 80.1, "parallel": 0.1, "hollow": 0.15}
	covered := map[string]*surveytest.Coverage{}
	for range surveytest.Rounds / 2 {
		drawDovetail(random, job)
		r, err := upkeep.Judge(job)
		if err != nil {
			t.Fatal(err)
		}
		for key, want := range truth {
			if covered[key] == nil {
				covered[key] = &surveytest.Coverage{}
			}
			covered[key].Add(surveytest.Figure(t, &r.Answers[0], key), want)
		}
	}
	for key, c := range covered {
		c.WantsPromised(t, key)
	}
}

func drawDovetail(random *rand.Rand, job *trade.Job) {
	small := 6 + 0.001/math.Sqrt(3)*random.NormFloat64()
	shows := surveytest.Dial(random, 0.002, 0.003)
	for i := range job.Surveys[0].Rollers {
		reading := &job.Surveys[0].Rollers[i]
		roller := 12.0
		if reading.Roller.ID == "r6" {
			roller = small
		}
		width := []float64{80, 79.9, 80.1}[i/2]
		reading.Saw = shows(overRollers(width, 55*math.Pi/180, roller, 0, false))
	}
}
