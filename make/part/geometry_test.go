package part_test

import (
	"math"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// made builds a part that can be made.
func made(t *testing.T, kind trade.PartKind, shape trade.Shape, sizes ...trade.NewSize) *part.Model {
	t.Helper()
	m, err := build(kind, shape, sizes...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// same fails unless two figures agree to twelve digits, or to ones so small
// against one millimetre.
func same(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*max(1, math.Abs(want))) {
		t.Errorf("%s = %.15g, wanted %.15g", what, got, want)
	}
}

// segment is what a test expects of one: its role, ends and diameters.
type segment struct {
	role           part.Role
	x0, x1, d0, d1 float64
}

func segments(t *testing.T, got []part.Segment, want []segment) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d segments, wanted %d: %+v", len(got), len(want), got)
	}
	for i, s := range got {
		w := want[i]
		if s.Role != w.role {
			t.Errorf("segment %d has the role %d, wanted %d", i, s.Role, w.role)
		}
		same(t, "x0", s.X0, w.x0)
		same(t, "x1", s.X1, w.x1)
		same(t, "d0", s.D0, w.d0)
		same(t, "d1", s.D1, w.d1)
	}
}

// TestShaft has a shaft whose segments were worked out by hand.
func TestShaft(t *testing.T) {
	first := with(step("10", "30"), func(s *trade.Step) {
		s.Chamfer, s.Fillet = mm("1"), mm("2")
		s.Grooves = []trade.Groove{{At: mm("10"), Width: mm("2"), Diameter: mm("8")}}
	})
	second := with(step("20", "40"), func(s *trade.Step) { s.Chamfer = mm("1") })
	last := with(step("12", "15"), func(s *trade.Step) { s.Undercut = trade.Undercut{Width: mm("3"), Depth: mm("0.5")} })
	m := made(t, trade.TurnedPart, trade.Shape{Turned: &trade.TurnedShape{Steps: []trade.Step{first, second, last}}})
	segments(t, m.Turned.Segments, []segment{
		{part.Chamfer, 0, 1, 8, 10},
		{part.Body, 1, 10, 10, 10},
		{part.Groove, 10, 12, 8, 8},
		{part.Body, 12, 28, 10, 10},
		{part.Fillet, 28, 30, 10, 14},
		{part.Chamfer, 30, 31, 18, 20},
		{part.Body, 31, 69, 20, 20},
		{part.Chamfer, 69, 70, 20, 18},
		{part.Undercut, 70, 73, 11, 11},
		{part.Body, 73, 85, 12, 12},
	})
	fillet := m.Turned.Segments[4].Arc
	if fillet.Centre != (geom.Point{X: 28, Y: 7}) || fillet.Radius != 2 || fillet.Turn != geom.Anticlockwise {
		t.Errorf("the fillet is %+v", fillet)
	}
	same(t, "length", m.Turned.Length, 85)
}

// TestFilletOnTaper checks that a fillet touches the taper it rises from and the
// shoulder: both stand a radius from its centre.
func TestFilletOnTaper(t *testing.T) {
	taper := with(step("10", "40"), func(s *trade.Step) { s.To, s.Fillet = mm("16"), mm("3") })
	m := made(t, trade.TurnedPart, trade.Shape{Turned: &trade.TurnedShape{Steps: []trade.Step{taper, step("30", "10")}}})
	s := m.Turned.Segments[1]
	flank := geom.Line(geom.Point{Y: 5}, geom.Point{X: 40, Y: 8})
	same(t, "centre to shoulder", 40-s.Arc.Centre.X, 3)
	same(t, "centre to flank", flank.DistanceTo(s.Arc.Centre), 3)
	same(t, "begins on the flank", flank.DistanceTo(geom.Point{X: s.X0, Y: s.D0 / 2}), 0)
	same(t, "ends level with its centre", s.D1/2, s.Arc.Centre.Y)
}

// TestBores has bores from both ends, one blind with its drill point: a cone of
// 118°, d/2 over tan 59° long.
func TestBores(t *testing.T) {
	shape := trade.TurnedShape{
		Steps: []trade.Step{step("40", "100")},
		Bore:  []trade.Step{with(step("20", "30"), func(s *trade.Step) { s.Chamfer = mm("1") }), step("10", "15")},
		RightBore: []trade.Step{with(step("24", "20"), func(s *trade.Step) {
			s.To, s.Grooves = mm("22"), []trade.Groove{{At: mm("5"), Width: mm("3"), Diameter: mm("28")}}
		})},
	}
	m := made(t, trade.TurnedPart, trade.Shape{Turned: &shape})
	tan := math.Tan(59 * math.Pi / 180)
	segments(t, m.Turned.Bores, []segment{
		{part.Chamfer, 0, 1, 22, 20},
		{part.Body, 1, 30, 20, 20},
		{part.Body, 30, 45, 10, 10},
		{part.DrillPoint, 45, 45 + 5/tan, 10, 0},
		{part.DrillPoint, 80 - 11/tan, 80, 0, 22},
		{part.Body, 80, 92, 22, 23.2},
		{part.Groove, 92, 95, 28, 28},
		{part.Body, 95, 100, 23.5, 24},
	})
	shape.Bore[1].Length = trade.Measure{} // the rest of the way
	m = made(t, trade.TurnedPart, trade.Shape{Turned: &shape})
	segments(t, m.Turned.Bores, []segment{
		{part.Chamfer, 0, 1, 22, 20},
		{part.Body, 1, 30, 20, 20},
		{part.Body, 30, 80, 10, 10},
		{part.Body, 80, 92, 22, 23.2},
		{part.Groove, 92, 95, 28, 28},
		{part.Body, 95, 100, 23.5, 24},
	})
}

// TestCentreHole has a centre hole of 2 mm: mouth 4.24, seat (4.24 - 2)/2 over
// tan 30° deep, pilot 2.2 below it (ISO 866 form A, from memory).
func TestCentreHole(t *testing.T) {
	m := made(t, trade.TurnedPart, trade.Shape{Turned: &trade.TurnedShape{Steps: []trade.Step{step("20", "50")}, RightCentre: mm("2")}})
	seat := 1.12 * math.Sqrt(3)
	segments(t, m.Turned.Bores, []segment{
		{part.DrillPoint, 50 - seat - 2.2 - 1/math.Tan(59*math.Pi/180), 50 - seat - 2.2, 0, 2},
		{part.Centre, 50 - seat - 2.2, 50 - seat, 2, 2},
		{part.Centre, 50 - seat, 50, 2, 4.24},
	})
}

// TestVolumes has volumes by hand, and those with an integral in them by
// scipy 1.10.1, integrate.quad to 1e-12.
func TestVolumes(t *testing.T) {
	const ten = math.Pi * 100 * 50 // a shaft of 20 × 50
	shaft := func(change func(*trade.TurnedShape)) trade.Shape {
		s := trade.TurnedShape{Steps: []trade.Step{step("20", "50")}}
		change(&s)
		return trade.Shape{Turned: &s}
	}
	across := func(bore, depth string) trade.Shape {
		return shaft(func(s *trade.TurnedShape) {
			h := trade.CrossHole{At: mm("25"), Diameter: mm("6")}
			if depth != "" {
				h.Depth = mm(depth)
			}
			s.CrossHoles = []trade.CrossHole{h}
			if bore != "" {
				s.Bore = []trade.Step{step(bore, "50")}
			}
		})
	}
	flat := func(f trade.Flat, steps ...trade.Step) trade.Shape {
		return shaft(func(s *trade.TurnedShape) { s.Steps, s.Flats = steps, []trade.Flat{f} })
	}
	cone := with(step("20", "20"), func(s *trade.Step) { s.To = mm("16") })
	filleted := with(step("10", "30"), func(s *trade.Step) { s.Fillet = mm("2") })
	big := step("20", "20")
	rounded := trade.PlateShape{Thickness: mm("10"), Rectangle: &trade.RectangleShape{Length: mm("60"), Width: mm("40"), Corners: mm("5")}}
	hole := at("30", "20", "6")
	hole.CounterboreD, hole.CounterboreH = mm("10"), mm("4")
	sunk := at("30", "20", "6")
	sunk.CountersinkD, sunk.Depth = mm("12"), mm("7")
	for name, c := range map[string]struct {
		shape trade.Shape
		want  float64
	}{
		"hexagon":                  {shaft(func(s *trade.TurnedShape) { s.Steps[0].Section = trade.Hexagon }), math.Sqrt(3) / 2 * 400 * 50},
		"square":                   {shaft(func(s *trade.TurnedShape) { s.Steps[0].Section = trade.Square }), 400 * 50},
		"cross hole":               {across("", ""), ten - 559.0512870121994},
		"cross hole through bore":  {across("10", ""), ten - math.Pi*25*50 - 289.6809594841383},
		"cross hole over its bore": {across("4", ""), ten - math.Pi*4*50 - 488.11517729006465},
		"blind cross hole":         {across("", "6"), ten - 183.4172417359827},
		"cross hole into its bore": {across("10", "8"), ten - math.Pi*25*50 - 144.8404797420692},
		"flat":                     {flat(trade.Flat{From: mm("10"), Length: mm("12"), Height: mm("8")}, step("20", "50")), ten - 196.2013305519411},
		"two flats":                {flat(trade.Flat{From: mm("10"), Length: mm("12"), Across: mm("16")}, step("20", "50")), ten - 2*196.2013305519411},
		"flat on a cone":           {flat(trade.Flat{Length: mm("20"), Height: mm("9")}, cone), math.Pi*20*(100+80+64)/3 - 23.246438554063985},
		"fillet":                   {trade.Shape{Turned: &trade.TurnedShape{Steps: []trade.Step{filleted, big}}}, math.Pi*25*28 + 186.4567792556942 + math.Pi*100*20},
		"rounded plate":            {trade.Shape{Plate: &rounded}, (60*40 - (4-math.Pi)*25) * 10},
		"counterbored":             {plateWith(hole), 60*40*10 - math.Pi*(9*6+25*4)},
		"countersunk, blind":       {plateWith(sunk), 60*40*10 - math.Pi*(9*7+9*3/math.Tan(59*math.Pi/180)/3) - math.Pi*((36+18+9)-9*3)},
	} {
		t.Run(name, func(t *testing.T) {
			m := made(t, trade.TurnedPart, c.shape)
			if got := m.Volume(); !(math.Abs(got-c.want) <= 1e-10*c.want) {
				t.Errorf("volume %.15g, wanted %.15g", got, c.want)
			}
		})
	}
	m := made(t, trade.TurnedPart, flat(trade.Flat{From: mm("28"), Length: mm("2"), Height: mm("5.2")}, filleted, big))
	if got, want := m.Volume(), math.Pi*25*28+186.4567792556942+math.Pi*100*20-2.3247942592834745; !(math.Abs(got-want) <= 1e-7*want) {
		t.Errorf("volume of a flat across a fillet %.15g, wanted %.15g", got, want)
	}
}

func plateWith(h trade.HoleShape) trade.Shape {
	_, shape := square(func(s *trade.PlateShape) { s.Holes = []trade.HoleShape{h} })
	return shape
}

// TestChamferedPrisms has edges chamfered by 1: of a square bar two frusta of a
// pyramid, of a disc two of a cone, and of a key with round ends the two together.
func TestChamferedPrisms(t *testing.T) {
	pyramid := func(a float64) float64 { return (a*a + a*(a-2) + (a-2)*(a-2)) / 3 }
	cone := func(r float64) float64 { return math.Pi * (r*r + r*(r-1) + (r-1)*(r-1)) / 3 }
	square := trade.PlateShape{Thickness: mm("10"), Rectangle: &trade.RectangleShape{Length: mm("20"), Width: mm("20")}, Chamfer: mm("1")}
	disc := trade.PlateShape{Thickness: mm("10"), Disc: mm("40"), Chamfer: mm("1")}
	same(t, "square", made(t, trade.PlatePart, trade.Shape{Plate: &square}).Volume(), 8*400+2*pyramid(20))
	same(t, "disc", made(t, trade.PlatePart, trade.Shape{Plate: &disc}).Volume(), 8*math.Pi*400+2*cone(20))
	key := trade.KeyShape{Width: mm("8"), Height: mm("7"), Length: mm("28"), RoundEnds: true, Chamfer: mm("1")}
	between := 20 * (8*5 + 2*7.0) // of the straight stretch: its section is 8 × 7 less four corners of ½
	same(t, "key", made(t, trade.KeyPart, trade.Shape{Key: &key}).Volume(), between+math.Pi*16*5+2*cone(4))
}

// TestTaperedGib has the mean of both ends: a sheared wedge has the volume of an
// upright one.
func TestTaperedGib(t *testing.T) {
	gib := trade.GibShape{Length: mm("200"), Width: mm("30"), Thick: mm("8"), Thin: mm("6"), Angle: deg("55 deg"), Holes: []trade.HoleShape{at("50", "15", "5")}}
	m := made(t, trade.GibPart, trade.Shape{Gib: &gib})
	same(t, "volume", m.Volume(), 200*30*7-math.Pi*6.25*7.5)
	same(t, "lean", m.Prism.Lean, 35*math.Pi/180)
}

// TestShoe has the outline of a sector: a ring of 40°, and where its hole is.
func TestShoe(t *testing.T) {
	shoe := trade.ShoeShape{
		Inner: mm("50"), Outer: mm("70"), Angle: deg("40 deg"), Height: mm("15"),
		Hole: &trade.HoleShape{X: mm("0"), Y: mm("2"), Diameter: mm("8")},
	}
	m := made(t, trade.SectorShoe, trade.Shape{Shoe: &shoe})
	same(t, "area", m.Prism.Outline.Area(), 40*math.Pi/360*(70*70-50*50))
	same(t, "hole", m.Prism.Holes[0].At.Y, 62)
	box := m.Prism.Outline.Bounds()
	same(t, "right", box.High.X, 70*math.Sin(20*math.Pi/180))
	same(t, "top", box.High.Y, 70)
}

// TestMeasures checks what is said of sizes: their limits, and where they are
// from.
func TestMeasures(t *testing.T) {
	long := is("long", trade.Length, "2 1/2 in")
	within, err := unit.ParseLength("0.1", unit.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	long.Within = within
	kind, shape := turned(trade.TurnedShape{Steps: []trade.Step{{Thread: "screw", Length: called("long", 3)}}})
	m := made(t, kind, shape, long, screw("screw", "7/16 BSW"))
	if len(m.Measures) != 2 {
		t.Fatalf("%d measures", len(m.Measures))
	}
	same(t, "low", m.Measures[0].Low, 63.4)
	same(t, "high", m.Measures[0].High, 63.6)
	if got := m.Measures[0].Written.String(); got != "2 1/2 in" || m.Measures[0].From != part.Chosen {
		t.Errorf("written %q, from %d", got, m.Measures[0].From)
	}
	same(t, "major", m.Turned.Segments[0].D0, 7.0/16*25.4)
	thread := m.Turned.Segments[0].Thread
	if thread == nil || thread.Designation != "7/16 BSW" || m.Measures[1].From != part.Standard {
		t.Errorf("thread %+v from %d", thread, m.Measures[1].From)
	}
}
