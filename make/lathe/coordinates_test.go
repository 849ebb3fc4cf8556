package lathe

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/testdata/certified"
)

func placed(t testing.TB, mill *trade.Machinery, datum Datum, holes []Drilled) *Coordinates {
	t.Helper()
	c, err := PlaceHoles(mill, datum, holes)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// TestHoleCircle: the example of five holes.
func TestHoleCircle(t *testing.T) {
	example := certified.Example(t, "m-hole-circle")
	var in struct {
		PCD float64 `yaml:"pcd"`
		N   int     `yaml:"n"`
	}
	example.Read(t, &in)
	c := placed(t, nil, Datum{}, Numbered(OnCircle(geom.Point{}, in.PCD, 0, in.N), 0))
	second, third := c.Holes[1].Readout, c.Holes[2].Readout
	example.Figures(t, map[string]float64{"x2": second.X, "y2": second.Y, "x3": third.X, "y3": third.Y})
}

// TestFromAnEdge: a plate of 60 by 40 with its lower left corner for the datum, a
// finder of 10 mm and dials of 0.02 mm (constructed). The part stands on its side:
// x of the plan runs up, y to the left.
func TestFromAnEdge(t *testing.T) {
	mill := bench(t)
	mill.Dials = append(mill.Dials, trade.DialScale{Slide: "cross", Division: length(t, "0.05 mm"), Turn: length(t, "5 mm")})
	holes := Numbered([]geom.Point{{X: 10, Y: 8}, {X: 50, Y: 8}, {X: 50, Y: 32}}, 6)
	upright := Datum{Sides: [2]int{-1, -1}, Finder: 10, Shows: geom.Point{X: 100, Y: 50}}
	c := placed(t, mill, upright, holes)
	if len(c.Touches) != 2 || c.Touches[0] != (Touch{"x", 95}) || c.Touches[1] != (Touch{"y", 45}) {
		t.Errorf("touches %+v", c.Touches)
	}
	last := c.Holes[2]
	if last.Readout != (geom.Point{X: 150, Y: 82}) || last.X.Turns != 12 || math.Abs(last.X.Divisions-100) > 1e-9 || last.Y.Turns != 6 || math.Abs(last.Y.Divisions-40) > 1e-9 {
		t.Errorf("%+v", last)
	}
	for i, want := range []Chord{{"1", "2", 40, 46, 34}, {"1", "3", math.Hypot(40, 24), math.Hypot(40, 24) + 6, math.Hypot(40, 24) - 6}, {"2", "3", 24, 30, 18}} {
		got := c.Chords[i]
		if got.From != want.From || got.To != want.To {
			t.Errorf("chord %+v, want %+v", got, want)
		}
		same(t, "centres", got.Centres, want.Centres)
		same(t, "over plugs", got.Over, want.Over)
		same(t, "between plugs", got.Inside, want.Inside)
	}
	upright.Turned, upright.Sides = math.Pi/2, [2]int{1, -1}
	c = placed(t, mill, upright, holes)
	if at := c.Holes[0].Readout; at.Distance(geom.Point{X: 92, Y: 60}) > 1e-12 || c.Touches[0].Set != 105 {
		t.Errorf("turned: %v %+v", at, c.Touches)
	}
	if scene := c.Scene(geom.Rectangle(geom.Point{}, geom.Point{X: 60, Y: 40})); len(scene.Spans) != 2 ||
		scene.Spans[0].Words.Shown(unit.View{}) != "32.000 mm" || scene.Spans[1].Words.Shown(unit.View{}) != "50.000 mm" {
		t.Errorf("%+v", scene.Spans)
	}
}

// TestPatterns: by hand.
func TestPatterns(t *testing.T) {
	grid := OnGrid(geom.Point{X: 1, Y: 2}, 3, 2, 10, 5)
	for i, want := range []geom.Point{{X: 1, Y: 2}, {X: 11, Y: 2}, {X: 21, Y: 2}, {X: 21, Y: 7}, {X: 11, Y: 7}, {X: 1, Y: 7}} {
		if grid[i] != want {
			t.Errorf("%d: %v, want %v", i, grid[i], want)
		}
	}
	arc := OnArc(geom.Point{X: 5}, 10, 0, math.Pi/2, 3)
	for i, want := range []geom.Point{{X: 15}, {X: 5 + 10*math.Sqrt(0.5), Y: 10 * math.Sqrt(0.5)}, {X: 5, Y: 10}} {
		if arc[i].Distance(want) > 1e-14 {
			t.Errorf("%d: %v, want %v", i, arc[i], want)
		}
	}
	if one := OnArc(geom.Point{}, 10, 1, 2, 1); one[0] != geom.Polar(10, 1) {
		t.Errorf("one on an arc: %v", one)
	}
}

// TestHolesRefused: what is wrong with a datum, and what is doubtful.
func TestHolesRefused(t *testing.T) {
	holes := Numbered([]geom.Point{{X: 10}, {X: 14}}, 6)
	for _, c := range []struct {
		datum Datum
		holes []Drilled
		want  string
	}{
		{Datum{}, nil, "no holes"},
		{Datum{Sides: [2]int{-1, 0}}, holes, "its diameter is wanted"},
		{Datum{Sides: [2]int{2, 0}, Finder: 10}, holes, "-1, 0 or 1"},
		{Datum{Sides: [2]int{1, 1}, Finder: 10, Turned: 0.3}, holes, "askew"},
	} {
		if _, err := PlaceHoles(nil, c.datum, c.holes); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
	if c := placed(t, nil, Datum{}, holes); len(c.Warnings) != 1 || !strings.Contains(c.Warnings[0].Shown(unit.View{}), "4.000 mm apart") {
		t.Errorf("%q", c.Warnings)
	}
}

// TestPlansStandAsTheyAre: however a plan stands, its chords are the distances of
// the readouts, and turning it back about the datum gives the plan.
func TestPlansStandAsTheyAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.Float64Range(-200, 200)
		point := func(name string) geom.Point {
			return geom.Point{X: number.Draw(t, name+" x"), Y: number.Draw(t, name+" y")}
		}
		var places []geom.Point
		for range rapid.IntRange(1, 7).Draw(t, "holes") {
			places = append(places, point("hole"))
		}
		datum := Datum{At: point("datum"), Turned: rapid.Float64Range(-4, 4).Draw(t, "turned"), Shows: point("shows")}
		c, err := PlaceHoles(nil, datum, Numbered(places, 0))
		if err != nil {
			t.Fatal(err)
		}
		for i, h := range c.Holes {
			back := h.Readout.Sub(datum.Shows).Turned(-datum.Turned).Add(datum.At)
			if back.Distance(places[i]) > 1e-11 {
				t.Errorf("%v, want %v", back, places[i])
			}
		}
		if want := max(0, 2*len(places)-3); len(c.Chords) != want {
			t.Errorf("%d chords of %d holes, want %d", len(c.Chords), len(places), want)
		}
		at := map[string]geom.Point{}
		for _, h := range c.Holes {
			at[h.Name] = h.Readout
		}
		for _, k := range c.Chords {
			if math.Abs(at[k.From].Distance(at[k.To])-k.Centres) > 1e-11 {
				t.Errorf("%+v", k)
			}
		}
	})
}

// TestDatumSides: the finder touches the edge on the side that is said, along x the
// left or right one, along y the front or back one.
func TestDatumSides(t *testing.T) {
	for _, c := range []struct {
		sides [2]int
		x, y  trade.Side
	}{
		{[2]int{-1, 1}, trade.LeftSide, trade.BackSide},
		{[2]int{1, -1}, trade.RightSide, trade.FrontSide},
		{[2]int{1, 0}, trade.RightSide, ""},
		{[2]int{0, -1}, "", trade.FrontSide},
	} {
		d := Datum{Sides: c.sides}
		if x, y := d.Side("x"), d.Side("y"); x != c.x || y != c.y {
			t.Errorf("sides %v: %q along x and %q along y, want %q and %q", c.sides, x, y, c.x, c.y)
		}
	}
}
