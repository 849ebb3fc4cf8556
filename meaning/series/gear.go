package series

import (
	"errors"
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// GearSeen is what was read of one spur gear.
type GearSeen struct {
	Teeth   int
	Tip     Measured // diameter over the tips; of an odd number of teeth twice the reading from tip to axis
	Spans   []SpanSeen
	Pins    []PinsSeen
	Wear    float64 // typical loss of a worn flank, mm
	Make    float64 // how closely the first maker worked: standard deviation, mm
	Machine trade.Machine
}

// SpanSeen is a reading over several teeth, flank to flank.
type SpanSeen struct {
	Teeth int // spanned
	Over  Measured
}

// PinsSeen is a reading over two pins in opposite spaces.
type PinsSeen struct {
	Pin  float64
	Over Measured
}

// Gear is a candidate for what a gear was meant to be.
type Gear struct {
	Designation string  // "module 2, 20°", "10 DP, 14.5°"
	Family      string  // "module", "DP"
	Module      float64 // mm
	Pressure    float64 // rad
	Addendum    float64 // in modules: 1, or 0.8 for stub teeth
	Shift       float64 // profile shift, mean of what the readings leave open
	UShift      float64 // its standard uncertainty
	Shifted     float64 // probability that it is shifted at all
	P           float64
	Wear        float64 // mean thinning of the teeth, along the base tangent, backlash allowance included, mm
	Source      string
}

// GearAnswer is what a gear may have been, likeliest first.
type GearAnswer struct {
	Candidates []Gear
	Settle     []unit.Text
	Settled    bool
	Warnings   []unit.Text
}

// The faults of gear readings.
var (
	errFewTeeth = errors.New("a gear has at least 5 teeth")
	errNoGear   = errors.New("nothing was read: a gear needs its tip diameter, a span over several teeth or a reading over pins")
	errAnyGear  = errors.New("no module or diametral pitch of the series gives such readings; count the teeth again, and the teeth spanned")
)

const fewestTeeth = 5

// check returns what is wrong with the readings.
func (seen *GearSeen) check() error {
	if seen.Teeth < fewestTeeth {
		return errFewTeeth
	}
	if !seen.Tip.Given() && len(seen.Spans) == 0 && len(seen.Pins) == 0 {
		return errNoGear
	}
	for _, s := range seen.Spans {
		if s.Teeth < 1 || s.Teeth > seen.Teeth/2 {
			return fmt.Errorf("a span over %d of %d teeth cannot be read; it goes over 1 to %d", s.Teeth, seen.Teeth, seen.Teeth/2)
		}
	}
	return nil
}

// FindGear returns the tooth sizes and basic racks that the readings may come
// from: modules and diametral pitches of the series at 14½° and 20°.
//
// The forward models are those of the catalogue. The shift is zero for four
// gears in five, else N(0, 0.35²); it is integrated over, and so are two
// half-normal losses: that of the tips, and that of the flanks (wear and
// backlash), which thins all teeth alike and so leaves the difference of two
// spans, the base pitch, as it was.
func FindGear(seen GearSeen) (GearAnswer, error) {
	if err := seen.check(); err != nil {
		return GearAnswer{}, err
	}
	var list []Gear
	var logs []float64
	for _, size := range toothSizes(seen.Machine) {
		for i := range toothForms {
			f := &toothForms[i]
			g := Gear{
				Designation: size.name + ", " + f.name, Family: size.family, Module: size.module,
				Pressure: f.pressure, Addendum: f.addendum, Source: size.source,
			}
			if log := seen.weigh(&g); !math.IsInf(log, -1) {
				list, logs = append(list, g), append(logs, log+math.Log(size.share*shareOn(seen.Machine, f.trades)))
			}
		}
	}
	if len(list) == 0 {
		return GearAnswer{}, errAnyGear
	}
	for i, p := range probable(logs) {
		list[i].P = p
	}
	list = likeliest(list, func(g *Gear) float64 { return g.P })
	a := GearAnswer{Candidates: list, Warnings: seen.warnings(&list[0])}
	a.Settle, a.Settled = settleGears(list, seen.Teeth)
	return a, nil
}

// at returns the values in the roles of a method of the catalogue for a gear.
func (g *Gear) at(m *gauge.Method, teeth int, more map[string]float64) []float64 {
	known := map[string]float64{"module": g.Module, "shift": g.Shift, "teeth": float64(teeth), "pressure": g.Pressure, "addendum": g.Addendum}
	values := make([]float64, len(m.Roles))
	for i, role := range m.Roles {
		value, ok := known[role.Name]
		if !ok {
			value = more[role.Name]
		}
		values[i] = value
	}
	return values
}

// largeShift is a profile shift that few gears have.
const largeShift = 0.6

// warnings says which set-ups cannot be on the leader, and how badly it fits.
func (seen *GearSeen) warnings(g *Gear) []unit.Text {
	var list []unit.Text
	add := func(m *gauge.Method, more map[string]float64) {
		for _, remark := range m.Valid(g.at(m, seen.Teeth, more)) {
			list = append(list, unit.Say("on %s %s", g.Designation, remark.Text))
		}
	}
	for _, s := range seen.Spans {
		add(gauge.GearSpan(), map[string]float64{"spanned": float64(s.Teeth)})
	}
	for _, p := range seen.Pins {
		add(gauge.GearOverPins(), map[string]float64{"pin": p.Pin})
	}
	if _, known := practice(seen.Machine); !known {
		list = append(list, unit.Say("the country %q is not known here: inch and metric are taken as even; write GB, US, DE ...", seen.Machine.Country))
	}
	if g.Shifted > 0.5 && math.Abs(g.Shift) > largeShift {
		list = append(list, unit.Say("%s fits only with a shift of %.2f, which few gears have: count the teeth again", g.Designation, g.Shift))
	}
	if off, what := seen.worst(g); off > farOff {
		list = append(list, unit.Say("even the best, %s, is %.1f standard deviations off the reading %s: count the teeth again", g.Designation, off, what))
	}
	return list
}
