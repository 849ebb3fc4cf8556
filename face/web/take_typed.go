package web

import (
	"net/url"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// taking is a reading as it is being typed.
//
// Its fields go by the keys of the job file: `of.ROLE` is what stands in a role,
// `with` the instrument, `saw` what it showed. What is new is described beside
// it: `of.ROLE.name`, `with.resolution`.
type taking struct {
	Method *gauge.Method
	From   int // the revision that the form was made from
	Values url.Values
	Shop   []record.Tool     // the shop's kit
	Wrong  map[string]string // what is wrong with a field, by its name
	Faults []string          // what is wrong with the whole
	Check  *outlook          // what would come of it
}

// The choices in a role and of an instrument that are no ids: an id has none of
// these signs.
const (
	newSize   = "+size"
	newPiece  = "+piece"
	newCircle = "+circle"
	newLine   = "+line"
	newTool   = "+tool"
	plain     = "=plain" // a plain value
	twoHoles  = "=holes" // a distance between two holes
	goNoGo    = "=gonogo"
	ofShop    = "shop:" // before the id of a tool
)

// Get returns a field without the blanks round it.
func (t *taking) Get(name string) string { return strings.TrimSpace(t.Values.Get(name)) }

// Title names the method in words.
func (t *taking) Title() string { return methodName(t.Method) }

func methodName(m *gauge.Method) string {
	words := strings.ReplaceAll(m.ID, "-", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}

func (t *taking) isTouch() bool { return t.Method.Pairs }

func (t *taking) isFormula() bool { return t.Method.ID == trade.FormulaMethod }

// seen are the values typed, of a touch the x of each.
func (t *taking) seen() []string {
	var list []string
	for _, value := range t.Values["saw"] {
		if value = strings.TrimSpace(value); value != "" {
			list = append(list, value)
		}
	}
	return list
}

// value returns a length typed in a field, with the unit that was chosen for
// all that is typed without one.
func (t *taking) value(text string, in unit.Unit) string {
	chosen := t.Get("unit")
	last := text[max(0, len(text)-1):]
	if chosen == "" || chosen == in.String() || !strings.ContainsAny(last, "0123456789.") {
		return text
	}
	return text + " " + chosen
}

// parse reads a text as a value of a dimension.
func parse(text string, d unit.Dimension, in unit.Unit) (unit.Quantity, error) {
	switch d {
	case unit.Angle:
		return unit.ParseAngle(text)
	case unit.Number:
		return unit.ParseNumber(text)
	}
	return unit.ParseLength(text, in)
}

// likeReading returns the fields of a form for a reading: its set-up, without
// what it showed.
func likeReading(r *trade.Reading) url.Values {
	values := url.Values{}
	set := func(key, value string) {
		if value != "" {
			values.Set(key, value)
		}
	}
	m, _ := gauge.Find(r.By)
	for _, arg := range r.Of {
		likeArg(m, arg, set)
	}
	set("that", r.That.Text)
	set("with", r.With)
	set("feel", r.Feel.String())
	set("at", r.At.String())
	set("say", r.Say)
	if r.SeatedOnce {
		set("seated", "once")
	}
	if r.GoNoGo() {
		set("with", goNoGo)
		set("goes", bound(r.Goes))
		set("stops", bound(r.Stops))
	}
	return values
}

// likeArg sets the fields of one role.
func likeArg(m *gauge.Method, arg trade.Arg, set func(key, value string)) {
	field := "of." + arg.Role
	switch {
	case m.Role(arg.Role) < 0: // one of two holes
		set("of."+m.HolesFor, twoHoles)
		set("of."+m.HolesFor+"."+arg.Role, arg.ID)
	case arg.ID != "":
		set(field, arg.ID)
	default:
		set(field, plain)
		set(field+".value", arg.Value.String())
	}
}

func bound(b trade.Bound) string {
	if b.ID != "" {
		return b.ID
	}
	return b.Value.String()
}

// sawOf returns the values of a reading as fields: those of a touch in two.
func sawOf(r *trade.Reading) (x, y []string) {
	for _, s := range r.Saw {
		x = append(x, s.X.String())
		if s.Y.Given() {
			y = append(y, s.Y.String())
		}
	}
	return x, y
}

// preset fills what is most likely in what nothing was said of.
func (t *taking) preset(job *trade.Job) {
	if t.Get("with") == "" {
		t.Values.Set("with", t.usualInstrument(job))
	}
	for _, role := range t.Method.Roles {
		if key := "of." + role.Name; t.Get(key) == "" && !role.Optional {
			t.Values.Set(key, t.usual(job, role))
		}
	}
}

// usualInstrument is the one used last by the same method, or by one that meets
// the work the same way; where there is but one, that.
func (t *taking) usualInstrument(job *trade.Job) string {
	for _, alike := range []func(m *gauge.Method) bool{
		func(m *gauge.Method) bool { return m == t.Method },
		func(m *gauge.Method) bool { return m.Jaw == t.Method.Jaw },
	} {
		for _, r := range slices.Backward(job.Readings) {
			m, _ := gauge.Find(r.By)
			if i := job.Instrument(r.With); i != nil && t.canShow(i) && m != nil && alike(m) {
				return i.ID
			}
		}
	}
	switch ofJob, ofShop := t.instruments(job); {
	case len(ofJob) == 1 && len(ofShop) == 0:
		return ofJob[0].id
	case len(ofJob)+len(ofShop) > 0:
		return ""
	}
	return newTool
}

func (t *taking) canShow(i *trade.Instrument) bool {
	return t.isFormula() || gauge.InstrumentReads(i) == t.Method.Reads
}

// usual is what is put in a role at first: the only one that it can be, or what
// is to be described where there is none.
func (t *taking) usual(job *trade.Job, role gauge.Role) string {
	choices := t.choices(job, role)
	switch {
	case role.Kind == gauge.Side:
		return plain
	case role.Kind == gauge.PlaceTouched && len(job.Places) == 0:
		return newCircle
	case role.Piece && len(choices.pieces) == 1 && len(choices.ofShop) == 0:
		return choices.pieces[0].id
	case role.Piece && len(choices.pieces)+len(choices.ofShop) == 0:
		return newPiece
	case !role.Piece && role.Kind != gauge.Count && len(choices.sizes) == 0:
		return newSize
	}
	return ""
}

// choice is something that can stand in a role, as it is chosen and shown.
type choice struct{ id, words string }

// choices are what a role can be filled with.
type choices struct{ sizes, pieces, ofShop []choice }

// choices lists what can stand in a role.
func (t *taking) choices(job *trade.Job, role gauge.Role) choices {
	var c choices
	for _, size := range job.Sizes {
		if size.Kind.Dimension() == role.Kind.Dimension() {
			c.sizes = append(c.sizes, choice{size.ID, withSay(size.ID, size.Say)})
		}
	}
	if role.Kind.Dimension() != unit.Length {
		return c
	}
	for _, piece := range job.Pieces {
		c.pieces = append(c.pieces, choice{piece.ID, withSay(piece.ID, string(piece.Kind)+" "+piece.Size.String())})
	}
	for _, tool := range t.Shop {
		if tool.Class == record.Piece && job.Piece(tool.ID) == nil {
			c.ofShop = append(c.ofShop, choice{ofShop + tool.ID, withSay(tool.ID, tool.Kind+" "+tool.Size.Text)})
		}
	}
	return c
}

func withSay(id, say string) string {
	if say == "" {
		return id
	}
	return id + ": " + say
}

// instruments are those that can show the reading, of the job and of the shop.
func (t *taking) instruments(job *trade.Job) (ofJob, shop []choice) {
	for i := range job.Instruments {
		if known := &job.Instruments[i]; t.canShow(known) {
			ofJob = append(ofJob, choice{known.ID, withSay(known.ID, instrumentWords(string(known.Kind), known.Resolution.String(), known.Say))})
		}
	}
	for _, tool := range t.Shop {
		if tool.Class == record.Instrument && job.Instrument(tool.ID) == nil {
			shop = append(shop, choice{ofShop + tool.ID, withSay(tool.ID, instrumentWords(tool.Kind, "", tool.Say))})
		}
	}
	return ofJob, shop
}

func instrumentWords(kind, resolution, say string) string {
	words := strings.ReplaceAll(kind, "-", " ")
	if resolution != "" {
		words += ", reads to " + resolution
	}
	if say != "" {
		words += ", " + say
	}
	return words
}
