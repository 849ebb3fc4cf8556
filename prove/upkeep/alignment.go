package upkeep

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// difference adjusts two readings with one instrument, whose zero cancels, and
// returns the first less the second.
func (l *look) difference(first, second string) (found, error) {
	m := l.model()
	a, b := one(m.unknown(0)), one(m.unknown(0))
	m.read(l.With, inside(l.Values(first)), 0, a)
	m.read(l.With, inside(l.Values(second)), 0, b)
	s, err := m.solve()
	if err != nil {
		return found{}, err
	}
	return s.of(a.plus(-1, b)), nil
}

// twoCollar finds the angle between the axis of the work and the tool's path in the
// plane of both from two collars turned at one setting: atan((near - far)/2L). The
// tolerance is that of the difference in diameter. A far collar that is smaller says
// that the axis comes towards the tool as the carriage leaves the headstock; the tool
// stands at the front.
func (l *look) twoCollar() error {
	difference, err := l.difference("near", "far")
	if err != nil {
		return err
	}
	apart := l.stated("apart", 0)
	l.find("difference", "near collar larger than the far one by", difference)
	slope := difference.value / (2 * apart)
	angle := found{math.Atan(slope), difference.u / (2 * apart) / (1 + slope*slope)}
	l.find("angle", "angle of the axis to the tool's path", angle).Dimension = unit.Angle
	l.find("offset", "axis off at the far collar by", difference.times(0.5))
	l.judgeSize("difference of the collars", difference)
	l.collarAdvice(difference)
	p := Plot{X: "from the near collar", Y: "axis nearer the tool", Series: []Series{off("axis", 0, apart, difference.times(0.5))}}
	if l.Within.Given() {
		p.fan(0, apart, 0, l.Within.Inside()/2)
	}
	l.answer.Plot = p
	l.caution("Both collars with a sharp tool in one setting, light cuts: a tool that wears turns the second one larger.")
	return nil
}

func (l *look) collarAdvice(difference found) {
	if math.Abs(difference.value) <= oneSided*difference.u {
		l.advise("The collars are alike as far as these readings tell: leave it.")
		return
	}
	way := "back, away from the operator"
	if difference.value < 0 {
		way = "forward, towards the operator"
	}
	by := l.mm(math.Abs(difference.value) / 2)
	if l.Word("held", trade.InChuck) == trade.OnCentres {
		l.advise("Move the tailstock %s, by %s for collars as far apart as the centres: times the distance of the centres over that of the collars.", way, by)
		return
	}
	l.advise("Level the bed first, free of twist. If the collars still differ, swing the headstock so that the axis moves %s at the far collar, by %s.", way, by)
	l.caution("Work that springs away from the tool turns larger at its free end: use a stout bar, bored hollow if need be.")
}

// testBar finds in two planes how far a bar in the spindle is out of parallel to the
// travel, and how it runs. Of two readings half a turn apart the mean is free of run-out;
// their difference is the run-out in that plane, and √ of the sum of squares of both
// planes, read at the same two places of the spindle, the whole of it.
func (l *look) testBar() error {
	m := l.model()
	var bar [4]turned
	for i, key := range []string{"up-near", "up-far", "side-near", "side-far"} {
		bar[i] = l.halfTurn(m, key)
	}
	s, err := m.solve()
	if err != nil {
		return err
	}
	up, side := s.of(bar[1].middle.plus(-1, bar[0].middle)), s.of(bar[3].middle.plus(-1, bar[2].middle))
	over := ", over " + l.mm(l.stated("apart", 0)) + ","
	l.find("up", "free end higher"+over+" by", up)
	l.find("side", "free end nearer the operator"+over+" by", side)
	l.find("run_out_near", "run-out at the nose, whole", s.length(bar[0].across, bar[2].across))
	l.find("run_out_far", "run-out at the free end, whole", s.length(bar[1].across, bar[3].across))
	l.judgeSize("error of the bar upright", up)
	l.judgeSize("error of the bar sideways", side)
	l.barAdvice("drops", "rises", "upright", up)
	l.barAdvice("leans away from the operator", "leans towards the operator", "sideways", side)
	l.caution("More on the dial counts as the bar coming nearer to it: on top higher, at the front nearer the operator.")
	l.caution("A long bar sags by its weight: support nothing, and allow for what its maker states.")
	l.barPlot(up, side)
	return nil
}

// barPlot shows the axis of the bar in both planes.
func (l *look) barPlot(up, side found) {
	apart := l.stated("apart", 0)
	p := Plot{X: "from the nose", Y: "axis higher, or nearer the operator", Series: []Series{off("upright", 0, apart, up), off("sideways", 0, apart, side)}}
	if l.Within.Given() {
		p.fan(0, apart, 0, l.Within.Inside())
	}
	l.answer.Plot = p
}

// turned is a bar read at two places of the spindle half a turn apart: its middle, and
// what the dial moves between them.
type turned struct{ middle, across sum }

func (l *look) halfTurn(m *model, key string) turned {
	t := turned{one(m.unknown(0)), one(m.unknown(0))}
	for i, value := range inside(l.Values(key)) {
		m.read(l.With, []float64{value}, 0, t.middle.plus(0.5-float64(i), t.across))
	}
	return t
}

// barAdvice says which way the free end of a bar is out. Up and towards the tool is
// the better way to be out, since weight and cutting force work against it (common
// practice, no source).
func (l *look) barAdvice(wrong, right, plane string, f found) {
	switch {
	case math.Abs(f.value) <= oneSided*f.u:
		l.advise("No error can be told %s.", plane)
	case f.value > 0:
		l.advise("The free end %s by %s, which is the better way to be out: weight and the cut work against it.", right, l.mm(f.value))
	default:
		l.advise("The free end %s by %s, which weight and the cut make worse: move it the other way.", wrong, l.mm(-f.value))
	}
}

// facing finds how hollow a cross slide faces, from a dial on it that goes across the
// half of the face opposite to that cut, where the error shows twice: the face is (rim -
// centre)/2 hollow over its radius. Hollow within the tolerance is right, high in the
// middle never; the dial reads more where the face comes nearer to it.
func (l *look) facing() error {
	shown, err := l.difference("rim", "centre")
	if err != nil {
		return err
	}
	across := l.stated("across", 0)
	hollow := shown.times(0.5)
	l.find("hollow", "face hollow over a radius of "+l.mm(across)+" by", hollow)
	angle := found{math.Atan(hollow.value / across), hollow.u / across}
	l.find("angle", "cross slide out of square by", angle).Dimension = unit.Angle
	limit := math.Inf(1)
	if l.Within.Given() {
		limit = l.Within.Inside()
	}
	l.judge("hollow of the face", hollow, 0, limit)
	switch l.answer.Verdict {
	case Keeps:
		l.advise("It faces hollow, as it must: leave it.")
	case Exceeds:
		l.facingAdvice(hollow)
	default:
		l.advise("The readings cannot tell whether it faces hollow enough and not too much: face a larger plate, or read finer.")
	}
	l.caution("Cross the half of the face that was not cut against: over the other the dial follows its own cut and stands still.")
	l.facePlot(across, hollow)
	return nil
}

// facePlot shows the half of a face that was read, level with its rim. It must be no
// higher, and with a tolerance not more hollow than that.
func (l *look) facePlot(across float64, hollow found) {
	p := Plot{X: "from the centre", Y: "face higher than its rim", Series: []Series{off("face", across, 0, hollow.times(-1))}}
	p.limit(0, across, 0, 0)
	if l.Within.Given() {
		p.limit(0, across, -l.Within.Inside(), 0)
	}
	l.answer.Plot = p
}

func (l *look) facingAdvice(hollow found) {
	if hollow.value < 0 {
		l.advise("It faces high in the middle: plates will rock. See first that two collars turn alike; then scrape the guide of the cross slide until the tool comes %s further towards the headstock at the centre.", l.mm(-hollow.value))
		return
	}
	l.advise("It faces too hollow: the tool comes towards the headstock by %s on its way to the centre. See first that two collars turn alike; then scrape the guide of the cross slide.", l.mm(hollow.value))
}

// ram finds how a table rises along the travel of a ram, or of a cutter past it, by the
// line of least squares, and the packing that puts it right: rise·feet/travel. The
// dial reads more where the table is higher.
func (l *look) ram() error {
	m, x := l.model(), places(l.Survey)
	table := m.line(x)
	for i, station := range l.Stations {
		m.read(l.With, shown(station), 0, table.at(x[i]))
	}
	s, err := m.solve()
	if err != nil {
		return err
	}
	first, last := x[0], x[len(x)-1]
	rise := s.of(table.b.times(last - first))
	packing := s.of(table.b.times(l.stated("feet", 0)))
	l.find("rise", "table rises over "+l.mm(last-first)+" by", rise)
	l.find("packing", "packing under the lower feet", found{math.Abs(packing.value), packing.u})
	l.judgeSize("rise over the travel", rise)
	l.ramAdvice(packing, first, last)
	if s.misfits() {
		l.caution("The table, or the ram's slide, is not straight: packing puts right its mean only.")
	}
	l.ramPlot(s, table)
	return nil
}

func (l *look) ramAdvice(packing found, first, last float64) {
	if math.Abs(packing.value) <= oneSided*packing.u {
		l.advise("Table and ram are parallel as far as these readings tell: leave it.")
		return
	}
	lower := first
	if packing.value < 0 {
		lower = last
	}
	l.advise("Put %s of packing under the feet on the side of %s, the lower one, or take it from the others; tighten, and read again.", l.mm(math.Abs(packing.value)), l.mm(lower))
	l.caution("See that the table's own support and bolts are tight, and read near the middle of the ram's travel: at its end a ram hangs.")
}

// ramPlot shows the table along the travel and its line of least squares, from whose
// beginning spreads how far it may rise.
func (l *look) ramPlot(best solved, table line) {
	s, heights := l.heights(shown, 0)
	x := places(l.Survey)
	first, last := x[0], x[len(x)-1]
	height := Series{Name: "height"}
	for i := range x {
		height.add(x[i], s.of(heights[i].plus(-1, heights[0])))
	}
	level := s.of(heights[0])
	at := func(x float64) found { f := best.of(table.at(x)); f.value -= level.value; return f }
	p := Plot{X: "along the travel", Y: "higher than at the first place", Series: []Series{height}}
	p.straight("line of least squares", first, last, at(first), at(last))
	if l.Within.Given() {
		p.fan(first, last, at(first).value, l.Within.Inside())
	}
	l.answer.Plot = p
}
