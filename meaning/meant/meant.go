// Package meant works out what a lost drawing said of each size: which round
// size in inches or millimetres, or none.
//
// A size found is x = n + t - s·w + e: n what was meant, t ~ N(0, make²) making,
// w ≥ 0 wear, half-normal, s = 1 outside and -1 inside, e ~ N(0, u²) reading. All
// sizes are asked at once: the share of each system is one unknown of the job,
// Dirichlet, its prior from the machine's country and year. The sum over all that
// is unknown is exact, but that strongly correlated sizes share one common error.
// Of sizes tied by relations the drawing stated some, and the others follow.
// Shares, weights and scales are our choice, without a source.
package meant

import (
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Tables are the standard sizes that a size may be one of.
type Tables struct {
	Drills  []facts.Drill
	Balls   []facts.Ball
	Keys    []facts.Key
	Threads []facts.Thread
}

// Result is what a job's drawing seems to have said.
type Result struct {
	Sizes    []Size // in the job's order; only sizes that can be asked
	Shares   []Share
	Sets     []Set
	Question *Question // the one whose answer would settle most, nil where none would settle any
	Quantum  *Quantum  // a second opinion, nil where there are too few sizes for one
	Warnings []unit.Text
}

// Size is what was meant by one size.
type Size struct {
	ID         string
	Candidates []Candidate // best first, all within reach
	NoRound    float64     // probability that no round size was meant
	Tied       bool        // by relations to others, from which it may follow
	Designer   float64     // probability that the drawing stated it, and it does not follow
	Decided    bool        // by the user: the first candidate is his
	Tell       *Tell       // what would tell the leaders apart, nil where they are told apart
}

// Candidate is one value that may have been meant.
type Candidate struct {
	Text  string  // as a drawing has it: "2 9/64 in"
	Value float64 // mm or rad
	P     float64
	Wear  float64 // posterior mean of the wear, mm, given that this was meant; 0 where no wear is stated

	// Off is how much the surface has lost if this was meant, less the error of
	// reading and making: negative where it would have had to grow.
	Off float64
	// Beyond is how many standard deviations Off is beyond what making, reading
	// and wear explain.
	Beyond float64
}

// Tell says how the two leading candidates can be told apart: by a reading of
// 95 % uncertainty U or better. At that U the odds between them are 20 to 1 if
// the reading falls on the first. U is NaN where wear or making blur them
// however well this surface is read.
type Tell struct {
	First, Second string
	U             float64
}

// Share is the part of the job's sizes that are of one system.
type Share struct {
	System string
	Mean   float64
}

// Set is a group of sizes tied by relations, of which the drawing stated only
// some: the others follow.
type Set struct {
	Sizes     []string
	Designers []string // the most probable choice of those the drawing stated
	P         float64  // of that choice
}

// A candidate is worth listing from this probability, and no more than so many:
// whoever scores the list loses next to nothing by what is left out.
const (
	faintest       = 0.0005
	mostCandidates = 20
)

// Likely returns the candidates worth showing, best first.
func (s *Size) Likely() []Candidate {
	n := 0
	for n < min(len(s.Candidates), mostCandidates) && s.Candidates[n].P >= faintest {
		n++
	}
	return s.Candidates[:n]
}

// settledAt is the probability from which a meaning counts as settled, and
// settledOdds the odds of the leaders.
const (
	settledAt   = 0.9
	settledOdds = 20
)

// Round returns what was meant by the lengths and angles of an adjusted job.
// Pitches, modules and plain numbers are left to those who know their series.
func Round(r *adjust.Result, tables Tables) *Result {
	j := gather(r, tables)
	found := j.solve()
	out := &Result{Shares: found.shares(), Sets: found.sets()}
	for i := range j.asked {
		out.Sizes = append(out.Sizes, found.answer(i))
	}
	out.Question = found.question(out.Sizes)
	out.Quantum = j.quantum()
	list, warnings := angles(r)
	out.Sizes = inOrder(r, append(out.Sizes, list...))
	out.Warnings = append(j.contradictions(), warnings...)
	return out
}

// Unlisted returns the probability that a round size was meant that Likely leaves
// out.
func (s *Size) Unlisted() float64 {
	rest := 1 - s.NoRound
	for _, c := range s.Likely() {
		rest -= c.P
	}
	return max(0, rest)
}

// Inches returns which part of the sizes that are round at all is in inches.
func (r *Result) Inches() float64 {
	inches := r.Shares[fractions].Mean + r.Shares[decimals].Mean
	return inches / (inches + r.Shares[metric].Mean)
}

// Of returns what was meant by the size with this id, nil if it was not asked.
func (r *Result) Of(id string) *Size {
	for i := range r.Sizes {
		if r.Sizes[i].ID == id {
			return &r.Sizes[i]
		}
	}
	return nil
}
