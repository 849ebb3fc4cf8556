// Package meaning is the wing from sizes to what the drawing said.
//
// meant asks which round sizes the first maker had in mind, of all sizes of a job
// at once; series which thread, gear or taper of a standard series several readings
// belong to. Both answer with probabilities, and with what would tell where they
// cannot. The wing has no code of its own.
package meaning
