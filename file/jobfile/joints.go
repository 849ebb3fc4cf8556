package jobfile

import (
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

var jointKeys = []string{
	"id", "stud", "into", "head", "sheared", "press", "tighten", "service", "spanner", "holds", "fuse", "say",
}

// The words of what can give way beside a sheared piece.
const (
	studFuse = "stud"
	nutFuse  = "nut"
	headFuse = "head"
)

// readJoints reads what is screwed, keyed or sheared together. Joints have
// their ids among themselves.
func (r *reader) readJoints(f fields) {
	taken := map[string]trade.Pos{}
	for i, n := range f.list("joints") {
		r.readJoint(n, numbered(string(aJoint), i), taken)
	}
}

func (r *reader) readJoint(n node, id string, taken map[string]trade.Pos) {
	what := id
	if written := textUnder(n, "id"); written != "" {
		what = itemName(string(aJoint), written)
	}
	j := r.fields(n, what, jointKeys...)
	joint := trade.Joint{
		ID:      id,
		Service: j.quantity("service", unit.ParseForce, positive),
		Spanner: j.quantity("spanner", r.length, positive),
		Holds:   trade.Duty(j.word("holds", words(trade.Duties))),
		Say:     j.text("say"),
		Pos:     n.pos,
	}
	if written := j.text("id"); written != "" {
		joint.ID = written
		r.claimAmong(taken, j.at("id"), aJoint)
	}
	if !j.hasAny([]string{"stud", "sheared", "press"}) && !j.absent() {
		r.faults.add(j.pos, "%s holds nothing together; write its stud, sheared or press", j.what)
	}
	r.readScrewed(j, &joint)
	r.readSheared(j, &joint)
	joint.Press = r.pressFit(j)
	r.readFuse(j, &joint)
	r.job.Joints = append(r.job.Joints, joint)
}

// readScrewed reads a stud and what it is screwed into.
func (r *reader) readScrewed(j fields, joint *trade.Joint) {
	if !j.has("stud") {
		j.refuse(`it stands beside "stud"`, "into", "head", "tighten", "spanner")
		return
	}
	j.need("into")
	joint.Stud, joint.Into = r.member(j, "stud"), r.member(j, "into")
	joint.Head = r.head(j)
	joint.Tighten = r.tighten(j)
}

var memberKeys = []string{"thread", "of", "class", "material", "grade", "length", "around", "outside", "section"}

// member reads one side of a screwed joint: part.ID, or what is known of it.
func (r *reader) member(j fields, key string) trade.Member {
	if !j.has(key) {
		return trade.Member{}
	}
	n := j.at(key)
	if n.shape == scalar {
		return trade.Member{PartSize: r.threadOfPart(n, j.about(key)), Pos: n.pos}
	}
	m := r.fields(n, j.about(key), memberKeys...)
	m.exclusive("material", "grade")
	member := trade.Member{
		Class:    m.text("class"),
		Material: r.material(m, "material"),
		Grade:    m.text("grade"),
		Length:   m.quantity("length", r.length, positive),
		Around:   m.quantity("around", unit.ParseAngle, positive),
		Outside:  m.quantity("outside", r.length, positive),
		Section:  m.quantity("section", r.length, positive),
		Pos:      n.pos,
	}
	if around := member.Around; around.Given() && around.Inside() > fullTurn.Inside() {
		r.fault(m.at("around"), "%s is %s; a thread goes at most all the way round, %s", m.about("around"), quote(m.at("around").text), fullTurn)
	}
	switch m.oneOf("thread", "of") {
	case "thread":
		member.Thread = r.designation(m, "thread")
	case "of":
		if m.text("of") != "" {
			member.PartSize = r.threadOfPart(m.at("of"), m.about("of"))
		}
	}
	return member
}

var fullTurn, _ = unit.New(360, 1, unit.Degree)

// threadOfPart reads part.ID of a thread.
func (r *reader) threadOfPart(n node, about string) string {
	id, ofPart := strings.CutPrefix(n.text, partPrefix)
	if !ofPart {
		r.fault(n, "%s: found %s where a thread of the part should be, written part.screw, or a mapping {thread: …}", about, n.found())
		return ""
	}
	return r.threadAt(n, about, id)
}

// longestMaterial is the most characters a material may have.
const longestMaterial = 80

// material returns the material under the key as it is written; it must be one
// of the tables. Where there are very many faults already none is looked up,
// which takes its time.
func (r *reader) material(f fields, key string) string {
	text := f.text(key)
	switch {
	case text == "" || r.metals[text] || !r.guesses():
		return text
	case len(text) > longestMaterial:
		r.fault(f.at(key), "%s: %s is no material: it has more than %d characters", f.about(key), quote(text), longestMaterial)
		return ""
	}
	_, err := facts.FindMaterial(text)
	if err != nil {
		r.fault(f.at(key), "%s: %s", f.about(key), err)
	}
	r.metals[text] = err == nil
	return text
}

var (
	headKinds = []string{"head", "tee"}
	teeKeys   = []string{"width", "slot"}
)

func (r *reader) head(j fields) trade.Head {
	if !j.has("head") {
		return trade.Head{}
	}
	h := r.fields(j.at("head"), j.about("head"), "kind", "height", "across", "width", "slot", "material")
	h.need("kind", "height")
	head := trade.Head{
		Kind:     h.word("kind", headKinds),
		Height:   h.quantity("height", r.length, positive),
		Across:   h.quantity("across", r.length, positive),
		Width:    h.quantity("width", r.length, positive),
		Slot:     h.quantity("slot", r.length, positive),
		Material: r.material(h, "material"),
		Pos:      j.at("head").pos,
	}
	if head.Kind == headKinds[0] {
		h.refuse("only a tee has it", teeKeys...)
	}
	return head
}

var shearedKeys = []string{"id", "kind", "diameter", "width", "height", "length", "planes", "at", "material", "against"}

// readSheared reads the pieces that the load shears, which have their ids among
// themselves.
func (r *reader) readSheared(j fields, joint *trade.Joint) {
	taken := map[string]trade.Pos{}
	for _, n := range j.list("sheared") {
		s := r.fields(n, itemName(string(aSheared), textUnder(n, "id"))+" of "+j.what, shearedKeys...)
		s.need("id", "kind")
		piece := trade.Sheared{
			ID:       s.text("id"),
			Kind:     s.word("kind", []string{"pin", "key"}),
			Diameter: s.quantity("diameter", r.length, positive),
			Width:    s.quantity("width", r.length, positive),
			Height:   s.quantity("height", r.length, positive),
			Length:   s.quantity("length", r.length, positive),
			Planes:   s.whole("planes", 1, 2),
			At:       s.quantity("at", r.length, positive),
			Material: r.material(s, "material"),
			Against:  r.material(s, "against"),
			Pos:      n.pos,
		}
		switch piece.Kind {
		case "pin":
			s.need("diameter")
			s.refuse("a pin has a diameter", "width", "height")
		case "key":
			s.need("width", "height", "length")
			s.refuse("a key has a width and a height", "diameter")
		}
		if piece.ID != "" {
			r.claimAmong(taken, s.at("id"), aSheared)
		}
		joint.Sheared = append(joint.Sheared, piece)
	}
}

// claimAmong gives an id to a thing that has it among its like alone.
func (r *reader) claimAmong(taken map[string]trade.Pos, id node, t thing) {
	if !r.checkID(id, t) {
		return
	}
	if first, there := taken[id.text]; there {
		r.fault(id, "the %s %s stands here a second time; the first is at %d:%d", string(t), quote(id.text), first.Line, first.Column)
		return
	}
	taken[id.text] = id.pos
}

var pressKeys = []string{"diameter", "inside", "outside", "length", "interference", "inner", "outer", "friction", "warmer"}

// pressFit reads an interference fit of two rings, nil if there is none.
func (r *reader) pressFit(j fields) *trade.PressFit {
	if !j.has("press") {
		return nil
	}
	p := r.fields(j.at("press"), j.about("press"), pressKeys...)
	p.need("diameter", "outside", "length", "interference", "inner", "outer")
	press := &trade.PressFit{
		Diameter:     p.quantity("diameter", r.length, positive),
		Inside:       p.quantity("inside", r.length, positive),
		Outside:      p.quantity("outside", r.length, positive),
		Length:       p.quantity("length", r.length, positive),
		Interference: p.span("interference", r.lengths, notNegative),
		Inner:        r.material(p, "inner"),
		Outer:        r.material(p, "outer"),
		Friction:     p.friction("friction"),
		Warmer:       p.quantity("warmer", unit.ParseNumber, anySign),
		Pos:          j.at("press").pos,
	}
	p.rising(press.Inside, press.Diameter, "inside", "diameter")
	p.rising(press.Diameter, press.Outside, "diameter", "outside")
	return press
}

// rising faults a quantity that is not less than that under another key.
func (f fields) rising(less, more unit.Quantity, key, other string) {
	if less.Given() && more.Given() && less.Inside() >= more.Inside() {
		f.r.fault(f.at(key), "%s is %s; it must be less than the %s, %s", f.about(key), less, other, more)
	}
}

// mostFriction is the largest coefficient of friction of metal on metal that
// is believed.
const mostFriction = 1

// friction returns the range of the coefficient under the key.
func (f fields) friction(key string) unit.Range {
	span := f.span(key, unit.ParseNumberRange, positive)
	if span.Given() && span.High.Inside() > mostFriction {
		f.r.fault(f.at(key), "%s is %s; a coefficient of friction is at most %d", f.about(key), quote(f.at(key).text), mostFriction)
	}
	return span
}

func (r *reader) tighten(j fields) trade.Tighten {
	if !j.has("tighten") {
		return trade.Tighten{}
	}
	t := r.fields(j.at("tighten"), j.about("tighten"), "torque", "preload", "friction")
	t.exclusive("torque", "preload")
	return trade.Tighten{
		Torque:   t.quantity("torque", unit.ParseTorque, positive),
		Preload:  t.quantity("preload", unit.ParseForce, positive),
		Friction: t.friction("friction"),
		Pos:      j.at("tighten").pos,
	}
}

// readFuse reads which piece is meant to give way first.
func (r *reader) readFuse(j fields, joint *trade.Joint) {
	var among []string
	if j.has("stud") {
		among = append(among, studFuse, nutFuse)
	}
	if j.has("head") {
		among = append(among, headFuse)
	}
	for _, piece := range joint.Sheared {
		among = append(among, piece.ID)
	}
	joint.Fuse = j.word("fuse", among)
}
