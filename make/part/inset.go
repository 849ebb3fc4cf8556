package part

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// Face returns the outline of the upper and lower face, inside the chamfer. It
// has an edge for every edge of the outline; without a chamfer it is the outline.
func (p *Prism) Face() geom.Path {
	face, fits := inset(p.Outline, p.Chamfer)
	if !fits {
		panic("part: a chamfer leaves no face")
	}
	return face
}

// inset returns a closed anticlockwise path moved inwards, edge for edge, so
// that corners stay sharp. It returns false where an edge would vanish or the
// path cross itself.
func inset(path geom.Path, by float64) (geom.Path, bool) {
	if by == 0 {
		return path, true
	}
	if len(path) == 1 {
		radius := path[0].Radius() - by
		return geom.Circle(path[0].Centre, radius), radius > level
	}
	corners := make([]geom.Point, len(path)) // at the beginning of each edge
	for i, e := range path {
		before := path[(i+len(path)-1)%len(path)]
		corner, found := insetCorner(before, e, by, path.Length())
		if !found {
			return nil, false
		}
		corners[i] = corner
	}
	var moved geom.Path
	for i, e := range path {
		e.From, e.To = corners[i], corners[(i+1)%len(path)]
		if !sameWay(path[i], e) {
			return nil, false
		}
		moved = append(moved, e)
	}
	_, crosses := moved.CrossesItself()
	return moved, !crosses
}

// insetCorner returns where two edges that follow each other meet when both are
// moved to their left: of several places that nearest to the mitre.
func insetCorner(a, b geom.Edge, by, reach float64) (geom.Point, bool) {
	const smooth = 1e-6
	left, right := a.Direction(1).Left(), b.Direction(0).Left()
	if math.Abs(left.Cross(right)) < smooth && left.Dot(right) > 0 {
		return b.From.Add(left.Times(by)), true
	}
	mitre := b.From.Add(left.Add(right).Times(by / (1 + left.Dot(right))))
	best, found := geom.Point{}, false
	for _, p := range beside(a, by, reach).Crossings(beside(b, by, reach)) {
		if !found || p.Distance(mitre) < best.Distance(mitre) {
			best, found = p, true
		}
	}
	return best, found
}

// beside returns the whole line or circle at a distance to the left of an edge.
func beside(e geom.Edge, by, reach float64) geom.Edge {
	if e.Turn != geom.Straight {
		return geom.Circle(e.Centre, max(0, e.Radius()-float64(e.Turn)*by))[0]
	}
	along := e.Direction(0)
	aside := along.Left().Times(by)
	return geom.Line(e.From.Add(aside).Sub(along.Times(reach)), e.To.Add(aside).Add(along.Times(reach)))
}

// sameWay reports whether an edge that was moved still runs as it did.
func sameWay(e, moved geom.Edge) bool {
	if e.Turn == geom.Straight {
		return moved.To.Sub(moved.From).Dot(e.To.Sub(e.From)) > level
	}
	return moved.Radius() > level && math.Abs(moved.Sweep()-e.Sweep()) < math.Pi/2
}
