package gauge

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var general = []*Method{
	{
		ID:      trade.FormulaMethod,
		When:    "Any set-up that the catalogue lacks, written as an expression over sizes and gauge pieces.",
		SetUp:   "Read {that}",
		For:     []Purpose{{Other, 1}},
		Words:   []string{"own", "anything", "expression", "lever", "comparator"},
		Meets:   []Meeting{{Kinds: []trade.SizeKind{trade.Number}, Rank: 1}},
		Reads:   unit.Length,
		Signed:  true,
		Formula: "m = the expression written under that",
		Traps:   []string{"Nothing checks that the set-up can be: draw it and try it with round numbers first."},
		Source:  "the user's own expression",
	},
}
