package gauge

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

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
	if in, known := InstrumentOf(i.Kind); known && in.Angles {
		return unit.Angle
	}
	for _, stated := range []unit.Quantity{i.Resolution, i.MPE, i.Zero, i.Repeat} {
		if stated.Given() {
			return stated.Dimension()
		}
	}
	return unit.Length
}

// Seeks returns the kind of size that is sought in a role as a rule.
func (r Role) Seeks() trade.SizeKind {
	if r.Sought != "" {
		return r.Sought
	}
	switch r.Kind {
	case Diameter:
		return trade.Diameter
	case Radius:
		return trade.Radius
	case PitchLength:
		return trade.Pitch
	case IncludedAngle, PlainAngle:
		return trade.Angle
	case HalfAngle:
		return trade.HalfAngle
	case PlainNumber:
		return trade.Number
	}
	return trade.Width
}

// PieceKind is the kind of gauge piece that a role takes as a rule.
func (r Role) PieceKind() trade.PieceKind {
	if len(r.Pieces) == 0 {
		return trade.OtherPiece
	}
	return r.Pieces[0]
}
