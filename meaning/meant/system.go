package meant

import (
	"cmp"
	"math"
	"slices"
)

// system is a way of choosing sizes. The last has no round sizes: any size is
// as good as another, with density 1 per mm.
type system int

const (
	fractions system = iota // of an inch
	decimals                // of an inch
	metric
	none
	systems
)

// names of the systems, as people are shown them.
var names = [systems]string{"inch fractions", "inch decimals", "millimetres", "no round size"}

// Every grid and every table stands on whole nanometres, in which values are
// compared exactly.
const (
	nanometres  = 1e6 // in a mm
	inch        = 25_400_000
	millimetre  = 1_000_000
	wholeDegree = 3_600_000 // of an angle: in thousandths of a second
)

// level is one grid of a system and the share of its values that stand on this
// grid and on no coarser one.
type level struct {
	step   int64
	weight float64
	mass   float64 // of one value: weight times the mean distance between those that belong here, in the grid's unit
}

// grid is the levels of a system, coarsest first. A value belongs to the
// coarsest level that holds it.
type grid []level

// The grids of the systems and their weights: our choice, no source.
var grids = [systems]grid{
	fractions: newGrid(1/nanometres, []int64{inch, inch / 2, inch / 4, inch / 8, inch / 16, inch / 32, inch / 64},
		[]float64{.30, .22, .17, .13, .09, .06, .03}),
	decimals: newGrid(1/nanometres, []int64{inch / 10, inch / 20, inch / 100, inch / 200}, []float64{.4, .2, .3, .1}),
	metric: newGrid(1/nanometres, []int64{10 * millimetre, 5 * millimetre, millimetre, millimetre / 2, millimetre / 4, millimetre / 10},
		[]float64{.20, .18, .37, .15, .02, .08}),
}

// newGrid works out the mass of a value of every level, for steps counted in a
// unit of this size. The values that belong to a level repeat with the least
// common multiple of its step and the coarser ones.
func newGrid(unit float64, steps []int64, weights []float64) grid {
	g := make(grid, len(steps))
	period := int64(1)
	for i, step := range steps {
		period = period / gcd(period, step) * step
		g[i] = level{step: step, weight: weights[i]}
		belonging := 0
		for n := int64(0); n < period; n += step {
			if g.levelOf(n) == i {
				belonging++
			}
		}
		g[i].mass = weights[i] * float64(period) * unit / float64(belonging)
	}
	return g
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// levelOf returns the index of the level that a value belongs to, -1 where the
// grid does not hold it.
func (g grid) levelOf(n int64) int {
	return slices.IndexFunc(g, func(l level) bool { return l.step != 0 && n%l.step == 0 })
}

// mass returns the prior mass of a value, 0 where the grid does not hold it.
func (g grid) mass(n int64) float64 {
	if i := g.levelOf(n); i >= 0 {
		return g[i].mass
	}
	return 0
}

// between calls visit for every value of the grid from low to high, with its mass.
func (g grid) between(low, high int64, visit func(n int64, mass float64)) {
	for i, l := range g {
		for n := low + floorMod(-low, l.step); n <= high; n += l.step {
			if g.levelOf(n) == i {
				visit(n, l.mass)
			}
		}
	}
}

func floorMod(a, b int64) int64 { return ((a % b) + b) % b }

// value is one round value within reach of a size.
type value struct {
	n    int64   // in nanometres, or thousandths of a second of angle
	at   float64 // in mm or rad
	mass [systems]float64
	name string // of the standard part it is the size of; empty for a plain round size
}

// masses returns the round values between two ends, in mm, smallest first: those
// of the grids and, with a share of standardShare, the sizes of standard parts.
func masses(low, high float64, standard []member) []value {
	list := map[int64]*value{}
	add := func(n int64, s system, mass float64, name string) {
		v := list[n]
		if v == nil {
			v = &value{n: n, at: float64(n) / nanometres}
			list[n] = v
		}
		v.mass[s] += mass
		if v.name == "" {
			v.name = name
		}
	}
	from, to := int64(math.Ceil(low*nanometres)), int64(math.Floor(high*nanometres))
	for s, g := range grids {
		members := reaching(standard, system(s), from, to)
		share := 1.0
		if len(members) > 0 {
			share -= standardShare
		}
		g.between(from, to, func(n int64, mass float64) { add(n, system(s), share*mass, "") })
		for _, m := range members {
			if from <= m.n && m.n <= to {
				add(m.n, system(s), standardShare*m.mass, m.name)
			}
		}
	}
	return sortedValues(list)
}

func sortedValues(list map[int64]*value) []value {
	out := make([]value, 0, len(list))
	for _, v := range list {
		out = append(out, *v)
	}
	slices.SortFunc(out, func(a, b value) int { return cmp.Compare(a.n, b.n) })
	return out
}
