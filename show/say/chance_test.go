package say

import "testing"

// TestOften: constructed.
func TestOften(t *testing.T) {
	for _, c := range []struct {
		p    float64
		want string
	}{
		{0, "as good as none"},
		{0.0005, "under 0.1 % of cases"},
		{0.01, "1.0 % of cases (1 in 100)"},
		{0.34, "34 % of cases (3 in 10)"},
		{0.95, "95.0 % of cases (all but 1 in 20)"},
		{0.9995, "over 99.9 % of cases"},
		{1, "as good as all cases"},
	} {
		if got := often(c.p); got != c.want {
			t.Errorf("%g: %q, want %q", c.p, got, c.want)
		}
	}
}
