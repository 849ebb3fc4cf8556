// Package fit says what to make each size of a new part to, so that it goes
// together with its mate with a stated probability and rattles as little as
// can be.
//
// The clearance is C = mate - size for a size that goes in, size - mate for one
// that goes over. The mate is known as well as it was measured (normal, with
// its correlations), the size is made anywhere within what the shop holds
// (rectangle ±t). Both count. A worn mate is fitted as it is now. Lengths are in
// mm, angles in radians.
package fit

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
)

// Result is what to make a part to.
type Result struct {
	Found    *adjust.Result
	Make     []Made // in the order of the part's sizes
	Stacks   []Chain
	Warnings []adjust.Warning
}

// Of returns what is made of the size with this id, nil if there is none.
func (r *Result) Of(id string) *Made {
	for i := range r.Make {
		if r.Make[i].Size.ID == id {
			return &r.Make[i]
		}
	}
	return nil
}

// Measure returns what a size of the shape is made to, NaN where it is not stated or
// not found.
func (r *Result) Measure(m trade.Measure) float64 {
	switch made := r.Of(m.ID); {
	case made != nil:
		return made.Target
	case m.Value.Given():
		return m.Value.Inside()
	}
	return math.NaN()
}

// Made is one size of the part: what to work to, and what to expect of it.
// Target, Low, High and U are NaN where the readings do not determine what it
// is taken from. Low and High both equal Target where only the general
// tolerance holds. For a thread they are its major diameter: the basic one to
// work to, and the limits of its class where the tables have them.
type Made struct {
	Size       *trade.NewSize
	Determined bool
	Target     float64
	Low, High  float64 // limits to work to, not rounded: see Limits
	U          float64 // standard uncertainty of what the target was taken from
	Code       string  // "g6" of a named fit, else empty
	Decided    bool    // the target is what the user decided was meant, not what was measured
	Mating     *Mating // nil for a size that has no mate, or whose mate is not determined
	Thread     *series.Sheet
	Read       *Reading    // worth taking before the part is made, nil for none
	Advice     []unit.Text // sentences: what the promise costs, which way to err, what to leave on

	steps steps
}

// missing returns a size that the readings do not tell.
func missing(size *trade.NewSize) Made {
	return Made{Size: size, Target: math.NaN(), Low: math.NaN(), High: math.NaN(), U: math.NaN()}
}

// Mating is a size beside its mate. Of a mate out of form the tightest place
// counts for Assembles and Binds, the slackest for Rattles, and the other way
// round for the grip of an interference.
type Mating struct {
	Mate, UMate         float64
	LeastMate, MostMate float64 // of a mate out of form; both Mate where it is true
	Least, Most         float64 // clearance wanted; interference negative
	Mean, ClearanceU    float64 // clearance to expect, and its standard uncertainty
	ClearanceLow        float64 // 95 % of parts and mates lie between
	ClearanceHigh       float64
	Promised            float64 // the chance asked for
	Assembles           float64 // chance that it goes together: C ≥ min(0, Least)
	Binds               float64 // chance of C < 0
	Rattles             float64 // chance of C > Most
	Kept                bool    // Assembles ≥ Promised; of an interference, Binds ≥ Promised: it grips
	Leave               *Leave  // nil where there is nothing to leave on
}

// Grips reports whether an interference is wanted: the promise is then that the
// size is held, and 1 - Assembles is the chance that it is too tight.
func (m *Mating) Grips() bool { return m.Most <= 0 }

// Leave is what to make first where the size can be eased once it was tried:
// with a chance of 99 % it is not too slack yet.
type Leave struct {
	First float64 // size to stop at first
	On    float64 // how much is left on, always positive
}

// Reading is a reading worth taking before the part is made.
type Reading struct {
	Advice    *advise.Advice
	Candidate *advise.Candidate // nil where the kit allows none
	Saves     float64           // how much less clearance, or interference, is needed then; NaN for a size not found yet
	Then      *Mating           // what to expect then; nil likewise

	gain float64
}

// Chain is a sum of sizes: a stack-up. A size of the part counts as anywhere
// between its limits, a size of the job as found. Where it is not determined all
// figures are NaN.
type Chain struct {
	Stack      *trade.Stack
	Dimension  unit.Dimension
	Value      float64 // with every size of the part in the middle of its limits
	WorstLow   float64 // all links at their ends at once, to first order
	WorstHigh  float64
	RSS        float64 // root-sum-square of the links' half ranges times their sensitivities
	U          float64 // standard uncertainty, with correlations
	Low, High  float64 // 95 % interval by simulation
	Within     float64 // chance of ending in the wanted range, NaN where none is
	Halved     float64 // that chance with the half range of the first link halved
	HalvedU    float64 // U likewise
	Links      []Link  // largest part first
	Determined bool
}

// Link is one link of a chain.
type Link struct {
	Name        string  // "shank", "part.long"
	Sensitivity float64 // change of the sum for one mm or rad of it
	Half        float64 // half range: 1.96 u of what was measured, ± of what is made
	Part        float64 // of the variance, 0 to 1, what the links have in common left out
}
