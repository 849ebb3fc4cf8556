// Package lathe is the arithmetic of the lathe, the dividing head and the rotary
// table: change gears, threads, taps, tapers, speeds, dividing, arcs, coordinates.
//
// Every question is a struct of what is wanted and a function that answers it with
// figures, warnings and advice, or says why it cannot be done. What the trade does
// by custom is marked so where it is a figure here. Angles of a rotary table count
// anticlockwise seen from above, cutters turn clockwise seen from above. Lengths are
// in mm, angles in radians, speeds in rev/min.
package lathe
