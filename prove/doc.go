// Package prove is the wing of what is looked at again.
//
// upkeep says what the surveys of a machine tell together and when to look again; inspect
// how to read the finished part, whether it conforms, what is still to come off it and how
// it will go together. The wing has no code of its own.
package prove
