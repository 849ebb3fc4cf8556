package meant

import (
	"math"

	"codeberg.org/oddleg/oddleg/read/adjust"
)

// worthTelling is the probability that the two leaders must have together for
// it to be worth telling them apart.
const worthTelling = 0.2

// tell returns what would tell the two leading candidates apart, nil where they
// are told apart already.
func (a *asked) tell(list []Candidate) *Tell {
	if a.decided || len(list) < 2 || list[0].P >= settledOdds*list[1].P || list[0].P+list[1].P < worthTelling {
		return nil
	}
	first, second := list[0], list[1]
	prior := math.Log(first.P/second.P) - a.scatter.logOdds(first.Value-a.x, second.Value-a.x)
	if math.IsNaN(prior) || math.IsInf(prior, 0) {
		return nil
	}
	return &Tell{First: first.Text, Second: second.Text, U: a.tellingU(prior, second.Value-first.Value)}
}

// logOdds returns the logarithm of the odds between two meanings, by the reading
// alone.
func (s scatter) logOdds(first, second float64) float64 {
	return math.Log(s.density(first) / s.density(second))
}

// tellingU returns the 95 % uncertainty at which a reading that falls on the
// first of two meanings, apart from the second, makes the odds 20 to 1 together
// with their prior odds: NaN where none does, +Inf where any does.
func (a *asked) tellingU(prior, apart float64) float64 {
	enough := func(u float64) bool {
		s := newScatter(u, a.making, a.scatter.wear, a.scatter.side)
		return prior+s.logOdds(0, apart) >= math.Log(settledOdds)
	}
	const coarsest = 1000 // mm
	if !enough(0) {
		return math.NaN()
	}
	if enough(coarsest) {
		return math.Inf(1)
	}
	low, high := 0.0, float64(coarsest)
	for range 60 {
		if u := (low + high) / 2; enough(u) {
			low = u
		} else {
			high = u
		}
	}
	return adjust.Coverage95 * low
}
