package paper

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// TestCurveFollowsArc measures how far the curves for an arc are from it.
func TestCurveFollowsArc(t *testing.T) {
	for _, radius := range []float64{0.01, 1, 37.5, 400, 5000} {
		whole := geom.Circle(pt(3, -7), radius)[0]
		worst := 0.0
		for _, arc := range parted(whole, curveAngle(radius)) {
			a, b := handles(arc)
			for i := range 21 {
				q := bezier(arc.From, a, b, arc.To, float64(i)/20)
				worst = max(worst, math.Abs(q.Distance(whole.Centre)-radius))
			}
		}
		if worst > 1e-4 || math.IsNaN(worst) { // what the package promises
			t.Errorf("radius %v: the curves leave the arc by %v mm", radius, worst)
		}
	}
}

// bezier is the point of a cubic curve by de Casteljau's construction.
func bezier(p, a, b, q geom.Point, t float64) geom.Point {
	between := func(u, v geom.Point) geom.Point { return u.Add(v.Sub(u).Times(t)) }
	pa, ab, bq := between(p, a), between(a, b), between(b, q)
	return between(between(pa, ab), between(ab, bq))
}

func TestPartedKeepsTheArc(t *testing.T) {
	whole := geom.Arc(pt(1, 2), pt(6, 2), pt(1, -3), geom.Clockwise)
	for most, want := range map[float64]int{4: 1, math.Pi / 2: 1, math.Pi / 4: 2, 0.3: 6} { // a quarter turn, counted by hand
		list := parted(whole, most)
		if len(list) != want {
			t.Errorf("a quarter turn in steps of %v: %d parts, want %d", most, len(list), want)
		}
		if list[0].From != whole.From || list[len(list)-1].To != whole.To {
			t.Errorf("parts of %v do not begin and end where the arc does", most)
		}
	}
}

func TestRuns(t *testing.T) {
	square := geom.Rectangle(pt(0, 0), pt(1, 1))
	both := append(square.Moved(geom.Pose{}), geom.Circle(pt(5, 5), 1)...)
	if n := len(runs(both)); n != 2 {
		t.Errorf("a square and a circle are %d runs, want 2", n)
	}
	if !closes(square) || closes(square[:3]) || closes(nil) {
		t.Error("what is closed is not seen, or the reverse")
	}
}

func TestLegible(t *testing.T) {
	for words, want := range map[string]string{ // constructed
		"⌀19.02 ±0.01": "⌀19.02 ±0.01",
		"a\tb\x00c":    "a b c",
		"\u202eabc":    "abc",
		" \xff":        "",
		"a\xffb":       "a b",
		"עברית":        "עברית",
	} {
		if got := legible(words); got != want {
			t.Errorf("legible(%q) = %q, want %q", words, got, want)
		}
	}
}
