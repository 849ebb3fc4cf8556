package inspect_test

import (
	"os"
	"strings"
	"testing"
)

// TestStopPoints: before what sizes of every kind of part are to be read; common
// practice, no source.
func TestStopPoints(t *testing.T) {
	for _, c := range []struct{ job, size, before string }{
		{"part-spindle", "body", "before the flats are milled"},
		{"part-spindle", "rim", "before it is knurled"},
		{"part-spindle", "socket", "before a hole is drilled across it"},
		{"part-bush", "inner", "turned round in the chuck"},
		{"part-shoe", "outer", "before the ring is cut"},
		{"part-nut", "thread.minor", "before the thread is cut"},
		{"part-stud", "stem", ""},
	} {
		source, err := os.ReadFile("../../testdata/jobs/" + c.job + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		s := stepOf(t, checked(t, string(source)), c.size)
		if said := strings.Join(s.Before, "; "); !strings.Contains(said, c.before) || (said == "") != (c.before == "") {
			t.Errorf("%s of %s is read %q, want %q", c.size, c.job, said, c.before)
		}
	}
}

// TestStopsByTheWork: what fits a mate is read before the next machine, and on the
// last one no longer.
func TestStopsByTheWork(t *testing.T) {
	shop := "shop: {lathe: {kind: lathe}, mill: {kind: mill}}"
	turn, mill := "{do: turn it, on: lathe, makes: part}", "{do: mill a flat, on: mill, makes: part}"
	for _, c := range []struct{ work, before string }{
		{turn + ", " + mill, `"mill a flat"`},
		{mill + ", " + turn, ""},
		{turn + ", " + mill + ", " + turn, ""},
	} {
		r := checked(t, bush, shop, "work: ["+c.work+"]")
		if said := strings.Join(stepOf(t, r, "shank").Before, "; "); !strings.Contains(said, c.before) || (said == "") != (c.before == "") {
			t.Errorf("read %q, want %q", said, c.before)
		}
		if before := stepOf(t, r, "head").Before; len(before) > 0 {
			t.Errorf("the head has no mate, and yet it is read %v", before)
		}
	}
}

// TestPressedIn: a bush that is pressed in is read before, and its bore again.
func TestPressedIn(t *testing.T) {
	source := strings.NewReplacer(
		"kind: turned", "kind: bush",
		"{kind: diameter, goes-in: guide, clearance: 0.01..0.07 mm}", "{kind: diameter, goes-in: guide, interference: 0.01..0.06 mm}",
		"steps: [{diameter: head, length: 10}, {diameter: shank, length: long}]", "{outside: shank, inside: head, length: long}",
		"  shape:\n    {", "  shape: {", "surface: outside, copies: old", "surface: inside, copies: old").Replace(bush)
	r := checked(t, source)
	for id, want := range map[string]string{"shank": "before it is pressed in", "head": "and again after"} {
		if said := strings.Join(stepOf(t, r, id).Before, "; "); !strings.Contains(said, want) {
			t.Errorf("%s is read %q, want %q", id, said, want)
		}
	}
}
