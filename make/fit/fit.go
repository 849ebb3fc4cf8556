package fit

import (
	"context"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/tables/limits"
)

// The figures that hold where the job states none.
const (
	usualChance = 0.99 // that a size goes together
	usualHolds  = 0.02 // mm, how closely a shop works (common practice, no source)
	usualSeed   = 1    // of the simulation of chains
)

// Fit says what to make every size of the job's part to. What was meant by the
// sizes, from meant.Round, may be nil. Of a job that has joints and no part
// nothing is made. The error is of type trade.Faults: a job without either, a size that does not say how it fits, a thread or a fit that
// is not in the tables.
func Fit(ctx context.Context, r *adjust.Result, m *meant.Result) (*Result, error) {
	return Seeded(ctx, r, m, usualSeed)
}

// Sizes is what Fit makes of the sizes one by one: without chains of them, which
// take a simulation, and without advice.
func Sizes(r *adjust.Result, m *meant.Result) ([]Made, error) {
	b, err := newBench(context.Background(), r, m)
	if err != nil {
		return nil, err
	}
	b.makeAll()
	return b.made.Make, b.faults.Err()
}

// Seeded is Fit with a seed of its own for the simulation of the chains: the
// same seed gives the same figures. When the context ends the error is its own.
func Seeded(ctx context.Context, r *adjust.Result, m *meant.Result, seed uint64) (*Result, error) {
	b, err := newBench(ctx, r, m)
	if err != nil {
		return nil, err
	}
	b.makeAll()
	for i := range b.part.Stacks {
		chain, err := b.chain(&b.part.Stacks[i], seed)
		if err != nil {
			return nil, err
		}
		b.made.Stacks = append(b.made.Stacks, chain)
	}
	if err := b.faults.Err(); err != nil {
		return nil, err
	}
	for i := range b.made.Make {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		b.counsel(&b.made.Make[i])
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if suspects(r) {
		b.warn("something that was read or taken as known is suspect, and is counted here all the same: settle it before anything is made (`oddleg sizes` says what it is)")
	}
	return b.made, nil
}

// suspects reports whether anything that the sizes rest on is suspect.
func suspects(r *adjust.Result) bool {
	return slices.ContainsFunc(r.Readings, func(v adjust.Value) bool { return v.Suspect }) ||
		slices.ContainsFunc(r.Instruments, func(z adjust.Zero) bool { return z.Suspect }) ||
		slices.ContainsFunc(r.Pieces, func(p adjust.Piece) bool { return p.Suspect }) ||
		slices.ContainsFunc(r.Relations, func(t adjust.Tie) bool { return t.Suspect }) ||
		slices.ContainsFunc(r.Sizes, func(s adjust.Size) bool { return s.Known != nil && s.Known.Suspect })
}

// bench is where a part is worked out.
type bench struct {
	ctx    context.Context
	r      *adjust.Result
	m      *meant.Result
	part   *trade.Part
	made   *Result
	faults trade.Faults
	taken  map[string]*source // what each size is taken from, by its id
	usual  bool               // how closely the shop works was not stated, and was wanted
}

func newBench(ctx context.Context, r *adjust.Result, m *meant.Result) (*bench, error) {
	part := r.Job.Part
	switch {
	case part == nil && len(r.Job.Joints) > 0:
		part = &trade.Part{} // its joints can be judged all the same
	case part == nil:
		return nil, trade.Faults{{Text: "this job makes nothing yet: add a `part:` with a name, a kind and `sizes:`, each with goes-in, goes-over, copies, is or thread, " +
			"such as `shank: {kind: diameter, goes-in: bore, clearance: 0.01..0.04 mm}`"}}
	}
	if m == nil {
		m = &meant.Result{}
	}
	return &bench{ctx: ctx, r: r, m: m, part: part, made: &Result{Found: r}, taken: map[string]*source{}}, nil
}

// makeAll works out all sizes.
func (b *bench) makeAll() {
	for i := range b.part.Sizes {
		b.made.Make = append(b.made.Make, b.make(&b.part.Sizes[i]))
	}
}

// make works out one size, without advice.
func (b *bench) make(size *trade.NewSize) Made {
	switch size.From {
	case trade.GoesIn, trade.GoesOver:
		return b.toFit(size)
	case trade.Copies:
		return b.copied(size)
	case trade.Is:
		return b.plain(size)
	case trade.IsThread:
		return b.thread(size)
	}
	panic("fit: a size of the part has no origin")
}

// copied makes a size what the old part is, or was meant to be.
func (b *bench) copied(size *trade.NewSize) Made {
	s := b.source(size)
	if !s.Determined {
		return missing(size)
	}
	made := Made{Size: size, Determined: true, Target: s.Value, U: s.u, steps: stepsOf(b.r.Job, s.names)}
	if meaning, ok := b.meaning(s); ok && meaning.decided {
		made.Target, made.Decided = meaning.value, true
	}
	if size.Tolerance != "" {
		b.classed(&made)
	} else {
		made.within(b.closely(size))
	}
	return made
}

// plain makes a size the value that it states.
func (b *bench) plain(size *trade.NewSize) Made {
	s := b.source(size)
	if !s.Determined {
		return missing(size)
	}
	made := Made{Size: size, Determined: true, Target: s.Value, U: s.u, steps: stepsOf(b.r.Job, s.names)}
	switch {
	case size.Tolerance != "":
		b.classed(&made)
	case size.Within.Given():
		made.within(size.Within.Inside())
	default:
		made.within(0)
	}
	return made
}

// classed sets the limits to those of the tolerance class about the target, as
// the nominal size.
func (b *bench) classed(m *Made) {
	code, err := limits.ParseCode(m.Size.Tolerance)
	if err == nil {
		var interval limits.Interval
		if interval, err = limits.Of(m.Target, code); err == nil {
			m.Low, m.High, m.Code = interval.Low, interval.High, code.String()
			return
		}
	}
	b.faults.Add(m.Size.Pos, "part size %q: %s", m.Size.ID, err)
}

// within sets the limits to ±t about the target.
func (m *Made) within(t float64) { m.Low, m.High = m.Target-t, m.Target+t }

// closely returns how closely a copied size is held: as it states, else as the
// shop works. An angle that states nothing is left to the general tolerance.
func (b *bench) closely(size *trade.NewSize) float64 {
	switch {
	case size.Within.Given():
		return size.Within.Inside()
	case size.Holds.Given():
		return size.Holds.Inside()
	case size.Kind.Dimension() != unit.Length:
		return 0
	}
	return b.holds(size)
}

// holds returns how closely the shop works, ±t.
func (b *bench) holds(size *trade.NewSize) float64 {
	switch {
	case size.Holds.Given():
		return size.Holds.Inside()
	case b.part.Holds.Given():
		return b.part.Holds.Inside()
	}
	if !b.usual {
		b.usual = true
		b.warn("how closely this shop works is not stated: taken as ±%s (common practice, no source); say `holds:` in the part", unit.LengthOf(usualHolds))
	}
	return usualHolds
}

// chance returns the promise: with what chance a size is to go together.
func (b *bench) chance(size *trade.NewSize) float64 {
	switch {
	case size.Chance > 0:
		return size.Chance
	case b.part.Chance > 0:
		return b.part.Chance
	}
	return usualChance
}

func (b *bench) warn(format string, args ...any) {
	b.made.Warnings = append(b.made.Warnings, adjust.Warning{Text: unit.Say(format, args...)})
}

// advise adds a sentence.
func (m *Made) advise(format string, args ...any) {
	m.Advice = append(m.Advice, unit.Say(format, args...))
}

// finite reports whether x is a number that can be worked to.
func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
