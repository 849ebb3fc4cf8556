package geom

import "math"

// EnclosingCircle returns the smallest circle round a path, exact with arcs to
// rounding. An empty path panics.
//
// The smallest circle round a few points of the path is found directly; the
// point of the path that is farthest outside it is added, and points that do
// not hold the circle are dropped, until nothing is outside (D. J. Elzinga, D.
// W. Hearn, Management Science 19 (1972) 96, from memory). The radius grows with
// every step, so that no points come back.
func (p Path) EnclosingCircle() (centre Point, radius float64) {
	const enough, rounding = 1000, 1e-14
	first := p.Farthest(p[0].From)
	holding := []Point{first, p.Farthest(first)}
	for range enough {
		var round float64
		centre, round, holding = smallestCircle(holding)
		outside := p.Farthest(centre)
		if radius = outside.Distance(centre); radius <= round*(1+rounding) {
			break
		}
		holding = append(holding, outside)
	}
	return centre, radius
}

// smallestCircle returns the smallest circle round four points at most, and
// those that hold it.
func smallestCircle(points []Point) (centre Point, radius float64, holding []Point) {
	radius = math.Inf(1)
	consider := func(c Point, held ...Point) {
		r := 0.0
		for _, q := range points {
			r = max(r, q.Distance(c))
		}
		if r < radius {
			centre, radius, holding = c, r, held
		}
	}
	for i, a := range points {
		for j, b := range points[:i] {
			consider(Middle(a, b), a, b)
			for _, c := range points[:j] {
				if o, ok := circumcentre(a, b, c); ok {
					consider(o, a, b, c)
				}
			}
		}
	}
	return centre, radius, holding
}

// circumcentre returns the centre of the circle through three points, false
// where they lie on a line.
func circumcentre(a, b, c Point) (Point, bool) {
	p, q := b.Sub(a), c.Sub(a)
	double := 2 * p.Cross(q)
	if double == 0 {
		return Point{}, false
	}
	to := Point{q.Y*p.Dot(p) - p.Y*q.Dot(q), p.X*q.Dot(q) - q.X*p.Dot(p)}
	return a.Add(to.Times(1 / double)), true
}
