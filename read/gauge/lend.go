package gauge

import (
	"cmp"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Lendable lists the instruments that a toolroom has, the plainest first. Their
// names are no ids, so that no kit has them.
func Lendable(units unit.Unit) []trade.Instrument {
	var list []trade.Instrument
	ranks := map[string]int{}
	for _, i := range Instruments() {
		for _, loan := range i.Loans {
			lent := i.lent(loan, units)
			ranks[lent.ID] = loan.Rank
			list = append(list, lent)
		}
	}
	slices.SortStableFunc(list, func(a, b trade.Instrument) int { return cmp.Compare(ranks[a.ID], ranks[b.ID]) })
	return list
}

func (i *Instrument) lent(loan Loan, units unit.Unit) trade.Instrument {
	to := loan.MM
	if units == unit.Inch {
		to = loan.Inch
	}
	lent := trade.Instrument{ID: "a " + i.Name, Kind: i.Kind, Resolution: i.figure(to)}
	if loan.MPE > 0 {
		lent.MPE = micrometres(loan.MPE)
	}
	if !loan.Unsaid {
		lent.ID += " that reads to " + cmp.Or(loan.Reads, to)
	}
	return lent
}

// figure reads what an entry writes of a kind.
func (i *Instrument) figure(text string) unit.Quantity {
	read := func(text string) (unit.Quantity, error) { return unit.ParseLength(text, unit.Millimetre) }
	if i.Angles {
		read = unit.ParseAngle
	}
	q, err := read(text)
	if err != nil {
		panic("gauge: a figure of an instrument's entry cannot be read")
	}
	return q
}

// micrometres returns a length of an entry in mm, which has three places at most.
func micrometres(mm float64) unit.Quantity {
	q, err := unit.New(int64(mm*1000+0.5), 1000, unit.Millimetre)
	if err != nil {
		panic("gauge: an error of an instrument's entry is no length")
	}
	return q
}
