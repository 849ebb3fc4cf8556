package sound

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// shop checks the machines that the part is made with.
func (c *check) shop() {
	ids := among{}
	for i := range c.job.Shop {
		m := &c.job.Shop[i]
		ids.claim(c, m.ID, aMachine, m.Pos)
		c.machine(m, describe(string(aMachine), m.ID))
	}
}

func (c *check) machine(x *trade.Machinery, what string) {
	m := c.tell("shop", what, x.Pos, told{"kind", string(x.Kind)}, told{"speeds", several(len(x.Speeds))},
		told{"leadscrew", x.Leadscrew}, told{"fixed-ratio", x.FixedRatio}, told{"gearbox", several(len(x.Gearbox))},
		told{"gears", several(len(x.Gears))}, told{"gear-clearance", x.Clearance},
		told{"dials", several(len(x.Dials))}, told{"travels", several(len(x.Travels))},
		told{"rotary-table", one(x.Table != nil)}, told{"cutters", several(len(x.Cutters))},
		told{"saw-kerf", x.SawKerf}, told{"say", x.Say})
	m.speeds(x.Speeds)
	for _, ratio := range x.Gearbox {
		m.ratio("gearbox", ratio)
	}
	m.counts("gears", x.Gears, keys.LeastTeeth, keys.MostTeeth)
	for _, t := range x.Travels {
		m.quantity(keys.Key{Name: "travels", Holds: keys.Holds{Kind: keys.Length, Sign: keys.Positive}}, t.Length)
	}
	for _, d := range x.Dials {
		c.tell("shop.dials", describe("dial", d.Slide)+" of "+what, d.Pos, told{"division", d.Division},
			told{"turn", d.Turn}, told{"reads", string(d.Reads)}).
			rising("division", d.Division, "turn", d.Turn)
	}
	c.table(x.Table, m.about("rotary-table"))
	c.cutters(x, what)
}

// speeds faults speeds of a spindle that are none, or do not rise.
func (m *mapping) speeds(speeds []float64) {
	for i, speed := range speeds {
		switch {
		case !(speed > 0) || math.IsInf(speed, 0):
			m.wrong("speeds", " has %g; a speed is a number above 0", speed)
		case i > 0 && speed <= speeds[i-1]:
			m.wrong("speeds", ": %g after %g; the slowest comes first", speed, speeds[i-1])
		}
	}
}

// counts faults whole numbers that are too small or too large, or too many.
func (m *mapping) counts(key string, list []int, least, most int) {
	if len(list) > keys.MostGears {
		m.wrong(key, ": there are %d of them; at most %d are taken", len(list), keys.MostGears)
		return
	}
	for _, n := range list {
		if n < least || n > most {
			m.wrong(key, " has %d; it is a whole number from %d to %d", n, least, most)
		}
	}
}

// table checks a rotary table or dividing head.
func (c *check) table(t *trade.RotaryTable, what string) {
	if t == nil {
		return
	}
	m := c.tell("shop.rotary-table", what, t.Pos, told{"ratio", t.Ratio}, told{"plates", several(len(t.Plates))},
		told{"divisions", t.Divisions}, told{"gears", several(len(t.Gears))})
	m.counts("plates", t.Plates, 2, keys.MostTeeth)
	m.counts("gears", t.Gears, keys.LeastTeeth, keys.MostTeeth)
}

// cutters checks the cutters of a machine, which have their ids among themselves.
func (c *check) cutters(x *trade.Machinery, of string) {
	ids := among{}
	for _, cutter := range x.Cutters {
		ids.claim(c, cutter.ID, aCutter, cutter.Pos)
		c.tell("shop.cutters", describe(string(aCutter), cutter.ID)+" of "+of, cutter.Pos,
			told{"kind", string(cutter.Kind)}, told{"diameter", cutter.Diameter}, told{"teeth", cutter.Teeth},
			told{"material", string(cutter.Material)})
	}
}

// machineAt faults the id of a machine that the shop does not have.
func (m *mapping) machineAt(key, id string) {
	if id == "" || m.job.Machinery(id) != nil {
		return
	}
	var ids []string
	for i := range m.job.Shop {
		ids = append(ids, m.job.Shop[i].ID)
	}
	m.unknown(id, m.about(key), string(aMachine), m.pos, ids)
}

// cutterAt faults the id of a cutter that the machine does not have.
func (m *mapping) cutterAt(machine, id string) {
	x := m.job.Machinery(machine)
	if id == "" || x == nil || x.Cutter(id) != nil {
		return
	}
	var ids []string
	for _, cutter := range x.Cutters {
		ids = append(ids, cutter.ID)
	}
	slices.Sort(ids)
	m.unknown(id, m.about("cutter")+" on the "+machine, string(aCutter), m.pos, ids)
}
