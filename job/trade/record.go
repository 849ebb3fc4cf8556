package trade

import "codeberg.org/oddleg/oddleg/num/unit"

// Check is a reading of the finished part, in the words of readings, taken or
// planned. The sizes of the part stand in it as part.ID. One of the old part,
// taken once it was apart, names sizes of the job as readings do.
type Check struct {
	Reading
	Piece     int           // which of several parts was read, from 1
	AtTemp    unit.Quantity // of the piece in °C, a plain number; not given: at rest at 20 °C
	WithTemp  unit.Quantity // of the instrument and the gauge pieces; not given: not known, where AtTemp is
	InMachine bool          // still held in the machine: what is left can be taken off
	Old       bool          // made on the bare old part
}
