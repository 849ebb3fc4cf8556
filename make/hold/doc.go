// Package hold says whether work is held: by stops, jaws and screws, by clamps and
// their friction, against the force of the cut and of tightening.
//
// Held work is judged in one plane. The motions that its contacts leave free are
// found exactly, and the force that friction holds by a linear programme. Lengths
// are in mm, angles in radians, forces in N.
package hold
