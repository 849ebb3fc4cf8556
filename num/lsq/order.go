package lsq

import (
	"math"
	"slices"
)

// ordering finds an order in which the columns of a sparse matrix are
// eliminated so that few places of its triangular factor fill: that of minimum
// degree, a batch of columns that do not meet at a time (J. W. H. Liu,
// Modification of the minimum-degree algorithm by multiple elimination, ACM
// Transactions on Mathematical Software 11, 1985), on the rows as cliques
// (A. George and J. W. H. Liu, The evolution of the minimum degree ordering
// algorithm, SIAM Review 31, 1989). A batch takes columns whose degree is
// larger by one too: a chain is then halved each time, and not eaten up from
// its ends.
type ordering struct {
	cliques [][]int // columns left in each clique; nil once it is part of another
	in      [][]int // cliques of each column
	degree  []int   // how many others a column meets
	done    []bool
	mark    []int
	stamp   int
	order   []int
}

// leeway is by how much the degree of a column may be larger than the least and
// still be eliminated in the same batch.
const leeway = 1

// orderOf returns the columns of a matrix of n in the order in which they are to
// be eliminated. Those marked last come last, and before them columns that meet
// so many rows that they would fill any place.
func orderOf(r *rows, n int, last []bool) []int {
	o := &ordering{
		in: make([][]int, n), degree: make([]int, n), done: make([]bool, n), mark: make([]int, n),
		order: make([]int, 0, n),
	}
	late := o.late(r, n, last)
	o.fill(r)
	for j := range n {
		o.count(j)
	}
	for left := n - len(late); left > 0; {
		left -= o.batch()
	}
	return append(o.order, late...)
}

// late lists the columns that come last, those of many rows first, and takes
// them out.
func (o *ordering) late(r *rows, n int, last []bool) []int {
	met := make([]int, n)
	for _, c := range r.columns {
		met[c]++
	}
	crowded := int(max(16, 10*math.Sqrt(float64(n))))
	var list []int
	for j := range n {
		if last != nil && last[j] || met[j] > crowded {
			o.done[j] = true
			list = append(list, j)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int {
		switch {
		case last == nil || last[a] == last[b]:
			return met[a] - met[b]
		case last[b]:
			return -1
		}
		return 1
	})
	return list
}

// fill makes a clique of each row.
func (o *ordering) fill(r *rows) {
	o.room(r)
	o.cliques = make([][]int, 0, r.count()+len(o.in))
	all := make([]int, 0, len(r.columns))
	for i := range r.count() {
		start := len(all)
		for _, c := range r.in(i) {
			if !o.done[c] {
				all = append(all, c)
				o.in[c] = append(o.in[c], len(o.cliques))
			}
		}
		o.cliques = append(o.cliques, all[start:len(all):len(all)])
	}
}

// room makes room for the cliques of each column.
func (o *ordering) room(r *rows) {
	met := make([]int, len(o.in))
	for _, c := range r.columns {
		met[c]++
	}
	all := make([]int, len(r.columns))
	for j, n := range met {
		o.in[j], all = all[:0:n], all[n:]
	}
}

// neighbours returns the columns that meet column j in a clique.
func (o *ordering) neighbours(j int, list []int) []int {
	o.stamp++
	o.mark[j] = o.stamp
	for _, e := range o.in[j] {
		for _, c := range o.cliques[e] {
			if o.mark[c] != o.stamp {
				o.mark[c] = o.stamp
				list = append(list, c)
			}
		}
	}
	return list
}

func (o *ordering) count(j int) {
	if !o.done[j] {
		o.in[j] = slices.DeleteFunc(o.in[j], func(e int) bool { return o.cliques[e] == nil })
		o.degree[j] = len(o.neighbours(j, nil))
	}
}

// batch eliminates columns of about the least degree that do not meet, and
// returns how many.
func (o *ordering) batch() int {
	least := math.MaxInt
	for j, d := range o.degree {
		if !o.done[j] {
			least = min(least, d)
		}
	}
	touched := make([]bool, len(o.done))
	var changed []int
	eliminated := 0
	for j, d := range o.degree {
		if o.done[j] || touched[j] || d > least+leeway {
			continue
		}
		for _, c := range o.eliminate(j) {
			if !touched[c] {
				touched[c] = true
				changed = append(changed, c)
			}
		}
		eliminated++
	}
	for _, j := range changed {
		o.count(j)
	}
	return eliminated
}

// eliminate makes one clique of those of a column, without it, and returns it.
func (o *ordering) eliminate(j int) []int {
	clique := o.neighbours(j, nil)
	for _, e := range o.in[j] {
		o.cliques[e] = nil
	}
	o.done[j] = true
	o.order = append(o.order, j)
	e := len(o.cliques)
	o.cliques = append(o.cliques, clique)
	for _, c := range clique {
		o.in[c] = slices.DeleteFunc(o.in[c], func(e int) bool { return o.cliques[e] == nil })
		o.in[c] = append(o.in[c], e)
	}
	return clique
}
