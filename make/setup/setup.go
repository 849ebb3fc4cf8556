// Package setup says how a part is made on the machines of a shop: how it is
// held, where the cutter stands, what the handles and dials show, which gears,
// speeds and stock are taken.
//
// Every question is a struct of what is wanted and a function that answers it
// with figures, warnings and advice, or says why it cannot be done. What the trade
// does by custom is marked so where it is a figure here. Angles of a rotary table
// count anticlockwise seen from above, cutters turn clockwise seen from above.
// Lengths are in mm, angles in radians, forces in N, speeds in rev/min.
package setup
