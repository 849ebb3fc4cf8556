package part_test

import (
	"errors"
	"strings"
	"testing"

	"oddleg"
	"oddleg/part"
	"oddleg/unit"
)

// mm is a plain measure in mm as it would be written.
func mm(text string) oddleg.Measure {
	q, err := unit.ParseLength(text, unit.Millimetre)
	if err != nil {
		panic(err)
	}
	return oddleg.Measure{Value: q}
}

func deg(text string) oddleg.Measure {
	q, err := unit.ParseAngle(text)
	if err != nil {
		panic(err)
	}
	return oddleg.Measure{Value: q}
}

// called is a size of the part by its id.
func called(id string, line int) oddleg.Measure {
	return oddleg.Measure{ID: id, Pos: oddleg.Pos{Line: line, Column: 7}}
}

func build(kind oddleg.PartKind, shape oddleg.Shape, sizes ...oddleg.NewSize) (*part.Model, error) {
	job := &oddleg.Job{Units: unit.Millimetre, Part: &oddleg.Part{Name: "Test", Kind: kind, Sizes: sizes, Shape: shape}}
	return part.Build(job, nil, nil)
}

func turned(s oddleg.TurnedShape) (oddleg.PartKind, oddleg.Shape) {
	return oddleg.TurnedPart, oddleg.Shape{Turned: &s}
}

func plate(s oddleg.PlateShape) (oddleg.PartKind, oddleg.Shape) {
	return oddleg.PlatePart, oddleg.Shape{Plate: &s}
}

func shoe(s oddleg.ShoeShape) (oddleg.PartKind, oddleg.Shape) {
	return oddleg.SectorShoe, oddleg.Shape{Shoe: &s}
}

// step is a plain step.
func step(diameter, length string) oddleg.Step {
	return oddleg.Step{Section: oddleg.Round, Size: mm(diameter), Length: mm(length)}
}

// with returns a step after something was changed in it.
func with(s oddleg.Step, change func(*oddleg.Step)) oddleg.Step {
	change(&s)
	return s
}

func is(id string, kind oddleg.SizeKind, text string) oddleg.NewSize {
	return oddleg.NewSize{ID: id, Kind: kind, From: oddleg.Is, Of: oddleg.Formula{Text: text}}
}

func screw(id, designation string) oddleg.NewSize {
	return oddleg.NewSize{ID: id, From: oddleg.IsThread, Thread: designation}
}

// square is a plate 60 × 40 × 10.
func square(change func(*oddleg.PlateShape)) (oddleg.PartKind, oddleg.Shape) {
	s := oddleg.PlateShape{Thickness: mm("10"), Rectangle: &oddleg.RectangleShape{Length: mm("60"), Width: mm("40")}}
	change(&s)
	return plate(s)
}

func at(x, y, diameter string) oddleg.HoleShape {
	return oddleg.HoleShape{X: mm(x), Y: mm(y), Diameter: mm(diameter)}
}

func corner(x, y string) oddleg.Corner { return oddleg.Corner{X: mm(x), Y: mm(y)} }

// TestRefused has geometry that cannot be, and what must be said of it: the two
// sizes that clash (constructed).
func TestRefused(t *testing.T) {
	shaft := []oddleg.Step{step("10", "30"), step("20", "40")}
	cut := func(i int, change func(*oddleg.Step)) []oddleg.Step {
		steps := []oddleg.Step{shaft[0], shaft[1]}
		steps[i] = with(steps[i], change)
		return steps
	}
	for name, c := range map[string]struct {
		made func() (oddleg.PartKind, oddleg.Shape)
		want []string
	}{
		"bore as large as the body": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, Bore: []oddleg.Step{step("12", "20")}})
		}, []string{"the bore of 12.000 mm", "the diameter of 10.000 mm", "no wall is left"}},
		"bore into a taper": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: cut(0, func(s *oddleg.Step) { s.To = mm("5") }), Bore: []oddleg.Step{step("6", "30")}})
		}, []string{"the bore of 6.000 mm", "the diameter of 10.000 mm"}},
		"bores longer than the part": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, Bore: []oddleg.Step{step("4", "50")}, RightBore: []oddleg.Step{step("5", "30")}})
		}, []string{"80.000 mm deep together", "70.000 mm", "the length of 30.000 mm is 10.000 mm too long"}},
		"bores whose points meet": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, Bore: []oddleg.Step{step("6", "39")}, RightBore: []oddleg.Step{step("6", "30")}})
		}, []string{"the bore of 6.000 mm", "from the other end"}},
		"bore through with its point": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, Bore: []oddleg.Step{step("6", "69")}})
		}, []string{"the bore of 6.000 mm breaks through"}},
		"fillet larger than its shoulder": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: cut(0, func(s *oddleg.Step) { s.Fillet = mm("6") })})
		}, []string{"the fillet of 6.000 mm", "the diameter of 20.000 mm", "larger than the shoulder"}},
		"fillet and chamfer on one shoulder": {func() (oddleg.PartKind, oddleg.Shape) {
			steps := cut(0, func(s *oddleg.Step) { s.Fillet = mm("3") })
			steps[1].Chamfer = mm("2.5")
			return turned(oddleg.TurnedShape{Steps: steps})
		}, []string{"the fillet of 3.000 mm", "the chamfer of 2.500 mm"}},
		"chamfer larger than the shoulder": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: cut(1, func(s *oddleg.Step) { s.Chamfer = mm("6") })})
		}, []string{"the chamfer of 6.000 mm", "the diameter of 10.000 mm", "larger than the shoulder"}},
		"chamfer longer than the step": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: []oddleg.Step{with(step("20", "3"), func(s *oddleg.Step) { s.Chamfer = mm("2") })}})
		}, []string{"the chamfer of 2.000 mm", "the length of 3.000 mm"}},
		"undercut deeper than the radius": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: cut(0, func(s *oddleg.Step) { s.Undercut = oddleg.Undercut{Width: mm("3"), Depth: mm("5")} })})
		}, []string{"the depth of the undercut of 5.000 mm", "the diameter of 10.000 mm"}},
		"undercut and fillet": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: cut(0, func(s *oddleg.Step) {
				s.Undercut, s.Fillet = oddleg.Undercut{Width: mm("3"), Depth: mm("1")}, mm("0.5")
			})})
		}, []string{"the width of the undercut of 3.000 mm", "the fillet of 0.500 mm"}},
		"groove outside its step": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: cut(0, func(s *oddleg.Step) { s.Grooves = []oddleg.Groove{{At: mm("28"), Width: mm("3"), Diameter: mm("8")}} })})
		}, []string{"the place of a groove of 28.000 mm", "the width of a groove of 3.000 mm", "30.000 mm long"}},
		"groove that cuts nothing": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: cut(0, func(s *oddleg.Step) { s.Grooves = []oddleg.Groove{{At: mm("8"), Width: mm("3"), Diameter: mm("10")}} })})
		}, []string{"the diameter of a groove of 10.000 mm", "the diameter of 10.000 mm", "cut nothing"}},
		"cross hole larger than the body": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, CrossHoles: []oddleg.CrossHole{{At: mm("15"), Diameter: mm("10")}}})
		}, []string{"the cross hole of 10.000 mm", "the diameter of 10.000 mm"}},
		"cross hole off the end": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, CrossHoles: []oddleg.CrossHole{{At: mm("68"), Diameter: mm("6")}}})
		}, []string{"the cross hole of 6.000 mm", "the place of a cross hole of 68.000 mm", "67.000 mm"}},
		"cross hole out below": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, CrossHoles: []oddleg.CrossHole{{At: mm("50"), Diameter: mm("6"), Depth: mm("19")}}})
		}, []string{"the depth of the cross hole of 19.000 mm", "the diameter of 20.000 mm"}},
		"cross holes that meet": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, CrossHoles: []oddleg.CrossHole{{At: mm("50"), Diameter: mm("6")}, {At: mm("55"), Diameter: mm("6")}}})
		}, []string{"the cross hole of 6.000 mm", "the place of a cross hole of 55.000 mm", "50.000 mm from the left"}},
		"flat that misses": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, Flats: []oddleg.Flat{{From: mm("0"), Length: mm("10"), Across: mm("10")}}})
		}, []string{"the width across flats of 10.000 mm", "the diameter of 10.000 mm", "cuts nothing"}},
		"flat off the end": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, Flats: []oddleg.Flat{{From: mm("60"), Length: mm("15"), Height: mm("8")}}})
		}, []string{"the length of a flat of 15.000 mm", "75.000 mm", "70.000 mm long"}},
		"flat that opens the bore": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, Bore: []oddleg.Step{step("8", "20")}, Flats: []oddleg.Flat{{Length: mm("10"), Height: mm("3.5")}}})
		}, []string{"the height of a flat of 3.500 mm", "the bore of 8.000 mm", "opens the bore"}},
		"centre hole in a bore": {func() (oddleg.PartKind, oddleg.Shape) {
			return turned(oddleg.TurnedShape{Steps: shaft, Bore: []oddleg.Step{step("8", "20")}, LeftCentre: mm("2")})
		}, []string{"the centre hole of 2.000 mm", "the bore of 8.000 mm"}},
		"inner radius over the outer": {func() (oddleg.PartKind, oddleg.Shape) {
			return shoe(oddleg.ShoeShape{Inner: mm("60"), Outer: mm("50"), Angle: deg("30"), Height: mm("10")})
		}, []string{"the inner radius of 60.000 mm", "the outer radius of 50.000 mm"}},
		"stem wider than the shoe": {func() (oddleg.PartKind, oddleg.Shape) {
			return shoe(oddleg.ShoeShape{Width: mm("15"), Length: mm("30"), Height: mm("10"), Stem: &oddleg.StemShape{Diameter: mm("16"), Length: mm("30")}})
		}, []string{"the stem of 16.000 mm", "7.500 mm from the nearest edge"}},
		"chamfers that meet": {func() (oddleg.PartKind, oddleg.Shape) {
			return square(func(s *oddleg.PlateShape) { s.Chamfer = mm("5") })
		}, []string{"the chamfer of 5.000 mm", "the thickness of 10.000 mm"}},
		"corner radius": {func() (oddleg.PartKind, oddleg.Shape) {
			return square(func(s *oddleg.PlateShape) { s.Rectangle.Corners = mm("21") })
		}, []string{"the corner radius of 21.000 mm", "the width of 40.000 mm"}},
		"outline that crosses itself": {func() (oddleg.PartKind, oddleg.Shape) {
			return plate(oddleg.PlateShape{Thickness: mm("5"), Outline: []oddleg.Corner{corner("0", "0"), corner("40", "40"), corner("40", "0"), corner("0", "30")}})
		}, []string{"crosses itself", "corner 2", "corner 4"}},
		"arc that does not reach": {func() (oddleg.PartKind, oddleg.Shape) {
			c := corner("40", "0")
			c.Radius = mm("15")
			return plate(oddleg.PlateShape{Thickness: mm("5"), Outline: []oddleg.Corner{corner("0", "0"), c, corner("20", "30")}})
		}, []string{"the arc radius of 15.000 mm", "40.000 mm apart"}},
		"rounding that does not fit": {func() (oddleg.PartKind, oddleg.Shape) {
			c := corner("40", "0")
			c.Round = mm("35")
			return plate(oddleg.PlateShape{Thickness: mm("5"), Outline: []oddleg.Corner{corner("0", "0"), c, corner("40", "30"), corner("0", "30")}})
		}, []string{"the rounding of 35.000 mm", "corner 2", "30.000 mm"}},
		"hole outside": {func() (oddleg.PartKind, oddleg.Shape) {
			return square(func(s *oddleg.PlateShape) { s.Holes = []oddleg.HoleShape{at("70", "20", "6")} })
		}, []string{"the hole of 6.000 mm at (70.000 mm, 20.000 mm)", "outside the outline"}},
		"hole that breaks the edge": {func() (oddleg.PartKind, oddleg.Shape) {
			return square(func(s *oddleg.PlateShape) { s.Holes = []oddleg.HoleShape{at("57", "20", "6")} })
		}, []string{"the hole of 6.000 mm at (57.000 mm, 20.000 mm)", "breaks the edge", "3.000 mm from its middle"}},
		"holes that meet": {func() (oddleg.PartKind, oddleg.Shape) {
			return square(func(s *oddleg.PlateShape) { s.Holes = []oddleg.HoleShape{at("20", "20", "6"), at("26", "20", "7")} })
		}, []string{"the hole of 6.000 mm", "the hole of 7.000 mm", "6.000 mm apart"}},
		"hole too deep": {func() (oddleg.PartKind, oddleg.Shape) {
			h := at("20", "20", "6")
			h.Depth = mm("9")
			return square(func(s *oddleg.PlateShape) { s.Holes = []oddleg.HoleShape{h} })
		}, []string{"the depth of the hole of 9.000 mm", "the thickness of 10.000 mm"}},
		"counterbore smaller than its hole": {func() (oddleg.PartKind, oddleg.Shape) {
			h := at("20", "20", "6")
			h.CounterboreD, h.CounterboreH = mm("5"), mm("3")
			return square(func(s *oddleg.PlateShape) { s.Holes = []oddleg.HoleShape{h} })
		}, []string{"the counterbore of 5.000 mm", "the hole of 6.000 mm"}},
		"slot that breaks the edge": {func() (oddleg.PartKind, oddleg.Shape) {
			return square(func(s *oddleg.PlateShape) {
				s.Slots = []oddleg.SlotShape{{FromX: mm("10"), FromY: mm("20"), ToX: mm("58"), ToY: mm("20"), Width: mm("6")}}
			})
		}, []string{"the slot of 6.000 mm", "breaks the edge"}},
		"slot too deep": {func() (oddleg.PartKind, oddleg.Shape) {
			return square(func(s *oddleg.PlateShape) {
				s.Slots = []oddleg.SlotShape{{FromX: mm("10"), FromY: mm("20"), ToX: mm("50"), ToY: mm("20"), Width: mm("6"), Depth: mm("10")}}
			})
		}, []string{"the depth of the slot of 10.000 mm", "the thickness of 10.000 mm"}},
		"ledge outside": {func() (oddleg.PartKind, oddleg.Shape) {
			return square(func(s *oddleg.PlateShape) {
				s.Ledges = []oddleg.Ledge{{FromX: mm("50"), FromY: mm("0"), ToX: mm("65"), ToY: mm("40"), Depth: mm("3")}}
			})
		}, []string{"reaches beyond the plate", "65.000 mm"}},
		"ledge as deep as the plate": {func() (oddleg.PartKind, oddleg.Shape) {
			return square(func(s *oddleg.PlateShape) {
				s.Ledges = []oddleg.Ledge{{FromX: mm("50"), FromY: mm("0"), ToX: mm("60"), ToY: mm("40"), Depth: mm("10")}}
			})
		}, []string{"the depth of a ledge of 10.000 mm", "the thickness of 10.000 mm"}},
		"gib thicker at its thin end": {func() (oddleg.PartKind, oddleg.Shape) {
			return oddleg.GibPart, oddleg.Shape{Gib: &oddleg.GibShape{Length: mm("200"), Width: mm("30"), Thick: mm("6"), Thin: mm("7")}}
		}, []string{"the thin end of 7.000 mm", "the thick end of 6.000 mm"}},
		"key as short as it is wide": {func() (oddleg.PartKind, oddleg.Shape) {
			return oddleg.KeyPart, oddleg.Shape{Key: &oddleg.KeyShape{Length: mm("8"), Width: mm("8"), Height: mm("7"), RoundEnds: true}}
		}, []string{"the length of 8.000 mm", "the width of 8.000 mm"}},
		"bush bored out": {func() (oddleg.PartKind, oddleg.Shape) {
			return oddleg.BushPart, oddleg.Shape{Bush: &oddleg.BushShape{Outside: mm("20"), Inside: mm("20"), Length: mm("30")}}
		}, []string{"the bore of 20.000 mm", "the diameter of 20.000 mm"}},
		"no steps": {func() (oddleg.PartKind, oddleg.Shape) { return turned(oddleg.TurnedShape{}) }, []string{"needs its steps"}},
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
	var faults oddleg.Faults
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
	kind, shape := turned(oddleg.TurnedShape{
		Steps: []oddleg.Step{{Section: oddleg.Round, Size: called("shank", 31), Length: mm("30")}},
		Bore:  []oddleg.Step{{Size: called("socket", 35), Length: mm("12")}},
	})
	_, err := build(kind, shape, is("shank", oddleg.Diameter, "1/2 in"), is("socket", oddleg.Diameter, "13 mm"))
	wants(t, err, []string{"35:7: ", "the bore socket of 13.000 mm", "the diameter shank of 12.700 mm"})
	_, err = build(kind, shape, is("shank", oddleg.Diameter, "1/2 in"))
	wants(t, err, []string{"35:7: ", `there is no size "socket"`})
	_, err = build(kind, shape, is("shank", oddleg.Diameter, "old - 1 mm"), is("socket", oddleg.Diameter, "5 mm"))
	wants(t, err, []string{"31:7: ", "shank", "cannot be worked out"})
}

// TestThreadInStock refuses a thread larger than the stock it is cut in.
func TestThreadInStock(t *testing.T) {
	kind, shape := turned(oddleg.TurnedShape{
		Steps: []oddleg.Step{step("10", "20")},
		Bore:  []oddleg.Step{{Thread: "screw", Length: mm("10"), Pos: oddleg.Pos{Line: 8, Column: 3}}},
	})
	_, err := build(kind, shape, screw("screw", "M12"))
	wants(t, err, []string{"8:3: ", "the thread screw of 12.000 mm", "the diameter of 10.000 mm"})
	_, err = build(kind, shape, screw("screw", "M13½"))
	wants(t, err, []string{"M13½"})
}

// TestNoShape says what to write where there is no shape.
func TestNoShape(t *testing.T) {
	_, err := build(oddleg.BushPart, oddleg.Shape{}, is("outside", oddleg.Diameter, "20 mm"))
	wants(t, err, []string{"shape", "outside, inside, length", "there is no inside, length"})
	_, err = build(oddleg.TurnedPart, oddleg.Shape{})
	wants(t, err, []string{"a turned part needs its shape"})
	m, err := build(oddleg.BushPart, oddleg.Shape{}, is("outside", oddleg.Diameter, "20 mm"), is("inside", oddleg.Diameter, "12 mm"), is("length", oddleg.Length, "25 mm"))
	if err != nil || m.Turned.Length != 25 {
		t.Errorf("a bush by its sizes' names: %+v, %v", m, err)
	}
	if _, err = part.Build(&oddleg.Job{}, nil, nil); err == nil {
		t.Error("a job without a part gives one")
	}
}
