package survey

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// The surveys of slides.
const (
	Straightness trade.SurveyKind = "straightness"
	SlidePlay    trade.SurveyKind = "slide-play"
)

// The words that say what readings of play show.
const (
	readsFeeler = "feeler" // the gap beside the gib, square to the flank
	readsSlide  = "dial"   // how far the slide moves sideways
)

var slides = []*Kind{
	{
		Name:     Straightness,
		Title:    "Straightness of a slide",
		Says:     "How far a slide departs from a straight line, read by a dial against a straightedge.",
		Source:   "the line of least squares, as in ISO 12780, from memory",
		Stations: 3,
		Keys: []Key{
			{Name: "reference", Say: "how true the straightedge is, ±"},
		},
		Work:   (*Look).straightness,
		Finds:  []string{"straightness", "by_ends"},
		Judged: "straightness",
	},
	{
		Name:     SlidePlay,
		Title:    "Play of a slide and its gib",
		Says:     "How much play a slide has beside its gib, and what gib takes it up.",
		Source:   "geometry: what is square to a flank is the sine of its angle of what is along the flat",
		Stations: 2,
		Keys: []Key{
			{Name: "reads", Sort: Word, Words: []string{readsFeeler, readsSlide}, Say: "feelers square to the flank, or a dial sideways"},
			{Name: "angle", Sort: Angle, Say: "of the flank to the flat; not written: the gib stands upright"},
			{Name: "gib-near", Sort: Readings, Beside: "gib-with", Say: "thickness of the gib there is, at the first station"},
			{Name: "gib-far", Sort: Readings, Beside: "gib-near", Say: "the same at the last; not written: the gib is parallel"},
			{Name: "gib-with", Sort: Instrument, Beside: "gib-near", Say: "the instrument that read the gib"},
			{Name: "clearance", Say: "that is to be left"},
		},
		Work:   (*Look).slidePlay,
		Finds:  []string{"near", "far", "taper", "play"},
		Judged: "play",
	},
}

func shown(station trade.Station) []float64 { return inside(station.Saw) }

// straightness finds how far what a dial followed departs from a straight line: the
// greatest height above less the greatest below that through both ends, and that of
// least squares. A reference that is true to ±t counts t/√3 at each station, each for
// itself. The dial reads more where the slide stands higher.
func (l *Look) straightness() error {
	x := places(l.Survey)
	s, heights := l.heights(shown, l.Stated("reference", 0)/math.Sqrt(3))
	last := len(x) - 1
	ends := through([]float64{x[0], x[last]}, []sum{heights[0], heights[last]}).departures(x, heights)
	least := through(x, heights).departures(x, heights)
	low, high := s.extremes(least)
	best := s.of(least[high].plus(-1, least[low]))
	lowEnd, highEnd := s.extremes(ends)
	l.Find("straightness", best, "out of straight, about the line of least squares").Wears = true
	l.Find("by_ends", s.of(ends[highEnd].plus(-1, ends[lowEnd])), "the same, about the line through both ends")
	if l.Within.Given() {
		l.Judge("straightness", best, math.Inf(-1), l.Within.Inside())
	}
	l.straightPlot(s, ends, s.of(least[high].plus(1, least[low]).times(0.5)).Value)
	return l.straightAdvice(x[low], x[high])
}

// straightPlot shows heights above the line through both ends, and between which two
// lines along that of least squares they must lie: about the middle of what departs from
// it.
func (l *Look) straightPlot(s solved, ends []sum, middle float64) {
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
		p.limit(first, last, a.Value+middle-half, b.Value+middle-half)
		p.limit(first, last, a.Value+middle+half, b.Value+middle+half)
	}
	l.Answer.Plot = p
}

// straightAdvice says where metal stands high, if it can be told from a straight line.
func (l *Look) straightAdvice(low, high float64) error {
	m, x := l.model(), places(l.Survey)
	line := m.line(x)
	for i, station := range l.Stations {
		m.read(l.With, shown(station), l.Stated("reference", 0)/math.Sqrt(3), line.at(x[i]))
	}
	s, err := m.solve()
	if err != nil {
		return err
	}
	if s.misfits() {
		l.Advise("It stands highest at %s and lowest at %s: that is more than the readings scatter. Bring the high places down, and read it again.", unit.LengthOf(high), unit.LengthOf(low))
	} else {
		l.Advise("What is out of straight is no more than the readings scatter: leave it alone.")
		l.Caution("The highest less the lowest of readings that scatter is never nothing: the figure is what it may be, and the slide is likely straighter.")
	}
	l.Caution("More on the dial counts as higher; if yours runs the other way, high and low change places.")
	l.Caution("The dial shows the slide and its reference together: turn the straightedge end for end and read again to tell them apart.")
	return nil
}

// usualClearance is left beside a gib where none is stated, mm (common practice, no
// source).
const usualClearance = 0.02

// slidePlay finds from the gap beside a gib, square to the flank, what gib to make:
// its thickness is that of the present one and the gap, less the clearance that is to
// be left. The gap is p = p0 + q·x; a dial that reads the slide sideways shows p/sin α for
// flanks at α to the flat. Without a present gib what is found is the packing.
func (l *Look) slidePlay() error {
	m, x := l.model(), places(l.Survey)
	gap := m.line(x)
	sideways := 1.0
	if l.Word("reads", readsFeeler) == readsSlide {
		sideways = 1 / math.Sin(l.Stated("angle", math.Pi/2))
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
func (l *Look) presentGib(m *model) (thick [2]sum) {
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

func (l *Look) gibFindings(s solved, g gib) {
	left := l.Stated("clearance", usualClearance)
	clear := func(f sum) Found { made := s.of(f); made.Value -= left; return made }
	near, far := g.thick[0].plus(1, g.gap.at(g.near)), g.thick[1].plus(1, g.gap.at(g.far))
	what := "gib to make"
	if g.thick[0] == nil {
		what = "packing to put behind the gib"
	}
	l.Find("near", clear(near), "%s, at %s", what, unit.LengthOf(g.near))
	l.Find("far", clear(far), "%s, at %s", what, unit.LengthOf(g.far))
	taper := s.of(far.plus(-1, near))
	l.Find("taper", taper, "it grows between the two by")
	l.gibAdvice(s, g, taper, clear(near.times(0.5).plus(0.5, far)))
	wider := g.gap.at(g.near)
	if s.of(g.gap.b).Value > 0 {
		wider = g.gap.at(g.far)
	}
	most := s.of(wider)
	l.Find("play", most, "most play, square to the flank").Wears = true
	if l.Within.Given() {
		l.Judge("play", most, math.Inf(-1), l.Within.Inside())
	}
	if l.Values("clearance") == nil {
		l.Caution("A clearance of %s is left (common practice, no source); write clearance for another.", unit.LengthOf(left))
	}
}

func (l *Look) gibAdvice(s solved, g gib, taper, middle Found) {
	what := "a gib"
	if g.thick[0] == nil {
		what = "packing"
	}
	if math.Abs(taper.Value) <= differs*taper.U {
		l.Advise("Make %s parallel, %s thick: the readings show no taper.", what, unit.LengthOf(middle.Value))
	} else {
		l.Advise("Make %s that tapers by %s in %s, 1:%.0f, thicker at %s.", what, unit.LengthOf(math.Abs(taper.Value)), unit.LengthOf(g.far-g.near), (g.far-g.near)/math.Abs(taper.Value), unit.LengthOf(g.thicker(taper.Value)))
	}
	if now := s.of(g.thick[1].plus(-1, g.thick[0])); len(g.thick[0]) > 0 && math.Abs(now.Value) > differs*now.U {
		drive := (s.of(g.gap.at((g.near+g.far)/2)).Value - l.Stated("clearance", usualClearance)) * (g.far - g.near) / math.Abs(now.Value)
		if drive > 0 {
			l.Advise("The gib there is tapers: driven in by %s it takes up the play at the middle of its length, if its screw lets it.", unit.LengthOf(drive))
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
func (l *Look) gibHollow(s solved) {
	if s.misfits() {
		l.Caution("The gap does not run straight along the slide: the flanks are worn hollow. A gib made to the line binds where the slide is tight: scrape the flanks first, or fit it to the tightest place.")
	}
	if l.Values("angle") == nil && l.Word("reads", readsFeeler) == readsSlide {
		l.Caution("The flank counts as upright, since no angle is written: for a dovetail write angle.")
	}
}

// playPlot shows the play, and the line that a gib is made to.
func (l *Look) playPlot(line solved, g gib, sideways float64) {
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
	l.Answer.Plot = p
}
