package adjust

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// negligible is the part of the largest below which an unknown does not move
// along an open direction.
const negligible = 1e-7

// undetermined names the groups of sizes and places that the readings leave
// open, what is known of each group all the same, and what to read.
func (f *findings) undetermined() []Undetermined {
	var list []Undetermined
	for _, group := range f.openGroups() {
		names := make([]string, len(group))
		for i, column := range group {
			names[i] = f.nameOf(column)
		}
		list = append(list, Undetermined{Sizes: slices.Compact(slices.Clone(names)), Text: f.openText(group, names)})
	}
	return list
}

// openGroups returns the unknowns that are not determined, in groups that the
// readings tie together.
func (f *findings) openGroups() [][]int {
	var open []int
	for column := range f.unknowns {
		if !f.Determined(column) {
			open = append(open, column)
		}
	}
	var groups [][]int
	for len(open) > 0 {
		group := open[:1:1]
		for grown := true; grown; {
			grown = false
			for _, column := range open {
				if !slices.Contains(group, column) && slices.ContainsFunc(group, func(c int) bool { return f.open(c, column) }) {
					group, grown = append(group, column), true
				}
			}
		}
		open = slices.DeleteFunc(slices.Clone(open), func(c int) bool { return slices.Contains(group, c) })
		slices.Sort(group)
		groups = append(groups, group)
	}
	return groups
}

// open reports whether two unknowns can move together unseen: whether the
// projection onto the open directions couples them.
func (f *findings) open(a, b int) bool {
	var ab, aa, bb float64
	for k := range f.Defect {
		x, y := f.Null.At(a, k), f.Null.At(b, k)
		ab, aa, bb = ab+x*y, aa+x*x, bb+y*y
	}
	return math.Abs(ab) > negligible*math.Sqrt(aa*bb)
}

// nameOf returns what the user calls an unknown.
func (f *findings) nameOf(column int) string {
	u := f.unknowns[column]
	if u.kind == zeroUnknown {
		return "the zero of " + u.id
	}
	return u.id
}

// openText says in words what of a group is known and what to read.
func (f *findings) openText(group []int, names []string) string {
	joined := list(slices.Compact(slices.Clone(names)))
	known := across(f.directions(group))
	example := f.method(group[0])
	switch {
	case len(group) == 1 && f.holds[group[0]] == 0:
		return fmt.Sprintf("%s: no reading touches it; read it, for instance %s", joined, example)
	case len(group) == 1:
		return fmt.Sprintf("%s: the readings that touch it do not tell it here; read it another way, for instance %s", joined, example)
	case len(known) == 0:
		return fmt.Sprintf("%s: nothing ties them down, not even to each other; read each of them, for instance %s", joined, example)
	}
	return fmt.Sprintf("%s: only %s known; read %s of them, for instance %s", joined, f.whatIsKnown(group, known), spelt(len(group)-len(known)), example)
}

// whatIsKnown names the combinations that are known, with the verb. Lengths
// and angles do not add up to anything a person can use.
func (f *findings) whatIsKnown(group []int, known [][]float64) string {
	if !f.alike(group) {
		if len(known) == 1 {
			return "one combination of them is"
		}
		return spelt(len(known)) + " combinations of them are"
	}
	if len(known) == 1 {
		return f.combination(group, known[0]) + " is"
	}
	var text []string
	for _, c := range known {
		text = append(text, f.combination(group, c))
	}
	return list(text) + " are"
}

// alike reports whether all of a group are lengths or all are angles.
func (f *findings) alike(group []int) bool {
	return !slices.ContainsFunc(group, func(c int) bool { return f.dimensionOf(c) != f.dimensionOf(group[0]) })
}

func (f *findings) dimensionOf(column int) unit.Dimension {
	u := f.unknowns[column]
	if place := f.job.Place(u.id); place != nil && place.Kind == trade.Line && u.axis == 0 {
		return unit.Angle
	}
	return f.dimension(u.id)
}

// spelt writes a small number as a word.
func spelt(n int) string {
	words := []string{"none", "one", "two", "three", "four", "five", "six"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

// list joins names as a sentence does.
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// method names the plainest reading of an unknown.
func (f *findings) method(column int) string {
	u := f.unknowns[column]
	size := f.model.size(u.id)
	switch {
	case size == nil && u.kind == placeUnknown && f.job.Place(u.id) != nil:
		return u.id + " by another `" + gauge.Touch().ID + "`, well away from the others"
	case size == nil:
		return u.id + " by `" + gauge.Proving(gauge.PartCentres)[0].Method.ID + "` from another hole"
	case size.Kind == trade.Number || size.Kind == trade.Module:
		return u.id + " by a second method or with another gauge piece"
	}
	ways := gauge.Ways(size.Kind, size.Surface)
	if len(ways) == 0 {
		return u.id + " by another method"
	}
	text := u.id + " by `" + ways[0].Method.ID + "`"
	if size.Kind == trade.Pitch {
		text += " over several threads"
	}
	return text
}

// directions returns the steps that no reading sees, as far as they move a
// group, each in parts of its largest.
func (f *findings) directions(group []int) [][]float64 {
	var rows [][]float64
	for k := range f.Defect {
		most := 0.0
		for column := range f.unknowns {
			most = max(most, math.Abs(f.Null.At(column, k)))
		}
		row := make([]float64, len(group))
		for i, column := range group {
			row[i] = f.Null.At(column, k) / most
		}
		rows = append(rows, row)
	}
	return rows
}

// across returns a basis of the vectors at right angles to all the given rows,
// each with a 1 at a place of its own, by Gauss-Jordan elimination with
// complete pivoting.
func across(rows [][]float64) [][]float64 {
	if len(rows) == 0 {
		return nil
	}
	n := len(rows[0])
	var pivots []int
	for range min(len(rows), n) {
		i, j := largest(rows[len(pivots):], pivots)
		if i < 0 {
			break
		}
		k := len(pivots)
		rows[k], rows[k+i] = rows[k+i], rows[k]
		eliminate(rows, k, j)
		pivots = append(pivots, j)
	}
	var basis [][]float64
	for free := range n {
		if slices.Contains(pivots, free) {
			continue
		}
		v := make([]float64, n)
		v[free] = 1
		for k, j := range pivots {
			v[j] = -rows[k][free]
		}
		basis = append(basis, v)
	}
	return basis
}

// largest returns where the largest element stands outside the columns done,
// (-1, -1) where all are negligible.
func largest(rows [][]float64, done []int) (row, column int) {
	row, column, most := -1, -1, negligible
	for i := range rows {
		for j, x := range rows[i] {
			if math.Abs(x) > most && !slices.Contains(done, j) {
				row, column, most = i, j, math.Abs(x)
			}
		}
	}
	return row, column
}

// eliminate makes column j zero but for a 1 in row k.
func eliminate(rows [][]float64, k, j int) {
	pivot := rows[k][j]
	for i := range rows[k] {
		rows[k][i] /= pivot
	}
	for i := range rows {
		if factor := rows[i][j]; i != k && factor != 0 {
			for l := range rows[i] {
				rows[i][l] -= factor * rows[k][l]
			}
		}
	}
}

// combination writes Σ c_i·x_i.
func (f *findings) combination(group []int, c []float64) string {
	var b strings.Builder
	for i, factor := range normalise(c) {
		if math.Abs(factor) < negligible {
			continue
		}
		sign := " + "
		if factor < 0 {
			sign = " - "
		}
		if b.Len() == 0 {
			sign = strings.TrimLeft(strings.TrimRight(sign, " "), " +")
		}
		b.WriteString(sign)
		if size := math.Abs(factor); math.Abs(size-1) > 1e-4 {
			fmt.Fprintf(&b, "%.4g·", size)
		}
		b.WriteString(f.combinationName(group[i]))
	}
	return b.String()
}

func (f *findings) combinationName(column int) string {
	u := f.unknowns[column]
	if u.kind == placeUnknown {
		return u.id + []string{".x", ".y"}[u.axis]
	}
	return f.nameOf(column)
}

// normalise scales c so that its first part is 1.
func normalise(c []float64) []float64 {
	for _, first := range c {
		if math.Abs(first) < negligible {
			continue
		}
		out := make([]float64, len(c))
		for i := range c {
			out[i] = c[i] / first
		}
		return out
	}
	return c
}
