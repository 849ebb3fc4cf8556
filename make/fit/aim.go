package fit

import (
	"math"

	"codeberg.org/oddleg/oddleg/read/adjust"
)

// aim is what the clearance between a size and its mate is to be.
type aim struct {
	*mate
	interval
	holds    float64 // the size is made anywhere within ±holds
	promised float64
}

func (a *aim) tightest() spread { return spread{a.tight.u, a.holds} }
func (a *aim) slackest() spread { return spread{a.slack.u, a.holds} }

// clearance returns the mean clearance to aim at. In the middle of what is
// wanted the chance of lying in it is largest, the spread being symmetric; the
// middle of tightest and slackest place goes there. The promise may ask for
// more: then it is just as much as that needs, D with P(C < 0) = 1 - promised.
// Of an interference the promise is that it grips, P(C < 0) = promised. A
// transition stays in the middle: it goes together with a mallet.
func (a *aim) clearance() float64 {
	d := a.central()
	switch {
	case a.most <= 0:
		return min(d, -a.excess-a.slackest().at(a.promised))
	case a.least >= 0:
		return max(d, a.asked())
	}
	return d
}

// central returns the mean clearance of which most chances lie in what is
// wanted.
func (a *aim) central() float64 { return a.middle() + (a.lacks-a.excess)/2 }

// asked returns the mean clearance that the promise asks for.
func (a *aim) asked() float64 { return a.lacks - a.tightest().at(1-a.promised) }

// reach returns the clearance that the slackest place keeps under with the
// chance promised.
func (a *aim) reach() float64 {
	return a.clearance() + a.excess + a.slackest().at(a.promised)
}

// expect returns what to expect of a mean clearance.
func (a *aim) expect(d float64) *Mating {
	tight, slack := d-a.lacks, d+a.excess
	m := &Mating{
		Mate: a.found.value, UMate: a.found.u, LeastMate: a.small, MostMate: a.large,
		Least: a.least, Most: a.most, Promised: a.promised,
		Mean: d, ClearanceU: spread{a.found.u, a.holds}.deviation(),
		ClearanceLow: tight + a.tightest().at(outside95), ClearanceHigh: slack - a.slackest().at(outside95),
		Assembles: 1 - a.tightest().below(min(0, a.least)-tight),
		Binds:     a.tightest().below(-tight),
		Rattles:   1 - a.slackest().below(a.most-slack),
	}
	const rounding = 1e-9 // of the search for the promise
	m.Kept = m.Assembles >= a.promised-rounding
	if m.Grips() {
		m.Binds = a.slackest().below(-slack)
		m.Kept = m.Binds >= a.promised-rounding
	}
	return m
}

// outside95 is the chance of lying on one side of a 95 % interval.
var outside95 = phi(-adjust.Coverage95)

// What a try is worth: where it may fail more often than this, something is
// left on, so much that it is too slack already with no more than the other
// chance (common practice, no source).
const (
	worthATry = 0.05
	tooSlack  = 0.01
)

// leave returns what to make first, nil where the target may as well be made at
// once or where the fit is to grip.
func (a *aim) leave(d float64) *Leave {
	m := a.expect(d)
	if m.Grips() || m.Binds+m.Rattles <= worthATry {
		return nil
	}
	first := a.most - a.excess - a.slackest().at(1-tooSlack)
	if first >= d {
		return nil
	}
	return &Leave{First: a.size(first), On: math.Abs(d - first)}
}
