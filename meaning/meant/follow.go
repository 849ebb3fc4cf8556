package meant

import (
	"cmp"
	"math"
	"slices"
)

// A combination of the designers' values is followed only while it has this
// part of its world, and each of them is one of the likeliest few.
const (
	faintCombination = 1e-4
	likeliest        = 12
)

// gatherFollowed adds the values of size i in the worlds where it follows from
// what the drawing stated. What follows and stands on no grid is no round size.
func (j *job) gatherFollowed(o *opinion, b *block, worlds []worldPart, i int) {
	for k := range b.bases {
		at := slices.Index(b.bases[k].followers, i)
		if at < 0 {
			continue
		}
		f := j.follower(b, worlds, k, at)
		if f.p < faintest/10 {
			o.noRound += f.p
			continue
		}
		f.visit = func(n, p float64) { j.addFollowed(o, i, n, p) }
		o.noRound += f.p - f.combine(0, j.asked[i].x+b.bases[k].miss[at], f.p)
	}
}

// addFollowed adds a value that follows.
func (j *job) addFollowed(o *opinion, i int, at, p float64) {
	n := nearest(at)
	v := j.asked[i].value(n)
	if v.mass == ([systems]float64{}) || math.Abs(at*nanometres-float64(n)) > 0.01 {
		o.noRound += p
		return
	}
	part := o.part[n]
	for s := range part {
		part[s] += p * v.mass[s]
	}
	o.part[n] = part
	o.p[n] += p
}

// follower is a size that follows from others in one basis.
type follower struct {
	p       float64 // of the basis
	slopes  []float64
	options [][]option // the values of each designer
	visit   func(at, p float64)
}

// option is a value of a designer, less where it was found, and its probability
// in the basis.
type option struct{ d, p float64 }

// follower sets up follower at of basis k.
func (j *job) follower(b *block, worlds []worldPart, k, at int) *follower {
	f := &follower{slopes: b.bases[k].follow[at]}
	opinions := make([]*opinion, len(b.bases[k].designers))
	for i := range opinions {
		opinions[i] = newOpinion()
	}
	for w := range b.worlds {
		if b.worlds[w].basis != k {
			continue
		}
		f.p += worlds[w].p
		for i := range b.worlds[w].terms {
			t := &b.worlds[w].terms[i]
			opinions[i].add(j.asked[t.size].values, t, worlds[w].parts[i])
		}
	}
	for i, designer := range b.bases[k].designers {
		f.options = append(f.options, j.asked[designer].options(opinions[i], f.p))
	}
	return f
}

// options lists the likeliest values of a designer in a basis of probability
// whole.
func (a *asked) options(o *opinion, whole float64) []option {
	var list []option
	for n, p := range o.p {
		list = append(list, option{d: a.value(n).at - a.x, p: p / whole})
	}
	slices.SortFunc(list, func(x, y option) int { return cmp.Or(cmp.Compare(y.p, x.p), cmp.Compare(x.d, y.d)) })
	return list[:min(len(list), likeliest)]
}

// combine visits what follows from every combination of values of the designers
// from the i-th on, and returns the probability visited.
func (f *follower) combine(i int, at, p float64) float64 {
	if i == len(f.options) {
		f.visit(at, p)
		return p
	}
	if f.slopes[i] == 0 {
		return f.combine(i+1, at, p)
	}
	visited := 0.0
	for _, o := range f.options[i] {
		if p*o.p > faintCombination*f.p {
			visited += f.combine(i+1, at+f.slopes[i]*o.d, p*o.p)
		}
	}
	return visited
}
