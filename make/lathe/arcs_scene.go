package lathe

import (
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// Scenes draws the set-up for each face, in the plan of the shoe as if the cutter
// went round it: the table's centre, the blank, the cutter at start and stop and
// its path, and how far these and the stud are from the centre.
func (a *ArcsSetUp) Scenes() []sketch.Scene {
	list := make([]sketch.Scene, len(a.Faces))
	for i, f := range a.Faces {
		list[i] = a.scene(f)
	}
	return list
}

func (a *ArcsSetUp) scene(f ArcFace) sketch.Scene {
	w := &a.Wanted
	var centre geom.Point
	s := sketch.Scene{Title: faceName(f.Convex)}
	s.Draw(sketch.StockShape, w.Blank)
	s.Draw(sketch.WorkShape, w.shoe())
	reach := geom.Point{X: w.Cutter / 2}
	s.Draw(sketch.AxisShape, geom.Polyline(centre.Sub(reach), reach))
	s.Draw(sketch.AxisShape, geom.Polyline(geom.Point{Y: -w.Cutter / 2}, geom.Point{Y: max(a.Far, f.Offset)}))
	last := f.Passes[len(f.Passes)-1]
	s.Draw(sketch.TraceShape, w.cutterPath(f, last))
	cutter(&s, w.Cutter, fromMiddle(f.Offset, -f.Start), "start")
	cutter(&s, w.Cutter, fromMiddle(f.Offset, -f.Stop), "stop")
	s.Note(centre, "table's centre")
	left, right := geom.Point{X: -1}, geom.Point{X: 1}
	s.Measure(centre, geom.Point{Y: f.Offset}, left)
	s.Measure(centre, geom.Point{Y: a.Near}, left)
	if w.Stud > 0 {
		stud, across := geom.Point{Y: w.Stud}, geom.Point{X: (w.Outer - w.Inner) / 4}
		s.Draw(sketch.AxisShape, geom.Polyline(stud.Sub(across), stud.Add(across)))
		s.Measure(centre, stud, right)
	}
	fromMiddleAngles(&s, f)
	return s
}

// cutter puts a cutter where it stands.
func cutter(s *sketch.Scene, diameter float64, at geom.Point, words string) {
	s.Draw(sketch.ToolShape, geom.Circle(at, diameter/2))
	s.Cross(at, diameter/6)
	s.Note(at, words)
}

// fromMiddleAngles dimensions start and stop from the middle line.
func fromMiddleAngles(s *sketch.Scene, f ArcFace) {
	middle := fromMiddle(f.Offset, 0)
	for _, angle := range []float64{-f.Start, -f.Stop} {
		at := fromMiddle(f.Offset, angle)
		if angle > 0 {
			s.MeasureAngle(geom.Point{}, middle, at, angle)
		} else {
			s.MeasureAngle(geom.Point{}, at, middle, -angle)
		}
	}
}
