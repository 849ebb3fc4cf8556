package sound

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// joints checks what is screwed, keyed or sheared together.
func (c *check) joints() {
	ids := among{}
	for i := range c.job.Joints {
		j := &c.job.Joints[i]
		ids.claimNumbered(c, j.ID, aJoint, i, j.Pos)
		c.joint(j, called(aJoint, j.ID, i))
	}
}

func (c *check) joint(j *trade.Joint, what string) {
	m := c.tell("joints", what, j.Pos, told{"stud", one(j.Stud.Given())}, told{"into", one(j.Into.Given())},
		told{"head", one(j.Head.Given())}, told{"sheared", several(len(j.Sheared))},
		told{"press", one(j.Press != nil)}, told{"tighten", one(j.Tighten.Given())}, told{"service", j.Service},
		told{"spanner", j.Spanner}, told{"holds", string(j.Holds)}, told{"say", j.Say})
	if !m.hasAny([]string{"stud", "sheared", "press"}) {
		c.fault(j.Pos, "%s holds nothing together; write its stud, sheared or press", what)
	}
	c.member(j.Stud, m.about("stud"))
	c.member(j.Into, m.about("into"))
	c.headOf(j, m.about("head"))
	if t := j.Tighten; t.Given() {
		c.tell("joints.tighten", m.about("tighten"), t.Pos, told{"torque", t.Torque}, told{"preload", t.Preload},
			told{"friction", t.Friction})
	}
	c.sheared(j, what)
	c.press(j.Press, m.about("press"))
	c.fuse(j, what)
}

// member checks one side of a screwed joint.
func (c *check) member(s trade.Member, what string) {
	if !s.Given() {
		return
	}
	c.tell("joints.stud", what, s.Pos, told{"thread", s.Thread}, told{"of", s.PartSize}, told{"class", s.Class},
		told{"material", s.Material}, told{"grade", s.Grade}, told{"length", s.Length}, told{"around", s.Around},
		told{"outside", s.Outside}, told{"section", s.Section})
}

func (c *check) headOf(j *trade.Joint, what string) {
	if h := j.Head; h.Given() {
		c.tell("joints.head", what, h.Pos, told{"kind", string(h.Kind)}, told{"height", h.Height},
			told{"across", h.Across}, told{"width", h.Width}, told{"slot", h.Slot}, told{"material", h.Material})
	}
}

// sheared checks the pieces that the load shears, which have their ids among
// themselves.
func (c *check) sheared(j *trade.Joint, of string) {
	ids := among{}
	for _, s := range j.Sheared {
		ids.claim(c, s.ID, aSheared, s.Pos)
		c.tell("joints.sheared", describe(string(aSheared), s.ID)+" of "+of, s.Pos, told{"kind", string(s.Kind)},
			told{"diameter", s.Diameter}, told{"width", s.Width}, told{"height", s.Height}, told{"length", s.Length},
			told{"planes", s.Planes}, told{"at", s.At}, told{"material", s.Material}, told{"against", s.Against})
	}
}

func (c *check) press(p *trade.PressFit, what string) {
	if p == nil {
		return
	}
	m := c.tell("joints.press", what, p.Pos, told{"diameter", p.Diameter}, told{"inside", p.Inside},
		told{"outside", p.Outside}, told{"length", p.Length}, told{"interference", p.Interference},
		told{"inner", p.Inner}, told{"outer", p.Outer}, told{"friction", p.Friction}, told{"warmer", p.Warmer})
	m.rising("inside", p.Inside, "diameter", p.Diameter)
	m.rising("diameter", p.Diameter, "outside", p.Outside)
}

// rising faults a quantity that is not less than another.
func (m *mapping) rising(key string, less unit.Quantity, other string, more unit.Quantity) {
	if less.Given() && more.Given() && less.Dimension() == more.Dimension() && less.Inside() >= more.Inside() {
		m.wrong(key, " is %s; it must be less than the %s, %s", less, other, more)
	}
}

// fuse checks which piece is meant to give way first.
func (c *check) fuse(j *trade.Joint, what string) {
	some := trade.Fuses(j.Stud.Given(), j.Head.Given(), j.Sheared)
	if j.Fuse != trade.NoFuse && !slices.Contains(some, j.Fuse) {
		c.unknown(string(j.Fuse), what, "fuse", j.Pos, words(some))
	}
}
