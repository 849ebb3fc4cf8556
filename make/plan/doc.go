// Package plan says in which order a part is made on the machines of a shop, from
// what stock, and what each operation needs: how the work is held, where the
// handles stand, which gears and speeds are taken.
//
// It asks hold and lathe about each operation and the sequence of operations about
// itself: which machine must still stand whole when. What lacks for an answer is
// said as a note. Lengths are in mm, angles in radians.
package plan
