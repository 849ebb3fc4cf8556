package hold

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// sides is how many corners stand for the circle within which the friction of a
// strap clamp can push; they lie on it, so that it is never made larger than it is.
const sides = 32

// grip is the linear programme of the forces that can balance: each unknown is how
// much of one push there is.
type grip struct {
	pushes []push
	held   []float64 // what the pushes of each contact that presses sum to
}

// push is a direction in which a contact can push the work, along the edge of its
// cone of friction.
type push struct {
	wrench wrench
	touch  *touch
	among  int     // index into held, -1 where it pushes as much as it must
	normal float64 // part of it that is no friction
}

// ends is how many places stand for a contact.
func ends(c *trade.Contact) int {
	if c.Kind == trade.JawContact {
		return 2
	}
	return 1
}

// grip returns the programme at a friction. Where contacts that only stand still
// could wedge the work between them their friction is not counted: nothing says
// that they are tight.
func (h *holder) grip(mu float64) *grip {
	g := h.gripWith(mu, mu)
	if mu > 0 && g.wedges() {
		return h.gripWith(mu, 0)
	}
	return g
}

// gripWith returns the programme at one friction of what presses and another of
// what stands still.
func (h *holder) gripWith(pressing, standing float64) *grip {
	g := &grip{}
	group := map[*trade.Contact]int{}
	for i := range h.touches {
		t := &h.touches[i]
		among, mu := -1, standing
		if moves(t.contact) {
			mu = pressing
			if _, there := group[t.contact]; !there {
				group[t.contact] = len(g.held)
				g.held = append(g.held, h.pressed(t.contact, mu))
			}
			among = group[t.contact]
		}
		if !t.blocks() {
			h.addStrap(g, t, among)
			continue
		}
		for _, slope := range slopes(mu) {
			direction := t.push.Add(t.push.Left().Times(slope))
			g.pushes = append(g.pushes, push{h.wrenchOf(t.at, direction), t, among, 1})
		}
	}
	return g
}

// slopes are those of the two edges of the cone of friction, one without.
func slopes(mu float64) []float64 {
	if mu == 0 {
		return []float64{0}
	}
	return []float64{mu, -mu}
}

// pressed returns what the pushes of a contact sum to, over the scale: its
// clamping force, or the friction that a strap's toe makes.
func (h *holder) pressed(c *trade.Contact, mu float64) float64 {
	force := c.Clamping.InsideOr(0) / h.scale
	if c.Kind == trade.ClampContact {
		return force * toe(c) * mu
	}
	return force
}

// addStrap adds the friction under a strap clamp, one corner of it straight against
// the cutter.
func (h *holder) addStrap(g *grip, t *touch, among int) {
	against := h.Holding.Towards.InsideOr(0)
	for k := range sides {
		direction := geom.Polar(1, against+2*math.Pi*float64(k)/sides)
		g.pushes = append(g.pushes, push{h.wrenchOf(t.at, direction), t, among, 0})
	}
}

// wedges reports whether what stands still could press the work without anything
// that presses.
func (g *grip) wedges() bool {
	p := &programme{}
	for _, u := range g.pushes {
		if u.among < 0 {
			p.columns = append(p.columns, append(u.wrench[:], 1))
		}
	}
	p.right = []float64{0, 0, 0, 1}
	_, end := p.least(make([]float64, len(p.columns)))
	return end != infeasible
}

// programme returns the equations of balance under a load, and of what presses.
func (g *grip) programme(load wrench) *programme {
	p := &programme{right: make([]float64, 3+len(g.held))}
	for _, u := range g.pushes {
		column := make([]float64, 3+len(g.held))
		copy(column, u.wrench[:])
		if u.among >= 0 {
			column[3+u.among] = 1
		}
		p.columns = append(p.columns, column)
	}
	for i := range load {
		p.right[i] = -load[i]
	}
	copy(p.right[3:], g.held)
	return p
}

// balances reports whether the forces can balance a load.
func (g *grip) balances(load wrench) bool {
	p := g.programme(load)
	_, end := p.least(make([]float64, len(p.columns)))
	return end != infeasible
}

// most returns how many times a load can be balanced, +Inf where there is no end.
// Without the load the forces must balance.
func (g *grip) most(load wrench) float64 {
	p := g.programme(wrench{})
	column := make([]float64, len(p.right))
	copy(column, load[:])
	p.columns = append(p.columns, column)
	cost := make([]float64, len(p.columns))
	cost[len(cost)-1] = -1
	least, end := p.least(cost)
	if end == unbounded {
		return math.Inf(1)
	}
	return -least
}

// normal returns the least and the greatest that a contact can press with under a
// load that can be balanced.
func (g *grip) normal(c *trade.Contact, load wrench) strength.Span {
	p := g.programme(load)
	end := func(sign float64) float64 {
		cost := make([]float64, len(p.columns))
		for i, u := range g.pushes {
			if u.touch.contact == c {
				cost[i] = sign * u.normal
			}
		}
		least, end := p.least(cost)
		if end == unbounded {
			return math.Inf(1)
		}
		return math.Max(0, sign*least)
	}
	return strength.Span{Low: end(1), High: end(-1)}
}

// share finds what each contact presses with.
func (h *holder) share() {
	if h.Verdict == Unseated {
		return
	}
	rest, rubs := h.shares(wrench{})
	cutting, cuttingRubs := h.shares(h.load)
	for i := range h.Holding.Contacts {
		c := &h.Holding.Contacts[i]
		s := Share{Contact: c, Rest: rest[i], Cutting: cutting[i], Rubs: rubs || cuttingRubs}
		if c.Kind == trade.ClampContact {
			s.Heel = c.Clamping.InsideOr(0) * (1 - toe(c))
		}
		h.Shares = append(h.Shares, s)
	}
}

// shares returns what each contact presses with under a load, N, without friction
// where that can be.
func (h *holder) shares(load wrench) (list []strength.Span, rubs bool) {
	g := h.grip(0)
	if !g.balances(load) {
		g, rubs = h.grip(h.Friction), true
	}
	gone := rubs && !g.balances(load)
	for i := range h.Holding.Contacts {
		c := &h.Holding.Contacts[i]
		s := strength.Span{Low: c.Clamping.InsideOr(0), High: c.Clamping.InsideOr(0)}
		switch {
		case gone:
			s = strength.Span{Low: math.NaN(), High: math.NaN()}
		case c.Kind == trade.ClampContact:
			s = strength.Span{Low: s.Low * toe(c), High: s.High * toe(c)}
		case !moves(c):
			s = g.normal(c, load)
			s = strength.Span{Low: s.Low * h.scale, High: s.High * h.scale}
		}
		list = append(list, s)
	}
	return list, rubs
}
