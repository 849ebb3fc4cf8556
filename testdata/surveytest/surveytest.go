// Package surveytest reads and judges surveys for tests, and counts how often what is
// found covers the truth.
package surveytest

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// Kit heads the surveys of the tests: instruments without a zero error of their
// own where a case is worked by hand.
const Kit = `oddleg: 1
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

// Read returns the job with these surveys, which must be right.
func Read(t *testing.T, surveys string) *trade.Job {
	t.Helper()
	job, err := jobfile.Read("", []byte(Kit+surveys))
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// Judge returns the result of surveys.
func Judge(t *testing.T, surveys string) *upkeep.Result {
	t.Helper()
	r, err := upkeep.Judge(Read(t, surveys))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Figure returns a finding that must be there.
func Figure(t *testing.T, a *survey.Answer, key string) *survey.Finding {
	t.Helper()
	f := a.Finding(key)
	if f == nil {
		t.Fatalf("%s: nothing was found under %s", a.Survey.ID, key)
	}
	return f
}

// Wants compares a finding to 9 digits, or 1e-9 mm where it is none.
func Wants(t *testing.T, a *survey.Answer, key string, value, u float64) {
	t.Helper()
	f := Figure(t, a, key)
	if !Near(f.Value, value) || !Near(f.U, u) {
		t.Errorf("%s: %s is %.12g ± u %.12g, wanted %.12g ± %.12g", a.Survey.ID, key, f.Value, f.U, value, u)
	}
}

// Near reports whether two figures agree to 9 digits, or 1e-9 where they are small.
func Near(got, want float64) bool { return math.Abs(got-want) <= 1e-9*max(1, math.Abs(want)) }

// Length is a length in mm to a millionth of a micron.
func Length(mm float64) unit.Quantity {
	q, err := unit.New(int64(math.Round(mm*1e9)), 1e9, unit.Millimetre)
	if err != nil {
		panic("a length of a test does not fit")
	}
	return q
}

// The seed of the simulations was fixed before the first run; their bounds are 99.9 %
// of the binomial, two-sided.
const (
	Seed    = 20260818
	Rounds  = 4000
	Bound99 = 3.2905267314919255
)

// Simulates skips a simulation where time is short: it does one thing after the other,
// nothing for the race detector.
func Simulates(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("a simulation of many surveys")
	}
}

// Coverage counts how often a figure comes within 1.96 u of the truth.
type Coverage struct{ N, Hits int }

// Add counts one figure of which the truth is known.
func (c *Coverage) Add(f *survey.Finding, truth float64) {
	c.N++
	if math.Abs(f.Value-truth) <= 1.959963984540054*f.U {
		c.Hits++
	}
}

// WantsPromised fails unless 95 % were hits.
func (c *Coverage) WantsPromised(t *testing.T, what string) {
	t.Helper()
	n := float64(c.N)
	share, bound := float64(c.Hits)/n, Bound99*math.Sqrt(0.95*0.05/n)
	t.Logf("%s: %.4f of %d covered, wanted 0.95 ± %.4f", what, share, c.N, bound)
	if math.Abs(share-0.95) > bound {
		t.Errorf("%s: %.4f of %d covered, wanted 0.95 ± %.4f", what, share, c.N, bound)
	}
}

// Dial draws what an instrument shows: one zero for all, a new error each time.
func Dial(r *rand.Rand, zero, repeat float64) func(truth float64) []unit.Quantity {
	off := zero * r.NormFloat64()
	return func(truth float64) []unit.Quantity {
		return []unit.Quantity{Length(truth + off + repeat*r.NormFloat64())}
	}
}

// Says fails unless one of the texts contains a phrase.
func Says(t *testing.T, texts []unit.Text, phrase string) {
	t.Helper()
	if all := unit.Join(texts, "\n").Shown(unit.View{}); !strings.Contains(all, phrase) {
		t.Errorf("nothing says %q:\n%s", phrase, all)
	}
}
