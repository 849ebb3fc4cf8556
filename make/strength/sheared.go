package strength

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// sheared works out a key or a pin: what shears it, and what crushes it or the
// metal that it bears on, whichever is the weaker.
//
// A pin shears at planes·π/4·d² and is crushed on d·length, a key shears at
// width·length and is crushed on height/2·length: the length is that which bears.
// Crushing begins at the yield stress. A torque at radius r loads it by torque/r,
// and the load in service is the force on it there.
// Source: keys and pins, as in any textbook of machine design.
func (c *checker) sheared(p *trade.Sheared) {
	areas := shearedAreas(p)
	if p.Material == "" {
		c.fault(p.Pos, "say what %s is made of: material: 080M40", p.ID)
		return
	}
	m, ok := c.of(p.Pos, p.Material, areas.section, false)
	if !ok {
		return
	}
	from := len(c.answer.Ways)
	c.shears(p.ID, p.ID, m, areas.shear)
	if areas.crush > 0 {
		c.crushes(p, m, areas.crush)
	} else {
		c.note("how long " + p.ID + " bears is not stated: whether it is crushed is not worked out")
	}
	if p.At.Given() {
		for i := range c.answer.Ways[from:] {
			w := &c.answer.Ways[from+i]
			w.Torque = w.Load * p.At.Inside()
		}
	}
}

// shearedArea is what a key or pin bears with, mm², and its ruling section, mm.
type shearedArea struct {
	shear, crush, section float64
}

func shearedAreas(p *trade.Sheared) shearedArea {
	planes, length := float64(max(p.Planes, 1)), inside(p.Length)
	if p.Kind == trade.ShearKey {
		width, height := p.Width.Inside(), p.Height.Inside()
		return shearedArea{planes * width * length, height / 2 * length, max(width, height)}
	}
	d := p.Diameter.Inside()
	return shearedArea{planes * math.Pi / 4 * d * d, d * length, d}
}

// crushes adds the crushing of the piece or of what it bears on.
func (c *checker) crushes(p *trade.Sheared, m metal, area float64) {
	what := p.ID
	if p.Against != "" {
		other, ok := c.of(p.Pos, p.Against, 0, false)
		if !ok {
			return
		}
		if other.bearing() < m.bearing() {
			m, what = other, "what "+p.ID+" bears on, "+p.Against+","
		}
	} else {
		c.note(fmt.Sprintf("what %s bears on is not stated: it is taken as no softer (against: names it)", p.ID))
	}
	load := m.bearing() * area
	c.add(Way{
		Piece: p.ID, Mode: Crushes, Load: load, Yield: load, Most: m.most * area, Sources: m.sources,
		How: fmt.Sprintf("%s yields: %.0f MPa on %.1f mm²", what, m.bearing(), area),
	})
}

// inside returns a quantity as the program works with it, 0 where it is not given.
func inside(q unit.Quantity) float64 {
	if !q.Given() {
		return 0
	}
	return q.Inside()
}
