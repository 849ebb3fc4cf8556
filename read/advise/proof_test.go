package advise

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// everything returns all readings that might be taken, with what each gives
// when the whole job is adjusted with it: the trial that Next must agree with,
// to a tenth of what counts as alike.
func everything(t *testing.T, a *Advice) []*Candidate {
	t.Helper()
	s := newSurvey(t.Context(), a.Result, a)
	list := append(s.again(), s.foreseen()...)
	var tried []*Candidate
	for _, c := range list {
		promised := c.Then
		_, after, ok := s.taken(c)
		if !ok {
			continue
		}
		c.Then = stateOf(after.Present(), a.For)
		if promised.Determined != c.Then.Determined || c.Then.Determined && math.Abs(promised.U-c.Then.U) > alike/10*c.Then.U {
			t.Errorf("%s, %s by %s: promised %.9g (%v), the trial gives %.9g (%v)", a.Result.Job.Name, a.For, c.Reading.By,
				promised.U, promised.Determined, c.Then.U, c.Then.Determined)
		}
		tried = append(tried, c)
	}
	return tried
}

// TestFirstChoiceIsTheBestOfAll thins every job at random, asks for a size at
// random, and tries every reading that might be taken by adjusting the whole
// job with it. None may be better than the first choice by the rule that Next
// states: here that rule is applied anew, to the trials alone. Jobs that
// contradict themselves are left to TestWhatSettlesComesFirst.
func TestFirstChoiceIsTheBestOfAll(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 1))
	asked, tried := 0, 0
	for _, job := range onFile(t) {
		for range rounds() {
			less := thinned(job, random)
			a := Next(t.Context(), adjusted(t, less), Options{For: aim(less, random)})
			if contradicts(a.Result) {
				continue
			}
			all := everything(t, a)
			asked, tried = asked+1, tried+len(all)
			mustBeBest(t, a, all)
		}
	}
	t.Logf("%d times asked, %d readings tried", asked, tried)
	if asked < 25 || tried < 500 {
		t.Errorf("only %d times asked, %d readings tried", asked, tried)
	}
}

// contradicts reports whether readings do not go together.
func contradicts(r *adjust.Result) bool {
	return r.Scatters() || slices.ContainsFunc(r.Readings, func(v adjust.Value) bool { return v.Suspect })
}

// mustBeBest compares the first choice with the trials.
func mustBeBest(t *testing.T, a *Advice, all []*Candidate) {
	t.Helper()
	own := math.Inf(1) // the best with the kit alone
	for _, c := range all {
		if c.Then.Determined && c.Borrow == nil {
			own = min(own, c.Then.U)
		}
	}
	for _, c := range all {
		switch {
		case !c.Then.Determined || c.Borrow != nil && c.Then.U > own*(1-enough):
			continue // leaves it open, or is not worth the errand
		case len(a.Best) == 0:
			if c.Then.U < a.Now.U*(1-alike)*(1-1e-6) || !a.Now.Determined {
				t.Errorf("%s, %s: nothing is proposed, but %s gives %.6g (now %.6g)", a.Result.Job.Name, a.For, c.Reading.By, c.Then.U, a.Now.U)
			}
		case a.Why == Unchecked && c.Then.Check < a.Best[0].Then.Check:
			continue // the check comes first
		case !(a.Best[0].Then.U <= c.Then.U*(1+alike)*(1+1e-6)):
			t.Errorf("%s, %s: the first choice gives %.6g (%s), %s gives %.6g", a.Result.Job.Name, a.For,
				a.Best[0].Then.U, a.Best[0].Reading.By, c.Reading.By, c.Then.U)
		}
	}
}

// TestPromisesAreKept draws every job anew about its own sizes, thins it, and
// takes one of the readings proposed with a drawn value: the uncertainty that
// adjusting all of it from the start then gives is the one promised, to 1 %.
// Promises that say they are rough, where sizes are hardly known yet and the
// slopes change as they become known, are counted apart; jobs that contradict
// themselves promise nothing; a value or a place that shows the sizes found to
// have been wrong is no test of a promise and is counted too.
func TestPromisesAreKept(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 2))
	var firm, rough []float64
	void := 0
	for _, job := range onFile(t) {
		truth := adjusted(t, job)
		for range 2 * rounds() {
			less := thinned(redrawn(job, truth, random), random)
			a := Next(t.Context(), adjusted(t, less), Options{For: aim(less, random)})
			if len(a.Best) == 0 || contradicts(a.Result) {
				continue
			}
			for _, i := range []int{0, random.IntN(len(a.Best))} {
				c := &a.Best[i]
				job := drawn(less, c, truth, random)
				if job == nil || !c.Then.Determined {
					continue
				}
				after := adjusted(t, job)
				miss := missed(a, c, after)
				switch {
				case surprises(job, c) || mirrored(a.Result, after):
					void++
				case c.Rough:
					rough = append(rough, miss)
				default:
					firm = append(firm, miss)
				}
			}
		}
	}
	logMisses(t, "firm promises", firm)
	logMisses(t, "rough promises", rough)
	t.Logf("%d values that show the sizes to have been wrong", void)
	if n := len(firm); n < 50 || firm[n-1] > 0.01 {
		t.Errorf("of %d firm promises one is missed by %.2g", n, firm[n-1])
	}
}

func logMisses(t *testing.T, what string, misses []float64) {
	slices.Sort(misses)
	if n := len(misses); n > 0 {
		over, _ := slices.BinarySearch(misses, 0.01)
		t.Logf("%d %s, missed by %.2g (median), %.2g (95 %%), %.2g (most); %d by over 1 %%",
			n, what, misses[n/2], misses[n*95/100], misses[n-1], n-over)
	}
}

// surprises reports whether a value lies where the sizes found hardly allow: it
// shows that they are wrong.
func surprises(job *trade.Job, c *Candidate) bool {
	return c.prospect != nil && math.Abs(newest(job, c).X.Inside()-c.Shows) > 5*c.prospect.Spread()
}

// mirrored reports whether a hole was found somewhere else altogether: two
// distances leave two places for it.
func mirrored(before, after *adjust.Result) bool {
	for i, place := range after.Places {
		was := before.Places[i]
		if was.Determined && math.Hypot(place.At[0]-was.At[0], place.At[1]-was.At[1]) > 20*math.Hypot(was.U[0], was.U[1]) {
			return true
		}
	}
	return false
}

// missed returns by what part a promise is missed with the reading in the job,
// +Inf where the size is open all the same.
func missed(a *Advice, c *Candidate, after *adjust.Result) float64 {
	u, determined := after.Present().Uncertainty(a.For)
	if !determined {
		return math.Inf(1)
	}
	return math.Abs(u/c.Then.U - 1)
}

// drawn returns the job with a reading, its value drawn about the truth.
func drawn(job *trade.Job, c *Candidate, truth *adjust.Result, random *rand.Rand) *trade.Job {
	if c.At != nil {
		return nil
	}
	if c.Again {
		again := *job
		again.Readings = slices.Clone(job.Readings)
		r := again.Reading(c.Reading.ID)
		for _, v := range truth.Readings {
			if v.ID == r.ID {
				r.Saw = append(slices.Clone(r.Saw), trade.Seen{X: shown(job, r, v.Predicted[0], v.Dimension, random)})
				return &again
			}
		}
	}
	for _, p := range truth.Prospects(with(truth.Job, []*Candidate{c})) {
		if p.Reading.ID == c.Reading.ID && !math.IsNaN(p.Shows) {
			planned := with(job, []*Candidate{c})
			r := &planned.Readings[len(planned.Readings)-1]
			r.Saw = []trade.Seen{{X: shown(job, r, p.Shows, p.Reads(), random)}}
			return planned
		}
	}
	return nil
}
