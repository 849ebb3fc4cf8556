package strength

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

func drawnLength(t *rapid.T, name string, low, high int64) unit.Quantity {
	q, err := unit.New(rapid.Int64Range(100*low, 100*high).Draw(t, name), 100, unit.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// drawnJoint is a stud in a hole with metal round it.
func drawnJoint(t *rapid.T) trade.Joint {
	thread := rapid.SampledFrom([]string{"M10", "7/16 BSW", "3/8 BSF", "7/16-14 UNC", "0 BA", "M10x1", "Tr 10x2"}).Draw(t, "thread")
	return trade.Joint{
		ID: "joint 1", Pos: here,
		Stud: trade.Member{Thread: thread, Grade: rapid.SampledFrom([]string{"4.6", "8.8", "12.9"}).Draw(t, "grade"), Pos: here},
		Into: trade.Member{
			Thread: thread, Material: rapid.SampledFrom([]string{"S275JR", "CZ121", "EN-GJL-200", "6082"}).Draw(t, "material"),
			Length: drawnLength(t, "length", 4, 30), Outside: drawnLength(t, "outside", 14, 40), Section: length("30"), Pos: here,
		},
	}
}

func answerOf(t *rapid.T, j trade.Joint) Answer {
	list, err := Check(&trade.Job{Joints: []trade.Joint{j}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return list[0]
}

func weakest(a Answer, piece string) float64 {
	i := slices.IndexFunc(a.Ways, func(w Way) bool { return w.Piece == piece })
	return a.Ways[i].Load
}

// TestMoreMetalHoldsMore: the order is that of the loads, and a longer thread, a
// thicker nut or a fuller circle never holds less.
func TestMoreMetalHoldsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawnJoint(t)
		a := answerOf(t, j)
		if a.Ways[0].Margin != 1 || !slices.IsSortedFunc(a.Ways, func(a, b Way) int { return int(a.Load - b.Load) }) {
			t.Fatalf("out of order: %+v", a.Ways)
		}
		more := j
		switch rapid.SampledFrom([]string{"longer", "thicker", "fuller"}).Draw(t, "more") {
		case "longer":
			more.Into.Length = drawnLength(t, "longer", 30, 60)
		case "thicker":
			more.Into.Outside = drawnLength(t, "thicker", 40, 80)
		case "fuller":
			j.Into.Around = angle("120 deg")
			a = answerOf(t, j)
		}
		b := answerOf(t, more)
		for _, piece := range []string{"nut thread", "stud thread", "stud"} {
			if weakest(b, piece) < weakest(a, piece)*(1-1e-12) {
				t.Fatalf("%s: more metal holds %.1f N, less %.1f N", piece, weakest(b, piece), weakest(a, piece))
			}
		}
	})
}

// TestNothingGivesWayAboveItsMost: what a piece may hold is not below what it holds
// for sure.
func TestNothingGivesWayAboveItsMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, w := range answerOf(t, drawnJoint(t)).Ways {
			if w.Most < w.Load || w.Yield > w.Load || w.tight > w.Load {
				t.Fatalf("%s: yields at %.0f, holds %.0f and at most %.0f N, tightened %.0f N", w.Name(), w.Yield, w.Load, w.Most, w.tight)
			}
		}
	})
}
