package geom

import "math"

// Crossing is where two edges of a path meet that should not.
type Crossing struct {
	First, Second int // indices of the edges
	At            Point
}

// CrossesItself returns the first place where two edges of the path cross, touch
// or lie on each other, false where there is none. Where neighbours join is no
// such place.
func (p Path) CrossesItself() (Crossing, bool) {
	for i, e := range p {
		for j := i + 1; j < len(p); j++ {
			for _, at := range e.Crossings(p[j]) {
				if !p.joins(i, j, at) {
					return Crossing{i, j, at}, true
				}
			}
		}
	}
	return Crossing{}, false
}

// joins reports whether two edges are neighbours that meet there. Two edges
// that run into each other smoothly seem to meet over a longer stretch.
func (p Path) joins(i, j int, at Point) bool {
	const near = 1e-4
	follows := j == i+1 && at.Distance(p[j].From) < near
	return follows || i == 0 && j == len(p)-1 && at.Distance(p[0].From) < near && p[j].To.Distance(p[0].From) <= same
}

// Crossings returns the points where two edges cross or touch, two at most.
// Edges that lie on each other give the ends of what they share.
func (e Edge) Crossings(f Edge) []Point {
	var candidates []Point
	switch {
	case e.Turn == Straight && f.Turn == Straight:
		candidates = lineLine(e, f)
	case e.Turn == Straight:
		candidates = lineCircle(e, f.Centre, f.Radius())
	case f.Turn == Straight:
		candidates = lineCircle(f, e.Centre, e.Radius())
	default:
		candidates = circleCircle(e.Centre, e.Radius(), f.Centre, f.Radius())
	}
	if candidates == nil {
		candidates = []Point{e.From, e.To, f.From, f.To} // what lies on each other shares ends
	}
	var list []Point
	for _, q := range candidates {
		if e.DistanceTo(q) <= same && f.DistanceTo(q) <= same && !holds(list, q) {
			list = append(list, q)
		}
	}
	return list
}

func holds(list []Point, q Point) bool {
	for _, p := range list {
		if p.Distance(q) <= same {
			return true
		}
	}
	return false
}

// lineLine returns where two lines cross, produced as far as need be; nil where
// they are parallel.
func lineLine(e, f Edge) []Point {
	d, g := e.To.Sub(e.From), f.To.Sub(f.From)
	sine := d.Cross(g)
	if math.Abs(sine) <= same*min(d.Length(), g.Length()) {
		return nil
	}
	return []Point{e.From.Add(d.Times(f.From.Sub(e.From).Cross(g) / sine))}
}

// lineCircle returns where a line, produced as far as need be, meets a circle:
// the one point where it touches.
func lineCircle(e Edge, centre Point, radius float64) []Point {
	along := e.To.Sub(e.From).Unit()
	foot := e.From.Add(along.Times(centre.Sub(e.From).Dot(along)))
	off := foot.Distance(centre)
	switch {
	case math.Abs(off-radius) <= same:
		return []Point{foot}
	case off > radius:
		return []Point{}
	}
	half := along.Times(math.Sqrt((radius - off) * (radius + off)))
	return []Point{foot.Sub(half), foot.Add(half)}
}

// circleCircle returns where two circles meet: the one point where they touch;
// nil where they are one circle.
func circleCircle(a Point, r float64, b Point, s float64) []Point {
	line := b.Sub(a)
	d := line.Length()
	if d <= same {
		if math.Abs(r-s) <= same {
			return nil
		}
		return []Point{}
	}
	towards := line.Times(1 / d)
	along := (d + (r-s)*(r+s)/d) / 2
	switch {
	case math.Abs(d-(r+s)) <= same:
		return []Point{a.Add(towards.Times(r))}
	case math.Abs(d-math.Abs(r-s)) <= same:
		return []Point{a.Add(towards.Times(math.Copysign(r, along)))}
	case d > r+s || d < math.Abs(r-s):
		return []Point{}
	}
	foot := a.Add(towards.Times(along))
	half := towards.Left().Times(math.Sqrt(max(0, (r-along)*(r+along))))
	return []Point{foot.Sub(half), foot.Add(half)}
}
