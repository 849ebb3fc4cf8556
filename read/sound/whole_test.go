package sound_test

import (
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// The makers of quantities for jobs written in Go.

func mm(text string) unit.Quantity { return sure(unit.ParseLength(text, unit.Millimetre)) }

func angle(text string) unit.Quantity { return sure(unit.ParseAngle(text)) }

func number(text string) unit.Quantity { return sure(unit.ParseNumber(text)) }

func force(text string) unit.Quantity { return sure(unit.ParseForce(text)) }

func span(text string) unit.Range { return sure(unit.ParseRange(text, unit.Millimetre)) }

func sure[T any](value T, err error) T {
	if err != nil {
		panic(err)
	}
	return value
}

func pair(x, y string) [2]unit.Quantity { return [2]unit.Quantity{mm(x), mm(y)} }

func saw(values ...string) []trade.Seen {
	var seen []trade.Seen
	for _, v := range values {
		seen = append(seen, trade.Seen{X: mm(v)})
	}
	return seen
}

func at(id string) trade.Measure { return trade.Measure{ID: id} }

func plain(text string) trade.Measure { return trade.Measure{Value: mm(text)} }

func is(text string) trade.Formula { return trade.Formula{Text: text} }

// whole returns a sound job, made in Go, that has something of everything.
func whole() *trade.Job {
	job := &trade.Job{
		Name: "Whole", Units: unit.Millimetre,
		Machine: trade.Machine{What: "lathe", Built: 1936, Country: "GB"},
	}
	measured(job)
	job.Part = plate()
	job.Joints = joints()
	job.Shop = shop()
	job.Work = work()
	job.Checks = []trade.Check{
		{Piece: 1, AtTemp: number("28"), WithTemp: number("22"), Reading: trade.Reading{
			ID: "k1", By: "outside", Of: []trade.Arg{{Role: "size", ID: "part.long"}}, With: "mic", Saw: saw("80.02"),
		}},
		{Piece: 1, Reading: trade.Reading{ID: "k2", By: "formula", That: is("part.screw.effective"), With: "mic"}},
		{Piece: 1, Old: true, Reading: trade.Reading{
			ID: "k3", By: "outside",
			Of: []trade.Arg{{Role: "size", ID: "shank"}}, With: "mic", Saw: saw("19"),
		}},
	}
	job.Surveys = surveys()
	return job
}

// measured gives a job its kit, sizes and readings.
func measured(job *trade.Job) {
	job.Instruments = []trade.Instrument{
		{ID: "mic", Kind: trade.Micrometer, Resolution: mm("0.01"), MPE: mm("0.005")},
		{ID: "bevel", Kind: trade.Protractor, Resolution: angle("0.1")},
		{ID: "panel", Kind: trade.Readout, Resolution: mm("0.005"), MPE: mm("0.01")},
	}
	job.Pieces = []trade.Piece{
		{ID: "pin", Kind: trade.Pin, Size: mm("6"), Tolerance: mm("0.002")},
		{ID: "tip", Kind: trade.Stylus, Size: mm("3")},
	}
	job.Sizes = []trade.Size{
		{ID: "shank", Kind: trade.Diameter, Surface: trade.Outside, Wear: trade.LightWear},
		{
			ID: "bore", Kind: trade.Diameter, Surface: trade.Inside, Guess: mm("20"), Wear: trade.TypicalWear,
			TypicalWear: mm("0.05"),
		},
		{ID: "slope", Kind: trade.HalfAngle, Known: trade.Prior{Value: angle("5"), U: angle("0.1")}},
		{ID: "thread", Kind: trade.Pitch, Known: trade.Prior{Value: mm("1.5")}},
	}
	job.Readings = []trade.Reading{
		{
			ID: "a", By: "outside", Of: []trade.Arg{{Role: "size", ID: "shank"}}, With: "mic",
			Saw: saw("19.04", "19.05"), At: mm("12"), Feel: mm("0.002"),
		},
		{
			ID: "b", By: "inside", Of: []trade.Arg{{Role: "size", ID: "bore"}},
			Goes: trade.Bound{Value: mm("19.9")}, Stops: trade.Bound{Value: mm("20.1")},
		},
		{ID: "c", By: "formula", That: is("bore - shank + pin"), With: "mic", Saw: saw("6.95")},
		{ID: "d", By: "over-plugs", Of: []trade.Arg{
			{Role: "from", ID: "h1"},
			{Role: "to", ID: "h2"},
			{Role: "plug-1", ID: "pin"},
			{Role: "plug-2", ID: "pin"},
		}, With: "mic", Saw: saw("40.1")},
		{
			ID: "e", By: "touch", Of: []trade.Arg{
				{Role: "circle", ID: "ring"},
				{Role: "stylus", ID: "tip"},
				{Role: "side", Value: number("1")},
			}, With: "panel",
			Saw: []trade.Seen{{X: mm("11.5"), Y: mm("0")}, {X: mm("0"), Y: mm("11.5")}, {X: mm("-11.5"), Y: mm("0")}},
		},
	}
	job.Relations = []trade.Relation{{That: is("bore - shank"), Is: is("0.95 mm"), Within: mm("0.1")}}
	job.Plans = []trade.Plan{
		{
			ID: "studs", Holes: []string{"h1", "h2", "h3"},
			Guess: map[string]trade.Point{"h3": {X: mm("20"), Y: mm("30")}},
		},
		{ID: "other", Holes: []string{"g1", "g2"}},
	}
	job.Places = []trade.Place{
		{ID: "ring", Kind: trade.Circle, Diameter: trade.Bound{ID: "bore"}, Guess: pair("0", "0")},
		{ID: "edge", Kind: trade.Line, Guess: [2]unit.Quantity{angle("90"), mm("12")}},
	}
	job.Threads = []trade.Thread{{ID: "tail", Major: "shank", Pitch: "thread", Starts: 1, Hand: trade.RightHand}}
}

// plate returns a part with sizes, stacks, mates and a shape.
func plate() *trade.Part {
	return &trade.Part{
		Name: "Plate", Kind: trade.PlatePart, Quantity: 1, Chance: 0.99, Holds: mm("0.02"),
		Sizes: []trade.NewSize{
			{ID: "long", Kind: trade.Length, From: trade.Is, Of: is("80"), Within: mm("0.2")},
			{
				ID: "wide", Kind: trade.Width, From: trade.GoesIn, Of: is("bore"), Clearance: span("0.01..0.04"),
				Rework: trade.EasyRework,
			},
			{ID: "lean", Kind: trade.Angle, From: trade.Is, Of: is("30 deg")},
			{
				ID: "eye", Kind: trade.Diameter, Surface: trade.Inside, From: trade.GoesOver, Of: is("shank"),
				Fit: "H7/g6",
			},
			{ID: "screw", From: trade.IsThread, Thread: "M8"},
		},
		Stacks: []trade.Stack{{ID: "over", That: is("part.long + 16 mm"), Wanted: span("95..97")}},
		Mates: []trade.Mate{{
			ID: "shoe", Pair: trade.StraightShoeInGroove,
			Of: []trade.MateArg{
				{Role: "width", Value: is("part.wide")},
				{Role: "length", Value: is("part.long")},
				{Role: "groove-outer", Value: is("95")},
				{Role: "groove-inner", Value: is("75")},
			},
			Entry: &trade.Entry{Kind: trade.RoundHole, Of: []trade.MateArg{{Role: "diameter", Value: is("120")}}},
		}},
		Shape: trade.Shape{Plate: &trade.PlateShape{
			Thickness: plain("8"), Rectangle: &trade.RectangleShape{Length: at("long"), Width: plain("50")},
			Holes: []trade.HoleShape{
				{
					X: plain("20"), Y: plain("15"), Diameter: at("eye"), CounterboreD: plain("26"),
					CounterboreH: plain("3"),
				},
				{
					X: plain("50"), Y: plain("25"), Circle: plain("20"), Count: 4,
					First: trade.Measure{Value: angle("45")}, Thread: "screw", Depth: plain("6"),
				},
				{Plan: "studs", Of: []string{"h1", "h2"}, Diameter: plain("3")},
			},
			Slots: []trade.SlotShape{{
				FromX: plain("66"), FromY: plain("12"), ToX: plain("66"), ToY: plain("36"),
				Width: plain("6"),
			}},
			Ledges: []trade.Ledge{{
				FromX: plain("0"), FromY: plain("40"), ToX: plain("80"), ToY: plain("50"),
				Depth: plain("2"),
			}},
		}},
	}
}

func joints() []trade.Joint {
	return []trade.Joint{
		{
			ID: "knob", Stud: trade.Member{PartSize: "screw", Grade: "8.8"},
			Into: trade.Member{Thread: "M8", Material: "CZ121", Length: mm("9")},
			Head: trade.Head{Kind: "tee", Height: mm("6"), Across: mm("20"), Width: mm("16"), Slot: mm("11")},
			Sheared: []trade.Sheared{
				{ID: "peg", Kind: "pin", Diameter: mm("4"), Planes: 2},
				{ID: "key", Kind: "key", Width: mm("6"), Height: mm("6"), Length: mm("30")},
			},
			Tighten: trade.Tighten{Preload: force("9 kN")}, Service: force("900 N"), Spanner: mm("150"),
			Holds: trade.HoldsWork, Fuse: "peg",
		},
		{ID: "joint 2", Press: &trade.PressFit{
			Diameter: mm("30"), Inside: mm("12"), Outside: mm("50"), Length: mm("20"),
			Interference: span("0.02..0.04"),
			Inner:        "EN8 condition Q", Outer: "CZ121", Warmer: number("40"),
		}},
	}
}

func shop() []trade.Machinery {
	return []trade.Machinery{
		{
			ID: "engine", Kind: trade.Lathe, Speeds: []float64{35, 60, 105}, Leadscrew: mm("3"),
			FixedRatio: trade.Ratio{Num: 1, Den: 2},
			Gearbox:    []trade.Ratio{{Num: 1, Den: 1}}, Gears: []int{20, 25, 30, 127}, Clearance: 12,
			Dials: []trade.DialScale{{
				Slide: "cross", Division: mm("0.02"), Turn: mm("2"),
				Reads: trade.ReadsDiameter,
			}},
		},
		{
			ID: "miller", Kind: trade.Mill, Travels: []trade.Travel{{Slide: "x", Length: mm("400")}}, Readout: true,
			Table:   &trade.RotaryTable{Ratio: 40, Plates: []int{15, 16, 17}, Divisions: 60, Gears: []int{24, 28}},
			Cutters: []trade.Cutter{{ID: "em12", Kind: "end-mill", Diameter: mm("12"), Teeth: 4, Material: "hss"}},
		},
	}
}

func work() []trade.Operation {
	return []trade.Operation{
		{ID: "saw", Do: "saw the plate", Makes: true, Needs: []string{}},
		{
			ID: "holes", Do: "drill it", On: "miller", Cutter: "em12", Needs: []string{"saw"}, Leave: mm("0.2"),
			Centre: pair("0", "0"),
			Datum: &trade.Datum{
				At: pair("0", "0"), Finder: mm("10"),
				Sides: []trade.Side{trade.LeftSide, trade.FrontSide}, Turned: angle("30"),
			},
			Holding: &trade.Holding{
				Force: force("500 N"), At: pair("30", "15"), Towards: angle("90"), Friction: 0.12,
				Contacts: []trade.Contact{
					{ID: "left", Kind: trade.JawContact, At: pair("0", "10"), Towards: angle("0"), Width: mm("40")},
					{
						ID: "bolt", Kind: trade.ScrewContact, At: pair("60", "10"), Towards: angle("180"),
						Clamping: force("4 kN"),
					},
					{
						ID: "strap", Kind: trade.ClampContact, At: pair("30", "20"), Clamping: force("6 kN"),
						Bolt: mm("30"), Heel: mm("80"),
					},
				},
			},
		},
		{ID: "operation 3", Do: "take the engine down", Apart: "engine"},
		{ID: "operation 4", Do: "put it up again", Back: "engine"},
	}
}

func surveys() []trade.Survey {
	day := time.Date(2024, 3, 31, 0, 0, 0, 0, time.UTC)
	lengths := func(texts ...string) []unit.Quantity {
		var list []unit.Quantity
		for _, text := range texts {
			list = append(list, mm(text))
		}
		return list
	}
	return []trade.Survey{
		{
			ID: "cross", Kind: survey.LostMotion, Date: day, With: "mic", Within: mm("0.1"),
			Figures: []trade.SurveyFigure{{Key: "end-float", Values: lengths("0.02")}},
			Stations: []trade.Station{
				{At: mm("0"), Saw: lengths("0.08")},
				{At: mm("60"), Saw: lengths("0.12", "0.13")},
				{At: mm("120"), Saw: lengths("0.07")},
			},
		},
		{
			ID: "survey 2", Kind: survey.Dovetail, Date: day, With: "mic", Rollers: []trade.RollerReading{
				{At: mm("0"), Roller: trade.Bound{ID: "pin"}, Saw: lengths("93.10")},
				{At: mm("150"), Roller: trade.Bound{ID: "pin"}, Raised: mm("4"), Saw: lengths("95.04")},
			},
		},
	}
}
