package say

import "testing"

// TestStanding: constructed.
func TestStanding(t *testing.T) {
	for want, v := range map[string]Version{
		"": {Number: 2, From: 1}, "beside the main line, made from 1": {Number: 3, From: 1, Branch: 3},
		"takes in 3": {Number: 4, From: 2, Merges: 3}, "brings back 1": {Number: 5, From: 4, Restores: 1},
	} {
		if got := v.standing(); got != want {
			t.Errorf("%+v: %q, want %q", v, got, want)
		}
	}
}
