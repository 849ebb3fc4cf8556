package lathe

import (
	"cmp"
	"math/big"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// DifferentialIndexing is plain indexing for another number, while gears from the
// table's spindle turn the plate by what that lacks.
type DifferentialIndexing struct {
	For             int         // the number that the handle is turned for
	Plain           Indexing    // exact for it
	Ratio           trade.Ratio // turns of the plate for one of the spindle; negative: against the handle
	Drivers, Driven []int       // teeth, in order from the spindle to the plate
}

// differential finds the ways with gears, those of two gears first, then those
// whose number is nearest:
//
//	ratio = (A - N) · worm / A
//
// for N divisions with the handle turned for A. In one turn of the table the handle
// goes N·worm/A turns against the plate, and the plate adds the rest.
func (d *Dividing) differential() {
	n := d.Wanted.Count
	if n == 0 || len(d.Table.Gears) == 0 {
		return
	}
	search := newPlateGears(d.Table.Gears)
	for a := max(2, n/2); a <= 2*n; a++ {
		ratio := big.NewRat(int64(a-n)*int64(d.Table.Ratio), int64(a))
		plain, ok := exactlyFor(d.Table, a)
		if a == n || !ok {
			continue
		}
		if train, ok := search.train(new(big.Rat).Abs(ratio)); ok {
			told := trade.Ratio{Num: int(ratio.Num().Int64()), Den: int(ratio.Denom().Int64())}
			d.Differential = append(d.Differential, DifferentialIndexing{a, plain, told, train.Drivers, train.Driven})
		}
	}
	slices.SortStableFunc(d.Differential, func(x, y DifferentialIndexing) int {
		return cmp.Or(cmp.Compare(len(x.Drivers), len(y.Drivers)), cmp.Compare(apart(x.For, n), apart(y.For, n)))
	})
	d.Differential = d.Differential[:min(len(d.Differential), mostWaysTold)]
}

func apart(a, b int) int { return max(a-b, b-a) }

// exactlyFor returns the plain way for a number, on the largest circle that gives
// it exactly.
func exactlyFor(table *trade.RotaryTable, count int) (Indexing, bool) {
	for _, circle := range slices.Backward(sorted(table.Plates)) {
		if holes := table.Ratio * circle; holes%count == 0 {
			holes /= count
			return Indexing{Turns: holes / circle, Holes: holes % circle, Circle: circle}, true
		}
	}
	return Indexing{}, false
}

// plateGears finds trains for the plate among gears.
type plateGears struct {
	*gearSearch
	sides   [2][]side
	product [2]map[int][]side
}

func newPlateGears(gears []int) *plateGears {
	p := &plateGears{gearSearch: &gearSearch{stock: map[int]int{}, clearance: DefaultClearance}}
	for _, teeth := range gears {
		p.stock[teeth]++
	}
	for i := range p.sides {
		p.sides[i], p.product[i] = p.gearSearch.sides(i+1), map[int][]side{}
		for _, s := range p.sides[i] {
			p.product[i][s.product] = append(p.product[i][s.product], s)
		}
	}
	return p
}

// train returns a train of exactly this ratio that can mesh, of two gears if there
// is one.
func (p *plateGears) train(ratio *big.Rat) (Train, bool) {
	num, den := int(ratio.Num().Int64()), int(ratio.Denom().Int64())
	for i := range p.sides {
		for _, drivers := range p.sides[i] {
			if drivers.product*den%num != 0 {
				continue
			}
			for _, driven := range p.product[i][drivers.product*den/num] {
				if !p.enough(drivers, driven) {
					continue
				}
				if list := p.arranged(nil, Train{}, drivers, driven); len(list) > 0 {
					return list[0], true
				}
			}
		}
	}
	return Train{}, false
}
