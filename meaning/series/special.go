package series

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// level is one coarseness of round sizes: those values of the grid that no
// coarser level holds.
type level struct {
	step  float64 // mm
	share float64 // of the round sizes of its system
	per   float64 // mean distance between the values that belong to it, mm
}

// levels returns the levels of a system from the coarsest, each step a whole
// number of the next.
func levels(steps, shares []float64) []level {
	var list []level
	for i, step := range steps {
		own := 1 / step
		if i > 0 {
			own -= 1 / steps[i-1]
		}
		list = append(list, level{step: step, share: shares[i], per: 1 / own})
	}
	return list
}

const inch = unit.MillimetresPerInch

// system is one way of choosing round diameters and pitches.
type system struct {
	levels  []level
	pitches []float64 // mm
	trades  [trades]float64
	forms   []profile
}

// profile is a form of thread and how common it is among the specials of its
// system in each trade.
type profile struct {
	form  string
	share [trades]float64
}

// systems are the two systems: our choice of shares, no source.
var systems = []system{
	{
		levels:  levels([]float64{inch, inch / 2, inch / 4, inch / 8, inch / 16, inch / 32, inch / 64}, []float64{.30, .22, .17, .13, .09, .06, .03}),
		pitches: perInch(4, 4.5, 5, 6, 7, 8, 9, 10, 11, 11.5, 12, 13, 14, 16, 18, 19, 20, 22, 24, 26, 27, 28, 30, 32, 36, 40, 48, 56, 60, 64, 72, 80),
		trades:  [trades]float64{0.97, 0.93, 0.96, 0.08},
		forms: []profile{
			{"Whitworth", [trades]float64{0.78, 0.6, 0.05, 0.5}},
			{"UN 60", [trades]float64{0.15, 0.33, 0.85, 0.45}},
			{"Acme 29", [trades]float64{0.07, 0.07, 0.10, 0.05}},
		},
	},
	{
		levels:  levels([]float64{10, 5, 1, 0.5}, []float64{0.25, 0.25, 0.4, 0.1}),
		pitches: []float64{.2, .25, .3, .35, .4, .45, .5, .6, .7, .75, .8, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6, 8, 10, 12},
		trades:  [trades]float64{0.03, 0.07, 0.04, 0.92},
		forms: []profile{
			{"ISO 60", [trades]float64{0.9, 0.9, 0.9, 0.9}},
			{"ISO trapezoidal 30", [trades]float64{0.1, 0.1, 0.1, 0.1}},
		},
	},
}

func perInch(threads ...float64) []float64 {
	list := make([]float64, len(threads))
	for i, n := range threads {
		list[i] = inch / n
	}
	return list
}

// The specials considered: diameters, as common in every octave, and pitches,
// as common one as another, of the fineness that screws have.
const (
	leastSpecial, mostSpecial = 1.0, 200.0
	finest, coarsest          = 0.015, 0.3 // pitch over diameter
)

// widest is the widest range of diameters, in mm, in which a special is looked
// for: a reading that leaves more open names none.
const widest = 20

// specials returns round diameters with round pitches that none of the rows is,
// near the diameters measured.
func specials(seen ThreadSeen, rows []facts.Thread) []hypothesis {
	prior := familyPrior(special, seen.Machine)
	var list []hypothesis
	for i := range systems {
		s := &systems[i]
		for _, p := range s.forms {
			shares := s.trades
			for t := range shares {
				shares[t] *= p.share[t]
			}
			for _, h := range s.near(seen, p.form, prior*shareOn(seen.Machine, shares)) {
				if !listed(h.Thread, rows) {
					list = append(list, h)
				}
			}
		}
	}
	return list
}

// listed reports whether a standard series has this diameter with this pitch
// and angle.
func listed(t facts.Thread, rows []facts.Thread) bool {
	for _, row := range rows {
		if math.Abs(row.Major-t.Major) < sameMajor && math.Abs(row.Pitch-t.Pitch) < exact*t.Pitch && row.Angle == t.Angle {
			return true
		}
	}
	return false
}

// near returns the specials of one system and form whose diameter the readings
// allow and whose pitch is that read.
func (s *system) near(seen ThreadSeen, form string, share float64) []hypothesis {
	var list []hypothesis
	for _, pitch := range s.pitches {
		if seen.Pitch.Given() && math.Abs(pitch-seen.Pitch.Value) > math.Max(5*seen.Pitch.U, 0.02*pitch) {
			continue
		}
		low, high := seen.majors(form, pitch)
		if high-low > widest {
			continue
		}
		for _, l := range s.levels {
			for n := math.Ceil(low / l.step); n*l.step <= high; n++ {
				major := n * l.step
				if fine := pitch / major; !s.belongs(major, l) || fine < finest || fine > coarsest {
					continue
				}
				prior := share * l.share * l.per / (major * math.Log(mostSpecial/leastSpecial)) / s.pitchesAt(major)
				list = append(list, hypothesis{s.thread(form, major, pitch), prior})
			}
		}
	}
	return list
}

// belongs reports whether no coarser level holds a value of level l.
func (s *system) belongs(major float64, l level) bool {
	for _, coarser := range s.levels {
		if coarser.step <= l.step {
			return true
		}
		if n := major / coarser.step; math.Abs(n-math.Round(n)) < exact {
			return false
		}
	}
	return true
}

// pitchesAt returns how many pitches a diameter may have.
func (s *system) pitchesAt(major float64) float64 {
	n := 0.0
	for _, pitch := range s.pitches {
		if fine := pitch / major; fine >= finest && fine <= coarsest {
			n++
		}
	}
	return n
}

// majors returns the basic major diameters of this form and pitch that the
// first surface measured allows; nothing where no diameter was measured.
func (seen *ThreadSeen) majors(form string, pitch float64) (low, high float64) {
	list := seen.surfaces(facts.Thread{Form: form, Pitch: pitch})
	if len(list) == 0 {
		return 1, 0
	}
	s := list[0]
	noise, loss := 4*math.Hypot(s.seen.U, s.make), 4*s.heavy
	low, high = s.seen.Value-s.basic-noise, s.seen.Value-s.basic+loss
	if s.sense < 0 {
		low, high = s.seen.Value-s.basic-loss, s.seen.Value-s.basic+noise
	}
	return max(low, leastSpecial), min(high, mostSpecial)
}

// thread names a special.
func (s *system) thread(form string, major, pitch float64) facts.Thread {
	f := forms[form]
	t := facts.Thread{Family: special, Major: major, Pitch: pitch, Form: form, Angle: f.Angle, Source: "no series has it: a round diameter with a round pitch"}
	angle := fmt.Sprintf("%g°", math.Round(f.Angle/degree*10)/10)
	if fraction, _ := unit.NearestFraction(major, 64); s == &systems[0] {
		t.TPI = math.Round(10*inch/pitch) / 10
		t.Designation = fmt.Sprintf("special %v x %g tpi, %s", fraction, t.TPI, angle)
		return t
	}
	t.Designation = fmt.Sprintf("special %g mm x %g mm, %s", major, pitch, angle)
	return t
}
