// Package prove is the wing of what is looked at again.
//
// upkeep says how far slides and screws have worn, how true the machine stands and
// when to look again; inspect how to read the finished part, whether it conforms,
// what is still to come off it and how it will go together. The wing has no code of
// its own.
package prove
