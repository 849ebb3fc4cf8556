package jobfile

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// turnedReader reads the shape of a turned part.
type turnedReader struct{ *values }

func (r turnedReader) turnedShape(s fields) *trade.TurnedShape {
	turned := &trade.TurnedShape{
		Steps:       steps(s, "steps", "step %d"),
		Bore:        steps(s, "bore", "step %d of the bore"),
		RightBore:   steps(s, "right-bore", "step %d of the right bore"),
		LeftCentre:  s.measure("left-centre"),
		RightCentre: s.measure("right-centre"),
	}
	if s.has("steps") && s.at("steps").Shape == yamltree.List && len(turned.Steps) == 0 {
		r.fault(s.at("steps"), "%s: it has one step at least", s.about("steps"))
	}
	for i, n := range s.list("cross-holes") {
		turned.CrossHoles = append(turned.CrossHoles, crossHole(s.item("cross-holes", n, numbered("cross hole", i))))
	}
	for i, n := range s.list("flats") {
		turned.Flats = append(turned.Flats, flat(s.item("flats", n, numbered("flat", i))))
	}
	return turned
}

// numbered names an item of a list by its place for faults.
func numbered(what string, index int) string { return fmt.Sprintf("%s %d", what, index+1) }

// steps reads the steps of a turned part, outside or in a bore, of which the
// last may go right through.
func steps(s fields, key, what string) []trade.Step {
	var steps []trade.Step
	list := s.list(key)
	for i, n := range list {
		steps = append(steps, stepShape(s.item(key, n, fmt.Sprintf(what, i+1)), key != "steps" && i < len(list)-1))
	}
	return steps
}

func stepShape(s fields, withLength bool) trade.Step {
	if withLength {
		s.need("length")
	}
	step := trade.Step{
		Section:  trade.Round,
		Thread:   s.threadMade("thread"),
		To:       s.measure("to"),
		Length:   s.measure("length"),
		Chamfer:  s.measure("chamfer"),
		Fillet:   s.measure("fillet"),
		Undercut: undercut(s),
		Knurled:  s.text("knurled") == yes,
		Surface:  trade.Texture(s.number("ra")),
		Say:      s.text("say"),
		Pos:      s.pos,
	}
	switch form := s.which("diameter", "hexagon", "square", "thread"); form {
	case "diameter":
		step.Size = s.measure(form)
	case "hexagon", "square":
		step.Section, step.Size = trade.CrossSection(form), s.measure(form)
	}
	for i, n := range s.list("grooves") {
		step.Grooves = append(step.Grooves, groove(s.item("grooves", n, numbered("groove", i)+" of "+s.what)))
	}
	return step
}

// What is either so or not is answered in these words.
const (
	yes = "yes"
	no  = "no"
)

func undercut(s fields) trade.Undercut {
	if !s.has("undercut") {
		return trade.Undercut{}
	}
	u := s.inner("undercut")
	return trade.Undercut{Width: u.measure("width"), Depth: u.measure("depth")}
}

func groove(g fields) trade.Groove {
	return trade.Groove{
		At:       g.measure("at"),
		Width:    g.measure("width"),
		Diameter: g.measure("diameter"),
		Pos:      g.pos,
	}
}

func crossHole(h fields) trade.CrossHole {
	return trade.CrossHole{
		At:       h.measure("at"),
		Diameter: h.measure("diameter"),
		Depth:    h.measure("depth"),
		Thread:   h.threadMade("thread"),
		Pos:      h.pos,
	}
}

func flat(f fields) trade.Flat {
	return trade.Flat{
		From:   f.measure("from"),
		Length: f.measure("length"),
		Across: f.measure("across"),
		Height: f.measure("height"),
		Pos:    f.pos,
	}
}
