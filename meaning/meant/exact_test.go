package meant_test

import (
	"math"
)

// exact is the model computed by another road than the program's: values one by
// one, wear by summing over it, and the shares by summing over how many sizes
// there are of each system, with the Dirichlet-multinomial weight of that count.
type exact struct {
	weight    [4]float64     // Dirichlet
	densities []sizeOdds     // by size
	after     []([4]float64) // by size: probability of each system
}

// sizeOdds is the likelihood of one size by system and, within it, by value.
type sizeOdds struct {
	system [4]float64
	values []valueOdds
}

type valueOdds struct {
	n    float64
	part [4]float64 // mass times density
}

// meanDistance returns the mean distance between the values that belong to a
// level, by counting them over 50 inches, which are a whole number of decimetres
// and of every step.
func meanDistance(system, level int) float64 {
	const period = 1270.0
	step := steps[system][level]
	count := 0
	for k := 0; k < int(math.Round(period/step)); k++ {
		if levelOf(system, float64(k)*step) == level {
			count++
		}
	}
	return period / float64(count)
}

var levelMass = func() [][]float64 {
	list := make([][]float64, len(steps))
	for system := range steps {
		for level, weight := range weights[system] {
			list[system] = append(list[system], weight*meanDistance(system, level))
		}
	}
	return list
}()

// densityOf returns the density of finding what was found where n was meant,
// summed over the wear by Simpson's rule.
func densityOf(t truth, n float64) float64 {
	sigma := math.Hypot(t.u, t.making)
	normal := func(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
	if t.wear == 0 {
		return normal((t.x-n)/sigma) / sigma
	}
	// The wear that matters is near what the surface seems to have lost.
	lost := t.side * (n - t.x)
	low, high := max(0, lost-9*sigma), max(0, min(lost+9*sigma, 9*t.wear))
	if high <= low {
		return 0
	}
	const parts = 400
	h := (high - low) / parts
	sum := 0.0
	for i := 0; i <= parts; i++ {
		w := low + float64(i)*h
		f := 2 * normal(w/t.wear) / t.wear * normal((lost-w)/sigma) / sigma
		switch {
		case i == 0 || i == parts:
			sum += f
		case i%2 == 1:
			sum += 4 * f
		default:
			sum += 2 * f
		}
	}
	return sum * h / 3
}

// oddsOf lists the values within reach of a size.
func oddsOf(t truth) sizeOdds {
	o := sizeOdds{}
	o.system[noSystem] = 1
	reach := 7*math.Hypot(t.u, t.making) + 7*t.wear
	index := map[int64]int{}
	for system := range steps {
		for level, step := range steps[system] {
			for k := math.Ceil((t.x - reach) / step); k*step <= t.x+reach; k++ {
				n := k * step
				if n <= 0 || levelOf(system, n) != level {
					continue
				}
				key := int64(math.Round(n * 1e6))
				i, ok := index[key]
				if !ok {
					i = len(o.values)
					index[key] = i
					o.values = append(o.values, valueOdds{n: n})
				}
				p := levelMass[system][level] * densityOf(t, n)
				o.values[i].part[system] += p
				o.system[system] += p
			}
		}
	}
	return o
}

// computeExactly works a simulated job out.
func computeExactly(s simulated) *exact {
	e := &exact{}
	for k, p := range priorShares[s.country] {
		e.weight[k] = dirichletWeight * p
	}
	for _, t := range s.sizes {
		e.densities = append(e.densities, oddsOf(t))
	}
	e.sum()
	return e
}

// counts says how probable it is, by system likelihoods alone, that so many
// sizes are of each system; the last system has the rest.
type counts map[[3]int]float64

// with adds one size.
func (c counts) with(o [4]float64) counts {
	next := counts{}
	for k, p := range c {
		for system := range o {
			n := k
			if system < 3 {
				n[system]++
			}
			next[n] += p * o[system]
		}
	}
	return next
}

// sum fills in the probability of each system for each size: prefix counts of
// the sizes before it, suffix counts of those after.
func (e *exact) sum() {
	total := len(e.densities)
	scaled := make([][4]float64, total)
	for i, o := range e.densities {
		most := max(o.system[0], o.system[1], o.system[2], o.system[3])
		for k := range o.system {
			scaled[i][k] = o.system[k] / most
		}
	}
	before := []counts{{{}: 1}}
	for i := range scaled {
		before = append(before, before[i].with(scaled[i]))
	}
	// ahead[k] is the probability of what follows, given the counts so far.
	ahead := counts{}
	for k := range before[total] {
		ahead[k] = e.countWeight(k, total)
	}
	e.after = make([][4]float64, total)
	for i := total - 1; i >= 0; i-- {
		back := counts{}
		sum := 0.0
		for k, p := range before[i] {
			for system := range scaled[i] {
				n := k
				if system < 3 {
					n[system]++
				}
				here := scaled[i][system] * ahead[n]
				back[k] += here
				e.after[i][system] += p * here
				sum += p * here
			}
		}
		for k := range e.after[i] {
			e.after[i][k] /= sum
		}
		ahead = back
	}
}

// countWeight is the Dirichlet-multinomial weight of one assignment with these
// counts, but for a constant factor.
func (e *exact) countWeight(k [3]int, total int) float64 {
	rest := total
	log := 0.0
	for system, c := range k {
		rest -= c
		log += rising(e.weight[system], c)
	}
	return math.Exp(log + rising(e.weight[noSystem], rest) - rising(dirichletWeight, total))
}

// rising returns the logarithm of Γ(a + n)/Γ(a).
func rising(a float64, n int) float64 {
	high, _ := math.Lgamma(a + float64(n))
	low, _ := math.Lgamma(a)
	return high - low
}

// of returns the probability that n was meant by size i; of no round size where
// round is false.
func (e *exact) of(i int, n float64, round bool) float64 {
	if !round {
		return e.after[i][noSystem]
	}
	p := 0.0
	for _, v := range e.densities[i].values {
		if math.Abs(v.n-n) > 1e-6 {
			continue
		}
		for system, part := range v.part {
			if part > 0 {
				p += e.after[i][system] * part / e.densities[i].system[system]
			}
		}
	}
	return p
}
