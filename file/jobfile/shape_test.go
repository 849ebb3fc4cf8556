package jobfile_test

import (
	"os"
	"path/filepath"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
)

func of(id string) trade.Measure { return trade.Measure{ID: id} }

func plain(text string) trade.Measure { return trade.Measure{Value: length(text)} }

func plainAngle(text string) trade.Measure { return trade.Measure{Value: angle(text)} }

// TestShapes holds the shape of each kind of part to what is written in it.
func TestShapes(t *testing.T) {
	for kind, c := range map[trade.PartKind]struct {
		text string
		want trade.Shape
	}{
		trade.TurnedPart: {turned, trade.Shape{Turned: wantTurned}},
		trade.PlatePart:  {plate, trade.Shape{Plate: wantPlate}},
		trade.SectorShoe: {
			"{outer: big, inner: eye, angle: spread, height: 10, stem: {thread: screw, length: 20, offset: -1}, chamfer: 0.5}",
			trade.Shape{Shoe: &trade.ShoeShape{
				Outer: of("big"), Inner: of("eye"), Angle: of("spread"), Height: plain("10"), Chamfer: plain("0.5"),
				Stem: &trade.StemShape{Thread: "screw", Length: plain("20"), Offset: plain("-1")},
			}},
		},
		trade.NutPart: {
			"{square: 1 in, height: 10, thread: screw, chamfer: 1, tommies: 6}",
			trade.Shape{Nut: &trade.NutShape{
				Section: trade.Square, Size: plain("1 in"), Height: plain("10"), Thread: "screw", Chamfer: plain("1"), Tommies: plain("6"),
			}},
		},
		trade.BushPart: {
			"{outside: big, inside: eye, length: long, flange: 50, flange-width: 5, chamfer: 1}",
			trade.Shape{Bush: &trade.BushShape{
				Outside: of("big"), Inside: of("eye"), Length: of("long"), Flange: plain("50"), FlangeWidth: plain("5"), Chamfer: plain("1"),
			}},
		},
		trade.KeyPart: {
			"{width: 8, height: 7, length: long, ends: round, chamfer: 0.4}",
			trade.Shape{Key: &trade.KeyShape{Width: plain("8"), Height: plain("7"), Length: of("long"), RoundEnds: true, Chamfer: plain("0.4")}},
		},
		trade.GibPart: {
			"{length: long, width: 20, thick: 8, thin: 6, angle: 55, holes: [{at: [5, 10], diameter: 5, depth: 2}]}",
			trade.Shape{Gib: &trade.GibShape{
				Length: of("long"), Width: plain("20"), Thick: plain("8"), Thin: plain("6"), Angle: plainAngle("55"),
				Holes: []trade.HoleShape{{X: plain("5"), Y: plain("10"), Diameter: plain("5"), Depth: plain("2")}},
			}},
		},
		trade.WasherPart: {
			"{outside: big, inside: eye, thickness: 3, chamfer: 0.5}",
			trade.Shape{Washer: &trade.WasherShape{Outside: of("big"), Inside: of("eye"), Thickness: plain("3"), Chamfer: plain("0.5")}},
		},
	} {
		part := mustRead(t, beforePart+"part:\n  kind: "+string(kind)+"\n"+partSizes+"  shape: "+c.text+"\n").Part
		same(t, string(kind), unplaced(part.Shape), c.want)
		same(t, string(kind)+" is placed", part.Shape.Pos.Line >= 22, true)
	}
}

const turned = `
    steps:
      - {thread: screw, length: 20, undercut: {width: 3, depth: 1.5}, chamfer: 1}
      - {hexagon: 17, length: 8}
      - {diameter: big, to: eye, length: long, fillet: 1, knurled: yes, ra: 0.8, say: lap it, grooves: [{at: 0, width: 2, diameter: 30}]}
      - {square: 12, length: 10, knurled: no}
    bore: [{diameter: 10, length: 30}, {diameter: 6}]
    right-bore: [{thread: screw, length: 12}]
    cross-holes: [{at: 30, diameter: 5}, {at: long, thread: screw, depth: 6}]
    flats: [{from: 0, length: 10, across: 14}, {from: 30, length: 5, height: 0}]
    left-centre: 2
    right-centre: 2.5`

var wantTurned = &trade.TurnedShape{
	Steps: []trade.Step{
		{
			Section: trade.Round, Thread: "screw", Length: plain("20"), Chamfer: plain("1"),
			Undercut: trade.Undercut{Width: plain("3"), Depth: plain("1.5")},
		},
		{Section: trade.Hexagon, Size: plain("17"), Length: plain("8")},
		{
			Section: trade.Round, Size: of("big"), To: of("eye"), Length: of("long"), Fillet: plain("1"), Knurled: true, Surface: 0.8,
			Say: "lap it", Grooves: []trade.Groove{{At: plain("0"), Width: plain("2"), Diameter: plain("30")}},
		},
		{Section: trade.Square, Size: plain("12"), Length: plain("10")},
	},
	Bore: []trade.Step{
		{Section: trade.Round, Size: plain("10"), Length: plain("30")},
		{Section: trade.Round, Size: plain("6")},
	},
	RightBore:   []trade.Step{{Section: trade.Round, Thread: "screw", Length: plain("12")}},
	CrossHoles:  []trade.CrossHole{{At: plain("30"), Diameter: plain("5")}, {At: of("long"), Thread: "screw", Depth: plain("6")}},
	Flats:       []trade.Flat{{From: plain("0"), Length: plain("10"), Across: plain("14")}, {From: plain("30"), Length: plain("5"), Height: plain("0")}},
	LeftCentre:  plain("2"),
	RightCentre: plain("2.5"),
}

const plate = `
    thickness: 8
    outline: [{at: [0, -5]}, {at: [long, 0], round: 3}, {at: [0, 40], radius: 30, turn: clockwise}]
    holes:
      - {plan: ring, of: [h2, h3], diameter: eye, counterbore: {diameter: 30, depth: 4}}
      - {circle: 80, count: 4, first: 45 deg, thread: screw, depth: 6}
      - {plan: ring, of: [h1], circle: 60, count: 3, diameter: 4}
      - {at: [3, 4], diameter: 5, countersink: 10, say: for the name plate}
    slots: [{from: [1, 2], to: [3, 4], width: 5, depth: 6}]
    ledges: [{from: [0, 0], to: [10, long], depth: 2}]
    chamfer: 1`

var wantPlate = &trade.PlateShape{
	Thickness: plain("8"),
	Outline: []trade.Corner{
		{X: plain("0"), Y: plain("-5")},
		{X: of("long"), Y: plain("0"), Round: plain("3")},
		{X: plain("0"), Y: plain("40"), Radius: plain("30"), Turn: trade.Clockwise},
	},
	Holes: []trade.HoleShape{
		{Plan: "ring", Of: []string{"h2", "h3"}, Diameter: of("eye"), CounterboreD: plain("30"), CounterboreH: plain("4")},
		{Circle: plain("80"), Count: 4, First: plainAngle("45 deg"), Thread: "screw", Depth: plain("6")},
		{Plan: "ring", Of: []string{"h1"}, Circle: plain("60"), Count: 3, Diameter: plain("4")},
		{X: plain("3"), Y: plain("4"), Diameter: plain("5"), CountersinkD: plain("10"), Say: "for the name plate"},
	},
	Slots:   []trade.SlotShape{{FromX: plain("1"), FromY: plain("2"), ToX: plain("3"), ToY: plain("4"), Width: plain("5"), Depth: plain("6")}},
	Ledges:  []trade.Ledge{{FromX: plain("0"), FromY: plain("0"), ToX: plain("10"), ToY: of("long"), Depth: plain("2")}},
	Chamfer: plain("1"),
}

func TestOtherShapes(t *testing.T) {
	read := func(kind, shape string) trade.Shape {
		return unplaced(mustRead(t, beforePart+"part:\n  kind: "+kind+"\n"+partSizes+"  shape: "+shape+"\n").Part.Shape)
	}
	same(t, "straight shoe", read("sector-shoe", "{width: 20, length: 40, height: 10, hole: {thread: screw, depth: 8}}").Shoe, &trade.ShoeShape{
		Width: plain("20"), Length: plain("40"), Height: plain("10"), Hole: &trade.HoleShape{Thread: "screw", Depth: plain("8")},
	})
	same(t, "rectangle", read("plate", "{thickness: 5, rectangle: {length: long, width: 40, corners: 3, centred: yes}}").Plate.Rectangle, &trade.RectangleShape{
		Length: of("long"), Width: plain("40"), Corners: plain("3"), Centred: true,
	})
	same(t, "disc", read("plate", "{thickness: 5, disc: big}").Plate.Disc, of("big"))
	same(t, "hexagon", read("nut", "{hexagon: 17, height: 8, thread: screw}").Nut.Section, trade.Hexagon)
	same(t, "round nut", read("nut", "{round: 30, height: 8, thread: screw}").Nut.Section, trade.Round)
}

// TestPartsOnFile: the jobs on file make a part of each kind.
func TestPartsOnFile(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/part-*.yaml")
	if err != nil || len(files) < 12 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	seen := map[trade.PartKind]bool{}
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		job, err := jobfile.Read(file, source)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		seen[job.Part.Kind] = true
	}
	same(t, "kinds of part", len(seen), len(trade.PartKinds()))
}
