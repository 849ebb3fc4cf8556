package geom

import "math"

// Box is a rectangle along the axes.
type Box struct {
	Low, High Point
}

// Size returns how far the box reaches along x and along y.
func (b Box) Size() Point { return b.High.Sub(b.Low) }

// Closed reports whether the path ends where it begins. An empty path does not.
func (p Path) Closed() bool {
	return len(p) > 0 && p[len(p)-1].To.Distance(p[0].From) <= same
}

// Area returns the area within a closed path, exact with arcs: positive where it
// runs anticlockwise, negative where it runs clockwise.
func (p Path) Area() float64 {
	sum := 0.0
	for _, e := range p {
		sum += e.From.Sub(p[0].From).Cross(e.To.Sub(p[0].From))/2 + e.segment()
	}
	return sum
}

// segment returns the area between an arc and its chord, ½R²(θ - sin θ), with
// the sign of its turn.
func (e Edge) segment() float64 {
	if e.Turn == Straight {
		return 0
	}
	radius := e.Radius()
	return radius * radius / 2 * lessItsSine(e.Sweep())
}

// lessItsSine returns θ - sin θ without loss of digits for a small θ.
func lessItsSine(angle float64) float64 {
	if math.Abs(angle) > 0.3 {
		return angle - math.Sin(angle)
	}
	sum, term := 0.0, angle
	for n := 3.0; n < 16; n += 2 {
		term *= -angle * angle / (n * (n - 1))
		sum -= term
	}
	return sum
}

// Centroid returns the centre of area within a closed path, exact with arcs. It
// is not-a-number where the area is zero.
func (p Path) Centroid() Point {
	var moment Point
	for _, e := range p {
		from, to := e.From.Sub(p[0].From), e.To.Sub(p[0].From)
		moment = moment.Add(from.Add(to).Times(from.Cross(to) / 6)).Add(e.segmentMoment(p[0].From))
	}
	return p[0].From.Add(moment.Times(1 / p.Area()))
}

// segmentMoment returns the first moment about o of the area between an arc and
// its chord: the area at the arc's centre, and ⅔R³sin³(θ/2) towards its middle.
func (e Edge) segmentMoment(o Point) Point {
	if e.Turn == Straight {
		return Point{}
	}
	half := math.Sin(e.Sweep() / 2)
	towards := e.At(0.5).Sub(e.Centre)
	return e.Centre.Sub(o).Times(e.segment()).Add(towards.Times(2.0 / 3 * e.Radius() * e.Radius() * half * half * half))
}

// Bounds returns the smallest box along the axes round the path, exact with
// arcs. An empty path panics.
func (p Path) Bounds() Box {
	return Box{
		Low:  Point{p.Extreme(Point{-1, 0}).X, p.Extreme(Point{0, -1}).Y},
		High: Point{p.Extreme(Point{1, 0}).X, p.Extreme(Point{0, 1}).Y},
	}
}

// Extreme returns the point of the path that is farthest in a direction, a unit
// vector. An empty path panics.
func (p Path) Extreme(direction Point) Point {
	return p.best(func(e Edge) (Point, float64) {
		q := e.Extreme(direction)
		return q, q.Dot(direction)
	})
}

// Nearest returns the point of the path that is nearest to q. An empty path
// panics.
func (p Path) Nearest(q Point) Point {
	return p.best(func(e Edge) (Point, float64) {
		near := e.Nearest(q)
		return near, -q.Distance(near)
	})
}

// Farthest returns the point of the path that is farthest from q. An empty path
// panics.
func (p Path) Farthest(q Point) Point {
	return p.best(func(e Edge) (Point, float64) {
		far := e.Farthest(q)
		return far, q.Distance(far)
	})
}

// best returns the point of the edge that counts most.
func (p Path) best(of func(Edge) (Point, float64)) Point {
	if len(p) == 0 {
		panic("geom: an empty path has no points")
	}
	point, most := of(p[0])
	for _, e := range p[1:] {
		if q, value := of(e); value > most {
			point, most = q, value
		}
	}
	return point
}

// DistanceTo returns the distance of q from the path itself, also where q is
// inside. An empty path panics.
func (p Path) DistanceTo(q Point) float64 { return q.Distance(p.Nearest(q)) }

// Contains reports whether a closed path goes round q, or through it.
func (p Path) Contains(q Point) bool {
	if len(p) == 0 {
		return false
	}
	return p.windings(q) != 0 || p.DistanceTo(q) <= same
}

// windings returns how many times a closed path goes round q anticlockwise.
func (p Path) windings(q Point) int {
	sum := 0.0
	for _, e := range p {
		sum += e.turnsRound(q)
	}
	return int(math.Round(sum / (2 * math.Pi)))
}

// turnsRound returns the angle through which a point running along the edge
// turns about q: that of the chord, and a full turn where q lies between the
// arc and its chord.
func (e Edge) turnsRound(q Point) float64 {
	from, to := e.From.Sub(q), e.To.Sub(q)
	across := from.Cross(to)
	if across == 0 {
		across = 0 // and not minus zero, whose angle is -π
	}
	chord := math.Atan2(across, from.Dot(to))
	left := across >= 0
	switch whole := e.Turn != Straight && e.From == e.To; {
	case e.Turn == Straight || q.Distance(e.Centre) >= e.Radius():
		return chord
	case whole:
		return float64(e.Turn) * 2 * math.Pi
	case left == (e.Turn == Clockwise):
		return chord + float64(e.Turn)*2*math.Pi
	}
	return chord
}
