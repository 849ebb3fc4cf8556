package meant

import (
	"cmp"
	"math"
	"slices"
)

// mostBases bounds how many choices of what the drawing stated are weighed.
const mostBases = 64

// bases returns the choices of what the drawing stated among the members: the
// one whose followers round sizes explain worst, then those that differ from it
// in one size, and so on.
func (j *job) bases(members []int) []basis {
	rows := independent(members, j.ties)
	if len(rows) == 0 {
		return []basis{{designers: members}}
	}
	order := j.worstFirst(members)
	list := []basis{firstBasis(order, rows)}
	for i := 0; i < len(list) && len(list) < mostBases; i++ {
		list = exchanges(list, list[i], order, rows)
	}
	return j.keepDecided(list)
}

// worstFirst orders members by how badly round sizes explain them. What the
// user decided was stated, and comes last.
func (j *job) worstFirst(members []int) []int {
	score := map[int]float64{}
	for _, i := range members {
		t := j.term(i, 0, j.asked[i].u*j.asked[i].u)
		score[i] = t.at(&j.prior)
		if j.asked[i].decided {
			score[i] = math.Inf(1)
		}
	}
	order := slices.Clone(members)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(score[a], score[b]) })
	return order
}

// firstBasis has the first of order follow that the relations can work out
// together.
func firstBasis(order []int, rows []tie) basis {
	var followers []int
	for _, member := range order {
		if with := append(slices.Clone(followers), member); rank(rows, with) == len(with) {
			followers = with
		}
	}
	b, ok := newBasis(order, followers, rows)
	if !ok {
		panic("meant: independent relations do not say how their sizes follow")
	}
	return b
}

// exchanges adds to list the bases that differ from b in one size.
func exchanges(list []basis, b basis, order []int, rows []tie) []basis {
	for _, out := range b.followers {
		for _, in := range b.designers {
			if len(list) == mostBases {
				return list
			}
			followers := slices.DeleteFunc(slices.Clone(order), func(i int) bool {
				return i != in && (i == out || !slices.Contains(b.followers, i))
			})
			if slices.ContainsFunc(list, func(other basis) bool { return slices.Equal(other.followers, followers) }) {
				continue
			}
			if next, ok := newBasis(order, followers, rows); ok {
				list = append(list, next)
			}
		}
	}
	return list
}

// keepDecided drops the choices in which a size that the user decided follows
// from others, unless all are such.
func (j *job) keepDecided(list []basis) []basis {
	kept := slices.DeleteFunc(slices.Clone(list), func(b basis) bool {
		return slices.ContainsFunc(b.followers, func(i int) bool { return j.asked[i].decided })
	})
	if len(kept) == 0 {
		return list
	}
	return kept
}

// independent returns the ties that hold among the members and do not follow
// from each other.
func independent(members []int, ties []tie) []tie {
	var kept []tie
	for _, t := range ties {
		if !slices.ContainsFunc(members, func(i int) bool { return t.slope[i] != 0 }) {
			continue
		}
		if rank(append(slices.Clone(kept), t), members) > len(kept) {
			kept = append(kept, t)
		}
	}
	return kept
}

// rank returns how many of the rows are independent in these columns.
func rank(rows []tie, columns []int) int {
	m := matrix(rows, columns)
	done := 0
	for c := 0; c < len(columns) && done < len(m); c++ {
		if pivot(m, done, c) {
			done++
		}
	}
	return done
}

// matrix copies columns of the rows, each row scaled to a largest slope of 1.
func matrix(rows []tie, columns []int) [][]float64 {
	m := make([][]float64, len(rows))
	for i, t := range rows {
		scale := 0.0
		for _, slope := range t.slope {
			scale = max(scale, math.Abs(slope))
		}
		for _, c := range columns {
			m[i] = append(m[i], t.slope[c]/scale)
		}
		m[i] = append(m[i], t.miss/scale)
	}
	return m
}

// pivot clears column c of all rows but one, which becomes row at; false where
// no row from there on has anything in it.
func pivot(m [][]float64, at, c int) bool {
	best := at
	for i := at; i < len(m); i++ {
		if math.Abs(m[i][c]) > math.Abs(m[best][c]) {
			best = i
		}
	}
	if at >= len(m) || math.Abs(m[best][c]) < tightest {
		return false
	}
	m[at], m[best] = m[best], m[at]
	scale := m[at][c]
	for k := range m[at] {
		m[at][k] /= scale
	}
	for i := range m {
		if i == at {
			continue
		}
		factor := m[i][c]
		for k := range m[i] {
			m[i][k] -= factor * m[at][k]
		}
	}
	return true
}

// newBasis has some of order follow from the rest; false where the relations do
// not say how.
func newBasis(order, followers []int, rows []tie) (basis, bool) {
	b := basis{followers: followers}
	for _, member := range order {
		if !slices.Contains(followers, member) {
			b.designers = append(b.designers, member)
		}
	}
	m := matrix(rows, append(slices.Clone(b.followers), b.designers...))
	for c := range b.followers {
		if !pivot(m, c, c) {
			return basis{}, false
		}
	}
	q := len(b.followers)
	for i := range b.followers {
		slopes := make([]float64, len(b.designers))
		for k := range slopes {
			slopes[k] = 0 - m[i][q+k]
		}
		b.follow = append(b.follow, slopes)
		b.miss = append(b.miss, 0-m[i][len(m[i])-1])
	}
	return b, true
}
