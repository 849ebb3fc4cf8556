// Package unit reads and prints the numbers of the shop: lengths in millimetres
// and inch fractions, angles, tapers, pitches and plain numbers.
//
// A Quantity is a number as it was written together with its unit. It is kept
// as one reduced int64 fraction, so 2 9/64 in stays exactly that and 25.4 mm
// equals 1 in; what does not fit is an error, never a rounded value. Inside
// gives it as the rest of the program works: millimetres, radians, or the
// plain number. A Quantity is an immutable value.
package unit

// Unit is the unit a number was written in.
type Unit uint8

// The units. The three last are the trade's ways of writing a length or an
// angle by its inverse or its tangent.
const (
	One Unit = iota // a plain number
	Millimetre
	Inch
	Degree
	Radian
	InchPerFoot    // a taper, on the diameter, in inches per foot
	TaperRatio     // a taper, on the diameter, as 1/n of the length
	ThreadsPerInch // a pitch
)

// Dimension is what sort of thing a quantity measures.
type Dimension uint8

// The dimensions.
const (
	Number Dimension = iota
	Length
	Angle
)
