package gauge

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// TouchMethod is the id of the method whose readings are pairs.
const TouchMethod = "touch"

// Factor returns what a size counts for in a role: a radius counts double
// where a diameter is wanted, an included angle half where a half angle is, and
// the reverse. It is 1 where nothing need be converted.
func (k RoleKind) Factor(size trade.SizeKind) float64 {
	switch {
	case k == Diameter && size == trade.Radius, k == IncludedAngle && size == trade.HalfAngle:
		return 2
	case k == Radius && size == trade.Diameter, k == HalfAngle && size == trade.Angle:
		return 0.5
	}
	return 1
}

// varies reports whether a value in a role of this kind can be any number.
func (k RoleKind) varies() bool {
	switch k {
	case Count, Side, HoleOfPlan, PlaceTouched:
		return false
	}
	return true
}

// InstrumentReads returns what an instrument shows: a protractor angles, any
// other lengths unless its figures are written as angles.
func InstrumentReads(i *trade.Instrument) unit.Dimension {
	if i.Kind == trade.Protractor {
		return unit.Angle
	}
	for _, stated := range []unit.Quantity{i.Resolution, i.MPE, i.Zero, i.Repeat} {
		if stated.Given() {
			return stated.Dimension()
		}
	}
	return unit.Length
}
