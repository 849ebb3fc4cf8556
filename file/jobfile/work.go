package jobfile

import (
	"slices"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// workReader reads the order of work.
type workReader struct{ *values }

// readWork reads the order of work. Operations have their ids among themselves.
func (r workReader) readWork(f fields) {
	items := f.list("work")
	if most := f.holds("work").Most; len(items) > most {
		r.fault(items[most], "work: there are %d operations; at most %d are read", len(items), most)
		return
	}
	taken := map[string]trade.Pos{}
	var written []fields
	for i, n := range items {
		o, op := r.operation(f, n, numbered(string(anOperation), i), taken)
		written = append(written, o)
		r.job.Work = append(r.job.Work, op)
	}
	r.checkApart(written)
	r.checkNeeds(written)
}

func (r workReader) operation(f fields, n yamltree.Node, id string, taken map[string]trade.Pos) (fields, trade.Operation) {
	what := id
	if written := textUnder(n, "id"); written != "" {
		what = itemName(string(anOperation), written)
	}
	o := f.item("work", n, what)
	op := trade.Operation{
		ID:      id,
		Do:      o.text("do"),
		On:      r.machineAt(o, "on"),
		Makes:   o.text("makes") != "",
		Needs:   r.needs(o),
		Apart:   r.machineAt(o, "apart"),
		Back:    r.machineAt(o, "back"),
		Leave:   o.quantity("leave"),
		Centre:  o.pair("centre"),
		Datum:   r.datum(o),
		Holding: r.holding(o),
		Say:     o.text("say"),
		Pos:     n.Pos,
	}
	if written := o.text("id"); written != "" {
		op.ID = written
		r.claimAmong(taken, o.at("id"), anOperation)
	}
	op.Cutter = r.cutterAt(o, op.On)
	if op.Makes && r.job.Part == nil {
		r.fault(o.at("makes"), "%s makes the part, but there is none; describe it under part:", o.what)
	}
	return o, op
}

// machineAt returns the id of a machine of the shop under the key, empty if
// there is none.
func (r workReader) machineAt(o fields, key string) string {
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
func (r workReader) cutterAt(o fields, machine string) string {
	id := o.text("cutter")
	if id == "" || machine == "" {
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
func (r workReader) holding(o fields) *trade.Holding {
	if !o.has("hold") {
		return nil
	}
	h := o.inner("hold")
	holding := &trade.Holding{
		Contacts: r.contacts(h),
		Force:    h.quantity("force"),
		At:       h.pair("at"),
		Towards:  h.quantity("towards"),
		Friction: h.number("friction"),
		Pos:      o.at("hold").Pos,
	}
	return holding
}

// contacts reads where the work is touched.
func (r workReader) contacts(h fields) []trade.Contact {
	entries := h.entries("contacts")
	switch {
	case h.has("contacts") && h.at("contacts").Shape == yamltree.Mapping && len(entries) == 0:
		r.fault(h.at("contacts"), "%s: nothing holds the work; write one contact at least", h.about("contacts"))
	case len(entries) > keys.MostContacts:
		r.fault(entries[keys.MostContacts].Key, "%s: there are %d of them; at most %d are read", h.about("contacts"), len(entries), keys.MostContacts)
		return nil
	}
	var contacts []trade.Contact
	for _, entry := range entries {
		contacts = append(contacts, r.contact(h, entry))
	}
	return contacts
}

func (r workReader) contact(h fields, entry yamltree.Pair) trade.Contact {
	r.checkID(entry.Key, aContact)
	c := h.item("contacts", entry.Value, describe(string(aContact), entry.Key)+" of "+h.what)
	contact := trade.Contact{
		ID:       entry.Key.Text,
		Kind:     trade.ContactKind(c.text("kind")),
		At:       c.pair("at"),
		Towards:  c.quantity("towards"),
		Width:    c.quantity("width"),
		Clamping: c.quantity("clamping"),
		Bolt:     c.quantity("bolt"),
		Heel:     c.quantity("heel"),
		Pos:      entry.Key.Pos,
	}
	c.rising(contact.Bolt, contact.Heel, "bolt", "heel")
	return contact
}
