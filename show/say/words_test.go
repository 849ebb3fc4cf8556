package say

import "testing"

// TestPlaces: constructed.
func TestPlaces(t *testing.T) {
	for _, test := range []struct {
		text   string
		places int
		want   string
	}{
		{"7.9 mm", 2, "7.90 mm"},
		{"8 mm", 2, "8.00 mm"},
		{"8 mm", 0, "8 mm"},
		{"8.125 mm", 2, "8.125 mm"},
		{"3/4 in", 3, "3/4 in"},
		{"3.5°", 2, "3.5°"},
	} {
		if got := withPlaces(test.text, test.places); got != test.want {
			t.Errorf("%s to %d places is %s, want %s", test.text, test.places, got, test.want)
		}
	}
}
