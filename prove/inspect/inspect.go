// Package inspect proves a part: how to read each of its sizes with the kit at
// hand and what it should then show, whether it conforms once it has been read,
// how much is still to come off it in the machine, and how it will go together.
//
// The sizes of the part become sizes of the job, part.ID, and the readings of
// old and new are adjusted together, so that the zeros of instruments that have
// read both cancel in the clearance. A size conforms where the chance that it
// lies within its limits is 95 % or more (ISO 14253-1:2017, JCGM 106:2012), and
// does not where it is 5 % or less; between these nobody can tell. Lengths are
// in mm, angles in radians.
package inspect

import (
	"context"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// Result is all there is to say of the proving of a job's part.
type Result struct {
	Job    *trade.Job
	Made   *fit.Result
	Sheet  []Step
	Pieces []Piece
	Apart  *Apart // nil where nothing was read of the bare old part
	Back   []Caution
}

// Piece is one of the parts made, as far as it has been read.
type Piece struct {
	Number   int
	Found    *adjust.Result // of the old and the new together
	Verdicts []Verdict      // in the order of the part's sizes
	Offers   []Offer        // how it will go together
	Mates    []mating.Answer
}

// Check proves the part of a job for which fit has said what to make it to. What
// was meant by the sizes, which the tables tell, may have been decided by the
// readings of the bare part. The same seed gives the same chances. The error is of
// type trade.Faults, or the context's when that ends.
func Check(ctx context.Context, made *fit.Result, tables meant.Tables, seed uint64) (*Result, error) {
	p := &proof{Result: &Result{Job: made.Found.Job, Made: made}, seed: seed, ctx: ctx}
	for _, step := range []func() error{
		func() error { return p.takeApart(tables) },
		func() error { p.made = withThreads(p.made); return nil },
		p.withHoles,
		p.plan,
		p.judge,
	} {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := step(); err != nil {
			return nil, err
		}
	}
	p.putBack()
	return p.Result, nil
}

// proof is where a part is proved. Where the old part has been taken apart, made
// is what to make it to by all that is known since, its threads as their diameters.
type proof struct {
	*Result
	made *fit.Result
	seed uint64
	ctx  context.Context // its end ends the work
}

// checksOf returns the checks of one piece that have been taken, or those of the
// old part.
func checksOf(job *trade.Job, piece int) []trade.Check {
	var list []trade.Check
	for _, c := range job.Checks {
		if taken(&c) && !c.Old && c.Piece == piece {
			list = append(list, c)
		}
	}
	return list
}

// taken reports whether a check has been taken and not only planned.
func taken(c *trade.Check) bool { return len(c.Saw) > 0 || c.GoNoGo() }

// judge says of every piece that has been read how it stands, by all that is known
// since the old part was taken apart.
func (p *proof) judge() error {
	if p.Job.Part == nil {
		return nil
	}
	for n := 1; n <= p.Job.Part.Quantity; n++ {
		if err := p.ctx.Err(); err != nil {
			return err
		}
		checks := p.asDistances(checksOf(p.Job, n))
		if len(checks) == 0 {
			continue
		}
		piece, err := p.piece(n, checks)
		if err != nil {
			return err
		}
		p.Pieces = append(p.Pieces, *piece)
	}
	return nil
}

func (p *proof) piece(n int, checks []trade.Check) (*Piece, error) {
	cool := p.cooled(current(checks))
	found, err := adjust.Adjust(joined(p.made, cool.checks))
	if err != nil {
		return nil, err
	}
	piece := &Piece{Number: n, Found: found}
	for i := range p.made.Make {
		if v := p.verdict(&p.made.Make[i], found, checks, cool); v != nil {
			piece.Verdicts = append(piece.Verdicts, *v)
		}
	}
	p.offerUp(piece)
	return piece, p.offerMates(piece)
}

// current leaves out readings of work in the machine that a later reading of the
// same size has overtaken: it has been cut since.
func current(checks []trade.Check) []trade.Check {
	var list []trade.Check
	for i := range checks {
		overtaken := func(later trade.Check) bool {
			return slices.ContainsFunc(sizesIn(&later.Reading), func(id string) bool { return slices.Contains(sizesIn(&checks[i].Reading), id) })
		}
		if checks[i].InMachine && slices.ContainsFunc(checks[i+1:], overtaken) {
			continue
		}
		list = append(list, checks[i])
	}
	return list
}
