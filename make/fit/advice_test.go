package fit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// bush is a job that makes a bush's pin; the bore is read as stated. Constructed.
const bush = `oddleg: 1
job: Pin of a bush
kit:
  jaws: {kind: caliper, zero: 0.01 mm, repeat: 0.02 mm, resolution: 0.01 mm}
  gauge: {kind: bore-gauge, zero: 0.002 mm, repeat: 0.002 mm, resolution: 0.005 mm}
  coarse: {kind: caliper, resolution: 0.1 mm}
sizes:
  bore: {kind: diameter, surface: inside%s}
readings:
  - {id: a, by: inside, of: {size: bore}, with: %s, saw: [20.06, 20.04]}
part:
  kind: turned
  name: Pin
  %s
  sizes:
    pin: {kind: diameter, goes-in: bore, %s}
`

func made(t *testing.T, size, with, part, pin string) *fit.Made {
	t.Helper()
	job, err := jobfile.Read("bush.yaml", fmt.Appendf(nil, bush, size, with, part, pin))
	if err != nil {
		t.Fatal(err)
	}
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	f, err := fit.Fit(t.Context(), r, meant.Round(r, meant.Tables{}))
	if err != nil {
		t.Fatal(err)
	}
	return f.Of("pin")
}

func TestAdvice(t *testing.T) {
	for _, c := range []struct {
		name, size, with, part, pin string
		says, not                   []string
	}{
		{
			"room for all", "", "gauge", "holds: 0.01 mm", "clearance: 0.05..0.15 mm, rework: easy",
			nil,
			[]string{"Both cannot", "Leave", "hard"},
		},
		{
			"measured too roughly", "", "jaws", "holds: 0.005 mm", "clearance: 0..0.03 mm, rework: easy",
			[]string{"Both cannot be had: to go together in 99.0 % of cases", "know the mate better", "Leave 0.0", "Err on the large side"},
			[]string{"hard to ease"},
		},
		{
			"made too roughly", "", "gauge", "holds: 0.05 mm", "clearance: 0..0.03 mm, rework: hard",
			[]string{"hold it closer than ±0.050 mm", "err on the small side, towards clearance"},
			[]string{"Leave"},
		},
		{
			"wider than wanted", "", "gauge", "holds: 0.02 mm", "clearance: 0.06..0.07 mm",
			[]string{"scatters more than is wanted", "hold it closer"},
			[]string{"Both cannot"},
		},
		{
			"a tight grip", "", "gauge", "holds: 0.02 mm", "interference: 0..0.02 mm",
			[]string{"It grips in 99.0 % of cases, but in", "over the 0.020 mm wanted at most"},
			nil,
		},
		{
			"a transition that may not go", "", "jaws", "holds: 0.02 mm", "clearance: -0.005..0.005 mm",
			[]string{"will not go together even with force"},
			nil,
		},
		{
			"worn", ", meant: 20 mm", "gauge", "holds: 0.01 mm", "clearance: 0.05..0.15 mm",
			[]string{"bore was meant to be 20 mm and is now 20.050 mm"},
			nil,
		},
		{
			"too coarse an instrument", "", "coarse", "holds: 0.01 mm", "clearance: 0.05..0.35 mm",
			[]string{"steps of 0.100 mm"},
			nil,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			said := unit.Join(made(t, c.size, c.with, c.part, c.pin).Advice, "\n").Shown(unit.View{})
			for _, want := range c.says {
				if !strings.Contains(said, want) {
					t.Errorf("it does not say %q:\n%s", want, said)
				}
			}
			for _, no := range c.not {
				if strings.Contains(said, no) {
					t.Errorf("it says %q:\n%s", no, said)
				}
			}
		})
	}
}

// TestReadingWorthTaking: the bore gauge of the same kit is proposed where the
// caliper eats the clearance. By hand: the bore is then known with
// 1/u² = 1/(0.01² + (0.02² + 0.01²/12)/2) + 1/(0.002² + 0.002² + 0.005²/12).
func TestReadingWorthTaking(t *testing.T) {
	rough := made(t, "", "jaws", "holds: 0.005 mm", "clearance: 0..0.03 mm")
	read := rough.Read
	if read == nil || read.Candidate.Reading.With != "gauge" || read.Advice.For != "bore" {
		t.Fatalf("worth taking: %+v", read)
	}
	jaws, gauge := 1e-4+(4e-4+1e-4/12)/2, 4e-6+4e-6+25e-6/12
	if u := math.Sqrt(1 / (1/jaws + 1/gauge)); math.Abs(read.Then.UMate/u-1) > 1e-9 {
		t.Errorf("the bore would be known with u = %g, by hand %g", read.Then.UMate, u)
	}
	if saved := rough.Mating.Mean - read.Then.Mean; math.Abs(saved-read.Saves) > 1e-12 || saved < 0.02 {
		t.Errorf("it saves %g, said %g", saved, read.Saves)
	}
	if read.Then.Rattles >= rough.Mating.Rattles {
		t.Errorf("it rattles in %g then, in %g now", read.Then.Rattles, rough.Mating.Rattles)
	}
	if fine := made(t, "", "gauge", "holds: 0.05 mm", "clearance: 0..0.03 mm"); fine.Read != nil {
		t.Errorf("where the making counts, not the measuring, it proposes %+v", fine.Read.Candidate.Reading)
	}
}

// TestReadingHardlyWorthTaking: with u = √(0.01² + (0.02² + 0.01²/12)/2) = 0.0174 the
// promise asks for some 0.041 mm, the gauge for less than any of the middles: that
// is a fifth of the first range, and a sixtieth of the other.
func TestReadingHardlyWorthTaking(t *testing.T) {
	for clearance, worth := range map[string]bool{"0..0.06": true, "0..0.08": false} {
		if read := made(t, "", "jaws", "holds: 0.005 mm", "clearance: "+clearance+" mm").Read; (read != nil) != worth {
			t.Errorf("%s: proposed %+v", clearance, read)
		}
	}
}

// TestUsualHolds: a shop that does not say how closely it works is warned.
func TestUsualHolds(t *testing.T) {
	pin := made(t, "", "gauge", "quantity: 1", "clearance: 0.05..0.15 mm")
	if half := (pin.High - pin.Low) / 2; math.Abs(half-0.02) > 1e-12 {
		t.Errorf("held to ±%g", half)
	}
}
