package meant

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// TestMassOfAValue has the masses worked out by hand: weight times the mean
// distance between the values that belong to the level. Of the thousandths of
// 5 in steps, four in five hundredths are left to the hundredths, and so on.
func TestMassOfAValue(t *testing.T) {
	tests := []struct {
		system system
		n      int64
		want   float64
	}{
		{fractions, 2 * inch, .30 * 25.4},
		{fractions, inch / 2, .22 * 25.4},
		{fractions, 3 * inch / 4, .17 * 12.7},
		{fractions, 7 * inch / 16, .09 * 3.175},
		{fractions, 137 * inch / 64, .03 * 0.79375},
		{decimals, 3 * inch / 10, .4 * 2.54},
		{decimals, 45 * inch / 100, .2 * 2.54},
		{decimals, 26 * inch / 100, .3 * 2.54 * 5 / 40},
		{decimals, 265 * inch / 1000, .1 * 0.254},
		{decimals, 25 * inch / 1000, .1 * 0.254},
		{metric, 40 * millimetre, .20 * 10},
		{metric, 45 * millimetre, .18 * 10},
		{metric, 43 * millimetre, .37 * 10 / 8},
		{metric, 43*millimetre + millimetre/2, .15 * 1},
		{metric, 43*millimetre + millimetre/4, .02 * 0.5},
		{metric, 43*millimetre + millimetre/10, .08 * 0.125},
		{metric, 0, .20 * 10},
		{metric, -7 * millimetre, .37 * 10 / 8},
		{fractions, inch/64 + 1, 0},
		{decimals, inch / 8, .1 * 0.254},
		{decimals, inch / 16, 0},
	}
	for _, test := range tests {
		if got := grids[test.system].mass(test.n); math.Abs(got-test.want) > 1e-12*math.Abs(test.want) {
			t.Errorf("%s, %s: mass %.9g, want %.9g", names[test.system], lengthText(test.n, test.system != metric), got, test.want)
		}
	}
}

// TestDensityOfASystem sums all masses over 1270 mm, a whole number of every
// period: a system has density 1 per mm.
func TestDensityOfASystem(t *testing.T) {
	for s, g := range grids[:none] {
		sum, last := 0.0, int64(-1)
		count := map[int64]int{}
		g.between(1, 1270*millimetre, func(n int64, mass float64) {
			sum += mass
			count[n]++
			last = max(last, n)
		})
		if math.Abs(sum-1270) > 1e-9 {
			t.Errorf("%s: %.9f over 1270 mm", names[s], sum)
		}
		for n, times := range count {
			if times != 1 {
				t.Errorf("%s: %d nm comes %d times", names[s], n, times)
			}
		}
		if last != 1270*millimetre {
			t.Errorf("%s: the end is left out", names[s])
		}
	}
}

func TestWeightsAddUp(t *testing.T) {
	for s, g := range append(grids[:none:none], degrees) {
		sum := 0.0
		for _, l := range g {
			sum += l.weight
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Errorf("grid %d: weights add up to %.15f", s, sum)
		}
	}
}

// TestStandardSizes checks the mass of a member against its neighbours by hand:
// number drills 7 (0.201 in) and 8 (0.199 in) stand beside 13/64 (0.203125 in).
func TestStandardSizes(t *testing.T) {
	s := newStandard(Tables{Drills: facts.Drills(), Balls: facts.Balls(), Keys: facts.Keys(), Threads: facts.Threads()})
	want := (0.203125 - 0.199) * 25.4 / 2
	found := false
	for _, m := range s.bore {
		if m.name == "No. 7 drill" {
			found = true
			if math.Abs(m.mass-want) > 1e-9 || m.system != fractions || m.n != 5105400 {
				t.Errorf("%+v, want mass %.6f", m, want)
			}
		}
	}
	if !found {
		t.Error("no No. 7 drill")
	}
}

// TestBallsAndKeysAreRound sees to it that balls and keys add no values to those
// of the grids: they only make some of them likelier.
func TestBallsAndKeysAreRound(t *testing.T) {
	s := newStandard(Tables{Balls: facts.Balls(), Keys: facts.Keys()})
	for _, m := range append(s.ball, s.key...) {
		if grids[fractions].mass(m.n)+grids[metric].mass(m.n) == 0 {
			t.Errorf("%s of %g mm is on no grid", m.name, float64(m.n)/nanometres)
		}
	}
	if len(s.ball) == 0 || len(s.key) == 0 {
		t.Error("no balls or no keys")
	}
}

// TestPriorOfAMachine has the stated prior shares: in an inch country before
// 1965 fractions 0.62, decimals 0.10, millimetres 0.10 and none 0.18; in a
// metric one the reverse; even where nothing is known. They count for 4 sizes.
func TestPriorOfAMachine(t *testing.T) {
	inches := [systems]float64{2.48, 0.40, 0.40, 0.72}
	metres := [systems]float64{0.4 * .62 / .72, 0.4 * .10 / .72, 2.88, 0.72}
	even := [systems]float64{1.64 * .62 / .72, 1.64 * .10 / .72, 1.64, 0.72}
	tests := []struct {
		country string
		built   int
		want    [systems]float64
	}{
		{"GB", 1938, inches},
		{"US", 1938, inches},
		{"gb", 0, inches},
		{"England", 1890, inches},
		{"USA", 1990, inches},
		{"DE", 1938, metres},
		{"FR", 1910, metres},
		{"Germany", 0, metres},
		{"CH", 1980, metres},
		{"", 1938, even},
		{"", 0, even},
		{"GB", 1970, even},
		{"GB", 1965, even},
		{"Atlantis", 1938, even},
		{"SU", 1910, even},
	}
	for _, test := range tests {
		got := priorOf(trade.Machine{Country: test.country, Built: test.built})
		for s := range got {
			if math.Abs(got[s]-test.want[s]) > 1e-12 {
				t.Errorf("%s %d: prior %v, want %v", test.country, test.built, got, test.want)
				break
			}
		}
	}
}
