package lathe

import (
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// The figures of this file are worked out by hand.

// TestArcsWithinTheTravel: the cutter stands its radius further out than the face,
// 285 + 10 mm of the 300 that the slide goes, or 295 + 10.
func TestArcsWithinTheTravel(t *testing.T) {
	w := ArcsWanted{Outer: 285, Inner: 270, Angle: 0.2, Cutter: 20, Bite: 5, Mill: bench(t)}
	if _, err := Arcs(w); err != nil {
		t.Error(err)
	}
	w.Outer = 295
	if _, err := Arcs(w); err == nil || !strings.Contains(err.Error(), "stands 305.000 mm out from the table's centre, and the slide goes 300.000 mm") {
		t.Errorf("%v", err)
	}
}

// TestSweepNotices a readout that is 0.01 mm off, and a pass that is 0.1 mm inside
// the shoe though its readout is as told, of both faces.
func TestSweepNotices(t *testing.T) {
	a := arcs(t, ArcsWanted{Outer: 70, Inner: 56, Angle: 0.7, Cutter: 20})
	for i, inwards := range []float64{-0.1, 0.1} {
		f := a.Faces[i]
		last := len(f.Passes) - 1
		if off := a.Wanted.sweep(f); off > 1e-9 {
			t.Errorf("face %d is %g off", i, off)
		}
		f.Passes = slices.Clone(f.Passes)
		f.Passes[last].Readout.X += 0.01
		if off := a.Wanted.sweep(f); math.Abs(off-0.01) > 1e-6 {
			t.Errorf("face %d: a readout 0.01 mm off is noticed as %g", i, off)
		}
		f.Passes[last].Readout.X += inwards - 0.01
		f.Passes[last].Radius += inwards
		if off := a.Wanted.sweep(f); math.Abs(off-0.1) > 1e-6 {
			t.Errorf("face %d: a cut of 0.1 mm into the shoe is noticed as %g", i, off)
		}
	}
}

// TestSlideIsSet by a readout or a dial; without either it is said.
func TestSlideIsSet(t *testing.T) {
	withDial := bench(t)
	readout := &trade.Machinery{Readout: true}
	for name, c := range map[string]struct {
		mill *trade.Machinery
		said bool
	}{"nothing known": {nil, true}, "a bare mill": {&trade.Machinery{}, true}, "a dial": {withDial, false}, "a readout": {readout, false}} {
		a := arcs(t, ArcsWanted{Outer: 70, Inner: 56, Angle: 0.7, Cutter: 20, Mill: c.mill})
		if said := strings.Contains(unit.Join(a.Warnings, " ").Shown(unit.View{}), "Neither a readout nor a dial"); said != c.said {
			t.Errorf("%s: %v", name, a.Warnings)
		}
	}
}

// TestHandles: 7.5 mm at 0.02 mm a division and 4 mm a turn are one turn and 175
// divisions; on a dial that reads the diameter it is 15 mm.
func TestHandles(t *testing.T) {
	radius := trade.DialScale{Slide: "cross", Division: length(t, "0.02 mm"), Turn: length(t, "4 mm")}
	diameter := radius
	diameter.Reads = trade.ReadsDiameter
	noTurn := radius
	noTurn.Turn = unit.Quantity{}
	for name, c := range map[string]struct {
		dial      *trade.DialScale
		travel    float64
		turns     int
		divisions float64
	}{
		"radius": {&radius, 7.5, 1, 175}, "backwards": {&radius, -7.5, 1, 175}, "diameter": {&diameter, 7.5, 3, 150},
		"turn not known": {&noTurn, 7.5, 0, 375}, "a whole turn but for rounding": {&radius, 12 - 1e-12, 3, 0}, "hardly less than one": {&radius, 3.9999, 0, 199.995},
	} {
		move := moveOf(c.dial, c.travel)
		if move.Turns != c.turns || math.Abs(move.Divisions-c.divisions) > 1e-9 {
			t.Errorf("%s: %+v", name, move)
		}
	}
	if moveOf(nil, 1).Known() || moveOf(&trade.DialScale{}, 1).Known() {
		t.Error("a move by no dial")
	}
}

// TestGridOfThreeRows: each second row goes backwards, the third forwards again.
func TestGridOfThreeRows(t *testing.T) {
	grid := OnGrid(geom.Point{X: 1, Y: 2}, 2, 4, 10, 5)
	for i, want := range []geom.Point{{X: 1, Y: 2}, {X: 11, Y: 2}, {X: 11, Y: 7}, {X: 1, Y: 7}, {X: 1, Y: 12}, {X: 11, Y: 12}, {X: 11, Y: 17}, {X: 1, Y: 17}} {
		if grid[i] != want {
			t.Errorf("%d: %v, want %v", i, grid[i], want)
		}
	}
}

// TestHolesOf: numbered from 1 as they stand in the job.
func TestHolesOf(t *testing.T) {
	holes := HolesOf(&part.Prism{Holes: []part.Hole{{At: geom.Point{X: 3}, Diameter: 5}, {At: geom.Point{Y: 4}, Diameter: 6}}})
	if len(holes) != 2 || holes[0] != (Drilled{"1", geom.Point{X: 3}, 5}) || holes[1] != (Drilled{"2", geom.Point{Y: 4}, 6}) {
		t.Errorf("%+v", holes)
	}
}

// TestSidesOfTheDatum: -2 is no side either, on either axis.
func TestSidesOfTheDatum(t *testing.T) {
	for _, sides := range [][2]int{{-2, 0}, {0, -2}, {2, 1}, {-1, 2}} {
		if _, err := PlaceHoles(nil, Datum{Sides: sides, Finder: 10}, Numbered([]geom.Point{{X: 10}}, 6)); err == nil || !strings.Contains(err.Error(), "-1, 0 or 1") {
			t.Errorf("%v: %v", sides, err)
		}
	}
}

// TestEdgesAreMinded from two microns on, rounding apart: the plate stands from 0 to
// 60 along x and from 0 to 40 along y, or turned by 90° from -40 to 0 and 0 to 60.
func TestEdgesAreMinded(t *testing.T) {
	plate := geom.Rectangle(geom.Point{}, geom.Point{X: 60, Y: 40})
	for _, c := range []struct {
		name  string
		datum Datum
		says  string
	}{
		{"on the left edge", Datum{Sides: [2]int{-1, 0}}, ""},
		{"on it but for rounding", Datum{Sides: [2]int{-1, 0}, At: geom.Point{X: 5e-4}}, ""},
		{"0.005 mm inside of it", Datum{Sides: [2]int{-1, 0}, At: geom.Point{X: 0.005}}, "The datum is 0.005 mm off the left edge of the part: if the finder touches that, every hole is out by so much in x."},
		{"0.005 mm outside of it", Datum{Sides: [2]int{-1, 0}, At: geom.Point{X: -0.005}}, "The datum is 0.005 mm off the left edge"},
		{"on the right edge", Datum{Sides: [2]int{1, 0}, At: geom.Point{X: 60}}, ""},
		{"at the left for the right", Datum{Sides: [2]int{1, 0}}, "60.000 mm off the right edge"},
		{"turned, on the right edge", Datum{Sides: [2]int{1, 0}, Turned: math.Pi / 2}, ""},
		{"turned, on the left edge", Datum{Sides: [2]int{-1, 0}, Turned: math.Pi / 2, At: geom.Point{Y: 40}}, ""},
		{"turned, off the back edge", Datum{Sides: [2]int{0, 1}, Turned: math.Pi / 2, At: geom.Point{X: 59}}, "1.000 mm off the back edge of the part: if the finder touches that, every hole is out by so much in y"},
	} {
		c.datum.Finder = 10
		placed := placed(t, nil, c.datum, Numbered([]geom.Point{{X: 10, Y: 8}}, 6))
		before := len(placed.Warnings)
		placed.MindEdges(plate)
		said := unit.Join(placed.Warnings[before:], " ").Shown(unit.View{})
		if c.says == "" && said != "" || !strings.Contains(said, c.says) {
			t.Errorf("%s: it says %q", c.name, said)
		}
	}
}

// TestSame: gears may change places on their studs; a gearbox may not.
func TestSame(t *testing.T) {
	a := Train{Drivers: []int{20, 35}, Driven: []int{40, 37}}
	for name, c := range map[string]struct {
		other Train
		same  bool
	}{
		"the other way round": {Train{Drivers: []int{35, 20}, Driven: []int{37, 40}}, true},
		"another driver":      {Train{Drivers: []int{20, 36}, Driven: []int{40, 37}}, false},
		"another driven":      {Train{Drivers: []int{20, 35}, Driven: []int{40, 38}}, false},
		"another way":         {Train{Drivers: []int{20, 35}, Driven: []int{40, 37}, Gearbox: trade.Ratio{Num: 1, Den: 2}}, false},
		"upside down":         {Train{Drivers: []int{40, 37}, Driven: []int{20, 35}}, false},
	} {
		if a.Same(c.other) != c.same {
			t.Errorf("%s: %v", name, !c.same)
		}
	}
}

// TestFartherTrains: 1.5 mm by 8 tpi asks for 60/127. Without the 127 the nearest of
// these is 20/40, 5.83 % too long: within a hundred times the usual 0.2 %, and no
// thousand times.
func TestFartherTrains(t *testing.T) {
	lathe := &trade.Machinery{Leadscrew: pitch(t, "8 tpi"), Gears: []int{20, 40, 60, 127}, Clearance: 1}
	found := trains(t, lathe, GearsWanted{Pitch: pitch(t, "1.5 mm")})
	if len(found.Substitutes) == 0 || !found.Substitutes[0].Same(Train{Drivers: []int{20}, Driven: []int{40}}) {
		t.Fatalf("substitutes %+v", found.Substitutes)
	}
	lathe.Gears = []int{20, 40, 60}
	found = trains(t, lathe, GearsWanted{Pitch: pitch(t, "1.5 mm")})
	if !found.Nearby || found.Trains[0].Error < 0.0583 || found.Trains[0].Error > 0.0584 {
		t.Errorf("nearest %+v", found.Trains[0])
	}
	for _, far := range found.Trains {
		if math.Abs(far.Error) > 0.2 {
			t.Errorf("%+v is listed beside one that is 0.06 off", far)
		}
	}
}

// TestSpeedOfTheMachine: a speed that is the start itself is not above it.
func TestSpeedOfTheMachine(t *testing.T) {
	wanted := CutWanted{Material: "mild steel", Diameter: 25}
	first, err := Speeds(wanted)
	if err != nil {
		t.Fatal(err)
	}
	wanted.Spindle = []float64{first.Start * 1.001, first.Start, first.Start / 2}
	if s, _ := Speeds(wanted); s.Set != first.Start || len(s.Warnings) > 0 {
		t.Errorf("starts at %g, set to %g: %v", s.Start, s.Set, s.Warnings)
	}
}

// TestFeeds (common practice, no source): a drill of 10 mm goes 0.1 to 0.2 mm a
// turn.
func TestFeeds(t *testing.T) {
	for operation, want := range map[string]FeedCustom{
		"turn":  {"turning", 0.05, 0.25, PerTurn},
		"drill": {"drilling", 0.01, 0.02, PerDiameter},
		"ream":  {"reaming", 0.02, 0.04, PerDiameter},
		"mill":  {"milling", 0.02, 0.08, PerTooth},
	} {
		s, err := Speeds(CutWanted{Material: "mild steel", Diameter: 10, Operation: operation})
		if err != nil || s.Feed == nil || *s.Feed != want {
			t.Errorf("%s: %+v, %v", operation, s, err)
		}
	}
}

// TestOnePass: where the first cut may be as deep as the thread one pass does, and
// no rounding makes two of it.
func TestOnePass(t *testing.T) {
	deep := cut(t, ThreadWanted{Thread: named(t, "M10")}).Depth
	c := cut(t, ThreadWanted{Thread: named(t, "M10"), FirstCut: deep})
	passes := slices.DeleteFunc(c.Passes, func(p Pass) bool { return p.Spring })
	if len(passes) != 1 || passes[0].Depth != deep {
		t.Errorf("%+v", passes)
	}
}

// TestReliefInFigures: of M10 by 1.5 the groove is 4.5 wide and 0.75 below the root
// on the diameter, or above it in a nut; without one the tool runs out in 3 mm.
func TestReliefInFigures(t *testing.T) {
	screw := cut(t, ThreadWanted{Thread: named(t, "M10")})
	nut := cut(t, ThreadWanted{Thread: named(t, "M10"), Inside: true})
	same(t, "screw", screw.Relief.Diameter, screw.Blank-2*screw.Depth-0.75)
	same(t, "nut", nut.Relief.Diameter, nut.Blank+2*nut.Depth+0.75)
	for _, r := range []Relief{screw.Relief, nut.Relief} {
		same(t, "width", r.Width, 4.5)
		same(t, "run-out", r.RunOut, 3)
	}
}

// TestDrillsOfEachSeries goes through all drills one by one: of each series that has
// one within 15 % of thread the nearest is told, and none of the others.
func TestDrillsOfEachSeries(t *testing.T) {
	for thread, of := range map[string]float64{"7/16 BSW": 1.280654 * 25.4 / 14, "2 BA": 1.2 * 0.81} {
		sheet := series.ThreadSheet(named(t, thread))
		for _, percent := range []float64{45, 75, 100} {
			holes, err := TapHoles(sheet, percent)
			if err != nil {
				t.Fatal(err)
			}
			nearest := map[string]float64{}
			for _, drill := range facts.Drills() {
				off := math.Abs(100*(sheet.Basic.Major-drill.Diameter)/of - percent)
				if last, there := nearest[drill.Series]; off <= 15 && (!there || off < last) {
					nearest[drill.Series] = off
				}
			}
			if len(holes[0].Drills) != len(nearest) {
				t.Errorf("%s at %g %%: %d drills, of %d series", thread, percent, len(holes[0].Drills), len(nearest))
			}
			for _, d := range holes[0].Drills {
				if want := nearest[d.Series]; math.Abs(math.Abs(d.Gives-percent)-want) > 1e-6 {
					t.Errorf("%s at %g %%: drill %s of %s is %g off, the nearest %g", thread, percent, d.Designation, d.Series, d.Gives-percent, want)
				}
			}
		}
	}
}

// TestBoundsOfDividing: a hundred thousand divisions and no more, and twelve ways of
// each kind.
func TestBoundsOfDividing(t *testing.T) {
	table := trade.RotaryTable{Ratio: 40, Plates: threePlates}
	if _, err := Divide(&table, DividingWanted{Count: 100_000}); err != nil {
		t.Error(err)
	}
	if _, err := Divide(&table, DividingWanted{Count: 100_001}); err == nil {
		t.Error("100,001 divisions are worked out")
	}
	d := divide(t, trade.RotaryTable{Plates: threePlates, Gears: headGears}, DividingWanted{Count: 127})
	if len(d.Differential) > 12 || len(d.Compound) > 12 {
		t.Errorf("%d and %d ways", len(d.Differential), len(d.Compound))
	}
	for i, way := range d.Differential[1:] {
		before := d.Differential[i]
		far := func(n int) float64 { return math.Abs(float64(n - 127)) }
		if len(before.Drivers) == len(way.Drivers) && far(before.For) > far(way.For) || len(before.Drivers) > len(way.Drivers) {
			t.Errorf("%+v comes before %+v", before, way)
		}
	}
}
