package facts

import (
	"math"
	"testing"
)

// TestCuttingSpeeds: both units of every row agree, a foot being 0.3048 m; the
// table rounds to 0.1 m and to 1 ft.
func TestCuttingSpeeds(t *testing.T) {
	list := CuttingSpeeds()
	if len(list) != 45 {
		t.Fatalf("%d rows, want 45", len(list))
	}
	for i, r := range rows(cuttingSpeeds) {
		s := list[i]
		if s.Material == "" || s.Operation == "" || s.Tool == "" || s.Source == "" || !(0 < s.Low && s.Low <= s.High) {
			t.Errorf("row %d is not whole: %+v", i, s)
		}
		for column, metres := range map[string]float64{"v_min_ft_per_min": s.Low, "v_max_ft_per_min": s.High} {
			if feet := r.number(column); math.Abs(feet*0.3048-metres) > 0.05+0.5*0.3048 {
				t.Errorf("%s of %s: %g ft/min and %g m/min", s.Operation, s.Material, feet, metres)
			}
		}
	}
}
