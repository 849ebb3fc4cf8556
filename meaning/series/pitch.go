package series

import "math"

// How well pitches are found: a leaf that fits is right within so much of the
// pitch, over the ten to twenty threads that it spans (common practice, no
// source).
const leafFits = 0.006

// ByLeaf returns the pitch of the gauge leaf that fits, in mm.
func ByLeaf(pitch float64) Measured { return Measured{Value: pitch, U: leafFits * pitch} }

// Over returns the pitch from a length measured over n whole pitches.
func Over(n int, length Measured) Measured {
	return Measured{Value: length.Value / float64(n), U: length.U / float64(n)}
}

// Counted returns the pitch from n whole pitches counted within a length in mm,
// with the uncertainty of a rectangle one pitch wide.
func Counted(n int, length float64) Measured {
	pitch := length / float64(n)
	return Measured{Value: pitch, U: pitch / float64(n) / math.Sqrt(12)}
}
