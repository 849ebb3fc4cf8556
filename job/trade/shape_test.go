package trade

import (
	"strings"
	"testing"
)

// TestThreadsOfAShape: a screw where the shape has it outside, a nut where inside.
func TestThreadsOfAShape(t *testing.T) {
	hole := func(thread string) HoleShape { return HoleShape{Thread: thread} }
	for name, c := range map[string]struct {
		shape           Shape
		outside, inside string
	}{
		"shoe with a stem": {Shape{Shoe: &ShoeShape{Stem: &StemShape{Thread: "a"}}}, "a", ""},
		"shoe with a hole": {Shape{Shoe: &ShoeShape{Hole: ptr(hole("b"))}}, "", "b"},
		"bare shoe":        {Shape{Shoe: &ShoeShape{}}, "", ""},
		"plate":            {Shape{Plate: &PlateShape{Holes: []HoleShape{hole("c"), hole("d")}}}, "", "c d"},
		"nut":              {Shape{Nut: &NutShape{Thread: "e"}}, "", "e"},
	} {
		outside, inside := c.shape.Threads()
		if got := strings.Join(outside, " "); got != c.outside {
			t.Errorf("%s: outside %q", name, got)
		}
		if got := strings.Join(inside, " "); got != c.inside {
			t.Errorf("%s: inside %q", name, got)
		}
	}
}

func ptr[T any](x T) *T { return &x }
