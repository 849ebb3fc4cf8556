package upkeep

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
)

func shown(station trade.Station) []float64 { return inside(station.Saw) }

// straightness finds how far what a dial followed departs from a straight line: the
// greatest height above less the greatest below that through both ends, and that of
// least squares. A reference that is true to ±t counts t/√3 at each station, each for
// itself. The dial reads more where the slide stands higher.
func (l *look) straightness() error {
	x := places(l.Survey)
	s, heights := l.heights(shown, l.stated("reference", 0)/math.Sqrt(3))
	last := len(x) - 1
	ends := through([]float64{x[0], x[last]}, []sum{heights[0], heights[last]}).departures(x, heights)
	least := through(x, heights).departures(x, heights)
	low, high := s.extremes(least)
	best := s.of(least[high].plus(-1, least[low]))
	lowEnd, highEnd := s.extremes(ends)
	l.find("straightness", "out of straight, about the line of least squares", best).Wears = true
	l.find("by_ends", "the same, about the line through both ends", s.of(ends[highEnd].plus(-1, ends[lowEnd])))
	if l.Within.Given() {
		l.judge("straightness", best, math.Inf(-1), l.Within.Inside())
	}
	l.straightPlot(s, ends, s.of(least[high].plus(1, least[low]).times(0.5)).value)
	return l.straightAdvice(x[low], x[high])
}

// straightPlot shows heights above the line through both ends, and between which two
// lines along that of least squares they must lie: about the middle of what departs from
// it.
func (l *look) straightPlot(s solved, ends []sum, middle float64) {
	x := places(l.Survey)
	first, last := x[0], x[len(x)-1]
	height, best := Series{Name: "height"}, through(x, ends)
	for i := range x {
		height.add(x[i], s.of(ends[i]))
	}
	p := Plot{X: "along the slide", Y: "above the line through both ends", Series: []Series{height}}
	a, b := s.of(best.at(first)), s.of(best.at(last))
	p.straight("line of least squares", first, last, a, b)
	if l.Within.Given() {
		half := l.Within.Inside() / 2
		p.limit(first, last, a.value+middle-half, b.value+middle-half)
		p.limit(first, last, a.value+middle+half, b.value+middle+half)
	}
	l.answer.Plot = p
}

// straightAdvice says where metal stands high, if it can be told from a straight line.
func (l *look) straightAdvice(low, high float64) error {
	m, x := l.model(), places(l.Survey)
	line := m.line(x)
	for i, station := range l.Stations {
		m.read(l.With, shown(station), l.stated("reference", 0)/math.Sqrt(3), line.at(x[i]))
	}
	s, err := m.solve()
	if err != nil {
		return err
	}
	if s.misfits() {
		l.advise("It stands highest at %s and lowest at %s: that is more than the readings scatter. Bring the high places down, and read it again.", l.mm(high), l.mm(low))
	} else {
		l.advise("What is out of straight is no more than the readings scatter: leave it alone.")
		l.caution("The highest less the lowest of readings that scatter is never nothing: the figure is what it may be, and the slide is likely straighter.")
	}
	l.caution("More on the dial counts as higher; if yours runs the other way, high and low change places.")
	l.caution("The dial shows the slide and its reference together: turn the straightedge end for end and read again to tell them apart.")
	return nil
}

// usualClearance is left beside a gib where none is stated, mm (common practice, no
// source).
const usualClearance = 0.02

// slidePlay finds from the gap beside a gib, square to the flank, what gib to make:
// its thickness is that of the present one and the gap, less the clearance that is to
// be left. The gap is p = p0 + q·x; a dial that reads the slide sideways shows p/sin α for
// flanks at α to the flat. Without a present gib what is found is the packing.
func (l *look) slidePlay() error {
	m, x := l.model(), places(l.Survey)
	gap := m.line(x)
	sideways := 1.0
	if l.Word("reads", trade.ReadsFeeler) == trade.ReadsSlide {
		sideways = 1 / math.Sin(l.stated("angle", math.Pi/2))
	}
	for i, station := range l.Stations {
		m.read(l.With, shown(station), 0, gap.at(x[i]).times(sideways))
	}
	near, far := x[0], x[len(x)-1]
	g := gib{gap: gap, near: near, far: far, thick: l.presentGib(m)}
	s, err := m.solve()
	if err != nil {
		return err
	}
	l.gibFindings(s, g)
	l.gibHollow(s)
	l.playPlot(s, g, sideways)
	return nil
}

// gib is what stands beside a slide between two places: the gap, and the thickness of
// the present one at the two, nil where it was not read.
type gib struct {
	gap       line
	near, far float64
	thick     [2]sum
}

// presentGib adds what was read of the gib there is.
func (l *look) presentGib(m *model) (thick [2]sum) {
	near := l.Values("gib-near")
	if near == nil {
		return thick
	}
	with := l.Word("gib-with", "")
	thick[0] = one(m.unknown(0))
	m.read(with, inside(near), 0, thick[0])
	thick[1] = thick[0]
	if far := l.Values("gib-far"); far != nil {
		thick[1] = one(m.unknown(0))
		m.read(with, inside(far), 0, thick[1])
	}
	return thick
}

func (l *look) gibFindings(s solved, g gib) {
	left := l.stated("clearance", usualClearance)
	clear := func(f sum) found { made := s.of(f); made.value -= left; return made }
	near, far := g.thick[0].plus(1, g.gap.at(g.near)), g.thick[1].plus(1, g.gap.at(g.far))
	what := "gib to make"
	if g.thick[0] == nil {
		what = "packing to put behind the gib"
	}
	l.find("near", what+", at "+l.mm(g.near), clear(near))
	l.find("far", what+", at "+l.mm(g.far), clear(far))
	taper := s.of(far.plus(-1, near))
	l.find("taper", "it grows between the two by", taper)
	l.gibAdvice(s, g, taper, clear(near.times(0.5).plus(0.5, far)))
	wider := g.gap.at(g.near)
	if s.of(g.gap.b).value > 0 {
		wider = g.gap.at(g.far)
	}
	most := s.of(wider)
	l.find("play", "most play, square to the flank", most).Wears = true
	if l.Within.Given() {
		l.judge("play", most, math.Inf(-1), l.Within.Inside())
	}
	if l.Values("clearance") == nil {
		l.caution("A clearance of %s is left (common practice, no source); write clearance for another.", l.mm(left))
	}
}

func (l *look) gibAdvice(s solved, g gib, taper, middle found) {
	what := "a gib"
	if g.thick[0] == nil {
		what = "packing"
	}
	if math.Abs(taper.value) <= differs*taper.u {
		l.advise("Make %s parallel, %s thick: the readings show no taper.", what, l.mm(middle.value))
	} else {
		l.advise("Make %s that tapers by %s in %s, 1:%.0f, thicker at %s.", what, l.mm(math.Abs(taper.value)), l.mm(g.far-g.near), (g.far-g.near)/math.Abs(taper.value), l.mm(g.thicker(taper.value)))
	}
	if now := s.of(g.thick[1].plus(-1, g.thick[0])); len(g.thick[0]) > 0 && math.Abs(now.value) > differs*now.u {
		drive := (s.of(g.gap.at((g.near+g.far)/2)).value - l.stated("clearance", usualClearance)) * (g.far - g.near) / math.Abs(now.value)
		if drive > 0 {
			l.advise("The gib there is tapers: driven in by %s it takes up the play at the middle of its length, if its screw lets it.", l.mm(drive))
		}
	}
}

// thicker returns the place at which what grows by this much is thicker.
func (g gib) thicker(grows float64) float64 {
	if grows < 0 {
		return g.near
	}
	return g.far
}

// gibHollow says so where the gap does not run straight.
func (l *look) gibHollow(s solved) {
	if s.misfits() {
		l.caution("The gap does not run straight along the slide: the flanks are worn hollow. A gib made to the line binds where the slide is tight: scrape the flanks first, or fit it to the tightest place.")
	}
	if l.Values("angle") == nil && l.Word("reads", trade.ReadsFeeler) == trade.ReadsSlide {
		l.caution("The flank counts as upright, since no angle is written: for a dovetail write angle.")
	}
}

// playPlot shows the play, and the line that a gib is made to.
func (l *look) playPlot(line solved, g gib, sideways float64) {
	s, heights := l.heights(shown, 0)
	play := Series{Name: "play"}
	for i, x := range places(l.Survey) {
		play.add(x, s.of(heights[i]).times(1/sideways))
	}
	p := Plot{X: "along the slide", Y: "play, square to the flank", Series: []Series{play}}
	p.straight("line for the gib", g.near, g.far, line.of(g.gap.at(g.near)), line.of(g.gap.at(g.far)))
	if l.Within.Given() {
		p.limit(g.near, g.far, l.Within.Inside(), l.Within.Inside())
	}
	l.answer.Plot = p
}
