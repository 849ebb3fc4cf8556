package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// meetsCircle returns how far from the middle a line so far off it meets a
// circle about that.
func meetsCircle(radius, off float64) float64 { return math.Sqrt(radius*radius - off*off) }

// hollow puts work with a round hole in it.
func (s *Sketch) hollow(hole float64) {
	s.ring(1.25*hole, hole)
	s.cross(here, hole)
}

// boss puts a round of work.
func (s *Sketch) boss(diameter float64) {
	s.round(WorkShape, here, diameter)
	s.cross(here, diameter)
}

// ball puts a ball, pin or roller and what its diameter is.
func (s *Sketch) ball(role int, centre geom.Point, diameter float64, away geom.Point) {
	s.round(PieceShape, centre, diameter)
	s.size(role, centre, diameter, away)
}

// size says what a diameter is: across, along the line square to where it is
// moved.
func (s *Sketch) size(role int, centre geom.Point, diameter float64, away geom.Point) {
	half := away.Left().Times(diameter / 2)
	if away == here {
		half = xy(diameter/2, 0)
	}
	s.span(role, centre.Add(half), centre.Sub(half), away)
}

func sketchOverTwoPins(v []float64, s *Sketch) {
	wall, pin := v[0], v[1]
	s.boss(wall)
	out := xy((wall+pin)/2, 0)
	s.ball(1, out.Times(-1), pin, up)
	s.round(PieceShape, out, pin)
	s.jaws(Closing, xy(-wall/2-pin, 0), xy(wall/2+pin, 0), 2*pin, down)
	s.size(0, here, wall, up)
}

func sketchOverOnePin(v []float64, s *Sketch) {
	wall, across, pin := v[0], v[1], v[2]
	s.boss(across)
	s.round(WorkShape, here, wall)
	s.ball(2, xy((wall+pin)/2, 0), pin, up)
	s.jaws(Closing, xy(-across/2, 0), xy(wall/2+pin, 0), 2*pin, down)
	s.size(0, here, wall, up)
	s.size(1, here, across, up)
}

func sketchBallNear(v []float64, s *Sketch) {
	wall, across, ball := v[0], v[1], v[2]
	s.hollow(wall)
	s.round(WorkShape, here, across)
	s.ball(2, xy((wall-ball)/2, 0), ball, up)
	s.jaws(Opening, xy(across/2, 0), xy(wall/2-ball, 0), ball, down)
	s.size(1, here, across, up)
	s.size(0, here, wall, up)
}

func sketchBallFar(v []float64, s *Sketch) {
	wall, across, ball := v[0], v[1], v[2]
	s.hollow(wall)
	s.round(TraceShape, here, across)
	s.ball(2, xy((wall-ball)/2, 0), ball, up)
	s.jaws(Opening, xy(-across/2, 0), xy(wall/2-ball, 0), ball, down)
	s.size(1, here, across, up)
	s.size(0, here, wall, up)
}

func sketchBetweenTwoBalls(v []float64, s *Sketch) {
	wall, ball := v[0], v[1]
	s.hollow(wall)
	s.round(PieceShape, xy((ball-wall)/2, 0), ball)
	s.ball(1, xy((wall-ball)/2, 0), ball, up)
	s.jaws(Opening, xy(ball-wall/2, 0), xy(wall/2-ball, 0), ball, down)
	s.size(0, here, wall, up)
}

// bridge puts a straight pin on its two ends in a hollow wall, and returns its
// inner side.
func (s *Sketch) bridge(wall, pin, length float64) (inner float64) {
	outer := meetsCircle(wall/2, length/2)
	s.add(PieceShape, geom.Rectangle(xy(outer-pin, -length/2), xy(outer, length/2)))
	s.span(2, xy(outer-pin, length/2), xy(outer, length/2), up)
	s.span(3, xy(outer, -length/2), xy(outer, length/2), right)
	return outer - pin
}

func sketchBridgingPinNear(v []float64, s *Sketch) {
	wall, across, pin, length := v[0], v[1], v[2], v[3]
	s.hollow(wall)
	s.round(WorkShape, here, across)
	s.jaws(Opening, xy(across/2, 0), xy(s.bridge(wall, pin, length), 0), pin, down)
	s.size(1, here, across, up)
	s.size(0, here, wall, up)
}

func sketchBridgingPinFar(v []float64, s *Sketch) {
	wall, across, pin, length := v[0], v[1], v[2], v[3]
	s.hollow(wall)
	s.round(TraceShape, here, across)
	s.jaws(Opening, xy(-across/2, 0), xy(s.bridge(wall, pin, length), 0), pin, down)
	s.size(1, here, across, up)
	s.size(0, here, wall, up)
}

// sketchTwoBallsStacked seats the lower ball in the left corner and the upper
// one against the right wall, its middle s from the lower one's.
func sketchTwoBallsStacked(v []float64, s *Sketch) {
	bore, lower, upper := v[0], v[1], v[2]
	first := xy((lower-bore)/2, lower/2)
	apart := (lower + upper) / 2
	second := xy((bore-upper)/2, 0)
	second.Y = first.Y + meetsCircle(apart, second.X-first.X)
	top := second.Y + upper/2
	face, wide := 1.15*max(top, lower), 0.75*bore
	s.work(xy(-bore/2, face), xy(-wide, face), xy(-wide, -0.2*bore), xy(wide, -0.2*bore),
		xy(wide, face), xy(bore/2, face),
		xy(bore/2, 0), xy(-bore/2, 0))
	s.ball(1, first, lower, left)
	s.ball(2, second, upper, right)
	s.span(ReadingRole, xy(bore/2, 0), xy(bore/2, top), right)
	s.span(0, xy(-bore/2, face), xy(bore/2, face), up)
}

func sketchBallOnMouth(v []float64, s *Sketch) {
	bore, ball := v[0], v[1]
	wide, deep := 0.9*bore, 0.9*ball
	s.halves(xy(bore/2, 0), xy(bore/2, -deep), xy(wide, -deep), xy(wide, 0))
	centre := xy(0, meetsCircle(ball/2, bore/2))
	s.ball(1, centre, ball, left)
	s.span(ReadingRole, here, centre.Add(xy(0, ball/2)), right)
	s.span(0, xy(-bore/2, -deep), xy(bore/2, -deep), down)
}

// sketchRockingRod holds the rod's foot at the bottom of the bore and lets its
// head touch on either side.
func sketchRockingRod(v []float64, s *Sketch) {
	bore, rod := v[0], v[1]
	s.hollow(bore)
	foot := xy(0, -bore/2)
	head := foot.Add(geom.Polar(rod, math.Pi/2-math.Acos(rod/bore)))
	s.add(PieceShape, rodFrom(foot, head, 0.015*bore))
	other := xy(-head.X, head.Y)
	s.trace(foot, other)
	s.span(ReadingRole, other, head, up)
	s.span(1, foot, head, here)
	s.span(0, xy(-bore/2, 0), xy(bore/2, 0), down)
}

// rodFrom is a pointed rod between two points.
func rodFrom(a, b geom.Point, half float64) geom.Path {
	along := b.Sub(a).Unit()
	side, nose := along.Left().Times(half), along.Times(2*half)
	return geom.Polygon(a, a.Add(nose).Sub(side), b.Sub(nose).Sub(side),
		b, b.Sub(nose).Add(side), a.Add(nose).Add(side))
}
