package series

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// TaperSeen is what was read of one taper.
type TaperSeen struct {
	HalfAngle Measured
	Diameter  Measured // of the taper at one place; not needed
	At        float64  // how far that place lies from the large end towards the small one, mm
	Make      float64  // how closely the first maker worked on diameters: standard deviation, mm
	Machine   trade.Machine
}

// Taper is a candidate for what a taper was meant to be.
type Taper struct {
	facts.Taper
	Designation string  // "Morse 3", "1:20"
	P           float64 // probability
	GaugeLine   float64 // where the diameter at the gauge line is found, from the large end towards the small one, mm; NaN where none is fixed
	UGaugeLine  float64 // its standard uncertainty, mm
}

// TaperAnswer is what a taper may have been, likeliest first.
type TaperAnswer struct {
	Candidates []Taper
	None       float64 // probability that it is no taper of any series and not round
	Settle     []unit.Text
	Settled    bool
	Warnings   []unit.Text
}

// tapersCut is how closely tapers are ground to their angle: our choice.
const tapersCut = 0.01 * degree

// FindTaper returns the tapers that the readings may come from: the named ones,
// and round ratios, inches per foot and half angles. Where no diameter was read
// the numbers of a family that have the same angle are one candidate.
//
// A named taper's gauge line is taken to lie at the large end, within N(0, (1.5
// mm)²) for four tapers in five and N(0, (8 mm)²) for one in five; diameters of
// round tapers may be anything, as common in every octave.
func FindTaper(seen TaperSeen) TaperAnswer {
	var list []Taper
	var logs []float64
	for _, h := range taperHypotheses(seen.Machine) {
		t := Taper{Taper: h.Taper, Designation: h.name}
		t.GaugeLine, t.UGaugeLine = seen.gaugeLine(h.Taper)
		list = append(list, t)
		logs = append(logs, math.Log(h.prior)+logNormal(seen.HalfAngle.Value-h.HalfAngle, math.Hypot(seen.HalfAngle.U, tapersCut))+seen.logDiameter(h.Taper))
	}
	none := math.Log(taperPrior(noTaper, seen.Machine)) - math.Log(math.Abs(seen.HalfAngle.Value)*math.Log(mostHalf/leastHalf)) + seen.logDiameter(facts.Taper{Large: math.NaN()})
	p := probable(append(logs, none))
	for i := range list {
		list[i].P = p[i]
	}
	if !seen.Diameter.Given() {
		list = together(list)
	}
	list = likeliest(list, func(t *Taper) float64 { return t.P })
	a := TaperAnswer{Candidates: list, None: p[len(p)-1], Warnings: seen.warnings()}
	a.Settle, a.Settled = settleTapers(list, a.None, seen)
	return a
}

// Where the gauge line lies about the large end.
const (
	flush, sunk = 1.5, 8.0 // mm
	sunkShare   = 0.2
)

// logDiameter is the logarithm of the density of the diameter read.
func (seen *TaperSeen) logDiameter(t facts.Taper) float64 {
	if !seen.Diameter.Given() {
		return 0
	}
	if math.IsNaN(t.Large) {
		return -math.Log(seen.Diameter.Value * math.Log(mostSpecial/leastSpecial))
	}
	taper := 2 * math.Tan(t.HalfAngle)
	sigma := math.Hypot(seen.Diameter.U, max(seen.Make, exact))
	d := seen.Diameter.Value + taper*seen.At - t.Large
	near := math.Log(1-sunkShare) + logNormal(d, math.Hypot(sigma, taper*flush))
	far := math.Log(sunkShare) + logNormal(d, math.Hypot(sigma, taper*sunk))
	return logSum(near, far)
}

// gaugeLine returns how far from the large end the taper has its nominal
// diameter, positive towards the small end.
func (seen *TaperSeen) gaugeLine(t facts.Taper) (at, u float64) {
	if !seen.Diameter.Given() || math.IsNaN(t.Large) {
		return math.NaN(), math.NaN()
	}
	taper := 2 * math.Tan(t.HalfAngle)
	return seen.At + (seen.Diameter.Value-t.Large)/taper, seen.Diameter.U / taper
}

// oneAngle is how near two tapers of a family are one taper, the diameter apart.
const oneAngle = 0.0005 * degree

// together puts the numbers of a family that have one angle together, where the
// first of them stands.
func together(list []Taper) []Taper {
	var out []Taper
	for _, t := range list {
		i := slices.IndexFunc(out, func(o Taper) bool {
			return o.Family == t.Family && math.Abs(o.HalfAngle-t.HalfAngle) < oneAngle
		})
		if i < 0 || t.Number == "" {
			out = append(out, t)
			continue
		}
		out[i].P += t.P
		out[i].Number += ", " + t.Number
	}
	for i := range out {
		if numbers := strings.Split(out[i].Number, ", "); len(numbers) > 1 {
			if len(numbers) > 3 {
				out[i].Number = numbers[0] + " to " + numbers[len(numbers)-1]
			}
			out[i].Designation = taperName(out[i].Taper)
		}
	}
	return out
}

// warnings says what cannot be.
func (seen *TaperSeen) warnings() []unit.Text {
	var list []unit.Text
	if half := seen.HalfAngle.Value / degree; half < leastHalf || half > mostHalf {
		list = append(list, unit.Say("a half angle of %s is outside the %g° to %g° of these series", unit.AngleOf(seen.HalfAngle.Value), leastHalf, mostHalf))
	}
	if _, known := practice(seen.Machine); !known {
		list = append(list, unit.Say("the country %q is not known here: inch and metric are taken as even; write GB, US, DE ...", seen.Machine.Country))
	}
	return list
}

// taperLook is a reading, and the rivals of the leader that it tells from it.
type taperLook struct {
	text   unit.Text
	rivals []string
}

// settleTapers says how to tell the leader from those within 20 to 1 of it,
// rivals that one reading settles together.
func settleTapers(list []Taper, none float64, seen TaperSeen) (how []unit.Text, settled bool) {
	leader := &list[0]
	var ways []taperLook
	for i := range list[1:] {
		rival := &list[i+1]
		if rival.P*settledOdds < leader.P || i == rivalsNamed {
			break
		}
		way := tellTapersApart(leader, rival, seen)
		i := slices.IndexFunc(ways, func(l taperLook) bool { return l.text.Is(way) })
		if i < 0 {
			i, ways = len(ways), append(ways, taperLook{text: way})
		}
		ways[i].rivals = append(ways[i].rivals, rival.Designation)
	}
	for _, l := range ways {
		how = append(how, unit.Say("%s or %s: %s", leader.Designation, strings.Join(l.rivals, " or "), l.text))
	}
	if none*settledOdds > leader.P {
		how = append(how, unit.Say("a taper of no series is %s: read the angle more closely, over a longer base", oddsWord(none, leader.P)))
	}
	if len(how) == 0 {
		return nothingNear(leader.Designation), true
	}
	return how, false
}

func oddsWord(none, leader float64) string {
	if none > leader {
		return "likelier than any of these"
	}
	return "not ruled out"
}

// reachableAngleU is the finest that a half angle is read in a shop, as a
// standard uncertainty: over rollers or with a sine bar.
const reachableAngleU = 0.002 * degree

// tellTapersApart names the reading that tells two tapers apart. The odds reach
// 20 to 1 at the better one where apart²/(2·(u² + cut²)) = ln 20.
func tellTapersApart(a, b *Taper, seen TaperSeen) unit.Text {
	apart := math.Abs(a.HalfAngle - b.HalfAngle)
	u := math.Sqrt(max(0, math.Pow(apart/enough, 2)-tapersCut*tapersCut))
	switch {
	case u > reachableAngleU:
		u = min(u, seen.HalfAngle.U/2) // a reading halfway between the two must be bettered too
		return unit.Say("read the half angle to ±%.3f°: %.4f° says %s, %.4f° says %s",
			1.96*u/degree, a.HalfAngle/degree, a.Designation, b.HalfAngle/degree, b.Designation)
	case !seen.Diameter.Given():
		return unit.Words("read the diameter at the large end")
	case math.Abs(a.Large-b.Large) > 2*math.Tan(a.HalfAngle)*flush:
		return unit.Say("the gauge line of %s lies %s from the large end, that of %s %s; try a gauge",
			a.Designation, unit.Rounded{MM: a.GaugeLine, Decimals: 1}, b.Designation, unit.Rounded{MM: b.GaugeLine, Decimals: 1})
	case apart < oneAngle:
		return unit.Words("one taper under two names")
	}
	return unit.Words("rub blue on a known one and see where it bears")
}
