package meant

import "slices"

// sets says, for each group of sizes tied by relations, what its drawing seems
// to have stated.
func (f *found) sets() []Set {
	j := f.job
	var list []Set
	for i := range j.blocks {
		b := &j.blocks[i]
		if len(b.bases[0].followers) == 0 {
			continue
		}
		p := make([]float64, len(b.bases))
		for w, world := range f.worlds(i) {
			p[b.worlds[w].basis] += world.p
		}
		for _, sizes := range j.tied(b) {
			list = append(list, j.set(b, sizes, p))
		}
	}
	return list
}

// tied returns the groups of a block's members that relations tie.
func (j *job) tied(b *block) [][]int {
	var groups [][]int
	for _, t := range j.ties {
		var group []int
		for _, i := range b.members {
			if t.slope[i] != 0 {
				group = append(group, i)
			}
		}
		if len(group) == 0 {
			continue
		}
		groups = slices.DeleteFunc(groups, func(other []int) bool {
			if !slices.ContainsFunc(other, func(i int) bool { return slices.Contains(group, i) }) {
				return false
			}
			group = append(group, other...)
			return true
		})
		slices.Sort(group)
		groups = append(groups, slices.Compact(group))
	}
	return groups
}

// isTied reports whether a relation ties size i to others.
func (j *job) isTied(i int) bool {
	return slices.ContainsFunc(j.ties, func(t tie) bool { return t.slope[i] != 0 })
}

// set returns the likeliest choice of what was stated among some sizes, given
// the probabilities of the bases.
func (j *job) set(b *block, sizes []int, p []float64) Set {
	out := Set{Sizes: j.ids(sizes)}
	for k := range b.bases {
		designers := among(b.bases[k].designers, sizes)
		total := 0.0
		for l := range b.bases {
			if slices.Equal(designers, among(b.bases[l].designers, sizes)) {
				total += p[l]
			}
		}
		if total > out.P {
			out.Designers, out.P = j.ids(designers), total
		}
	}
	return out
}

// among returns those of a list that are in another, in order.
func among(list, other []int) []int {
	var both []int
	for _, i := range other {
		if slices.Contains(list, i) {
			both = append(both, i)
		}
	}
	return both
}

func (j *job) ids(sizes []int) []string {
	list := make([]string, len(sizes))
	for i, k := range sizes {
		list[i] = j.asked[k].size.ID
	}
	return list
}
