package blunder

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// priors say how often each kind of slip is made where it can be made at all,
// against each other and against otherPriors. They are our choice: common
// practice, no source. What can be done in several ways shares its prior.
var priors = map[Kind]float64{
	ThimbleTurn:       0.25,
	BeamDivision:      0.25,
	FractionDivision:  0.25,
	DigitsSwapped:     0.15,
	PieceForgotten:    0.10,
	PieceAdded:        0.05,
	PieceDoubled:      0.05,
	OtherPiece:        0.10,
	RadiusForDiameter: 0.05,
	DiameterForRadius: 0.05,
	InchForMM:         0.05,
	MMForInch:         0.05,
	NotZeroed:         0.10,
	SwappedReadings:   0.05,
}

// otherPriors are those of some other slip, by what it may be in: people
// misread more often than they misstate what they know or own.
var otherPriors = map[adjust.SourceKind]float64{
	adjust.FromReading:  0.20,
	adjust.FromKnown:    0.10,
	adjust.FromRelation: 0.10,
	adjust.FromPiece:    0.02,
}

// mostSlip is how far some other slip may go, if what is said is not less.
var mostSlip = map[unit.Dimension]float64{unit.Length: 25, unit.Angle: math.Pi / 6, unit.Number: 1}

// notZeroed is the standard deviation of the zero of an instrument that was
// not set: half a turn of a thimble, or half a degree.
func notZeroed(d unit.Dimension) float64 {
	if d == unit.Angle {
		return math.Pi / 360
	}
	return 0.5
}

// otherSlip returns the weight of some other slip: of any amount up to what is
// said or mostSlip, whichever is less, either way, all alike.
func (a *account) otherSlip() float64 {
	span := 2 * max(min(math.Abs(a.said), mostSlip[a.dimension]), math.Abs(a.shift))
	return otherPriors[a.source.Kind] * math.Sqrt(2*math.Pi) * a.spread / span * a.likelihood(a.shifted())
}

// shifted is the result with the culprit's values moved to where the others
// predict them, so that their own scatter still counts.
func (a *account) shifted() *adjust.Result {
	if len(a.values) < 2 || math.IsNaN(a.predicted) {
		return a.base
	}
	if result := a.refit([]*doubt{a.doubt}, a.rewritten(a.without(a.shift))); result != nil {
		return result
	}
	return a.base
}
