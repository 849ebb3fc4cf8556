package lathe

import (
	"math"

	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// Scene draws the part as it stands on the table, with the datum at the origin,
// the holes by their names and how far the farthest are from the datum. The
// outline, in the plan of the part, may be nil.
func (c *Coordinates) Scene(outline geom.Path) sketch.Scene {
	s := sketch.Scene{Title: "Holes from the datum"}
	stands := c.Datum.Stands()
	if outline != nil {
		s.Draw(sketch.WorkShape, outline.Moved(stands))
	}
	var datum geom.Point
	reach := 0.0
	far := datum
	for _, h := range c.Holes {
		at := stands.Of(h.At)
		reach = max(reach, at.Length())
		far = geom.Point{X: farther(far.X, at.X), Y: farther(far.Y, at.Y)}
		if h.Diameter > 0 {
			s.Draw(sketch.WorkShape, geom.Circle(at, h.Diameter/2).Reversed())
		}
		s.Note(at, h.Name)
	}
	s.Cross(datum, reach/8)
	s.Note(datum, "datum")
	finder(&s, &c.Datum)
	if far.X != 0 {
		s.Measure(datum, geom.Point{X: far.X}, geom.Point{Y: -1})
	}
	if far.Y != 0 {
		s.Measure(datum, geom.Point{Y: far.Y}, geom.Point{X: -1})
	}
	return s
}

// farther returns the coordinate that is farther from 0.
func farther(a, b float64) float64 {
	if math.Abs(b) > math.Abs(a) {
		return b
	}
	return a
}

// finder puts the edge finder where it touches, a way along each datum edge.
func finder(s *sketch.Scene, d *Datum) {
	const along = 4.0 // radii
	r := d.Finder / 2
	touch := func(at geom.Point) {
		s.Draw(sketch.ToolShape, geom.Circle(at, r))
		s.Note(at, "finder")
	}
	if side := float64(d.Sides[0]); side != 0 {
		touch(geom.Point{X: side * r, Y: -along * r * outwards(d.Sides[1])})
	}
	if side := float64(d.Sides[1]); side != 0 {
		touch(geom.Point{X: -along * r * outwards(d.Sides[0]), Y: side * r})
	}
}

// outwards is the side of an edge, or the lower one where there is none.
func outwards(side int) float64 {
	if side == 0 {
		return -1
	}
	return float64(side)
}
