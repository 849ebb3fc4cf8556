package lathe

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// mostWaysTold bounds the ways of each kind that are told.
const mostWaysTold = 12

// CompoundIndexing is a move of the handle by holes on one circle and, with the
// plate, by holes on another of the same plate. Negative holes are backwards.
type CompoundIndexing struct {
	First, Second HolesOn
	Error         float64 // of one step, rad of the table; 0 only where exact
	Last          float64 // at the end of the circle
}

// HolesOn is so many holes on a circle.
type HolesOn struct {
	Holes, Circle int
}

func (h HolesOn) turns() float64 { return float64(h.Holes) / float64(h.Circle) }

// compound finds the ways with two circles, the second turned by less than one
// turn either way: the exact ones, those that move least first, or where there are
// none the nearest of each two circles that are nearer than any plain one.
func (d *Dividing) compound() {
	circles := d.circles()
	worst := math.Abs(d.Plain[0].Error)
	for i, second := range circles {
		for _, first := range circles[i+1:] {
			if c := d.onTwo(first, second); math.Abs(c.Error) < worst {
				d.Compound = append(d.Compound, c)
			}
		}
	}
	slices.SortStableFunc(d.Compound, func(a, b CompoundIndexing) int {
		return cmp.Or(cmp.Compare(math.Abs(a.Error), math.Abs(b.Error)), cmp.Compare(a.moves(), b.moves()))
	})
	if inexact := slices.IndexFunc(d.Compound, func(c CompoundIndexing) bool { return c.Error != 0 }); inexact > 0 {
		d.Compound = d.Compound[:inexact]
	}
	d.Compound = d.Compound[:min(len(d.Compound), mostWaysTold)]
}

// moves returns how far both moves go together, in turns.
func (c CompoundIndexing) moves() float64 {
	return math.Abs(c.First.turns()) + math.Abs(c.Second.turns())
}

// onTwo returns the nearest way on two circles, of equals that which moves least.
// Two ways differ by one part in divisions and both circles at least, far more than
// rounding; the error of the one chosen is then worked out exactly.
func (d *Dividing) onTwo(first, second int) CompoundIndexing {
	const rounding = 1e-12
	turns := nearest(d.Turns)
	best, least := CompoundIndexing{}, math.Inf(1)
	for holes := 1 - second; holes < second; holes++ {
		c := CompoundIndexing{Second: HolesOn{holes, second}}
		rest := turns - c.Second.turns()
		c.First = HolesOn{int(math.Round(rest * float64(first))), first}
		off := math.Abs(rest - c.First.turns())
		if holes != 0 && (off < least-rounding || off < least+rounding && c.moves() < best.moves()) {
			best, least = c, off
		}
	}
	exact := big.NewRat(int64(best.First.Holes), int64(first))
	best.Error = d.off(exact.Add(exact, big.NewRat(int64(best.Second.Holes), int64(second))))
	best.Last = float64(max(1, d.Wanted.Count)) * best.Error
	return best
}
