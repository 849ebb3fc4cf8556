// Package num is the wing of numbers, which know nothing of machining.
//
// unit has written lengths, angles and pitches, exact, and how amounts are shown;
// near the word that may have been meant; grad a value with its exact gradient;
// expr formulas with dimensions; lsq weighted least squares; geom points, lines and
// arcs in the plane. Everything else stands on this wing, and it stands on the
// standard library, and on gonum in lsq. The wing has no code of its own.
package num
