package blunder_test

import (
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// The simulations read every job anew, as instruments do: what the true sizes
// and the true pieces make of a set-up, plus a zero for each instrument, plus
// scatter for each value, rounded to the step of the scale; then one slip is
// made. The seed was fixed before the first run.
const seed = 20261125

// rounds returns how many slips of each kind are tried.
func rounds(long, plain, short int) int {
	switch {
	case os.Getenv("ODDLEG_LONG") != "":
		return long
	case testing.Short():
		return short
	}
	return plain
}

// world is a job whose true sizes are known: those that its file gives.
type world struct {
	name  string
	r     *adjust.Result
	known map[string]float64 // the smallest slips found so far
}

func worlds(t *testing.T, patterns ...string) []world {
	t.Helper()
	var list []world
	for _, pattern := range patterns {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: no jobs there", pattern)
		}
		for _, file := range files {
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, world{filepath.Base(file), adjusted(t, readJob(t, source)), map[string]float64{}})
		}
	}
	return list
}

func readJob(t testing.TB, source []byte) *trade.Job {
	t.Helper()
	job, err := jobfile.Read("", source)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func adjusted(t *testing.T, job *trade.Job) *adjust.Result {
	t.Helper()
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// draw is one drawing of a world: a job to fill in, and what is true in it.
type draw struct {
	t      *testing.T
	world  *world
	random *rand.Rand // nil: nothing scatters
	job    *trade.Job
	pieces map[string]float64
	zeros  map[string]float64
}

// drawn reads a world's job anew.
func (w *world) drawn(t *testing.T, random *rand.Rand) *draw {
	d := &draw{t: t, world: w, random: random, job: copied(w.r.Job), pieces: map[string]float64{}, zeros: map[string]float64{}}
	for _, p := range d.job.Pieces {
		d.pieces[p.ID] = p.Size.Inside()
		if p.Tolerance.Given() {
			d.pieces[p.ID] += p.Tolerance.Inside() * (2*d.uniform() - 1)
		}
	}
	for i := range d.job.Instruments {
		d.zeros[d.job.Instruments[i].ID] = d.errorOf(d.job.Instruments[i].ID).Zero * d.normal()
	}
	truths := d.truths(d.job.Readings)
	for i := range d.job.Readings {
		if drawable(&d.job.Readings[i]) {
			d.fill(&d.job.Readings[i], truths[i])
		}
	}
	return d
}

func copied(job *trade.Job) *trade.Job {
	c := *job
	c.Instruments = slices.Clone(job.Instruments)
	c.Pieces = slices.Clone(job.Pieces)
	c.Readings = slices.Clone(job.Readings)
	for i := range c.Readings {
		c.Readings[i].Saw = slices.Clone(job.Readings[i].Saw)
		c.Readings[i].Of = slices.Clone(job.Readings[i].Of)
	}
	return &c
}

func (d *draw) normal() float64 {
	if d.random == nil {
		return 0
	}
	return d.random.NormFloat64()
}

func (d *draw) uniform() float64 {
	if d.random == nil {
		return 0.5
	}
	return d.random.Float64()
}

func (d *draw) errorOf(instrument string) gauge.Error {
	e, err := gauge.ErrorOf(d.job.Instrument(instrument))
	if err != nil {
		d.t.Fatal(err)
	}
	return e
}

// drawable reports whether a reading can be read anew here: a touch, a go /
// no-go pair and a plain number stay as they are.
func drawable(r *trade.Reading) bool {
	return !r.GoNoGo() && !gauge.Pairs(r.By) && r.Saw[0].X.Dimension() != unit.Number
}

// fill makes an instrument show the true value x.
func (d *draw) fill(r *trade.Reading, x float64) {
	e := d.errorOf(r.With)
	feel := 0.0
	if r.Feel.Given() {
		feel = r.Feel.Inside()
	}
	seated := feel * d.normal()
	for i := range r.Saw {
		if !r.SeatedOnce {
			seated = feel * d.normal()
		}
		r.Saw[i].X = d.onScale(r, r.Saw[i].X.Unit(), x+d.zeros[r.With]+seated+e.Repeat*d.normal())
	}
}

// truth returns what a set-up would show at the true sizes and pieces, with an
// instrument free of error; NaN where it cannot be.
func (d *draw) truth(r trade.Reading) float64 { return d.truths([]trade.Reading{r})[0] }

func (d *draw) truths(setUps []trade.Reading) []float64 {
	job := copied(d.world.r.Job)
	for i := range job.Pieces {
		job.Pieces[i].Size = mm(d.t, d.pieces[job.Pieces[i].ID])
		job.Pieces[i].Tolerance = unit.Quantity{}
	}
	for i := range job.Instruments {
		if job.Instruments[i].Zero = mm(d.t, 0); job.Instruments[i].Kind == trade.Protractor {
			job.Instruments[i].Zero, _ = unit.New(0, 1, unit.Degree)
		}
		job.Instruments[i].Repeat = job.Instruments[i].Resolution
	}
	first := len(job.Readings)
	for i, r := range setUps {
		if r.ID = strconv.Itoa(i); r.Goes.Given() {
			r.Goes, r.Stops, r.With = trade.Bound{}, trade.Bound{}, job.Instruments[0].ID
		}
		r.Saw, r.Feel = nil, unit.Quantity{}
		job.Readings = append(job.Readings, r)
	}
	filled, _ := d.world.r.Foretell(job)
	list := make([]float64, len(setUps))
	for i := range list {
		list[i] = math.NaN()
		if saw := filled.Readings[first+i].Saw; len(saw) > 0 {
			list[i] = saw[0].X.Inside()
		}
	}
	return list
}

// onScale writes a value as the reading's instrument shows it.
func (d *draw) onScale(r *trade.Reading, u unit.Unit, x float64) unit.Quantity {
	perUnit := map[unit.Unit]float64{unit.Millimetre: 1, unit.Inch: 25.4, unit.Degree: math.Pi / 180, unit.Radian: 1, unit.One: 1}[u]
	step := 1e-4
	if resolution := d.job.Instrument(r.With).Resolution; d.random != nil && resolution.Given() && u != unit.One {
		step = resolution.Inside() / perUnit
	}
	parts := math.Round(1 / step)
	q, err := unit.New(int64(math.Round(x/perUnit*parts)), int64(parts), u)
	if err != nil {
		d.t.Fatal(err)
	}
	return q
}

func mm(t *testing.T, x float64) unit.Quantity {
	t.Helper()
	q, err := unit.New(int64(math.Round(x*1e9)), 1e9, unit.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	return q
}
