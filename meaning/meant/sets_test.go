package meant_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// grooveWalls are the ways a drawing can state a round groove: two of its outer
// and inner diameter, its middle diameter and its width, outer = middle + width
// and inner = middle - width.
var grooveWalls = [][2]string{
	{"outer", "inner"}, {"outer", "middle"}, {"outer", "width"}, {"inner", "middle"}, {"inner", "width"}, {"middle", "width"},
}

// groove returns all four sizes from the two that are stated.
func groove(stated [2]string, a, b float64) map[string]float64 {
	var middle, width float64
	switch stated {
	case [2]string{"outer", "inner"}:
		middle, width = (a+b)/2, (a-b)/2
	case [2]string{"outer", "middle"}:
		middle, width = b, a-b
	case [2]string{"outer", "width"}:
		middle, width = a-b, b
	case [2]string{"inner", "middle"}:
		middle, width = b, b-a
	case [2]string{"inner", "width"}:
		middle, width = a+b, b
	default:
		middle, width = a, b
	}
	return map[string]float64{"outer": middle + width, "inner": middle - width, "middle": middle, "width": width}
}

var grooveSizes = []string{"outer", "inner", "middle", "width"}

// grooveJob has the four sizes tied by relations and each read by itself.
func grooveJob(read map[string]float64, u, making float64) *trade.Job {
	job := &trade.Job{Name: "groove", Units: unit.Millimetre}
	for _, id := range grooveSizes {
		kind := trade.Diameter
		if id == "width" {
			kind = trade.Width
		}
		job.Sizes = append(job.Sizes, trade.Size{ID: id, Kind: kind, Make: mm(making), Known: trade.Prior{Value: mm(read[id]), U: mm(u)}})
	}
	job.Relations = []trade.Relation{tied(job, "outer + inner", "2*middle"), tied(job, "outer - inner", "2*width")}
	return job
}

// TestTheMiddleAndWidthAreTheRoundOnes has a groove whose middle diameter and
// width are round and whose walls follow and stand on no grid. Constructed.
func TestTheMiddleAndWidthAreTheRoundOnes(t *testing.T) {
	walls := groove([2]string{"middle", "width"}, 60, 25.4/4)
	r := meant.Round(adjusted(t, grooveJob(walls, 0.003, 0.005)), meant.Tables{})
	if len(r.Sets) != 1 || !slices.Equal(r.Sets[0].Designers, []string{"middle", "width"}) || r.Sets[0].P < 0.8 {
		t.Errorf("stated: %+v", r.Sets)
	}
	for id, want := range map[string]string{"middle": "60 mm", "width": "1/4 in"} {
		if c := r.Of(id).Candidates[0]; c.Text != want || c.P < 0.8 {
			t.Errorf("%s: %s with %.3f, want %s", id, c.Text, c.P, want)
		}
	}
	for _, id := range []string{"outer", "inner"} {
		if p := r.Of(id).NoRound; p < 0.8 {
			t.Errorf("%s: no round size %.3f, want near 1", id, p)
		}
	}
}

// TestWallsFollowInTheSameFractions has a middle diameter of 2 1/2 in and a
// width of 9/64 in: the walls are whole 64ths as well, so that any of the three
// may have been stated beside the middle.
func TestWallsFollowInTheSameFractions(t *testing.T) {
	walls := groove([2]string{"middle", "width"}, 2.5*25.4, 9*25.4/64)
	r := meant.Round(adjusted(t, grooveJob(walls, 0.005, 0.02)), meant.Tables{})
	for id, want := range map[string]string{"middle": "2 1/2 in", "width": "9/64 in", "outer": "2 41/64 in", "inner": "2 23/64 in"} {
		if c := r.Of(id).Candidates[0]; c.Text != want {
			t.Errorf("%s: %s, want %s", id, c.Text, want)
		}
	}
	if p := r.Of("middle").Designer; p < 0.9 {
		t.Errorf("the middle was stated with probability %.3f", p)
	}
}

// TestWhatIsDecidedWasStated has the user decide the outer diameter of the same
// groove: then it was the drawing's own, and the middle or the width follows.
func TestWhatIsDecidedWasStated(t *testing.T) {
	job := grooveJob(groove([2]string{"middle", "width"}, 60, 25.4/4), 0.003, 0.005)
	job.Sizes[0].Meant = "66.35 mm"
	r := meant.Round(adjusted(t, job), meant.Tables{})
	if outer := r.Of("outer"); !outer.Decided || !outer.Tied || outer.Designer < 1-1e-9 || outer.Candidates[0].Text != "66.35 mm" {
		t.Errorf("outer: %+v", outer)
	}
	if !slices.Contains(r.Sets[0].Designers, "outer") {
		t.Errorf("stated: %+v", r.Sets)
	}
	if c := r.Of("middle").Candidates[0]; c.Text != "60 mm" || c.P < 0.9 {
		t.Errorf("middle: %+v", c)
	}
}

// TestGroovesKeepTheirPromises draws grooves of which a random two sizes were
// stated and the others follow.
func TestGroovesKeepTheirPromises(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 4))
	var all, stated tally
	for range 2 * jobs() {
		shares := drawShares(random, priorShares[""])
		two := grooveWalls[random.IntN(len(grooveWalls))]
		a, b := drawGroove(random, shares, two)
		making, u := 0.02, []float64{0.003, 0.01, 0.03}[random.IntN(3)]
		made := groove(two, a+making*random.NormFloat64(), b+making*random.NormFloat64())
		was := groove(two, a, b)
		read := map[string]float64{}
		for _, id := range grooveSizes {
			read[id] = made[id] + u*random.NormFloat64()
		}
		result := meant.Round(adjusted(t, grooveJob(read, u, making)), meant.Tables{})
		for _, id := range grooveSizes {
			answer := result.Of(id)
			all.answer(*answer, truth{n: was[id], round: onGrid(was[id])})
			stated.says(answer.Designer, slices.Contains(two[:], id))
		}
		all.job()
		stated.job()
	}
	all.check(t, "of a groove")
	stated.check(t, "that a size was stated")
}

// drawGroove draws two stated sizes of a groove that can be.
func drawGroove(random *rand.Rand, shares [4]float64, two [2]string) (a, b float64) {
	for {
		a, _ = drawMeant(random, pick(random, shares[:]))
		b, _ = drawMeant(random, pick(random, shares[:]))
		all := groove(two, a, b)
		if all["width"] > 1 && all["inner"] > 5 {
			return a, b
		}
	}
}

// onGrid reports whether any system has a value.
func onGrid(n float64) bool {
	for system := range steps {
		if levelOf(system, n) >= 0 {
			return true
		}
	}
	return false
}
