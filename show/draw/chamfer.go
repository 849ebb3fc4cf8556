package draw

import (
	"codeberg.org/oddleg/oddleg/num/geom"
)

// inset returns a closed anticlockwise path moved inwards everywhere by a
// distance, its corners where the moved edges meet.
func inset(p geom.Path, by float64) geom.Path {
	corners := make([]geom.Point, len(p))
	for i, e := range p {
		corners[i] = insetCorner(p[(i+len(p)-1)%len(p)], e, by)
	}
	list := make(geom.Path, len(p))
	for i, e := range p {
		e.From, e.To = corners[i], corners[(i+1)%len(p)]
		list[i] = e
	}
	return list
}

// insetCorner returns the point this far to the left of both edges, near where
// the one ends and the other begins, by Newton's method.
func insetCorner(before, after geom.Edge, by float64) geom.Point {
	at := after.From
	a, b := before.Direction(1).Left(), after.Direction(0).Left()
	if between := 1 + a.Dot(b); between > 1e-6 {
		at = at.Add(a.Add(b).Times(by / between))
	}
	const steps = 8
	for range steps {
		f, n := leftOf(before, at)
		g, m := leftOf(after, at)
		det := n.Cross(m)
		if det*det < 1e-18 {
			return at // they run into each other without a corner
		}
		f, g = by-f, by-g
		at = at.Add(geom.Point{X: f*m.Y - g*n.Y, Y: g*n.X - f*m.X}.Times(1 / det))
	}
	return at
}

// leftOf returns how far a point lies to the left of an edge, or of the line or
// circle it is a part of, and the direction in which that grows.
func leftOf(e geom.Edge, q geom.Point) (distance float64, direction geom.Point) {
	if e.Turn == geom.Straight {
		normal := e.Direction(0).Left()
		return q.Sub(e.From).Dot(normal), normal
	}
	out := q.Sub(e.Centre)
	turn := float64(e.Turn)
	return turn * (e.Radius() - out.Length()), out.Unit().Times(-turn)
}

// slant returns how much longer a length square to the outline becomes along x,
// where the outline passes a point.
func slant(outline geom.Path, at geom.Point) float64 {
	for _, e := range outline {
		if e.DistanceTo(at) > 1e-6 {
			continue
		}
		if _, normal := leftOf(e, at); normal.X*normal.X > 1e-4 {
			return 1 / max(normal.X, -normal.X)
		}
	}
	return 1
}
