package jobfile

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var (
	operationKeys = []string{"id", "do", "on", "makes", "needs", "apart", "back", "cutter", "leave", "centre", "datum", "hold", "say"}
	datumKeys     = []string{"at", "edge-finder", "sides", "turned"}
	holdKeys      = []string{"contacts", "force", "at", "towards", "friction"}
	contactKeys   = []string{"kind", "at", "towards", "width", "clamping", "bolt", "heel"}
)

// mostOperations is how many an order of work may have.
const mostOperations = 60

// mostContacts is how many places of one piece of work may be touched.
const mostContacts = 24

// readWork reads the order of work. Operations have their ids among themselves.
func (r *reader) readWork(f fields) {
	items := f.list("work")
	if len(items) > mostOperations {
		r.fault(items[mostOperations], "work: there are %d operations; at most %d are read", len(items), mostOperations)
		return
	}
	taken := map[string]trade.Pos{}
	var written []fields
	for i, n := range items {
		o, op := r.operation(n, numbered(string(anOperation), i), taken)
		written = append(written, o)
		r.job.Work = append(r.job.Work, op)
	}
	r.checkApart(written)
	r.checkNeeds(written)
}

func (r *reader) operation(n node, id string, taken map[string]trade.Pos) (fields, trade.Operation) {
	what := id
	if written := textUnder(n, "id"); written != "" {
		what = itemName(string(anOperation), written)
	}
	o := r.fields(n, what, operationKeys...)
	o.need("do")
	op := trade.Operation{
		ID:      id,
		Do:      o.text("do"),
		On:      r.machineAt(o, "on"),
		Makes:   o.word("makes", []string{"part"}),
		Needs:   r.needs(o),
		Apart:   r.machineAt(o, "apart"),
		Back:    r.machineAt(o, "back"),
		Leave:   o.quantity("leave", r.length, notNegative),
		Datum:   r.datum(o),
		Holding: r.holding(o),
		Say:     o.text("say"),
		Pos:     n.pos,
	}
	if written := o.text("id"); written != "" {
		op.ID = written
		r.claimAmong(taken, o.at("id"), anOperation)
	}
	if o.has("centre") {
		op.Centre = r.pair(o.at("centre"), o.about("centre"), r.length, r.length)
	}
	op.Cutter = r.cutterAt(o, op.On)
	if op.Makes != "" && r.job.Part == nil {
		r.fault(o.at("makes"), "%s makes the part, but there is none; describe it under part:", o.what)
	}
	return o, op
}

// machineAt returns the id of a machine of the shop under the key, empty if
// there is none.
func (r *reader) machineAt(o fields, key string) string {
	id := o.text(key)
	if id == "" || r.job.Machinery(id) != nil {
		return id
	}
	var ids []string
	for i := range r.job.Shop {
		ids = append(ids, r.job.Shop[i].ID)
	}
	r.unknown(o.at(key), o.about(key), string(aMachine), ids)
	return ""
}

// cutterAt returns the id of a cutter of the machine that the operation is on.
func (r *reader) cutterAt(o fields, machine string) string {
	id := o.text("cutter")
	if id == "" || machine == "" {
		if !o.has("on") {
			o.refuse(`it stands beside "on"`, "cutter")
		}
		return ""
	}
	cutters := r.job.Machinery(machine).Cutters
	var ids []string
	for _, c := range cutters {
		ids = append(ids, c.ID)
	}
	if !slices.Contains(ids, id) {
		r.unknown(o.at("cutter"), o.about("cutter")+" on the "+machine, string(aCutter), ids)
		return ""
	}
	return id
}

// holding reads how the work is held, nil if nothing is said.
func (r *reader) holding(o fields) *trade.Holding {
	if !o.has("hold") {
		return nil
	}
	h := r.fields(o.at("hold"), o.about("hold"), holdKeys...)
	h.need("contacts")
	holding := &trade.Holding{
		Contacts: r.contacts(h),
		Force:    h.quantity("force", unit.ParseForce, positive),
		Towards:  h.quantity("towards", parseDirection, anySign),
		Friction: h.coefficient("friction"),
		Pos:      o.at("hold").pos,
	}
	if h.has("force") {
		h.need("at", "towards")
	} else {
		h.refuse(`it stands beside "force"`, "at", "towards")
	}
	if h.has("at") {
		holding.At = r.pair(h.at("at"), h.about("at"), r.length, r.length)
	}
	return holding
}

// coefficient returns one coefficient of friction, 0 if none is written.
func (f fields) coefficient(key string) float64 {
	q := f.quantity(key, unit.ParseNumber, positive)
	if !q.Given() {
		return 0
	}
	if q.Inside() > mostFriction {
		f.r.fault(f.at(key), "%s is %s; a coefficient of friction is at most %d", f.about(key), quote(f.at(key).text), mostFriction)
		return 0
	}
	return q.Inside()
}

// parseDirection reads an angle that is no taper.
func parseDirection(text string) (unit.Quantity, error) {
	const want = "a direction is an angle from the x axis: 90 deg, or 90"
	q, err := reworded(unit.ParseAngle, text, want)
	if err == nil && q.IsTaper() {
		return unit.Quantity{}, &unit.SyntaxError{Text: text, Column: 1, Want: want}
	}
	return q, err
}

// contacts reads where the work is touched.
func (r *reader) contacts(h fields) []trade.Contact {
	entries := h.entries("contacts")
	switch {
	case h.has("contacts") && h.at("contacts").shape == mapping && len(entries) == 0:
		r.fault(h.at("contacts"), "%s: nothing holds the work; write one contact at least", h.about("contacts"))
	case len(entries) > mostContacts:
		r.fault(entries[mostContacts].key, "%s: there are %d of them; at most %d are read", h.about("contacts"), len(entries), mostContacts)
		return nil
	}
	var contacts []trade.Contact
	for _, entry := range entries {
		contacts = append(contacts, r.contact(entry, h.what))
	}
	return contacts
}

func (r *reader) contact(entry pair, of string) trade.Contact {
	r.checkID(entry.key, aContact)
	c := r.fields(entry.value, describe(string(aContact), entry.key)+" of "+of, contactKeys...)
	c.need("kind", "at")
	contact := trade.Contact{
		ID:       entry.key.text,
		Kind:     trade.ContactKind(c.word("kind", words(trade.ContactKinds))),
		Towards:  c.quantity("towards", parseDirection, anySign),
		Width:    c.quantity("width", r.length, positive),
		Clamping: c.quantity("clamping", unit.ParseForce, positive),
		Bolt:     c.quantity("bolt", r.length, positive),
		Heel:     c.quantity("heel", r.length, positive),
		Pos:      entry.key.pos,
	}
	if c.has("at") {
		contact.At = r.pair(c.at("at"), c.about("at"), r.length, r.length)
	}
	checkContact(c, contact.Kind)
	c.rising(contact.Bolt, contact.Heel, "bolt", "heel")
	return contact
}

// checkContact faults what a kind of contact needs and lacks, or has and cannot
// have.
func checkContact(c fields, kind trade.ContactKind) {
	switch kind {
	case trade.ClampContact:
		c.need("clamping", "bolt", "heel")
		c.refuse("a strap clamp presses down on the work", "towards", "width")
		return
	case trade.JawContact:
		c.need("width")
	case trade.ScrewContact:
		c.need("clamping")
		c.refuse("only a jaw has it", "width")
	case trade.StopContact, trade.WallContact:
		c.refuse("only a jaw has it", "width")
		c.refuse("it stands still and pushes back as much as it must", "clamping")
	}
	c.need("towards")
	c.refuse("only a strap clamp has it", "bolt", "heel")
}
