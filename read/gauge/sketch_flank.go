package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// against returns the middle of a round of this diameter that touches a floor
// and a flank from above: the lines half a diameter from them cross there. The
// flank leaves the floor at a corner with a direction; the round is to the left
// of it, or to the right.
func against(floor float64, corner, flank geom.Point, diameter float64, toTheLeft bool) geom.Point {
	aside := flank.Unit().Left().Times(diameter / 2)
	if !toTheLeft {
		aside = aside.Times(-1)
	}
	return meet(corner.Add(aside), flank, xy(0, floor+diameter/2), right)
}

func sketchTaperOverRollers(v []float64, s *Sketch) {
	smallEnd, halfAngle, roller, block := v[0], v[1], v[2], v[3]
	height := given(v[4], 1.2*(block+roller))
	corner, flank := xy(smallEnd/2, 0), xy(math.Sin(halfAngle), math.Cos(halfAngle))
	top := corner.Add(flank.Times(height / flank.Y))
	s.work(xy(-corner.X, 0), corner, top, xy(-top.X, top.Y))
	middle := against(block, corner, flank, roller, false)
	over := middle.X + roller/2
	if block > 0 {
		for _, side := range []float64{-1, 1} {
			s.add(PieceShape, geom.Rectangle(xy(side*middle.X-0.6*roller, 0), xy(side*middle.X+0.6*roller, block)))
		}
		s.span(3, xy(middle.X+0.6*roller, 0), xy(middle.X+0.6*roller, block), right)
	}
	s.plate(1.4 * over)
	s.round(PieceShape, xy(-middle.X, middle.Y), roller)
	s.ball(2, middle, roller, up)
	s.jaws(Closing, xy(-over, middle.Y), xy(over, middle.Y), 1.2*roller, up)
	s.span(0, xy(-corner.X, 0), corner, down)
	s.lean(1, corner, flank, height)
	s.axis(xy(0, -0.1*height), xy(0, 1.1*height))
}

// plate puts the plate on which the work stands.
func (s *Sketch) plate(half float64) {
	s.add(JawShape, geom.Rectangle(xy(-half, -0.12*half), xy(half, 0)))
}

// lean says what the angle of a flank to the upright through its corner is.
func (s *Sketch) lean(role int, corner, flank geom.Point, height float64) {
	a, b := corner.Add(flank.Times(height)), corner.Add(xy(0, height*flank.Y/math.Abs(flank.Y)))
	if a.Sub(corner).Cross(b.Sub(corner)) < 0 {
		a, b = b, a
	}
	s.trace(corner, corner.Add(xy(0, 0.8*height*flank.Y/math.Abs(flank.Y))))
	s.angle(role, corner, a, b)
}

// taperedHole puts a hole that narrows downward from its mouth and a ball in it,
// and returns the height of the ball's top over the face.
func (s *Sketch) taperedHole(v []float64) (top float64) {
	mouth, halfAngle, ball := v[0], v[1], v[2]
	corner, flank := xy(mouth/2, 0), xy(-math.Sin(halfAngle), -math.Cos(halfAngle))
	centre := meet(corner.Add(flank.Left().Times(-ball/2)), flank, here, up)
	apex := mouth / 2 / math.Tan(halfAngle)
	deep := min(0.999*apex, ball-centre.Y)
	wide := 0.5*mouth + 0.3*ball
	foot := corner.Add(flank.Times(-deep / flank.Y))
	s.halves(corner, foot, xy(wide, -deep), xy(wide, 0))
	s.ball(2, centre, ball, left)
	s.axis(xy(0, -1.1*deep), xy(0, max(0, centre.Y+ball/2)+0.1*deep))
	s.span(0, xy(-mouth/2, 0), corner, up)
	s.lean(1, corner, flank, deep)
	return centre.Y + ball/2
}

func sketchTaperBallDepth(v []float64, s *Sketch) {
	top := s.taperedHole(v)
	s.span(ReadingRole, xy(0, top), here, right)
}

func sketchSineBar(v []float64, s *Sketch) {
	angle, bar := v[0], v[1]
	roller := 0.15 * bar
	first := xy(0, roller/2)
	second := first.Add(geom.Polar(bar, angle))
	s.round(JawShape, first, roller)
	s.round(JawShape, second, roller)
	deck := geom.Rectangle(xy(-0.1*bar, 0.05*bar), xy(1.1*bar, 0.2*bar))
	s.add(JawShape, deck.Moved(geom.Pose{Angle: angle, Shift: first}))
	rise := second.Y - roller/2
	s.add(PieceShape, geom.Rectangle(xy(second.X-roller, 0), xy(second.X+roller, rise)))
	s.add(WorkShape, geom.Rectangle(xy(-0.2*bar, -0.08*bar), xy(1.3*bar, 0)))
	s.span(ReadingRole, xy(second.X+roller, 0), xy(second.X+roller, rise), right)
	s.span(1, first, second, geom.Polar(1, angle+math.Pi/2))
	s.trace(first, first.Add(xy(0.9*bar, 0)))
	s.angle(0, first, first.Add(xy(0.7*bar, 0)), first.Add(geom.Polar(0.7*bar, angle)))
}

func sketchDovetailOverRollers(v []float64, s *Sketch) {
	width, angle, roller := v[0], v[1], v[2]
	height := given(v[3], 1.3*roller)
	corner, flank := xy(width/2, 0), geom.Polar(1, angle)
	top := corner.Add(flank.Times(height / flank.Y))
	middle := against(0, corner, flank, roller, false)
	wide := max(middle.X+roller, top.X)
	half := []geom.Point{xy(wide, -0.8*roller), xy(wide, 0), corner, top}
	s.work(append(half, flipped(half...)...)...)
	s.twoRollers(middle, roller)
	over := middle.X + roller/2
	s.jaws(Closing, xy(-over, middle.Y), xy(over, middle.Y), roller, up)
	s.span(0, xy(-width/2, 0), corner, down)
	s.angle(1, corner, corner.Add(xy(height, 0)), corner.Add(flank.Times(height)))
}

// twoRollers puts a roller and its mirror image.
func (s *Sketch) twoRollers(middle geom.Point, roller float64) {
	s.round(PieceShape, xy(-middle.X, middle.Y), roller)
	s.ball(2, middle, roller, down)
}

func sketchDovetailBetweenRollers(v []float64, s *Sketch) {
	width, angle, roller := v[0], v[1], v[2]
	height := given(v[3], 1.3*roller)
	corner, flank := xy(width/2, 0), geom.Polar(1, math.Pi-angle)
	top := corner.Add(flank.Times(height / flank.Y))
	wide := width/2 + roller
	half := []geom.Point{xy(wide, -0.8*roller), xy(wide, height), top, corner}
	s.work(append(half, flipped(half...)...)...)
	middle := against(0, corner, flank, roller, true)
	s.twoRollers(middle, roller)
	between := middle.X - roller/2
	s.jaws(Opening, xy(-between, middle.Y), xy(between, middle.Y), roller, up)
	s.span(0, xy(-width/2, 0), corner, down)
	s.angle(1, corner, corner.Add(flank.Times(height)), corner.Sub(xy(height, 0)))
}

func sketchVeeRoller(v []float64, s *Sketch) {
	width, angle, roller := v[0], v[1], v[2]
	corner, flank := xy(width/2, 0), xy(-math.Sin(angle/2), -math.Cos(angle/2))
	point := meet(corner, flank, here, up)
	centre := meet(corner.Add(flank.Left().Times(-roller/2)), flank, here, up)
	wide, low := 0.8*width, point.Y-0.3*width
	s.work(corner, point, xy(-corner.X, 0), xy(-wide, 0), xy(-wide, low), xy(wide, low), xy(wide, 0))
	s.ball(2, centre, roller, left)
	s.span(ReadingRole, here, centre.Add(xy(0, roller/2)), right)
	s.span(0, xy(-width/2, 0), corner, up)
	s.angle(1, point, corner, xy(-corner.X, 0))
}
