package draw

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(strings.Replace(text, "−", "-", 1), 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestOverlapsSees plants one thing over another; each is seen, and what may
// touch is not.
func TestOverlapsSees(t *testing.T) {
	at := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	edge := ink.Stroke{Path: geom.Polyline(at(10, 50), at(90, 50)), Kind: ink.Visible, Layer: ink.Outlines}
	words := ink.Text{At: at(30, 30), Words: "words", Height: 3}
	row := func(from, to, y float64) ink.Mark {
		f := &figure{}
		f.add("10")
		l := linear{a: at(from, 20), b: at(to, 20), v: y, textFrom: (from + to - f.width) / 2, figure: f}
		return l.dimension()
	}
	for _, c := range []struct {
		name  string
		marks []ink.Mark
		want  string // empty: nothing
	}{
		{"apart", []ink.Mark{edge, words, row(30, 60, 10)}, ""},
		{"text over text", []ink.Mark{words, ink.Text{At: at(32, 31), Words: "more", Height: 3}}, "lies over \"more\""},
		{"text over an edge", []ink.Mark{edge, ink.Text{At: at(30, 49), Words: "words", Height: 3}}, "line of the part"},
		{"upright text over an edge", []ink.Mark{edge, ink.Text{At: at(30, 45), Words: "words", Height: 3, Angle: math.Pi / 2}}, "line of the part"},
		{"text between hatching lines", []ink.Mark{ink.Stroke{Path: geom.Polyline(at(28, 28), at(40, 40)), Kind: ink.Hatching}, words}, "hatching"},
		{"text off the paper", []ink.Mark{ink.Text{At: at(95, 50), Words: "words", Height: 3}}, "beyond the paper"},
		{"chain in one row", []ink.Mark{row(20, 50, 10), row(50, 80, 10)}, ""},
		{"two in one row", []ink.Mark{row(20, 50, 10), row(40, 80, 10)}, "dimension line"},
		{"dimension line over an edge", []ink.Mark{ink.Stroke{Path: geom.Polyline(at(40, 5), at(40, 15)), Kind: ink.Visible}, row(20, 80, 10)}, "line of the part"},
		{"projection line over an edge", []ink.Mark{ink.Stroke{Path: geom.Polyline(at(10, 15), at(90, 15)), Kind: ink.Visible}, row(20, 80, 10)}, ""},
		{"over the frame", []ink.Mark{ink.Stroke{Path: geom.Polyline(at(10, 15), at(90, 15)), Kind: ink.Frame}, row(20, 80, 10)}, "line of a table"},
	} {
		s := &ink.Sheet{Width: 100, Height: 100, Marks: c.marks}
		got := strings.Join(Overlaps(s), "\n")
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: got %q, want %q in it", c.name, got, c.want)
		}
	}
}

// TestHatching hatches a square with a round hole: every line ends on the
// boundary and runs in the metal, and together they cover its area, 400 - 25π
// (constructed), as well as lines at a pitch can.
func TestHatching(t *testing.T) {
	outer := geom.Rectangle(geom.Point{X: -10, Y: -10}, geom.Point{X: 10, Y: 10})
	inner := geom.Circle(geom.Point{}, 5).Reversed()
	c := &canvas{scale: 2}
	c.hatch(outer, inner)
	outer, inner = outer.Scaled(2), inner.Scaled(2)
	length := 0.0
	for _, m := range c.marks {
		e := m.(ink.Stroke).Path[0]
		length += e.Length()
		for _, end := range []geom.Point{e.From, e.To} {
			if min(outer.DistanceTo(end), inner.DistanceTo(end)) > 1e-9 {
				t.Errorf("a line ends at %v, off the boundary", end)
			}
		}
		if middle := e.At(0.5); !outer.Contains(middle) || inner.Contains(middle) {
			t.Errorf("a line runs through %v, outside the metal", middle)
		}
	}
	const pitch = 3.0 // the most, of a region this large
	area := 4 * (400 - 25*math.Pi)
	if got := length * pitch; math.Abs(got-area) > 0.03*area {
		t.Errorf("the lines cover %.0f mm², the metal is %.0f", got, area)
	}
}

// TestRegions cuts plates; the areas of what is cut are constructed by hand.
func TestRegions(t *testing.T) {
	plate := func(p part.Prism) *part.Prism {
		p.Outline, p.Height = geom.Rectangle(geom.Point{}, geom.Point{X: 60, Y: 30}), 10
		return &p
	}
	middle := geom.Point{X: 30, Y: 15}
	point := 4 * part.PointLength(8) // of two triangles, together half of 8 wide
	for _, c := range []struct {
		name  string
		p     *part.Prism
		parts int
		area  float64
	}{
		{"whole", plate(part.Prism{}), 1, 600},
		{"through", plate(part.Prism{Holes: []part.Hole{{At: middle, Diameter: 8, Through: true}}}), 2, 600 - 80},
		{"counterbore", plate(part.Prism{Holes: []part.Hole{{At: middle, Diameter: 8, Through: true, CounterboreD: 14, CounterboreH: 5}}}), 2, 600 - 80 - 30},
		{"countersink", plate(part.Prism{Holes: []part.Hole{{At: middle, Diameter: 8, Through: true, CountersinkD: 14}}}), 2, 600 - 80 - 9},
		{"blind", plate(part.Prism{Holes: []part.Hole{{At: middle, Diameter: 8, Depth: 6}}}), 1, 600 - 48 - point},
		{"ledge", plate(part.Prism{Ledges: []part.Ledge{{Outline: geom.Rectangle(geom.Point{}, geom.Point{X: 20, Y: 30}), Depth: 4}}}), 1, 600 - 80},
		{"slot", plate(part.Prism{Slots: []part.Slot{{From: geom.Point{X: 20, Y: 15}, To: geom.Point{X: 40, Y: 15}, Width: 6, Depth: 3}}}), 1, 600 - 26*3},
		{"chamfer", plate(part.Prism{Chamfer: 1}), 1, 600 - 4*0.5},
	} {
		list := regions(c.p, 15)
		sum := 0.0
		for _, r := range list {
			sum += r.Area()
		}
		if len(list) != c.parts || math.Abs(sum-c.area) > 1e-9*c.area {
			t.Errorf("%s: %d parts of %.6f mm², want %d of %.6f", c.name, len(list), sum, c.parts, c.area)
		}
	}
}

// TestInset moves outlines inwards; the areas are constructed.
func TestInset(t *testing.T) {
	right, left := geom.Polar(1, 1), geom.Polar(1, 2)
	sector := geom.Path{
		geom.Line(right.Times(20), right.Times(40)), geom.Arc(geom.Point{}, right.Times(40), left.Times(40), geom.Anticlockwise),
		geom.Line(left.Times(40), left.Times(20)), geom.Arc(geom.Point{}, left.Times(20), right.Times(20), geom.Clockwise),
	}
	for _, c := range []struct {
		name string
		p    geom.Path
	}{
		{"rectangle", geom.Rectangle(geom.Point{}, geom.Point{X: 30, Y: 20})},
		{"circle", geom.Circle(geom.Point{X: 5}, 12)},
		{"sector", sector},
	} {
		const by = 1.5
		moved := inset(c.p, by)
		for _, e := range moved {
			for _, along := range []float64{0, 0.3, 0.7} {
				if got := c.p.DistanceTo(e.At(along)); math.Abs(got-by) > 1e-9 || !c.p.Contains(e.At(along)) {
					t.Errorf("%s: a point is %.9f from the outline, want %.1f inside", c.name, got, by)
				}
			}
		}
	}
}

// TestTemplateBars measures the bars that prove the printer: 100 mm and 4 in,
// level, and 100 mm upright; and the outline, which is 1:1.
func TestTemplateBars(t *testing.T) {
	m := &part.Model{Name: "plate", Prism: &part.Prism{Outline: geom.Rectangle(geom.Point{}, geom.Point{X: 120, Y: 70}), Height: 5}}
	s, err := Template(m, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if list := Overlaps(s); len(list) > 0 {
		t.Error(list)
	}
	found := map[geom.Point]bool{}
	var black []geom.Box
	for _, mark := range s.Marks {
		switch mark := mark.(type) {
		case ink.Area:
			black = append(black, mark.Path.Bounds())
		case ink.Stroke:
			size := mark.Path.Bounds().Size()
			found[geom.Point{X: math.Round(size.X), Y: math.Round(size.Y)}] = true
		}
	}
	if !found[geom.Point{X: 120, Y: 70}] {
		t.Error("the outline is not 120 by 70 mm on the paper")
	}
	// The last field of each bar is white: the black ones reach 90 mm and 3 in.
	level, inches, upright := spread(black[:5]), spread(black[5:7]), spread(black[7:])
	for _, c := range []struct{ got, want float64 }{{level.X, 90}, {inches.X, 76.2}, {upright.Y, 90}} {
		if math.Abs(c.got-c.want) > 1e-9 {
			t.Errorf("a bar's black fields reach %.9f mm, want %.1f", c.got, c.want)
		}
	}
	m.Prism.Outline = geom.Rectangle(geom.Point{}, geom.Point{X: 900, Y: 70})
	if _, err := Template(m, Options{}); err == nil || !strings.Contains(err.Error(), "900.000 mm by 70.000 mm") {
		t.Errorf("a template of 900 mm: %v", err)
	}
}

func spread(list []geom.Box) geom.Point {
	whole := list[0]
	for _, b := range list[1:] {
		whole = around(whole, b)
	}
	return whole.Size()
}

// TestScene lays out a picture with words on, beside and pointing at shapes.
func TestScene(t *testing.T) {
	ball := geom.Point{Y: 8 + 8*math.Sqrt2}
	p := Picture{
		Title: "ball in a vee", Width: 90, Height: 60,
		Shapes: []Shape{
			{Path: geom.Polygon(geom.Point{X: -30}, geom.Point{X: 30}, geom.Point{X: 30, Y: 20}, geom.Point{X: 12, Y: 20}, geom.Point{Y: 8}, geom.Point{X: -12, Y: 20}, geom.Point{X: -30, Y: 20}), Fill: 0.1},
			{Path: geom.Circle(ball, 8), Fill: 0.2},
		},
		Labels: []Label{{At: geom.Point{X: -20, Y: 8}, Words: "vee"}, {At: ball, Words: "ball"}, {At: geom.Point{X: 6, Y: 14}, Words: "touches", Points: true}},
		Dims: []PictureDim{
			{Kind: ink.Linear, A: geom.Point{X: 30}, B: geom.Point{X: 30, Y: ball.Y + 8}, Away: geom.Point{X: 1}, Words: "m"},
			{Kind: ink.Angular, Vertex: geom.Point{Y: 8}, A: geom.Point{X: 12, Y: 20}, B: geom.Point{X: -12, Y: 20}, Words: "90°"},
			{Kind: ink.Radial, A: ball, B: ball.Add(geom.Polar(8, 2)), Words: "R8"},
		},
	}
	s, err := Scene(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range Overlaps(s) {
		t.Error(o)
	}
	for _, m := range s.Flat() {
		if text, ok := m.(ink.Text); ok && text.Height < 2 {
			t.Errorf("%q is %.1f mm high", text.Words, text.Height)
		}
	}
	p.Width, p.Height = 20, 10
	if _, err := Scene(p); err == nil {
		t.Error("the picture fits into 20 by 10 mm")
	}
}
