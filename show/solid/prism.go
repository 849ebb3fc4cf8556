package solid

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// A prism is cut in the plan into strips along y at every corner of every
// outline, and each strip into cells by the edges that cross it. A cell has one
// height. Tops and bottoms are the cells, walls stand where the heights beside an
// edge differ; all take the points of their neighbours, so that nothing gapes.
// Round holes and the stem are columns: the cells leave their discs out, and what
// is in a column is made from the edge of its disc inwards.

// Sorts of what a place in the plan belongs to.
const (
	beyond = -1 // outside the outline
	plain  = -2 // neither beyond nor in a column; else the index of the column
)

// area is a closed outline in the plan.
type area struct {
	points []geom.Point
	lower  float64 // how much the surface is lower in it; +Inf where nothing is left
	column int     // index of a column, else plain
}

// side is an edge of an area from left to right.
type side struct{ from, to geom.Point }

// prismatic meshes one prism.
type prismatic struct {
	*Mesh
	part    *part.Prism
	full    []geom.Point // the outline as it is
	outline []geom.Point // of the top face: inside the chamfer
	areas   []area
	columns []column
	sides   []side
	lines   []line
	tanLean float64
	box     geom.Box
}

// line is a place along x between two strips.
type line struct {
	x      float64
	ys     []float64 // of all points on it
	levels []map[float64]bool
}

// cell is a part of a strip between two edges.
type cell struct {
	low, high side
	height    float64 // 0 where there is no metal
	sort      int
}

func (m *Mesh) prism(p *part.Prism) trade.Faults {
	q := &prismatic{Mesh: m, part: p, tanLean: math.Tan(p.Lean), box: p.Outline.Bounds()}
	if q.flatten(); !alike(q.full, q.outline) {
		return refused("a solid cannot be made with the chamfer of %s: it leaves too little of the outline", unit.ShowLength(p.Chamfer, unit.Millimetre))
	}
	for _, l := range p.Ledges {
		q.areas = append(q.areas, area{rounded(geom.Rectangle(l.Outline.Bounds().Low, l.Outline.Bounds().High).Flatten(1)), l.Depth, plain})
	}
	for _, s := range p.Slots {
		q.areas = append(q.areas, area{rounded(s.Outline().Flatten(m.chord)), slotDepth(s), plain})
	}
	q.columns = columns(p)
	for i, c := range q.columns {
		q.areas = append(q.areas, area{rounded(geom.Circle(c.centre, c.radius).Flatten(m.chord)), 0, i})
	}
	q.cut()
	strips := make([][]cell, len(q.lines)+1) // the first and last are empty
	for i := 1; i < len(q.lines); i++ {
		strips[i] = q.cells(q.lines[i-1].x, q.lines[i].x)
	}
	q.mark(strips)
	for i := 1; i < len(q.lines); i++ {
		q.faces(strips[i], i)
	}
	for i := range q.lines {
		q.steps(strips[i], strips[i+1], i)
	}
	return nil
}

// alike reports whether every edge of an outline that was moved inwards still
// runs the way it did.
func alike(points, moved []geom.Point) bool {
	for i, p := range points {
		next := (i + 1) % len(points)
		if !(points[next].Sub(p).Dot(moved[next].Sub(moved[i])) > 0) {
			return false
		}
	}
	return true
}

func slotDepth(s part.Slot) float64 {
	if s.Through {
		return math.Inf(1)
	}
	return s.Depth
}

// rounded puts points on the grid and leaves out those that fall together.
func rounded(points []geom.Point) []geom.Point {
	list := make([]geom.Point, len(points))
	for i, p := range points {
		list[i] = onPlan(p)
	}
	list = slices.Compact(list)
	if n := len(list); n > 1 && list[0] == list[n-1] {
		list = list[:n-1]
	}
	return list
}

// flatten takes the outline and that of the face apart into points, as many of
// the one as of the other.
func (q *prismatic) flatten() {
	face := q.part.Face()
	if q.part.Chamfer == 0 {
		q.full = rounded(face.Flatten(q.chord))
		q.outline = q.full
		return
	}
	for i, e := range q.part.Outline {
		edge := geom.Path{e}
		n := len(edge.Flatten(q.chord))
		if !edge.Closed() {
			n-- // the end is where the next edge begins
		}
		for k := range n {
			t := float64(k) / float64(n)
			q.full = append(q.full, onPlan(e.At(t)))
			q.outline = append(q.outline, onPlan(face[i].At(t)))
		}
	}
}

// onPlan puts a point of the plan on the grid.
func onPlan(p geom.Point) geom.Point {
	return geom.Point{X: math.Round(p.X/grid) * grid, Y: math.Round(p.Y/grid) * grid}
}

// cut finds the lines between strips and the points on them.
func (q *prismatic) cut() {
	xs := q.addSides(q.outline)
	outlined := len(q.sides)
	for _, a := range q.areas {
		xs = append(xs, q.addSides(a.points)...)
	}
	for _, s := range q.sides[outlined:] {
		if s.from.Y != s.to.Y { // only the sides of a ledge run across others
			continue
		}
		for _, o := range q.sides[:outlined] {
			if rise := o.to.Y - o.from.Y; rise != 0 {
				if u := (s.from.Y - o.from.Y) / rise; u > 0 && u < 1 {
					xs = append(xs, o.from.X+u*(o.to.X-o.from.X))
				}
			}
		}
	}
	slices.Sort(xs)
	for _, x := range slices.CompactFunc(xs, within(grid/2)) {
		q.lines = append(q.lines, line{x: x, ys: q.crossings(x)})
	}
}

// addSides takes up the edges of an outline and returns where its corners are.
func (q *prismatic) addSides(points []geom.Point) []float64 {
	var xs []float64
	for i, p := range points {
		next := points[(i+1)%len(points)]
		xs = append(xs, p.X)
		if p.X < next.X {
			q.sides = append(q.sides, side{p, next})
		} else if p.X > next.X {
			q.sides = append(q.sides, side{next, p})
		}
	}
	return xs
}

// y returns where an edge is at x.
func (s side) y(x float64) float64 {
	switch {
	case math.Abs(x-s.from.X) < grid/2:
		return s.from.Y
	case math.Abs(x-s.to.X) < grid/2:
		return s.to.Y
	}
	return s.from.Y + (x-s.from.X)/(s.to.X-s.from.X)*(s.to.Y-s.from.Y)
}

// crossings returns the points of all edges on a line, upwards.
func (q *prismatic) crossings(x float64) []float64 {
	var ys []float64
	for _, s := range q.sides {
		if s.from.X < x+grid/2 && s.to.X > x-grid/2 {
			ys = append(ys, s.y(x))
		}
	}
	slices.Sort(ys)
	return slices.CompactFunc(ys, within(grid/2))
}

// cells returns the cells of a strip, upwards, with those that have no metal.
func (q *prismatic) cells(from, to float64) []cell {
	middle := (from + to) / 2
	var across []side
	for _, s := range q.sides {
		if s.from.X < middle && middle < s.to.X {
			across = append(across, s)
		}
	}
	slices.SortFunc(across, func(a, b side) int {
		if a.y(middle) < b.y(middle) {
			return -1
		}
		return 1
	})
	var list []cell
	for i := 1; i < len(across); i++ {
		c := cell{low: across[i-1], high: across[i]}
		if c.high.y(middle)-c.low.y(middle) > 1e-9 {
			c.height, c.sort = q.at(geom.Point{X: middle, Y: (c.low.y(middle) + c.high.y(middle)) / 2})
			list = append(list, c)
		}
	}
	return list
}

// at returns the height of a place in the plan, and what it belongs to.
func (q *prismatic) at(p geom.Point) (float64, int) {
	if !contains(q.outline, p) {
		return 0, beyond
	}
	height, sort := q.part.Height, plain
	for _, a := range q.areas {
		if contains(a.points, p) {
			height = max(0, height-a.lower)
			sort = max(sort, a.column)
		}
	}
	return height, sort
}

// contains reports whether a polygon goes round a point.
func contains(points []geom.Point, p geom.Point) bool {
	inside := false
	for i, a := range points {
		b := points[(i+1)%len(points)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			inside = !inside
		}
	}
	return inside
}
