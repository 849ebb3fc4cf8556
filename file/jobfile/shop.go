package jobfile

import (
	"errors"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var (
	machineKeys = []string{
		"kind", "speeds", "leadscrew", "fixed-ratio", "gearbox", "gears", "gear-clearance",
		"dials", "travels", "readout", "rotary-table", "cutters", "saw-kerf", "say",
	}
	threadingKeys = []string{"leadscrew", "fixed-ratio", "gearbox", "gears", "gear-clearance"}
	cutterKinds   = []string{"end-mill", "slot-drill", "face-mill", "slitting-saw", "drill", "reamer", "tap"}
	toolMaterials = []string{"hss", "carbide", "carbon-steel"}
)

// The most that is believed of a machine.
const (
	mostGears     = 60 // change gears, or circles of holes: every train and pair of them is tried
	leastTeeth    = 6
	mostTeeth     = 1000
	mostTableTurn = 1000 // turns of the handle for one of a rotary table
	mostRatio     = 10_000
	mostClearance = 200
)

// readShop reads the machines that the shop has, which have their ids among
// themselves.
func (r *reader) readShop(f fields) {
	for _, entry := range f.entries("shop") {
		r.checkID(entry.key, aMachine)
		m := r.fields(entry.value, describe(string(aMachine), entry.key), machineKeys...)
		m.need("kind")
		machine := trade.Machinery{
			ID:      entry.key.text,
			Kind:    trade.MachineKind(m.word("kind", words(trade.MachineKinds))),
			Speeds:  m.speeds(),
			Dials:   r.dials(m),
			Travels: r.travels(m),
			Readout: m.yes("readout"),
			Table:   r.rotaryTable(m),
			Cutters: r.cutters(m),
			SawKerf: m.quantity("saw-kerf", r.length, positive),
			Say:     m.text("say"),
			Pos:     entry.key.pos,
		}
		if machine.Kind != trade.Lathe && machine.Kind != "" {
			m.refuse("only a lathe cuts threads by change gears", threadingKeys...)
		}
		r.readThreading(m, &machine)
		r.job.Shop = append(r.job.Shop, machine)
	}
}

// readThreading reads what a lathe cuts threads with.
func (r *reader) readThreading(m fields, machine *trade.Machinery) {
	machine.Leadscrew = m.quantity("leadscrew", r.pitch, positive)
	machine.FixedRatio = m.ratio("fixed-ratio")
	for _, n := range m.list("gearbox") {
		machine.Gearbox = append(machine.Gearbox, r.ratio(n, m.about("gearbox")))
	}
	machine.Gears = m.counts("gears", leastTeeth, mostTeeth)
	if c := m.quantity("gear-clearance", unit.ParseNumber, positive); c.Given() {
		machine.Clearance = c.Inside()
		if machine.Clearance > mostClearance {
			r.fault(m.at("gear-clearance"), "%s is %s; it is counted in teeth, at most %d", m.about("gear-clearance"), quote(m.at("gear-clearance").text), mostClearance)
		}
	}
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

// ratio returns the ratio under the key, not given if there is none.
func (f fields) ratio(key string) trade.Ratio {
	if !f.has(key) {
		return trade.Ratio{}
	}
	return f.r.ratio(f.at(key), f.about(key))
}

// ratio reads a ratio of whole numbers.
func (r *reader) ratio(n node, about string) trade.Ratio {
	q := r.quantity(n, about, parseRatio, positive)
	if !q.Given() {
		return trade.Ratio{}
	}
	exact := q.Exact()
	if !exact.Num().IsInt64() || !exact.Denom().IsInt64() || max(exact.Num().Int64(), exact.Denom().Int64()) > mostRatio {
		r.fault(n, "%s is %s; a ratio is of whole numbers up to %d", about, quote(n.text), mostRatio)
		return trade.Ratio{}
	}
	return trade.Ratio{Num: int(exact.Num().Int64()), Den: int(exact.Denom().Int64())}
}

// parseRatio reads a plain number as a ratio.
func parseRatio(text string) (unit.Quantity, error) {
	return reworded(unit.ParseNumber, text, "a ratio is written 1/2, 2 or 1.5")
}

// reworded reads a text, and says of a wrong one what is wanted in these words.
func reworded(read quantityReader, text, want string) (unit.Quantity, error) {
	q, err := read(text)
	var wrong *unit.SyntaxError
	if errors.As(err, &wrong) {
		return q, &unit.SyntaxError{Text: text, Column: wrong.Column, Want: want}
	}
	return q, err
}

// counts returns the whole numbers of the list under the key, each from least to
// most.
func (f fields) counts(key string, least, most int) []int {
	items := f.list(key)
	if len(items) > mostGears {
		f.r.fault(items[mostGears], "%s: there are %d of them; at most %d are read", f.about(key), len(items), mostGears)
		return nil
	}
	var counts []int
	for _, n := range items {
		counts = append(counts, f.r.whole(n, f.about(key), least, most))
	}
	return counts
}

// yes returns whether the key says yes.
func (f fields) yes(key string) bool {
	word := f.word(key, append([]string{"true", "false"}, yesOrNo...))
	return word == yes || word == "true"
}

func (r *reader) dials(m fields) []trade.DialScale {
	var dials []trade.DialScale
	for _, entry := range m.entries("dials") {
		d := r.fields(entry.value, describe("dial", entry.key)+" of "+m.what, "division", "turn", "reads")
		d.need("division")
		dial := trade.DialScale{
			Slide:    r.text(entry.key, m.about("dials")),
			Division: d.quantity("division", r.length, positive),
			Turn:     d.quantity("turn", r.length, positive),
			Reads:    trade.DialReads(d.word("reads", words([]trade.DialReads{trade.ReadsDiameter, trade.ReadsRadius}))),
			Pos:      entry.key.pos,
		}
		d.rising(dial.Division, dial.Turn, "division", "turn")
		dials = append(dials, dial)
	}
	return dials
}

func (r *reader) travels(m fields) []trade.Travel {
	var travels []trade.Travel
	for _, entry := range m.entries("travels") {
		travels = append(travels, trade.Travel{
			Slide:  r.text(entry.key, m.about("travels")),
			Length: r.quantity(entry.value, describe("travel", entry.key)+" of "+m.what, r.length, positive),
		})
	}
	return travels
}

// rotaryTable reads a rotary table or dividing head, nil if there is none.
func (r *reader) rotaryTable(m fields) *trade.RotaryTable {
	if !m.has("rotary-table") {
		return nil
	}
	t := r.fields(m.at("rotary-table"), m.about("rotary-table"), "ratio", "plates", "divisions", "gears")
	t.need("ratio")
	return &trade.RotaryTable{
		Ratio:     t.whole("ratio", 1, mostTableTurn),
		Plates:    t.counts("plates", 2, mostTeeth),
		Divisions: t.whole("divisions", 1, mostTeeth),
		Gears:     t.counts("gears", leastTeeth, mostTeeth),
		Pos:       m.at("rotary-table").pos,
	}
}

// cutters reads the cutters of a machine, which have their ids among themselves.
func (r *reader) cutters(m fields) []trade.Cutter {
	var cutters []trade.Cutter
	for _, entry := range m.entries("cutters") {
		r.checkID(entry.key, aCutter)
		c := r.fields(entry.value, describe(string(aCutter), entry.key)+" of "+m.what, "kind", "diameter", "teeth", "material")
		c.need("kind", "diameter")
		cutters = append(cutters, trade.Cutter{
			ID:       entry.key.text,
			Kind:     c.word("kind", cutterKinds),
			Diameter: c.quantity("diameter", r.length, positive),
			Teeth:    c.whole("teeth", 1, mostTeeth),
			Material: c.word("material", toolMaterials),
			Pos:      entry.key.pos,
		})
	}
	return cutters
}
