package jobedit

import (
	"fmt"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
)

// The three texts of a merge.
const (
	ofBase = iota
	ofMine
	ofTheirs
)

// lineMerge merges three texts line by line.
type lineMerge struct {
	texts            [3][]string
	inMine, inTheirs []int  // where each line of the base is in the others, -1 if it is not
	at               [3]int // how far each has been read
	out              []string
	clashes          []record.Clash
}

// mergeLines merges three texts line by line.
func (f textForm) mergeLines(base, mine, theirs []byte) (merged []byte, clashes []record.Clash, err error) {
	m := lineMerge{texts: [3][]string{linesOf(base), linesOf(mine), linesOf(theirs)}}
	m.inMine = common(m.texts[ofBase], m.texts[ofMine])
	m.inTheirs = common(m.texts[ofBase], m.texts[ofTheirs])
	for line := range m.texts[ofBase] {
		if m.inMine[line] >= 0 && m.inTheirs[line] >= 0 {
			m.upTo([3]int{line, m.inMine[line], m.inTheirs[line]})
			m.upTo([3]int{line + 1, m.inMine[line] + 1, m.inTheirs[line] + 1})
		}
	}
	m.upTo([3]int{len(m.texts[ofBase]), len(m.texts[ofMine]), len(m.texts[ofTheirs])})
	return f.dressed(strings.Join(m.out, "")), m.clashes, nil
}

// upTo merges the lines up to a place in each of the texts.
func (m *lineMerge) upTo(to [3]int) {
	var runs [3][]string
	for i := range runs {
		runs[i] = m.texts[i][m.at[i]:to[i]]
	}
	m.at = to
	was, my, their := runs[ofBase], runs[ofMine], runs[ofTheirs]
	switch {
	case slices.Equal(my, their), slices.Equal(their, was):
	case slices.Equal(my, was):
		my = their
	default:
		m.clashes = append(m.clashes, record.Clash{
			ID: fmt.Sprintf("line %d", len(m.out)+1), Base: strings.Join(was, ""), Mine: strings.Join(my, ""), Theirs: strings.Join(their, ""),
		})
		if len(my) == 0 {
			my = their
		}
	}
	m.out = append(m.out, my...)
}

// linesOf returns the lines of a text with their line feeds.
func linesOf(source []byte) []string {
	return slices.DeleteFunc(strings.SplitAfter(formOf(source).plain, "\n"), func(line string) bool { return line == "" })
}

// common returns for each line of a text the index of the same line of another, -1
// for one that is gone. Lines that both have once only, in the order of both, are found
// first, and then what stands alike before and behind them.
func common(a, b []string) []int {
	in := make([]int, len(a))
	for i := range in {
		in[i] = -1
	}
	match(in, a, b, 0, 0)
	return in
}

// match fills in the indices of one stretch of both texts, which begin at from and to.
func match(in []int, a, b []string, from, to int) {
	for len(a) > 0 && len(b) > 0 && a[0] == b[0] {
		in[from] = to
		a, b, from, to = a[1:], b[1:], from+1, to+1
	}
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		in[from+len(a)-1] = to + len(b) - 1
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	if len(a) == 0 || len(b) == 0 {
		return
	}
	anchors := uniqueInBoth(a, b)
	for i, p := range anchors {
		nextA, nextB := len(a), len(b)
		if i+1 < len(anchors) {
			nextA, nextB = anchors[i+1][0], anchors[i+1][1]
		}
		if i == 0 {
			match(in, a[:p[0]], b[:p[1]], from, to)
		}
		in[from+p[0]] = to + p[1]
		match(in, a[p[0]+1:nextA], b[p[1]+1:nextB], from+p[0]+1, to+p[1]+1)
	}
}

// uniqueInBoth returns the places of lines that each text has once only, as many as
// stand in the same order in both.
func uniqueInBoth(a, b []string) [][2]int {
	counts, place := map[string][2]int{}, map[string]int{}
	for _, line := range a {
		c := counts[line]
		c[0]++
		counts[line] = c
	}
	for i, line := range b {
		c := counts[line]
		c[1]++
		counts[line], place[line] = c, i
	}
	var found [][2]int
	for i, line := range a {
		if counts[line] == [2]int{1, 1} {
			found = append(found, [2]int{i, place[line]})
		}
	}
	return longestRising(found)
}

// longestRising returns the longest run of pairs, not all of them together, whose
// second figures rise as the first do.
func longestRising(pairs [][2]int) [][2]int {
	var ends []int // ends[k]: the pair with the least second figure that a run of k+1 ends in
	before := make([]int, len(pairs))
	for i, p := range pairs {
		k, _ := slices.BinarySearchFunc(ends, p[1], func(end, second int) int { return pairs[end][1] - second })
		before[i] = -1
		if k > 0 {
			before[i] = ends[k-1]
		}
		if k == len(ends) {
			ends = append(ends, i)
		}
		ends[k] = i
	}
	if len(ends) == 0 {
		return nil
	}
	var run [][2]int
	for i := ends[len(ends)-1]; i >= 0; i = before[i] {
		run = append(run, pairs[i])
	}
	slices.Reverse(run)
	return run
}
