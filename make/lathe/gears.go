package lathe

import (
	"context"
	"math/big"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// GearsWanted is the thread or the feed that change gears are sought for.
type GearsWanted struct {
	Pitch   unit.Quantity // from one thread to the next; of a feed: for one turn of the spindle
	Starts  int           // 0: one
	Feed    bool          // it is a feed, for which nearly is good enough
	Within  float64       // how far off the lead a train may be, in parts of it; 0: DefaultWithin, of a feed FeedWithin
	Without []int         // gears that are left out, by teeth
}

// How far off a train may be to be listed: that of a thread by 0.2 mm in 100 mm.
const (
	DefaultWithin = 0.002
	FeedWithin    = 0.05
)

// within returns how far off a train may be.
func (w GearsWanted) within() float64 {
	switch {
	case w.Within > 0:
		return w.Within
	case w.Feed:
		return FeedWithin
	}
	return DefaultWithin
}

// DefaultClearance is how many teeth two gears in mesh must have over the third
// that turns beside the shaft of one of them: its own teeth, the boss and the nut
// of the stud (common practice, no source).
const DefaultClearance = 15

// ChangeGears are the trains for one thread.
type ChangeGears struct {
	Wanted GearsWanted
	Lead   float64 // along the thread for one turn, mm: pitch times starts
	Trains []Train // smallest error first; of equal ones those of two gears, then those of fewer teeth in front
	Nearby bool    // no train is as near as was wanted: these are farther off

	// Lacking is the factor that no gear has, so that no train can be exact: 127
	// for metric pitches on an inch leadscrew. It is 0 where nothing is lacking,
	// or where no gear could have it.
	Lacking int

	// Substitutes are the trains without the gears that translate between inches
	// and millimetres, where every exact train has one.
	Substitutes []Train
}

// Train is a set of change gears: one or two that drive and as many that are
// driven, each in order from the spindle. The first driver turns the first
// driven gear, which shares a stud with the second driver. A simple train has any
// gear between its two as an idler.
type Train struct {
	Drivers, Driven []int       // teeth
	Gearbox         trade.Ratio // not given where the lathe has none
	Lead            float64     // that it cuts, mm
	Error           float64     // of the lead, in parts of what was wanted; 0 is exact
}

// Over returns how far the thread is out at the end of a length in mm, in mm.
func (t Train) Over(length float64) float64 { return t.Error * length }

// Same reports whether two trains have the same gears, whichever way round they
// stand on their studs.
func (t Train) Same(o Train) bool {
	return t.Gearbox == o.Gearbox && slices.Equal(sorted(t.Drivers), sorted(o.Drivers)) && slices.Equal(sorted(t.Driven), sorted(o.Driven))
}

// sorted returns the same numbers, rising.
func sorted(list []int) []int { return slices.Sorted(slices.Values(list)) }

// FindTrains returns the trains of two and of four gears that cut a thread:
//
//	lead = leadscrew · fixed ratio · gearbox · Π drivers / Π driven
//
// in exact arithmetic. A gear is used as often as it is listed. Trains that
// cannot mesh are left out: in one of four gears the first driver and the first
// driven must have more teeth together than the second driver and the clearance
// of the lathe, so that this one clears the first shaft, and likewise the second
// two more than the first driven and the clearance. Whether the arm reaches is
// not known. The error, trade.Faults, says what is wrong with the lathe or the
// thread.
func FindTrains(lathe *trade.Machinery, wanted GearsWanted) (*ChangeGears, error) {
	return findTrains(lathe, wanted, func(int, int) bool { return true })
}

// FindTrainsUntil is FindTrains for a search that somebody waits for: told hears
// how many of the gearbox's ratios are tried, of how many in all, and the context
// stops it. The error is then the context's, and there are no trains.
func FindTrainsUntil(ctx context.Context, lathe *trade.Machinery, wanted GearsWanted, told func(tried, all int)) (*ChangeGears, error) {
	found, err := findTrains(lathe, wanted, func(tried, all int) bool {
		told(tried, all)
		return ctx.Err() == nil
	})
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	return found, err
}

// findTrains stops where goOn says false; what it then returns is not to be used.
func findTrains(lathe *trade.Machinery, wanted GearsWanted, goOn func(tried, all int) bool) (*ChangeGears, error) {
	if err := checkGears(lathe, wanted); err != nil {
		return nil, err
	}
	s := newGearSearch(lathe, wanted)
	s.goOn = goOn
	found := &ChangeGears{Wanted: wanted, Lead: nearest(s.lead)}
	found.Trains, found.Nearby = s.best()
	if len(found.Trains) == 0 {
		var faults trade.Faults
		lead, _ := unit.WithUncertainty(found.Lead, 0)
		faults.Add(lathe.Pos, "these gears make no train within half of a lead of %s mm either way: other gears are wanted", lead)
		return nil, faults
	}
	if found.Trains[0].Error != 0 {
		found.Lacking = s.lacking()
		return found, nil
	}
	if translating := s.translating(found.Trains); len(translating) > 0 {
		s.leaveOut(translating)
		found.Substitutes = s.substitutes(found.Trains)
	}
	return found, nil
}

// nearest returns an exact number rounded once.
func nearest(x *big.Rat) float64 {
	f, _ := x.Float64()
	return f
}

// What change gears, fixed ratios and gearboxes are thought to stay within.
const (
	mostTeeth = 1000
	mostRatio = 10000
	mostGears = 100
	mostWays  = 100 // of a gearbox
)

// checkGears says what is wrong with a lathe, or with what it is to cut.
func checkGears(lathe *trade.Machinery, wanted GearsWanted) error {
	var faults trade.Faults
	wrong := func(format string, args ...any) { faults.Add(lathe.Pos, format, args...) }
	if wanted.Pitch.Sign() <= 0 {
		wrong("the pitch must be greater than 0")
	}
	if wanted.Starts < 0 || wanted.Starts > mostTeeth {
		wrong("a thread has from 1 to %d starts", mostTeeth)
	}
	if lathe.Leadscrew.Sign() <= 0 {
		wrong("the pitch of the leadscrew is wanted: 8 tpi, 3 mm")
	}
	if len(lathe.Gears) < 2 || len(lathe.Gears) > mostGears {
		wrong("from 2 to %d change gears are wanted, each by its teeth; here are %d", mostGears, len(lathe.Gears))
	}
	for _, teeth := range lathe.Gears {
		if teeth < 1 || teeth > mostTeeth {
			wrong("a gear of %d teeth: from 1 to %d are wanted", teeth, mostTeeth)
		}
	}
	if len(lathe.Gearbox) > mostWays {
		wrong("a gearbox of %d ratios: at most %d are wanted", len(lathe.Gearbox), mostWays)
	}
	for _, r := range append(slices.Clone(lathe.Gearbox), fixedRatio(lathe)) {
		if min(r.Num, r.Den) < 1 || max(r.Num, r.Den) > mostRatio {
			wrong("a ratio of %d/%d: whole numbers from 1 to %d are wanted", r.Num, r.Den, mostRatio)
		}
	}
	return faults.Err()
}

// fixedRatio returns the turns of the first stud for one of the spindle.
func fixedRatio(lathe *trade.Machinery) trade.Ratio {
	if lathe.FixedRatio.Given() {
		return lathe.FixedRatio
	}
	return trade.Ratio{Num: 1, Den: 1}
}
