package solid

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// find returns the index of the point of a line nearest to y.
func (l *line) find(y float64) int {
	i, _ := slices.BinarySearch(l.ys, y)
	if i == len(l.ys) || i > 0 && y-l.ys[i-1] < l.ys[i]-y {
		i--
	}
	return i
}

// ends returns which points of a line bound a cell.
func (c cell) ends(l *line) (low, high int) { return l.find(c.low.y(l.x)), l.find(c.high.y(l.x)) }

// mark notes the heights that meet at every point: walls beside it are divided
// there.
func (q *prismatic) mark(strips [][]cell) {
	for i := range q.lines {
		l := &q.lines[i]
		l.levels = make([]map[float64]bool, len(l.ys))
		for k := range l.levels {
			l.levels[k] = map[float64]bool{0: true}
		}
		for _, strip := range strips[i : i+2] {
			for _, c := range strip {
				low, high := c.ends(l)
				for k := low; k <= high; k++ {
					l.levels[k][c.height] = true
				}
			}
		}
	}
}

// spot returns a point of the body above a point of a line.
func (q *prismatic) spot(p geom.Point, z float64) point {
	if z == q.part.Height && q.part.Thin > 0 {
		z += (q.part.Thin - q.part.Height) * (p.X - q.box.Low.X) / q.box.Size().X
	}
	if edge := math.Min(math.Abs(p.Y-q.box.Low.Y), math.Abs(p.Y-q.box.High.Y)); q.tanLean != 0 && edge < grid {
		p.Y += z * q.tanLean
	}
	return at(p.X, p.Y, z)
}

// row returns the points of a line from one to another, at a height.
func (q *prismatic) row(l *line, low, high int, z float64) chain {
	var c chain
	for k := low; k <= high; k++ {
		c = append(c, link{q.spot(geom.Point{X: l.x, Y: l.ys[k]}, z), l.ys[k]})
	}
	return c
}

// faces adds tops, bottoms and the walls along the edges that cross a strip.
func (q *prismatic) faces(cells []cell, i int) {
	left, right := &q.lines[i-1], &q.lines[i]
	below := cell{sort: beyond}
	for k, c := range cells {
		if c.sort == plain && c.height > 0 {
			l0, l1 := c.ends(left)
			r0, r1 := c.ends(right)
			q.strip(q.row(left, l0, l1, c.height), q.row(right, r0, r1, c.height))
			q.strip(q.row(right, r0, r1, 0), q.row(left, l0, l1, 0))
		}
		q.border(below, c, c.low, left, right)
		below = c
		if k == len(cells)-1 {
			q.border(c, cell{sort: beyond}, c.high, left, right)
		}
	}
}

// border adds what stands on an edge that crosses a strip, between the cells
// below and above it.
func (q *prismatic) border(below, above cell, s side, left, right *line) {
	from, to := left.find(s.y(left.x)), right.find(s.y(right.x))
	q.wall(below, above, stand{left, from}, stand{right, to})
}

// steps adds what stands on a line, between the strips before and behind it.
func (q *prismatic) steps(before, behind []cell, i int) {
	l := &q.lines[i]
	left, right := sorted(before, l), sorted(behind, l)
	for k := 1; k < len(l.ys); k++ {
		q.wall(left[k], right[k], stand{l, k}, stand{l, k - 1})
	}
}

// sorted returns which cell lies beside each piece of a line, by the index of
// its upper end.
func sorted(cells []cell, l *line) []cell {
	list := make([]cell, len(l.ys))
	for k := range list {
		list[k].sort = beyond
	}
	for _, c := range cells {
		low, high := c.ends(l)
		for k := low + 1; k <= high; k++ {
			list[k] = c
		}
	}
	return list
}

// stand is a point of a line.
type stand struct {
	*line
	index int
}

func (s stand) point() geom.Point { return geom.Point{X: s.x, Y: s.ys[s.index]} }

// wall adds what stands between two places in the plan, a to the right of the
// way from p to q and b to the left of it: a wall between their heights, the side
// of a column, or the chamfered edge of the outline.
func (q *prismatic) wall(a, b cell, p, s stand) {
	switch {
	case a.sort == b.sort && (a.sort != plain || a.height == b.height):
	case a.sort >= 0:
		q.ring(q.columns[a.sort], s.point(), p.point())
	case b.sort >= 0:
		q.ring(q.columns[b.sort], p.point(), s.point())
	case a.sort == beyond && q.part.Chamfer > 0:
		q.rim(s.point(), p.point())
	case b.sort == beyond && q.part.Chamfer > 0:
		q.rim(p.point(), s.point())
	case a.height > b.height:
		q.strip(q.post(s, b.height, a.height), q.post(p, b.height, a.height))
	case b.height > a.height:
		q.strip(q.post(p, a.height, b.height), q.post(s, a.height, b.height))
	}
}

// post returns the points above a point of a line, between two heights.
func (q *prismatic) post(s stand, low, high float64) chain {
	var zs []float64
	for z := range s.levels[s.index] {
		if low <= z && z <= high {
			zs = append(zs, z)
		}
	}
	slices.Sort(zs)
	var c chain
	for _, z := range zs {
		c = append(c, link{q.spot(s.point(), z), z})
	}
	return c
}

// rim adds the chamfered side of the body along an edge of the top face, which
// has the outside to its left.
func (q *prismatic) rim(p, s geom.Point) {
	c, height := q.part.Chamfer, q.part.Height
	a, b := q.outwards(p), q.outwards(s)
	q.quad(q.spot(p, height), q.spot(s, height), q.spot(b, height-c), q.spot(a, height-c))
	q.quad(q.spot(a, height-c), q.spot(b, height-c), q.spot(b, c), q.spot(a, c))
	q.quad(q.spot(a, c), q.spot(b, c), q.spot(s, 0), q.spot(p, 0))
}

// outwards returns the point of the full outline that belongs to one on the edge
// of the top face.
func (q *prismatic) outwards(p geom.Point) geom.Point {
	var best geom.Point
	nearest := math.Inf(1)
	for i, a := range q.outline {
		next := (i + 1) % len(q.outline)
		along := q.outline[next].Sub(a)
		t := 0.0
		if d := along.Dot(along); d > 0 {
			t = max(0, min(1, p.Sub(a).Dot(along)/d))
		}
		if off := a.Add(along.Times(t)).Distance(p); off < nearest {
			nearest, best = off, q.full[i].Add(q.full[next].Sub(q.full[i]).Times(t))
		}
	}
	return best
}
