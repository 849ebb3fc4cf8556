package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// screw is the profile of a thread whose axis is the x axis, on one side of it.
type screw struct {
	pitch, angle float64
	pitchLine    float64 // y of it
	side         float64 // 1 where the crests look up, -1 where they look down
	groove       float64 // x of the middle of one groove
	crest, root  float64 // above and below the pitch line
}

// sharp is how far from the pitch line the flanks would meet.
func (t screw) sharp() float64 { return t.pitch / 4 / math.Tan(t.angle/2) }

// cut cuts crests and roots off at three quarters of the sharp height.
func (t screw) cut() screw {
	t.crest, t.root = 0.75*t.sharp(), 0.75*t.sharp()
	return t
}

// crests and roots return their y.
func (t screw) crests() float64 { return t.pitchLine + t.side*t.crest }
func (t screw) roots() float64  { return t.pitchLine - t.side*t.root }

// at returns the y of the profile at a place along the axis.
func (t screw) at(x float64) float64 {
	off := math.Abs(math.Remainder(x-t.groove, t.pitch)) // from the nearest groove
	height := (off - t.pitch/4) / math.Tan(t.angle/2)
	return t.pitchLine + t.side*max(-t.root, min(t.crest, height))
}

// outline runs along the profile between two places, left to right.
func (t screw) outline(from, to float64) []geom.Point {
	slope := math.Tan(t.angle / 2)
	root, crest := t.pitch/4-t.root*slope, t.pitch/4+t.crest*slope
	list := []geom.Point{xy(from, t.at(from))}
	first := t.groove + t.pitch*math.Floor((from-t.groove)/t.pitch)
	for groove := first; groove <= to; groove += t.pitch {
		for _, bend := range []geom.Point{
			xy(groove+root, t.roots()), xy(groove+crest, t.crests()),
			xy(groove+t.pitch-crest, t.crests()), xy(groove+t.pitch-root, t.roots()),
		} {
			if bend.X > from && bend.X < to {
				list = append(list, bend)
			}
		}
	}
	return append(list, xy(to, t.at(to)))
}

// seated returns the middle of a wire or ball on both flanks of a groove: where
// the line half a diameter from the right flank meets the groove's middle.
func (t screw) seated(groove int, diameter float64) geom.Point {
	middle := xy(t.groove+float64(groove)*t.pitch, t.pitchLine)
	flank := geom.Point{X: math.Sin(t.angle / 2), Y: t.side * math.Cos(t.angle/2)}
	inward := geom.Point{X: -math.Cos(t.angle / 2), Y: t.side * math.Sin(t.angle/2)}
	onFlank := middle.Add(xy(t.pitch/4, 0))
	return meet(onFlank.Add(inward.Times(diameter/2)), flank, middle, up)
}

// holding cuts crests and roots so that a wire or ball touches the straight of
// the flanks, and no root.
func (t screw) holding(diameter float64) screw {
	seat := t.seated(0, diameter)
	touch := t.side*(seat.Y-t.pitchLine) - diameter/2*math.Sin(t.angle/2)
	lowest := diameter/2 - t.side*(seat.Y-t.pitchLine)
	t.crest = min(max(0.75*t.sharp(), 1.05*touch), t.sharp())
	t.root = min(max(0.75*t.sharp(), 1.05*lowest), t.sharp())
	return t
}

// shownPitches is how many pitches a sketch shows.
const shownPitches = 5

// screwed puts a screw between its two profiles; nut puts the work about them.
func (s *Sketch) screwed(upper, lower screw) {
	above, below := s.profiles(upper, lower)
	for i := range below {
		above = append(above, below[len(below)-1-i])
	}
	s.work(above...)
}

func (s *Sketch) nut(upper, lower screw) {
	above, below := s.profiles(upper, lower)
	thick := 2 * upper.pitch
	ends := func(profile []geom.Point, y float64) {
		s.work(append(profile, xy(profile[len(profile)-1].X, y), xy(profile[0].X, y))...)
	}
	ends(above, upper.roots()+thick)
	ends(below, lower.roots()-thick)
}

// profiles returns the outlines of both sides, and draws axis and pitch lines.
func (s *Sketch) profiles(upper, lower screw) (above, below []geom.Point) {
	reach := shownPitches / 2.0 * upper.pitch
	above, below = upper.outline(-reach, reach), lower.outline(-reach, reach)
	s.axis(xy(-1.2*reach, 0), xy(1.2*reach, 0))
	for _, y := range []float64{upper.pitchLine, lower.pitchLine} {
		s.trace(xy(-1.1*reach, y), xy(1.1*reach, y))
	}
	return above, below
}

// opposite returns the two sides of a single-start thread: half a pitch apart
// along the axis.
func opposite(upper screw) (screw, screw) {
	lower := upper
	lower.pitchLine, lower.side = -upper.pitchLine, -upper.side
	lower.groove = upper.groove - upper.pitch/2
	return upper, lower
}

// threadSizes says what effective diameter, pitch and angle are; the pitch
// stands between two grooves of the upper side.
func (s *Sketch) threadSizes(upper screw) {
	edge := -1.1 * shownPitches / 2 * upper.pitch
	s.span(0, xy(edge, -upper.pitchLine), xy(edge, upper.pitchLine), left)
	y := max(upper.crests(), upper.roots())
	s.span(1, xy(upper.groove-upper.pitch, y), xy(upper.groove, y), up)
	point := xy(upper.groove-2*upper.pitch, upper.pitchLine-upper.side*upper.sharp())
	legs := 6 * upper.sharp() // clear of the crests at half their length
	a := point.Add(xy(legs*math.Tan(upper.angle/2), upper.side*legs))
	b := point.Add(xy(-legs*math.Tan(upper.angle/2), upper.side*legs))
	if upper.side < 0 {
		a, b = b, a
	}
	s.trace(geom.Middle(point, a), point, geom.Middle(point, b))
	s.angle(2, point, a, b)
}

func sketchThreeWires(v []float64, s *Sketch) {
	effective, pitch, angle, wire := v[0], v[1], v[2], v[3]
	profile := screw{pitch: pitch, angle: angle, pitchLine: effective / 2, side: 1, groove: pitch / 2}.holding(wire)
	if major := v[4]; major > effective {
		profile.crest = min((major-effective)/2, profile.sharp())
		s.span(4, xy(2*pitch, -major/2), xy(2*pitch, major/2), right)
	}
	upper, lower := opposite(profile)
	s.screwed(upper, lower)
	for _, groove := range []int{-1, 0} {
		s.round(PieceShape, upper.seated(groove, wire), wire)
	}
	alone := lower.seated(0, wire)
	s.ball(3, alone, wire, down)
	top := upper.seated(0, wire).Y + wire/2
	s.jaws(Closing, xy(0, alone.Y-wire/2), xy(0, top), 2*pitch, right)
	s.threadSizes(upper)
}

// insideThread puts an inside thread that holds balls of a diameter.
func (s *Sketch) insideThread(v []float64, groove float64) (upper, lower screw) {
	effective, pitch, angle, ball := v[0], v[1], v[2], v[3]
	upper, lower = opposite(screw{
		pitch: pitch, angle: angle, pitchLine: effective / 2, side: -1, groove: groove * pitch,
	}.holding(ball))
	s.nut(upper, lower)
	s.threadSizes(upper)
	return upper, lower
}

func sketchThreadBallTips(v []float64, s *Sketch) {
	ball := v[3]
	upper, lower := s.insideThread(v, 0.25)
	a, b := lower.seated(0, ball), upper.seated(0, ball)
	s.add(JawShape, rodFrom(a, b, 0.3*ball))
	s.round(PieceShape, a, ball)
	s.ball(3, b, ball, down)
	along := b.Sub(a).Unit().Times(ball / 2)
	s.span(ReadingRole, a.Sub(along), b.Add(along), right)
}

func sketchThreadBetweenBalls(v []float64, s *Sketch) {
	pitch, ball := v[1], v[3]
	upper, lower := s.insideThread(v, 0.5)
	for _, groove := range []int{-1, 0} {
		s.round(PieceShape, upper.seated(groove, ball), ball)
	}
	alone := lower.seated(0, ball)
	s.ball(3, alone, ball, up)
	s.jaws(Opening, xy(0, alone.Y+ball/2), xy(0, upper.seated(0, ball).Y-ball/2), 2*pitch, right)
}

// plainThread is a thread of no stated pitch, drawn with one of an eighth of a
// diameter.
func plainThread(diameter, side float64) screw {
	return screw{pitch: diameter / 8, angle: 60 * degree, side: side}.cut()
}

func sketchThreadBore(v []float64, s *Sketch) {
	minor := v[0]
	profile := plainThread(minor, -1)
	profile.pitchLine = minor/2 + profile.crest
	s.nut(opposite(profile))
	s.jaws(Opening, xy(0, -minor/2), xy(0, minor/2), 2*profile.pitch, right)
	s.span(0, xy(-3*profile.pitch, -minor/2), xy(-3*profile.pitch, minor/2), left)
}

func sketchOverCrests(v []float64, s *Sketch) {
	major := v[0]
	profile := plainThread(major, 1)
	profile.pitchLine = major/2 - profile.crest
	s.screwed(opposite(profile))
	s.jaws(Closing, xy(0, -major/2), xy(0, major/2), 3*profile.pitch, right)
	s.span(0, xy(-3*profile.pitch, -major/2), xy(-3*profile.pitch, major/2), left)
}

// sketchRoot has anvils sharper than the thread.
func sketchRoot(v []float64, s *Sketch) {
	minor := v[0]
	profile := plainThread(minor, 1)
	profile.pitchLine = minor/2 + profile.root
	upper, lower := opposite(profile)
	s.screwed(upper, lower)
	for _, side := range []screw{upper, lower} {
		tip := xy(side.groove, side.roots())
		reach, half := 3*side.sharp()*side.side, side.pitch/2
		s.add(JawShape, geom.Polygon(tip, tip.Add(xy(half, reach)), tip.Add(xy(half, 2*reach)),
			tip.Add(xy(-half, 2*reach)), tip.Add(xy(-half, reach))))
	}
	s.span(ReadingRole, xy(0, -minor/2), xy(0, minor/2), right)
	s.span(0, xy(-3*profile.pitch, -minor/2), xy(-3*profile.pitch, minor/2), left)
}
