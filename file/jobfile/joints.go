package jobfile

import (
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// jointReader reads what is screwed, keyed, sheared or pressed together.
type jointReader struct{ *values }

// readJoints reads what is screwed, keyed or sheared together. Joints have
// their ids among themselves.
func (r jointReader) readJoints(f fields) {
	taken := map[string]trade.Pos{}
	for i, n := range f.list("joints") {
		r.readJoint(f, n, numbered(string(aJoint), i), taken)
	}
}

func (r jointReader) readJoint(f fields, n yamltree.Node, id string, taken map[string]trade.Pos) {
	what := id
	if written := textUnder(n, "id"); written != "" {
		what = itemName(string(aJoint), written)
	}
	j := f.item("joints", n, what)
	joint := trade.Joint{
		ID:      id,
		Service: j.quantity("service"),
		Spanner: j.quantity("spanner"),
		Holds:   trade.Duty(j.text("holds")),
		Say:     j.text("say"),
		Pos:     n.Pos,
	}
	if written := j.text("id"); written != "" {
		joint.ID = written
		r.claimAmong(taken, j.at("id"), aJoint)
	}
	r.readScrewed(j, &joint)
	r.readSheared(j, &joint)
	joint.Press = pressFit(j)
	readFuse(j, &joint)
	r.job.Joints = append(r.job.Joints, joint)
}

// readScrewed reads a stud and what it is screwed into.
func (r jointReader) readScrewed(j fields, joint *trade.Joint) {
	if !j.has("stud") {
		return
	}
	joint.Stud, joint.Into = r.member(j, "stud"), r.member(j, "into")
	joint.Head = boltHead(j)
	joint.Tighten = tighten(j)
}

// member reads one side of a screwed joint: part.ID, or what is known of it.
func (r jointReader) member(j fields, key string) trade.Member {
	j.holds(key)
	if !j.has(key) {
		return trade.Member{}
	}
	n := j.at(key)
	if n.Shape == yamltree.Scalar {
		return trade.Member{PartSize: r.threadOfPart(n, j.about(key)), Pos: n.Pos}
	}
	m := j.inner(key)
	member := trade.Member{
		Class:    m.text("class"),
		Material: m.text("material"),
		Grade:    m.text("grade"),
		Length:   m.quantity("length"),
		Around:   m.quantity("around"),
		Outside:  m.quantity("outside"),
		Section:  m.quantity("section"),
		Pos:      n.Pos,
	}
	switch m.which("thread", "of") {
	case "thread":
		member.Thread = m.text("thread")
	case "of":
		if m.text("of") != "" {
			member.PartSize = r.threadOfPart(m.at("of"), m.about("of"))
		}
	}
	return member
}

// threadOfPart reads part.ID of a thread.
func (r jointReader) threadOfPart(n yamltree.Node, about string) string {
	id, ofPart := strings.CutPrefix(n.Text, partPrefix)
	if !ofPart {
		r.fault(n, "%s: found %s where a thread of the part should be, written part.screw, or a mapping {thread: …}", about, n.Found())
		return ""
	}
	return r.threadAt(n, about, id)
}

// longestMaterial is the most characters a material may have.
const longestMaterial = 80

// material reads a material and returns it as it is written; it must be one of the
// tables. Where there are very many faults already none is looked up, which takes
// its time.
func (r *values) material(n yamltree.Node, about string) string {
	text := r.text(n, about)
	switch {
	case text == "" || r.metals[text] || !r.guesses():
		return text
	case len(text) > longestMaterial:
		r.fault(n, "%s: %s is no material: it has more than %d characters", about, yamltree.Quote(text), longestMaterial)
		return ""
	}
	_, err := facts.FindMaterial(text)
	if err != nil {
		r.fault(n, "%s: %s", about, err)
	}
	r.metals[text] = err == nil
	return text
}

func boltHead(j fields) trade.Head {
	if !j.has("head") {
		return trade.Head{}
	}
	h := j.inner("head")
	head := trade.Head{
		Kind:     trade.HeadKind(h.text("kind")),
		Height:   h.quantity("height"),
		Across:   h.quantity("across"),
		Width:    h.quantity("width"),
		Slot:     h.quantity("slot"),
		Material: h.text("material"),
		Pos:      j.at("head").Pos,
	}
	return head
}

// readSheared reads the pieces that the load shears, which have their ids among
// themselves.
func (r jointReader) readSheared(j fields, joint *trade.Joint) {
	taken := map[string]trade.Pos{}
	for _, n := range j.list("sheared") {
		s := j.item("sheared", n, itemName(string(aSheared), textUnder(n, "id"))+" of "+j.what)
		piece := trade.Sheared{
			ID:       s.text("id"),
			Kind:     trade.ShearedKind(s.text("kind")),
			Diameter: s.quantity("diameter"),
			Width:    s.quantity("width"),
			Height:   s.quantity("height"),
			Length:   s.quantity("length"),
			Planes:   s.whole("planes"),
			At:       s.quantity("at"),
			Material: s.text("material"),
			Against:  s.text("against"),
			Pos:      n.Pos,
		}
		if piece.ID != "" {
			r.claimAmong(taken, s.at("id"), aSheared)
		}
		joint.Sheared = append(joint.Sheared, piece)
	}
}

// pressFit reads an interference fit of two rings, nil if there is none.
func pressFit(j fields) *trade.PressFit {
	if !j.has("press") {
		return nil
	}
	p := j.inner("press")
	press := &trade.PressFit{
		Diameter:     p.quantity("diameter"),
		Inside:       p.quantity("inside"),
		Outside:      p.quantity("outside"),
		Length:       p.quantity("length"),
		Interference: p.span("interference"),
		Inner:        p.text("inner"),
		Outer:        p.text("outer"),
		Friction:     p.span("friction"),
		Warmer:       p.quantity("warmer"),
		Pos:          j.at("press").Pos,
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

func tighten(j fields) trade.Tighten {
	if !j.has("tighten") {
		return trade.Tighten{}
	}
	t := j.inner("tighten")
	return trade.Tighten{
		Torque:   t.quantity("torque"),
		Preload:  t.quantity("preload"),
		Friction: t.span("friction"),
		Pos:      j.at("tighten").Pos,
	}
}

// readFuse reads which piece is meant to give way first.
func readFuse(j fields, joint *trade.Joint) {
	joint.Fuse = trade.Fuse(j.among("fuse", words(trade.Fuses(j.has("stud"), j.has("head"), joint.Sheared))))
}
