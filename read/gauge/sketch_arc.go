package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// segment puts the part of a round, about the origin, that is over a chord so
// wide: work that is convex, or with side -1 hollow from above.
func (s *Sketch) segment(radius, half, side float64) {
	y := side * meetsCircle(radius, half)
	a, b := xy(-half, y), xy(half, y)
	s.cross(here, 0.1*radius)
	if side > 0 {
		low := y - 0.2*half
		s.add(WorkShape, geom.Path{
			geom.Arc(here, b, a, geom.Anticlockwise), geom.Line(a, xy(-half, low)),
			geom.Line(xy(-half, low), xy(half, low)), geom.Line(xy(half, low), b),
		})
		return
	}
	low := -radius - 0.3*half
	s.add(WorkShape, geom.Path{
		geom.Arc(here, b, a, geom.Clockwise), geom.Line(a, xy(-half, low)),
		geom.Line(xy(-half, low), xy(half, low)), geom.Line(xy(half, low), b),
	})
}

func sketchChordHeight(v []float64, s *Sketch) {
	radius, chord := v[0], v[1]
	half := chord / 2
	s.segment(radius, min(1.2*half, 0.5*(half+radius)), 1)
	y := meetsCircle(radius, half)
	s.span(ReadingRole, xy(0, y), xy(0, radius), right)
	s.trace(xy(-half, y), xy(half, y))
	for _, side := range []float64{-1, 1} {
		foot := xy(side*half, y)
		s.add(JawShape, geom.Polygon(foot, foot.Add(xy(0.1*half, 0.3*half)), xy(foot.X+0.1*half, radius+0.4*half),
			xy(foot.X-0.1*half, radius+0.4*half), foot.Add(xy(-0.1*half, 0.3*half))))
	}
	s.span(1, xy(-half, y), xy(half, y), up)
	s.span(0, here, geom.Polar(radius, math.Pi/2+0.5*math.Asin(half/radius)), here)
}

// sketchBallFeetHeight measures from where the stylus would be on a flat, the
// balls' undersides, to the round.
func sketchBallFeetHeight(v []float64, s *Sketch) {
	radius, feet, ball, side := v[0], v[1], v[2], v[3]
	half := feet / 2
	centre := xy(half, side*meetsCircle(radius+side*ball/2, half))
	s.segment(radius, min(half+ball, 0.5*(half+radius)), side)
	s.round(PieceShape, xy(-centre.X, centre.Y), ball)
	s.ball(2, centre, ball, right)
	s.span(1, xy(-half, centre.Y), centre, up)
	flat := centre.Y - ball/2
	s.trace(xy(-half, flat), xy(half, flat))
	s.span(ReadingRole, xy(0, flat), xy(0, side*radius), left)
	s.span(0, here, geom.Polar(side*radius, math.Pi/2+0.5*math.Asin(half/radius)), here)
}

func sketchThreeRollers(v []float64, s *Sketch) {
	radius, roller, half, side := v[0], v[1], v[2], v[3]
	path := radius + side*roller/2
	middle, outer := xy(0, side*path), xy(half, side*meetsCircle(path, half))
	s.segment(radius, min(half+roller/2, 0.5*(half+radius)), side)
	s.round(PieceShape, middle, roller)
	s.round(PieceShape, xy(-outer.X, outer.Y), roller)
	s.ball(1, outer, roller, right)
	s.span(2, xy(0, outer.Y), outer, down)
	rise := xy(0, roller/2)
	s.span(ReadingRole, xy(0, outer.Y).Add(rise), middle.Add(rise), left)
	s.span(0, here, geom.Polar(side*radius, math.Pi/2+0.5*math.Asin(half/radius)), here)
}

// sketchRollersOnFlat puts the rollers where their middles are the sum of the
// radii from the work's.
func sketchRollersOnFlat(v []float64, s *Sketch) {
	round, roller := v[0], v[1]
	s.round(WorkShape, xy(0, round/2), round)
	s.cross(xy(0, round/2), round)
	middle := xy(meetsCircle((round+roller)/2, (round-roller)/2), roller/2)
	s.round(PieceShape, xy(-middle.X, middle.Y), roller)
	s.ball(1, middle, roller, right)
	over := middle.X + roller/2
	s.plate(1.3 * over)
	s.jaws(Closing, xy(-over, middle.Y), xy(over, middle.Y), 0.8*roller, down)
	s.size(0, xy(0, round/2), round, up)
}

func sketchTouch(v []float64, s *Sketch) {
	circle, stylus, side := v[0], v[1], v[2]
	if side > 0 {
		s.boss(circle)
	} else {
		s.hollow(circle)
	}
	middle := geom.Polar((circle+side*stylus)/2, 35*degree)
	s.ball(1, middle, stylus, up)
	s.size(0, here, circle, down)
}

// plate puts a plate of work with round holes, and plugs in some of them.
func (s *Sketch) drilled(low, high geom.Point, holes ...geom.Path) {
	path := geom.Rectangle(low, high)
	for _, hole := range holes {
		path = append(path, hole.Reversed()...)
	}
	s.add(WorkShape, path)
}

// twoPlugs puts a plate with two plugs in it, and returns their middles.
func (s *Sketch) twoPlugs(v []float64) (a, b geom.Point) {
	centres, first, second := v[0], v[1], v[2]
	a, b = here, xy(centres, 0)
	edge := max(first, second)
	s.drilled(xy(-1.4*edge, -edge), xy(centres+1.4*edge, edge), geom.Circle(a, first/2), geom.Circle(b, second/2))
	s.ball(1, a, first, down)
	s.ball(2, b, second, down)
	s.cross(a, first)
	s.cross(b, second)
	s.span(0, a, b, up)
	return a, b
}

func sketchOverPlugs(v []float64, s *Sketch) {
	a, b := s.twoPlugs(v)
	s.jaws(Closing, a.Sub(xy(v[1]/2, 0)), b.Add(xy(v[2]/2, 0)), min(v[1], v[2]), up)
}

func sketchBetweenPlugs(v []float64, s *Sketch) {
	a, b := s.twoPlugs(v)
	s.jaws(Opening, a.Add(xy(v[1]/2, 0)), b.Sub(xy(v[2]/2, 0)), min(v[1], v[2]), up)
}

// edgePlug puts a plate that ends at the y axis, with a plug in it.
func (s *Sketch) edgePlug(v []float64) (middle geom.Point) {
	edge, plug := v[0], v[1]
	middle = xy(edge, 0)
	s.drilled(xy(0, -1.2*plug), xy(edge+1.5*plug, 1.2*plug), geom.Circle(middle, plug/2))
	s.ball(1, middle, plug, down)
	s.cross(middle, plug)
	s.span(0, here, middle, up)
	return middle
}

func sketchEdgeToPlugFar(v []float64, s *Sketch) {
	s.jaws(Closing, here, s.edgePlug(v).Add(xy(v[1]/2, 0)), v[1], up)
}

func sketchEdgeToPlugNear(v []float64, s *Sketch) {
	s.span(ReadingRole, here, s.edgePlug(v).Sub(xy(v[1]/2, 0)), up)
}

func sketchBoltCircleChord(v []float64, s *Sketch) {
	circle, plug, holes, apart := v[0], v[1], v[2], v[3]
	place := func(i float64) geom.Point { return geom.Polar(circle/2, 2*math.Pi*i/holes) }
	path := geom.Circle(here, circle/2+plug)
	for i := range int(holes) {
		path = append(path, geom.Circle(place(float64(i)), plug/2).Reversed()...)
	}
	s.add(WorkShape, path)
	s.round(AxisShape, here, circle)
	s.cross(here, 0.2*circle)
	a, b := place(0), place(apart)
	s.ball(1, a, plug, right)
	s.round(PieceShape, b, plug)
	along := b.Sub(a).Unit().Times(plug / 2)
	s.jaws(Closing, a.Sub(along), b.Add(along), plug, here)
	s.size(0, here, circle, down)
}

// cutRound puts a round whose top is cut down to a floor, so wide; it returns
// the floor's height over the axis.
func (s *Sketch) keyed(shaft, width, depth float64) (corner, floor float64) {
	corner = meetsCircle(shaft/2, width/2)
	floor = corner - depth
	a, b := xy(width/2, corner), xy(-width/2, corner)
	s.add(WorkShape, geom.Path{
		geom.Arc(here, b, a, geom.Anticlockwise), geom.Line(a, xy(width/2, floor)),
		geom.Line(xy(width/2, floor), xy(-width/2, floor)), geom.Line(xy(-width/2, floor), b),
	})
	s.cross(here, shaft)
	return corner, floor
}

// sketchKeywayFloor shows a keyway of no stated width, drawn a quarter of the
// shaft wide; its depth is from the top of the round.
func sketchKeywayFloor(v []float64, s *Sketch) {
	shaft, depth := v[0], v[1]
	width := shaft / 4
	s.keyed(shaft, width, depth-(shaft/2-meetsCircle(shaft/2, width/2)))
	floor := shaft/2 - depth
	s.jaws(Closing, xy(0, -shaft/2), xy(0, floor), 0.8*width, left)
	s.span(1, xy(0, floor), xy(0, shaft/2), right)
	s.size(0, here, shaft, down)
}

func sketchKeywayFloorEdge(v []float64, s *Sketch) {
	shaft, width, depth := v[0], v[1], v[2]
	corner, floor := s.keyed(shaft, width, depth)
	s.jaws(Closing, xy(0, -shaft/2), xy(0, floor), 0.8*width, left)
	s.span(1, xy(-width/2, corner), xy(width/2, corner), up)
	s.span(2, xy(width/2, floor), xy(width/2, corner), right)
	s.size(0, here, shaft, down)
}

func sketchFlatOnRound(v []float64, s *Sketch) {
	round, width := v[0], v[1]
	y := meetsCircle(round/2, width/2)
	a, b := xy(width/2, y), xy(-width/2, y)
	s.add(WorkShape, geom.Path{geom.Arc(here, b, a, geom.Anticlockwise), geom.Line(a, b)})
	s.cross(here, round)
	s.jaws(Closing, xy(0, -round/2), xy(0, y), width, left)
	s.span(1, b, a, up)
	s.size(0, here, round, down)
}

func sketchHexCorners(v []float64, s *Sketch) {
	flats := v[0]
	reach := flats / 2 / math.Cos(30*degree)
	var corners []geom.Point
	for i := range 6 {
		corners = append(corners, geom.Polar(reach, float64(i)*60*degree))
	}
	s.work(corners...)
	s.cross(here, 2*reach)
	s.jaws(Closing, xy(-reach, 0), xy(reach, 0), flats/3, down)
	s.span(0, xy(0, -flats/2), xy(0, flats/2), right)
}
