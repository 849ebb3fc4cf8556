package gauge

import "codeberg.org/oddleg/oddleg/num/geom"

func sketchOutside(v []float64, s *Sketch) {
	size := v[0]
	s.add(WorkShape, geom.Rectangle(xy(-size/2, 0), xy(size/2, 0.5*size)))
	s.jaws(Closing, xy(-size/2, 0.25*size), xy(size/2, 0.25*size), 0.4*size, down)
	s.span(0, xy(-size/2, 0.5*size), xy(size/2, 0.5*size), up)
}

// sketchInside shows a round bore: the corners of flat jaws lie on it.
func sketchInside(v []float64, s *Sketch) {
	size, flat := v[0], v[1]
	s.ring(1.3*size, size)
	s.cross(here, size)
	corner := meetsCircle(size/2, flat/2)
	a, b := xy(-corner, 0), xy(corner, 0)
	if flat > 0 {
		s.blade(a, xy(0.08*size, 0), flat)
		s.blade(b, xy(-0.08*size, 0), flat)
		s.span(1, xy(corner, -flat/2), xy(corner, flat/2), right)
	}
	s.span(ReadingRole, a, b, down)
	s.span(0, xy(-size/2, 0), xy(size/2, 0), up)
}

func sketchDepth(v []float64, s *Sketch) {
	size := v[0]
	reach := max(size, -size)
	s.work(xy(-reach, 0), xy(-reach, -1.5*reach), xy(reach, -1.5*reach), xy(reach, -size), xy(0, -size), xy(0, 0))
	base := max(0, -size)
	s.add(JawShape, geom.Rectangle(xy(-0.7*reach, base), xy(0.7*reach, base+0.15*reach)))
	s.add(JawShape, geom.Rectangle(xy(0.27*reach, -size), xy(0.33*reach, base+0.4*reach)))
	s.span(ReadingRole, xy(0.3*reach, 0), xy(0.3*reach, -size), right)
	s.span(0, xy(-reach, 0), xy(-reach, -size), left)
}

func sketchProtractor(v []float64, s *Sketch) {
	angle := v[0]
	const long = 16 // of the work, which has none stated
	leg, far := xy(long, 0), geom.Polar(long, angle)
	if angle < 0 {
		leg, far = far, leg
	}
	s.work(here, leg, far)
	s.blade(leg.Times(0.5), leg.Unit().Left().Times(-1), long/2)
	s.blade(far.Times(0.5), far.Unit().Left(), long/2)
	s.angle(ReadingRole, here, leg, far)
	s.angle(0, here, leg.Times(0.35), far.Times(0.35))
}

func sketchWallThickness(v []float64, s *Sketch) {
	outer, inner := v[0], v[1]
	s.ring(outer, inner)
	s.cross(here, outer)
	a, b := xy(inner/2, 0), xy(outer/2, 0)
	s.blade(a, xy(-0.04*outer, 0), 0.1*outer)
	s.blade(b, xy(0.04*outer, 0), 0.1*outer)
	s.span(ReadingRole, a, b, down)
	s.span(1, xy(-inner/2, 0), xy(inner/2, 0), up)
	s.span(0, xy(-outer/2, 0), xy(outer/2, 0), up)
}

func sketchPitches(v []float64, s *Sketch) {
	pitch, n := v[0], v[1]
	profile := screw{pitch: pitch, angle: 60 * degree, side: 1}.cut()
	low := profile.roots() - 2*pitch
	s.work(append(profile.outline(0, (n+1)*pitch), xy((n+1)*pitch, low), xy(0, low))...)
	crest := profile.crests()
	s.span(ReadingRole, xy(pitch/2, crest), xy(pitch/2+n*pitch, crest), up)
	s.span(0, xy(pitch/2, crest), xy(1.5*pitch, crest), up)
}

// sketchRunout shows the round at the two ends of the swing.
func sketchRunout(v []float64, s *Sketch) {
	offset := v[0]
	radius := 5 * max(offset, -offset)
	s.round(WorkShape, xy(0, offset), 2*radius)
	s.round(TraceShape, xy(0, -offset), 2*radius)
	s.axis(xy(-1.2*radius, 0), xy(1.2*radius, 0))
	s.axis(xy(-0.2*radius, offset), xy(0.2*radius, offset))
	s.span(ReadingRole, xy(0, radius-offset), xy(0, radius+offset), right)
	s.span(0, here, xy(0, offset), left)
}

// sketchLostMotion shows the tooth of a nut in the groove of its screw, taken
// up one way.
func sketchLostMotion(v []float64, s *Sketch) {
	play := max(v[0], -v[0])
	wide, deep := 4*play, 3*play
	s.work(xy(-1.5*wide, 0), xy(-1.5*wide, -2*deep), xy(1.5*wide+play, -2*deep), xy(1.5*wide+play, 0),
		xy(wide/2+play, 0), xy(wide/2+play, -deep), xy(-wide/2, -deep), xy(-wide/2, 0))
	s.add(PieceShape, geom.Polygon(xy(-wide/2, -0.9*deep), xy(wide/2, -0.9*deep), xy(wide/2, 0.5*deep),
		xy(1.4*wide, 0.5*deep),
		xy(1.4*wide, 1.5*deep), xy(-1.4*wide, 1.5*deep), xy(-1.4*wide, 0.5*deep), xy(-wide/2, 0.5*deep)))
	s.span(ReadingRole, xy(wide/2, -0.5*deep), xy(wide/2+play, -0.5*deep), down)
	s.span(0, xy(wide/2, 0), xy(wide/2+play, 0), up)
}
