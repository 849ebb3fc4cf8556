// Package advise says what to read next: which of all the readings that the
// kit allows would settle a size best, what they promise, whether they check
// what is known already, and what they cost in trouble.
//
// A reading is proposed only where the job's own set-ups show that its sizes
// belong together, where its method's rules hold, and with instruments that
// meet the work that way. What it promises is the standard uncertainty that
// the adjustment would give with it, which does not depend on what it shows as
// long as it agrees with the others.
package advise

import (
	"context"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// Options say what is wanted.
type Options struct {
	For  string  // a size, a hole or a circle, one of Targets; empty: the one that needs it most
	Want float64 // the 95 % half width wanted of it, mm, rad or plain; 0: as small as can be
}

// Reason says why a size was chosen to be read next.
type Reason uint8

// The reasons.
const (
	Asked     Reason = iota // by Options.For
	Open                    // the first that is not determined, of those that can be read on
	Worst                   // its uncertainty is the largest beside what is usual
	Unchecked               // it is well known, but a wrong reading of it would go unseen
	Well                    // it is well known and checked, as all others are
)

// State is how well a size is known.
type State struct {
	U          float64 // standard uncertainty, NaN where it is not determined
	Determined bool
	Check      adjust.Check
	Weakest    float64 // redundancy of the weakest reading that settles it
}

// U95 returns the 95 % half width.
func (s State) U95() float64 { return adjust.Coverage95 * s.U }

// Effort is what a reading costs in trouble.
type Effort int

// The efforts.
const (
	OneMoreValue  Effort = 1 // in a set-up that has been used
	NewSetUp      Effort = 2
	BorrowedPiece Effort = 3 // and a new set-up with it
)

// Candidate is a reading that might be taken.
type Candidate struct {
	Reading trade.Reading  // as a job has it, without values; of one more value, the reading that has it
	Again   bool           // one more value of a reading of the job
	Fresh   bool           // the same set-up again, elsewhere on a surface that is out of form
	At      *[2]float64    // of one more touch: about where the stylus stands
	Borrow  []trade.Piece  // gauge pieces that the kit lacks
	Shows   float64        // about what it will show, NaN for one more value
	Remarks []gauge.Remark // what to mind
	Then    State          // of the size wanted
	Rough   bool           // Then hangs on what is not well known yet: it may be off by more than 1 %
	Narrows bool           // leaves the size open, but closes a direction in which it is
	Settle  *Settle        // what it would settle between readings that contradict each other
	Effort  Effort

	prospect *adjust.Prospect // nil for one more value
	shape    string           // the sizes and the method, whatever the pieces and the instrument
	order    int
}

// Settle is how a reading would tell apart several that cannot all be right.
type Settle struct {
	Between []adjust.Source
	Shows   []float64 // by each of them: what it will show if that one is wrong
	Sigmas  float64   // how far apart it puts them at best, in standard deviations
}

// Advice is what to read next, and why.
type Advice struct {
	Result *adjust.Result
	For    string
	Why    Reason
	Now    State
	Want   float64
	Best   []Candidate // best first
	Limit  State       // however often everything is read that the kit allows

	// Steps are the few readings that together reach what is wanted, or that
	// determine the size, where no single one does. They are empty where one does
	// and where none do. The last has in Then what they all give.
	Steps []Candidate
}

// Reaches reports whether a state is as good as is wanted.
func (a *Advice) Reaches(s State) bool {
	return s.Determined && (a.Want == 0 || s.U95() <= a.Want)
}

// Taken returns what the job would say with one of the readings taken, as the
// sizes foretell it; false where that cannot be worked out.
func (a *Advice) Taken(c *Candidate) (*adjust.Result, bool) {
	_, after, ok := newSurvey(context.Background(), a.Result, a).taken(c)
	return after, ok
}

// Targets lists what Options.For may name.
func Targets(job *trade.Job) []string {
	var list []string
	for _, s := range job.Sizes {
		list = append(list, s.ID)
	}
	for _, plan := range job.Plans {
		list = append(list, plan.Holes[1:]...)
	}
	for _, place := range job.Places {
		if place.Kind == trade.Circle {
			list = append(list, place.ID)
		}
	}
	return list
}

// Next returns the readings worth taking next, best first:
//
//  1. where readings contradict each other, the one that tells them apart best;
//  2. where something is wanted, those that reach it, the least effort first;
//  3. the least uncertainty of the size, one that determines it before one
//     that only narrows it; those within 1 % of each other count as equal;
//  4. one after which other readings check the size before one after which
//     only its own repeats do, and that before none (first of all where the
//     size is well known but unchecked);
//  5. the least effort, then the stronger check, then the order of the job.
//
// A reading that changes nothing is left out, and so is a borrowed piece that
// is not 5 % better than what the kit has.
//
// When the context ends the search is given up and there is no advice, nil.
func Next(ctx context.Context, r *adjust.Result, o Options) *Advice {
	a := next(ctx, r, o)
	if ctx.Err() != nil {
		return nil
	}
	return a
}

func next(ctx context.Context, r *adjust.Result, o Options) *Advice {
	present := r.Present()
	if o.For != "" {
		return about(ctx, r, present, &Advice{For: o.For, Want: o.Want})
	}
	var first *Advice
	for _, id := range Targets(r.Job) {
		if _, determined := present.Uncertainty(id); determined {
			continue
		}
		a := about(ctx, r, present, &Advice{For: id, Why: Open})
		if len(a.Best) > 0 {
			return a
		}
		if first == nil {
			first = a
		}
	}
	if first != nil {
		return first
	}
	id, why := neediest(r.Job, present)
	if id == "" {
		return &Advice{Result: r}
	}
	return about(ctx, r, present, &Advice{For: id, Why: why})
}

// about fills in an advice about one size.
func about(ctx context.Context, r *adjust.Result, present *adjust.Prospect, a *Advice) *Advice {
	a.Result, a.Now = r, stateOf(present, a.For)
	s := newSurvey(ctx, r, a)
	a.Best = s.best()
	a.Limit = s.limit()
	a.Steps = s.steps()
	return a
}

func stateOf(p *adjust.Prospect, id string) State {
	s := State{}
	if s.U, s.Determined = p.Uncertainty(id); !s.Determined {
		s.U = math.NaN()
		return s
	}
	s.Check, s.Weakest = p.Standing(id)
	return s
}

// rounding is by how much, in parts, one figure must be larger than another to be
// so: of those that are alike the first in the job is named, whatever the last bit
// says.
const rounding = 1e-9

// neediest returns which of the sizes, all of them determined, most needs
// another reading: the one whose uncertainty is the largest beside what is
// usual, or, if none is over what is usual, the first that nothing checks.
func neediest(job *trade.Job, p *adjust.Prospect) (id string, why Reason) {
	worst, unchecked := 0.0, ""
	for _, target := range Targets(job) {
		s := stateOf(p, target)
		if ratio := s.U95() / Usual(job, target); ratio > worst*(1+rounding) {
			id, worst = target, ratio
		}
		if unchecked == "" && s.U > 0 && s.Check == adjust.NothingChecks {
			unchecked = target
		}
	}
	switch {
	case worst > 1:
		return id, Worst
	case unchecked != "":
		return unchecked, Unchecked
	}
	return id, Well
}

// Usual returns the 95 % half width at which a size is known as closely as it
// needs to be: how closely the first maker worked, if that is stated, else what
// is usual for its kind (common practice, no source). In mm, rad or plain.
func Usual(job *trade.Job, id string) float64 {
	const degree = math.Pi / 180
	size := job.Size(id)
	switch {
	case size == nil:
		return 0.03
	case size.Make.Given():
		return size.Make.Inside()
	case size.Kind == trade.Angle || size.Kind == trade.HalfAngle:
		return 0.1 * degree
	case size.Kind == trade.Pitch || size.Kind == trade.Module:
		return 0.01
	case size.Kind == trade.Number:
		return 0.02
	}
	return 0.03
}
