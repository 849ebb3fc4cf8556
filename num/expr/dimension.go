package expr

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// Dimension is what the value of a formula measures: a whole or half power of
// length, an angle or a plain number. Inside, that is mm to the power, radians
// or the number. The zero Dimension is a plain number.
type Dimension struct {
	halves int // of a power of length: 2 is a length, 4 an area
	angle  bool
}

var (
	number = Dimension{}
	length = Dimension{halves: 2}
	angle  = Dimension{angle: true}
)

// mostHalves bounds the powers of length, so that they never overflow.
const mostHalves = 100

// DimensionOf returns the dimension of a formula whose value is a quantity of
// this dimension: a length, an angle or a plain number.
func DimensionOf(d unit.Dimension) Dimension {
	switch d {
	case unit.Length:
		return length
	case unit.Angle:
		return angle
	}
	return number
}

// IsLength reports whether the value is a length.
func (d Dimension) IsLength() bool { return d == length }

// IsAngle reports whether the value is an angle.
func (d Dimension) IsAngle() bool { return d == angle }

// IsNumber reports whether the value is a plain number.
func (d Dimension) IsNumber() bool { return d == number }

// String returns the dimension in words: "a length", "an angle".
func (d Dimension) String() string {
	switch {
	case d == number:
		return "a plain number"
	case d == length:
		return "a length"
	case d == angle:
		return "an angle"
	case d.halves == 4:
		return "an area"
	case d.halves == 6:
		return "a volume"
	case d.halves%2 == 0:
		return fmt.Sprintf("a length to the power %d", d.halves/2)
	}
	return fmt.Sprintf("a length to the power %d/2", d.halves)
}

// times returns the dimension of a product. An angle stays one only against a
// plain number; with a length it makes an arc, which is a length.
func (d Dimension) times(o Dimension) (Dimension, bool) {
	if d == number || o == number {
		return Dimension{d.halves + o.halves, d.angle || o.angle}, true
	}
	return lengthTo(d.halves + o.halves)
}

// over returns the dimension of a quotient.
func (d Dimension) over(o Dimension) (Dimension, bool) {
	if o == number {
		return d, true
	}
	return lengthTo(d.halves - o.halves)
}

// lengthTo returns the dimension of a power of length, false if it is out of
// all reason.
func lengthTo(halves int) (Dimension, bool) {
	return Dimension{halves: halves}, -mostHalves <= halves && halves <= mostHalves
}

// to returns the dimension of a power, false where that is no whole or half
// power of length. A power of an angle is a plain number.
func (d Dimension) to(exponent float64) (Dimension, bool) {
	halves := float64(d.halves) * exponent
	if !(-mostHalves <= halves && halves <= mostHalves) || halves != float64(int(halves)) {
		return number, false
	}
	return lengthTo(int(halves))
}
