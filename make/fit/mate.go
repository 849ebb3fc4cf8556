package fit

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/tables/limits"
)

// place is a mate somewhere: its size there and the standard uncertainty of
// that.
type place struct{ value, u float64 }

// mate is what a size goes into or over.
type mate struct {
	over          bool
	found         place
	tight, slack  place // the same where it is true to form
	small, large  float64
	lacks, excess float64 // how much tighter and slacker it is there than as found
}

// mateOf returns the mate that an expression is. Only a single size of which
// the form was read has a tightest and a slackest place of its own.
func mateOf(r *adjust.Result, s *source, over bool) *mate {
	found := place{s.Value, s.u}
	least, most := found, found
	if s.single != nil {
		if e := r.Size(s.single.ID).Extent; e != nil {
			least, most = place{e.Least, e.ULeast}, place{e.Most, e.UMost}
		}
	}
	m := &mate{over: over, found: found, tight: least, slack: most, small: least.value, large: most.value}
	if over {
		m.tight, m.slack = most, least
	}
	m.lacks = math.Abs(m.tight.value - found.value)
	m.excess = math.Abs(m.slack.value - found.value)
	return m
}

// size returns the size that leaves a clearance.
func (m *mate) size(clearance float64) float64 {
	if m.over {
		return m.found.value + clearance
	}
	return m.found.value - clearance
}

// toFit makes a size go into or over its mate.
func (b *bench) toFit(size *trade.NewSize) Made {
	if size.Kind.Dimension() != unit.Length {
		b.faults.Add(size.Pos, "size %s is %s; only a length goes in or over anything: use copies or is", size.ID, kindText(size.Kind))
		return missing(size)
	}
	s := b.source(size)
	wanted, code := b.wanted(size, s)
	if !s.Determined {
		return missing(size)
	}
	aim := &aim{mate: mateOf(b.r, s, size.From == trade.GoesOver), interval: wanted, holds: b.holds(size), promised: b.chance(size)}
	made := Made{
		Size: size, Determined: true, Target: aim.size(aim.clearance()), U: s.u, Code: code,
		Mating: aim.expect(aim.clearance()), steps: stepsOf(b.r.Job, s.names),
	}
	made.within(aim.holds)
	if size.Rework == trade.EasyRework {
		made.Mating.Leave = aim.leave(aim.clearance())
	}
	return made
}

func kindText(k trade.SizeKind) string {
	if k.Dimension() == unit.Angle {
		return "an angle"
	}
	return "a plain number"
}

// interval is the clearance wanted.
type interval struct{ least, most float64 }

func (i interval) middle() float64 { return (i.least + i.most) / 2 }
func (i interval) width() float64  { return i.most - i.least }

// wanted returns the clearance wanted and, of a named fit, the code that this
// size has in it.
func (b *bench) wanted(size *trade.NewSize, s *source) (interval, string) {
	switch {
	case size.Clearance.Low.Given():
		return interval{size.Clearance.Low.Inside(), size.Clearance.High.Inside()}, ""
	case size.Fit != "":
		return b.named(size, s)
	}
	b.faults.Add(size.Pos, "size %s does not say how it fits: add clearance: 0.05..0.20 mm, interference: 0.01..0.03 mm or fit: H7/g6", size.ID)
	return interval{}, ""
}

// named returns the clearance of a named fit, applied to the mate as it is: what
// was meant by the mate, or else what it measures, only picks the row of the
// table. Fits are those of diameters: a radius has half the clearance.
func (b *bench) named(size *trade.NewSize, s *source) (interval, string) {
	f, err := limits.ParseFit(size.Fit)
	if err != nil {
		b.faults.Add(size.Pos, "size %s: %v", size.ID, err)
		return interval{}, ""
	}
	if !s.Determined {
		return interval{}, ""
	}
	nominal := s.Value
	if meaning, ok := b.meaning(s); ok {
		nominal = meaning.value
	}
	times := 1.0
	if size.Kind == trade.Radius {
		times = 2
	}
	pair, err := f.At(times * nominal)
	if err != nil {
		b.faults.Add(size.Pos, "size %s: %v", size.ID, err)
		return interval{}, ""
	}
	if slices.ContainsFunc(pair.Sources, facts.FromMemory) {
		b.warn("size %s: the tables have the limits of %s at this size from memory", size.ID, size.Fit)
	}
	code := pair.ShaftCode
	if surfaceOf(size) == trade.Inside {
		code = pair.HoleCode
	}
	return interval{pair.MinClearance / times, pair.MaxClearance / times}, code
}

// surfaceOf returns the surface of a size: what goes in is an outside one, what
// goes over an inside one, unless it says otherwise.
func surfaceOf(size *trade.NewSize) trade.Surface {
	switch {
	case size.Surface != "":
		return size.Surface
	case size.From == trade.GoesOver:
		return trade.Inside
	case size.From == trade.GoesIn:
		return trade.Outside
	}
	return trade.NoSurface
}
