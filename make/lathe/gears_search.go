package lathe

import (
	"cmp"
	"maps"
	"math"
	"math/big"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// gearSearch looks for the trains of one thread.
type gearSearch struct {
	lathe     *trade.Machinery
	lead      *big.Rat // mm
	screw     *big.Rat // what the carriage goes for one turn of the first stud straight through, mm
	within    float64
	clearance int
	stock     map[int]int // how many gears of so many teeth there are

	goOn func(tried, all int) bool // hears how many ratios of the gearbox are tried; false stops the search
}

func newGearSearch(lathe *trade.Machinery, wanted GearsWanted) *gearSearch {
	starts := big.NewRat(int64(max(1, wanted.Starts)), 1)
	s := &gearSearch{
		lathe:     lathe,
		lead:      starts.Mul(starts, wanted.Pitch.Exact()),
		screw:     new(big.Rat).Mul(lathe.Leadscrew.Exact(), exactly(fixedRatio(lathe))),
		within:    wanted.within(),
		clearance: int(math.Ceil(cmp.Or(lathe.Clearance, DefaultClearance))),
		stock:     map[int]int{},
	}
	for _, teeth := range lathe.Gears {
		s.stock[teeth]++
	}
	s.leaveOut(wanted.Without)
	return s
}

func exactly(r trade.Ratio) *big.Rat { return big.NewRat(int64(r.Num), int64(r.Den)) }

func (s *gearSearch) leaveOut(gears []int) {
	for _, teeth := range gears {
		delete(s.stock, teeth)
	}
}

// side is one or two gears that drive, or that are driven.
type side struct {
	gears   []int // rising
	product int
}

// sides returns every choice of n gears, one or two, by rising product.
func (s *gearSearch) sides(n int) []side {
	var list []side
	for a := range s.stock {
		if n == 1 {
			list = append(list, side{[]int{a}, a})
			continue
		}
		for b, count := range s.stock {
			if a < b || a == b && count > 1 {
				list = append(list, side{[]int{a, b}, a * b})
			}
		}
	}
	slices.SortFunc(list, func(a, b side) int { return cmp.Or(a.product-b.product, slices.Compare(a.gears, b.gears)) })
	return list
}

// ways returns the ratios of the gearbox, or one not given where there is none.
func (s *gearSearch) ways() []trade.Ratio {
	if len(s.lathe.Gearbox) == 0 {
		return []trade.Ratio{{}}
	}
	return s.lathe.Gearbox
}

// farthest is how far off a train may be, in parts of the lead, where there is
// nothing better: beyond it is another thread.
const farthest = 0.5

// best returns the trains within the error allowed; where there are none, those
// within ten times as much, or a hundred times, as far as is worth while.
func (s *gearSearch) best() (list []Train, nearby bool) {
	list = s.trains(s.within)
	for within := s.within; len(list) == 0 && within < farthest; {
		nearby, within = true, min(10*within, farthest)
		list = s.trains(within)
	}
	slices.SortFunc(list, s.compare)
	return list, nearby
}

// compare puts the better train first; of equals the simpler, then that whose
// gearbox ratio and gears come first, so that the order is always the same.
func (s *gearSearch) compare(a, b Train) int {
	if c := cmp.Compare(math.Abs(a.Error), math.Abs(b.Error)); c != 0 {
		return c
	}
	way := func(t Train) int { return slices.Index(s.lathe.Gearbox, t.Gearbox) }
	return cmp.Or(len(a.Drivers)-len(b.Drivers), way(a)-way(b), slices.Compare(a.Drivers, b.Drivers), slices.Compare(a.Driven, b.Driven))
}

// trains returns all trains within an error.
func (s *gearSearch) trains(within float64) []Train {
	var list []Train
	one, two := s.sides(1), s.sides(2)
	ways := s.ways()
	for i, way := range ways {
		if !s.goOn(i, len(ways)) {
			break
		}
		wanted := s.wanted(way)
		for _, sides := range [][]side{one, two} {
			for _, drivers := range sides {
				list = s.drivenBy(list, drivers, way, wanted, sides, within)
			}
		}
	}
	return list
}

// wanted returns driven over drivers, as the lead asks with one ratio of the
// gearbox.
func (s *gearSearch) wanted(way trade.Ratio) *big.Rat {
	x := new(big.Rat).Quo(s.screw, s.lead)
	if way.Given() {
		x.Mul(x, exactly(way))
	}
	return x
}

// drivenBy adds the trains with these drivers. Only driven gears whose product
// can be within the error are looked at; rounding is no matter there, as every
// error is then worked out exactly.
func (s *gearSearch) drivenBy(list []Train, drivers side, way trade.Ratio, wanted *big.Rat, sides []side, within float64) []Train {
	const slack = 1e-9
	product := nearest(wanted) * float64(drivers.product)
	first, _ := slices.BinarySearchFunc(sides, product/(1+within)*(1-slack), func(d side, least float64) int {
		return cmp.Compare(float64(d.product), least)
	})
	for _, driven := range sides[first:] {
		if within < 1 && float64(driven.product) > product/(1-within)*(1+slack) {
			break
		}
		off := relative(drivers.product, driven.product, wanted)
		if math.Abs(off) <= within && s.enough(drivers, driven) {
			train := Train{Gearbox: way, Lead: nearest(s.lead), Error: off}
			if off != 0 {
				train.Lead *= product / float64(driven.product)
			}
			list = s.arranged(list, train, drivers, driven)
		}
	}
	return list
}

// relative returns drivers·wanted/driven - 1. The difference is exact and is then
// rounded, always alike for the same ratio: trains of one ratio have one error,
// and none but exact ones have 0.
func relative(drivers, driven int, wanted *big.Rat) float64 {
	divisor := new(big.Int).GCD(nil, nil, big.NewInt(int64(drivers)), big.NewInt(int64(driven)))
	p, q := big.NewInt(int64(drivers)), big.NewInt(int64(driven))
	p.Mul(p.Quo(p, divisor), wanted.Num())
	q.Mul(q.Quo(q, divisor), wanted.Denom())
	over, _ := p.Sub(p, q).Float64()
	whole, _ := q.Float64()
	return over / whole
}

// enough reports whether there are as many of each gear as the train takes.
func (s *gearSearch) enough(drivers, driven side) bool {
	for _, teeth := range drivers.gears {
		taken := 0
		for _, other := range slices.Concat(drivers.gears, driven.gears) {
			if other == teeth {
				taken++
			}
		}
		if taken > s.stock[teeth] {
			return false
		}
	}
	return true
}

// arranged adds a train each way that its gears can stand and mesh.
func (s *gearSearch) arranged(list []Train, train Train, drivers, driven side) []Train {
	for _, train.Drivers = range drivers.orders() {
		for _, train.Driven = range driven.orders() {
			if s.meshes(train) {
				list = append(list, train)
			}
		}
	}
	return list
}

// orders returns the gears each way round.
func (d side) orders() [][]int {
	if len(d.gears) < 2 || d.gears[0] == d.gears[1] {
		return [][]int{d.gears}
	}
	return [][]int{d.gears, {d.gears[1], d.gears[0]}}
}

// meshes reports whether each gear of a compound train clears the shaft beside
// it.
func (s *gearSearch) meshes(t Train) bool {
	if len(t.Drivers) < 2 {
		return true
	}
	first, second := t.Drivers[0]+t.Driven[0], t.Drivers[1]+t.Driven[1]
	return first > t.Drivers[1]+s.clearance && second > t.Driven[0]+s.clearance
}

// lacking returns what is left of the ratio wanted when every factor that some
// gear, or the gearbox, has is taken out, 0 for nothing or more than any gear
// has.
func (s *gearSearch) lacking() int {
	ratio := new(big.Rat).Quo(s.lead, s.screw)
	left := new(big.Int).Mul(ratio.Num(), ratio.Denom())
	take := func(n int) {
		one, factor := big.NewInt(1), new(big.Int)
		for factor.GCD(nil, nil, left, big.NewInt(int64(n))).Cmp(one) != 0 {
			left.Quo(left, factor)
		}
	}
	for teeth := range s.stock {
		take(teeth)
	}
	for _, way := range s.lathe.Gearbox {
		take(way.Num)
		take(way.Den)
	}
	if !left.IsInt64() || left.Int64() == 1 || left.Int64() > mostTeeth {
		return 0
	}
	return int(left.Int64())
}

// inInches is the factor that only the inch has: 25.4 mm are 2·127/10.
const inInches = 127

// translating returns the gears with the factor 127 where every exact train has
// one of them.
func (s *gearSearch) translating(trains []Train) []int {
	for _, t := range trains {
		if t.Error == 0 && !t.translates() {
			return nil
		}
	}
	return slices.DeleteFunc(slices.Collect(maps.Keys(s.stock)), func(teeth int) bool { return !translates(teeth) })
}

func translates(teeth int) bool { return teeth%inInches == 0 }

// substitutes returns the trains without such a gear, looking farther where none
// of these is one.
func (s *gearSearch) substitutes(trains []Train) []Train {
	list := slices.DeleteFunc(slices.Clone(trains), Train.translates)
	if len(list) == 0 {
		list, _ = s.best()
	}
	return list
}

func (t Train) translates() bool {
	return slices.ContainsFunc(t.Drivers, translates) || slices.ContainsFunc(t.Driven, translates)
}
