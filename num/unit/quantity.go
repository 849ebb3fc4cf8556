// Package unit reads and prints the numbers of the shop: lengths in millimetres
// and inch fractions, angles, tapers, pitches, forces, torques and plain numbers.
//
// A Quantity is a number as it was written together with its unit. It is kept
// as one reduced int64 fraction, so 2 9/64 in stays exactly that and 25.4 mm
// equals 1 in; what does not fit is an error, never a rounded value. Inside
// gives it as the rest of the program works: millimetres, radians, newtons,
// newton millimetres, or the plain number. A Quantity is an immutable value.
package unit

import (
	"errors"
	"math"
	"math/big"
)

// Unit is the unit a number was written in.
type Unit uint8

// The units. Tapers and threads per inch are the trade's ways of writing an
// angle by its tangent and a length by its inverse.
const (
	One Unit = iota // a plain number
	Millimetre
	Inch
	Degree
	Radian
	InchPerFoot    // a taper, on the diameter, in inches per foot
	TaperRatio     // a taper, on the diameter, as 1/n of the length
	ThreadsPerInch // a pitch
	Newton
	Kilonewton
	PoundForce
	NewtonMillimetre
	NewtonMetre
	PoundForceInch
	PoundForceFoot
)

// MillimetresPerInch is the length of the inch, exact since 1959.
const MillimetresPerInch = 25.4

// Dimension is what sort of thing a quantity measures.
type Dimension uint8

// The dimensions.
const (
	Number Dimension = iota
	Length
	Angle
	Force
	Torque
)

// Dimension returns what the unit measures.
func (u Unit) Dimension() Dimension {
	switch u {
	case Millimetre, Inch, ThreadsPerInch:
		return Length
	case Degree, Radian, InchPerFoot, TaperRatio:
		return Angle
	case Newton, Kilonewton, PoundForce:
		return Force
	case NewtonMillimetre, NewtonMetre, PoundForceInch, PoundForceFoot:
		return Torque
	}
	return Number
}

// String returns the unit as it is written after a number: nothing for plain
// numbers and for taper ratios.
func (u Unit) String() string {
	switch u {
	case Millimetre:
		return "mm"
	case Inch:
		return "in"
	case Degree:
		return "deg"
	case Radian:
		return "rad"
	case InchPerFoot:
		return "in/ft"
	case ThreadsPerInch:
		return "tpi"
	case Newton:
		return "N"
	case Kilonewton:
		return "kN"
	case PoundForce:
		return "lbf"
	case NewtonMillimetre:
		return "N mm"
	case NewtonMetre:
		return "N m"
	case PoundForceInch:
		return "lbf in"
	case PoundForceFoot:
		return "lbf ft"
	}
	return ""
}

// Quantity is a number as written and its unit. The zero Quantity is one that
// was not given. Two quantities written differently are different to ==; use
// Equal.
type Quantity struct {
	num, den int64 // reduced, den > 0; den is 0 where not given
	unit     Unit
}

// The faults of a fraction that is no quantity.
var (
	errOverflow = errors.New("this number has too many digits to be kept exactly")
	errOverZero = errors.New("a fraction over zero is no number")
	errNoPitch  = errors.New("a screw of 0 threads an inch has no pitch")
)

// New returns num/den in unit u; a taper ratio 1:n is 1/n. It is an error if
// den is 0, if the reduced fraction leaves ±(2⁶³ - 1), or for 0 tpi.
func New(num, den int64, u Unit) (Quantity, error) {
	if den == 0 {
		return Quantity{}, errOverZero
	}
	return fromRat(big.NewRat(num, den), u)
}

// fromRat keeps r, if it fits. The most negative int64 is left out so that
// every quantity can change its sign.
func fromRat(r *big.Rat, u Unit) (Quantity, error) {
	num, den := r.Num(), r.Denom()
	if !num.IsInt64() || !den.IsInt64() || num.Int64() == math.MinInt64 {
		return Quantity{}, errOverflow
	}
	if u == ThreadsPerInch && num.Sign() == 0 {
		return Quantity{}, errNoPitch
	}
	return Quantity{num: num.Int64(), den: den.Int64(), unit: u}, nil
}

// Given reports whether there is a value at all.
func (q Quantity) Given() bool { return q.den != 0 }

// Unit returns the unit the quantity was written in.
func (q Quantity) Unit() Unit { return q.unit }

// Dimension returns what the quantity measures.
func (q Quantity) Dimension() Dimension { return q.unit.Dimension() }

// IsTaper reports whether the quantity is an angle written as a taper.
func (q Quantity) IsTaper() bool { return q.unit == InchPerFoot || q.unit == TaperRatio }

// Sign returns -1, 0 or 1 as the quantity is negative, zero or positive; 0
// where it is not given.
func (q Quantity) Sign() int {
	switch {
	case q.num < 0:
		return -1
	case q.num > 0:
		return 1
	}
	return 0
}

// Neg returns the quantity with the other sign; one that is not given stays so.
func (q Quantity) Neg() Quantity {
	q.num = -q.num
	return q
}

// Inside returns the quantity in millimetres, radians, newtons, newton
// millimetres or as the plain number. A taper, which is on the diameter, gives its half angle: atan(T/24) for T
// inches per foot, atan(1/(2n)) for 1:n. Threads per inch give the pitch. A
// length, force or torque is converted exactly and rounded once. A quantity that
// is not given panics.
func (q Quantity) Inside() float64 {
	value, _ := q.exact().Float64()
	switch q.unit {
	case Degree:
		return value * math.Pi / 180
	case InchPerFoot, TaperRatio:
		return math.Atan(value / 2)
	}
	return value
}

// InsideOr returns the quantity as Inside does, or another where it is not given.
func (q Quantity) InsideOr(other float64) float64 {
	if !q.Given() {
		return other
	}
	return q.Inside()
}

// Exact returns what Inside does, without rounding: a length in millimetres, a
// force in newtons, a torque in newton millimetres or the plain number. An angle,
// whose radians no fraction gives, panics.
func (q Quantity) Exact() *big.Rat {
	if q.Dimension() == Angle {
		panic("unit: an angle was asked for as a fraction")
	}
	return q.exact()
}

// Turns returns an angle as a part of a whole turn: exactly where it was written in
// degrees, else the nearest to what Inside gives. What is no angle panics.
func (q Quantity) Turns() *big.Rat {
	if q.Dimension() != Angle {
		panic("unit: turns were asked of what is no angle")
	}
	if q.unit == Degree {
		r := q.rat()
		return r.Mul(r, big.NewRat(1, 360))
	}
	return new(big.Rat).SetFloat64(q.Inside() / (2 * math.Pi))
}

// Equal reports whether q and o are the same quantity, in whatever unit each
// was written: 25.4 mm and 1 in, 14 tpi and 1/14 in. Lengths, forces and torques
// are compared exactly, and so are degrees, radians and tapers each among
// themselves; an angle written in two of these ways is compared as Inside gives it. Two
// quantities that are not given are equal.
func (q Quantity) Equal(o Quantity) bool {
	if !q.Given() || !o.Given() {
		return q.Given() == o.Given()
	}
	if q.Dimension() != o.Dimension() {
		return false
	}
	if q.unit.common() == o.unit.common() {
		return q.exact().Cmp(o.exact()) == 0
	}
	return q.Inside() == o.Inside()
}

// common returns the unit in which quantities of unit u are compared exactly.
func (u Unit) common() Unit {
	switch u {
	case Inch, ThreadsPerInch:
		return Millimetre
	case InchPerFoot:
		return TaperRatio
	case Kilonewton, PoundForce:
		return Newton
	case NewtonMetre, PoundForceInch, PoundForceFoot:
		return NewtonMillimetre
	}
	return u
}

// exact returns the quantity in its common unit.
func (q Quantity) exact() *big.Rat {
	r := q.rat()
	if factor := inCommon[q.unit]; factor != nil {
		return r.Mul(r, factor)
	}
	switch q.unit {
	case ThreadsPerInch:
		return r.Quo(inchInMillimetres, r)
	case InchPerFoot:
		return r.Quo(r, footInInches)
	}
	return r
}

var (
	inchInMillimetres = big.NewRat(254, 10)
	footInInches      = big.NewRat(12, 1)
	thousand          = big.NewRat(1000, 1)

	// poundForce is in newtons, exact: 0.45359237 kg by 9.80665 m/s² (BS 350-1:1974,
	// from memory).
	poundForce     = big.NewRat(44482216152605, 1e13)
	poundForceInch = new(big.Rat).Mul(poundForce, inchInMillimetres)
)

// inCommon is what one of a unit is in its common unit, where that is a plain
// multiple.
var inCommon = map[Unit]*big.Rat{
	Inch:           inchInMillimetres,
	Kilonewton:     thousand,
	PoundForce:     poundForce,
	NewtonMetre:    thousand,
	PoundForceInch: poundForceInch,
	PoundForceFoot: new(big.Rat).Mul(poundForceInch, footInInches),
}

// rat returns the number as it was written.
func (q Quantity) rat() *big.Rat {
	if !q.Given() {
		panic("unit: the value was asked of a quantity that is not given")
	}
	return big.NewRat(q.num, q.den)
}
