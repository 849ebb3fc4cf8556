package geom

import "math"

// same is how near to each other two points count as one, in mm. Sizes read in
// a shop are known to 1e-4 mm at best, and float64 keeps 1e-12 mm in a metre.
const same = 1e-9

// Direction returns the unit vector along the edge a part t of the way along.
func (e Edge) Direction(t float64) Point {
	if e.Turn == Straight {
		return e.To.Sub(e.From).Unit()
	}
	return e.At(t).Sub(e.Centre).Left().Times(float64(e.Turn)).Unit()
}

// Part returns the piece of the edge from a part t of the way along to a part
// u, t < u.
func (e Edge) Part(t, u float64) Edge {
	piece := e
	if t > 0 {
		piece.From = e.At(t)
	}
	if u < 1 {
		piece.To = e.At(u)
	}
	return piece
}

// along returns how far along an arc, as a part of its sweep, the radius through
// q stands: over 1 where the arc does not come there. What is before its start
// by rounding only is at the start.
func (e Edge) along(q Point) float64 {
	sweep := math.Abs(e.Sweep())
	angle := math.Mod(float64(e.Turn)*(q.Sub(e.Centre).Angle()-e.From.Sub(e.Centre).Angle()), 2*math.Pi)
	if angle < 0 {
		angle += 2 * math.Pi
	}
	if angle > sweep && (2*math.Pi-angle)*e.Radius() < same {
		return 0
	}
	return angle / sweep
}

// faces reports whether the radius of an arc through q meets it.
func (e Edge) faces(q Point) bool { return e.along(q) <= 1+same/e.Length() }

// where returns how far along the edge its point nearest to q is, 0 to 1.
func (e Edge) where(q Point) float64 {
	if e.Turn == Straight {
		run := e.To.Sub(e.From)
		if run == (Point{}) {
			return 0
		}
		return min(1, max(0, q.Sub(e.From).Dot(run)/run.Dot(run)))
	}
	if t := e.along(q); t <= 1 {
		return t
	}
	if q.Distance(e.From) <= q.Distance(e.To) {
		return 0
	}
	return 1
}

// Nearest returns the point of the edge that is nearest to q. All points of an
// arc are equally near to its centre; then it is where the arc begins.
func (e Edge) Nearest(q Point) Point {
	switch t := e.where(q); {
	case t <= 0 || q == e.Centre && e.Turn != Straight:
		return e.From
	case t >= 1:
		return e.To
	case e.Turn == Straight:
		return e.At(t)
	}
	return e.Centre.Add(q.Sub(e.Centre).Unit().Times(e.Radius()))
}

// DistanceTo returns the distance of q from the edge.
func (e Edge) DistanceTo(q Point) float64 { return q.Distance(e.Nearest(q)) }

// Farthest returns the point of the edge that is farthest from q.
func (e Edge) Farthest(q Point) Point {
	best := e.From
	if q.Distance(e.To) > q.Distance(best) {
		best = e.To
	}
	if e.Turn == Straight || q == e.Centre {
		return best
	}
	away := e.Centre.Sub(q)
	if opposite := e.Centre.Add(away.Unit().Times(e.Radius())); e.faces(opposite) && q.Distance(opposite) > q.Distance(best) {
		return opposite
	}
	return best
}

// Extreme returns the point of the edge that is farthest in a direction, a unit
// vector.
func (e Edge) Extreme(direction Point) Point {
	best := e.From
	if e.To.Dot(direction) > best.Dot(direction) {
		best = e.To
	}
	if e.Turn == Straight {
		return best
	}
	if top := e.Centre.Add(direction.Times(e.Radius())); e.faces(top) {
		return top
	}
	return best
}
