package survey

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Dovetail is the survey of a dovetail.
const Dovetail trade.SurveyKind = "dovetail"

// The words that say which side of a dovetail was read.
const (
	maleSide   = "male"
	femaleSide = "female"
)

var dovetails = []*Kind{{
	Name:    Dovetail,
	Title:   "Dovetail over rollers",
	Says:    "How wide a dovetail is along its length and at what angle its flanks stand, over or between rollers.",
	Source:  "geometry: the roller touches the flat, or its block, and the flank",
	Rollers: true,
	Keys: []Key{
		{Name: "side", Sort: Word, Words: []string{maleSide, femaleSide}, Say: "the male is read over rollers, the female between"},
		{Name: "angle", Sort: Angle, Say: "of the flank to the flat; not written: two depths find it"},
	},
	Work:  (*Look).dovetail,
	Finds: []string{"angle", "near", "far", "parallel", "hollow"},
}}

// usualFlank is where the search for the angle of a flank starts.
const usualFlank = 60 * math.Pi / 180

// acrossRollers is what an instrument shows over rollers of diameter d in the corners
// of a male dovetail (way 1), or between them in a female one (way -1), the rollers
// raised on blocks of height h:
//
//	m = W ± (2h·cot α + d(1 + cot(α/2)))
//
// where W is the width at the sharp corners and α the angle of the flanks to the flat.
type acrossRollers struct {
	width, angle, roller int
	raised, way          float64
}

func (f acrossRollers) predict(x []float64, row *lsq.Row) float64 {
	columns := [...]int{f.width, f.angle, f.roller}
	width, angle, roller := grad.Var(x[f.width], 0), grad.Var(x[f.angle], 1), grad.Var(x[f.roller], 2)
	if !(angle.X > 0 && angle.X < math.Pi/2) {
		return math.NaN()
	}
	cot := func(a grad.Number) grad.Number { return grad.Const(1).Div(a.Tan()) }
	corner := cot(angle).Times(2 * f.raised).Add(roller.Mul(cot(angle.Half()).Plus(1)))
	m := width.Add(corner.Times(f.way))
	for i, column := range columns {
		row.Add(column, m.D[i])
	}
	return m.X
}

// dovetailRead is a dovetail with its unknowns: one angle, and a width at each place.
type dovetailRead struct {
	*model
	angle   int
	stated  bool // the angle is the one written
	at      []float64
	widths  []sum
	corners []int
}

// dovetail finds the angle and the width at each place from rollers at two depths or
// more. One angle counts for all of it: where the flanks are not flat, or lean
// otherwise at the other end, the readings disagree. With rollers at one depth the
// angle that is written counts as exact.
func (l *Look) dovetail() error {
	d := &dovetailRead{model: l.model()}
	stated := l.Stated("angle", usualFlank)
	d.angle = d.unknown(stated)
	way := 1.0
	if l.Word("side", maleSide) == femaleSide {
		way = -1
	}
	for _, r := range l.placesOfRollers() {
		d.at = append(d.at, r)
		d.corners = append(d.corners, d.unknown(0))
		d.widths = append(d.widths, one(d.corners[len(d.corners)-1]))
	}
	for _, r := range l.Rollers {
		place := slices.Index(d.at, r.At.Inside())
		f := acrossRollers{d.corners[place], d.angle, d.piece(r.Roller), raised(r), way}
		saw := inside(r.Saw)
		d.problem.Start[f.width] += mean(saw) - f.predict(d.problem.Start, &lsq.Row{})
		d.read(l.With, saw, 0, f)
	}
	s, err := d.solveAngle(l, stated)
	if err != nil {
		return err
	}
	l.dovetailFindings(d, s)
	return nil
}

// placesOfRollers returns the places along a dovetail, rising.
func (l *Look) placesOfRollers() []float64 {
	var list []float64
	for _, r := range l.Rollers {
		list = append(list, r.At.Inside())
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func raised(r trade.RollerReading) float64 {
	if !r.Raised.Given() {
		return 0
	}
	return r.Raised.Inside()
}

// piece returns the column of a roller: one unknown for all readings that use it.
func (d *dovetailRead) piece(b trade.Bound) int {
	if b.ID == "" {
		return d.exact(b.Value.Inside())
	}
	if column, there := d.pieces[b.ID]; there {
		return column
	}
	p := d.job.Piece(b.ID)
	if p.Tolerance.Sign() > 0 {
		d.pieces[b.ID] = d.known(p.Size.Inside(), p.Tolerance.Inside()/math.Sqrt(3))
	} else {
		d.pieces[b.ID] = d.exact(p.Size.Inside())
	}
	return d.pieces[b.ID]
}

// solveAngle solves, and where the readings leave the angle open takes the one
// written.
func (d *dovetailRead) solveAngle(l *Look, stated float64) (solved, error) {
	s, err := d.solve()
	if err != nil || s.Determined(d.angle) {
		return s, err
	}
	if l.Values("angle") == nil {
		return s, errOneDepth
	}
	l.Caution("The angle counts as exactly %s, as written: read with a second size of roller to find it.", unit.AngleOf(stated))
	d.fix(d.angle, stated)
	d.stated = true
	return d.solve()
}

func (l *Look) dovetailFindings(d *dovetailRead, s solved) {
	first, last := 0, len(d.at)-1
	angle := s.of(one(d.angle))
	if !d.stated {
		l.Find("angle", angle, "angle of the flanks to the flat").Dimension = unit.Angle
		l.angleAgainst(angle)
	}
	l.Find("near", s.of(d.widths[first]), "width at the sharp corners, at %s", unit.LengthOf(d.at[first]))
	if first == last {
		l.Caution("Read at one place only: nothing is known of whether it is parallel.")
		return
	}
	l.Find("far", s.of(d.widths[last]), "the same, at %s", unit.LengthOf(d.at[last]))
	parallel := s.of(d.widths[last].plus(-1, d.widths[first]))
	l.Find("parallel", parallel, "it widens between the two by")
	l.JudgeSize("parallelism", parallel)
	l.parallelAdvice(parallel, d.at[last]-d.at[first])
	l.hollow(d, s)
	if s.misfits() {
		l.Caution("The readings do not fit flat flanks of one angle: they are worn over part of their height, or lean otherwise at one end; or a reading is wrong.")
	}
	l.widthPlot(d, s)
}

// widthPlot shows how parallel a dovetail is. How far it may widen from end to end
// spreads from the first place.
func (l *Look) widthPlot(d *dovetailRead, s solved) {
	widths := Series{Name: "width"}
	for i, w := range d.widths {
		widths.add(d.at[i], s.of(w.plus(-1, d.widths[0])))
	}
	p := Plot{X: "along the slide", Y: "wider than at the first place", Series: []Series{widths}}
	if l.Within.Given() {
		p.fan(d.at[0], d.at[len(d.at)-1], 0, l.Within.Inside())
	}
	l.Answer.Plot = p
}

// angleAgainst compares the angle found with the one written.
func (l *Look) angleAgainst(angle Found) {
	if l.Values("angle") == nil {
		return
	}
	stated := l.Stated("angle", 0)
	if off := angle.Value - stated; math.Abs(off) > differs*angle.U {
		l.Caution("The angle is %s from the %s written: the flanks are worn aslant, or were made so. Make the gib and scraping templates to what was found.", unit.AngleOf(off), unit.AngleOf(stated))
	}
}

func (l *Look) parallelAdvice(parallel Found, span float64) {
	if math.Abs(parallel.Value) <= differs*parallel.U {
		l.Advise("It is parallel as far as these readings tell.")
		return
	}
	wider := "last"
	if parallel.Value < 0 {
		wider = "first"
	}
	l.Advise("It is wider at the %s place, by %s in %s: scrape the flanks parallel, or make a gib with that taper times the sine of the angle.", wider, unit.LengthOf(math.Abs(parallel.Value)), unit.LengthOf(span))
}

// hollow finds how far the places between depart from the line through both ends: wear
// makes a male narrower there and a female wider.
func (l *Look) hollow(d *dovetailRead, s solved) {
	if len(d.at) < 3 {
		return
	}
	last := len(d.at) - 1
	ends := through([]float64{d.at[0], d.at[last]}, []sum{d.widths[0], d.widths[last]})
	worn := ends.departures(d.at, d.widths)
	if l.Word("side", maleSide) == maleSide {
		for i := range worn {
			worn[i] = worn[i].times(-1)
		}
	}
	_, most := s.extremes(worn)
	hollow := s.of(worn[most])
	l.Find("hollow", hollow, "worn hollow, most at %s", unit.LengthOf(d.at[most])).Wears = true
	if Surely(hollow) {
		l.Advise("It is worn hollow by %s at %s: a gib set there binds at the ends. Scrape the ends first.", unit.LengthOf(hollow.Value), unit.LengthOf(d.at[most]))
	}
}
