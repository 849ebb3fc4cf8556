package main

import (
	"context"
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/simulate"
)

// The limits of a simulation: fewer trials leave the ends of a 95 % interval
// too vague, more values do not fit in a small computer's memory.
const (
	fewestTrials = 1000
	mostValues   = 100_000_000
)

// simulateFlags ask for a simulation.
type simulateFlags struct {
	Simulate int    `placeholder:"N" help:"Also draw the errors of the readings N times, 100000 say, and adjust each time."`
	Seed     uint64 `default:"1" placeholder:"S" help:"Start of the random numbers: the same seed gives the same simulation."`
}

// Validate refuses a number of trials that says nothing.
func (f simulateFlags) Validate() error {
	if f.Simulate != 0 && f.Simulate < fewestTrials {
		return fmt.Errorf("--simulate %d: at least %d are needed to tell where a 95 %% interval ends", f.Simulate, fewestTrials)
	}
	return nil
}

// simulate draws as often as asked for, nil where that is not at all.
func (f simulateFlags) simulate(ctx context.Context, result *adjust.Result) (*simulate.Simulation, error) {
	if f.Simulate == 0 {
		return nil, nil
	}
	if most := mostValues / max(1, len(result.Sizes)); f.Simulate > most {
		var faults trade.Faults
		faults.Add(trade.Pos{}, "--simulate %d: at most %d for a job of %d sizes", f.Simulate, most, len(result.Sizes))
		return nil, faults
	}
	return simulate.SizesUntil(ctx, result, f.Simulate, f.Seed, func(int) {})
}
