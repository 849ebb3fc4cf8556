package web

import "strings"

// changedLine is a line of two texts: in both, only in the older, or only in the
// newer one.
type changedLine struct {
	Sign     string // "", "−" or "+"
	Old, New int    // its numbers, 0 where it is not there
	Text     string
}

// mostChanges bounds the search for the shortest way from one text to another:
// beyond it all lines between the first and the last change count as changed.
const mostChanges = 600

// difference returns the lines of both texts in order, with as few changed as can
// be (E. W. Myers, An O(ND) Difference Algorithm and Its Variations, 1986).
func difference(older, newer []byte) []changedLine {
	a, b := linesOf(older), linesOf(newer)
	head := 0
	for head < min(len(a), len(b)) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < min(len(a), len(b))-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	d := differ{a: a, b: b}
	d.both(head)
	d.between(a[head:len(a)-tail], b[head:len(b)-tail])
	d.both(tail)
	return d.list
}

// linesOf returns the lines of a text without their ends.
func linesOf(text []byte) []string {
	if len(text) == 0 {
		return nil
	}
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	for i := range lines {
		lines[i] = strings.TrimSuffix(lines[i], "\r")
	}
	return lines
}

// differ walks along two texts and tells of each line.
type differ struct {
	a, b []string
	i, j int
	list []changedLine
}

func (d *differ) both(n int) {
	for range n {
		d.list = append(d.list, changedLine{Old: d.i + 1, New: d.j + 1, Text: d.a[d.i]})
		d.i, d.j = d.i+1, d.j+1
	}
}

func (d *differ) gone(n int) {
	for range n {
		d.list = append(d.list, changedLine{Sign: "−", Old: d.i + 1, Text: d.a[d.i]})
		d.i++
	}
}

func (d *differ) come(n int) {
	for range n {
		d.list = append(d.list, changedLine{Sign: "+", New: d.j + 1, Text: d.b[d.j]})
		d.j++
	}
}

// between tells of the lines of two pieces of text that begin and end in
// different ways.
func (d *differ) between(a, b []string) {
	trace := furthest(a, b)
	if trace == nil {
		d.gone(len(a))
		d.come(len(b))
		return
	}
	for _, step := range stepsBack(trace, len(a), len(b)) {
		switch {
		case step.down:
			d.come(1)
		case step.right:
			d.gone(1)
		}
		d.both(step.same)
	}
}

// furthest returns for each number of changes how far along a the paths with so
// many get on each diagonal, nil where too many changes are needed.
func furthest(a, b []string) [][]int {
	var trace [][]int
	reach := make([]int, 2*mostChanges+3) // diagonal k stands at k + mostChanges + 1
	for n := 0; n <= mostChanges; n++ {
		for k := -n; k <= n; k += 2 {
			x := startOn(reach, k, n)
			for y := x - k; x < len(a) && y < len(b) && x >= 0 && y >= 0 && a[x] == b[y]; y = x - k {
				x++
			}
			reach[k+mostChanges+1] = x
			if x >= len(a) && x-k >= len(b) {
				return append(trace, append([]int{}, reach[mostChanges+1-n:mostChanges+2+n]...))
			}
		}
		trace = append(trace, append([]int{}, reach[mostChanges+1-n:mostChanges+2+n]...))
	}
	return nil
}

// startOn is where a path with n changes comes onto diagonal k.
func startOn(reach []int, k, n int) int {
	at := k + mostChanges + 1
	if fromAbove(k, n, reach[at-1], reach[at+1]) {
		return reach[at+1]
	}
	if n == 0 {
		return 0
	}
	return reach[at-1] + 1
}

// fromAbove reports whether the best path comes down from the diagonal above, by
// a line of b, and not from the one below, by a line of a.
func fromAbove(k, n, below, above int) bool {
	return n > 0 && (k == -n || k != n && below < above)
}

// stretch is one changed line, if any, and the same lines after it.
type stretch struct {
	down, right bool
	same        int
}

// stepsBack follows the shortest path back from the end, and returns it from the
// start.
func stepsBack(trace [][]int, x, y int) []stretch {
	list := make([]stretch, len(trace))
	for n := len(trace) - 1; n > 0; n-- {
		k, before := x-y, trace[n-1]
		at := func(k int) int { return reached(before, k, n-1) }
		down := fromAbove(k, n, at(k-1), at(k+1))
		from, started := at(k-1), at(k-1)+1
		if down {
			from, started = at(k+1), at(k+1)
		}
		list[n] = stretch{down: down, right: !down, same: x - started}
		x = from
		if down {
			y = from - (k + 1)
		} else {
			y = from - (k - 1)
		}
	}
	list[0] = stretch{same: x}
	return list
}

// reached is how far the paths with n changes get on diagonal k.
func reached(row []int, k, n int) int {
	if k < -n || k > n {
		return -1
	}
	return row[k+n]
}

// around leaves out lines that are in both texts, but for some about each change.
// What is left out is told by an empty line without numbers.
func around(list []changedLine, some int) []changedLine {
	shown := make([]bool, len(list))
	for i, line := range list {
		if line.Sign == "" {
			continue
		}
		for j := max(0, i-some); j <= min(len(list)-1, i+some); j++ {
			shown[j] = true
		}
	}
	var few []changedLine
	for i, line := range list {
		switch {
		case shown[i]:
			few = append(few, line)
		case i == 0 || shown[i-1]:
			few = append(few, changedLine{})
		}
	}
	return few
}
