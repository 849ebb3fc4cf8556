package jobfile

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// threadRoles are the sizes that may be read of a thread, and the kinds that
// each may have.
var threadRoles = map[string][]trade.SizeKind{
	"major":     {trade.Diameter, trade.Radius},
	"effective": {trade.Diameter, trade.Radius},
	"minor":     {trade.Diameter, trade.Radius},
	"pitch":     {trade.Pitch},
	"angle":     {trade.Angle, trade.HalfAngle},
}

// threadReader reads which sizes are those of a thread.
type threadReader struct{ *values }

// readThreads reads which sizes are those of a thread. Threads have their ids
// among themselves.
func (r threadReader) readThreads(f fields) {
	for _, entry := range f.entries("threads") {
		r.checkID(entry.Key, aThread)
		t := f.item("threads", entry.Value, describe("thread", entry.Key))
		thread := trade.Thread{
			ID:        entry.Key.Text,
			Major:     r.sizeOfThread(t, "major"),
			Pitch:     r.sizeOfThread(t, "pitch"),
			Effective: r.sizeOfThread(t, "effective"),
			Minor:     r.sizeOfThread(t, "minor"),
			Angle:     r.sizeOfThread(t, "angle"),
			Surface:   trade.Surface(t.text("surface")),
			Hand:      trade.Hand(t.text("hand")),
			Starts:    max(1, t.whole("starts")),
			Meant:     t.text("meant"),
			Pos:       entry.Key.Pos,
		}
		r.job.Threads = append(r.job.Threads, thread)
	}
}

// sizeOfThread reads the id of a size that a thread has in a role.
func (r threadReader) sizeOfThread(t fields, role string) string {
	if !t.has(role) {
		return ""
	}
	n := t.at(role)
	if n.Shape != yamltree.Scalar {
		r.fault(n, "%s: found %s where the id of a size should be", t.about(role), n.Found())
		return ""
	}
	o, ok := r.owner(n, t.about(role), aSize)
	if !ok {
		return ""
	}
	kinds := threadRoles[role]
	if kind := r.job.Sizes[o.index].Kind; kind != "" && !slices.Contains(kinds, kind) {
		r.fault(n, "%s: %s is of kind %s where one of kind %s should be", t.about(role), yamltree.Quote(n.Text), kind, strings.Join(words(kinds), " or "))
	}
	return n.Text
}
