// Package make is the wing from what was meant to a part that can be made.
//
// fit says what to make each size to so that it goes together; mating does it for
// shapes in the plane; strength says what gives way first; part makes the part out
// as geometry. hold, lathe and plan say how to hold it, how to set the machine, and
// in which order to work. The wing has no code of its own.
package make
