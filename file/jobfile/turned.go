package jobfile

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var (
	turnedKeys = []string{"steps", "bore", "right-bore", "cross-holes", "flats", "left-centre", "right-centre"}
	stepKeys   = []string{
		"diameter", "hexagon", "square", "thread", "to", "length", "chamfer", "fillet", "undercut", "grooves", "knurled", "ra", "say",
	}
)

func (r *reader) turnedShape(n node) *trade.TurnedShape {
	s := r.fields(n, shapeOf(trade.TurnedPart), turnedKeys...)
	s.need("steps")
	turned := &trade.TurnedShape{
		Steps:       r.steps(s, "steps", "step %d"),
		Bore:        r.steps(s, "bore", "step %d of the bore"),
		RightBore:   r.steps(s, "right-bore", "step %d of the right bore"),
		LeftCentre:  s.measure("left-centre", positive),
		RightCentre: s.measure("right-centre", positive),
	}
	if s.has("steps") && s.at("steps").shape == list && len(turned.Steps) == 0 {
		r.fault(s.at("steps"), "%s: it has one step at least", s.about("steps"))
	}
	for i, n := range s.list("cross-holes") {
		turned.CrossHoles = append(turned.CrossHoles, r.crossHole(n, numbered("cross hole", i)))
	}
	for i, n := range s.list("flats") {
		turned.Flats = append(turned.Flats, r.flat(n, numbered("flat", i)))
	}
	return turned
}

// numbered names an item of a list by its place for faults.
func numbered(what string, index int) string { return fmt.Sprintf("%s %d", what, index+1) }

// steps reads the steps of a turned part, outside or in a bore, of which the
// last may go right through.
func (r *reader) steps(s fields, key, what string) []trade.Step {
	var steps []trade.Step
	list := s.list(key)
	for i, n := range list {
		steps = append(steps, r.step(n, fmt.Sprintf(what, i+1), i == len(list)-1 && key != "steps"))
	}
	return steps
}

func (r *reader) step(n node, what string, mayGoThrough bool) trade.Step {
	s := r.fields(n, what, stepKeys...)
	if !mayGoThrough {
		s.need("length")
	}
	step := trade.Step{
		Section:  trade.Round,
		Thread:   s.threadMade("thread"),
		To:       s.measure("to", positive),
		Length:   s.measure("length", positive),
		Chamfer:  s.measure("chamfer", positive),
		Fillet:   s.measure("fillet", positive),
		Undercut: r.undercut(s),
		Knurled:  s.word("knurled", yesOrNo) == yes,
		Say:      s.text("say"),
		Pos:      n.pos,
	}
	switch form := s.oneOf("diameter", "hexagon", "square", "thread"); form {
	case "diameter":
		step.Size = s.measure(form, positive)
	case "hexagon", "square":
		step.Section, step.Size = trade.CrossSection(form), s.measure(form, positive)
	}
	if !s.has("diameter") {
		s.refuse(`a taper runs from "diameter" to it`, "to")
	}
	if ra := s.quantity("ra", unit.ParseNumber, positive); ra.Given() {
		step.Surface = trade.Texture(ra.Inside())
	}
	for i, n := range s.list("grooves") {
		step.Grooves = append(step.Grooves, r.groove(n, numbered("groove", i)+" of "+what))
	}
	return step
}

// yes and no answer what is either so or not.
const yes = "yes"

var yesOrNo = []string{yes, "no"}

func (r *reader) undercut(s fields) trade.Undercut {
	if !s.has("undercut") {
		return trade.Undercut{}
	}
	u := r.fields(s.at("undercut"), s.about("undercut"), "width", "depth")
	u.need("width", "depth")
	return trade.Undercut{Width: u.measure("width", positive), Depth: u.measure("depth", positive)}
}

func (r *reader) groove(n node, what string) trade.Groove {
	g := r.fields(n, what, "at", "width", "diameter")
	g.need("at", "width", "diameter")
	return trade.Groove{
		At:       g.measure("at", notNegative),
		Width:    g.measure("width", positive),
		Diameter: g.measure("diameter", positive),
		Pos:      n.pos,
	}
}

func (r *reader) crossHole(n node, what string) trade.CrossHole {
	h := r.fields(n, what, "at", "diameter", "thread", "depth")
	h.need("at")
	h.oneOf("diameter", "thread")
	return trade.CrossHole{
		At:       h.measure("at", positive),
		Diameter: h.measure("diameter", positive),
		Depth:    h.measure("depth", positive),
		Thread:   h.threadMade("thread"),
		Pos:      n.pos,
	}
}

func (r *reader) flat(n node, what string) trade.Flat {
	f := r.fields(n, what, "from", "length", "across", "height")
	f.need("from", "length")
	f.oneOf("across", "height")
	return trade.Flat{
		From:   f.measure("from", notNegative),
		Length: f.measure("length", positive),
		Across: f.measure("across", positive),
		Height: f.measure("height", notNegative),
		Pos:    n.pos,
	}
}
