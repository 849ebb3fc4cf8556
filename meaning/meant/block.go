package meant

import (
	"math"
	"slices"
)

// strong is the correlation of two sizes, making included, from which what
// their readings share is taken into account.
const strong = 0.25

// block is a group of sizes that must be asked together: tied by relations, or
// with readings that share an error.
type block struct {
	members []int // indices into job.asked
	bases   []basis
	worlds  []world
}

// basis is one choice of the sizes that the drawing stated. Where m sizes are
// tied by q relations it stated m - q of them, and the others follow.
type basis struct {
	designers []int
	followers []int
	follow    [][]float64 // of each follower: its slope by each designer
	miss      []float64   // of each follower: how far it was found from what the relations say
}

// world is one basis with one value of the error that its readings share. Given
// the shares of the systems its terms are independent.
type world struct {
	basis int
	prior float64
	terms []term
}

// divide groups the sizes into blocks, and notes which block asks each. Blocks are
// independent, given the shares.
func (j *job) divide() {
	g := newGroups(len(j.asked))
	for _, t := range j.ties {
		first := slices.IndexFunc(t.slope, func(s float64) bool { return s != 0 })
		for i, slope := range t.slope {
			if slope != 0 {
				g.join(i, first)
			}
		}
	}
	roughly := j.readRoughly()
	for at, i := range roughly {
		for _, k := range roughly[:at] {
			if j.correlated(i, k) {
				g.join(i, k)
			}
		}
	}
	j.block = make([]int, len(j.asked))
	for _, members := range g.members {
		if len(members) == 0 {
			continue
		}
		slices.Sort(members)
		for _, i := range members {
			j.block[i] = len(j.blocks)
		}
		j.blocks = append(j.blocks, j.newBlock(members))
	}
}

// groups are sizes that belong together, by the number of a group.
type groups struct {
	of      []int // by size
	members [][]int
}

func newGroups(n int) *groups {
	g := &groups{of: make([]int, n), members: make([][]int, n)}
	for i := range n {
		g.of[i], g.members[i] = i, []int{i}
	}
	return g
}

// join makes the group of size a part of that of size b.
func (g *groups) join(a, b int) {
	from, to := g.of[a], g.of[b]
	if from == to {
		return
	}
	for _, i := range g.members[from] {
		g.of[i] = to
	}
	g.members[to] = append(g.members[to], g.members[from]...)
	g.members[from] = nil
}

// readRoughly returns the sizes whose reading errs by so much beside their making
// that they may be strongly correlated with others: two are at most as far as the
// product of these parts, which are 1 or less.
func (j *job) readRoughly() []int {
	var list []int
	for i := range j.asked {
		if a := &j.asked[i]; a.u > strong*(1-1e-9)*math.Sqrt(a.scatter.variance) {
			list = append(list, i)
		}
	}
	return list
}

// correlated reports whether two sizes share so much error that it matters
// beside their making.
func (j *job) correlated(i, k int) bool {
	limit := strong * math.Sqrt(j.asked[i].scatter.variance*j.asked[k].scatter.variance)
	return math.Abs(j.covariance(i, k)) > limit
}

func (j *job) covariance(i, k int) float64 {
	return j.r.Covariance(j.asked[i].size.ID, j.asked[k].size.ID)
}

// newBlock lists the worlds of a block: every basis, equally probable
// beforehand, with every value of its shared error.
func (j *job) newBlock(members []int) block {
	b := block{members: members, bases: j.bases(members)}
	for i := range b.bases {
		for _, w := range j.worlds(b.bases[i].designers) {
			w.basis = i
			w.prior /= float64(len(b.bases))
			b.worlds = append(b.worlds, w)
		}
	}
	b.worlds = j.worthwhile(b.worlds)
	return b
}

// worthwhile drops worlds that have next to no probability at the prior shares.
func (j *job) worthwhile(list []world) []world {
	if len(list) == 1 {
		return list
	}
	shares := j.prior
	for s := range shares {
		shares[s] /= priorWeight
	}
	likelihood := make([]float64, len(list))
	sum := 0.0
	for i := range list {
		likelihood[i] = list[i].at(&shares)
		sum += likelihood[i]
	}
	var kept []world
	for i := range list {
		if likelihood[i] >= faint*sum {
			kept = append(kept, list[i])
		}
	}
	return kept
}

// worlds returns the terms of sizes for every value of the one error that their
// readings share, a standard normal variable with a loading on each.
func (j *job) worlds(sizes []int) []world {
	loading, own := j.shared(sizes)
	if loading == nil {
		return []world{{prior: 1, terms: j.terms(sizes, nil, own, 0)}}
	}
	// What the sizes say of the error together is a normal this wide, over which
	// the trapezoidal rule is good to 2·exp(-2π²/1.2²), two in a million.
	sharpness := 1.0
	for i, k := range sizes {
		sharpness += loading[i] * loading[i] / (own[i] + j.asked[k].making*j.asked[k].making + finest*finest)
	}
	const far, most = 6, 100
	n := min(math.Ceil(far*math.Sqrt(sharpness)/1.2), most)
	list := make([]world, 0, int(2*n)+1)
	sum := 0.0
	for i := -n; i <= n; i++ {
		f := i / n * far
		weight := math.Exp(-f * f / 2)
		sum += weight
		list = append(list, world{prior: weight, terms: j.terms(sizes, loading, own, f)})
	}
	for i := range list {
		list[i].prior /= sum
	}
	return list
}

func (j *job) terms(sizes []int, loading, own []float64, f float64) []term {
	list := make([]term, len(sizes))
	for i, k := range sizes {
		shift := 0.0
		if loading != nil {
			shift = loading[i] * f
		}
		list[i] = j.term(k, shift, own[i])
	}
	return list
}

// shared splits the covariance of sizes into one error that all share, by its
// loadings, and one of their own: C = λ·λᵀ + diag(own). Where they share little,
// loading is nil.
func (j *job) shared(sizes []int) (loading, own []float64) {
	n := len(sizes)
	own = make([]float64, n)
	c := make([][]float64, n)
	much := false
	for a, i := range sizes {
		c[a] = make([]float64, n)
		own[a] = j.asked[i].u * j.asked[i].u
		for b, k := range sizes {
			if a != b {
				c[a][b] = j.covariance(i, k)
				much = much || j.correlated(i, k)
			}
		}
	}
	if !much {
		return nil, own
	}
	loading = fitLoadings(c, own)
	for a := range own {
		own[a] -= loading[a] * loading[a]
	}
	return loading, own
}

// sweeps are enough for the loadings to settle.
const sweeps = 50

// fitLoadings returns λ with λ·λᵀ as near c as can be beside the diagonal, each λ²
// at most the variance: each loading in turn by least squares, given the others.
func fitLoadings(c [][]float64, variance []float64) []float64 {
	first := 0
	for a := range c {
		if total(c[a]) > total(c[first]) {
			first = a
		}
	}
	loading := make([]float64, len(c))
	start := math.Sqrt(total(c[first]) / float64(len(c)-1))
	loading[first] = min(start, math.Sqrt(variance[first]))
	for range sweeps {
		for a := range c {
			across, squares := 0.0, 0.0
			for b, l := range loading {
				if a != b {
					across += c[a][b] * l
					squares += l * l
				}
			}
			if squares > 0 {
				limit := math.Sqrt(variance[a])
				loading[a] = min(limit, max(-limit, across/squares))
			}
		}
	}
	return loading
}

// total returns the sum of absolute values.
func total(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += math.Abs(x)
	}
	return sum
}
