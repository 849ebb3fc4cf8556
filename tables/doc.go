// Package tables is the wing of what standards and handbooks say.
//
// facts has their tables, embedded, with a source in every row: threads, drills,
// materials, keys, speeds; a row from memory says so. limits has the limits and
// fits of ISO 286 and ANSI B4.1. A figure that somebody could look up stands here
// and nowhere else. The wing has no code of its own.
package tables
