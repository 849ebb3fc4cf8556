package sound

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// work checks the order of work.
func (c *check) work() {
	before := len(c.faults)
	c.against(keys.File(), unit.Number, "the job", trade.Pos{}, told{"work", several(len(c.job.Work))})
	if len(c.faults) > before {
		return // too many of them
	}
	ids := among{}
	for i := range c.job.Work {
		op := &c.job.Work[i]
		ids.claimNumbered(c, op.ID, anOperation, i, op.Pos)
		c.operation(op, called(anOperation, op.ID, i))
	}
	c.needs()
	for i := range c.job.Shop {
		c.takenApart(c.job.Shop[i].ID)
	}
}

func (c *check) operation(op *trade.Operation, what string) {
	makes := ""
	if op.Makes {
		makes = "part"
	}
	m := c.tell("work", what, op.Pos, told{"do", op.Do}, told{"on", op.On}, told{"makes", makes},
		told{"apart", op.Apart}, told{"back", op.Back}, told{"cutter", op.Cutter}, told{"leave", op.Leave},
		told{"centre", op.Centre}, told{"datum", one(op.Datum != nil)}, told{"hold", one(op.Holding != nil)},
		told{"say", op.Say})
	m.machineAt("on", op.On)
	m.machineAt("apart", op.Apart)
	m.machineAt("back", op.Back)
	m.cutterAt(op.On, op.Cutter)
	switch {
	case op.Makes && c.job.Part == nil:
		c.fault(op.Pos, "%s makes the part, but there is none; describe it under part:", what)
	case op.Apart == "":
	case op.Apart == op.On:
		c.fault(op.Pos, "%s takes the %s apart and works on it; make two operations of it", what, op.On)
	case op.Apart == op.Back:
		c.fault(op.Pos, "%s takes the %s apart and puts it back; make two operations of it", what, op.Back)
	}
	c.datum(op.Datum, m.about("datum"))
	c.holding(op.Holding, m.about("hold"))
}

// across is the edge across from each.
var across = map[trade.Side]trade.Side{
	trade.LeftSide: trade.RightSide, trade.RightSide: trade.LeftSide, trade.FrontSide: trade.BackSide,
	trade.BackSide: trade.FrontSide,
}

// datum checks where coordinates are counted from.
func (c *check) datum(d *trade.Datum, what string) {
	if d == nil {
		return
	}
	m := c.tell("work.datum", what, d.Pos, told{"at", d.At}, told{"edge-finder", d.Finder},
		told{"sides", several(len(d.Sides))}, told{"turned", d.Turned})
	for i, side := range d.Sides {
		before := d.Sides[:i]
		switch {
		case !slices.Contains(trade.Sides, side):
			m.unknown(string(side), m.about("sides"), "side", d.Pos, words(trade.Sides))
		case slices.Contains(before, side), slices.Contains(before, across[side]):
			m.wrong("sides", ": one edge along x and one along y; %s is one too many", quote(string(side)))
		}
	}
}

// holding checks how the work is held.
func (c *check) holding(h *trade.Holding, what string) {
	if h == nil {
		return
	}
	m := c.tell("work.hold", what, h.Pos, told{"contacts", several(len(h.Contacts))}, told{"force", h.Force},
		told{"at", h.At}, told{"towards", h.Towards}, told{"friction", h.Friction})
	ids := among{}
	for _, t := range h.Contacts {
		ids.claim(c, t.ID, aContact, t.Pos)
		c.tell("work.hold.contacts", describe(string(aContact), t.ID)+" of "+m.what, t.Pos,
			told{"kind", string(t.Kind)}, told{"at", t.At}, told{"towards", t.Towards}, told{"width", t.Width},
			told{"clamping", t.Clamping}, told{"bolt", t.Bolt}, told{"heel", t.Heel}).
			rising("bolt", t.Bolt, "heel", t.Heel)
	}
}

// needs faults what operations need and is none of them, and those that need each
// other in a circle.
func (c *check) needs() {
	var ids []string
	for i := range c.job.Work {
		ids = append(ids, c.job.Work[i].ID)
	}
	known := true
	for i := range c.job.Work {
		op := &c.job.Work[i]
		about := "needs in " + called(anOperation, op.ID, i)
		for k, id := range op.Needs {
			switch {
			case slices.Contains(op.Needs[:k], id):
				c.fault(op.Pos, "%s: %s is written twice", about, quote(id))
			case !slices.Contains(ids, id):
				known = false
				c.unknown(id, about, string(anOperation), op.Pos, ids)
			}
		}
	}
	if circle := c.circle(); known && circle != nil {
		i := slices.Index(ids, circle[0])
		c.fault(c.job.Work[i].Pos, "needs in %s: %s: none of them can come first", called(anOperation, circle[0], i),
			strings.Join(circle, " needs "))
	}
}

// circle returns operations each of which needs the next, the last being the first
// again; nil where there is no such circle.
func (c *check) circle() []string {
	needs := map[string][]string{}
	for i := range c.job.Work {
		needs[c.job.Work[i].ID] = c.job.Work[i].Needs
	}
	settled := map[string]bool{}
	var way []string
	var follow func(id string) []string
	follow = func(id string) []string {
		if at := slices.Index(way, id); at >= 0 {
			return append(slices.Clone(way[at:]), id)
		}
		if settled[id] {
			return nil
		}
		settled[id] = true
		way = append(way, id)
		for _, next := range needs[id] {
			if circle := follow(next); circle != nil {
				return circle
			}
		}
		way = way[:len(way)-1]
		return nil
	}
	for i := range c.job.Work {
		if circle := follow(c.job.Work[i].ID); circle != nil {
			return circle
		}
	}
	return nil
}

// takenApart faults a machine that is put back more often than it is taken apart, or
// taken apart again without. Whether it is there when it is wanted is for the order
// of work to say.
func (c *check) takenApart(machine string) {
	apart, back := 0, 0
	var lastApart, lastBack trade.Pos
	for i := range c.job.Work {
		op := &c.job.Work[i]
		if op.Apart == machine {
			apart, lastApart = apart+1, op.Pos
		}
		if op.Back == machine {
			back, lastBack = back+1, op.Pos
		}
	}
	switch {
	case back > apart:
		c.fault(lastBack, "the %s is put back, but it is not taken apart before (apart %d times, back %d)", machine,
			apart, back)
	case apart > back+1:
		c.fault(lastApart, "the %s is taken apart again, but it is not put back before (apart %d times, back %d)",
			machine, apart, back)
	}
}
