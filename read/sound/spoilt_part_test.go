package sound_test

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var spoiltPart = []spoilt{
	{"part-head", func(j *trade.Job) { j.Part.Kind = "turnd" }, `part: unknown kind "turnd"; did you mean "turned"?`},
	{"part-kind-missing", func(j *trade.Job) { j.Part.Kind = "" }, `part: "kind" is missing`},
	{
		"part-head", func(j *trade.Job) { j.Part.Quantity = -2 },
		`quantity in part is -2; it is a whole number from 1 to 100000`,
	},
	{
		"part-chance", func(j *trade.Job) { j.Part.Chance = 1.2 },
		`chance in part is 1.2; a chance is from 0.5 to 0.9999`,
	},
	{"part-chance", func(j *trade.Job) { j.Part.Chance = math.NaN() }, `chance in part is no number`},
	{"part-material", func(j *trade.Job) { j.Part.Material = "unobtainium" }, `material in part: `},
	{
		"part-size-id", func(j *trade.Job) { j.Part.Sizes[0].ID = "sin" },
		`"sin" cannot be the id of a size of the part`,
	},
	{
		"part-size-id", func(j *trade.Job) { j.Part.Sizes[1].ID = "long" },
		`the size of the part "long" stands here a second time`,
	},
	{
		"part-size-origin", func(j *trade.Job) { j.Part.Sizes[0].From = "from" },
		`part size "long": unknown origin "from"`,
	},
	{"part-size-origin", func(j *trade.Job) { j.Part.Sizes[0].Kind = "" }, `part size "long": "kind" is missing`},
	{
		"part-size-formula", func(j *trade.Job) { j.Part.Sizes[1].Of.Text = "boer" },
		`goes-in in part size "wide": "boer": there is no size or gauge piece of this name; did you mean bore?`,
	},
	{
		"part-size-value", func(j *trade.Job) { j.Part.Sizes[0].Of.Text = "-5" },
		`is in part size "long" is "-5"; it must be more than 0`,
	},
	{
		"part-size-value", func(j *trade.Job) { j.Part.Sizes[2].Of.Text = "1:20" },
		`is in part size "lean": "1:20" stands for the half angle`,
	},
	{
		"part-size-wanted", func(j *trade.Job) { j.Part.Sizes[1].Clearance = unit.Range{} },
		`part size "wide": one of clearance, interference, fit is missing`,
	},
	{
		"part-size-wanted", func(j *trade.Job) { j.Part.Sizes[1].Fit = "H7/g6" },
		`part size "wide": "clearance" and "fit" exclude each other`,
	},
	{
		"part-size-wanted", func(j *trade.Job) { r := &j.Part.Sizes[1].Clearance; r.Low, r.High = r.High, r.Low },
		`clearance in part size "wide" is from 0.04 mm to 0.01 mm; the smaller end comes first`,
	},
	{
		"part-size-wanted", func(j *trade.Job) { j.Part.Sizes[0].Tolerance = "h6" },
		`part size "long": "within" and "tolerance" exclude each other`,
	},
	{"part-size-fit", func(j *trade.Job) { j.Part.Sizes[3].Fit = "H77/g6" }, `fit in part size "eye": `},
	{
		"part-size-thread", func(j *trade.Job) { j.Part.Sizes[4].Thread = "M8x9" },
		`part size "screw": unknown thread "M8x9"`,
	},
	{
		"part-size-thread", func(j *trade.Job) { j.Part.Sizes[0].Class = "medium" },
		`part size "long": "class" does not belong here: only a thread has it`,
	},
	{
		"part-size-surface", func(j *trade.Job) { j.Part.Sizes[1].Surface = trade.Inside },
		`part size "wide": what goes in is outside, not inside`,
	},
	{
		"part-size-angle-goes-in", func(j *trade.Job) { j.Part.Sizes[2].From = trade.GoesIn },
		`part size "lean": only a length goes in or over`,
	},
	{
		"part-stacks", func(j *trade.Job) { j.Part.Stacks[0].That.Text = "part.lean" },
		`that in stack "over" is an angle where a length should be`,
	},
	{
		"part-stacks", func(j *trade.Job) { j.Part.Stacks[0].That.Text = "long" },
		`that in stack "over": "long": a size of the part is written part.long`,
	},
	{"part-mates", func(j *trade.Job) { j.Part.Mates[0].Pair = "shoe" }, `mate "shoe": unknown pair "shoe"`},
	{
		"part-mates", func(j *trade.Job) { m := &j.Part.Mates[0]; m.Of = m.Of[1:] },
		`the roles of mate "shoe": "width" is missing`,
	},
	{
		"part-mates", func(j *trade.Job) { j.Part.Mates[0].Of[0].Value.Text = "part.lean" },
		`width in the roles of mate "shoe": "part.lean"`,
	},
	{"part-entry", func(j *trade.Job) { j.Part.Mates[0].Entry.Kind = "" }, `entry of mate "shoe": "kind" is missing`},
}

var spoiltShapes = []spoilt{
	{
		"shape-of-another-kind", func(j *trade.Job) { j.Part.Shape.Washer = &trade.WasherShape{} },
		"part: it is of kind plate, but has the shape of a washer",
	},
	{
		"shape-missing", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = trade.Measure{} },
		`shape of a plate: "thickness" is missing`,
	},
	{
		"shape-measures", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = at("lng") },
		`thickness in shape of a plate: unknown size of the part "lng"; did you mean "long"?`,
	},
	{
		"shape-measures", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = at("lean") },
		`thickness in shape of a plate: "lean" is an angle where a length should be`,
	},
	{
		"shape-measures", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = at("screw") },
		`"screw" is a thread where a length should be`,
	},
	{
		"shape-values", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = plain("0") },
		`thickness in shape of a plate is 0 mm; it must be more than 0`,
	},
	{
		"shape-plate", func(j *trade.Job) { j.Part.Shape.Plate.Disc = plain("50") },
		`shape of a plate: "rectangle" and "disc" exclude each other`,
	},
	{"shape-plate-outline-short", func(j *trade.Job) {
		j.Part.Shape.Plate.Rectangle, j.Part.Shape.Plate.Outline = nil, []trade.Corner{{X: plain("0"), Y: plain("0")}}
	}, "outline in shape of a plate: 1 corners bound nothing"},
	{"shape-plate-outline", func(j *trade.Job) {
		corner := func(x string) trade.Corner {
			return trade.Corner{
				X: plain(x), Y: plain("0"),
				Turn: trade.Clockwise,
			}
		}
		j.Part.Shape.Plate.Rectangle, j.Part.Shape.Plate.Outline = nil,
			[]trade.Corner{corner("0"), corner("1"), corner("2")}
	}, `corner 1: "turn" does not belong here: it stands beside "radius"`},
	{
		"shape-plate-holes", func(j *trade.Job) { j.Part.Shape.Plate.Holes[2].Of[1] = "g1" },
		`of in hole 3: "g1" is no hole of the plan "studs"`,
	},
	{"shape-plate-holes", func(j *trade.Job) { j.Part.Shape.Plate.Holes[1].Count = 0 }, `hole 2: "count" is missing`},
	{
		"shape-plate-holes", func(j *trade.Job) { j.Part.Shape.Plate.Holes[1].Thread = "eye" },
		`thread in hole 2: "eye" is no thread`,
	},
	{"shape-turned-no-steps", func(j *trade.Job) { turn(j) }, `shape of a turned part: "steps" is missing`},
	{
		"shape-turned-steps", func(j *trade.Job) { turn(j, trade.Step{Section: trade.Round, Size: plain("20")}) },
		`step 1: "length" is missing`,
	},
	{
		"shape-turned", func(j *trade.Job) { turn(j, trade.Step{Section: trade.Round, Length: plain("20")}) },
		`step 1: one of diameter, hexagon, square, thread is missing`,
	},
	{"shape-turned-details", func(j *trade.Job) {
		turn(j, trade.Step{Section: trade.Hexagon, Size: plain("20"), Length: plain("9"), To: plain("8")})
	}, `step 1: "to" does not belong here: a taper runs from "diameter" to it`},
	{"shape-turned-details", func(j *trade.Job) {
		turn(j, trade.Step{
			Section: trade.Round, Size: plain("20"), Length: plain("9"),
			Surface: trade.Texture(math.Inf(1)),
		})
	}, `ra in step 1 is no number`},
	{"shape-shoe-neither", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.SectorShoe, trade.Shape{Shoe: &trade.ShoeShape{Height: plain("9")}}
	}, "shape of a sector shoe: write outer, inner and angle of a sector, or width and length of straight sides"},
	{"shape-shoe", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.SectorShoe,
			trade.Shape{Shoe: &trade.ShoeShape{Height: plain("9"), Outer: plain("60")}}
	}, `shape of a sector shoe: "inner" is missing`},
	{"shape-shoe-angle", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.SectorShoe,
			trade.Shape{Shoe: &trade.ShoeShape{Angle: trade.Measure{Value: angle("1:20")}}}
	}, "angle in shape of a sector shoe: the taper 1:20 stands for a half angle"},
	{"shape-nut", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.NutPart,
			trade.Shape{Nut: &trade.NutShape{Section: "oval", Size: plain("9")}}
	}, `nut: unknown section "oval"`},
	{"shape-key", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.KeyPart, trade.Shape{Key: &trade.KeyShape{Width: plain("9")}}
	}, `shape of a key: "height" is missing`},
	{"shape-gib", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.GibPart, trade.Shape{Gib: &trade.GibShape{Angle: plain("9")}}
	}, `angle in shape of a gib is 9 mm, a length where an angle should be`},
}

// turn makes the part a turned one of these steps.
func turn(j *trade.Job, steps ...trade.Step) {
	j.Part.Kind, j.Part.Shape = trade.TurnedPart, trade.Shape{Turned: &trade.TurnedShape{Steps: steps}}
}
