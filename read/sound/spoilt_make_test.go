package sound_test

import (
	"math"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var spoiltJoints = []spoilt{
	{"joint-ids", func(j *trade.Job) { j.Joints[1].ID = "knob" }, `the joint "knob" stands here a second time`},
	{
		"joint-ids", func(j *trade.Job) { j.Joints[0].Sheared[1].ID = "peg" },
		`the sheared piece "peg" stands here a second time`,
	},
	{
		"joint-ids", func(j *trade.Job) { j.Joints[0].Sheared[0].Width = mm("5") },
		`sheared piece "peg" of joint "knob": "width" does not belong here: a pin has a diameter`,
	},
	{
		"joint-ids", func(j *trade.Job) { j.Joints[0].Sheared[0].Planes = 3 },
		`planes in sheared piece "peg" of joint "knob" is 3`,
	},
	{"joint-ids", func(j *trade.Job) { j.Joints[0].Fuse = "bolt" }, `joint "knob": unknown fuse "bolt"`},
	{
		"joint-loads", func(j *trade.Job) { j.Joints[0].Service = force("-5 kN") },
		`service in joint "knob" is -5 kN; it must be more than 0`,
	},
	{
		"joint-loads", func(j *trade.Job) { j.Joints[0].Service = mm("5") },
		`service in joint "knob" is 5 mm, a length where a force should be`,
	},
	{
		"joint-loads", func(j *trade.Job) { j.Joints[0].Holds = "works" },
		`joint "knob": unknown holds "works"; did you mean "work"?`,
	},
	{
		"joint-loads", func(j *trade.Job) { j.Joints[0].Head.Kind = "head" },
		`head in joint "knob": "width" does not belong here: only a tee has it`,
	},
	{
		"joint-loads",
		func(j *trade.Job) { j.Joints[0].Tighten.Friction = unit.Range{Low: number("0.1"), High: number("12")} },
		`friction in tighten in joint "knob" goes up to 12; a coefficient of friction is at most 1`,
	},
	{
		"joint-members", func(j *trade.Job) { j.Joints[0].Stud.PartSize = "scerw" },
		`of in stud in joint "knob": unknown size of the part "scerw"; did you mean "screw"?`,
	},
	{
		"joint-members", func(j *trade.Job) { j.Joints[0].Stud.PartSize = "long" },
		`of in stud in joint "knob": "long" is no thread`,
	},
	{
		"joint-members", func(j *trade.Job) { j.Joints[0].Into.Grade = "8" },
		`into in joint "knob": "material" and "grade" exclude each other`,
	},
	{
		"joint-members", func(j *trade.Job) { j.Joints[0].Into.Around = angle("400") },
		`around in into in joint "knob" is 400 deg; a thread goes at most all the way round`,
	},
	{
		"joint-press", func(j *trade.Job) { j.Joints[1].Press.Outside = mm("30") },
		`diameter in press in joint 2 is 30 mm; it must be less than the outside, 30 mm`,
	},
	{"joint-press", func(j *trade.Job) { j.Joints[1].Press.Inner = "" }, `press in joint 2: "inner" is missing`},
	{
		"joint-shape", func(j *trade.Job) { j.Joints[1].Press = nil },
		`joint 2 holds nothing together; write its stud, sheared or press`,
	},
	{"joint-shape", func(j *trade.Job) { j.Joints[0].Into = trade.Member{} }, `joint "knob": "into" is missing`},
	{"joint-without-part", func(j *trade.Job) { j.Part = nil }, `unknown size of the part "screw"`},
}

var spoiltShop = []spoilt{
	{
		"shop", func(j *trade.Job) { j.Shop[0].Kind = "lath" },
		`machine "engine": unknown kind "lath"; did you mean "lathe"?`,
	},
	{
		"shop", func(j *trade.Job) { j.Shop[1].Leadscrew = mm("3") },
		`machine "miller": "leadscrew" does not belong here: only a lathe cuts threads by change gears`,
	},
	{
		"shop", func(j *trade.Job) { j.Shop[0].Gears[0] = 0 },
		`gears in machine "engine" has 0; it is a whole number from 6 to 1000`,
	},
	{
		"shop", func(j *trade.Job) { j.Shop[0].Gears = make([]int, 61) },
		`gears in machine "engine": there are 61 of them; at most 60 are taken`,
	},
	{"shop", func(j *trade.Job) { j.Shop[0].FixedRatio.Den = 0 }, `fixed-ratio in machine "engine" is 1/0`},
	{
		"shop", func(j *trade.Job) { j.Shop[0].Speeds[1] = math.NaN() },
		`speeds in machine "engine" has NaN; a speed is a number above 0`,
	},
	{
		"shop", func(j *trade.Job) { j.Shop[0].Dials[0].Turn = mm("0.01") },
		`division in dial "cross" of machine "engine" is 0.02 mm; it must be less than the turn, 0.01 mm`,
	},
	{
		"shop", func(j *trade.Job) { j.Shop[1].Travels[0].Length = mm("-1") },
		`travels in machine "miller" is -1 mm; it must be more than 0`,
	},
	{
		"shop", func(j *trade.Job) { j.Shop[1].Table.Ratio = 0 },
		`rotary-table in machine "miller": "ratio" is missing`,
	},
	{
		"shop-shape", func(j *trade.Job) { j.Shop[1].Cutters[0].Kind = "mill" },
		`cutter "em12" of machine "miller": unknown kind "mill"`,
	},
}

var spoiltWork = []spoilt{
	{"work", func(j *trade.Job) { j.Work[0].Do = "" }, `operation "saw": "do" is missing`},
	{
		"work", func(j *trade.Job) { j.Work[1].On = "mill" },
		`on in operation "holes": unknown machine "mill"; did you mean "miller"?`,
	},
	{
		"work", func(j *trade.Job) { j.Work[1].Cutter = "em10" },
		`cutter in operation "holes" on the miller: unknown cutter "em10"`,
	},
	{"work", func(j *trade.Job) { j.Work[1].Datum.Sides[1] = trade.RightSide }, `"right" is one too many`},
	{"work", func(j *trade.Job) { j.Part = nil }, `operation "saw" makes the part, but there is none`},
	{
		"work", func(j *trade.Job) { j.Work = make([]trade.Operation, 61) },
		"work in the job: there are 61 of them; at most 60 are taken",
	},
	{
		"work-needs", func(j *trade.Job) { j.Work[1].Needs[0] = "sow" },
		`needs in operation "holes": unknown operation "sow"; did you mean "saw"?`,
	},
	{
		"work-circle", func(j *trade.Job) { j.Work[0].Needs = []string{"holes"} },
		"saw needs holes needs saw: none of them can come first",
	},
	{
		"work-apart", func(j *trade.Job) { j.Work[2].On = "engine" },
		`operation 3 takes the engine apart and works on it`,
	},
	{
		"work-apart", func(j *trade.Job) { j.Work[2].Apart = "" },
		"the engine is put back, but it is not taken apart before",
	},
	{"work-hold", func(j *trade.Job) { j.Work[1].Holding.Contacts[0].Width = unit.Quantity{} }, `"width" is missing`},
	{
		"work-hold", func(j *trade.Job) { j.Work[1].Holding.Friction = 2 },
		`friction in hold in operation "holes" is 2; a coefficient of friction is at most 1`,
	},
	{
		"work-hold", func(j *trade.Job) { j.Work[1].Holding.Contacts[2].Heel = mm("20") },
		`it must be less than the heel, 20 mm`,
	},
}

var spoiltSurveys = []spoilt{
	{"surveys", func(j *trade.Job) { j.Surveys[0].Kind = "lost" }, `survey "cross": unknown kind "lost"`},
	{"surveys", func(j *trade.Job) { j.Surveys[0].Date = time.Time{} }, `survey "cross": "date" is missing`},
	{
		"surveys", func(j *trade.Job) { j.Surveys[0].With = "bevel" },
		`with in survey "cross": bevel shows angles where lengths were read`,
	},
	{
		"surveys", func(j *trade.Job) { j.Surveys[0].Stations = j.Surveys[0].Stations[:2] },
		`at in survey "cross": 2 of them; 3 at least are wanted`,
	},
	{
		"surveys", func(j *trade.Job) { j.Surveys[0].Stations[1].At = mm("0") },
		`survey "cross": the place 0 mm stands here a second time`,
	},
	{"surveys", func(j *trade.Job) { j.Surveys[0].Stations[1].Saw = nil }, `0 values were read in one place`},
	{"surveys", func(j *trade.Job) { j.Surveys[0].Figures[0].Key = "pitch" }, `survey "cross": unknown key "pitch"`},
	{
		"surveys", func(j *trade.Job) { j.Surveys[1].Rollers[1].Raised = unit.Quantity{} },
		`survey 2: all at one depth, which tells no angle`,
	},
	{
		"surveys", func(j *trade.Job) { j.Surveys[1].Rollers[0].Roller.ID = "mic" },
		`roller in roller reading 1 of survey 2: "mic" is an instrument where the id of a piece should be`,
	},
}
