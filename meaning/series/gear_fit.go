package series

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// toothReading is one reading of a gear near its unshifted state: what is seen
// is nominal + perShift·x, less a loss of the tips or, as if the shift were
// smaller, of the flanks.
type toothReading struct {
	what     unit.Text
	seen     float64
	sigma    float64
	nominal  float64 // at the shift about which it is straightened
	perShift float64
	perTip   float64 // what a loss of the tips takes
	perFlank float64 // what thinner teeth take
}

// shiftSpread is the standard deviation of the shift of a shifted gear, and
// shiftedShare how many gears are shifted.
const (
	shiftSpread  = 0.35
	shiftedShare = 0.2
)

// How gears are made: blanks turned under size and teeth cut thin for backlash,
// in modules, half-normal.
const (
	tipUnder = 0.02
	thinning = 0.03
)

// weigh returns the logarithm of the likelihood of the readings of a gear with
// these teeth, minus infinity where it cannot be, and fills in its shift and
// wear. Pins see the shift along a curve: it is straightened where the first
// pass found the shift.
func (seen *GearSeen) weigh(g *Gear) float64 {
	for range 2 {
		readings := seen.toothReadings(g)
		if readings == nil {
			return math.Inf(-1)
		}
		if log := seen.integrate(g, readings); math.IsInf(log, -1) || len(seen.Pins) == 0 {
			return log
		}
	}
	return seen.integrate(g, seen.toothReadings(g))
}

// toothReadings returns the readings straightened about the gear's shift, none
// where one of them cannot be, or would ask for a shift that no gear has.
func (seen *GearSeen) toothReadings(g *Gear) []toothReading {
	var list []toothReading
	possible := true
	add := func(what unit.Text, m *gauge.Method, more map[string]float64, over Measured, tips bool) {
		args := make(gauge.Args, len(m.Roles))
		for i, x := range g.at(m, seen.Teeth, more) {
			args[i] = grad.Const(x)
			if m.Roles[i].Name == "shift" {
				args[i] = grad.Var(x, 0)
			}
		}
		n := m.Model(args)
		r := toothReading{what: what, seen: over.Value, sigma: math.Hypot(over.U, max(seen.Make, exact)), perShift: n.D[0], nominal: n.X - n.D[0]*g.Shift}
		if tips {
			r.perTip = 1
		} else {
			r.perFlank = n.D[0] / (2 * g.Module * math.Sin(g.Pressure))
		}
		if !(math.Abs(r.seen-r.nominal) < mostShift*math.Abs(r.perShift)) {
			possible = false
		}
		list = append(list, r)
	}
	if seen.Tip.Given() {
		add(unit.Words("of the tips"), gauge.GearTips(), nil, seen.Tip, true)
	}
	for _, s := range seen.Spans {
		add(unit.Say("over %d teeth", s.Teeth), gauge.GearSpan(), map[string]float64{"spanned": float64(s.Teeth)}, s.Over, false)
	}
	for _, p := range seen.Pins {
		add(unit.Say("over pins of %s", unit.Resolved{Value: p.Pin, Dimension: unit.Length}), gauge.GearOverPins(), map[string]float64{"pin": p.Pin}, p.Over, false)
	}
	if !possible {
		return nil
	}
	return list
}

// mostShift is the largest shift, with wear counted as shift, worth a thought.
const mostShift = 2

// lossSteps is how finely the losses are integrated over, and lossReach how far.
const (
	lossSteps = 40
	lossReach = 4.0
)

// moments gathers what is integrated over.
type moments struct {
	all, shifted, shift, square, wear float64 // weights, and means times weights
}

// integrate returns the likelihood of the readings with the shift and both
// losses integrated over, and fills in what they leave of them.
func (seen *GearSeen) integrate(g *Gear, readings []toothReading) float64 {
	tips := lossNodes(math.Hypot(seen.Wear, tipUnder*g.Module), seen.Tip.Given())
	flanks := lossNodes(math.Hypot(seen.Wear, thinning*g.Module), len(seen.Spans)+len(seen.Pins) > 0)
	scale := math.Inf(-1)
	var m moments
	add := func(log, flank, shift, variance float64, shifted bool) {
		if log > scale {
			m.shrink(math.Exp(scale - log))
			scale = log
		}
		w := math.Exp(log - scale)
		m.all, m.shift, m.square, m.wear = m.all+w, m.shift+w*shift, m.square+w*(shift*shift+variance), m.wear+w*flank
		if shifted {
			m.shifted += w
		}
	}
	for _, tip := range tips {
		for _, flank := range flanks {
			plain, free, shift, variance := evidence(readings, tip.loss, flank.loss)
			add(plain+tip.log+flank.log+math.Log(1-shiftedShare), flank.loss, 0, 0, false)
			add(free+tip.log+flank.log+math.Log(shiftedShare), flank.loss, shift, variance, true)
		}
	}
	g.Shift, g.Shifted, g.Wear = m.shift/m.all, m.shifted/m.all, m.wear/m.all
	g.UShift = math.Sqrt(max(0, m.square/m.all-g.Shift*g.Shift))
	return scale + math.Log(m.all)
}

func (m *moments) shrink(by float64) {
	m.all, m.shifted, m.shift, m.square, m.wear = by*m.all, by*m.shifted, by*m.shift, by*m.square, by*m.wear
}

// node is one loss and the logarithm of its weight.
type node struct{ loss, log float64 }

// lossNodes are the midpoints of a half-normal of this scale, one at 0 where the
// loss touches no reading.
func lossNodes(scale float64, touched bool) []node {
	if !touched {
		return []node{{0, 0}}
	}
	step := lossReach * scale / lossSteps
	list := make([]node, lossSteps)
	for i := range list {
		loss := (float64(i) + 0.5) * step
		list[i] = node{loss, math.Ln2 + logNormal(loss, scale) + math.Log(step)}
	}
	return list
}

// evidence returns the logarithm of the density of the readings at these losses
// for no shift and for a shift of unknown size, N(0, shiftSpread²), and the mean
// and variance of the latter.
func evidence(readings []toothReading, tip, flank float64) (plain, free, shift, variance float64) {
	a, b := 1/(shiftSpread*shiftSpread), 0.0
	for _, r := range readings {
		d := r.seen - r.nominal + tip*r.perTip + flank*r.perFlank
		plain += logNormal(d, r.sigma)
		a += r.perShift * r.perShift / (r.sigma * r.sigma)
		b += r.perShift * d / (r.sigma * r.sigma)
	}
	free = plain + b*b/(2*a) - math.Log(a*shiftSpread*shiftSpread)/2
	return plain, free, b / a, 1 / a
}

// worst returns the reading farthest from what the gear gives with its shift and
// wear, in its standard deviations.
func (seen *GearSeen) worst(g *Gear) (off float64, what unit.Text) {
	for _, r := range seen.toothReadings(g) {
		d := r.seen - r.nominal - g.Shift*r.perShift + g.Wear*r.perFlank
		if r.perTip > 0 { // the tips may have lost as much as blanks and wear take
			d = min(0, d+2*math.Hypot(seen.Wear, tipUnder*g.Module)) + max(0, d)
		}
		if z := math.Abs(d) / r.sigma; z > off {
			off, what = z, r.what
		}
	}
	return off, what
}
