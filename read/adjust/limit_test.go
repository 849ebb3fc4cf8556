package adjust

import (
	"fmt"
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
)

const twoCalipers = `oddleg: 1
job: Two calipers
kit:
  jaws: {kind: caliper, zero: 0.01 mm, repeat: 0.02 mm}
  beam: {kind: caliper, zero: 0.02 mm, repeat: 0.01 mm}
  fine: {kind: caliper, resolution: 0.01 mm, zero: 0.01 mm, repeat: 0.001 mm}
sizes:
  boss: {kind: width}
readings:
  - {id: a, by: outside, of: {size: boss}, with: %s, saw: [%s]}
`

// TestLimitByHand: a hundred values leave a tenth of the scatter, the zero
// stays, and so does the step of an instrument that repeats better than it
// resolves; two instruments combine as 1/(1/a + 1/b) (constructed).
func TestLimitByHand(t *testing.T) {
	jaws, beam := 0.01*0.01+0.02*0.02/100, 0.02*0.02+0.01*0.01/100
	fine := 0.01*0.01 + 0.001*0.001/100 + 0.01*0.01/12
	for _, c := range []struct {
		name, with string
		planned    string // another instrument
		variance   float64
	}{
		{"one caliper", "jaws", "", jaws},
		{"its step stays", "fine", "", fine},
		{"a second one planned", "jaws", "beam", 1 / (1/jaws + 1/beam)},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := measured(t, c.with, "24.88")
			job := *r.Job
			if c.planned != "" {
				job.Readings = append(job.Readings, trade.Reading{ID: "b", By: "outside", Of: job.Readings[0].Of, With: c.planned})
			}
			u, determined := r.Limit(&job, "boss")
			if !determined || math.Abs(u*u/c.variance-1) > 1e-9 {
				t.Errorf("limit %.9g (%v), by hand %.9g", u, determined, math.Sqrt(c.variance))
			}
		})
	}
}

// TestRepeatedByHand: one more value halves the variance of the scatter of one;
// where values within a step count once, it stays within a step of both
// (constructed).
func TestRepeatedByHand(t *testing.T) {
	for _, c := range []struct {
		with, saw string
		variance  float64
	}{
		{"jaws", "24.88", 0.01*0.01 + 0.02*0.02/2},
		{"fine", "24.88, 24.89", 0.01*0.01 + 0.001*0.001/3 + 0.01*0.01/12},
	} {
		r := measured(t, c.with, c.saw)
		after, err := r.Refit(r.Repeated("a"))
		if err != nil {
			t.Fatal(err)
		}
		if u := after.Size("boss").U; math.Abs(u*u/c.variance-1) > 1e-9 {
			t.Errorf("%s: %.9g with one more value, by hand %.9g", c.with, u, math.Sqrt(c.variance))
		}
	}
}

func measured(t *testing.T, with, saw string) *Result {
	t.Helper()
	return mustAdjust(t, mustRead(t, fmt.Appendf(nil, twoCalipers, with, saw)))
}
