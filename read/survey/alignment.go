package survey

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// The surveys of how true a machine stands.
const (
	TwoCollar trade.SurveyKind = "two-collar"
	TestBar   trade.SurveyKind = "test-bar"
	Facing    trade.SurveyKind = "facing"
	Ram       trade.SurveyKind = "ram"
)

// The words that say how a bar with collars was held.
const (
	inChuck   = "chuck"
	onCentres = "centres"
)

var alignments = []*Kind{
	{
		Name:   TwoCollar,
		Title:  "Two collars turned",
		Says:   "Whether a lathe turns parallel, from two collars of a bar turned at one setting.",
		Source: "geometry: the difference of the collars is twice what the axis leaves the tool's path",
		Keys: []Key{
			{Name: "near", Sort: Readings, Obligatory: true, Say: "diameter of the collar at the headstock"},
			{Name: "far", Sort: Readings, Obligatory: true, Say: "diameter of the other"},
			{Name: "apart", Obligatory: true, Say: "distance of the collars"},
			{Name: "held", Sort: Word, Words: []string{inChuck, onCentres}, Say: "in the chuck alone, or between centres"},
		},
		Work:  (*Look).twoCollar,
		Finds: []string{"difference", "angle", "offset"},
	},
	{
		Name:   TestBar,
		Title:  "Test bar in the spindle",
		Says:   "Whether a spindle lies parallel to the travel, up and sideways, and how a bar in it runs.",
		Source: "geometry: the mean of two readings half a turn apart is free of run-out",
		Keys: []Key{
			{Name: "up-near", Sort: Readings, Count: 2, Obligatory: true, Say: "dial on top of the bar at the nose; then half a turn on"},
			{Name: "up-far", Sort: Readings, Count: 2, Obligatory: true, Say: "the same at the bar's free end"},
			{Name: "side-near", Sort: Readings, Count: 2, Obligatory: true, Say: "dial on the front of the bar, spindle as before"},
			{Name: "side-far", Sort: Readings, Count: 2, Obligatory: true, Say: "the same at the free end"},
			{Name: "apart", Obligatory: true, Say: "distance of the two places"},
		},
		Work:   (*Look).testBar,
		Finds:  []string{"up", "side", "run_out_near", "run_out_far"},
		Bounds: "error of the bar", // in both planes
	},
	{
		Name:   Facing,
		Title:  "Facing across",
		Says:   "Whether a cross slide faces flat or hollow, read by a dial on it over a face that it cut.",
		Source: "geometry: over the half that was not cut against the error shows twice",
		Keys: []Key{
			{Name: "centre", Sort: Readings, Obligatory: true, Say: "dial on the cross slide, at the centre of the face"},
			{Name: "rim", Sort: Readings, Obligatory: true, Say: "at the rim on the side that was not cut against"},
			{Name: "across", Obligatory: true, Say: "from the one to the other"},
		},
		Work:  (*Look).facing,
		Finds: []string{"hollow", "angle"},
	},
	{
		Name:     Ram,
		Title:    "Ram to table",
		Says:     "How a table rises along the travel of a ram, and the packing that puts it right.",
		Source:   "the line of least squares; packing by similar triangles",
		Stations: 2,
		Keys: []Key{
			{Name: "feet", Obligatory: true, Say: "distance of the feet or bolts where packing goes, along the travel"},
		},
		Work:  (*Look).ram,
		Finds: []string{"rise", "packing"},
	},
}

// Difference adjusts two readings with one instrument, whose zero cancels, and
// returns the first less the second.
func (l *Look) Difference(first, second string) (Found, error) {
	m := l.model()
	a, b := one(m.unknown(0)), one(m.unknown(0))
	m.read(l.With, inside(l.Values(first)), 0, a)
	m.read(l.With, inside(l.Values(second)), 0, b)
	s, err := m.solve()
	if err != nil {
		return Found{}, err
	}
	return s.of(a.plus(-1, b)), nil
}

// twoCollar finds the angle between the axis of the work and the tool's path in the
// plane of both from two collars turned at one setting: atan((near - far)/2L). The
// tolerance is that of the difference in diameter. A far collar that is smaller says
// that the axis comes towards the tool as the carriage leaves the headstock; the tool
// stands at the front.
func (l *Look) twoCollar() error {
	difference, err := l.Difference("near", "far")
	if err != nil {
		return err
	}
	apart := l.Stated("apart", 0)
	l.Find("difference", difference, "near collar larger than the far one by")
	slope := difference.Value / (2 * apart)
	angle := Found{math.Atan(slope), difference.U / (2 * apart) / (1 + slope*slope)}
	l.Find("angle", angle, "angle of the axis to the tool's path").Dimension = unit.Angle
	l.Find("offset", difference.times(0.5), "axis off at the far collar by")
	l.JudgeSize("difference of the collars", difference)
	l.collarAdvice(difference)
	p := Plot{X: "from the near collar", Y: "axis nearer the tool", Series: []Series{off("axis", 0, apart, difference.times(0.5))}}
	if l.Within.Given() {
		p.fan(0, apart, 0, l.Within.Inside()/2)
	}
	l.Answer.Plot = p
	l.Caution("Both collars with a sharp tool in one setting, light cuts: a tool that wears turns the second one larger.")
	return nil
}

func (l *Look) collarAdvice(difference Found) {
	if math.Abs(difference.Value) <= OneSided*difference.U {
		l.Advise("The collars are alike as far as these readings tell: leave it.")
		return
	}
	way := "back, away from the operator"
	if difference.Value < 0 {
		way = "forward, towards the operator"
	}
	by := unit.LengthOf(math.Abs(difference.Value) / 2)
	if l.Word("held", inChuck) == onCentres {
		l.Advise("Move the tailstock %s, by %s for collars as far apart as the centres: times the distance of the centres over that of the collars.", way, by)
		return
	}
	l.Advise("Level the bed first, free of twist. If the collars still differ, swing the headstock so that the axis moves %s at the far collar, by %s.", way, by)
	l.Caution("Work that springs away from the tool turns larger at its free end: use a stout bar, bored hollow if need be.")
}

// testBar finds in two planes how far a bar in the spindle is out of parallel to the
// travel, and how it runs. Of two readings half a turn apart the mean is free of run-out;
// their difference is the run-out in that plane, and √ of the sum of squares of both
// planes, read at the same two places of the spindle, the whole of it.
func (l *Look) testBar() error {
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
	over := unit.LengthOf(l.Stated("apart", 0))
	l.Find("up", up, "free end higher, over %s, by", over)
	l.Find("side", side, "free end nearer the operator, over %s, by", over)
	l.Find("run_out_near", s.length(bar[0].across, bar[2].across), "run-out at the nose, whole")
	l.Find("run_out_far", s.length(bar[1].across, bar[3].across), "run-out at the free end, whole")
	l.JudgeSize("error of the bar upright", up)
	l.JudgeSize("error of the bar sideways", side)
	l.barAdvice("drops", "rises", "upright", up)
	l.barAdvice("leans away from the operator", "leans towards the operator", "sideways", side)
	l.Caution("More on the dial counts as the bar coming nearer to it: on top higher, at the front nearer the operator.")
	l.Caution("A long bar sags by its weight: support nothing, and allow for what its maker states.")
	l.barPlot(up, side)
	return nil
}

// barPlot shows the axis of the bar in both planes.
func (l *Look) barPlot(up, side Found) {
	apart := l.Stated("apart", 0)
	p := Plot{X: "from the nose", Y: "axis higher, or nearer the operator", Series: []Series{off("upright", 0, apart, up), off("sideways", 0, apart, side)}}
	if l.Within.Given() {
		p.fan(0, apart, 0, l.Within.Inside())
	}
	l.Answer.Plot = p
}

// turned is a bar read at two places of the spindle half a turn apart: its middle, and
// what the dial moves between them.
type turned struct{ middle, across sum }

func (l *Look) halfTurn(m *model, key string) turned {
	t := turned{one(m.unknown(0)), one(m.unknown(0))}
	for i, value := range inside(l.Values(key)) {
		m.read(l.With, []float64{value}, 0, t.middle.plus(0.5-float64(i), t.across))
	}
	return t
}

// barAdvice says which way the free end of a bar is out. Up and towards the tool is
// the better way to be out, since weight and cutting force work against it (common
// practice, no source).
func (l *Look) barAdvice(wrong, right, plane string, f Found) {
	switch {
	case math.Abs(f.Value) <= OneSided*f.U:
		l.Advise("No error can be told %s.", plane)
	case f.Value > 0:
		l.Advise("The free end %s by %s, which is the better way to be out: weight and the cut work against it.", right, unit.LengthOf(f.Value))
	default:
		l.Advise("The free end %s by %s, which weight and the cut make worse: move it the other way.", wrong, unit.LengthOf(-f.Value))
	}
}

// facing finds how hollow a cross slide faces, from a dial on it that goes across the
// half of the face opposite to that cut, where the error shows twice: the face is (rim -
// centre)/2 hollow over its radius. Hollow within the tolerance is right, high in the
// middle never; the dial reads more where the face comes nearer to it.
func (l *Look) facing() error {
	shown, err := l.Difference("rim", "centre")
	if err != nil {
		return err
	}
	across := l.Stated("across", 0)
	hollow := shown.times(0.5)
	l.Find("hollow", hollow, "face hollow over a radius of %s by", unit.LengthOf(across))
	angle := Found{math.Atan(hollow.Value / across), hollow.U / across}
	l.Find("angle", angle, "cross slide out of square by").Dimension = unit.Angle
	limit := math.Inf(1)
	if l.Within.Given() {
		limit = l.Within.Inside()
	}
	l.Judge("hollow of the face", hollow, 0, limit)
	switch l.Answer.Verdict {
	case Keeps:
		l.Advise("It faces hollow, as it must: leave it.")
	case Exceeds:
		l.facingAdvice(hollow)
	default:
		l.Advise("The readings cannot tell whether it faces hollow enough and not too much: face a larger plate, or read finer.")
	}
	l.Caution("Cross the half of the face that was not cut against: over the other the dial follows its own cut and stands still.")
	l.facePlot(across, hollow)
	return nil
}

// facePlot shows the half of a face that was read, level with its rim. It must be no
// higher, and with a tolerance not more hollow than that.
func (l *Look) facePlot(across float64, hollow Found) {
	p := Plot{X: "from the centre", Y: "face higher than its rim", Series: []Series{off("face", across, 0, hollow.times(-1))}}
	p.limit(0, across, 0, 0)
	if l.Within.Given() {
		p.limit(0, across, -l.Within.Inside(), 0)
	}
	l.Answer.Plot = p
}

func (l *Look) facingAdvice(hollow Found) {
	if hollow.Value < 0 {
		l.Advise("It faces high in the middle: plates will rock. See first that two collars turn alike; then scrape the guide of the cross slide until the tool comes %s further towards the headstock at the centre.", unit.LengthOf(-hollow.Value))
		return
	}
	l.Advise("It faces too hollow: the tool comes towards the headstock by %s on its way to the centre. See first that two collars turn alike; then scrape the guide of the cross slide.", unit.LengthOf(hollow.Value))
}

// ram finds how a table rises along the travel of a ram, or of a cutter past it, by the
// line of least squares, and the packing that puts it right: rise·feet/travel. The
// dial reads more where the table is higher.
func (l *Look) ram() error {
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
	packing := s.of(table.b.times(l.Stated("feet", 0)))
	l.Find("rise", rise, "table rises over %s by", unit.LengthOf(last-first))
	l.Find("packing", Found{math.Abs(packing.Value), packing.U}, "packing under the lower feet")
	l.JudgeSize("rise over the travel", rise)
	l.ramAdvice(packing, first, last)
	if s.misfits() {
		l.Caution("The table, or the ram's slide, is not straight: packing puts right its mean only.")
	}
	l.ramPlot(s, table)
	return nil
}

func (l *Look) ramAdvice(packing Found, first, last float64) {
	if math.Abs(packing.Value) <= OneSided*packing.U {
		l.Advise("Table and ram are parallel as far as these readings tell: leave it.")
		return
	}
	lower := first
	if packing.Value < 0 {
		lower = last
	}
	l.Advise("Put %s of packing under the feet on the side of %s, the lower one, or take it from the others; tighten, and read again.", unit.LengthOf(math.Abs(packing.Value)), unit.LengthOf(lower))
	l.Caution("See that the table's own support and bolts are tight, and read near the middle of the ram's travel: at its end a ram hangs.")
}

// ramPlot shows the table along the travel and its line of least squares, from whose
// beginning spreads how far it may rise.
func (l *Look) ramPlot(best solved, table line) {
	s, heights := l.heights(shown, 0)
	x := places(l.Survey)
	first, last := x[0], x[len(x)-1]
	height := Series{Name: "height"}
	for i := range x {
		height.add(x[i], s.of(heights[i].plus(-1, heights[0])))
	}
	level := s.of(heights[0])
	at := func(x float64) Found { f := best.of(table.at(x)); f.Value -= level.Value; return f }
	p := Plot{X: "along the travel", Y: "higher than at the first place", Series: []Series{height}}
	p.straight("line of least squares", first, last, at(first), at(last))
	if l.Within.Given() {
		p.fan(first, last, at(first).Value, l.Within.Inside())
	}
	l.Answer.Plot = p
}
