package gauge

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Instrument is the entry of one kind of instrument: all that the program knows
// of it. Figures are common practice, no source.
type Instrument struct {
	Kind   trade.InstrumentKind
	Name   string   // "depth micrometer"
	Words  []string // other words that somebody may look for it by
	Angles bool     // it shows angles
	Either bool     // it shows what its figures are written as; else lengths

	// MPE is what one in fair order is good for, ± mm. A Coarse one is good for
	// less. ErrorOfScale takes the step of its scale instead; ErrorUnknown says that
	// nothing can be known of it beforehand.
	MPE          float64
	Coarse       *Coarse
	ErrorOfScale bool
	ErrorUnknown bool

	// Jaws are the ways in which it can meet the work, Mostly the only one that it
	// has unless more is said of it, OwnZeros says that each has a zero of its own.
	// Settles are the ways in which it is trusted to settle a doubt. An instrument
	// without jaws is named by the methods that it reads.
	Jaws     []Jaw
	Mostly   Jaw
	OwnZeros bool
	Settles  []Jaw

	Frame     float64 // what its frame or one rod spans, mm; 0: it has none
	Framed    bool    // there is a frame for every 25 mm, or for every inch
	Divisions []Division
	Fractions bool // its scale has parts of an inch
	Loans     []Loan
}

// Coarse is what an instrument that reads to From mm or worse is good for.
type Coarse struct{ From, MPE float64 }

// Scale is what is miscounted on an instrument.
type Scale uint8

// The scales.
const (
	Thimble Scale = iota // turns of a thimble
	Beam                 // divisions of a beam
)

// Division is a step by which an instrument is misread.
type Division struct {
	Scale  Scale
	Inches bool    // on a scale in inches
	By     float64 // mm
	Part   float64 // of all such slips on this scale
	Text   string
}

// Loan is one that a toolroom has.
type Loan struct {
	Rank     int    // the plainest of all loans is 1
	MM, Inch string // to what it reads, by the units of the job
	Reads    string // the same in words; empty: as written
	Unsaid   bool   // how finely it reads goes without saying
	MPE      float64
}

const thimbleMM, thimbleInch = 0.5, 0.025 * unit.MillimetresPerInch

var thimble = []Division{
	{Thimble, false, thimbleMM, 0.8, "one turn of the thimble"},
	{Thimble, false, 2 * thimbleMM, 0.2, "two turns of the thimble"},
	{Thimble, true, thimbleInch, 0.8, "one turn of the thimble"},
	{Thimble, true, 2 * thimbleInch, 0.2, "two turns of the thimble"},
}

var beam = []Division{
	{Beam, false, 1, 1, "1 mm on the beam"},
	{Beam, true, 0.1 * unit.MillimetresPerInch, 0.6, "0.1 in on the beam"},
	{Beam, true, 0.025 * unit.MillimetresPerInch, 0.4, "0.025 in on the beam"},
}

// frame is what the frame of a micrometer, or one rod of a depth micrometer,
// spans, mm: an inch and a little.
const frame = 26

var instruments = []*Instrument{
	{
		Kind: trade.Caliper, Name: "caliper", Words: []string{"vernier", "slide gauge"},
		MPE: 0.03, Coarse: &Coarse{From: 0.05, MPE: 0.05},
		Jaws: []Jaw{Closing, Opening, Reaching}, OwnZeros: true, Settles: []Jaw{Closing, Opening},
		Divisions: beam,
		Loans:     []Loan{{Rank: 2, MM: "0.02 mm", Inch: "0.02 mm", Unsaid: true, MPE: 0.03}},
	},
	{
		Kind: trade.Micrometer, Name: "micrometer", Words: []string{"mike", "thimble", "anvil"},
		MPE:  0.005,
		Jaws: []Jaw{Closing, Opening}, Mostly: Closing, Settles: []Jaw{Closing},
		Frame: frame, Framed: true, Divisions: thimble,
		Loans: []Loan{
			{Rank: 1, MM: "0.01 mm", Inch: "0.0005 in", MPE: 0.005},
			{Rank: 6, MM: "0.001 mm", Inch: "0.0001 in", MPE: 0.002},
		},
	},
	{
		Kind: trade.DepthGauge, Name: "depth gauge", Words: []string{"rod", "step"},
		ErrorUnknown: true, Jaws: []Jaw{Reaching}, Settles: []Jaw{Reaching}, Divisions: beam,
	},
	{
		Kind: trade.DepthMicrometer, Name: "depth micrometer", Words: []string{"rod", "step", "thimble"},
		MPE: 0.01, Jaws: []Jaw{Reaching}, Settles: []Jaw{Reaching}, Frame: frame, Divisions: thimble,
		Loans: []Loan{{Rank: 3, MM: "0.01 mm", Inch: "0.0005 in", MPE: 0.01}},
	},
	{
		Kind: trade.HeightGauge, Name: "height gauge", Words: []string{"surface plate", "scriber"},
		MPE: 0.05, Jaws: []Jaw{Reaching}, Settles: []Jaw{Reaching}, Divisions: beam,
	},
	{
		Kind: trade.BoreGauge, Name: "bore gauge", Words: []string{"hole", "cylinder", "three-point"},
		MPE: 0.015, Settles: []Jaw{Opening},
		Loans: []Loan{
			{Rank: 4, MM: "0.01 mm", Inch: "0.0005 in", MPE: 0.015},
			{Rank: 7, MM: "0.001 mm", Inch: "0.0001 in", MPE: 0.003},
		},
	},
	{Kind: trade.Dial, Name: "dial", Words: []string{"indicator", "clock", "test indicator"}, MPE: 0.015},
	{Kind: trade.Rule, Name: "rule", Words: []string{"ruler", "steel rule"}, MPE: 0.25, Fractions: true},
	{
		Kind: trade.Protractor, Name: "protractor", Words: []string{"bevel", "angle"}, Angles: true, ErrorOfScale: true,
		Loans: []Loan{{Rank: 5, MM: "0d 05m", Inch: "0d 05m", Reads: "5 minutes"}},
	},
	{Kind: trade.Readout, Name: "readout", Words: []string{"DRO", "digital readout", "mill"}, MPE: 0.01},
	{Kind: trade.Scale, Name: "scale", Words: []string{"drawing scale", "tape"}, Either: true, ErrorUnknown: true},
	{Kind: trade.OtherInstrument, Name: "other instrument", Words: []string{"own"}, Either: true, ErrorUnknown: true},
}

// Instruments returns the entry of every kind of instrument. They are shared and
// must not be changed.
func Instruments() []*Instrument { return slices.Clone(current.Load().instruments) }

// InstrumentKinds lists every kind of instrument, any other last.
func InstrumentKinds() []trade.InstrumentKind {
	var list []trade.InstrumentKind
	for _, i := range current.Load().instruments {
		list = append(list, i.Kind)
	}
	return list
}

// InstrumentOf returns the entry of a kind.
func InstrumentOf(kind trade.InstrumentKind) (*Instrument, bool) {
	for _, i := range current.Load().instruments {
		if i.Kind == kind {
			return i, true
		}
	}
	return &Instrument{Kind: kind, Name: string(kind), Either: true, ErrorUnknown: true}, false
}

// permissible returns what an instrument with this step of its scale is good
// for, ± as its figures; false where nothing is known of it.
func (i *Instrument) permissible(resolution float64) (mpe float64, known bool) {
	switch {
	case i.ErrorOfScale:
		return resolution, resolution > 0
	case i.Coarse != nil && resolution >= i.Coarse.From:
		return i.Coarse.MPE, true
	}
	return i.MPE, !i.ErrorUnknown
}

// Reads reports whether a kind reads by a method: it is named by it, or else its
// jaws can meet the work that way.
func (i *Instrument) Reads(m *Method) bool {
	if len(m.ReadBy) > 0 {
		return slices.Contains(m.ReadBy, i.Kind)
	}
	return slices.Contains(i.Jaws, m.Jaw)
}

// Trusted reports whether a kind is trusted to settle a doubt by a method.
func (i *Instrument) Trusted(m *Method) bool {
	if m.Jaw == NoJaw {
		return slices.Contains(m.ReadBy, i.Kind)
	}
	return slices.Contains(i.Settles, m.Jaw)
}
