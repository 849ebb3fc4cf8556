package draw

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// TestFigure checks what is written at a dimension. The limits of 20 g6 are
// -7 and -20 µm, of 20 H7 0 and +21 µm (ISO 286-2:2010, tables 2 and 8, from the
// tables carried in limits); the rest is constructed.
func TestFigure(t *testing.T) {
	metric, inch, dual := lettering{}, lettering{units: unit.Inch}, lettering{dual: true}
	limits := func(value, low, high float64) part.Measure { return part.Measure{Value: value, Low: low, High: high} }
	for _, c := range []struct {
		letters lettering
		d       part.Dimension
		want    string
	}{
		{metric, part.Dimension{Measure: limits(25.4, 25.4, 25.4)}, "25.4"},
		{metric, part.Dimension{Measure: limits(9.525, 9.525, 9.525)}, "9.525"},
		{metric, part.Dimension{Measure: limits(34.99672, 34.99672, 34.99672)}, "35"},
		{metric, part.Dimension{Kind: part.Diameter, Measure: part.Measure{Value: 19.02, Low: 19.0, High: 19.013, Code: "g6"}}, "⌀19.02 g6 (−0.007/−0.020)"},
		{metric, part.Dimension{Kind: part.Diameter, Measure: limits(20, 20, 20.021)}, "⌀20 +0.021/0"},
		{metric, part.Dimension{Measure: limits(30, 29.8, 30.2)}, "30 ±0.2"},
		{metric, part.Dimension{Measure: limits(30.004, 29.994, 30.014)}, "30.004 ±0.01"},
		{metric, part.Dimension{Kind: part.Radius, Measure: limits(6, 6, 6)}, "R6"},
		{metric, part.Dimension{Kind: part.Diameter, Count: 4, After: "deep 12", Measure: limits(8.5, 8.5, 8.5)}, "4 × ⌀8.5 deep 12"},
		{metric, part.Dimension{Kind: part.Diameter, Thread: &part.Thread{Designation: "7/16 BSW", Class: "medium", Left: true}}, "7/16 BSW medium LH"},
		{metric, part.Dimension{Kind: part.Angle, Measure: limits(math.Pi/3, math.Pi/3, math.Pi/3)}, "60°"},
		{metric, part.Dimension{Kind: part.Angle, Measure: limits(math.Pi/3, math.Pi/3-math.Pi/360, math.Pi/3+math.Pi/360)}, "60° ±0.5°"},
		{metric, part.Dimension{Kind: part.Leader, After: "centre hole"}, "centre hole"},
		{inch, part.Dimension{Measure: limits(12.7, 12.7, 12.7)}, "0.5"},
		{inch, part.Dimension{Measure: limits(25.4, 25.4-0.0254, 25.4)}, "1 0/−0.0010"},
		{dual, part.Dimension{Measure: limits(12.7, 12.6, 12.8)}, "12.7 ±0.1 [0.5 ±0.004]"},
	} {
		f := c.letters.figure(&c.d)
		if f.words != c.want {
			t.Errorf("got %q, want %q", f.words, c.want)
		}
	}
}

// TestLimitsAreKept prints random limits and reads them back: what is written
// keeps to them within half a unit of the last decimal.
func TestLimitsAreKept(t *testing.T) {
	for i := range 2000 {
		value := 3 + 0.0137*float64(i)
		below, above := 0.0011*float64(i%37), 0.0007*float64(1+i%91)
		m := part.Measure{Kind: trade.Diameter, Value: value, Low: value - below, High: value + above}
		s := millimetreScale.of(m)
		low, high := s.read(t)
		half := 0.0005
		if m.High-m.Low >= 0.1 {
			half = 0.005
		}
		if math.Abs(low-m.Low) > half+1e-12 || math.Abs(high-m.High) > half+1e-12 {
			t.Fatalf("%v to %v is written %v", m.Low, m.High, s)
		}
	}
}

// read returns the limits that a stated size has.
func (s stated) read(t *testing.T) (low, high float64) {
	t.Helper()
	nominal := number(t, s.nominal)
	if s.equal != "" {
		return nominal - number(t, s.equal), nominal + number(t, s.equal)
	}
	return nominal + number(t, s.lower), nominal + number(t, s.upper)
}
