package strength

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// shearedPieces says what gives of each kind of sheared piece.
var shearedPieces = map[trade.ShearedKind]Piece{trade.ShearPin: Pin, trade.ShearKey: Key}

// sheared works out a key or a pin: what shears it, and what crushes it or the
// metal that it bears on, whichever is the weaker. A torque at radius r loads it by
// torque/r, and the load in service is the force on it there.
func (c *checker) sheared(p *trade.Sheared) {
	if p.Material == "" {
		c.fault(p.Pos, "say what %s is made of: material: 080M40", p.ID)
		return
	}
	m, ok := c.of(p.Pos, p.Material, max(inside(p.Diameter), inside(p.Width), inside(p.Height)), false)
	if !ok {
		return
	}
	l := Loaded{Piece: shearedPieces[p.Kind], Sheared: p, metal: m}
	if l.bears, l.softer, ok = c.against(p, m); ok {
		c.gives(l)
	}
}

// against returns the softer of a key or pin and what it bears on, and its name.
func (c *checker) against(p *trade.Sheared, m metal) (softer metal, name string, ok bool) {
	switch {
	case !p.Length.Given():
		c.note("how long " + p.ID + " bears is not stated: whether it is crushed is not worked out")
		return m, p.ID, true
	case p.Against == "":
		c.note(fmt.Sprintf("what %s bears on is not stated: it is taken as no softer (against: names it)", p.ID))
		return m, p.ID, true
	}
	other, ok := c.of(p.Pos, p.Against, 0, false)
	if ok && other.bearing() < m.bearing() {
		return other, "what " + p.ID + " bears on, " + p.Against + ",", true
	}
	return m, p.ID, ok
}

// inside returns a quantity as the program works with it, 0 where it is not given.
func inside(q unit.Quantity) float64 {
	if !q.Given() {
		return 0
	}
	return q.Inside()
}
