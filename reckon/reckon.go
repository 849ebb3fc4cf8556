// Package reckon takes a job through the stages: from readings to sizes, to what
// was meant, to the part and all that follows from it.
//
// A Found answers what is asked of it and works nothing out before, and nothing
// twice: the page asks for one stage, the sheet for all of them. It may be asked
// by many at once. What is wrong with the job at some stage is trade.Faults, and
// the stages before it answer all the same. Only the order of the stages is
// known here; each stage knows its own business.
package reckon

import (
	"context"
	"errors"
	"sync"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/read/sound"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Found is what the stages find out about a job.
type Found struct {
	Result  *adjust.Result
	Doubts  func() []blunder.Doubt
	Meaning func() *meant.Result
	Threads func() []series.JobThread

	Fitted func() (*Fitted, error) // what to make the part to
	Model  func() (*part.Model, error)
	SetUps func() (*plan.Plan, error)
	Proved func() (*inspect.Result, error) // how the part is proved
	Upkeep func() (*upkeep.Result, error)  // what the surveys of the machine tell
}

// Fitted is what to make the part of a job to, how it goes together, and
// whether it holds.
type Fitted struct {
	Made   *fit.Result
	Mates  []mating.Answer
	Joints []strength.Answer
}

// Job adjusts a job that is sound, and says what the other stages find when they
// are asked. What is not sound in it is trade.Faults. The seed is that of all simulations.
//
// When the context ends no stage is begun any more and what is being explained is
// given up: the error is then the context's, and there are no doubts. It is that
// of the whole Found, for what one has worked out is there for all who ask.
func Job(ctx context.Context, job *trade.Job, seed uint64) (*Found, error) {
	if err := sound.Check(job); err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	result, err := adjust.Adjust(job)
	if err != nil {
		return nil, err
	}
	result.Warnings = append(result.Warnings, simulate.SecondOrder(result)...)
	f := &Found{Result: result}
	f.Doubts = sync.OnceValue(func() []blunder.Doubt { return blunder.Explain(ctx, result) })
	f.Meaning = sync.OnceValue(func() *meant.Result { return meant.Round(result, tables()) })
	f.Threads = sync.OnceValue(func() []series.JobThread { return series.ThreadsOf(result) })
	f.Fitted = sync.OnceValues(stage(ctx, func() (*Fitted, error) { return f.fitted(ctx, seed) }))
	f.Model = sync.OnceValues(stage(ctx, f.model))
	f.SetUps = sync.OnceValues(stage(ctx, func() (*plan.Plan, error) { return f.setUps(ctx) }))
	f.Proved = sync.OnceValues(stage(ctx, func() (*inspect.Result, error) { return f.proved(ctx, seed) }))
	f.Upkeep = sync.OnceValues(stage(ctx, func() (*upkeep.Result, error) { return upkeep.Judge(job) }))
	return f, nil
}

// stage is work that is not begun when nobody waits for it any more.
func stage[T any](ctx context.Context, work func() (*T, error)) func() (*T, error) {
	return func() (*T, error) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		return work()
	}
}

// tables gathers the standard sizes that a size may be one of.
func tables() meant.Tables {
	return meant.Tables{Drills: facts.Drills(), Balls: facts.Balls(), Keys: facts.Keys(), Threads: facts.Threads()}
}

// fitted says what to make the part to. What is wrong with its mates and with
// its joints is told at once.
func (f *Found) fitted(ctx context.Context, seed uint64) (*Fitted, error) {
	made, err := fit.Seeded(ctx, f.Result, f.Meaning(), seed)
	if err != nil {
		return nil, err
	}
	mates, wrongMates := mating.Check(ctx, f.Result, made, seed)
	joints, wrongJoints := strength.Check(f.Result.Job, made)
	var faults trade.Faults
	for _, err := range []error{wrongMates, wrongJoints} {
		var more trade.Faults
		if err != nil && !errors.As(err, &more) {
			return nil, err
		}
		faults = append(faults, more...)
	}
	return &Fitted{made, mates, joints}, faults.Err()
}

// model makes the part out of the sizes that it is to be made to.
func (f *Found) model() (*part.Model, error) {
	fitted, err := f.Fitted()
	if err != nil {
		return nil, err
	}
	return part.Build(f.Result.Job, fitted.Made, f.Result)
}

func (f *Found) setUps(ctx context.Context) (*plan.Plan, error) {
	model, err := f.Model()
	if err != nil {
		return nil, err
	}
	return plan.Make(ctx, f.Result.Job, model)
}

func (f *Found) proved(ctx context.Context, seed uint64) (*inspect.Result, error) {
	fitted, err := f.Fitted()
	if err != nil {
		return nil, err
	}
	return inspect.Check(ctx, fitted.Made, tables(), seed)
}

// Drawing draws the part.
func (f *Found) Drawing(o draw.Options) (*ink.Sheet, error) {
	model, err := f.Model()
	if err != nil {
		return nil, err
	}
	return draw.Part(model, o)
}
