package sound_test

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var spoiltReadings = []spoilt{
	{
		"reading-id", func(j *trade.Job) { j.Readings[1].ID = "a" },
		`the reading "a" stands here a second time; the first is before it`,
	},
	{"reading-id", func(j *trade.Job) { j.Readings[1].ID = "" }, "a reading has no id"},
	{
		"reading-method", func(j *trade.Job) { j.Readings[0].By = "outsid" },
		`reading "a": unknown method "outsid"; did you mean "outside"?`,
	},
	{
		"instrument-unknown", func(j *trade.Job) { j.Readings[0].With = "mik" },
		`with in reading "a": unknown instrument "mik"; did you mean "mic"?`,
	},
	{"instrument-unknown", func(j *trade.Job) { j.Readings[0].With = "" }, `reading "a": "with" is missing`},
	{
		"instrument-dimension", func(j *trade.Job) { j.Readings[0].With = "bevel" },
		`reading "a": the instrument "bevel" shows an angle, this reading is a length`,
	},
	{
		"role-unknown", func(j *trade.Job) { j.Readings[0].Of[0].Role = "siz" },
		`the roles of reading "a": unknown key "siz"`,
	},
	{"role-missing", func(j *trade.Job) { j.Readings[0].Of = nil }, `reading "a": "of" is missing`},
	{
		"role-missing", func(j *trade.Job) { j.Readings[4].Of = j.Readings[4].Of[:2] },
		`the roles of reading "e": "side" is missing`,
	},
	{
		"from-without-plan-method", func(j *trade.Job) { j.Readings[0].Of[0].Role = "from" },
		`the roles of reading "a": unknown key "from"`,
	},
	{
		"role-unknown-id", func(j *trade.Job) { j.Readings[0].Of[0].ID = "shnk" },
		`size in the roles of reading "a": unknown size or piece "shnk"; did you mean "shank"?`,
	},
	{
		"role-unknown-id", func(j *trade.Job) { j.Readings[0].Of[0].ID = "mic" },
		`size in the roles of reading "a": "mic" is an instrument where the id of a size or a piece should be`,
	},
	{
		"centres-is-a-hole", func(j *trade.Job) { j.Readings[0].Of[0].ID = "h1" },
		`"h1" is a hole where the id of a size or a piece should be`,
	},
	{
		"role-dimension", func(j *trade.Job) { j.Readings[0].Of[0].ID = "slope" },
		`size in the roles of reading "a": "slope" is an angle where a length should be`,
	},
	{
		"role-value", func(j *trade.Job) { j.Readings[3].Of[2] = trade.Arg{Role: "plug-1", Value: mm("-6")} },
		`plug-1 in the roles of reading "d" is -6 mm; it must be more than 0`,
	},
	{
		"role-side", func(j *trade.Job) { j.Readings[4].Of[2].Value = number("2") },
		`side in the roles of reading "e" is 2; a side is 1 or -1`,
	},
	{"role-count", func(j *trade.Job) {
		j.Readings[0].By, j.Readings[0].Of = "bolt-circle-chord", []trade.Arg{{Role: "holes", Value: number("2.5")}}
	}, `holes in the roles of reading "a" is 2.5; it is counted from 1 to 100000`},
	{
		"holes-of-a-reading", func(j *trade.Job) { j.Readings[3].Of[1].ID = "h1" },
		`the roles of reading "d": from and to are the same hole`,
	},
	{
		"holes-of-a-reading", func(j *trade.Job) { j.Readings[3].Of[1].ID = "g1" },
		`the roles of reading "d": "h1" and "g1" are not holes of one plan`,
	},
	{"holes-and-centres", func(j *trade.Job) {
		j.Readings[3].Of = append(j.Readings[3].Of, trade.Arg{Role: "centres", Value: mm("40")})
	}, `the roles of reading "d": "centres" and "from" exclude each other`},
	{
		"touch", func(j *trade.Job) { j.Readings[4].Of[0].ID = "bore" },
		`circle in the roles of reading "e": "bore" is a size where the id of a place should be`,
	},
	{
		"touch", func(j *trade.Job) { j.Readings[4].Saw[0].Y = unit.Quantity{} },
		`saw in reading "e": a value is missing`,
	},
	{
		"saw-negative", func(j *trade.Job) { j.Readings[0].Saw[1].X = mm("0") },
		`saw in reading "a" is 0 mm; it must be more than 0`,
	},
	{
		"saw-unreadable", func(j *trade.Job) { j.Readings[0].Saw[1].X = angle("5") },
		`saw in reading "a" is 5 deg, an angle where a length should be`,
	},
	{"saw-missing", func(j *trade.Job) { j.Readings[4].Saw = nil }, `reading "e": "saw" is missing`},
	{
		"seated-feel", func(j *trade.Job) { j.Readings[0].Feel = mm("-0.1") },
		`feel in reading "a" is -0.1 mm; it must not be negative`,
	},
	{
		"bound-beside-saw", func(j *trade.Job) { j.Readings[1].With = "mic" },
		`reading "b": "with" does not belong here: "goes" and "stops" stand in its place`,
	},
	{
		"bound-equal", func(j *trade.Job) { j.Readings[1].Stops = j.Readings[1].Goes },
		`reading "b": "goes" and "stops" are equal`,
	},
	{"bound-missing", func(j *trade.Job) { j.Readings[1].Stops = trade.Bound{} }, `reading "b": "stops" is missing`},
	{
		"bound-wrong-way", func(j *trade.Job) { j.Readings[1].Stops.Value = mm("19") },
		`reading "b": the wrong way round: what goes into an inside size is smaller`,
	},
	{
		"bound-wrong", func(j *trade.Job) { j.Readings[1].Goes = trade.Bound{ID: "shank"} },
		`goes in reading "b": "shank" is a size where the id of a piece should be`,
	},
	{"formula-keys", func(j *trade.Job) { j.Readings[2].That.Text = "" }, `reading "c": "that" is missing`},
	{"formula-keys", func(j *trade.Job) { j.Readings[0].That.Text = "shank" }, `reading "a": "that" does not belong here`},
	{
		"formula-dimension", func(j *trade.Job) { j.Readings[2].That.Text = "bore*shank" },
		`that in reading "c" is an area; an instrument shows a length`,
	},
	{"formula-dimension", func(j *trade.Job) { j.Readings[2].That.Text = "bore + slope" }, `that in reading "c": "+"`},
	{"formula-name", func(j *trade.Job) { j.Readings[2].That.Text = "shnk" }, `that in reading "c": "shnk"`},
	{
		"formula-no-size", func(j *trade.Job) { j.Readings[2].That.Text = "2*pin" },
		`that in reading "c" names no size, so the reading tells nothing`,
	},
	{"formula-syntax", func(j *trade.Job) { j.Readings[2].That.Text = "bore + (" }, `that in reading "c"`},
}

var spoiltChecks = []spoilt{
	{"checks", func(j *trade.Job) { j.Checks[0].With = "" }, `check "k1": "with" is missing`},
	{"checks", func(j *trade.Job) { j.Checks[0].Piece = 4 }, `check "k1": it is of piece 4`},
	{
		"checks", func(j *trade.Job) { j.Checks[0].AtTemp = number("800") },
		`at-temp in check "k1" is 800; a temperature is from -40 to 400 °C`,
	},
	{
		"checks", func(j *trade.Job) { j.Checks[0].AtTemp = unit.Quantity{} },
		`check "k1": "with-temp" does not belong here: it stands beside "at-temp"`,
	},
	{
		"checks", func(j *trade.Job) { j.Checks[0].Of[0].ID = "part.lon" },
		`unknown size of the part "part.lon"; did you mean "part.long"?`,
	},
	{"checks", func(j *trade.Job) { j.Checks[0].Of[0].ID = "shank" }, `check "k1" names no size of the part`},
	{
		"checks", func(j *trade.Job) { j.Checks[2].Of[0].ID = "part.long" },
		`"part.long" is a size of the new part; readings of the old one name sizes of the job`,
	},
	{"checks", func(j *trade.Job) { j.Checks[1].ID = "a" }, `the reading "a" stands here a second time`},
	{"checks-without-part", func(j *trade.Job) { j.Part = nil }, `check "k1" is of the part, but there is none`},
	{
		"checks-old-places", func(j *trade.Job) { j.Checks[0].Reading = j.Readings[4] },
		`plans and places are those of the old part`,
	},
	{"checks-drilled", func(j *trade.Job) {
		j.Checks[0].Reading = j.Readings[3]
		j.Checks[0].Of = []trade.Arg{
			{Role: "from", ID: "part.h1"},
			{Role: "to", ID: "part.h7"},
			{Role: "plug-1", ID: "pin"},
			{Role: "plug-2", ID: "pin"},
		}
	}, `unknown hole of the part "part.h7"; did you mean "part.h1"?`},
}
