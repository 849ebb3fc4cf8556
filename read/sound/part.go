package sound

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// part checks what is to be made.
func (c *check) part() {
	p := c.job.Part
	if p == nil {
		return
	}
	ids := among{}
	for i, s := range p.Sizes {
		ids.claim(c, s.ID, aPartSize, s.Pos)
		if _, twice := c.made[s.ID]; !twice {
			c.made[s.ID] = i
		}
	}
	m := c.tell("part", "part", p.Pos, told{"name", p.Name}, told{"kind", string(p.Kind)},
		told{"material", p.Material}, told{"quantity", p.Quantity}, told{"holds", p.Holds}, told{"chance", p.Chance},
		told{"revision", p.Revision})
	m.need("quantity")
	for i := range p.Sizes {
		c.newSize(&p.Sizes[i])
	}
	c.stacks(p)
	c.mates(p)
	c.shape(p)
}

// newSize checks one size of the part.
func (c *check) newSize(s *trade.NewSize) {
	origins := words([]trade.Origin{trade.GoesIn, trade.GoesOver, trade.Copies, trade.Is, trade.IsThread})
	if !slices.Contains(origins, string(s.From)) {
		c.unknown(string(s.From), describe("part size", s.ID), "origin", s.Pos, origins)
		return
	}
	kind := s.Kind.Dimension()
	m := c.tellIn("part.sizes", kind, describe("part size", s.ID), s.Pos,
		append(origin(s), told{"kind", string(s.Kind)}, told{"surface", string(s.Surface)}, told{"fit", s.Fit},
			told{"within", s.Within}, told{"tolerance", s.Tolerance}, told{"holds", s.Holds}, told{"chance", s.Chance},
			told{"rework", string(s.Rework)}, told{"class", s.Class}, told{"hand", string(s.Hand)},
			told{"say", s.Say})...)
	if s.From == trade.IsThread {
		if s.Kind != "" && s.Kind != trade.Diameter {
			c.fault(s.Pos, "%s: a thread is of kind %s, if any", m.what, trade.Diameter)
		}
		return
	}
	if slices.Contains(trade.SizeKinds, s.Kind) {
		c.sizeOf(m, s)
	}
}

// sizeOf checks the expression that a size follows from, and how it meets its mate.
func (c *check) sizeOf(m *mapping, s *trade.NewSize) {
	key, length := string(s.From), s.Kind.Dimension() == unit.Length
	meets := s.From == trade.GoesIn || s.From == trade.GoesOver
	switch {
	case meets && !length:
		c.fault(s.Pos, `%s: only a length goes in or over; %s has "copies" or "is"`, m.what,
			dimensionNames[s.Kind.Dimension()])
	case s.Tolerance != "" && !length:
		c.fault(s.Pos, `%s: only a length has a tolerance class; write "within"`, m.what)
	}
	c.side(m, s)
	if s.Of.Text == "" {
		return
	}
	e := c.formula(&s.Of, m.about(key), ofTheJob, rightSide(expr.DimensionOf(s.Kind.Dimension())))
	if e == nil || len(e.Names()) > 0 {
		return
	}
	if e.Eval(nil, nil) <= 0 && s.Kind.MustBePositive() {
		m.wrong(key, " is %s; it must be more than 0", quote(s.Of.Text))
	}
	if q, err := unit.ParseAngle(s.Of.Text); s.Kind == trade.Angle && err == nil && q.IsTaper() {
		m.wrong(key, ": %s stands for the half angle; "+
			"give the size the kind half-angle, or write the included angle in degrees", quote(s.Of.Text))
	}
}

// side faults a surface that is not the one that meets the mate.
func (c *check) side(m *mapping, s *trade.NewSize) {
	meets, other := trade.Outside, trade.Inside
	switch s.From {
	case trade.GoesIn:
	case trade.GoesOver:
		meets, other = other, meets
	default:
		return
	}
	if s.Surface == other {
		c.fault(s.Pos, "%s: what %s is %s, not %s", m.what, strings.Replace(string(s.From), "-", " ", 1), meets,
			other)
	}
}

// stacks checks the chains of sizes whose sum matters.
func (c *check) stacks(p *trade.Part) {
	ids := among{}
	for i := range p.Stacks {
		s := &p.Stacks[i]
		ids.claim(c, s.ID, aStack, s.Pos)
		m := c.tell("part.stacks", describe("stack", s.ID), s.Pos, told{"that", s.That.Text},
			told{"wanted", s.Wanted}, told{"say", s.Say})
		if s.That.Text == "" {
			continue
		}
		e := c.formula(&s.That, m.about("that"), ofThePart, expr.Parse)
		switch {
		case e == nil:
		case !e.Dimension().IsLength():
			m.wrong("that", " is %s where a length should be", e.Dimension())
		case len(e.Names()) == 0:
			m.wrong("that", " names no size, so nothing adds up")
		}
	}
}

// mates checks the pairs of shapes that go together.
func (c *check) mates(p *trade.Part) {
	ids := among{}
	for i := range p.Mates {
		mate := &p.Mates[i]
		ids.claim(c, mate.ID, aMate, mate.Pos)
		what := describe("mate", mate.ID)
		c.tell("part.mates", what, mate.Pos, told{"pair", string(mate.Pair)}, told{"of", several(len(mate.Of))},
			told{"say", mate.Say})
		c.pair(trade.Pairs, mate.Pair, mate.Of, what, mate.Pos)
		if e := mate.Entry; e != nil {
			c.tell("part.mates.entry", "entry of "+what, e.Pos, told{"kind", string(e.Kind)},
				told{"of", several(len(e.Of))})
			c.pair(trade.Openings, e.Kind, e.Of, "entry of "+what, e.Pos)
		}
	}
}

// pair checks what stands in the roles of a pair.
func (c *check) pair(list []trade.Pair, id trade.PairKind, of []trade.MateArg, what string, pos trade.Pos) {
	i := slices.IndexFunc(list, func(p trade.Pair) bool { return p.ID == id })
	if i < 0 {
		return // a fault already
	}
	filled := map[string]int{}
	for k := range of {
		arg := &of[k]
		filled[arg.Role]++
		role, known := list[i].Role(arg.Role)
		switch about := arg.Role + " in the roles of " + what; {
		case !known:
			c.unknown(arg.Role, "the roles of "+what, "key", arg.Pos, nil)
		case filled[arg.Role] == 2:
			c.fault(arg.Pos, "the roles of %s: %q is filled twice", what, arg.Role)
		case role.Plan:
			c.owner(arg.Plan, about, arg.Pos, aPlan)
		default:
			c.mateArgument(role, arg, about)
		}
	}
	for _, role := range list[i].Roles {
		if !role.Optional && filled[role.Name] == 0 {
			c.fault(pos, "the roles of %s: %q is missing", what, role.Name)
		}
	}
}

func (c *check) mateArgument(role trade.PairRole, arg *trade.MateArg, about string) {
	e := c.formula(&arg.Value, about, ofThePart, rightSide(expr.DimensionOf(role.Dimension)))
	if e != nil && len(e.Names()) == 0 && e.Eval(nil, nil) <= 0 && role.Kind.MustBePositive() {
		c.fault(arg.Pos, "%s is %s; it must be more than 0", about, quote(arg.Value.Text))
	}
}

// origin tells what a size follows from, and what is wanted between it and its
// mate: an interference is a clearance that is negative throughout.
func origin(s *trade.NewSize) []told {
	list := []told{{"clearance", s.Clearance}}
	for _, from := range []trade.Origin{trade.GoesIn, trade.GoesOver, trade.Copies, trade.Is} {
		text := ""
		if s.From == from {
			text = s.Of.Text
		}
		list = append(list, told{string(from), text})
	}
	if s.From != trade.IsThread {
		return list
	}
	return append(list, told{string(trade.IsThread), s.Thread}, told{"the expression", s.Of.Text})
}

// shape checks which size of the part is which: of its kind, and of no other.
func (c *check) shape(p *trade.Part) {
	s := &p.Shape
	shapes := []struct {
		kind  trade.PartKind
		there bool
		check func()
	}{
		{trade.TurnedPart, s.Turned != nil, func() { c.turned(s.Turned, s.Pos) }},
		{trade.SectorShoe, s.Shoe != nil, func() { c.shoe(s.Shoe, s.Pos) }},
		{trade.PlatePart, s.Plate != nil, func() { c.plate(s.Plate, s.Pos) }},
		{trade.NutPart, s.Nut != nil, func() { c.nut(s.Nut, s.Pos) }},
		{trade.BushPart, s.Bush != nil, func() { c.bush(s.Bush, s.Pos) }},
		{trade.KeyPart, s.Key != nil, func() { c.key(s.Key, s.Pos) }},
		{trade.GibPart, s.Gib != nil, func() { c.gib(s.Gib, s.Pos) }},
		{trade.WasherPart, s.Washer != nil, func() { c.washer(s.Washer, s.Pos) }},
	}
	for _, shape := range shapes {
		switch {
		case !shape.there:
		case shape.kind != p.Kind:
			c.fault(s.Pos, "part: it is of kind %s, but has the %s", p.Kind, shapeOf(shape.kind))
		default:
			shape.check()
		}
	}
}

// shapeOf names the shape of a kind of part for faults.
func shapeOf(kind trade.PartKind) string { return "shape of a " + kind.Word().Called }

// shapeSection is where the shape of a kind of part is described.
func shapeSection(kind trade.PartKind) string { return "part.shape." + string(kind) }

// tellShape checks a shape, or what stands in it, against its description.
func (c *check) tellShape(kind trade.PartKind, pos trade.Pos, values ...told) *mapping {
	return c.tell(shapeSection(kind), shapeOf(kind), pos, values...)
}
