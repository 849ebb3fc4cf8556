package gauge

import (
	"oddleg"
	"oddleg/unit"
)

// TouchMethod is the id of the method whose readings are pairs.
const TouchMethod = "touch"

// Factor returns what a size counts for in a role: a radius counts double
// where a diameter is wanted, an included angle half where a half angle is, and
// the reverse. It is 1 where nothing need be converted.
func (k RoleKind) Factor(size oddleg.SizeKind) float64 {
	switch {
	case k == Diameter && size == oddleg.Radius, k == IncludedAngle && size == oddleg.HalfAngle:
		return 2
	case k == Radius && size == oddleg.Diameter, k == HalfAngle && size == oddleg.Angle:
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
func InstrumentReads(i *oddleg.Instrument) unit.Dimension {
	if i.Kind == oddleg.Protractor {
		return unit.Angle
	}
	for _, stated := range []unit.Quantity{i.Resolution, i.MPE, i.Zero, i.Repeat} {
		if stated.Given() {
			return stated.Dimension()
		}
	}
	return unit.Length
}
