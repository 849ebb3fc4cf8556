package web

import (
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// entering makes the entries of a job's text out of a reading as it was typed:
// new sizes, gauge pieces, instruments, places and holes, and the reading last.
// What is wrong with a field is noted in Wrong.
type entering struct {
	*taking
	source  []byte
	job     *trade.Job
	items   []record.Item
	named   map[string]bool // what the form gives names to
	touches []string        // x and y of the touches after the first
}

func (e *entering) wrong(field, words string) {
	if e.Wrong[field] == "" {
		e.Wrong[field] = words
	}
}

func (e *entering) add(section, id string, fields ...record.Field) {
	e.items = append(e.items, record.Item{Section: section, ID: id, Fields: fields})
}

// reading makes all entries and returns the id of the reading.
func (e *entering) reading() string {
	id := e.Get("changes")
	if id == "" {
		id = jobedit.NextID(e.source, "readings", "r")
	}
	fields := []record.Field{{Key: "by", Text: e.Method.ID}}
	if e.isFormula() {
		fields = append(fields, record.Field{Key: "that", Text: e.needed("that", "Write the formula")})
	} else {
		fields = append(fields, record.Field{Key: "of", Map: e.roles()})
	}
	fields = append(fields, e.shows()...)
	fields = append(fields,
		record.Field{Key: "at", Text: e.measure("at", unit.Length)}, record.Field{Key: "feel", Text: e.measure("feel", e.shown())},
		record.Field{Key: "seated", Text: e.Get("seated")}, record.Field{Key: "say", Text: e.Get("say")})
	e.add("readings", id, e.stated(fields)...)
	return id
}

// stated leaves out what is empty of a new reading. Of one that is changed an
// empty field takes out what stood there.
func (e *entering) stated(fields []record.Field) []record.Field {
	if e.Get("changes") != "" {
		return fields
	}
	return slices.DeleteFunc(fields, func(f record.Field) bool { return f.Text == "" && f.List == nil && f.Map == nil })
}

// needed returns a field that cannot be empty.
func (e *entering) needed(field, otherwise string) string {
	text := e.Get(field)
	if text == "" {
		e.wrong(field, otherwise)
	}
	return text
}

// measure returns a value as it was typed, with the unit chosen; empty where
// none was.
func (e *entering) measure(field string, d unit.Dimension) string {
	text := e.Get(field)
	if text == "" {
		return ""
	}
	return e.read(field, text, d)
}

// read returns one value as it was typed, having tried to read it.
func (e *entering) read(field, text string, d unit.Dimension) string {
	if d == unit.Length {
		text = e.value(text, e.job.Units)
	}
	if _, err := parse(text, d, e.job.Units); err != nil {
		e.wrong(field, err.Error())
	}
	return text
}

// shows are the instrument and what it showed, or what goes and what stops.
func (e *entering) shows() []record.Field {
	if e.Get("with") == goNoGo {
		return []record.Field{{Key: "with"}, {Key: "saw"}, {Key: "goes", Text: e.bound("goes")}, {Key: "stops", Text: e.bound("stops")}}
	}
	fields := []record.Field{{Key: "goes"}, {Key: "stops"}, {Key: "with", Text: e.instrument()}}
	if e.isTouch() {
		return append(fields, record.Field{Key: "saw", List: e.pairs()})
	}
	var list []string
	for _, text := range e.seen() {
		list = append(list, e.read("saw", text, e.shown()))
	}
	if len(list) == 1 {
		return append(fields, record.Field{Key: "saw", Text: list[0]})
	}
	return append(fields, record.Field{Key: "saw", List: list})
}

// shown is what the reading measures. That of a formula is the instrument's.
func (e *entering) shown() unit.Dimension {
	if i := e.job.Instrument(e.Get("with")); e.isFormula() && i != nil {
		return gauge.InstrumentReads(i)
	}
	return e.Method.Reads
}

// pairs returns the first touch, and keeps the others.
func (e *entering) pairs() []string {
	var all []string
	y := e.Values["saw.y"]
	for i, x := range e.Values["saw"] {
		x = strings.TrimSpace(x)
		other := ""
		if i < len(y) {
			other = strings.TrimSpace(y[i])
		}
		switch {
		case x == "" && other == "":
		case x == "" || other == "":
			e.wrong("saw", "Each touch has an x and a y")
		default:
			all = append(all, e.read("saw", x, unit.Length), e.read("saw", other, unit.Length))
		}
	}
	if len(all) > 2 {
		e.touches = all[2:]
		return all[:2]
	}
	return all
}

// bound returns a gauge that goes or stops: a piece of the kit, or a length.
func (e *entering) bound(field string) string {
	text := e.needed(field, "Name the gauge piece, or type its size")
	if text == "" || e.job.Piece(text) != nil {
		return text
	}
	return e.read(field, text, unit.Length)
}

// instrument returns the id of the instrument.
func (e *entering) instrument() string {
	switch with := e.Get("with"); {
	case with == "":
		e.wrong("with", "Choose the instrument")
		return ""
	case with == newTool:
		return e.newInstrument()
	case strings.HasPrefix(with, ofShop):
		return e.fromShop("with", strings.TrimPrefix(with, ofShop))
	default:
		return with
	}
}

func (e *entering) newInstrument() string {
	d := unit.Length
	kind := e.Get("with.kind")
	if entry, _ := gauge.InstrumentOf(trade.InstrumentKind(kind)); entry.Angles {
		d = unit.Angle
	}
	id := e.newName("with.name", kind)
	fields := []record.Field{{Key: "kind", Text: kind}}
	for _, key := range []string{"resolution", "mpe"} {
		if text := e.measure("with."+key, d); text != "" {
			fields = append(fields, record.Field{Key: key, Text: text})
		}
	}
	e.add("kit", id, fields...)
	return id
}

// fromShop copies a tool of the shop into the job.
func (e *entering) fromShop(field, id string) string {
	i := slices.IndexFunc(e.Shop, func(t record.Tool) bool { return t.ID == id })
	if i < 0 {
		e.wrong(field, "The shop's kit has no "+id+" any more: choose another")
		return ""
	}
	tool := e.Shop[i]
	if e.job.Instrument(id) != nil || e.job.Piece(id) != nil || e.named[ofShop+id] {
		return id
	}
	e.named[ofShop+id] = true
	into := jobedit.NextID(e.source, "kit", id)
	e.add("kit", into, toolFields(tool)...)
	return into
}

// toolFields are the keys of a tool in a job.
func toolFields(t record.Tool) []record.Field {
	list := []record.Field{{Key: "kind", Text: t.Kind}}
	add := func(key, text string) {
		if text = strings.TrimSpace(text); text != "" {
			list = append(list, record.Field{Key: key, Text: text})
		}
	}
	add("size", t.Size.Text)
	add("tolerance", t.Tolerance)
	for _, pair := range strings.Split(t.Written, ",") {
		if key, text, found := strings.Cut(pair, ":"); found {
			add(strings.TrimSpace(key), text)
		}
	}
	add("say", t.Say)
	return list
}

// newName returns the name typed for something new, blanks in it as _, or one
// made of a stem where none was.
func (e *entering) newName(field, stem string) string {
	text := strings.NewReplacer(" ", "_", "-", "_").Replace(e.Get(field))
	if text == "" {
		text = jobedit.NextID(e.source, "kit", strings.ReplaceAll(stem, "-", "_"))
		for n := 2; e.named[text]; n++ {
			text = stem + strconv.Itoa(n)
		}
	}
	switch {
	case !keys.IsID(text):
		e.wrong(field, "A name has letters a to z, figures and _, and begins with a letter")
	case e.job.Size(text) != nil, e.job.Piece(text) != nil, e.job.Instrument(text) != nil, e.job.Place(text) != nil, e.named[text]:
		e.wrong(field, text+" is there already: choose it from the list, or type another name")
	}
	e.named[text] = true
	return text
}
