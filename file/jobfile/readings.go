package jobfile

import (
	"strconv"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// readingReader reads readings, which need not have been taken where they are planned.
type readingReader struct {
	*values
	planned bool
}

// readReadings reads the list of readings.
func (r readingReader) readReadings(f fields) {
	for _, n := range f.list("readings") {
		r.readReading(f, n)
	}
}

// reading is a reading as far as it has been read.
type reading struct {
	fields
	trade.Reading
	method *gauge.Method  // nil where it is not known
	reads  unit.Dimension // of what was seen
	known  bool           // whether reads is known
	scope  scope          // what it may speak of
	check  bool           // it need not have been taken yet
}

func (r readingReader) readReading(file fields, n yamltree.Node) {
	f := file.item("readings", n, itemName("reading", textUnder(n, "id")))
	x := reading{fields: f, scope: ofTheJob}
	r.readWhole(&x)
	r.job.Readings = append(r.job.Readings, x.Reading)
}

// readWhole reads all that a reading is.
func (r readingReader) readWhole(x *reading) {
	x.Pos = x.pos
	x.ID, x.By = x.text("id"), x.text("by")
	if x.ID != "" {
		r.claimReading(x.at("id"))
	}
	r.readMethod(x)
	if x.hasAny([]string{"goes", "stops"}) {
		r.readBounds(x)
	} else {
		r.readSeen(x)
	}
	r.readCircumstances(x)
}

// itemName names an item of a list for faults.
func itemName(what, name string) string {
	if name == "" {
		return "a " + what
	}
	return what + " " + yamltree.Quote(name)
}

// textUnder returns the text under a key of a mapping that has not been
// checked, empty if there is none.
func textUnder(n yamltree.Node, key string) string {
	for _, p := range n.Pairs {
		if p.Key.Text == key {
			return p.Value.Text
		}
	}
	return ""
}

// readMethod finds the method and reads what it is applied to.
func (r readingReader) readMethod(x *reading) {
	if x.By == "" {
		return
	}
	method, found := gauge.Find(x.By)
	if !found {
		r.unknown(x.at("by"), x.what, "method", methodIDs())
		return
	}
	x.method, x.reads, x.known = method, method.Reads, true
	if method.ID == trade.FormulaMethod {
		r.readFormula(x)
		return
	}
	r.readRoles(x)
}

func methodIDs() []string {
	var ids []string
	for _, m := range gauge.Methods() {
		ids = append(ids, m.ID)
	}
	return ids
}

// readSeen reads the instrument and the values it showed.
func (r readingReader) readSeen(x *reading) {
	if !r.planned && !x.check || x.isTouch() {
		x.need("saw")
	}
	if with := x.text("with"); with != "" {
		x.With = with
		r.checkInstrument(x)
	}
	x.holds("saw")
	if x.has("saw") && x.known {
		r.readValues(x)
	}
	if x.has("set-aside") {
		r.setAside(x)
	}
}

// checkInstrument faults an instrument that cannot have shown the reading.
func (r readingReader) checkInstrument(x *reading) {
	o, ok := r.owner(x.at("with"), x.about("with"), anInstrument)
	if !ok || !x.known || x.reads == unit.Number {
		return
	}
	if shows := gauge.InstrumentReads(&r.job.Instruments[o.index]); shows != x.reads {
		r.fault(x.at("with"), "%s: the instrument %s shows %s, this reading is %s",
			x.what, yamltree.Quote(x.With), dimensionNames[shows], dimensionNames[x.reads])
	}
}

// readValues reads one value, or a list of the same.
func (r readingReader) readValues(x *reading) {
	saw := x.at("saw")
	values := saw.Items
	if saw.Shape != yamltree.List || x.isTouch() && saw.IsPair() {
		values = []yamltree.Node{saw}
	}
	if len(values) == 0 || len(values) > keys.MostValues {
		r.fault(saw, "%s has %d values; it has from 1 to %d", x.about("saw"), len(values), keys.MostValues)
		return
	}
	for _, n := range values {
		x.Saw = append(x.Saw, r.readValue(x, n))
	}
}

func (x *reading) isTouch() bool { return x.method != nil && x.method.Pairs }

func (r readingReader) readValue(x *reading, n yamltree.Node) trade.Seen {
	if x.isTouch() {
		pair := r.pair(n, x.about("saw"), r.length, r.length)
		return trade.Seen{X: pair[0], Y: pair[1], Pos: n.Pos}
	}
	return trade.Seen{X: r.quantity(n, x.about("saw"), r.measure(x.reads), x.sign()), Pos: n.Pos}
}

// sign returns what sign the values of the reading may have.
func (x *reading) sign() limit {
	if x.method.Signed {
		return anySign
	}
	return positive
}

// pair reads a list of two values.
func (r *values) pair(n yamltree.Node, about string, first, second quantityReader) (q [2]unit.Quantity) {
	if !n.IsPair() {
		r.fault(n, "%s: found %s where a pair [x, y] should be", about, n.Found())
		return q
	}
	q[0] = r.quantity(n.Items[0], about, first, anySign)
	q[1] = r.quantity(n.Items[1], about, second, anySign)
	return q
}

// setAside marks the values that are left out: all, or some by their index.
func (r readingReader) setAside(x *reading) {
	x.holds("set-aside")
	n := x.at("set-aside")
	indices := []yamltree.Node{n}
	switch {
	case n.Shape == yamltree.List:
		indices = n.Items
	case n.Text == "all":
		for i := range x.Saw {
			x.Saw[i].SetAside = true
		}
		return
	}
	for _, n := range indices {
		index, err := strconv.Atoi(n.Text)
		switch {
		case err != nil || index < 0:
			r.fault(n, "%s: found %s where all, or the index of a value from 0, should be", x.about("set-aside"), n.Found())
		case index >= len(x.Saw) && len(x.Saw) > 0:
			r.fault(n, "%s: there is no value %d; the last is %d", x.about("set-aside"), index, len(x.Saw)-1)
		case len(x.Saw) > 0:
			x.Saw[index].SetAside = true
		}
	}
}

// readCircumstances reads what else is stated of a reading.
func (r readingReader) readCircumstances(x *reading) {
	x.At = x.quantity("at")
	if x.known {
		x.Feel = x.quantityIn("feel", r.measure(x.reads))
	}
	x.SeatedOnce = x.text("seated") != ""
	x.Why = x.text("why")
	x.Say = x.text("say")
}
