package adjust

import (
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/num/lsq"
)

// The simulations draw new observations for every job of testdata/jobs from
// the error model that the job states, round the sizes found in it, and look
// whether the results keep their promises. The bounds are those of a mean over
// independent jobs: 99.9 %, from the scatter of the jobs themselves. The seed
// was fixed before the first run.
const (
	seed    = 20260211
	bound99 = 3.2905267314919255 // 99.9 % two-sided
)

// rounds returns how often every job is drawn anew.
func rounds() int {
	switch {
	case os.Getenv("ODDLEG_LONG") != "":
		return 2000
	case testing.Short():
		return 4
	}
	return 60
}

// mean gathers figures, one a job.
type mean struct{ n, sum, squares float64 }

func (m *mean) add(x float64) {
	m.n++
	m.sum += x
	m.squares += x * x
}

// halfWidth returns the 99.9 % bound of the mean.
func (m *mean) halfWidth() float64 {
	variance := (m.squares - m.sum*m.sum/m.n) / (m.n - 1)
	return bound99 * math.Sqrt(variance/m.n)
}

// wants fails unless the mean is what theory says.
func (m *mean) wants(t *testing.T, what string, want float64) {
	t.Helper()
	got := m.sum / m.n
	t.Logf("%s: %.5f ± %.5f over %.0f jobs, wanted %.5f", what, got, m.halfWidth(), m.n, want)
	if !(math.Abs(got-want) <= m.halfWidth()) {
		t.Errorf("%s: %.5f ± %.5f, wanted %.5f", what, got, m.halfWidth(), want)
	}
}

// world is a job whose true sizes are known.
type world struct {
	name  string
	model *model
	truth []float64
}

func worlds(t *testing.T) []world {
	t.Helper()
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	if err != nil || len(files) < 20 {
		t.Fatalf("only %d jobs in testdata/jobs (%v)", len(files), err)
	}
	var list []world
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		job, err := jobfile.Read(file, source)
		if err != nil {
			t.Fatal(file, err)
		}
		m := compile(job)
		solved, err := (&search{m: m, active: all(len(m.observations))}).solve()
		if err != nil {
			t.Fatal(file, err)
		}
		list = append(list, world{name: filepath.Base(file), model: m, truth: solved.X})
	}
	return list
}

// errorModel returns, for one drawing of a job, what draws the error of an
// observation.
type errorModel func(w *world, random *rand.Rand) func(i int) float64

// normal draws from the error model as the adjustment counts it.
func normal(w *world, random *rand.Rand) func(i int) float64 {
	return func(i int) float64 { return w.model.observations[i].sigma * random.NormFloat64() }
}

// rounded draws what instruments really do: values scatter by the repeat and
// are then rounded to the resolution, and a go / no-go pair lies anywhere about
// the size. Where a reading falls between two steps of its scale is drawn once
// for all its values: sizes found from rounded readings would favour the steps.
func rounded(w *world, random *rand.Rand) func(i int) float64 {
	phases := map[*forward]float64{}
	return func(i int) float64 {
		o := w.model.observations[i]
		if len(o.values) == 0 {
			return o.sigma * random.NormFloat64()
		}
		f := w.model.values[o.values[0]].reading
		if f.reading.GoNoGo() {
			return o.sigma * math.Sqrt(3) * (2*random.Float64() - 1)
		}
		if _, drawn := phases[f]; !drawn || f.pair() {
			phases[f] = f.sigma.resolution * random.Float64()
		}
		sum := 0.0
		for range o.values {
			sum += roundTo(phases[f]+math.Hypot(f.sigma.repeat, f.sigma.feel)*random.NormFloat64(), f.sigma.resolution) - phases[f]
		}
		return sum / float64(len(o.values))
	}
}

func roundTo(x, step float64) float64 {
	if step == 0 {
		return x
	}
	return step * math.Round(x/step)
}

// draw solves the world's job once more with new errors, and a blunder added
// to one observation.
func (w *world) draw(t *testing.T, errors errorModel, random *rand.Rand, blundered int, blunder float64) *trial {
	t.Helper()
	m := *w.model
	m.observations = nil
	draw := errors(w, random)
	var row lsq.Row
	for i, o := range w.model.observations {
		row.Reset()
		e := draw(i)
		if i == blundered {
			e += blunder
		}
		o.equation = offset{o.equation, o.equation.Eval(w.truth, &row) + e}
		m.observations = append(m.observations, o)
	}
	solved, err := (&search{m: &m, active: all(len(m.observations))}).from(w.truth)
	if err != nil || !solved.Converged {
		t.Fatalf("%s: no solution: %v", w.name, err)
	}
	return solved
}

// covered returns the part of the sizes that lie in their 95 % intervals.
func (w *world) covered(solved *trial) (part float64, sizes int) {
	hit := 0
	for _, column := range w.model.sizes {
		u := math.Sqrt(solved.Cofactor(column, column))
		if !solved.Determined(column) || u == 0 {
			continue
		}
		sizes++
		if math.Abs(solved.X[column]-w.truth[column]) <= Coverage95*u {
			hit++
		}
	}
	return float64(hit) / float64(max(sizes, 1)), sizes
}

func TestIntervalsCoverTheTruth(t *testing.T) {
	for name, errors := range map[string]errorModel{"normal errors": normal, "values rounded to the resolution": rounded} {
		check := exactly
		if name != "normal errors" {
			check = atLeast
		}
		t.Run(name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(seed, 1))
			var coverage, excess mean
			sizes := 0
			for _, w := range worlds(t) {
				for range rounds() {
					solved := w.draw(t, errors, random, -1, 0)
					part, n := w.covered(solved)
					if n > 0 {
						coverage.add(part)
						sizes += n
					}
					if solved.Dof > 0 {
						excess.add(solved.Chi2 / float64(solved.Dof))
					}
				}
			}
			t.Logf("%d sizes", sizes)
			if sizes < 2000 && !testing.Short() {
				t.Errorf("only %d sizes were tried", sizes)
			}
			check(t, &coverage, &excess)
		})
	}
}

// exactly wants what theory says of the error model.
func exactly(t *testing.T, coverage, excess *mean) {
	t.Helper()
	coverage.wants(t, "coverage of 95 % intervals", 0.95)
	excess.wants(t, "chi-square over degrees of freedom", 1)
}

// atLeast wants the promise kept where values are rounded. A rounding error
// never exceeds half a step, so that intervals of 1.96 standard deviations
// cover a little more than 95 %, and chi-square falls a little short.
func atLeast(t *testing.T, coverage, excess *mean) {
	t.Helper()
	got := coverage.sum / coverage.n
	t.Logf("coverage of 95 %% intervals: %.5f ± %.5f; chi-square over degrees of freedom %.5f ± %.5f",
		got, coverage.halfWidth(), excess.sum/excess.n, excess.halfWidth())
	if got < 0.95-coverage.halfWidth() || got > 0.97+coverage.halfWidth() {
		t.Errorf("95 %% intervals cover %.5f of the truths", got)
	}
}

// TestFalseAlarms counts how often the test of a sound value raises an alarm.
func TestFalseAlarms(t *testing.T) {
	const enough = 20 // times each job, for false alarms to be seen at all: their scatter is the bound
	random := rand.New(rand.NewPCG(seed, 2))
	var alarms mean
	for _, w := range worlds(t) {
		for range max(rounds(), enough) {
			solved := w.draw(t, normal, random, -1, 0)
			count, tests := 0.0, 0.0
			for k := range solved.index {
				if solved.Redundancy[k] > 0 {
					tests++
					if math.Abs(solved.Normalised(k)) > testLimit {
						count++
					}
				}
			}
			if tests > 0 {
				alarms.add(count / tests)
			}
		}
	}
	alarms.wants(t, "false alarms a value", testLevel)
}

// TestPower plants a blunder of the smallest catchable size, which the test
// must find as often as its power says, in a value that others check well.
func TestPower(t *testing.T) {
	random := rand.New(rand.NewPCG(seed, 3))
	var found, pointed mean
	for _, w := range worlds(t) {
		sound := w.draw(t, normal, random, -1, 0)
		victims := w.wellChecked(sound)
		for range rounds() {
			if len(victims) == 0 {
				break
			}
			k := victims[random.IntN(len(victims))]
			blunder := sound.SmallestCatchable(k, testLevel, testPower)
			if random.IntN(2) == 0 {
				blunder = -blunder
			}
			solved := w.draw(t, normal, random, k, blunder)
			found.add(share(math.Abs(solved.Normalised(k)) > testLimit))
			pointed.add(share((&search{m: w.model}).testable(solved)[0] == k))
		}
	}
	found.wants(t, "blunders of the smallest catchable size found", testPower)
	t.Logf("the largest normalised residual is that of the blundered value in %.3f ± %.3f", pointed.sum/pointed.n, pointed.halfWidth())
	if pointed.sum/pointed.n < testPower-pointed.halfWidth() {
		t.Errorf("the largest normalised residual is that of the blundered value in %.3f, less often than the power %.2f says", pointed.sum/pointed.n, testPower)
	}
}

func share(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

// wellChecked returns the values of readings with good redundancy whose tests
// are not correlated so strongly that another value takes the blame.
func (w *world) wellChecked(t *trial) []int {
	var list []int
	for k, i := range t.index {
		if w.model.observations[i].source.Kind != FromReading || t.Redundancy[k] < 0.3 {
			continue
		}
		alone := true
		for j := range t.index {
			if j != k && t.Redundancy[j] > 0 && math.Abs(t.TestCorrelation(k, j)) > 0.7 {
				alone = false
			}
		}
		if alone {
			list = append(list, k)
		}
	}
	return list
}
