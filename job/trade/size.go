package trade

import "codeberg.org/oddleg/oddleg/num/unit"

// SizeKind is what sort of thing a size is.
type SizeKind string

// The kinds of size.
const (
	Diameter  SizeKind = "diameter"
	Radius    SizeKind = "radius"
	Width     SizeKind = "width"
	Height    SizeKind = "height"
	Depth     SizeKind = "depth"
	Length    SizeKind = "length"
	Distance  SizeKind = "distance"
	Offset    SizeKind = "offset"
	Pitch     SizeKind = "pitch"
	Angle     SizeKind = "angle"      // an included angle
	HalfAngle SizeKind = "half-angle" // measured to the axis or centre plane
	Module    SizeKind = "module"
	Number    SizeKind = "number"
)

// SizeKinds lists every kind of size.
var SizeKinds = []SizeKind{
	Diameter, Radius, Width, Height, Depth, Length, Distance, Offset, Pitch,
	Angle, HalfAngle, Module, Number,
}

// Dimension returns what a size of this kind is measured in.
func (k SizeKind) Dimension() unit.Dimension {
	switch k {
	case Angle, HalfAngle:
		return unit.Angle
	case Number:
		return unit.Number
	}
	return unit.Length
}

// MustBePositive reports whether a size of this kind cannot be zero or less.
func (k SizeKind) MustBePositive() bool {
	switch k {
	case Offset, Depth, Angle, HalfAngle, Number:
		return false
	}
	return true
}

// Surface says which way wear changes a size.
type Surface string

// The surfaces: wear makes an outside size smaller and an inside one larger.
const (
	NoSurface Surface = "none"
	Outside   Surface = "outside"
	Inside    Surface = "inside"
)

// Surfaces lists every surface.
var Surfaces = []Surface{Outside, Inside, NoSurface}

// Wear is how much a surface is thought to have worn.
type Wear string

// The degrees of wear; TypicalWear goes with a length, Size.TypicalWear.
const (
	NoWear      Wear = "none"
	LightWear   Wear = "light"
	HeavyWear   Wear = "heavy"
	TypicalWear Wear = "typical"
)

// Size is one size that is sought. What is not stated is a Quantity not given
// or an empty word.
type Size struct {
	ID          string
	Kind        SizeKind
	Surface     Surface
	Wear        Wear
	TypicalWear unit.Quantity
	Form        unit.Quantity // ±t: out of round, bell mouth, waviness to be expected
	Make        unit.Quantity // how closely the first maker worked
	Guess       unit.Quantity // start value
	Known       Prior
	Meant       string // what the user decided the drawing said
	Say         string
	Pos         Pos
}

// Prior is a value known beforehand: exactly, within ±Within (standard
// uncertainty Within/√3), or with standard uncertainty U.
type Prior struct {
	Value  unit.Quantity
	Within unit.Quantity
	U      unit.Quantity
	Pos    Pos
}

// Given reports whether a prior is stated.
func (p Prior) Given() bool { return p.Value.Given() }

// Exact reports whether the value is known without error.
func (p Prior) Exact() bool { return p.Given() && !p.Within.Given() && !p.U.Given() }
