package upkeep_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// kit heads the surveys of the tests: instruments without a zero error of their
// own where a case is worked by hand.
const kit = `oddleg: 1
job: An old machine
units: mm
kit:
  clock:   {kind: dial, zero: 0.003, repeat: 0.004}
  fine:    {kind: dial, zero: 0.002, repeat: 0.001}
  mic:     {kind: micrometer, zero: 0.002, repeat: 0.003}
  feelers: {kind: other, zero: 0, repeat: 0.01}
  coarse:  {kind: dial, resolution: 0.01, zero: 0.003, repeat: 0.001}
  r6:      {kind: roller, size: 6, tolerance: 0.001}
  r12:     {kind: roller, size: 12}
surveys:
`

// read returns the job with these surveys, which must be right.
func read(t *testing.T, surveys string) *trade.Job {
	t.Helper()
	job, err := jobfile.Read("", []byte(kit+surveys))
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// judge returns the result of surveys.
func judge(t *testing.T, surveys string) *upkeep.Result {
	t.Helper()
	r, err := upkeep.Judge(read(t, surveys))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// figure returns a finding that must be there.
func figure(t *testing.T, a *survey.Answer, key string) *survey.Finding {
	t.Helper()
	f := a.Finding(key)
	if f == nil {
		t.Fatalf("%s: nothing was found under %s", a.Survey.ID, key)
	}
	return f
}

// wants compares a finding to 9 digits, or 1e-9 mm where it is none.
func wants(t *testing.T, a *survey.Answer, key string, value, u float64) {
	t.Helper()
	f := figure(t, a, key)
	if !near(f.Value, value) || !near(f.U, u) {
		t.Errorf("%s: %s is %.12g ± u %.12g, wanted %.12g ± %.12g", a.Survey.ID, key, f.Value, f.U, value, u)
	}
}

func near(got, want float64) bool { return math.Abs(got-want) <= 1e-9*max(1, math.Abs(want)) }

// length is a length in mm to a millionth of a micron.
func length(mm float64) unit.Quantity {
	q, err := unit.New(int64(math.Round(mm*1e9)), 1e9, unit.Millimetre)
	if err != nil {
		panic("a length of a test does not fit")
	}
	return q
}

// The seed of the simulations was fixed before the first run; their bounds are 99.9 %
// of the binomial, two-sided.
const (
	seed    = 20260818
	rounds  = 4000
	bound99 = 3.2905267314919255
)

// simulates skips a simulation where time is short: it does one thing after the other,
// nothing for the race detector.
func simulates(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("a simulation of many surveys")
	}
}

// coverage counts how often a figure comes within 1.96 u of the truth.
type coverage struct{ n, hits int }

func (c *coverage) add(f *survey.Finding, truth float64) {
	c.n++
	if math.Abs(f.Value-truth) <= 1.959963984540054*f.U {
		c.hits++
	}
}

// wantsPromised fails unless 95 % were hits.
func (c *coverage) wantsPromised(t *testing.T, what string) {
	t.Helper()
	n := float64(c.n)
	share, bound := float64(c.hits)/n, bound99*math.Sqrt(0.95*0.05/n)
	t.Logf("%s: %.4f of %d covered, wanted 0.95 ± %.4f", what, share, c.n, bound)
	if math.Abs(share-0.95) > bound {
		t.Errorf("%s: %.4f of %d covered, wanted 0.95 ± %.4f", what, share, c.n, bound)
	}
}

// dial draws what an instrument shows: one zero for all, a new error each time.
func dial(r *rand.Rand, zero, repeat float64) func(truth float64) []unit.Quantity {
	off := zero * r.NormFloat64()
	return func(truth float64) []unit.Quantity {
		return []unit.Quantity{length(truth + off + repeat*r.NormFloat64())}
	}
}
