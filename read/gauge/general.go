package gauge

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var general = []*Method{
	{
		ID:      trade.FormulaMethod,
		When:    "Any set-up that the catalogue lacks, written as an expression over sizes and gauge pieces.",
		Reads:   unit.Length,
		Signed:  true,
		Formula: "m = the expression written under that",
		Traps:   []string{"Nothing checks that the set-up can be: draw it and try it with round numbers first."},
		Source:  "the user's own expression",
	},
}
