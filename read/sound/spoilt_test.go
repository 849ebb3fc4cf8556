package sound_test

import (
	"errors"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/sound"
)

// TestWholeIsSound holds of the job that the others spoil.
func TestWholeIsSound(t *testing.T) {
	if err := sound.Check(whole()); err != nil {
		t.Error(err)
	}
}

// spoilt is a way to spoil the whole job, the fault that comes of it, and the file
// of testdata/faults that has the same fault in writing.
type spoilt struct {
	file string
	do   func(j *trade.Job)
	want string
}

var spoilts = slices.Concat(spoiltKit, spoiltSizes, spoiltReadings, spoiltChecks, spoiltPart, spoiltShapes, spoiltJoints, spoiltShop, spoiltWork, spoiltSurveys)

var spoiltKit = []spoilt{
	{"", func(j *trade.Job) { j.Name = "" }, `the job: "job" is missing: what it is called`},
	{"units", func(j *trade.Job) { j.Units = unit.Degree }, "the units of the job are neither millimetres nor inches"},
	{"machine-year", func(j *trade.Job) { j.Machine.Built = 12345 }, "built in machine is 12345; it is a whole number from 1 to 9999"},
	{"control-in-text", func(j *trade.Job) { j.Machine.What = "a\x1bb" }, `what in machine: "a\x1bb" has a control character`},
	{"kit-kind", func(j *trade.Job) { j.Instruments[0].Kind = "micrometre" }, `kit entry "mic": unknown kind "micrometre"; did you mean "micrometer"?`},
	{"kit-dimension", func(j *trade.Job) { j.Instruments[0].MPE = angle("0.1") }, `mpe in kit entry "mic" is 0.1 deg, an angle where a length should be`},
	{"kit-dimension", func(j *trade.Job) { j.Instruments[1].Resolution = mm("0.1") }, `resolution in kit entry "bevel" is 0.1 mm, a length where an angle should be`},
	{"kit-negative", func(j *trade.Job) { j.Instruments[0].Zero = mm("-0.01") }, `zero in kit entry "mic" is -0.01 mm; it must not be negative`},
	{"kit-zero-resolution", func(j *trade.Job) { j.Instruments[0].Resolution = mm("0") }, `resolution in kit entry "mic" is 0 mm; it must be more than 0`},
	{"kit-no-error", func(j *trade.Job) { j.Instruments[0] = trade.Instrument{ID: "mic", Kind: trade.OtherInstrument} }, "instrument mic: nothing is known of the error of the kind other"},
	{"kit-no-scatter", func(j *trade.Job) {
		j.Instruments[0] = trade.Instrument{ID: "mic", Kind: trade.Micrometer, Zero: mm("0.01"), Repeat: mm("0")}
	}, "instrument mic: a repeat of 0 leaves its readings without error"},
	{"kit-piece-size", func(j *trade.Job) { j.Pieces[0].Size = unit.Quantity{} }, `kit entry "pin": "size" is missing`},
	{"kit-wrong-sort", func(j *trade.Job) { j.Pieces[0].Kind = trade.PieceKind(trade.Caliper) }, `kit entry "pin": unknown kind "caliper"`},
	{"id-pattern", func(j *trade.Job) { j.Instruments[0].ID = "2mic" }, `"2mic" is no id of an instrument: a letter first`},
	{"id-reserved", func(j *trade.Job) { j.Sizes[0].ID = "sin" }, `"sin" cannot be the id of a size: it is the name of a unit, function or constant`},
	{"id-twice", func(j *trade.Job) { j.Sizes[1].ID = "mic" }, `the id "mic" stands here a second time; the first, of an instrument, is before it`},
}

var spoiltSizes = []spoilt{
	{"size-kind", func(j *trade.Job) { j.Sizes[0].Kind = "diamter" }, `size "shank": unknown kind "diamter"; did you mean "diameter"?`},
	{"size-words", func(j *trade.Job) { j.Sizes[0].Surface = "outer" }, `size "shank": unknown surface "outer"`},
	{"size-words", func(j *trade.Job) { j.Sizes[0].Wear = "lots" }, `size "shank": unknown wear "lots"`},
	{"size-words", func(j *trade.Job) { j.Sizes[1].TypicalWear = unit.Quantity{} }, `size "bore": wear is typical where a length says how much`},
	{"size-dimension", func(j *trade.Job) { j.Sizes[0].Make = angle("1") }, `make in size "shank" is 1 deg, an angle where a length should be`},
	{"size-form", func(j *trade.Job) { j.Sizes[0].Form = mm("-0.1") }, `form in size "shank" is -0.1 mm; it must not be negative`},
	{"size-guess", func(j *trade.Job) { j.Sizes[1].Guess = angle("20") }, `guess in size "bore" is 20 deg, an angle where a length should be`},
	{"size-not-positive", func(j *trade.Job) { j.Sizes[1].Guess = mm("0") }, `guess in size "bore" is 0 mm; it must be more than 0`},
	{"size-within", func(j *trade.Job) { j.Sizes[2].Known.Within = angle("0.1") }, `size "slope": "within" and "u" exclude each other`},
	{"size-within", func(j *trade.Job) { j.Sizes[2].Known.Value = unit.Quantity{} }, `size "slope": "u" does not belong here: it stands beside "known"`},
	{"", func(j *trade.Job) { j.Sizes[1].Guess = sure(unit.New(math.MaxInt64, 1, unit.Inch)) }, `guess in size "bore" is 9223372036854775807 in; nothing in a workshop is as large`},
	{"", func(j *trade.Job) { j.Sizes[0].Make = sure(unit.New(1, math.MaxInt64, unit.Millimetre)) }, `write 0, or what can be measured`},
	{"relation-dimension", func(j *trade.Job) { j.Relations[0].Is = "5 deg" }, `is in relation "bore - shank": "5 deg"`},
	{"relation-keys", func(j *trade.Job) { j.Relations[0].Is = "" }, `relation "bore - shank": "is" is missing`},
	{"relation-keys", func(j *trade.Job) { j.Relations[0].U = mm("0.1") }, `relation "bore - shank": "within" and "u" exclude each other`},
	{"relation-no-size", func(j *trade.Job) { j.Relations[0].That = "2*pin" }, `relation "2*pin" names no size, so it ties nothing`},
	{"relation-syntax", func(j *trade.Job) { j.Relations[0].That = "bore -" }, `that in relation "bore -"`},
	{"relation-within", func(j *trade.Job) { j.Relations[0].Within = mm("0") }, `within in relation "bore - shank" is 0 mm; it must be more than 0`},
	{"plan", func(j *trade.Job) { j.Plans[1].Holes = []string{"g1"} }, `holes in plan "other": 1 of them; 2 at least are wanted`},
	{"plan", func(j *trade.Job) { j.Plans[1].Holes = nil }, `plan "other": "holes" is missing`},
	{"plan-guess", func(j *trade.Job) { j.Plans[1].Guess = map[string]trade.Point{"h4": {X: mm("1"), Y: mm("1")}} }, `guess in plan "other": unknown hole "h4"`},
	{"plan-guess", func(j *trade.Job) { j.Plans[1].Guess = map[string]trade.Point{"g2": {X: mm("1")}} }, `guess in plan "other": a value is missing`},
	{"place", func(j *trade.Job) { j.Places[0].Kind = "sphere" }, `place "ring": unknown kind "sphere"`},
	{"place", func(j *trade.Job) { j.Places[0].Diameter = trade.Bound{} }, `place "ring": "diameter" is missing`},
	{"place", func(j *trade.Job) { j.Places[1].Diameter = trade.Bound{ID: "bore"} }, `place "edge": "diameter" does not belong here: a line has none`},
	{"place", func(j *trade.Job) { j.Places[0].Diameter.ID = "slope" }, `diameter in place "ring": "slope" is an angle where a length should be`},
	{"place-guess", func(j *trade.Job) { j.Places[1].Guess[0] = mm("5") }, `guess in place "edge" is 5 mm, a length where an angle should be`},
	{"", func(j *trade.Job) { j.Threads[0].Pitch = "bore" }, `pitch in thread "tail": "bore" is of kind diameter where one of kind pitch should be`},
	{"", func(j *trade.Job) { j.Threads[0].Starts = 25 }, `starts in thread "tail" is 25; it is a whole number from 1 to 24`},
}

var spoiltReadings = []spoilt{
	{"reading-id", func(j *trade.Job) { j.Readings[1].ID = "a" }, `the reading "a" stands here a second time; the first is before it`},
	{"reading-id", func(j *trade.Job) { j.Readings[1].ID = "" }, "a reading has no id"},
	{"reading-method", func(j *trade.Job) { j.Readings[0].By = "outsid" }, `reading "a": unknown method "outsid"; did you mean "outside"?`},
	{"instrument-unknown", func(j *trade.Job) { j.Readings[0].With = "mik" }, `with in reading "a": unknown instrument "mik"; did you mean "mic"?`},
	{"instrument-unknown", func(j *trade.Job) { j.Readings[0].With = "" }, `reading "a": "with" is missing`},
	{"instrument-dimension", func(j *trade.Job) { j.Readings[0].With = "bevel" }, `reading "a": the instrument "bevel" shows an angle, this reading is a length`},
	{"role-unknown", func(j *trade.Job) { j.Readings[0].Of[0].Role = "siz" }, `the roles of reading "a": unknown key "siz"`},
	{"role-missing", func(j *trade.Job) { j.Readings[0].Of = nil }, `reading "a": "of" is missing`},
	{"role-missing", func(j *trade.Job) { j.Readings[4].Of = j.Readings[4].Of[:2] }, `the roles of reading "e": "side" is missing`},
	{"from-without-plan-method", func(j *trade.Job) { j.Readings[0].Of[0].Role = "from" }, `the roles of reading "a": unknown key "from"`},
	{"role-unknown-id", func(j *trade.Job) { j.Readings[0].Of[0].ID = "shnk" }, `size in the roles of reading "a": unknown size or piece "shnk"; did you mean "shank"?`},
	{"role-unknown-id", func(j *trade.Job) { j.Readings[0].Of[0].ID = "mic" }, `size in the roles of reading "a": "mic" is an instrument where the id of a size or a piece should be`},
	{"centres-is-a-hole", func(j *trade.Job) { j.Readings[0].Of[0].ID = "h1" }, `"h1" is a hole where the id of a size or a piece should be`},
	{"role-dimension", func(j *trade.Job) { j.Readings[0].Of[0].ID = "slope" }, `size in the roles of reading "a": "slope" is an angle where a length should be`},
	{"role-value", func(j *trade.Job) { j.Readings[3].Of[2] = trade.Arg{Role: "plug-1", Value: mm("-6")} }, `plug-1 in the roles of reading "d" is -6 mm; it must be more than 0`},
	{"role-side", func(j *trade.Job) { j.Readings[4].Of[2].Value = number("2") }, `side in the roles of reading "e" is 2; a side is 1 or -1`},
	{"role-count", func(j *trade.Job) {
		j.Readings[0].By, j.Readings[0].Of = "bolt-circle-chord", []trade.Arg{{Role: "holes", Value: number("2.5")}}
	}, `holes in the roles of reading "a" is 2.5; it is counted from 1 to 100000`},
	{"holes-of-a-reading", func(j *trade.Job) { j.Readings[3].Of[1].ID = "h1" }, `the roles of reading "d": from and to are the same hole`},
	{"holes-of-a-reading", func(j *trade.Job) { j.Readings[3].Of[1].ID = "g1" }, `the roles of reading "d": "h1" and "g1" are not holes of one plan`},
	{"holes-and-centres", func(j *trade.Job) {
		j.Readings[3].Of = append(j.Readings[3].Of, trade.Arg{Role: "centres", Value: mm("40")})
	}, `the roles of reading "d": "centres" and "from" exclude each other`},
	{"touch", func(j *trade.Job) { j.Readings[4].Of[0].ID = "bore" }, `circle in the roles of reading "e": "bore" is a size where the id of a place should be`},
	{"touch", func(j *trade.Job) { j.Readings[4].Saw[0].Y = unit.Quantity{} }, `saw in reading "e": a value is missing`},
	{"saw-negative", func(j *trade.Job) { j.Readings[0].Saw[1].X = mm("0") }, `saw in reading "a" is 0 mm; it must be more than 0`},
	{"saw-unreadable", func(j *trade.Job) { j.Readings[0].Saw[1].X = angle("5") }, `saw in reading "a" is 5 deg, an angle where a length should be`},
	{"saw-missing", func(j *trade.Job) { j.Readings[4].Saw = nil }, `reading "e": "saw" is missing`},
	{"seated-feel", func(j *trade.Job) { j.Readings[0].Feel = mm("-0.1") }, `feel in reading "a" is -0.1 mm; it must not be negative`},
	{"bound-beside-saw", func(j *trade.Job) { j.Readings[1].With = "mic" }, `reading "b": "with" does not belong here: "goes" and "stops" stand in its place`},
	{"bound-equal", func(j *trade.Job) { j.Readings[1].Stops = j.Readings[1].Goes }, `reading "b": "goes" and "stops" are equal`},
	{"bound-missing", func(j *trade.Job) { j.Readings[1].Stops = trade.Bound{} }, `reading "b": "stops" is missing`},
	{"bound-wrong-way", func(j *trade.Job) { j.Readings[1].Stops.Value = mm("19") }, `reading "b": the wrong way round: what goes into an inside size is smaller`},
	{"bound-wrong", func(j *trade.Job) { j.Readings[1].Goes = trade.Bound{ID: "shank"} }, `goes in reading "b": "shank" is a size where the id of a piece should be`},
	{"formula-keys", func(j *trade.Job) { j.Readings[2].That = "" }, `reading "c": "that" is missing`},
	{"formula-keys", func(j *trade.Job) { j.Readings[0].That = "shank" }, `reading "a": "that" does not belong here`},
	{"formula-dimension", func(j *trade.Job) { j.Readings[2].That = "bore*shank" }, `that in reading "c" is an area; an instrument shows a length`},
	{"formula-dimension", func(j *trade.Job) { j.Readings[2].That = "bore + slope" }, `that in reading "c": "+"`},
	{"formula-name", func(j *trade.Job) { j.Readings[2].That = "shnk" }, `that in reading "c": "shnk"`},
	{"formula-no-size", func(j *trade.Job) { j.Readings[2].That = "2*pin" }, `that in reading "c" names no size, so the reading tells nothing`},
	{"formula-syntax", func(j *trade.Job) { j.Readings[2].That = "bore + (" }, `that in reading "c"`},
}

var spoiltChecks = []spoilt{
	{"checks", func(j *trade.Job) { j.Checks[0].With = "" }, `check "k1": "with" is missing`},
	{"checks", func(j *trade.Job) { j.Checks[0].Piece = 4 }, `check "k1": it is of piece 4`},
	{"checks", func(j *trade.Job) { j.Checks[0].AtTemp = number("800") }, `at-temp in check "k1" is 800; a temperature is from -40 to 400 °C`},
	{"checks", func(j *trade.Job) { j.Checks[0].AtTemp = unit.Quantity{} }, `check "k1": "with-temp" does not belong here: it stands beside "at-temp"`},
	{"checks", func(j *trade.Job) { j.Checks[0].Of[0].ID = "part.lon" }, `unknown size of the part "part.lon"; did you mean "part.long"?`},
	{"checks", func(j *trade.Job) { j.Checks[0].Of[0].ID = "shank" }, `check "k1" names no size of the part`},
	{"checks", func(j *trade.Job) { j.Checks[2].Of[0].ID = "part.long" }, `"part.long" is a size of the new part; readings of the old one name sizes of the job`},
	{"checks", func(j *trade.Job) { j.Checks[1].ID = "a" }, `the reading "a" stands here a second time`},
	{"checks-without-part", func(j *trade.Job) { j.Part = nil }, `check "k1" is of the part, but there is none`},
	{"checks-old-places", func(j *trade.Job) { j.Checks[0].Reading = j.Readings[4] }, `plans and places are those of the old part`},
	{"checks-drilled", func(j *trade.Job) {
		j.Checks[0].Reading = j.Readings[3]
		j.Checks[0].Of = []trade.Arg{{Role: "from", ID: "part.h1"}, {Role: "to", ID: "part.h7"}, {Role: "plug-1", ID: "pin"}, {Role: "plug-2", ID: "pin"}}
	}, `unknown hole of the part "part.h7"; did you mean "part.h1"?`},
}

var spoiltPart = []spoilt{
	{"part-head", func(j *trade.Job) { j.Part.Kind = "turnd" }, `part: unknown kind "turnd"; did you mean "turned"?`},
	{"part-kind-missing", func(j *trade.Job) { j.Part.Kind = "" }, `part: "kind" is missing`},
	{"part-head", func(j *trade.Job) { j.Part.Quantity = -2 }, `quantity in part is -2; it is a whole number from 1 to 100000`},
	{"part-chance", func(j *trade.Job) { j.Part.Chance = 1.2 }, `chance in part is 1.2; a chance is from 0.5 to 0.9999`},
	{"part-chance", func(j *trade.Job) { j.Part.Chance = math.NaN() }, `chance in part is no number`},
	{"part-material", func(j *trade.Job) { j.Part.Material = "unobtainium" }, `material in part: `},
	{"part-size-id", func(j *trade.Job) { j.Part.Sizes[0].ID = "sin" }, `"sin" cannot be the id of a size of the part`},
	{"part-size-id", func(j *trade.Job) { j.Part.Sizes[1].ID = "long" }, `the size of the part "long" stands here a second time`},
	{"part-size-origin", func(j *trade.Job) { j.Part.Sizes[0].From = "from" }, `part size "long": unknown origin "from"`},
	{"part-size-origin", func(j *trade.Job) { j.Part.Sizes[0].Kind = "" }, `part size "long": "kind" is missing`},
	{"part-size-formula", func(j *trade.Job) { j.Part.Sizes[1].Of.Text = "boer" }, `goes-in in part size "wide": "boer": there is no size or gauge piece of this name; did you mean bore?`},
	{"part-size-value", func(j *trade.Job) { j.Part.Sizes[0].Of.Text = "-5" }, `is in part size "long" is "-5"; it must be more than 0`},
	{"part-size-value", func(j *trade.Job) { j.Part.Sizes[2].Of.Text = "1:20" }, `is in part size "lean": "1:20" stands for the half angle`},
	{"part-size-wanted", func(j *trade.Job) { j.Part.Sizes[1].Clearance = unit.Range{} }, `part size "wide": one of clearance, interference, fit is missing`},
	{"part-size-wanted", func(j *trade.Job) { j.Part.Sizes[1].Fit = "H7/g6" }, `part size "wide": "clearance" and "fit" exclude each other`},
	{"part-size-wanted", func(j *trade.Job) { r := &j.Part.Sizes[1].Clearance; r.Low, r.High = r.High, r.Low }, `clearance in part size "wide" is from 0.04 mm to 0.01 mm; the smaller end comes first`},
	{"part-size-wanted", func(j *trade.Job) { j.Part.Sizes[0].Tolerance = "h6" }, `part size "long": "within" and "tolerance" exclude each other`},
	{"part-size-fit", func(j *trade.Job) { j.Part.Sizes[3].Fit = "H77/g6" }, `fit in part size "eye": `},
	{"part-size-thread", func(j *trade.Job) { j.Part.Sizes[4].Thread = "M8x9" }, `part size "screw": unknown thread "M8x9"`},
	{"part-size-thread", func(j *trade.Job) { j.Part.Sizes[0].Class = "medium" }, `part size "long": "class" does not belong here: only a thread has it`},
	{"part-size-surface", func(j *trade.Job) { j.Part.Sizes[1].Surface = trade.Inside }, `part size "wide": what goes in is outside, not inside`},
	{"part-size-angle-goes-in", func(j *trade.Job) { j.Part.Sizes[2].From = trade.GoesIn }, `part size "lean": only a length goes in or over`},
	{"part-stacks", func(j *trade.Job) { j.Part.Stacks[0].That.Text = "part.lean" }, `that in stack "over" is an angle where a length should be`},
	{"part-stacks", func(j *trade.Job) { j.Part.Stacks[0].That.Text = "long" }, `that in stack "over": "long": a size of the part is written part.long`},
	{"part-mates", func(j *trade.Job) { j.Part.Mates[0].Pair = "shoe" }, `mate "shoe": unknown pair "shoe"`},
	{"part-mates", func(j *trade.Job) { m := &j.Part.Mates[0]; m.Of = m.Of[1:] }, `the roles of mate "shoe": "width" is missing`},
	{"part-mates", func(j *trade.Job) { j.Part.Mates[0].Of[0].Value.Text = "part.lean" }, `width in the roles of mate "shoe": "part.lean"`},
	{"part-entry", func(j *trade.Job) { j.Part.Mates[0].Entry.Kind = "" }, `entry of mate "shoe": "kind" is missing`},
}

var spoiltShapes = []spoilt{
	{"shape-of-another-kind", func(j *trade.Job) { j.Part.Shape.Washer = &trade.WasherShape{} }, "part: it is of kind plate, but has the shape of a washer"},
	{"shape-missing", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = trade.Measure{} }, `shape of a plate: "thickness" is missing`},
	{"shape-measures", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = at("lng") }, `thickness in shape of a plate: unknown size of the part "lng"; did you mean "long"?`},
	{"shape-measures", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = at("lean") }, `thickness in shape of a plate: "lean" is an angle where a length should be`},
	{"shape-measures", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = at("screw") }, `"screw" is a thread where a length should be`},
	{"shape-values", func(j *trade.Job) { j.Part.Shape.Plate.Thickness = plain("0") }, `thickness in shape of a plate is 0 mm; it must be more than 0`},
	{"shape-plate", func(j *trade.Job) { j.Part.Shape.Plate.Disc = plain("50") }, `shape of a plate: "rectangle" and "disc" exclude each other`},
	{"shape-plate-outline-short", func(j *trade.Job) {
		j.Part.Shape.Plate.Rectangle, j.Part.Shape.Plate.Outline = nil, []trade.Corner{{X: plain("0"), Y: plain("0")}}
	}, "outline in shape of a plate: 1 corners bound nothing"},
	{"shape-plate-outline", func(j *trade.Job) {
		corner := func(x string) trade.Corner { return trade.Corner{X: plain(x), Y: plain("0"), Turn: trade.Clockwise} }
		j.Part.Shape.Plate.Rectangle, j.Part.Shape.Plate.Outline = nil, []trade.Corner{corner("0"), corner("1"), corner("2")}
	}, `corner 1: "turn" does not belong here: it stands beside "radius"`},
	{"shape-plate-holes", func(j *trade.Job) { j.Part.Shape.Plate.Holes[2].Of[1] = "g1" }, `of in hole 3: "g1" is no hole of the plan "studs"`},
	{"shape-plate-holes", func(j *trade.Job) { j.Part.Shape.Plate.Holes[1].Count = 0 }, `hole 2: "count" is missing`},
	{"shape-plate-holes", func(j *trade.Job) { j.Part.Shape.Plate.Holes[1].Thread = "eye" }, `thread in hole 2: "eye" is no thread`},
	{"shape-turned-no-steps", func(j *trade.Job) { turn(j) }, `shape of a turned part: "steps" is missing`},
	{"shape-turned-steps", func(j *trade.Job) { turn(j, trade.Step{Section: trade.Round, Size: plain("20")}) }, `step 1: "length" is missing`},
	{"shape-turned", func(j *trade.Job) { turn(j, trade.Step{Section: trade.Round, Length: plain("20")}) }, `step 1: one of diameter, hexagon, square, thread is missing`},
	{"shape-turned-details", func(j *trade.Job) {
		turn(j, trade.Step{Section: trade.Hexagon, Size: plain("20"), Length: plain("9"), To: plain("8")})
	}, `step 1: "to" does not belong here: a taper runs from "diameter" to it`},
	{"shape-turned-details", func(j *trade.Job) {
		turn(j, trade.Step{Section: trade.Round, Size: plain("20"), Length: plain("9"), Surface: trade.Texture(math.Inf(1))})
	}, `ra in step 1 is no number`},
	{"shape-shoe-neither", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.SectorShoe, trade.Shape{Shoe: &trade.ShoeShape{Height: plain("9")}}
	}, "shape of a sector-shoe: write outer, inner and angle of a sector, or width and length of straight sides"},
	{"shape-shoe", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.SectorShoe, trade.Shape{Shoe: &trade.ShoeShape{Height: plain("9"), Outer: plain("60")}}
	}, `shape of a sector-shoe: "inner" is missing`},
	{"shape-shoe-angle", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.SectorShoe, trade.Shape{Shoe: &trade.ShoeShape{Angle: trade.Measure{Value: angle("1:20")}}}
	}, "angle in shape of a sector-shoe: the taper 1:20 stands for a half angle"},
	{"shape-nut", func(j *trade.Job) {
		j.Part.Kind, j.Part.Shape = trade.NutPart, trade.Shape{Nut: &trade.NutShape{Section: "oval", Size: plain("9")}}
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

var spoiltJoints = []spoilt{
	{"joint-ids", func(j *trade.Job) { j.Joints[1].ID = "knob" }, `the joint "knob" stands here a second time`},
	{"joint-ids", func(j *trade.Job) { j.Joints[0].Sheared[1].ID = "peg" }, `the sheared piece "peg" stands here a second time`},
	{"joint-ids", func(j *trade.Job) { j.Joints[0].Sheared[0].Width = mm("5") }, `sheared piece "peg" of joint "knob": "width" does not belong here: a pin has a diameter`},
	{"joint-ids", func(j *trade.Job) { j.Joints[0].Sheared[0].Planes = 3 }, `planes in sheared piece "peg" of joint "knob" is 3`},
	{"joint-ids", func(j *trade.Job) { j.Joints[0].Fuse = "bolt" }, `joint "knob": unknown fuse "bolt"`},
	{"joint-loads", func(j *trade.Job) { j.Joints[0].Service = force("-5 kN") }, `service in joint "knob" is -5 kN; it must be more than 0`},
	{"joint-loads", func(j *trade.Job) { j.Joints[0].Service = mm("5") }, `service in joint "knob" is 5 mm, a length where a force should be`},
	{"joint-loads", func(j *trade.Job) { j.Joints[0].Holds = "works" }, `joint "knob": unknown holds "works"; did you mean "work"?`},
	{"joint-loads", func(j *trade.Job) { j.Joints[0].Head.Kind = "head" }, `head in joint "knob": "width" does not belong here: only a tee has it`},
	{"joint-loads", func(j *trade.Job) { j.Joints[0].Tighten.Friction = unit.Range{Low: number("0.1"), High: number("12")} }, `friction in tighten in joint "knob" goes up to 12; a coefficient of friction is at most 1`},
	{"joint-members", func(j *trade.Job) { j.Joints[0].Stud.PartSize = "scerw" }, `of in stud in joint "knob": unknown size of the part "scerw"; did you mean "screw"?`},
	{"joint-members", func(j *trade.Job) { j.Joints[0].Stud.PartSize = "long" }, `of in stud in joint "knob": "long" is no thread`},
	{"joint-members", func(j *trade.Job) { j.Joints[0].Into.Grade = "8" }, `into in joint "knob": "material" and "grade" exclude each other`},
	{"joint-members", func(j *trade.Job) { j.Joints[0].Into.Around = angle("400") }, `around in into in joint "knob" is 400 deg; a thread goes at most all the way round`},
	{"joint-press", func(j *trade.Job) { j.Joints[1].Press.Outside = mm("30") }, `diameter in press in joint 2 is 30 mm; it must be less than the outside, 30 mm`},
	{"joint-press", func(j *trade.Job) { j.Joints[1].Press.Inner = "" }, `press in joint 2: "inner" is missing`},
	{"joint-shape", func(j *trade.Job) { j.Joints[1].Press = nil }, `joint 2 holds nothing together; write its stud, sheared or press`},
	{"joint-shape", func(j *trade.Job) { j.Joints[0].Into = trade.Member{} }, `joint "knob": "into" is missing`},
	{"joint-without-part", func(j *trade.Job) { j.Part = nil }, `unknown size of the part "screw"`},
}

var spoiltShop = []spoilt{
	{"shop", func(j *trade.Job) { j.Shop[0].Kind = "lath" }, `machine "engine": unknown kind "lath"; did you mean "lathe"?`},
	{"shop", func(j *trade.Job) { j.Shop[1].Leadscrew = mm("3") }, `machine "miller": "leadscrew" does not belong here: only a lathe cuts threads by change gears`},
	{"shop", func(j *trade.Job) { j.Shop[0].Gears[0] = 0 }, `gears in machine "engine" has 0; it is a whole number from 6 to 1000`},
	{"shop", func(j *trade.Job) { j.Shop[0].Gears = make([]int, 61) }, `gears in machine "engine": there are 61 of them; at most 60 are taken`},
	{"shop", func(j *trade.Job) { j.Shop[0].FixedRatio.Den = 0 }, `fixed-ratio in machine "engine" is 1/0`},
	{"shop", func(j *trade.Job) { j.Shop[0].Speeds[1] = math.NaN() }, `speeds in machine "engine" has NaN; a speed is a number above 0`},
	{"shop", func(j *trade.Job) { j.Shop[0].Dials[0].Turn = mm("0.01") }, `division in dial "cross" of machine "engine" is 0.02 mm; it must be less than the turn, 0.01 mm`},
	{"shop", func(j *trade.Job) { j.Shop[1].Travels[0].Length = mm("-1") }, `travels in machine "miller" is -1 mm; it must be more than 0`},
	{"shop", func(j *trade.Job) { j.Shop[1].Table.Ratio = 0 }, `rotary-table in machine "miller": "ratio" is missing`},
	{"shop-shape", func(j *trade.Job) { j.Shop[1].Cutters[0].Kind = "mill" }, `cutter "em12" of machine "miller": unknown kind "mill"`},
}

var spoiltWork = []spoilt{
	{"work", func(j *trade.Job) { j.Work[0].Do = "" }, `operation "saw": "do" is missing`},
	{"work", func(j *trade.Job) { j.Work[1].On = "mill" }, `on in operation "holes": unknown machine "mill"; did you mean "miller"?`},
	{"work", func(j *trade.Job) { j.Work[1].Cutter = "em10" }, `cutter in operation "holes" on the miller: unknown cutter "em10"`},
	{"work", func(j *trade.Job) { j.Work[1].Datum.Sides[1] = trade.RightSide }, `"right" is one too many`},
	{"work", func(j *trade.Job) { j.Part = nil }, `operation "saw" makes the part, but there is none`},
	{"work", func(j *trade.Job) { j.Work = make([]trade.Operation, 61) }, "work in the job: there are 61 of them; at most 60 are taken"},
	{"work-needs", func(j *trade.Job) { j.Work[1].Needs[0] = "sow" }, `needs in operation "holes": unknown operation "sow"; did you mean "saw"?`},
	{"work-circle", func(j *trade.Job) { j.Work[0].Needs = []string{"holes"} }, "saw needs holes needs saw: none of them can come first"},
	{"work-apart", func(j *trade.Job) { j.Work[2].On = "engine" }, `operation 3 takes the engine apart and works on it`},
	{"work-apart", func(j *trade.Job) { j.Work[2].Apart = "" }, "the engine is put back, but it is not taken apart before"},
	{"work-hold", func(j *trade.Job) { j.Work[1].Holding.Contacts[0].Width = unit.Quantity{} }, `"width" is missing`},
	{"work-hold", func(j *trade.Job) { j.Work[1].Holding.Friction = 2 }, `friction in hold in operation "holes" is 2; a coefficient of friction is at most 1`},
	{"work-hold", func(j *trade.Job) { j.Work[1].Holding.Contacts[2].Heel = mm("20") }, `it must be less than the heel, 20 mm`},
}

var spoiltSurveys = []spoilt{
	{"surveys", func(j *trade.Job) { j.Surveys[0].Kind = "lost" }, `survey "cross": unknown kind "lost"`},
	{"surveys", func(j *trade.Job) { j.Surveys[0].Date = time.Time{} }, `survey "cross": "date" is missing`},
	{"surveys", func(j *trade.Job) { j.Surveys[0].With = "bevel" }, `with in survey "cross": bevel shows angles where lengths were read`},
	{"surveys", func(j *trade.Job) { j.Surveys[0].Stations = j.Surveys[0].Stations[:2] }, `at in survey "cross": 2 of them; 3 at least are wanted`},
	{"surveys", func(j *trade.Job) { j.Surveys[0].Stations[1].At = mm("0") }, `survey "cross": the place 0 mm stands here a second time`},
	{"surveys", func(j *trade.Job) { j.Surveys[0].Stations[1].Saw = nil }, `0 values were read in one place`},
	{"surveys", func(j *trade.Job) { j.Surveys[0].Figures[0].Key = "pitch" }, `survey "cross": unknown key "pitch"`},
	{"surveys", func(j *trade.Job) { j.Surveys[1].Rollers[1].Raised = unit.Quantity{} }, `survey 2: all at one depth, which tells no angle`},
	{"surveys", func(j *trade.Job) { j.Surveys[1].Rollers[0].Roller.ID = "mic" }, `roller in roller reading 1 of survey 2: "mic" is an instrument where the id of a piece should be`},
}

// TestSpoiltJobsAreTold spoils the whole job in every way that is listed: the fault
// says in words where it is, for a job made in Go has no lines.
func TestSpoiltJobsAreTold(t *testing.T) {
	for _, s := range spoilts {
		job := whole()
		s.do(job)
		err := sound.Check(job)
		var faults trade.Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s: no fault where %q should be", s.file, s.want)
			continue
		}
		if !slices.ContainsFunc(faults, func(f trade.Fault) bool { return strings.Contains(f.Error(), s.want) }) {
			t.Errorf("%s: said\n%v\nwant %s", s.file, err, s.want)
		}
	}
}

// ofForm are the files of testdata/faults whose faults are in how they are written,
// so that no job made in Go can have them.
var ofForm = []string{
	"after-the-end", "anchor", "block-text-in-brackets", "colon-in-text", "complex-key", "control-character", "decimal-comma",
	"directive", "duplicate-key", "empty-file", "empty-item", "empty-value", "entry-shape", "indentation",
	"key-without-value", "kit-key", "kit-other", "length-bare-fraction", "length-list", "length-nan", "length-unreadable",
	"list-on-key-line", "machine", "many-at-once", "mapping-in-brackets", "merge-key", "missing-blank", "missing-comma", "nested-too-deep",
	"no-head", "not-a-mapping", "number-size", "part-shape-of-section", "reading-key", "reserved-character", "section-shape", "set-aside",
	"shape-of-shape", "size-key", "tab-indent", "tag", "too-many-digits", "two-documents", "unclosed-brace", "unclosed-bracket",
	"unclosed-quote", "unknown-section", "version", "wrapped-minus",
}

// TestEveryFaultOfMeaningHasATwin holds that each file of testdata/faults is either
// of form, or has its fault made in Go among those above.
func TestEveryFaultOfMeaningHasATwin(t *testing.T) {
	files, err := filepath.Glob("../../testdata/faults/*.yaml")
	if err != nil || len(files) < 100 {
		t.Fatalf("only %d files of faults found: %v", len(files), err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		twin := slices.ContainsFunc(spoilts, func(s spoilt) bool { return s.file == name })
		if twin == slices.Contains(ofForm, name) {
			t.Errorf("%s: it must either be of form or have a twin made in Go", name)
		}
	}
}
