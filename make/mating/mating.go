// Package mating says whether shapes that mate in the plane go together: a shoe
// in a round groove, a key in its keyways, bolts in holes, a dovetail with its
// gib.
//
// It says where the part bears, what gap is left all round, how far it can turn
// and slide before it touches, whether it passes the opening to its place, and
// how sure all this is with what is known of every size. Shapes are exact: lines
// and arcs, edge against edge; positions are found by root and not by trying a
// grid. Lengths are in mm, angles in radians.
package mating
