package adjust

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/num/lsq"
)

// fewRounds returns how often every job is drawn anew where each drawing is
// solved many times.
func fewRounds(long, plain int) int {
	switch {
	case os.Getenv("ODDLEG_LONG") != "":
		return long
	case testing.Short():
		return 1
	}
	return plain
}

// spoilt is one drawing of a world in which some observations are wrong.
type spoilt struct {
	*search
	all   *trial
	wrong map[int]float64 // by how much, by observation
}

// spoil draws a world's observations anew, makes some of them wrong and solves.
func (w *world) spoil(t *testing.T, random *rand.Rand, wrong map[int]float64) *spoilt {
	t.Helper()
	m := *w.model
	m.observations = nil
	draw := normal(w, random)
	var row lsq.Row
	for i, o := range w.model.observations {
		row.Reset()
		o.equation = offset{o.equation, o.equation.Eval(w.truth, &row) + draw(i) + wrong[i]}
		m.observations = append(m.observations, o)
	}
	s := &spoilt{search: &search{m: &m, active: all(len(m.observations))}, wrong: wrong}
	solved, err := s.from(w.truth)
	if err != nil {
		t.Fatalf("%s: %v", w.name, err)
	}
	s.all = solved
	return s
}

// finder says which observations are wrong, and what the unknowns are without.
type finder func(s *spoilt) (suspect []bool, x []float64)

func iteratively(s *spoilt) (suspect []bool, x []float64) {
	v := s.suspects(s.all)
	if v.clean == nil {
		return v.suspect, s.all.X
	}
	return v.suspect, v.clean.X
}

// robustly solves again and again with the weights that a robust method gives
// each observation for its normalised misfit, and tests each in the end against
// what the others, so weighted, predict: a misfit g of redundancy r is g/r off
// that, and the prediction has the variance σ²/p·(1 - r)/r.
func robustly(weight func(round int, w float64) float64) finder {
	return func(s *spoilt) (suspect []bool, x []float64) {
		const rounds = 12
		at, weights := s.all, make([]float64, len(s.all.index))
		for round := range rounds {
			problem := lsq.Problem{Start: at.X, Constraints: s.m.constraints}
			for k, i := range s.all.index {
				o, w := s.m.observations[i], 0.0
				if r := s.all.Redundancy[k]; r > 0 {
					w = math.Abs(at.Misclosures[k]) / o.sigma / math.Sqrt(r)
				}
				weights[k] = max(1e-8, weight(round, w))
				problem.Observations = append(problem.Observations, lsq.Observation{Equation: o.equation, Sigma: o.sigma / math.Sqrt(weights[k])})
			}
			solution, err := lsq.Solve(problem)
			if err != nil || !solution.Converged {
				break
			}
			at = &trial{Solution: solution, index: s.all.index}
		}
		suspect = make([]bool, len(s.m.observations))
		for k, i := range at.index {
			if r := at.Redundancy[k]; r > 0 {
				sigma := s.m.observations[i].sigma
				variance := sigma * sigma * (1 + (1-r)/r/weights[k])
				suspect[i] = math.Abs(at.Misclosures[k]/r) > testLimit*math.Sqrt(variance)
			}
		}
		return suspect, at.X
	}
}

// huber is the weight function of Huber, Robust Statistics (1981), with k =
// 1.5; from memory.
func huber(_ int, w float64) float64 { return min(1, 1.5/w) }

// danish is the weight function of Krarup, Juhl and Kubik, Götterdämmerung over
// least squares adjustment (1980); from memory.
func danish(round int, w float64) float64 {
	switch {
	case w <= 2:
		return 1
	case round < 3:
		return math.Exp(-0.05 * math.Pow(w, 4.4))
	}
	return math.Exp(-0.05 * math.Pow(w, 3))
}

// tally counts what a finder found.
type tally struct {
	jobs, found, justThese float64
	sound, alarms          float64
	rate                   mean    // of alarms a sound value, job by job
	squares, sizes         float64 // of the errors of sizes over their u, 10 at most each
}

func (c *tally) count(w *world, s *spoilt, suspect []bool, x []float64) {
	c.jobs++
	all, others := true, false
	sound, alarms := c.sound, c.alarms
	for i, is := range suspect {
		_, wrong := s.wrong[i]
		all = all && (is || !wrong)
		others = others || is && !wrong
		if !wrong && s.m.observations[i].source.Kind == FromReading {
			c.sound++
			c.alarms += share(is)
		}
	}
	if c.sound > sound {
		c.rate.add((c.alarms - alarms) / (c.sound - sound))
	}
	c.found += share(all)
	c.justThese += share(all && !others)
	for _, column := range w.model.sizes {
		if u := math.Sqrt(s.all.Cofactor(column, column)); s.all.Determined(column) && u > 0 {
			c.sizes++
			c.squares += math.Pow(min(10, math.Abs(x[column]-w.truth[column])/u), 2)
		}
	}
}

func (c *tally) String() string {
	return fmt.Sprintf("%.0f jobs, all found in %.1f %%, just these in %.1f %%, %.3f %% of the sound values suspect, sizes then %.2f u off (root mean square)",
		c.jobs, 100*c.found/c.jobs, 100*c.justThese/c.jobs, 100*c.alarms/c.sound, math.Sqrt(c.squares/c.sizes))
}

var finders = []struct {
	name string
	find finder
}{
	{"one after the other", iteratively},
	{"Huber's weights", robustly(huber)},
	{"the Danish method", robustly(danish)},
}

// blunder draws an error of 1 to 4 times the smallest that can be caught.
func blunder(random *rand.Rand, catchable float64) float64 {
	size := catchable * (1 + 3*random.Float64())
	if random.IntN(2) == 0 {
		return -size
	}
	return size
}

// checked returns the values of readings that the others check somehow.
func (w *world) checked(t *trial) []int {
	return slices.DeleteFunc(w.readings(t), func(k int) bool { return t.Redundancy[k] < 0.2 })
}

func (w *world) readings(t *trial) []int {
	var list []int
	for k, i := range t.index {
		if w.model.observations[i].source.Kind == FromReading {
			list = append(list, k)
		}
	}
	return list
}

// TestSeveralBlunders makes two values wrong and wants the iterative test to
// find them as well as the better of two robust methods does.
func TestSeveralBlunders(t *testing.T) {
	for _, many := range []int{0, 1, 2, 3} {
		if testing.Short() && many != 2 {
			continue
		}
		counts := make([]tally, len(finders))
		random := rand.New(rand.NewPCG(seed, 10+uint64(many)))
		for _, w := range worlds(t) {
			w.tryFinders(t, random, many, counts)
		}
		for n, f := range finders {
			t.Logf("%d wrong, %s: %v", many, f.name, &counts[n])
		}
		if rate := &counts[0].rate; many == 0 && rate.sum/rate.n > testLevel+rate.halfWidth() {
			t.Errorf("%.5f ± %.5f of the values of sound jobs are suspect, more than %.3f", rate.sum/rate.n, rate.halfWidth(), testLevel)
		}
		for n := 1; n < len(finders); n++ {
			ours, theirs := counts[0], counts[n]
			// 99.9 % of the difference of two shares of the same jobs, at most
			bound := bound99 * math.Sqrt(0.25/ours.jobs)
			if ours.found/ours.jobs < theirs.found/theirs.jobs-bound || ours.justThese/ours.jobs < theirs.justThese/theirs.jobs-bound {
				t.Errorf("%d wrong: %v, but %s: %v", many, &ours, finders[n].name, &theirs)
			}
		}
	}
}

func (w *world) tryFinders(t *testing.T, random *rand.Rand, many int, counts []tally) {
	sound := w.draw(t, normal, random, -1, 0)
	victims := w.checked(sound)
	if sound.Dof < 4 || len(victims) < 8 {
		return
	}
	for range fewRounds(200, 4) {
		wrong := map[int]float64{}
		for _, n := range random.Perm(len(victims))[:many] {
			wrong[sound.index[victims[n]]] = blunder(random, sound.SmallestCatchable(victims[n], testLevel, testPower))
		}
		s := w.spoil(t, random, wrong)
		for n, f := range finders {
			suspect, x := f.find(s)
			counts[n].count(w, s, suspect, x)
		}
	}
}

// TestWholeReadings makes all the values of a reading wrong alike, as a wrong
// pin does: no value contradicts the next, and only the reading as a whole
// contradicts the others.
func TestWholeReadings(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 20))
	var all tally
	for _, w := range worlds(t) {
		sound := w.draw(t, normal, random, -1, 0)
		groups := map[string]charge{}
		for _, k := range w.readings(sound) {
			id := w.model.observations[sound.index[k]].source.ID
			groups[id] = append(groups[id], k)
		}
		for _, id := range slices.Sorted(maps.Keys(groups)) {
			c := groups[id]
			if len(c) < 2 || w.model.job.Reading(id).Saw[0].Y.Given() || sound.shared(c, c) < 0.2*float64(len(c)) {
				continue
			}
			for range fewRounds(100, 10) {
				wrong := map[int]float64{}
				least := sound.SmallestCatchable(c[0], testLevel, testPower) * math.Sqrt(sound.Redundancy[c[0]]/sound.shared(c, c))
				by := blunder(random, least)
				for _, k := range c {
					wrong[sound.index[k]] = by
				}
				s := w.spoil(t, random, wrong)
				suspect, x := iteratively(s)
				all.count(&w, s, suspect, x)
			}
		}
	}
	t.Logf("whole readings wrong: %v", &all)
	if all.found/all.jobs < 0.9 {
		t.Errorf("whole readings wrong: %v", &all)
	}
}
