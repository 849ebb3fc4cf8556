package survey

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// The surveys of screws.
const (
	LostMotion trade.SurveyKind = "lost-motion"
	ScrewPitch trade.SurveyKind = "screw-pitch"
)

// The words that say what readings of a pitch show.
const (
	readsError  = "error"  // how much further the carriage went than the screw says
	readsTravel = "travel" // how far it went
)

var screws = []*Kind{
	{
		Name:     LostMotion,
		Title:    "Lost motion of a screw",
		Says:     "How far the dial of a screw turns before the slide follows, read at places along it: end float, nut and screw told apart.",
		Source:   "geometry: what end float, nut and screw lose adds up",
		Stations: 3,
		Keys: []Key{
			{Name: "end-float", Sort: Readings, Say: "of the screw in its bearing, read apart"},
		},
		Work: (*Look).lostMotion,
		Finds: []string{
			"lost_motion", "end_float", "nut_wear", "with_new_nut", "with_collar_adjusted", "float_and_nut", "screw_wear",
		},
		Judged: "lost_motion",
	},
	{
		Name:     ScrewPitch,
		Title:    "Pitch of a screw",
		Says:     "How far a slide goes where the dial of its screw says a distance, read along the screw: mean and periodic error.",
		Source:   "harmonic analysis of one turn, by least squares",
		Stations: 3,
		Keys: []Key{
			{Name: "pitch", Sort: Pitch, Obligatory: true, Say: "as the dial of the screw takes it"},
			{Name: "reads", Sort: Word, Words: []string{readsError, readsTravel}, Say: "how much too far the slide went, or how far"},
		},
		Work:  (*Look).screwPitch,
		Finds: []string{"pitch", "mean_error", "periodic_error", "largest_error"},
	},
}

// differs is how many standard deviations two figures are apart that are not the
// same (α = 0.001).
const differs = 3.29

// lostMotion separates what a dial shows between taking up both ways,
//
//	b(x) = e + n + s(x)
//
// into the end float e of the screw in its bearing, the wear n of the nut with the
// clearance it had when new, both the same everywhere, and the wear s of the screw. The
// screw counts as unworn at the first and the last station; where these differ, at
// that which shows less. Without a reading of e only e + n is found.
func (l *Look) lostMotion() error {
	unworn, err := l.unwornEnds()
	if err != nil {
		return err
	}
	w, err := l.screw(unworn)
	if err != nil {
		return err
	}
	l.screwFindings(w)
	l.screwAdvice(w)
	l.screwCautions(w)
	return nil
}

// unwornEnds returns the stations at which the screw has not worn.
func (l *Look) unwornEnds() ([]int, error) {
	last := len(l.Stations) - 1
	w, err := l.screw([]int{0})
	if err != nil {
		return nil, err
	}
	switch s := w.of(w.worn[last]); {
	case math.Abs(s.Value) <= differs*s.U:
		return []int{0, last}, nil
	case s.Value > 0:
		return []int{0}, nil
	}
	return []int{last}, nil
}

// wornScrew is a survey of lost motion that was solved: sums of its unknowns.
type wornScrew struct {
	solved
	unworn     []int
	float, nut sum   // float is nil where it was not read: then it is in nut
	worn       []sum // of the screw, by station
	worst      int
}

func (l *Look) screw(unworn []int) (*wornScrew, error) {
	m := l.model()
	w := &wornScrew{unworn: unworn, nut: one(m.unknown(0))}
	if saw := l.Values("end-float"); saw != nil {
		w.float = one(m.unknown(0))
		m.read(l.With, inside(saw), 0, w.float)
	}
	for i, station := range l.Stations {
		var worn sum
		if !slices.Contains(unworn, i) {
			worn = one(m.unknown(0))
		}
		w.worn = append(w.worn, worn)
		m.read(l.With, inside(station.Saw), 0, w.lost(i))
	}
	var err error
	w.solved, err = m.solve()
	if err == nil {
		w.worst = w.mostWorn()
	}
	return w, err
}

// mostWorn returns the station at which the screw has worn most, which is none of
// those that count as unworn.
func (w *wornScrew) mostWorn() int {
	worst, most := 0, math.Inf(-1)
	for i := range w.worn {
		if s := w.of(w.worn[i]).Value; s > most && !slices.Contains(w.unworn, i) {
			worst, most = i, s
		}
	}
	return worst
}

// lost returns the lost motion at a station.
func (w *wornScrew) lost(i int) sum { return w.float.plus(1, w.nut).plus(1, w.worn[i]) }

func (l *Look) screwFindings(w *wornScrew) {
	at := unit.LengthOf(places(l.Survey)[w.worst])
	if w.float != nil {
		l.Find("end_float", w.of(w.float), "end float of the screw").Wears = true
		l.Find("nut_wear", w.of(w.nut), "wear of the nut, with its first clearance").Wears = true
		l.Find("with_new_nut", w.of(w.float.plus(1, w.worn[w.worst])), "lost motion a new nut would leave, at %s", at)
		l.Find("with_collar_adjusted", w.of(w.nut.plus(1, w.worn[w.worst])), "lost motion the thrust collar, adjusted, would leave, at %s", at)
	} else {
		l.Find("float_and_nut", w.of(w.nut), "end float and wear of the nut together").Wears = true
	}
	l.Find("screw_wear", w.of(w.worn[w.worst]), "wear of the screw, most at %s", at).Wears = true
	most := w.of(w.lost(w.worst))
	l.Find("lost_motion", most, "lost motion, most at %s", at).Wears = true
	if l.Within.Given() {
		l.Judge("lost motion", most, math.Inf(-1), l.Within.Inside())
	}
	l.screwPlot(w)
}

// screwPlot shows the lost motion and what it is made of.
func (l *Look) screwPlot(w *wornScrew) {
	x := places(l.Survey)
	first, last := x[0], x[len(x)-1]
	motion, worn := Series{Name: "lost motion"}, Series{Name: "wear of the screw"}
	for i := range x {
		motion.add(x[i], w.of(w.lost(i)))
		worn.add(x[i], w.of(w.worn[i]))
	}
	p := Plot{X: "along the screw", Y: "lost motion", Series: []Series{motion, worn}}
	if w.float != nil {
		p.straight("wear of the nut", first, last, w.of(w.nut), w.of(w.nut))
		p.straight("end float", first, last, w.of(w.float), w.of(w.float))
	} else {
		p.straight("end float and wear of the nut", first, last, w.of(w.nut), w.of(w.nut))
	}
	if l.Within.Given() {
		p.limit(first, last, l.Within.Inside(), l.Within.Inside())
	}
	l.Answer.Plot = p
}

// Surely reports whether a figure is more than nothing, at 95 % on one side.
func Surely(f Found) bool { return f.Value > OneSided*f.U }

// OneSided is the 95 % quantile of the normal distribution.
const OneSided = 1.6448536269514722

func (l *Look) screwAdvice(w *wornScrew) {
	worn := w.of(w.worn[w.worst])
	if w.float == nil {
		l.Advise("Read the end float apart: hold a dial on the end of the screw, push and pull it, and write it as end-float; then nut and collar can be told apart.")
	} else {
		float, nut := w.of(w.float), w.of(w.nut)
		l.Advise("Adjusting the thrust collar takes up the %s of end float and leaves %s; a new nut takes up %s and leaves %s.",
			unit.LengthOf(float.Value), unit.LengthOf(nut.Value+worn.Value), unit.LengthOf(nut.Value), unit.LengthOf(float.Value+worn.Value))
		if float.Value > nut.Value && Surely(float) {
			l.Advise("Begin with the thrust collar: it takes up more than a new nut would, and costs nothing.")
		}
	}
	if Surely(worn) {
		l.Advise("No nut takes up the wear of the screw: one closed where the screw is worn binds by %s towards its unworn ends. Fit it to the ends, or make a new screw.", unit.LengthOf(worn.Value))
	} else {
		l.Advise("The screw shows no wear that can be told from the scatter of the readings: a new nut will run alike over its length.")
	}
}

func (l *Look) screwCautions(w *wornScrew) {
	l.Caution("The screw counts as unworn at %s: where that is not so, its wear is more by as much, and that of the nut less.", l.unwornText(w.unworn))
	if len(w.unworn) == 1 {
		l.Caution("The two ends of the screw do not agree: the one that shows more is worn too, or was misread.")
	}
	if nut := w.of(w.nut); Surely(nut.times(-1)) {
		l.Caution("There is more end float than lost motion at the ends of the screw: one of them was misread.")
	}
	for i, x := range places(l.Survey) {
		if s := w.of(w.worn[i]); s.Value < -differs*s.U {
			l.Caution("At %s the screw shows less wear than at its ends: read it again there.", unit.LengthOf(x))
		}
	}
	l.Caution("Take up each way with the same light force, and lock nothing: a slide that drags bends what holds the dial.")
}

func (l *Look) unwornText(unworn []int) unit.Amount {
	x := places(l.Survey)
	if len(unworn) == 1 {
		return unit.LengthOf(x[unworn[0]])
	}
	return unit.Say("%s and %s", unit.LengthOf(x[unworn[0]]), unit.LengthOf(x[unworn[1]]))
}

// What a periodic error is sought in.
const (
	fewestForPeriodic = 6 // stations
	fewestPhases      = 3 // different parts of a turn
	samePhase         = 1e-4
)

// noPeriodic is the chi-square, of two degrees of freedom, below which an amplitude
// is none: its 95 % point, -2·ln 0.05.
const noPeriodic = 5.991464547107979

// screwPitch fits the error of a screw along its length,
//
//	y(x) = a + k·x + A·cos(2πx/p) + B·sin(2πx/p)
//
// with the pitch p that its dial takes: k is the mean error of the pitch in parts of
// it, √(A² + B²) the periodic error once a turn. That is sought only where the stations
// stand at three parts of a turn or more. x is exact; y > 0 is a slide that went too far.
func (l *Look) screwPitch() error {
	m, x, pitch := l.model(), places(l.Survey), l.Stated("pitch", 0)
	mean := m.line(x)
	var a, b sum
	if l.showsPeriodic(x, pitch) {
		a, b = one(m.unknown(0)), one(m.unknown(0))
	}
	for i, station := range l.Stations {
		sin, cos := math.Sincos(2 * math.Pi * x[i] / pitch)
		m.read(l.With, l.errors(station), 0, mean.at(x[i]).plus(cos, a).plus(sin, b))
	}
	s, err := m.solve()
	if err != nil {
		return err
	}
	l.pitchFindings(s, mean, pitch)
	l.pitchPeriodic(s, a, b)
	l.pitchExtremes()
	return nil
}

// errors returns what a station showed as how much the slide went too far.
func (l *Look) errors(station trade.Station) []float64 {
	values := inside(station.Saw)
	if l.Word("reads", readsError) == readsTravel {
		for i := range values {
			values[i] -= station.At.Inside()
		}
	}
	return values
}

// showsPeriodic reports whether stations tell a periodic error from a mean one.
func (l *Look) showsPeriodic(x []float64, pitch float64) bool {
	var phases []float64
	for _, at := range x {
		_, phase := math.Modf(at / pitch)
		same := func(o float64) bool { return math.Abs(math.Remainder(o-phase, 1)) < samePhase }
		if !slices.ContainsFunc(phases, same) {
			phases = append(phases, phase)
		}
	}
	return len(x) >= fewestForPeriodic && len(phases) >= fewestPhases
}

func (l *Look) pitchFindings(s solved, mean line, pitch float64) {
	x := places(l.Survey)
	span := x[len(x)-1] - x[0]
	k := s.of(mean.b)
	l.Find("pitch", Found{pitch * (1 + k.Value), pitch * k.U}, "pitch of the screw")
	l.Find("mean_error", k.times(span), "mean error over %s", unit.LengthOf(span))
	if Surely(Found{math.Abs(k.Value), k.U}) {
		more, moves := "more", "long"
		if k.Value < 0 {
			more, moves = "less", "short"
		}
		l.Advise("The screw is %s: where its dial says %s the slide goes %s %s. Dial that much the other way over a long move.", moves, unit.LengthOf(span), unit.LengthOf(math.Abs(k.Value)*span), more)
	}
	if s.misfits() {
		l.Caution("The error does not grow evenly along the screw: it is worn, or drunken, in places. Go by the plot, not by the mean.")
	}
}

func (l *Look) pitchPeriodic(s solved, a, b sum) {
	if a == nil {
		l.Caution("A periodic error cannot be told from these places: read %d or more, at different parts of a turn, such as every quarter.", fewestForPeriodic)
		return
	}
	amplitude := s.length(a, b)
	l.Find("periodic_error", amplitude, "periodic error, once a turn, ±")
	if s.chi2(a, b) > noPeriodic {
		l.Advise("An error that comes once a turn is not of the thread: see whether the thrust faces run true and the screw is straight.")
	} else {
		l.Caution("The periodic error is no more than the readings scatter.")
	}
}

// chi2 returns how far two sums are from nothing, in their own covariance.
func (s solved) chi2(f, g sum) float64 {
	x, y := s.of(f), s.of(g)
	cross := s.covariance(f, g)
	det := x.U*x.U*y.U*y.U - cross*cross
	return (x.Value*x.Value*y.U*y.U - 2*x.Value*y.Value*cross + y.Value*y.Value*x.U*x.U) / det
}

// pitchExtremes finds the largest error between any two places, as they were read.
func (l *Look) pitchExtremes() {
	s, heights := l.heights(l.errors, 0)
	least, most := s.extremes(heights)
	worst := s.of(heights[most].plus(-1, heights[least]))
	x := places(l.Survey)
	l.Find("largest_error", worst, "largest error, between %s and %s", unit.LengthOf(x[least]), unit.LengthOf(x[most]))
	l.JudgeSize("largest error between two places", worst)
	l.pitchPlot(s, heights, s.of(heights[most].plus(1, heights[least]).times(0.5).plus(-1, heights[0])).Value)
}

// pitchPlot shows the error from the first place on, with its line of least squares; the
// tolerance of the largest error lies about its middle.
func (l *Look) pitchPlot(s solved, heights []sum, middle float64) {
	x := places(l.Survey)
	first, last := x[0], x[len(x)-1]
	errors, even := Series{Name: "error"}, through(x, heights)
	for i, y := range heights {
		errors.add(x[i], s.of(y.plus(-1, heights[0])))
	}
	p := Plot{X: "along the screw", Y: "too far", Series: []Series{errors}}
	p.straight("even error", first, last, s.of(even.at(first).plus(-1, heights[0])), s.of(even.at(last).plus(-1, heights[0])))
	if l.Within.Given() {
		half := l.Within.Inside() / 2
		p.limit(first, last, middle-half, middle-half)
		p.limit(first, last, middle+half, middle+half)
	}
	l.Answer.Plot = p
}

// heights adjusts the stations each for itself, so that sums of what they showed
// have their uncertainty; apart is a further one of each.
func (l *Look) heights(saw func(trade.Station) []float64, apart float64) (solved, []sum) {
	m := l.model()
	var heights []sum
	for _, station := range l.Stations {
		heights = append(heights, one(m.unknown(0)))
		m.read(l.With, saw(station), apart, heights[len(heights)-1])
	}
	s, err := m.solve()
	if err != nil {
		panic("upkeep: heights that were read one by one have no solution")
	}
	return s, heights
}
