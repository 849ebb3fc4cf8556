package inspect

import (
	"fmt"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

const (
	reference    = 20.0    // °C, at which sizes are what they are (ISO 1)
	instrumentBy = 11.5e-6 // 1/K, steel: what instruments and gauge pieces grow by
)

// cooled is what checks would have shown at 20 °C.
type cooled struct {
	checks []trade.Check
	by     map[string]float64 // what was taken off a reading, by its id
	warm   map[string]string  // why nothing can be said of it
}

// cooled corrects the checks of warm pieces. With S what the reading grows by
// when the part does, in mm for each part of itself (of a plain reading its
// length), it showed more by
//
//	ΔL = S·(α_part·(T_part - 20) - α_steel·(T_instrument - 20))
//
// An instrument whose temperature is not known may have any between 20 °C and
// that of the piece, and that counts as uncertainty of the reading.
func (p *proof) cooled(checks []trade.Check) *cooled {
	c := &cooled{by: map[string]float64{}, warm: map[string]string{}}
	for _, check := range checks {
		if check.AtTemp.Given() && !c.cool(p, &check) {
			continue
		}
		c.checks = append(c.checks, check)
	}
	return c
}

// cool corrects a check, false where that cannot be done.
func (c *cooled) cool(p *proof, check *trade.Check) bool {
	part := check.AtTemp.Inside() - reference
	tool, spread := part/2, math.Abs(part)/2/math.Sqrt(3)
	if check.WithTemp.Given() {
		tool, spread = check.WithTemp.Inside()-reference, 0
	}
	if part == 0 && tool == 0 {
		return true
	}
	material := p.Job.Part.Material
	growsBy, known := expansion(material)
	_, stretch := scaled(joined(p.made, []trade.Check{*check}), &check.Reading, p.target)
	switch {
	case !known && material == "":
		c.warm[check.ID] = fmt.Sprintf("the piece was at %g °C, and its material is not stated: let it cool to that of the instrument, or say `material:` in the part", check.AtTemp.Inside())
	case !known:
		c.warm[check.ID] = fmt.Sprintf("the piece was at %g °C, and the tables do not say what %s grows by: let it cool to that of the instrument", check.AtTemp.Inside(), material)
	case !finite(stretch) || check.GoNoGo():
		c.warm[check.ID] = fmt.Sprintf("the piece was at %g °C, and this reading cannot be corrected: let it cool to that of the instrument", check.AtTemp.Inside())
	default:
		c.correct(check, stretch*(growsBy*part-instrumentBy*tool), math.Abs(stretch)*instrumentBy*spread)
		return true
	}
	return false
}

// correct takes the growth off every value, and lets all of them be off together
// by what is not known of it.
func (c *cooled) correct(check *trade.Check, by, u float64) {
	c.by[check.ID] = by
	check.Saw = slices.Clone(check.Saw)
	for i := range check.Saw {
		x := &check.Saw[i].X
		*x = quantity(x.Inside()-by, x.Dimension())
	}
	if u == 0 {
		return
	}
	feel := u
	if check.Feel.Given() {
		feel = math.Hypot(feel, check.Feel.Inside())
	}
	check.Feel, check.SeatedOnce = quantity(feel, unit.Length), true
}

// expansion returns what a material grows by, 1/K, false where it is not known.
func expansion(material string) (perKelvin float64, known bool) {
	stock, err := facts.FindMaterial(material)
	if material == "" || err != nil {
		return 0, false
	}
	for _, s := range stock.Strengths() {
		if finite(s.CTE) {
			return s.CTE, true
		}
	}
	return 0, false
}

// target returns what a size is expected to be: of the part what it is made to,
// of the job what was found.
func (p *proof) target(id string) float64 {
	if size, ok := cutPart(id); ok {
		return p.made.Of(size).Target
	}
	return p.made.Found.Named(id).Value
}
