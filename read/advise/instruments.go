package advise

import (
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// usage is what a job's readings show of an instrument.
type usage struct {
	methods   map[string]bool
	jaws      map[gauge.Jaw]bool
	flat      *trade.Arg // of its inside jaws in a round bore
	low, high float64    // what it has shown, +Inf and -Inf where nothing
}

// usages returns what the readings show of each instrument.
func usages(job *trade.Job) map[string]*usage {
	list := map[string]*usage{}
	for _, i := range job.Instruments {
		list[i.ID] = &usage{methods: map[string]bool{}, jaws: map[gauge.Jaw]bool{}, low: math.Inf(1), high: math.Inf(-1)}
	}
	for _, r := range job.Readings {
		u, ok := list[r.With]
		m, _ := gauge.Find(r.By)
		if !ok || m.Model == nil {
			continue
		}
		u.methods[m.ID] = true
		for _, seen := range r.Saw {
			u.low, u.high = min(u.low, seen.X.Inside()), max(u.high, seen.X.Inside())
		}
		if m.Jaw != gauge.NoJaw {
			u.jaws[m.Jaw] = true
		}
		for _, arg := range r.Of {
			if i := m.Role(arg.Role); i >= 0 && m.Roles[i].OfInstrument {
				u.flat = &arg
			}
		}
	}
	return list
}

// reads reports whether an instrument can read by a method: it has done so, or
// its kind can and its jaws meet the work that way.
func (u *usage) reads(i *trade.Instrument, m *gauge.Method) bool {
	switch {
	case gauge.InstrumentReads(i) != m.Reads:
		return false
	case u.methods[m.ID]:
		return true
	case m.OwnGauge || u.isSpecial():
		return false
	}
	kind, _ := gauge.InstrumentOf(i.Kind)
	return kind.Reads(m) && (m.Jaw == gauge.NoJaw || u.meets(i, m.Jaw))
}

// isSpecial reports whether an instrument has read by nothing but methods whose
// instrument is made for them.
func (u *usage) isSpecial() bool {
	for id := range u.methods {
		if m, _ := gauge.Find(id); !m.OwnGauge {
			return false
		}
	}
	return len(u.methods) > 0
}

// spans reports whether an instrument that has shown what it has may show this
// too. A micrometer that has shown more than a frame spans has changed its
// frame already.
func (u *usage) spans(i *trade.Instrument, shows float64) bool {
	kind, _ := gauge.InstrumentOf(i.Kind)
	if kind.Frame == 0 || u.low > u.high || u.high-u.low > kind.Frame {
		return true
	}
	return max(u.high, shows)-min(u.low, shows) <= kind.Frame
}

// jawWords are the words by which a kit tells the jaws of one instrument apart.
var jawWords = map[string]gauge.Jaw{"outside": gauge.Closing, "inside": gauge.Opening, "depth": gauge.Reaching}

// meets reports whether an instrument meets the work in this way: as it has
// done, else as what is said of it has it, else as its kind does.
func (u *usage) meets(i *trade.Instrument, jaw gauge.Jaw) bool {
	if len(u.jaws) > 0 {
		return u.jaws[jaw]
	}
	for word, way := range jawWords {
		if strings.Contains(i.ID+" "+i.Say, word) {
			return way == jaw
		}
	}
	kind, _ := gauge.InstrumentOf(i.Kind)
	return kind.Mostly == gauge.NoJaw || jaw == kind.Mostly
}
