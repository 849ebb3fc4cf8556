// Package blunder says what may have gone wrong where the readings contradict
// each other: it tries what people really do, a thimble turn, a pin forgotten,
// two digits swapped, and weighs each against some other slip.
//
// An explanation h, the job as it would have been without the slip, adjusted
// anew, weighs prior(h)·exp(-χ²(h)/2). Some other slip, by anything up to ±S,
// weighs prior·√(2π)·s/(2S)·exp(-χ²/2) with the reading set free, s being the
// standard deviation of the reading less what the others predict for it. The
// priors are common practice, no source. Only what fits is returned, best
// first; the user decides, and nothing is changed.
package blunder

import (
	"cmp"
	"context"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Kind is what sort of slip an explanation is.
type Kind string

// The kinds of slip.
const (
	ThimbleTurn       Kind = "thimble-turn"        // one or two turns of a micrometer
	BeamDivision      Kind = "beam-division"       // one division of a caliper's beam
	FractionDivision  Kind = "fraction-division"   // a 64th or 32nd of an inch
	PieceAdded        Kind = "piece-added"         // a piece added for taken away, or the reverse
	PieceDoubled      Kind = "piece-doubled"       // a piece counted twice
	PieceForgotten    Kind = "piece-forgotten"     // a piece left out, or one of two
	OtherPiece        Kind = "other-piece"         // another piece of the kit was taken
	RadiusForDiameter Kind = "radius-for-diameter" // the radius was written
	DiameterForRadius Kind = "diameter-for-radius" // the diameter was written
	InchForMM         Kind = "inch-for-mm"         // inches were written as millimetres
	MMForInch         Kind = "mm-for-inch"         // millimetres were written as inches
	DigitsSwapped     Kind = "digits-swapped"      // two digits next to each other
	NotZeroed         Kind = "not-zeroed"          // all that an instrument read is off by the same
	SwappedReadings   Kind = "swapped-readings"    // two readings under each other's name
)

// Kinds lists every kind of slip.
var Kinds = []Kind{
	ThimbleTurn, BeamDivision, FractionDivision, PieceAdded, PieceDoubled, PieceForgotten, OtherPiece,
	RadiusForDiameter, DiameterForRadius, InchForMM, MMForInch, DigitsSwapped, NotZeroed, SwappedReadings,
}

// Doubt is what is suspect together: one slip, of whatever it may be in.
type Doubt struct {
	Suspects []adjust.Source // as the adjustment found them; several cannot be told apart or share the slip
	Others   []float64       // what the others give for each suspect by itself, NaN where that cannot be told
	Perhaps  []Explanation   // what fits, best first
	Other    float64         // probability of some other slip
	Settle   unit.Text       // what would tell the suspects apart; empty where they need not be
}

// Explanation is one way in which a doubt would be cleared up.
type Explanation struct {
	Kind      Kind
	Text      string
	Corrected []Correction
	P         float64 // probability, with all other explanations and some other slip adding up to 1
	Becomes   []Change
}

// Correction is what a value, or a size stated, should have been. Lengths are
// in mm, angles in radians.
type Correction struct {
	Source    adjust.Source
	Dimension unit.Dimension
	WouldBe   [2]float64 // the second of a pair only
}

// Change is a size that an explanation moves by more than its standard
// uncertainty, or settles at all.
type Change struct {
	Size      string
	Dimension unit.Dimension
	Value     float64
}

// leastShown is the probability under which an explanation is not worth a
// line.
const leastShown = 1e-3

// Explain returns a doubt for all that is suspect in a result, what the others
// contradict most first; none where nothing is. An explanation fits where no observation is over the limit of the
// adjustment's test any more. When the context ends so does the search, and what
// was found until then is not returned: half of the explanations weigh too much.
func Explain(ctx context.Context, r *adjust.Result) []Doubt {
	s := &study{ctx: ctx, r: r, doubts: doubtsOf(r)}
	if len(s.doubts) == 0 {
		return nil
	}
	if s.clean = s.refit(nil); s.clean != nil {
		for _, d := range s.doubts {
			s.addRivals(d)
			for _, c := range d.culprits {
				s.accuse(d, c)
			}
		}
		s.commonCauses()
	}
	if ctx.Err() != nil {
		return nil
	}
	slices.SortStableFunc(s.doubts, func(a, b *doubt) int { return cmp.Compare(b.strength, a.strength) })
	list := make([]Doubt, len(s.doubts))
	for i, d := range s.doubts {
		list[i] = s.judged(d)
	}
	return list
}

// judged weighs what explains a doubt. A cause common to several doubts stands
// against all of them having causes of their own.
func (s *study) judged(d *doubt) Doubt {
	out := Doubt{Suspects: d.suspects, Others: d.saidBy(), Settle: s.settle(d)}
	whole, all := d.weight(), 1.0
	for _, e := range s.common {
		all += e.together()
	}
	if whole == 0 || math.IsInf(all, 1) {
		return out
	}
	alone := 1.0
	for _, e := range s.common {
		if slices.Contains(e.covers, d) {
			alone -= e.together() / all
			out.add(e, e.together()/all)
		}
	}
	for _, e := range d.entries {
		out.add(e, alone*e.weight/whole)
	}
	out.Other = alone * d.other / whole
	slices.SortStableFunc(out.Perhaps, func(a, b Explanation) int {
		return cmp.Or(cmp.Compare(b.P, a.P), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Text, b.Text))
	})
	return out
}

// together compares a common cause with the doubts it covers having causes of
// their own.
func (e *entry) together() float64 {
	ratio := e.weight
	for _, d := range e.covers {
		ratio /= d.weight()
	}
	return ratio
}

// saidBy lists what the others give for each suspect.
func (d *doubt) saidBy() []float64 {
	list := make([]float64, len(d.suspects))
	for i, suspect := range d.suspects {
		list[i] = math.NaN()
		if value, ok := d.others[suspect]; ok {
			list[i] = value
		}
	}
	return list
}

func (d *Doubt) add(e *entry, p float64) {
	if p >= leastShown {
		explanation := e.Explanation
		explanation.P = p
		d.Perhaps = append(d.Perhaps, explanation)
	}
}
