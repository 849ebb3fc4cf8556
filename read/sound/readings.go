package sound

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// reading is a reading as far as it has been checked.
type reading struct {
	*trade.Reading
	what   string
	method *gauge.Method
	reads  unit.Dimension // of what was seen
	known  bool           // whether reads is known
	scope  scope          // what it may speak of
}

// allReadings checks what the instruments showed.
func (c *check) allReadings() {
	ids := among{}
	for i := range c.job.Readings {
		r := &c.job.Readings[i]
		ids.claim(c, r.ID, aReading, r.Pos)
		c.reading(&reading{Reading: r, what: describe("reading", r.ID), scope: ofTheJob}, "readings")
	}
	c.readings = ids
}

// reading checks all that a reading is, but for its id.
func (c *check) reading(x *reading, section string, more ...told) {
	method, found := gauge.Find(x.By)
	if !found {
		c.unknown(x.By, x.what, "method", x.Pos, methodIDs())
		return
	}
	x.method, x.reads, x.known = method, method.Reads, true
	if method.ID == trade.FormulaMethod {
		c.readFormula(x)
	}
	seated := ""
	if x.SeatedOnce {
		seated = "once"
	}
	m := c.tellIn(section, x.reads, x.what, x.Pos, append(more, told{"by", x.By}, told{"of", several(len(x.Of))},
		told{"that", x.That.Text}, told{"with", x.With}, told{"saw", several(len(x.Saw))}, told{"goes", x.Goes},
		told{"stops", x.Stops}, told{"at", x.At}, told{"feel", x.Feel}, told{"seated", seated}, told{"why", x.Why},
		told{"say", x.Say})...)
	if method.ID != trade.FormulaMethod {
		c.roles(x)
	}
	c.seen(m, x)
	c.bounds(m, x)
}

func methodIDs() []string {
	var ids []string
	for _, m := range gauge.Methods() {
		ids = append(ids, m.ID)
	}
	return ids
}

// readFormula checks the expression of a reading and finds what it measures.
func (c *check) readFormula(x *reading) {
	x.known = false
	if !x.That.Given() {
		return
	}
	about := "that in " + x.what
	e := c.formula(&x.That, about, x.scope, expr.Parse)
	if e == nil {
		return
	}
	x.reads, x.known = measured(e.Dimension())
	switch {
	case !x.known:
		c.fault(x.Pos, "%s is %s; an instrument shows a length, an angle or a plain number", about, e.Dimension())
	case !c.namesSize(e) && !speaksOfPart(e):
		c.fault(x.Pos, "%s names no size, so the reading tells nothing", about)
	}
}

// seen checks the instrument and the values that it showed.
func (c *check) seen(m *mapping, x *reading) {
	if o, there := c.owners[x.With]; there && o.thing == anInstrument && x.known && x.reads != unit.Number {
		if shows := gauge.InstrumentReads(&c.job.Instruments[o.index]); shows != x.reads {
			c.fault(x.Pos, "%s: the instrument %s shows %s, this reading is %s", x.what, quote(x.With),
				dimensionNames[shows], dimensionNames[x.reads])
		}
	}
	if len(x.Saw) > keys.MostValues {
		m.wrong("saw", " has %d values; it has at most %d", len(x.Saw), keys.MostValues)
		return
	}
	if x.method.Pairs && len(x.Saw) == 0 {
		m.need("saw")
	}
	for _, v := range x.Saw {
		c.value(m, x, v)
	}
}

// value checks one value, or a pair.
func (c *check) value(m *mapping, x *reading, v trade.Seen) {
	if x.method.Pairs {
		m.lengths("saw", v.X, v.Y)
		return
	}
	switch {
	case !x.known:
	case v.Y.Given():
		m.wrong("saw", " is a pair; only a touch shows one")
	case !m.measures(m.about("saw"), m.pos, v.X, x.reads):
	case !x.method.Signed && v.X.Sign() <= 0:
		m.wrong("saw", " is %s; it must be more than 0", v.X)
	}
}

// bounds checks a gauge that enters and the next that does not.
func (c *check) bounds(m *mapping, x *reading) {
	if !x.Goes.Given() && !x.Stops.Given() {
		return
	}
	m.need("goes", "stops")
	if x.method.Pairs || x.known && x.reads != unit.Length {
		c.fault(x.Pos, "%s: only a length is found by what goes and what stops", x.what)
		return
	}
	goes, stops := c.boundValue(x.Goes), c.boundValue(x.Stops)
	if !goes.Given() || !stops.Given() || goes.Dimension() != unit.Length || stops.Dimension() != unit.Length {
		return // a fault of its own
	}
	surface, larger := c.triedSurface(x), goes.Inside() > stops.Inside()
	switch {
	case goes.Equal(stops):
		c.fault(x.Pos, `%s: "goes" and "stops" are equal`, x.what)
	case surface == trade.Inside && larger:
		c.fault(x.Pos, `%s: the wrong way round: what goes into an inside size is smaller than what stops`, x.what)
	case surface == trade.Outside && !larger:
		c.fault(x.Pos, `%s: the wrong way round: what goes over an outside size is larger than what stops`, x.what)
	}
}

// boundValue returns the length of a bound, not given where that is wrong.
func (c *check) boundValue(b trade.Bound) unit.Quantity {
	if b.ID == "" {
		return b.Value
	}
	if o := c.owners[b.ID]; o.thing == aPiece {
		return c.job.Pieces[o.index].Size
	}
	return unit.Quantity{}
}

// triedSurface returns the surface that is tried: that which the jaws of the method
// meet, else that of the only size in the reading, where it is known.
func (c *check) triedSurface(x *reading) trade.Surface {
	switch x.method.Jaw {
	case gauge.Opening:
		return trade.Inside
	case gauge.Closing:
		return trade.Outside
	case gauge.Reaching:
		return trade.NoSurface
	}
	ids := []string{x.That.Text}
	for _, arg := range x.Of {
		ids = append(ids, arg.ID)
	}
	ids = slices.DeleteFunc(ids, func(id string) bool { return c.owners[id].thing != aSize })
	if len(ids) != 1 {
		return trade.NoSurface
	}
	return c.job.Sizes[c.owners[ids[0]].index].Surface
}

// checks checks the readings of the finished part, and those of the old one.
func (c *check) checks() {
	ids := among(c.readings)
	for i := range c.job.Checks {
		k := &c.job.Checks[i]
		x := &reading{Reading: &k.Reading, what: describe("check", k.ID), scope: asMade}
		on := "new"
		if k.Old {
			x.scope, on = ofTheJob, "old"
		}
		ids.claim(c, k.ID, aReading, k.Pos)
		piece := k.Piece
		if k.Old && piece == 1 {
			piece = 0
		}
		c.reading(x, "checks", told{"on", on}, told{"piece", piece}, told{"at-temp", k.AtTemp},
			told{"with-temp", k.WithTemp}, told{"in-machine", k.InMachine})
		c.ofThePart(k, x)
	}
}

// ofThePart faults a check of the new part that names nothing of it, one of what
// only the old part has, and one of a piece that is not made.
func (c *check) ofThePart(k *trade.Check, x *reading) {
	part := c.job.Part
	switch {
	case k.Piece < 1 || part != nil && k.Piece > max(1, part.Quantity):
		c.fault(k.Pos, "%s: it is of piece %d; they are counted from 1 to as many as are made", x.what, k.Piece)
	case k.Old:
	case part == nil:
		c.fault(k.Pos,
			`%s is of the part, but there is none; describe it under part:, or write on: old if it is of the old one`,
			x.what)
	case x.method == nil || !x.known:
		return // a fault of its own
	case x.takesOld():
		c.fault(k.Pos,
			"%s: plans and places are those of the old part; "+
				"a hole of a plan that the part has too is written part.ID, as is a size", x.what)
	case !x.namesMade():
		c.fault(k.Pos, "%s names no size of the part, part.ID; write on: old if it is of the old one", x.what)
	}
}

// takesOld reports whether a reading takes a place or a hole of the old part.
func (x *reading) takesOld() bool {
	return slices.ContainsFunc(x.method.Roles,
		func(role gauge.Role) bool { return role.Kind == gauge.PlaceTouched }) ||
		slices.ContainsFunc(x.Of, func(arg trade.Arg) bool {
			return (arg.Role == keys.FromHole || arg.Role == keys.ToHole) && !isOfPart(arg.ID)
		})
}

// namesMade reports whether a reading names a size of the part.
func (x *reading) namesMade() bool {
	return strings.Contains(x.That.Text, keys.PartPrefix) || slices.ContainsFunc(x.Of,
		func(arg trade.Arg) bool { return isOfPart(arg.ID) })
}

// isOfPart reports whether an id is that of something of the part.
func isOfPart(id string) bool { return strings.HasPrefix(id, keys.PartPrefix) }
