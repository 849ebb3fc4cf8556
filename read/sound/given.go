package sound

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// kit checks instruments and gauge pieces.
func (c *check) kit() {
	for i := range c.job.Instruments {
		c.instrument(&c.job.Instruments[i])
	}
	for _, p := range c.job.Pieces {
		if p.Kind == "" || !slices.Contains(gauge.PieceKinds(), p.Kind) {
			c.unknown(string(p.Kind), describe("kit entry", p.ID), "kind", p.Pos, words(gauge.PieceKinds()))
			continue
		}
		m := c.tell("kit", describe("kit entry", p.ID), p.Pos, told{"kind", string(p.Kind)}, told{"size", p.Size},
			told{"tolerance", p.Tolerance}, told{"say", p.Say})
		if p.Kind == trade.OtherPiece {
			m.need("size")
		}
	}
}

// instrument checks one whose kind says what it shows, or may be either.
func (c *check) instrument(i *trade.Instrument) {
	what := describe("kit entry", i.ID)
	entry, known := gauge.InstrumentOf(i.Kind)
	if !known {
		c.unknown(string(i.Kind), what, "kind", i.Pos, words(gauge.InstrumentKinds()))
		return
	}
	shows := gauge.InstrumentReads(i)
	switch {
	case entry.Angles:
		shows = unit.Angle
	case !entry.Either:
		shows = unit.Length
	}
	before := len(c.faults)
	c.tellIn("kit", shows, what, i.Pos, told{"kind", string(i.Kind)}, told{"resolution", i.Resolution},
		told{"mpe", i.MPE}, told{"zero", i.Zero}, told{"repeat", i.Repeat}, told{"say", i.Say})
	if len(c.faults) > before {
		return
	}
	if _, err := gauge.ErrorOf(i); err != nil {
		c.fault(i.Pos, "%s", err)
	}
}

// sizes checks the sizes that are sought.
func (c *check) sizes() {
	for i := range c.job.Sizes {
		c.size(&c.job.Sizes[i])
	}
}

func (c *check) size(s *trade.Size) {
	var wear any = string(s.Wear)
	if s.Wear == trade.TypicalWear || s.Wear == "" {
		wear = s.TypicalWear
	}
	m := c.tellIn("sizes", s.Kind.Dimension(), describe("size", s.ID), s.Pos,
		told{"kind", string(s.Kind)}, told{"surface", string(s.Surface)}, told{"wear", wear}, told{"form", s.Form},
		told{"make", s.Make}, told{"guess", s.Guess}, told{"known", s.Known.Value},
		told{"within", s.Known.Within}, told{"u", s.Known.U}, told{"meant", s.Meant}, told{"say", s.Say})
	if wordless := s.Wear == trade.TypicalWear; wordless != s.TypicalWear.Given() {
		c.fault(s.Pos, "%s: wear is typical where a length says how much, and only there", m.what)
	}
	for _, stated := range []told{{"guess", s.Guess}, {"known", s.Known.Value}} {
		q, _ := stated.value.(unit.Quantity)
		if s.Kind.MustBePositive() && q.Given() && q.Sign() <= 0 {
			m.wrong(stated.key, " is %s; it must be more than 0", q)
		}
		if s.Kind == trade.Angle && q.IsTaper() {
			m.wrong(stated.key, ": the taper %s stands for a half angle; write the angle in degrees", q)
		}
	}
}

// plans checks sets of holes with unknown places.
func (c *check) plans() {
	for _, p := range c.job.Plans {
		m := c.tell("plans", describe("plan", p.ID), p.Pos, told{"holes", several(len(p.Holes))},
			told{"guess", several(len(p.Guess))})
		for _, hole := range sorted(p.Guess) {
			if !slices.Contains(p.Holes, hole) {
				c.unknown(hole, m.about("guess"), "hole", p.Pos, p.Holes)
			}
			at := p.Guess[hole]
			m.lengths("guess", at.X, at.Y)
		}
	}
}

// sorted returns the keys of a map in order.
func sorted[T any](by map[string]T) []string {
	var names []string
	for name := range by {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// lengths faults what is no length.
func (m *mapping) lengths(key string, list ...unit.Quantity) {
	for _, q := range list {
		m.measures(m.about(key), m.pos, q, unit.Length)
	}
}

// places checks the circles and lines that are touched.
func (c *check) places() {
	for _, p := range c.job.Places {
		first := unit.Length
		if p.Kind == trade.Line {
			first = unit.Angle
		}
		c.tellIn("places", first, describe("place", p.ID), p.Pos,
			told{"kind", string(p.Kind)}, told{"diameter", p.Diameter}, told{"guess", p.Guess}, told{"say", p.Say})
	}
}

// relations checks what ties sizes together.
func (c *check) relations() {
	for i := range c.job.Relations {
		r := &c.job.Relations[i]
		what := "a relation"
		if r.That.Given() {
			what = describe("relation", r.That.Text)
		}
		if !r.That.Given() || !r.Is.Given() {
			c.tell("relations", what, r.Pos, told{"that", r.That.Text}, told{"is", r.Is.Text})
			continue
		}
		if left := c.formula(&r.That, "that in "+what, ofTheJob, expr.Parse); left != nil {
			c.equality(r, what, left)
		}
	}
}

// equality checks what the left side is said to equal, and how closely.
func (c *check) equality(r *trade.Relation, what string, left *expr.Expr) {
	right := c.formula(&r.Is, "is in "+what, ofTheJob, rightSide(left.Dimension()))
	if right != nil && !c.namesSize(left, right) {
		c.fault(r.Pos, "%s names no size, so it ties nothing", what)
	}
	d, ok := measured(left.Dimension())
	m := c.tellIn("relations", d, what, r.Pos, told{"that", r.That.Text}, told{"is", r.Is.Text}, told{"within", r.Within},
		told{"u", r.U}, told{"say", r.Say})
	if !ok {
		m.refuse("there is no unit for "+left.Dimension().String(), "within", "u")
	}
}

// threadRoles are the kinds that the sizes of a thread may have.
var threadRoles = map[string][]trade.SizeKind{
	"major":     {trade.Diameter, trade.Radius},
	"effective": {trade.Diameter, trade.Radius},
	"minor":     {trade.Diameter, trade.Radius},
	"pitch":     {trade.Pitch},
	"angle":     {trade.Angle, trade.HalfAngle},
}

// threads checks which sizes are those of a thread.
func (c *check) threads() {
	ids := among{}
	for _, t := range c.job.Threads {
		ids.claim(c, t.ID, aThread, t.Pos)
		roles := []told{
			{"major", t.Major},
			{"pitch", t.Pitch},
			{"effective", t.Effective},
			{"minor", t.Minor},
			{"angle", t.Angle},
		}
		m := c.tell("threads", describe("thread", t.ID), t.Pos,
			append(roles, told{"surface", string(t.Surface)}, told{"hand", string(t.Hand)}, told{"starts", t.Starts},
				told{"meant", t.Meant})...)
		for _, role := range roles {
			id, _ := role.value.(string)
			o := c.owners[id]
			if o.thing != aSize {
				continue
			}
			kinds := threadRoles[role.key]
			if kind := c.job.Sizes[o.index].Kind; kind != "" && !slices.Contains(kinds, kind) {
				m.wrong(role.key, ": %s is of kind %s where one of kind %s should be", quote(id), kind,
					strings.Join(words(kinds), " or "))
			}
		}
	}
}
