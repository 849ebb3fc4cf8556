package jobfile

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// shopReader reads the machines of the shop.
type shopReader struct{ *values }

// readShop reads the machines that the shop has, which have their ids among
// themselves.
func (r shopReader) readShop(f fields) {
	for _, entry := range f.entries("shop") {
		r.checkID(entry.Key, aMachine)
		m := f.item("shop", entry.Value, describe(string(aMachine), entry.Key))
		machine := trade.Machinery{
			ID:      entry.Key.Text,
			Kind:    trade.MachineKind(m.text("kind")),
			Speeds:  m.speeds(),
			Dials:   r.dials(m),
			Travels: r.travels(m),
			Readout: m.yes("readout"),
			Table:   rotaryTable(m),
			Cutters: r.cutters(m),
			SawKerf: m.quantity("saw-kerf"),
			Say:     m.text("say"),
			Pos:     entry.Key.Pos,
		}
		r.readThreading(m, &machine)
		r.job.Shop = append(r.job.Shop, machine)
	}
}

// readThreading reads what a lathe cuts threads with.
func (r shopReader) readThreading(m fields, machine *trade.Machinery) {
	machine.Leadscrew = m.quantity("leadscrew")
	machine.FixedRatio = got[trade.Ratio](m, "fixed-ratio")
	for _, n := range m.list("gearbox") {
		ratio, _ := r.ratio(n, m.about("gearbox")).(trade.Ratio)
		machine.Gearbox = append(machine.Gearbox, ratio)
	}
	machine.Gears = m.counts("gears")
	machine.Clearance = m.number("gear-clearance")
}

// speeds returns the speeds of a spindle, rising, in whatever order they are
// written.
func (f fields) speeds() []float64 {
	var speeds []float64
	for _, n := range f.list("speeds") {
		speed := f.r.quantity(n, f.about("speeds"), unit.ParseNumber, positive)
		if speed.Given() {
			speeds = append(speeds, speed.Inside())
		}
	}
	slices.Sort(speeds)
	return slices.Compact(speeds)
}

// counts returns the whole numbers of the list under the key.
func (f fields) counts(key string) []int {
	holds, items := f.holds(key), f.list(key)
	if len(items) > holds.Most {
		f.r.fault(items[holds.Most], "%s: there are %d of them; at most %d are read", f.about(key), len(items), holds.Most)
		return nil
	}
	var counts []int
	for _, n := range items {
		counts = append(counts, f.r.whole(n, f.about(key), holds.Item.Least, holds.Item.Most))
	}
	return counts
}

func (r shopReader) dials(m fields) []trade.DialScale {
	var dials []trade.DialScale
	for _, entry := range m.entries("dials") {
		d := m.item("dials", entry.Value, describe("dial", entry.Key)+" of "+m.what)
		dial := trade.DialScale{
			Slide:    r.text(entry.Key, m.about("dials")),
			Division: d.quantity("division"),
			Turn:     d.quantity("turn"),
			Reads:    trade.DialReads(d.text("reads")),
			Pos:      entry.Key.Pos,
		}
		d.rising(dial.Division, dial.Turn, "division", "turn")
		dials = append(dials, dial)
	}
	return dials
}

func (r shopReader) travels(m fields) []trade.Travel {
	var travels []trade.Travel
	for _, entry := range m.entries("travels") {
		travels = append(travels, trade.Travel{
			Slide:  r.text(entry.Key, m.about("travels")),
			Length: r.quantity(entry.Value, describe("travel", entry.Key)+" of "+m.what, r.length, positive),
		})
	}
	return travels
}

// rotaryTable reads a rotary table or dividing head, nil if there is none.
func rotaryTable(m fields) *trade.RotaryTable {
	if !m.has("rotary-table") {
		return nil
	}
	t := m.inner("rotary-table")
	return &trade.RotaryTable{
		Ratio:     t.whole("ratio"),
		Plates:    t.counts("plates"),
		Divisions: t.whole("divisions"),
		Gears:     t.counts("gears"),
		Pos:       m.at("rotary-table").Pos,
	}
}

// cutters reads the cutters of a machine, which have their ids among themselves.
func (r shopReader) cutters(m fields) []trade.Cutter {
	var cutters []trade.Cutter
	for _, entry := range m.entries("cutters") {
		r.checkID(entry.Key, aCutter)
		c := m.item("cutters", entry.Value, describe(string(aCutter), entry.Key)+" of "+m.what)
		cutters = append(cutters, trade.Cutter{
			ID:       entry.Key.Text,
			Kind:     trade.CutterKind(c.text("kind")),
			Diameter: c.quantity("diameter"),
			Teeth:    c.whole("teeth"),
			Material: trade.ToolMaterial(c.text("material")),
			Pos:      entry.Key.Pos,
		})
	}
	return cutters
}
