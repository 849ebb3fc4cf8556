package draw

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// plainWords says what a test prints at a role.
func plainWords(role int) string {
	if role == gauge.ReadingRole {
		return "m = 123.456"
	}
	return fmt.Sprintf("%c = 12.345", 'a'+rune(role))
}

// eachSketch runs a test over the sketches of all methods, from their examples
// and from random valid set-ups near them.
func eachSketch(t *testing.T, test func(t *testing.T, s gauge.Sketch)) {
	for i, m := range gauge.Methods() {
		t.Run(m.ID, func(t *testing.T) {
			random := rand.New(rand.NewPCG(7, uint64(i)))
			for round := range 4 {
				v := slices.Clone(m.Example)
				for i := range v {
					if k := m.Roles[i].Kind; round > 0 && k != gauge.Count && k != gauge.Side {
						v[i] *= 0.8 + 0.4*random.Float64()
					}
				}
				broken := m.Valid != nil && slices.ContainsFunc(m.Valid(v), func(r gauge.Remark) bool { return r.Broken })
				if s, ok := m.Draw(v); ok && !broken {
					test(t, s)
				}
			}
		})
	}
}

func TestSketchesDoNotOverlap(t *testing.T) {
	eachSketch(t, func(t *testing.T, s gauge.Sketch) {
		sheet, err := Sketch(s, "sketch", plainWords)
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range Overlaps(sheet) {
			t.Error(fault)
		}
	})
}

// TestSketchesKeepTheirScale holds what the dimensions measure on the paper
// against what the spans do.
func TestSketchesKeepTheirScale(t *testing.T) {
	eachSketch(t, func(t *testing.T, s gauge.Sketch) {
		sheet, err := Sketch(s, "sketch", plainWords)
		if err != nil {
			t.Fatal(err)
		}
		found := 0
		for _, m := range sheet.Marks {
			d, ok := m.(ink.Dimension)
			if !ok {
				continue
			}
			found++
			onPaper := d.A.Distance(d.B) / sheet.Scale
			if d.Kind == ink.Angular {
				a, b := d.A.Sub(d.Vertex), d.B.Sub(d.Vertex)
				onPaper = math.Atan2(a.Cross(b), a.Dot(b)) * 180 / math.Pi
			}
			if math.Abs(onPaper-d.Measures) > 1e-9*d.Measures {
				t.Errorf("%s measures %v on the paper, should be %v", d.Words, onPaper, d.Measures)
			}
		}
		if found != len(s.Spans) {
			t.Errorf("%d dimensions, want %d", found, len(s.Spans))
		}
	})
}
