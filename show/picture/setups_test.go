package picture_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/hold"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/picture"
)

// TestSetUpHasEveryKind: a scene with one shape of each kind is drawn with all of
// them, the hole left white in the work (constructed).
func TestSetUpHasEveryKind(t *testing.T) {
	at := func(x float64) geom.Path { return geom.Circle(geom.Point{X: x}, 4) }
	scene := sketch.Scene{Title: "all", Shapes: []sketch.Shape{
		{Path: geom.Circle(geom.Point{}, 4).Reversed(), Kind: sketch.WorkShape},
		{Path: geom.Circle(geom.Point{}, 8), Kind: sketch.WorkShape},
		{Path: at(20), Kind: sketch.StockShape},
		{Path: at(30), Kind: sketch.ToolShape},
		{Path: at(40), Kind: sketch.HoldShape},
		{Path: geom.Polyline(geom.Point{X: 45}, geom.Point{X: 55}), Kind: sketch.AxisShape},
		{Path: geom.Polyline(geom.Point{X: 45, Y: 5}, geom.Point{X: 55, Y: 5}), Kind: sketch.TraceShape},
		{Path: at(60), Kind: sketch.ForceShape},
	}}
	sheet, err := picture.SetUp(scene, unit.Millimetre, 150, 60)
	if err != nil {
		t.Fatal(err)
	}
	strokes, areas := 0, 0
	for _, m := range sheet.Marks {
		switch m := m.(type) {
		case ink.Stroke:
			strokes++
		case ink.Area:
			if areas++; areas == 1 && len(m.Path) != len(scene.Shapes[0].Path)+len(scene.Shapes[1].Path) {
				t.Errorf("the work is filled over %d edges, its hole is not in it", len(m.Path))
			}
		}
	}
	if strokes != 7 || areas != 3 {
		t.Errorf("%d strokes and %d areas, want 7 and 3", strokes, areas)
	}
}

func TestSetUpSaysWhatHasNoRoom(t *testing.T) {
	if _, err := picture.SetUp(sketch.Scene{Title: "bare"}, unit.Millimetre, 100, 100); err == nil || !strings.Contains(err.Error(), "bare: there is nothing to draw") {
		t.Errorf("nothing: %v", err)
	}
	scene := sketch.Scene{Title: "full", Shapes: []sketch.Shape{{Path: geom.Circle(geom.Point{}, 10)}}}
	for i := range 200 {
		scene.Labels = append(scene.Labels, sketch.Label{Words: fmt.Sprint("a label of many words, number ", i)})
	}
	if _, err := picture.SetUp(scene, unit.Millimetre, 60, 40); err == nil || !strings.Contains(err.Error(), "full") {
		t.Errorf("too much: %v", err)
	}
}

// TestPicturesOfRandomSetUps: shoes, holes and clamped plates at random are drawn
// on a page with nothing over anything else (constructed).
func TestPicturesOfRandomSetUps(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 10))
	for i := range 20 {
		for _, scene := range append(anyShoe(t, r), anyHoles(t, r), anyHolding(r)) {
			for _, in := range []float64{100, 190} {
				sheet, err := picture.SetUp(scene, unit.Millimetre, 150, in)
				if err != nil {
					t.Errorf("%d, %s: %v", i, scene.Title, err)
					continue
				}
				for _, fault := range draw.Overlaps(sheet) {
					t.Errorf("%d, %s: %s", i, scene.Title, fault)
				}
			}
		}
	}
}

func anyShoe(t *testing.T, r *rand.Rand) []sketch.Scene {
	inner := 20 + 60*r.Float64()
	wanted := lathe.ArcsWanted{Inner: inner, Outer: inner + 5 + 20*r.Float64(), Angle: 0.3 + r.Float64(), Cutter: 4 + 10*r.Float64()}
	wanted.Stud = (wanted.Inner + wanted.Outer) / 2
	arcs, err := lathe.Arcs(wanted)
	if err != nil {
		t.Fatal(err)
	}
	return arcs.Scenes()
}

func anyHoles(t *testing.T, r *rand.Rand) sketch.Scene {
	long, wide := 30+100*r.Float64(), 30+60*r.Float64()
	var places []geom.Point
	for range 1 + r.IntN(8) {
		places = append(places, geom.Point{X: long * (0.1 + 0.8*r.Float64()), Y: wide * (0.1 + 0.8*r.Float64())})
	}
	datum := lathe.Datum{Finder: 6, Sides: [2]int{-1, r.IntN(2) - 1}, Turned: float64(r.IntN(4)) * math.Pi / 2}
	c, err := lathe.PlaceHoles(nil, datum, lathe.Numbered(places, 5))
	if err != nil {
		t.Fatal(err)
	}
	return c.Scene(geom.Rectangle(geom.Point{}, geom.Point{X: long, Y: wide}))
}

// anyHolding touches a plate on its edges, straight on, and clamps it within.
func anyHolding(r *rand.Rand) sketch.Scene {
	long, wide := 30+100*r.Float64(), 30+60*r.Float64()
	number := func(x float64, u unit.Unit) unit.Quantity {
		q, err := unit.New(int64(math.Round(100*x)), 100, u)
		if err != nil {
			panic(err)
		}
		return q
	}
	at := func(x, y float64) [2]unit.Quantity {
		return [2]unit.Quantity{number(long*x, unit.Millimetre), number(wide*y, unit.Millimetre)}
	}
	sides := []struct{ x, y, towards float64 }{{0, r.Float64(), 0}, {1, r.Float64(), 180}, {r.Float64(), 0, 90}, {r.Float64(), 1, 270}}
	h := &trade.Holding{Force: number(300, unit.Newton), At: at(r.Float64(), r.Float64()), Towards: number(360*r.Float64(), unit.Degree)}
	for i, side := range sides[r.IntN(4):] {
		kind := trade.ContactKinds[r.IntN(len(trade.ContactKinds))]
		c := trade.Contact{ID: fmt.Sprint(kind, i), Kind: kind, At: at(side.x, side.y), Towards: number(side.towards, unit.Degree)}
		switch kind {
		case trade.JawContact:
			c.Width = number(20, unit.Millimetre)
		case trade.ClampContact:
			c.At = at(0.2+0.2*float64(i), 0.5)
			c.Bolt, c.Heel, c.Clamping = number(20, unit.Millimetre), number(60, unit.Millimetre), number(2000, unit.Newton)
		case trade.ScrewContact:
			c.Clamping = number(2000, unit.Newton)
		}
		h.Contacts = append(h.Contacts, c)
	}
	return hold.Judge(h).Scene(geom.Rectangle(geom.Point{}, geom.Point{X: long, Y: wide}))
}
