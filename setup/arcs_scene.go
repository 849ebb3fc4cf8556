package setup

import (
	"oddleg/geom"
	"oddleg/unit"
)

// Scenes draws the set-up for each face, in the plan of the shoe as if the cutter
// went round it: the table's centre, the blank, the cutter at start and stop, and
// the offsets. Lengths are told in inches where in is Inch.
func (a *ArcsSetUp) Scenes(in unit.Unit) []Scene {
	list := make([]Scene, len(a.Faces))
	for i, f := range a.Faces {
		list[i] = a.scene(f, in)
	}
	return list
}

func (a *ArcsSetUp) scene(f ArcFace, in unit.Unit) Scene {
	w := &a.Wanted
	var centre geom.Point
	s := Scene{Title: faceName(f.Convex)}
	s.add(StockShape, w.Blank)
	s.add(WorkShape, w.shoe())
	s.cross(centre, w.Cutter/2)
	s.add(AxisShape, geom.Polyline(centre, geom.Point{Y: max(a.Far, f.Offset)}))
	last := f.Passes[len(f.Passes)-1]
	s.add(TraceShape, w.cutterPath(f, last))
	start, stop := fromMiddle(f.Offset, -f.Start), fromMiddle(f.Offset, -f.Stop)
	s.add(ToolShape, geom.Circle(start, w.Cutter/2))
	s.add(ToolShape, geom.Circle(stop, w.Cutter/2))
	s.label(centre, "table's centre")
	s.label(start, "start")
	s.label(stop, "stop")
	s.span(centre, start, geom.Point{}, in)
	beside := geom.Point{X: -1}
	s.span(centre, geom.Point{Y: a.Near}, beside, in)
	if w.Stud > 0 {
		s.cross(geom.Point{Y: w.Stud}, (w.Outer-w.Inner)/4)
		s.span(centre, geom.Point{Y: w.Stud}, geom.Point{X: 1}, in)
	}
	s.fromMiddleAngles(f)
	return s
}

// fromMiddleAngles dimensions start and stop from the middle line.
func (s *Scene) fromMiddleAngles(f ArcFace) {
	middle := fromMiddle(f.Offset, 0)
	for _, angle := range []float64{-f.Start, -f.Stop} {
		at := fromMiddle(f.Offset, angle)
		if angle > 0 {
			s.angle(geom.Point{}, middle, at, angle)
		} else {
			s.angle(geom.Point{}, at, middle, -angle)
		}
	}
}
