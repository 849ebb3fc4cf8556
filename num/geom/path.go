package geom

import "math"

// Turn says which way an edge bends.
type Turn int8

// The turns.
const (
	Straight      Turn = 0
	Anticlockwise Turn = 1
	Clockwise     Turn = -1
)

// Edge is a straight line or an arc from one point to another. An arc whose
// ends are one point is a whole circle.
type Edge struct {
	From, To Point
	Turn     Turn
	Centre   Point // of an arc
}

// Line returns the straight edge between two points.
func Line(from, to Point) Edge { return Edge{From: from, To: to} }

// Arc returns the arc about a centre from one point to another. Both have the
// same distance from the centre.
func Arc(centre, from, to Point, turn Turn) Edge {
	return Edge{From: from, To: to, Turn: turn, Centre: centre}
}

// Circle returns a whole circle as a closed path, anticlockwise from the
// rightmost point.
func Circle(centre Point, radius float64) Path {
	start := centre.Add(Point{radius, 0})
	return Path{Arc(centre, start, start, Anticlockwise)}
}

// Radius returns the radius of an arc, 0 for a straight edge.
func (e Edge) Radius() float64 {
	if e.Turn == Straight {
		return 0
	}
	return e.From.Distance(e.Centre)
}

// Sweep returns the angle an arc turns through, with its sign; 0 for a straight
// edge, ±2π for a whole circle.
func (e Edge) Sweep() float64 {
	if e.Turn == Straight {
		return 0
	}
	angle := math.Mod(float64(e.Turn)*(e.To.Sub(e.Centre).Angle()-e.From.Sub(e.Centre).Angle()), 2*math.Pi)
	if angle <= 0 {
		angle += 2 * math.Pi
	}
	return float64(e.Turn) * angle
}

// Length returns the length along the edge.
func (e Edge) Length() float64 {
	if e.Turn == Straight {
		return e.From.Distance(e.To)
	}
	return e.Radius() * math.Abs(e.Sweep())
}

// At returns the point a part t of the way along, 0 to 1.
func (e Edge) At(t float64) Point {
	if e.Turn == Straight {
		return e.From.Add(e.To.Sub(e.From).Times(t))
	}
	return e.Centre.Add(e.From.Sub(e.Centre).Turned(t * e.Sweep()))
}

// Reversed returns the edge run the other way.
func (e Edge) Reversed() Edge {
	return Edge{From: e.To, To: e.From, Turn: -e.Turn, Centre: e.Centre}
}

// Moved returns the edge where the pose puts it.
func (e Edge) Moved(m Pose) Edge {
	return Edge{From: m.Of(e.From), To: m.Of(e.To), Turn: e.Turn, Centre: m.Of(e.Centre)}
}

// Scaled returns the edge with all lengths times k, k > 0, about the origin.
func (e Edge) Scaled(k float64) Edge {
	return Edge{From: e.From.Times(k), To: e.To.Times(k), Turn: e.Turn, Centre: e.Centre.Times(k)}
}

// Path is a chain of edges, each beginning where the one before ends. It is
// closed where the last ends where the first begins.
type Path []Edge

// Polyline returns the path of straight edges through points.
func Polyline(points ...Point) Path {
	var p Path
	for i := 1; i < len(points); i++ {
		p = append(p, Line(points[i-1], points[i]))
	}
	return p
}

// Polygon returns the closed path of straight edges through points.
func Polygon(points ...Point) Path {
	return append(Polyline(points...), Line(points[len(points)-1], points[0]))
}

// Rectangle returns the closed path round a rectangle, anticlockwise from its
// lower left corner.
func Rectangle(low, high Point) Path {
	return Polygon(low, Point{high.X, low.Y}, high, Point{low.X, high.Y})
}

// Moved returns the path where the pose puts it.
func (p Path) Moved(m Pose) Path { return p.each(func(e Edge) Edge { return e.Moved(m) }) }

// Scaled returns the path with all lengths times k, k > 0, about the origin.
func (p Path) Scaled(k float64) Path { return p.each(func(e Edge) Edge { return e.Scaled(k) }) }

func (p Path) each(f func(Edge) Edge) Path {
	out := make(Path, len(p))
	for i, e := range p {
		out[i] = f(e)
	}
	return out
}

// Reversed returns the path run the other way.
func (p Path) Reversed() Path {
	out := make(Path, len(p))
	for i, e := range p {
		out[len(p)-1-i] = e.Reversed()
	}
	return out
}

// Length returns the length along the path.
func (p Path) Length() float64 {
	sum := 0.0
	for _, e := range p {
		sum += e.Length()
	}
	return sum
}
