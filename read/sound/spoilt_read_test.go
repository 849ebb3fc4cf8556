package sound_test

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var spoiltKit = []spoilt{
	{"", func(j *trade.Job) { j.Name = "" }, `the job: "job" is missing: what it is called`},
	{
		"units", func(j *trade.Job) { j.Units = unit.Degree },
		"the units of the job are neither millimetres nor inches",
	},
	{
		"machine-year", func(j *trade.Job) { j.Machine.Built = 12345 },
		"built in machine is 12345; it is a whole number from 1 to 9999",
	},
	{
		"control-in-text", func(j *trade.Job) { j.Machine.What = "a\x1bb" },
		`what in machine: "a\x1bb" has a control character`,
	},
	{
		"kit-kind", func(j *trade.Job) { j.Instruments[0].Kind = "micrometre" },
		`kit entry "mic": unknown kind "micrometre"; did you mean "micrometer"?`,
	},
	{
		"kit-dimension", func(j *trade.Job) { j.Instruments[0].MPE = angle("0.1") },
		`mpe in kit entry "mic" is 0.1 deg, an angle where a length should be`,
	},
	{
		"kit-dimension", func(j *trade.Job) { j.Instruments[1].Resolution = mm("0.1") },
		`resolution in kit entry "bevel" is 0.1 mm, a length where an angle should be`,
	},
	{
		"kit-negative", func(j *trade.Job) { j.Instruments[0].Zero = mm("-0.01") },
		`zero in kit entry "mic" is -0.01 mm; it must not be negative`,
	},
	{
		"kit-zero-resolution", func(j *trade.Job) { j.Instruments[0].Resolution = mm("0") },
		`resolution in kit entry "mic" is 0 mm; it must be more than 0`,
	},
	{
		"kit-no-error",
		func(j *trade.Job) { j.Instruments[0] = trade.Instrument{ID: "mic", Kind: trade.OtherInstrument} },
		"instrument mic: nothing is known of the error of the kind other",
	},
	{"kit-no-scatter", func(j *trade.Job) {
		j.Instruments[0] = trade.Instrument{ID: "mic", Kind: trade.Micrometer, Zero: mm("0.01"), Repeat: mm("0")}
	}, "instrument mic: a repeat of 0 leaves its readings without error"},
	{
		"kit-piece-size", func(j *trade.Job) { j.Pieces[0].Size = unit.Quantity{} },
		`kit entry "pin": "size" is missing`,
	},
	{
		"kit-wrong-sort", func(j *trade.Job) { j.Pieces[0].Kind = trade.PieceKind(trade.Caliper) },
		`kit entry "pin": unknown kind "caliper"`,
	},
	{
		"id-pattern", func(j *trade.Job) { j.Instruments[0].ID = "2mic" },
		`"2mic" is no id of an instrument: a letter first`,
	},
	{
		"id-reserved", func(j *trade.Job) { j.Sizes[0].ID = "sin" },
		`"sin" cannot be the id of a size: it is the name of a unit, function or constant`,
	},
	{
		"id-twice", func(j *trade.Job) { j.Sizes[1].ID = "mic" },
		`the id "mic" stands here a second time; the first, of an instrument, is before it`,
	},
}

var spoiltSizes = []spoilt{
	{
		"size-kind", func(j *trade.Job) { j.Sizes[0].Kind = "diamter" },
		`size "shank": unknown kind "diamter"; did you mean "diameter"?`,
	},
	{"size-words", func(j *trade.Job) { j.Sizes[0].Surface = "outer" }, `size "shank": unknown surface "outer"`},
	{"size-words", func(j *trade.Job) { j.Sizes[0].Wear = "lots" }, `size "shank": unknown wear "lots"`},
	{
		"size-words", func(j *trade.Job) { j.Sizes[1].TypicalWear = unit.Quantity{} },
		`size "bore": wear is typical where a length says how much`,
	},
	{
		"size-dimension", func(j *trade.Job) { j.Sizes[0].Make = angle("1") },
		`make in size "shank" is 1 deg, an angle where a length should be`,
	},
	{
		"size-form", func(j *trade.Job) { j.Sizes[0].Form = mm("-0.1") },
		`form in size "shank" is -0.1 mm; it must not be negative`,
	},
	{
		"size-guess", func(j *trade.Job) { j.Sizes[1].Guess = angle("20") },
		`guess in size "bore" is 20 deg, an angle where a length should be`,
	},
	{
		"size-not-positive", func(j *trade.Job) { j.Sizes[1].Guess = mm("0") },
		`guess in size "bore" is 0 mm; it must be more than 0`,
	},
	{
		"size-within", func(j *trade.Job) { j.Sizes[2].Known.Within = angle("0.1") },
		`size "slope": "within" and "u" exclude each other`,
	},
	{
		"size-within", func(j *trade.Job) { j.Sizes[2].Known.Value = unit.Quantity{} },
		`size "slope": "u" does not belong here: it stands beside "known"`,
	},
	{
		"", func(j *trade.Job) { j.Sizes[1].Guess = sure(unit.New(math.MaxInt64, 1, unit.Inch)) },
		`guess in size "bore" is 9223372036854775807 in; nothing in a workshop is as large`,
	},
	{
		"", func(j *trade.Job) { j.Sizes[0].Make = sure(unit.New(1, math.MaxInt64, unit.Millimetre)) },
		`write 0, or what can be measured`,
	},
	{
		"relation-dimension", func(j *trade.Job) { j.Relations[0].Is.Text = "5 deg" },
		`is in relation "bore - shank": "5 deg"`,
	},
	{"relation-keys", func(j *trade.Job) { j.Relations[0].Is.Text = "" }, `relation "bore - shank": "is" is missing`},
	{
		"relation-keys", func(j *trade.Job) { j.Relations[0].U = mm("0.1") },
		`relation "bore - shank": "within" and "u" exclude each other`,
	},
	{
		"relation-no-size", func(j *trade.Job) { j.Relations[0].That.Text = "2*pin" },
		`relation "2*pin" names no size, so it ties nothing`,
	},
	{"relation-syntax", func(j *trade.Job) { j.Relations[0].That.Text = "bore -" }, `that in relation "bore -"`},
	{
		"relation-within", func(j *trade.Job) { j.Relations[0].Within = mm("0") },
		`within in relation "bore - shank" is 0 mm; it must be more than 0`,
	},
	{
		"plan", func(j *trade.Job) { j.Plans[1].Holes = []string{"g1"} },
		`holes in plan "other": 1 of them; 2 at least are wanted`,
	},
	{"plan", func(j *trade.Job) { j.Plans[1].Holes = nil }, `plan "other": "holes" is missing`},
	{
		"plan-guess", func(j *trade.Job) { j.Plans[1].Guess = map[string]trade.Point{"h4": {X: mm("1"), Y: mm("1")}} },
		`guess in plan "other": unknown hole "h4"`,
	},
	{
		"plan-guess", func(j *trade.Job) { j.Plans[1].Guess = map[string]trade.Point{"g2": {X: mm("1")}} },
		`guess in plan "other": a value is missing`,
	},
	{"place", func(j *trade.Job) { j.Places[0].Kind = "sphere" }, `place "ring": unknown kind "sphere"`},
	{"place", func(j *trade.Job) { j.Places[0].Diameter = trade.Bound{} }, `place "ring": "diameter" is missing`},
	{
		"place", func(j *trade.Job) { j.Places[1].Diameter = trade.Bound{ID: "bore"} },
		`place "edge": "diameter" does not belong here: a line has none`,
	},
	{
		"place", func(j *trade.Job) { j.Places[0].Diameter.ID = "slope" },
		`diameter in place "ring": "slope" is an angle where a length should be`,
	},
	{
		"place-guess", func(j *trade.Job) { j.Places[1].Guess[0] = mm("5") },
		`guess in place "edge" is 5 mm, a length where an angle should be`,
	},
	{
		"", func(j *trade.Job) { j.Threads[0].Pitch = "bore" },
		`pitch in thread "tail": "bore" is of kind diameter where one of kind pitch should be`,
	},
	{
		"", func(j *trade.Job) { j.Threads[0].Starts = 25 },
		`starts in thread "tail" is 25; it is a whole number from 1 to 24`,
	},
}
