package keys_test

import (
	"testing"

	"codeberg.org/oddleg/oddleg/job/keys"
)

// TestIDs: what may name a thing, and what means itself.
func TestIDs(t *testing.T) {
	for word, want := range map[string][2]bool{
		"shank": {true, false}, "p_2": {true, false}, "Z": {true, false},
		"": {}, "2p": {}, "_p": {}, "a b": {}, "a.b": {}, "é": {}, "a-b": {}, "a\n": {},
		"mm": {true, true}, "in": {true, true}, "ft": {true, true}, "pi": {true, true}, "sqrt": {true, true},
	} {
		if got := [2]bool{keys.IsID(word), keys.IsReserved(word)}; got != want {
			t.Errorf("%q: id %v, reserved %v; want %v", word, got[0], got[1], want)
		}
	}
}
