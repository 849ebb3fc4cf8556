package series

import (
	"math"
	"testing"
)

// sane brings a wild figure into the range that a written length can have.
func sane(x float64) float64 {
	if math.IsNaN(x) {
		return 1
	}
	return min(max(math.Abs(x), 1e-9), 1e18)
}

// FuzzFind asks for threads, gears and tapers of any size: every answer has
// probabilities that are numbers and add up to one at most.
func FuzzFind(f *testing.F) {
	f.Add(10.98, 0.02, 1.8143, 55.0, 40, 5, false)
	f.Add(0.3, 0.0, 0.08, 60.0, 12, 2, true)
	f.Add(1e18, 1e-9, 1e-9, 1e-9, 5, 1, false)
	f.Add(1e-9, 1e18, 1e18, 179.0, 100000, 50000, true)
	f.Fuzz(func(t *testing.T, size, u, pitch, angle float64, teeth, spanned int, inside bool) {
		m := Measured{sane(size), sane(u)}
		check := func(name string, sum, p float64) float64 {
			if !(p >= 0 && p <= 1) || sum+p > 1+1e-9 {
				t.Fatalf("%s: a probability of %g after %g in all", name, p, sum)
			}
			return sum + p
		}
		sum := 0.0
		seen := ThreadSeen{Inside: inside, Major: m, Minor: m, Pitch: Measured{sane(pitch), sane(u)}, Angle: Measured{sane(angle) * degree, degree}}
		for _, c := range FindThread(seen).Candidates {
			sum = check("thread", sum, c.P)
			if !(c.Wear >= 0) {
				t.Fatalf("%s is worn %g mm", c.Designation, c.Wear)
			}
		}
		sum = 0
		if a, err := FindGear(GearSeen{Teeth: teeth, Tip: m, Spans: []SpanSeen{{spanned, m}}, Pins: []PinsSeen{{sane(pitch), m}}}); err == nil {
			for _, c := range a.Candidates {
				sum = check("gear", sum, c.P)
			}
		}
		sum = 0
		for _, c := range FindTaper(TaperSeen{HalfAngle: Measured{min(sane(angle), 89) * degree, sane(u)}, Diameter: m, At: sane(pitch)}).Candidates {
			sum = check("taper", sum, c.P)
		}
	})
}
