// Package face is the wing that people meet.
//
// web is the page, for a telephone in a greasy hand and the screen on the office
// table. The command line is not in this wing but where Go looks for it, in
// cmd/oddleg; both stand on reckon, which takes a job through all stages, and on
// the documents of show, so that both say the same. The wing has no code of its
// own.
package face
