package part_test

import (
	"errors"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// mm is a plain measure in mm as it would be written.
func mm(text string) trade.Measure {
	q, err := unit.ParseLength(text, unit.Millimetre)
	if err != nil {
		panic(err)
	}
	return trade.Measure{Value: q}
}

func deg(text string) trade.Measure {
	q, err := unit.ParseAngle(text)
	if err != nil {
		panic(err)
	}
	return trade.Measure{Value: q}
}

// called is a size of the part by its id.
func called(id string, line int) trade.Measure {
	return trade.Measure{ID: id, Pos: trade.Pos{Line: line, Column: 7}}
}

func build(kind trade.PartKind, shape trade.Shape, sizes ...trade.NewSize) (*part.Model, error) {
	job := &trade.Job{Units: unit.Millimetre, Part: &trade.Part{Name: "Test", Kind: kind, Sizes: sizes, Shape: shape}}
	return part.Build(job, nil, nil)
}

func turned(s trade.TurnedShape) (trade.PartKind, trade.Shape) {
	return trade.TurnedPart, trade.Shape{Turned: &s}
}

func plate(s trade.PlateShape) (trade.PartKind, trade.Shape) {
	return trade.PlatePart, trade.Shape{Plate: &s}
}

func shoe(s trade.ShoeShape) (trade.PartKind, trade.Shape) {
	return trade.SectorShoe, trade.Shape{Shoe: &s}
}

// step is a plain step.
func step(diameter, length string) trade.Step {
	return trade.Step{Section: trade.Round, Size: mm(diameter), Length: mm(length)}
}

// with returns a step after something was changed in it.
func with(s trade.Step, change func(*trade.Step)) trade.Step {
	change(&s)
	return s
}

func is(id string, kind trade.SizeKind, text string) trade.NewSize {
	return trade.NewSize{ID: id, Kind: kind, From: trade.Is, Of: trade.Formula{Text: text}}
}

func screw(id, designation string) trade.NewSize {
	return trade.NewSize{ID: id, From: trade.IsThread, Thread: designation}
}

// square is a plate 60 × 40 × 10.
func square(change func(*trade.PlateShape)) (trade.PartKind, trade.Shape) {
	s := trade.PlateShape{Thickness: mm("10"), Rectangle: &trade.RectangleShape{Length: mm("60"), Width: mm("40")}}
	change(&s)
	return plate(s)
}

func at(x, y, diameter string) trade.HoleShape {
	return trade.HoleShape{X: mm(x), Y: mm(y), Diameter: mm(diameter)}
}

func corner(x, y string) trade.Corner { return trade.Corner{X: mm(x), Y: mm(y)} }

// TestRefused has geometry that cannot be, and what must be said of it: the two
// sizes that clash (constructed).
func TestRefused(t *testing.T) {
	shaft := []trade.Step{step("10", "30"), step("20", "40")}
	cut := func(i int, change func(*trade.Step)) []trade.Step {
		steps := []trade.Step{shaft[0], shaft[1]}
		steps[i] = with(steps[i], change)
		return steps
	}
	for name, c := range map[string]struct {
		made func() (trade.PartKind, trade.Shape)
		want []string
	}{
		"bore as large as the body": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, Bore: []trade.Step{step("12", "20")}})
		}, []string{"the bore of 12.000 mm", "the diameter of 10.000 mm", "no wall is left"}},
		"bore into a taper": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: cut(0, func(s *trade.Step) { s.To = mm("5") }), Bore: []trade.Step{step("6", "30")}})
		}, []string{"the bore of 6.000 mm", "the diameter of 10.000 mm"}},
		"bores longer than the part": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, Bore: []trade.Step{step("4", "50")}, RightBore: []trade.Step{step("5", "30")}})
		}, []string{"80.000 mm deep together", "70.000 mm", "the length of 30.000 mm is 10.000 mm too long"}},
		"bores whose points meet": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, Bore: []trade.Step{step("6", "39")}, RightBore: []trade.Step{step("6", "30")}})
		}, []string{"the bore of 6.000 mm", "from the other end"}},
		"bore through with its point": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, Bore: []trade.Step{step("6", "69")}})
		}, []string{"the bore of 6.000 mm breaks through"}},
		"fillet larger than its shoulder": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: cut(0, func(s *trade.Step) { s.Fillet = mm("6") })})
		}, []string{"the fillet of 6.000 mm", "the diameter of 20.000 mm", "larger than the shoulder"}},
		"fillet and chamfer on one shoulder": {func() (trade.PartKind, trade.Shape) {
			steps := cut(0, func(s *trade.Step) { s.Fillet = mm("3") })
			steps[1].Chamfer = mm("2.5")
			return turned(trade.TurnedShape{Steps: steps})
		}, []string{"the fillet of 3.000 mm", "the chamfer of 2.500 mm"}},
		"chamfer larger than the shoulder": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: cut(1, func(s *trade.Step) { s.Chamfer = mm("6") })})
		}, []string{"the chamfer of 6.000 mm", "the diameter of 10.000 mm", "larger than the shoulder"}},
		"chamfer longer than the step": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: []trade.Step{with(step("20", "3"), func(s *trade.Step) { s.Chamfer = mm("2") })}})
		}, []string{"the chamfer of 2.000 mm", "the length of 3.000 mm"}},
		"undercut deeper than the radius": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: cut(0, func(s *trade.Step) { s.Undercut = trade.Undercut{Width: mm("3"), Depth: mm("5")} })})
		}, []string{"the depth of the undercut of 5.000 mm", "the diameter of 10.000 mm"}},
		"undercut and fillet": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: cut(0, func(s *trade.Step) {
				s.Undercut, s.Fillet = trade.Undercut{Width: mm("3"), Depth: mm("1")}, mm("0.5")
			})})
		}, []string{"the width of the undercut of 3.000 mm", "the fillet of 0.500 mm"}},
		"groove outside its step": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: cut(0, func(s *trade.Step) { s.Grooves = []trade.Groove{{At: mm("28"), Width: mm("3"), Diameter: mm("8")}} })})
		}, []string{"the place of a groove of 28.000 mm", "the width of a groove of 3.000 mm", "30.000 mm long"}},
		"groove that cuts nothing": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: cut(0, func(s *trade.Step) { s.Grooves = []trade.Groove{{At: mm("8"), Width: mm("3"), Diameter: mm("10")}} })})
		}, []string{"the diameter of a groove of 10.000 mm", "the diameter of 10.000 mm", "cut nothing"}},
		"cross hole larger than the body": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, CrossHoles: []trade.CrossHole{{At: mm("15"), Diameter: mm("10")}}})
		}, []string{"the cross hole of 10.000 mm", "the diameter of 10.000 mm"}},
		"cross hole off the end": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, CrossHoles: []trade.CrossHole{{At: mm("68"), Diameter: mm("6")}}})
		}, []string{"the cross hole of 6.000 mm", "the place of a cross hole of 68.000 mm", "67.000 mm"}},
		"cross hole out below": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, CrossHoles: []trade.CrossHole{{At: mm("50"), Diameter: mm("6"), Depth: mm("19")}}})
		}, []string{"the depth of the cross hole of 19.000 mm", "the diameter of 20.000 mm"}},
		"cross holes that meet": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, CrossHoles: []trade.CrossHole{{At: mm("50"), Diameter: mm("6")}, {At: mm("55"), Diameter: mm("6")}}})
		}, []string{"the cross hole of 6.000 mm", "the place of a cross hole of 55.000 mm", "50.000 mm from the left"}},
		"flat that misses": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, Flats: []trade.Flat{{From: mm("0"), Length: mm("10"), Across: mm("10")}}})
		}, []string{"the width across flats of 10.000 mm", "the diameter of 10.000 mm", "cuts nothing"}},
		"flat off the end": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, Flats: []trade.Flat{{From: mm("60"), Length: mm("15"), Height: mm("8")}}})
		}, []string{"the length of a flat of 15.000 mm", "75.000 mm", "70.000 mm long"}},
		"flat that opens the bore": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, Bore: []trade.Step{step("8", "20")}, Flats: []trade.Flat{{Length: mm("10"), Height: mm("3.5")}}})
		}, []string{"the height of a flat of 3.500 mm", "the bore of 8.000 mm", "opens the bore"}},
		"centre hole in a bore": {func() (trade.PartKind, trade.Shape) {
			return turned(trade.TurnedShape{Steps: shaft, Bore: []trade.Step{step("8", "20")}, LeftCentre: mm("2")})
		}, []string{"the centre hole of 2.000 mm", "the bore of 8.000 mm"}},
		"inner radius over the outer": {func() (trade.PartKind, trade.Shape) {
			return shoe(trade.ShoeShape{Inner: mm("60"), Outer: mm("50"), Angle: deg("30"), Height: mm("10")})
		}, []string{"the inner radius of 60.000 mm", "the outer radius of 50.000 mm"}},
		"stem wider than the shoe": {func() (trade.PartKind, trade.Shape) {
			return shoe(trade.ShoeShape{Width: mm("15"), Length: mm("30"), Height: mm("10"), Stem: &trade.StemShape{Diameter: mm("16"), Length: mm("30")}})
		}, []string{"the stem of 16.000 mm", "7.500 mm from the nearest edge"}},
		"chamfers that meet": {func() (trade.PartKind, trade.Shape) {
			return square(func(s *trade.PlateShape) { s.Chamfer = mm("5") })
		}, []string{"the chamfer of 5.000 mm", "the thickness of 10.000 mm"}},
		"corner radius": {func() (trade.PartKind, trade.Shape) {
			return square(func(s *trade.PlateShape) { s.Rectangle.Corners = mm("21") })
		}, []string{"the corner radius of 21.000 mm", "the width of 40.000 mm"}},
		"outline that crosses itself": {func() (trade.PartKind, trade.Shape) {
			return plate(trade.PlateShape{Thickness: mm("5"), Outline: []trade.Corner{corner("0", "0"), corner("40", "40"), corner("40", "0"), corner("0", "30")}})
		}, []string{"crosses itself", "corner 2", "corner 4"}},
		"arc that does not reach": {func() (trade.PartKind, trade.Shape) {
			c := corner("40", "0")
			c.Radius = mm("15")
			return plate(trade.PlateShape{Thickness: mm("5"), Outline: []trade.Corner{corner("0", "0"), c, corner("20", "30")}})
		}, []string{"the arc radius of 15.000 mm", "40.000 mm apart"}},
		"rounding that does not fit": {func() (trade.PartKind, trade.Shape) {
			c := corner("40", "0")
			c.Round = mm("35")
			return plate(trade.PlateShape{Thickness: mm("5"), Outline: []trade.Corner{corner("0", "0"), c, corner("40", "30"), corner("0", "30")}})
		}, []string{"the rounding of 35.000 mm", "corner 2", "30.000 mm"}},
		"hole outside": {func() (trade.PartKind, trade.Shape) {
			return square(func(s *trade.PlateShape) { s.Holes = []trade.HoleShape{at("70", "20", "6")} })
		}, []string{"the hole of 6.000 mm at (70.000 mm, 20.000 mm)", "outside the outline"}},
		"hole that breaks the edge": {func() (trade.PartKind, trade.Shape) {
			return square(func(s *trade.PlateShape) { s.Holes = []trade.HoleShape{at("57", "20", "6")} })
		}, []string{"the hole of 6.000 mm at (57.000 mm, 20.000 mm)", "breaks the edge", "3.000 mm from its middle"}},
		"holes that meet": {func() (trade.PartKind, trade.Shape) {
			return square(func(s *trade.PlateShape) { s.Holes = []trade.HoleShape{at("20", "20", "6"), at("26", "20", "7")} })
		}, []string{"the hole of 6.000 mm", "the hole of 7.000 mm", "6.000 mm apart"}},
		"hole too deep": {func() (trade.PartKind, trade.Shape) {
			h := at("20", "20", "6")
			h.Depth = mm("9")
			return square(func(s *trade.PlateShape) { s.Holes = []trade.HoleShape{h} })
		}, []string{"the depth of the hole of 9.000 mm", "the thickness of 10.000 mm"}},
		"counterbore smaller than its hole": {func() (trade.PartKind, trade.Shape) {
			h := at("20", "20", "6")
			h.CounterboreD, h.CounterboreH = mm("5"), mm("3")
			return square(func(s *trade.PlateShape) { s.Holes = []trade.HoleShape{h} })
		}, []string{"the counterbore of 5.000 mm", "the hole of 6.000 mm"}},
		"slot that breaks the edge": {func() (trade.PartKind, trade.Shape) {
			return square(func(s *trade.PlateShape) {
				s.Slots = []trade.SlotShape{{FromX: mm("10"), FromY: mm("20"), ToX: mm("58"), ToY: mm("20"), Width: mm("6")}}
			})
		}, []string{"the slot of 6.000 mm", "breaks the edge"}},
		"slot too deep": {func() (trade.PartKind, trade.Shape) {
			return square(func(s *trade.PlateShape) {
				s.Slots = []trade.SlotShape{{FromX: mm("10"), FromY: mm("20"), ToX: mm("50"), ToY: mm("20"), Width: mm("6"), Depth: mm("10")}}
			})
		}, []string{"the depth of the slot of 10.000 mm", "the thickness of 10.000 mm"}},
		"ledge outside": {func() (trade.PartKind, trade.Shape) {
			return square(func(s *trade.PlateShape) {
				s.Ledges = []trade.Ledge{{FromX: mm("50"), FromY: mm("0"), ToX: mm("65"), ToY: mm("40"), Depth: mm("3")}}
			})
		}, []string{"reaches beyond the plate", "65.000 mm"}},
		"ledge as deep as the plate": {func() (trade.PartKind, trade.Shape) {
			return square(func(s *trade.PlateShape) {
				s.Ledges = []trade.Ledge{{FromX: mm("50"), FromY: mm("0"), ToX: mm("60"), ToY: mm("40"), Depth: mm("10")}}
			})
		}, []string{"the depth of a ledge of 10.000 mm", "the thickness of 10.000 mm"}},
		"gib thicker at its thin end": {func() (trade.PartKind, trade.Shape) {
			return trade.GibPart, trade.Shape{Gib: &trade.GibShape{Length: mm("200"), Width: mm("30"), Thick: mm("6"), Thin: mm("7")}}
		}, []string{"the thin end of 7.000 mm", "the thick end of 6.000 mm"}},
		"key as short as it is wide": {func() (trade.PartKind, trade.Shape) {
			return trade.KeyPart, trade.Shape{Key: &trade.KeyShape{Length: mm("8"), Width: mm("8"), Height: mm("7"), RoundEnds: true}}
		}, []string{"the length of 8.000 mm", "the width of 8.000 mm"}},
		"bush bored out": {func() (trade.PartKind, trade.Shape) {
			return trade.BushPart, trade.Shape{Bush: &trade.BushShape{Outside: mm("20"), Inside: mm("20"), Length: mm("30")}}
		}, []string{"the bore of 20.000 mm", "the diameter of 20.000 mm"}},
		"no steps": {func() (trade.PartKind, trade.Shape) { return turned(trade.TurnedShape{}) }, []string{"needs its steps"}},
	} {
		t.Run(name, func(t *testing.T) {
			kind, shape := c.made()
			_, err := build(kind, shape)
			wants(t, err, c.want)
		})
	}
}

// wants fails unless an error is one of the user's and has these words.
func wants(t *testing.T, err error, words []string) {
	t.Helper()
	var faults trade.Faults
	if !errors.As(err, &faults) {
		t.Fatalf("not refused: %v", err)
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%q does not say %q", err, w)
		}
	}
	if len(faults) > 2 {
		t.Errorf("%d faults for one: %v", len(faults), err)
	}
}

// TestRefusedByName names sizes of the part, and the place where they stand.
func TestRefusedByName(t *testing.T) {
	kind, shape := turned(trade.TurnedShape{
		Steps: []trade.Step{{Section: trade.Round, Size: called("shank", 31), Length: mm("30")}},
		Bore:  []trade.Step{{Size: called("socket", 35), Length: mm("12")}},
	})
	_, err := build(kind, shape, is("shank", trade.Diameter, "1/2 in"), is("socket", trade.Diameter, "13 mm"))
	wants(t, err, []string{"35:7: ", "the bore socket of 13.000 mm", "the diameter shank of 12.700 mm"})
	_, err = build(kind, shape, is("shank", trade.Diameter, "1/2 in"))
	wants(t, err, []string{"35:7: ", `there is no size "socket"`})
	_, err = build(kind, shape, is("shank", trade.Diameter, "old - 1 mm"), is("socket", trade.Diameter, "5 mm"))
	wants(t, err, []string{"31:7: ", "shank", "cannot be worked out"})
}

// TestThreadInStock refuses a thread larger than the stock it is cut in.
func TestThreadInStock(t *testing.T) {
	kind, shape := turned(trade.TurnedShape{
		Steps: []trade.Step{step("10", "20")},
		Bore:  []trade.Step{{Thread: "screw", Length: mm("10"), Pos: trade.Pos{Line: 8, Column: 3}}},
	})
	_, err := build(kind, shape, screw("screw", "M12"))
	wants(t, err, []string{"8:3: ", "the thread screw of 12.000 mm", "the diameter of 10.000 mm"})
	_, err = build(kind, shape, screw("screw", "M13½"))
	wants(t, err, []string{"M13½"})
}

// TestNoShape says what to write where there is no shape.
func TestNoShape(t *testing.T) {
	_, err := build(trade.BushPart, trade.Shape{}, is("outside", trade.Diameter, "20 mm"))
	wants(t, err, []string{"shape", "outside, inside, length", "there is no inside, length"})
	_, err = build(trade.TurnedPart, trade.Shape{})
	wants(t, err, []string{"a turned part needs its shape"})
	m, err := build(trade.BushPart, trade.Shape{}, is("outside", trade.Diameter, "20 mm"), is("inside", trade.Diameter, "12 mm"), is("length", trade.Length, "25 mm"))
	if err != nil || m.Turned.Length != 25 {
		t.Errorf("a bush by its sizes' names: %+v, %v", m, err)
	}
	if _, err = part.Build(&trade.Job{}, nil, nil); err == nil {
		t.Error("a job without a part gives one")
	}
}
