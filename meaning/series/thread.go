package series

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Along says whether a thread was seen to taper along its length.
type Along uint8

// What may be known of a thread's taper.
const (
	NotLooked Along = iota
	Parallel
	Tapers
)

// ThreadSeen is what was read of one thread. At least one diameter should be
// given: a pitch alone leaves nearly everything open.
type ThreadSeen struct {
	Inside    bool // a nut or tapped hole
	Major     Measured
	Minor     Measured // bore of a nut, root of a screw
	Effective Measured
	Pitch     Measured
	Angle     Measured // included, rad
	Along     Along
	Wear      float64 // typical loss of a worn surface, on the diameter, mm
	Make      float64 // how closely the first maker worked: standard deviation, mm
	Machine   trade.Machine
}

// Thread is a candidate for what a thread was meant to be.
type Thread struct {
	facts.Thread
	P       float64 // probability
	Wear    float64 // mean loss of the crests on the diameter that this candidate implies, mm, never negative
	Decided bool    // by the user
}

// ThreadAnswer is what a thread may have been, likeliest first.
type ThreadAnswer struct {
	Candidates []Thread
	Settle     []unit.Text // the reading that tells the leader from those near it
	Settled    bool        // the leader is 20 times as likely as the next
	Warnings   []unit.Text
}

// FindThread returns the threads that the readings may come from: every row of
// the standard series, and round diameters with round pitches that no series has.
//
// Crests, flanks and bores of real threads lie off the basic size by the
// allowance and tolerance of their class, which grow with the pitch, and by
// wear; both together are one half-normal loss (see surfaces). One surface in
// ten is taken to be worn heavily. Effective diameters are taken as worked out
// with the right pitch and angle.
func FindThread(seen ThreadSeen) ThreadAnswer {
	var list []Thread
	var logs []float64
	for _, h := range hypotheses(seen) {
		list = append(list, Thread{Thread: h.Thread})
		logs = append(logs, math.Log(h.prior)+seen.logLikelihood(h.Thread))
	}
	for i, p := range probable(logs) {
		list[i].P = p
	}
	list = likeliest(list, func(t *Thread) float64 { return t.P })
	for i := range list {
		list[i].Wear = seen.crestLoss(list[i].Thread)
	}
	a := ThreadAnswer{Candidates: list, Warnings: seen.warnings(list[0].Thread, "even the best, "+list[0].Designation+",")}
	a.Settle, a.Settled = settleThreads(list, seen)
	return a
}

// hypothesis is a thread and how common it is, whatever the readings.
type hypothesis struct {
	facts.Thread
	prior float64
}

// hypotheses returns all rows of the tables and the specials near the readings.
func hypotheses(seen ThreadSeen) []hypothesis {
	rows := facts.Threads()
	weights := map[string]float64{}
	for _, t := range rows {
		weights[t.Family] += choiceWeights[t.Choice]
	}
	for family, weight := range weights {
		weights[family] = familyPrior(family, seen.Machine) / weight
	}
	var list []hypothesis
	for _, t := range rows {
		list = append(list, hypothesis{t, weights[t.Family] * choiceWeights[t.Choice]})
	}
	return append(list, specials(seen, rows)...)
}

// How far the surfaces of a thread lie off the basic size in the middle of the
// trade, in pitches: half-normal scales about the middle of ISO 6g and 6H, BS
// 84 medium and BA normal, and holes drilled for 75 % of thread and less.
const (
	crestLoss     = 0.10
	flankLoss     = 0.06
	rootLoss      = 0.08
	boreLoss      = 0.20
	taperedSpread = 0.20 // a taper thread read anywhere between its small end and the gauge plane
	mostCrest     = 0.30 // a crest that has lost more is no crest
)

// heavyWear is the typical loss of a heavily worn surface, mm.
const heavyWear = 0.25

// placed is a surface and its basic size.
type placed struct {
	surface
	basic float64
}

// surfaces returns the diameters measured, the crests first.
func (seen *ThreadSeen) surfaces(t facts.Thread) []placed {
	b := basicSizes(t)
	var list []placed
	add := func(m Measured, basic, sense, scale, wear float64) {
		if m.Given() {
			list = append(list, placed{seen.surface(t, m, sense, scale, wear), basic})
		}
	}
	if seen.Inside {
		add(seen.Minor, b.MinorNut, -1, boreLoss, seen.Wear)
		add(seen.Effective, b.Effective, -1, flankLoss, seen.Wear)
		add(seen.Major, b.MajorNut, -1, crestLoss, 0)
		return list
	}
	add(seen.Major, b.Major, 1, crestLoss, seen.Wear)
	add(seen.Effective, b.Effective, 1, flankLoss, seen.Wear)
	add(seen.Minor, b.MinorScrew, 1, rootLoss, 0)
	return list
}

func (seen *ThreadSeen) surface(t facts.Thread, m Measured, sense, scale, wear float64) surface {
	loss := math.Hypot(scale*t.Pitch, wear)
	if t.Tapered {
		loss = math.Hypot(loss, taperedSpread*t.Pitch)
	}
	return surface{
		seen: m, sense: sense, make: max(seen.Make, exact), scale: loss,
		heavy: max(loss, min(heavyWear, mostCrest*t.Pitch)),
	}
}

// Least errors: a pitch as it was cut, and a flank angle.
const (
	pitchCut = 0.0005 // of the pitch
	angleCut = 0.25 * degree
)

const degree = math.Pi / 180

func (seen *ThreadSeen) logLikelihood(t facts.Thread) float64 {
	sum := 0.0
	for _, s := range seen.surfaces(t) {
		sum += s.logLikelihood(s.basic)
	}
	if seen.Pitch.Given() {
		sum += seen.logPitch(t)
	}
	if seen.Angle.Given() {
		sum += logNormal(seen.Angle.Value-t.Angle, math.Hypot(seen.Angle.U, angleCut))
	}
	switch {
	case seen.Along == Parallel && t.Tapered, seen.Along == Tapers && !t.Tapered:
		sum += math.Log(0.01) // one look in a hundred deceives
	}
	return sum
}

// One pitch in thirty is misread by some parts in a hundred: the wrong leaf, or
// a thread miscounted.
const (
	misreadShare = 0.03
	misreadBy    = 0.04 // of the pitch, standard deviation
)

func (seen *ThreadSeen) logPitch(t facts.Thread) float64 {
	off := seen.Pitch.Value - t.Pitch
	well := math.Log(1-misreadShare) + logNormal(off, seen.pitchSigma(t))
	badly := math.Log(misreadShare) + logNormal(off, math.Hypot(seen.Pitch.U, misreadBy*t.Pitch))
	return logSum(well, badly)
}

func (seen *ThreadSeen) pitchSigma(t facts.Thread) float64 {
	return math.Hypot(seen.Pitch.U, pitchCut*t.Pitch)
}

// crestLoss returns the loss that a candidate implies of the first surface
// measured.
func (seen *ThreadSeen) crestLoss(t facts.Thread) float64 {
	list := seen.surfaces(t)
	if len(list) == 0 {
		return 0
	}
	return list[0].loss(list[0].basic)
}

// farOff is by how many standard deviations a reading contradicts a candidate.
const farOff = 3

// warnings says what makes a thread, called name, doubtful.
func (seen *ThreadSeen) warnings(t facts.Thread, name string) []unit.Text {
	var list []unit.Text
	warn := func(format string, args ...any) { list = append(list, unit.Say(format, args...)) }
	if _, known := practice(seen.Machine); !known {
		warn("the country %q is not known here: inch and metric are taken as even; write GB, US, DE ...", seen.Machine.Country)
	}
	if z := math.Abs(seen.Pitch.Value-t.Pitch) / seen.pitchSigma(t); seen.Pitch.Given() && z > farOff {
		warn("%s is %.1f standard deviations off the pitch: read the pitch again over many threads", name, z)
	}
	if z := math.Abs(seen.Angle.Value-t.Angle) / math.Hypot(seen.Angle.U, angleCut); seen.Angle.Given() && z > farOff {
		warn("%s is %.1f standard deviations off the flank angle: look at it again", name, z)
	}
	for _, s := range seen.surfaces(t) {
		if z := s.beyond(s.basic); z > farOff {
			warn("%s is %s than the basic %s of %s by more than error and making explain: no wear does that",
				unit.LengthOf(s.seen.Value), sizeWord(s.sense), unit.LengthOf(s.basic), t.Designation)
		}
		if loss := s.loss(s.basic); loss > farOff*s.heavy {
			warn("%s means that %s has gone from %s: that is more than wear usually takes",
				t.Designation, hundredths(loss), unit.LengthOf(s.basic))
		}
	}
	return list
}

func sizeWord(sense float64) string {
	if sense < 0 {
		return "smaller"
	}
	return "larger"
}
