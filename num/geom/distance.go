package geom

// Closest returns the point of one edge and the point of the other that are
// nearest to each other; one point twice where they meet.
func (e Edge) Closest(f Edge) (onE, onF Point) {
	if meet := e.Crossings(f); len(meet) > 0 {
		return meet[0], meet[0]
	}
	onE, onF = e.From, f.Nearest(e.From)
	consider := func(p, q Point) {
		if p.Distance(q) < onE.Distance(onF) {
			onE, onF = p, q
		}
	}
	consider(e.To, f.Nearest(e.To))
	consider(e.Nearest(f.From), f.From)
	consider(e.Nearest(f.To), f.To)
	for _, p := range e.facing(f) {
		consider(p, f.Nearest(p))
	}
	for _, q := range f.facing(e) {
		consider(e.Nearest(q), q)
	}
	return onE, onF
}

// facing returns the points of an arc at which its radius stands square on
// another edge produced: along the line of centres, or square to a line.
func (e Edge) facing(f Edge) []Point {
	if e.Turn == Straight {
		return nil
	}
	way := f.Centre.Sub(e.Centre).Unit()
	if f.Turn == Straight {
		way = f.Direction(0).Left()
	}
	if way == (Point{}) {
		return nil
	}
	var points []Point
	for _, p := range []Point{e.Centre.Add(way.Times(e.Radius())), e.Centre.Sub(way.Times(e.Radius()))} {
		if e.faces(p) {
			points = append(points, p)
		}
	}
	return points
}

// Closest returns the point of one path and the point of the other that are
// nearest to each other. It says nothing of one lying inside the other. An empty
// path panics.
func (p Path) Closest(o Path) (onP, onO Point) {
	if len(p) == 0 || len(o) == 0 {
		panic("geom: an empty path has no points")
	}
	onP, onO = p[0].Closest(o[0])
	for _, e := range p {
		for _, f := range o {
			if a, b := e.Closest(f); a.Distance(b) < onP.Distance(onO) {
				onP, onO = a, b
			}
		}
	}
	return onP, onO
}
