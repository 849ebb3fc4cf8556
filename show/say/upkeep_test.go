package say

import (
	"strings"
	"testing"
)

// TestBandPicture: counted by hand, 36 cells from -1 to 2 are 12 to a unit.
func TestBandPicture(t *testing.T) {
	if got, want := band(1, 0.25, -1, 2), strings.Repeat("-", 12)+"|"+strings.Repeat("-", 8)+"===o==="+strings.Repeat("-", 8); got != want {
		t.Errorf("\n%s, wanted\n%s", got, want)
	}
}
