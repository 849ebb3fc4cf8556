package advise

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// special are methods whose instrument is made for them: pointed or ball
// anvils, ball tips, feet. Only one that has read by the method will do.
var special = []string{"root", "wall-thickness", "thread-ball-tips", "chord-height", "ball-feet-height"}

// readBy says which kinds of instrument read a method, where the way its jaws
// meet the work does not say it.
var readBy = map[string][]trade.InstrumentKind{
	"inside":      {trade.Caliper, trade.Micrometer, trade.BoreGauge},
	"thread-bore": {trade.Caliper, trade.Micrometer, trade.BoreGauge},
	"protractor":  {trade.Protractor},
	"pitches":     {trade.Rule, trade.Caliper, trade.Scale},
	"runout":      {trade.Dial},
	"lost-motion": {trade.Dial},
	"rocking-rod": {trade.Rule, trade.Caliper},
	"sine-bar":    {trade.HeightGauge},
}

// readByJaw says which kinds of instrument meet the work in each way.
var readByJaw = map[gauge.Jaw][]trade.InstrumentKind{
	gauge.Closing:  {trade.Caliper, trade.Micrometer},
	gauge.Opening:  {trade.Caliper, trade.Micrometer},
	gauge.Reaching: {trade.DepthMicrometer, trade.DepthGauge, trade.HeightGauge, trade.Caliper},
}

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
			if arg.Role == jawFlat {
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
	case slices.Contains(special, m.ID) || u.isSpecial():
		return false
	}
	kinds, ok := readBy[m.ID]
	if !ok {
		kinds = readByJaw[m.Jaw]
	}
	return slices.Contains(kinds, i.Kind) && (m.Jaw == gauge.NoJaw || u.meets(i, m.Jaw))
}

// isSpecial reports whether an instrument has read by nothing but methods whose
// instrument is made for them.
func (u *usage) isSpecial() bool {
	for id := range u.methods {
		if !slices.Contains(special, id) {
			return false
		}
	}
	return len(u.methods) > 0
}

// frame is what the frame of a micrometer, or one rod of a depth micrometer,
// spans, mm: an inch and a little.
const frame = 26

// spans reports whether an instrument that has shown what it has may show this
// too. A micrometer that has shown more than a frame spans has changed its
// frame already.
func (u *usage) spans(i *trade.Instrument, shows float64) bool {
	if i.Kind != trade.Micrometer && i.Kind != trade.DepthMicrometer || u.low > u.high || u.high-u.low > frame {
		return true
	}
	return max(u.high, shows)-min(u.low, shows) <= frame
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
	return i.Kind != trade.Micrometer || jaw == gauge.Closing
}
