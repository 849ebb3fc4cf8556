package mating

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

const degree = math.Pi / 180

func made(t *testing.T, s shapes, wrong string) shapes {
	t.Helper()
	if wrong != "" {
		t.Fatal(wrong)
	}
	return s
}

func sector(t *testing.T, v ...float64) shapes {
	t.Helper()
	s, wrong := newSector(v)
	return made(t, s, wrong)
}

func block(t *testing.T, v ...float64) shapes {
	t.Helper()
	s, wrong := newStraight(v)
	return made(t, s, wrong)
}

func closeTo(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

// TestShoeAboutOneCentre: with the same clearance on either wall the shoe lies
// about the groove's centre and both gaps are the difference of radii all along.
func TestShoeAboutOneCentre(t *testing.T) {
	s := sector(t, 50, 40, 60*degree, 50.1, 39.9)
	closeTo(t, "gap", s.gap(), 0.1, 1e-12)
	for _, face := range s.faces() {
		closeTo(t, face.Name+" least", face.Least, 0.1, 1e-12)
		closeTo(t, face.Name+" most", face.Most, 0.1, 1e-12)
	}
	slides := s.slides()
	closeTo(t, "outwards", slides[0].Far, 0.1, 1e-12) // on its middle
	closeTo(t, "inwards", slides[1].Far, 0.1, 1e-12)
}

// TestConvexityTrap: a convex face of larger radius than its wall bears on its
// corners, the middle standing off by the difference of the sagittae over its
// chord, R - √(R² - c²) less r - √(r² - c²); one of smaller radius bears on its
// middle. A hollow face is the other way round.
func TestConvexityTrap(t *testing.T) {
	sagitta := func(radius, half float64) float64 { return radius - math.Sqrt(radius*radius-half*half) }
	const half = 30 * degree
	for _, c := range []struct {
		name      string
		shape     shapes
		pressed   int
		on        Place
		standsOff float64
	}{
		{"outer face too round", sector(t, 51, 40, 2*half, 50, 39), 0, OnCorners, sagitta(50, 51*math.Sin(half)) - sagitta(51, 51*math.Sin(half))},
		{"outer face too pointed", sector(t, 49, 40, 2*half, 50, 39), 0, OnMiddle, 50 - math.Hypot(1+49*math.Cos(half), 49*math.Sin(half))},
		{"outer face that fits", sector(t, 50, 40, 2*half, 50, 39), 0, OnFace, 0},
		{"inner face too hollow", sector(t, 50, 40, 2*half, 52, 39), 1, OnMiddle, math.Hypot(40*math.Cos(half)-1, 40*math.Sin(half)) - 39},
		{"inner face too flat", sector(t, 50, 40, 2*half, 52, 41), 1, OnCorners, sagitta(40, 40*math.Sin(half)) - sagitta(41, 40*math.Sin(half))},
		{"straight, outwards", block(t, 10, 30, 50, 38), 0, OnCorners, sagitta(50, 15)},
		{"straight, inwards", block(t, 10, 30, 50, 38), 1, OnMiddle, math.Hypot(38, 15) - 38},
	} {
		b := c.shape.bears()[c.pressed]
		if b.On != c.on {
			t.Errorf("%s: bears %s, want %s", c.name, b.On, c.on)
		}
		closeTo(t, c.name+": stands off", b.StandsOff, c.standsOff, 1e-12)
	}
}

// TestStraightShoeThatJustGoesIn: seated on the inner wall a block of width w and
// length l has its corners at √((r + w)² + l²/4) from the centre.
func TestStraightShoeThatJustGoesIn(t *testing.T) {
	corners := math.Hypot(38+10, 15)
	closeTo(t, "no gap", block(t, 10, 30, corners, 38).gap(), 0, 1e-12)
	s := block(t, 10, 30, corners+0.2, 38)
	if gap := s.gap(); !(gap > 0.09 && gap < 0.11) {
		t.Errorf("gap %g of 0.2 shared by two walls", gap)
	}
	closeTo(t, "twist of none", block(t, 10, 30, corners, 38).twist(), 0, 1e-6)
	if gap := block(t, 10, 30, corners-0.1, 38).gap(); !(gap < -0.04) {
		t.Errorf("gap %g where there is no room", gap)
	}
}

func TestKeyByHand(t *testing.T) {
	k := &keyway{width: 8, height: 7, shaftWidth: 8.02, shaftDeep: 4, hubWidth: 8.1, hubDeep: 3.3}
	closeTo(t, "gap", k.gap(), 0.01, 1e-12)
	closeTo(t, "top", k.slides()[1].Far, 0.3, 1e-12)
	if b := k.bears()[0]; b.On != OnShaft || math.Abs(b.StandsOff-0.04) > 1e-12 {
		t.Errorf("bears %v", b)
	}
	// Turned, a key bears in its slot on corners across: over a height h in a slot
	// of width W it needs w·cos φ + h·sin φ = W. Here the top is out of the shaft.
	rectangular := &keyway{width: 8, height: 7, shaftWidth: 8.1, shaftDeep: 20, hubWidth: 8.1, hubDeep: 20}
	phi := rectangular.twist()
	closeTo(t, "width of the turned key", 8*math.Cos(phi)+7*math.Sin(phi), 8.1, 1e-7)
	deep := &keyway{width: 8, height: 3, shaftWidth: 8.02, shaftDeep: 4, hubWidth: 7, hubDeep: 1}
	closeTo(t, "sunk below the hub", deep.gap(), 0.01, 1e-12)
	if b := deep.bears()[0]; b.On != OnShaft || len(deep.faces()) != 2 {
		t.Errorf("a sunk key bears %v", b)
	}
}

// TestDovetailByHand: play F - (M + 2h·cot α) - t/sin α, half of it square to the
// flank.
func TestDovetailByHand(t *testing.T) {
	s, wrong := newDovetail([]float64{50, 50 + 24/math.Sqrt(3) + 5/math.Sin(60*degree) + 0.1, 60 * degree, 5, 12})
	made(t, s, wrong)
	closeTo(t, "gap", s.gap(), 0.05*math.Sin(60*degree), 1e-12)
	closeTo(t, "lift", s.slides()[1].Far, 0.05*math.Sqrt(3), 1e-12)
	d := s.(*dovetail)
	part, mate := d.outlines()
	a, b := part[0].Closest(mate[0])
	closeTo(t, "drawn on the floor", a.Distance(b), 0, 1e-12)
	a, b = geom.Path{part[0][1]}.Closest(mate[1])
	closeTo(t, "drawn beside the gib", a.Distance(b), d.gap(), 1e-12)
	a, b = geom.Path{part[0][3]}.Closest(mate[0][:1])
	closeTo(t, "drawn beside the flank", a.Distance(b), d.gap(), 1e-12)
}

// TestBoltsByHand: two holes a apart turn by 2·asin(c/a); bolts spread by e each
// way take e of the clearance, and those that are only turned take none.
func TestBoltsByHand(t *testing.T) {
	at := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	holes := []geom.Point{at(0, 0), at(60, 0)}
	pattern := func(stand []geom.Point) shapes {
		s, wrong := newBolts(stand, holes, 10.5, 10, []string{"h1", "h2"})
		return made(t, s, wrong)
	}
	apart := pattern(holes)
	closeTo(t, "gap", apart.gap(), 0.25, 1e-12)
	closeTo(t, "twist", apart.twist(), 2*math.Asin(0.25/60), 1e-9)
	closeTo(t, "spread", pattern([]geom.Point{at(-0.1, 0), at(60.1, 0)}).gap(), 0.15, 1e-9)
	turned := []geom.Point{at(0, 0), at(60*math.Cos(0.003), 60*math.Sin(0.003))}
	closeTo(t, "turned", pattern(turned).gap(), 0.25, 1e-7)
	closeTo(t, "shifted", pattern([]geom.Point{at(0.3, 0.2), at(60.3, 0.2)}).gap(), 0.25, 1e-7)
}

// TestTurnsFreely: a short shoe in a wide groove.
func TestTurnsFreely(t *testing.T) {
	closeTo(t, "twist", block(t, 4, 5, 60, 40).twist(), math.Pi, 1e-12)
}

func TestImpossible(t *testing.T) {
	for name, wrong := range map[string]string{
		"shoe inside out":   second(newSector([]float64{40, 50, 1, 60, 30})),
		"more than half":    second(newSector([]float64{50, 40, 3.2, 60, 30})),
		"no angle":          second(newSector([]float64{50, 40, 0, 60, 30})),
		"groove inside out": second(newSector([]float64{50, 40, 1, 30, 60})),
		"no block":          second(newStraight([]float64{0, 5, 60, 40})),
		"no key":            second(newKeyway([]float64{8, 7, 8, 0, 8, 3})),
		"steep dovetail":    second(newDovetail([]float64{50, 60, 100 * degree, 5, 10})),
		"no gib":            second(newDovetail([]float64{50, 60, 1, 0, 10})),
		"no bolt":           second(newBolts(nil, nil, 10, 0, nil)),
	} {
		if wrong == "" {
			t.Errorf("%s: nothing is wrong", name)
		}
	}
}

func second(_ shapes, wrong string) string { return wrong }

// TestWidened: shapes drawn with their clearances so many times as large have them so
// many times as large: by hand, from the sizes alone.
func TestWidened(t *testing.T) {
	k := &keyway{width: 8, height: 7, shaftWidth: 8.04, shaftDeep: 4, hubWidth: 8.10, hubDeep: 3.2}
	drawn := k.widened(5).(*keyway)
	closeTo(t, "the shaft's keyway", drawn.shaftWidth, 8.20, 1e-12)
	closeTo(t, "the hub's keyway", drawn.hubWidth, 8.50, 1e-12)
	closeTo(t, "above the key", drawn.shaftDeep+drawn.hubDeep-drawn.height, 1, 1e-12)
	closeTo(t, "the key", drawn.width*drawn.height, 56, 1e-12)
	closeTo(t, "the shaft's depth", drawn.shaftDeep, 4, 0)
}

// TestTouches: a gap that is nothing but rounding counts as touching, one of four
// millionths of a micron does not.
func TestTouches(t *testing.T) {
	for gap, goes := range map[float64]bool{0.01: true, 0: true, -1e-12: true, -4e-9: false, -0.001: false} {
		if got := (&Answer{Gap: gap}).GoesIn(); got != goes {
			t.Errorf("a gap of %g goes in: %v", gap, got)
		}
		if got := (&Passage{Attitudes: []Attitude{{Spare: gap}, {Spare: -1}}}).Passes(); got != goes {
			t.Errorf("to spare %g it passes: %v", gap, got)
		}
	}
}

// TestMarks: a gap that is the same all along is marked once, another at both ends.
func TestMarks(t *testing.T) {
	key := &keyway{width: 8, height: 7, shaftWidth: 8.02, shaftDeep: 4, hubWidth: 8.1, hubDeep: 3.3}
	for name, c := range map[string]struct {
		shapes shapes
		marks  int
	}{"key": {key, 3}, "block": {block(t, 10, 30, 51, 38), 4}} {
		a := Answer{shapes: c.shapes, Faces: c.shapes.faces()}
		marks := a.Scene().Marks
		if len(marks) != c.marks {
			t.Errorf("%s: %d marks", name, len(marks))
		}
	}
}

// TestFacesOfAKey: the sides are 4 mm from the middle, half way up what is in the
// shaft, 4 mm, and in the hub, 3 mm.
func TestFacesOfAKey(t *testing.T) {
	key := &keyway{width: 8, height: 7, shaftWidth: 8.02, shaftDeep: 4, hubWidth: 8.1, hubDeep: 3.3}
	for i, want := range []geom.Point{{X: 4, Y: -2}, {X: 4, Y: 1.5}, {Y: 3}} {
		if at := key.faces()[i].LeastAt; at.Distance(want) > 1e-12 {
			t.Errorf("%s at %v, want %v", key.faces()[i].Name, at, want)
		}
	}
	sunk := &keyway{width: 8, height: 3, shaftWidth: 8.02, shaftDeep: 4, hubWidth: 7, hubDeep: 1}
	if at := sunk.faces()[0].LeastAt; at.Distance(geom.Point{X: 4, Y: -2.5}) > 1e-12 {
		t.Errorf("a sunk key has its side at %v", at)
	}
}

// TestKeyBears where the gap is smaller, and in both where nobody can tell.
func TestKeyBears(t *testing.T) {
	for _, c := range []struct {
		shaft, hub float64
		on         Place
		standsOff  float64
	}{
		{8.02, 8.1, OnShaft, 0.04},
		{8.1, 8.04, OnHub, 0.03},
		{8.04, 8.0401, OnBoth, 0.00005},
		{8.04, 8.0404, OnShaft, 0.0002},
		{8.0404, 8.04, OnHub, 0.0002},
	} {
		k := &keyway{width: 8, height: 7, shaftWidth: c.shaft, shaftDeep: 4, hubWidth: c.hub, hubDeep: 3.3}
		b := k.bears()[0]
		if b.On != c.on {
			t.Errorf("%g and %g: bears %s", c.shaft, c.hub, b.On)
		}
		closeTo(t, "stands off", b.StandsOff, c.standsOff, 1e-12)
	}
}

// TestKeyTooHigh: 0.3 mm too high for its keyways, however it is turned by a little:
// shared by floor and roof that is 0.15 mm.
func TestKeyTooHigh(t *testing.T) {
	k := &keyway{width: 8, height: 7.6, shaftWidth: 8.02, shaftDeep: 4, hubWidth: 8.1, hubDeep: 3.3}
	closeTo(t, "gap", k.gap(), -0.3, 1e-12)
	closeTo(t, "straight", k.gapAt(0), -0.15, 1e-12)
}

// TestAttitudesByHand: a plate of 30 × 10, 4 high. Round it is a circle of
// √(30² + 10²) flat, √(10² + 4²) on end and √(30² + 4²) on its side.
func TestAttitudesByHand(t *testing.T) {
	plate := geom.Rectangle(geom.Point{X: -2, Y: 1}, geom.Point{X: 28, Y: 11})
	flat, end, side := math.Hypot(30, 10), math.Hypot(10, 4), math.Hypot(30, 4)
	type offered struct {
		name   string
		needs  []float64
		spares float64
	}
	for _, c := range []struct {
		kind    trade.PairKind
		opening []float64
		want    []offered
	}{
		{roundHole, []float64{31}, []offered{{"on end", []float64{end}, 31 - end}, {"on its side", []float64{side}, 31 - side}, {"flat", []float64{flat}, 31 - flat}}},
		{openEnd, []float64{9}, []offered{{"on end", []float64{4}, 5}, {"on its side", []float64{4}, 5}, {"flat", []float64{10}, -1}}},
		{slot, []float64{31, 10.5}, []offered{{"on end", []float64{10, 4}, 6.5}, {"on its side", []float64{30, 4}, 1}, {"flat", []float64{30, 10}, 0.5}}},
	} {
		got := attitudes(c.kind, c.opening, plate, 4)
		if len(got) != 3 {
			t.Fatalf("%s: %d attitudes", c.kind, len(got))
		}
		for i, want := range c.want {
			if got[i].Name != want.name {
				t.Errorf("%s: %s comes at %d", c.kind, got[i].Name, i)
			}
			closeTo(t, string(c.kind)+" "+want.name+" spares", got[i].Spare, want.spares, 1e-9)
			for j, need := range want.needs {
				closeTo(t, string(c.kind)+" "+want.name+" needs", got[i].Needs[j], need, 1e-9)
			}
		}
	}
	if low := attitudes(roundHole, []float64{31}, plate, 0); len(low) != 1 || low[0].Name != "flat" {
		t.Errorf("without a height: %+v", low)
	}
}

// TestBoltsTurnedAndShifted: four bolts that stand as they were drilled, but turned
// by 0.003 rad about a far corner and shifted, have all of the clearance, which a
// search finds as closely as it should.
func TestBoltsTurnedAndShifted(t *testing.T) {
	drilled := []geom.Point{{}, {X: 80}, {X: 80, Y: 30}, {Y: 30}}
	stand := make([]geom.Point, len(drilled))
	for i, p := range drilled {
		stand[i] = p.Turned(0.003).Add(geom.Point{X: 0.11, Y: -0.07})
	}
	s, wrong := newBolts(stand, drilled, 10.5, 10, []string{"a", "b", "c", "d"})
	closeTo(t, "gap", made(t, s, wrong).gap(), 0.25, 2e-9)
	face := s.faces()[2]
	at := stand[2].Add(geom.Point{X: 5})
	if face.LeastAt.Distance(at) > 1e-12 {
		t.Errorf("the gap of c is shown at %v, its bolt's side is at %v", face.LeastAt, at)
	}
	closeTo(t, "gap of c, as drilled", face.Least, 0.25-stand[2].Distance(drilled[2]), 1e-12)
}

// TestWidenedGroove: the walls move by the clearances of 0.1 and 0.2 mm so many
// times, until they meet in the middle or the inner one has half its radius left.
func TestWidenedGroove(t *testing.T) {
	for _, c := range []struct {
		name                string
		shoe                shapes
		times, outer, inner float64
	}{
		{"three times", sector(t, 50, 40, 1, 50.1, 39.8), 3, 50.3, 39.4},
		{"no further than the groove is wide", sector(t, 50, 40, 1, 50.1, 39.8), 100, 50.1 + 5.15/2, 39.8 - 5.15},
		{"half its radius left", sector(t, 50, 3, 1, 50.1, 1), 9, 50.125, 0.5},
	} {
		drawn := c.shoe.widened(c.times).(*groove)
		closeTo(t, c.name+": outer", drawn.outer, c.outer, 1e-12)
		closeTo(t, c.name+": inner", drawn.inner, c.inner, 1e-12)
	}
}
