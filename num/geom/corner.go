package geom

import "math"

// Fillet returns the path with a fillet of this radius in the corner at the end
// of edge i, where the next edge begins; of the last edge of a closed path the
// first is the next. The fillet becomes edge i+1: round the last corner first
// where there are several. An edge that fillets use up is left out. It returns
// false where the edges run into each other smoothly or the radius does not fit:
// a fillet must touch both.
func (p Path) Fillet(i int, radius float64) (Path, bool) {
	a, b := p[i], p[p.next(i)]
	turn := turnOf(a, b)
	if turn == Straight || !(radius > 0) {
		return nil, false
	}
	best, found := Point{}, false
	for _, centre := range meetings(parallel(a, turn, radius), parallel(b, turn, radius)) {
		if !within(a, centre, radius) || !within(b, centre, radius) {
			continue
		}
		if !found || centre.Distance(a.To) < best.Distance(a.To) {
			best, found = centre, true
		}
	}
	if !found {
		return nil, false
	}
	return p.cornered(i, Arc(best, a.Nearest(best), b.Nearest(best), turn)), true
}

// Chamfer returns the path with the corner at the end of edge i cut off, the
// same length from either edge, measured along them. The cut becomes edge i+1.
// An edge that chamfers use up is left out. It returns false where an edge is too
// short.
func (p Path) Chamfer(i int, length float64) (Path, bool) {
	a, b := p[i], p[p.next(i)]
	if !(length > 0) || length > a.Length()+same || length > b.Length()+same {
		return nil, false
	}
	return p.cornered(i, Line(a.At(1-length/a.Length()), b.At(length/b.Length()))), true
}

// next returns the index of the edge after the i-th. A path that is not closed
// has no corner at its end.
func (p Path) next(i int) int {
	if i < len(p)-1 {
		return i + 1
	}
	if len(p) < 2 || !p.Closed() {
		panic("geom: there is no corner at the end of this edge")
	}
	return 0
}

// cornered puts an edge into the corner after edge i and shortens its
// neighbours, or leaves them out where nothing is left of them.
func (p Path) cornered(i int, cut Edge) Path {
	next := p.next(i)
	usedUp := map[int]bool{i: p[i].From.Distance(cut.From) <= same, next: p[next].To.Distance(cut.To) <= same}
	var out Path
	for k, e := range p {
		if k == i {
			e.To = cut.From
		}
		if k == next {
			e.From = cut.To
		}
		if !usedUp[k] {
			out = append(out, e)
		}
		if k == i {
			out = append(out, cut)
		}
	}
	return out
}

// turnOf returns which way a path turns from one edge into the next, Straight
// where it runs on smoothly or doubles back.
func turnOf(a, b Edge) Turn {
	const smooth = 1e-9 // sine of the angle
	switch sine := a.Direction(1).Cross(b.Direction(0)); {
	case sine > smooth:
		return Anticlockwise
	case sine < -smooth:
		return Clockwise
	}
	return Straight
}

// parallel returns the edge moved to one side by a distance: to the left for
// Anticlockwise. Of an arc only the centre and the radius of what it returns
// count; a radius that comes to nothing gives an edge without length.
func parallel(e Edge, side Turn, distance float64) Edge {
	if e.Turn == Straight {
		shift := e.Direction(0).Left().Times(float64(side) * distance)
		return Line(e.From.Add(shift), e.To.Add(shift))
	}
	radius := e.Radius() - float64(side*e.Turn)*distance
	if radius <= 0 {
		return Line(e.Centre, e.Centre)
	}
	return Circle(e.Centre, radius)[0]
}

// meetings returns where two lines or circles meet, produced as far as need be.
func meetings(a, b Edge) []Point {
	switch {
	case a.Length() == 0 || b.Length() == 0:
		return nil
	case a.Turn == Straight && b.Turn == Straight:
		return lineLine(a, b)
	case a.Turn == Straight:
		return lineCircle(a, b.Centre, b.Radius())
	case b.Turn == Straight:
		return lineCircle(b, a.Centre, a.Radius())
	}
	return circleCircle(a.Centre, a.Radius(), b.Centre, b.Radius())
}

// within reports whether a circle touches an edge inside its length.
func within(e Edge, centre Point, radius float64) bool {
	foot := e.Nearest(centre)
	spoke := foot.Sub(centre)
	off := spoke.Length() - radius
	return off < same && off > -same && math.Abs(spoke.Dot(e.Direction(e.where(centre)))) <= same
}
