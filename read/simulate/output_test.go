package simulate

import (
	"math"
	"testing"
)

// TestIntervals has the values 1, 4, 9 ... 10000, so that q = 95 and the ends
// follow from JCGM 101:2008, 7.7.2 and 7.7.4 by hand.
func TestIntervals(t *testing.T) {
	values := make([]float64, 100)
	for i := range values {
		values[99-i] = float64((i + 1) * (i + 1))
	}
	o := newOutput(values)
	if low, high := o.Symmetric(0.95); low != 9 || high != 98*98 { // r = (100-95+1)/2 = 3
		t.Errorf("symmetric %g to %g, want 9 to 9604", low, high)
	}
	if low, high := o.Shortest(0.95); low != 1 || high != 96*96 {
		t.Errorf("shortest %g to %g, want 1 to 9216", low, high)
	}
	if low, high := o.Symmetric(0.5); low != 25*25 || high != 75*75 { // r = (100-50)/2 = 25
		t.Errorf("half of all %g to %g, want 625 to 5625", low, high)
	}
	if low, _ := o.Symmetric(0.9999); !math.IsNaN(low) {
		t.Errorf("100 trials are enough for 99.99 %%: %g", low)
	}
	if want := 3383.5; o.Mean != want { // n(n+1)(2n+1)/6 over n
		t.Errorf("mean %g, want %g", o.Mean, want)
	}
}

// TestMissingTrials leaves every third trial out and keeps the order.
func TestMissingTrials(t *testing.T) {
	missing := []bool{false, false, true, false, false, true, false}
	columns, failed := compact([][]float64{{0, 1, 2, 3, 4, 5, 6}, {10, 11, 12, 13, 14, 15, 16}}, missing)
	if failed != 2 || len(columns[0]) != 5 || columns[0][2] != 3 || columns[1][4] != 16 {
		t.Errorf("%d failed, %v", failed, columns)
	}
}

// TestTolerance has the examples of JCGM 101:2008, 7.9.2 (from memory).
func TestTolerance(t *testing.T) {
	for _, c := range []struct {
		u      float64
		digits int
		want   float64
	}{
		{0.00035, 2, 0.000005},
		{2, 1, 0.5},
		{0.0996, 2, 0.005}, // constructed: it counts as 0.10
		{0, 2, 0},
	} {
		if got := Tolerance(c.u, c.digits); math.Abs(got-c.want) > 1e-12*c.want {
			t.Errorf("u = %g to %d digits: %g, want %g", c.u, c.digits, got, c.want)
		}
	}
}
