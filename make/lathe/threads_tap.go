package lathe

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Engagement is one meaning of how much thread a hole leaves.
type Engagement struct {
	Of     string  // which is 100 %
	Full   float64 // what 100 % takes from the major diameter, mm
	Major  float64 // of the thread, mm
	Source string
}

// Hole returns the hole for so many per cent: major - full·percent/100, in mm.
func (e Engagement) Hole(percent float64) float64 { return e.Major - e.Full*percent/100 }

// Percent returns how much thread a hole leaves: 100·(major - hole)/full.
func (e Engagement) Percent(hole float64) float64 { return 100 * (e.Major - hole) / e.Full }

// TapHole is a hole for a tap.
type TapHole struct {
	Engagement
	Wanted float64    // per cent
	Drills []TapDrill // nearest of each series that comes near; none: the hole is bored
}

// TapDrill is a drill and the per cent of thread that it leaves.
type TapDrill struct {
	facts.Drill
	Gives float64
}

// The engagements that can be asked for. Above the greatest a tap breaks, below
// the least a thread strips (common practice, no source).
const (
	leastEngagement = 30
	mostEngagement  = 100
)

// drillsWithin is by how many per cent of thread a drill may miss what was asked.
const drillsWithin = 15

// TapHoles returns the holes for a tap, by each meaning that 100 % has for the
// thread's form. It is an error to ask for under 30 or over 100 per cent, or for a
// thread whose form the table lacks: taper threads have reamers of their own.
func TapHoles(sheet series.Sheet, percent float64) ([]TapHole, error) {
	if !(percent >= leastEngagement && percent <= mostEngagement) {
		return nil, fmt.Errorf("%g %% of thread: from %d to %d are wanted; 75 is usual", percent, leastEngagement, mostEngagement)
	}
	var list []TapHole
	for _, e := range engagements(sheet) {
		list = append(list, TapHole{Engagement: e, Wanted: percent, Drills: e.drills(percent)})
	}
	if len(list) == 0 {
		return nil, fmt.Errorf("the tables have no holes for a tap of %s", sheet.Thread.Designation)
	}
	return list, nil
}

// engagements returns the meanings of 100 % that a thread's sheet has holes for.
func engagements(sheet series.Sheet) []Engagement {
	var list []Engagement
	for _, t := range sheet.Tapping {
		if slices.ContainsFunc(list, func(e Engagement) bool { return e.Of == t.Of }) {
			continue
		}
		major := sheet.Basic.Major
		list = append(list, Engagement{Of: t.Of, Full: 100 * (major - t.Hole) / t.Percent, Major: major, Source: t.Source})
	}
	return list
}

// drills returns the nearest drill of each series, nearest of all first.
func (e Engagement) drills(percent float64) []TapDrill {
	off := func(d TapDrill) float64 { return math.Abs(d.Gives - percent) }
	best := map[string]TapDrill{}
	for _, drill := range facts.Drills() {
		d := TapDrill{drill, e.Percent(drill.Diameter)}
		if last, there := best[d.Series]; off(d) <= drillsWithin && (!there || off(d) < off(last)) {
			best[d.Series] = d
		}
	}
	var list []TapDrill
	for _, d := range best {
		list = append(list, d)
	}
	slices.SortFunc(list, func(a, b TapDrill) int { return cmp.Or(cmp.Compare(off(a), off(b)), cmp.Compare(a.Series, b.Series)) })
	return list
}
