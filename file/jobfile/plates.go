package jobfile

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var (
	boredKeys = []string{"at", "diameter", "thread", "depth", "counterbore", "countersink", "say"} // of one hole
	holeKeys  = append([]string{"plan", "of", "circle", "count", "first"}, boredKeys...)
)

// mostAround is the largest number of holes in one circle of them.
const mostAround = 360

func (r *reader) plateShape(n node) *trade.PlateShape {
	s := r.fields(n, shapeOf(trade.PlatePart), "thickness", "rectangle", "disc", "outline", "holes", "slots", "ledges", "chamfer")
	s.need("thickness")
	plate := &trade.PlateShape{
		Thickness: s.measure("thickness", positive),
		Disc:      s.measure("disc", positive),
		Holes:     r.holeShapes(s),
		Chamfer:   s.measure("chamfer", positive),
	}
	switch s.oneOf("rectangle", "disc", "outline") {
	case "rectangle":
		plate.Rectangle = r.rectangle(s.at("rectangle"))
	case "outline":
		plate.Outline = r.outline(s)
	}
	for i, n := range s.list("slots") {
		plate.Slots = append(plate.Slots, r.slot(n, numbered("slot", i)))
	}
	for i, n := range s.list("ledges") {
		plate.Ledges = append(plate.Ledges, r.ledge(n, numbered("ledge", i)))
	}
	return plate
}

func (r *reader) rectangle(n node) *trade.RectangleShape {
	s := r.fields(n, "rectangle", "length", "width", "corners", "centred")
	s.need("length", "width")
	return &trade.RectangleShape{
		Length:  s.measure("length", positive),
		Width:   s.measure("width", positive),
		Corners: s.measure("corners", positive),
		Centred: s.word("centred", yesOrNo) == yes,
	}
}

// outline reads the corners of an outline: three at least, or two that are
// joined by an arc.
func (r *reader) outline(s fields) []trade.Corner {
	var corners []trade.Corner
	bent := false
	for i, n := range s.list("outline") {
		corner := r.corner(n, numbered("corner", i))
		corners, bent = append(corners, corner), bent || corner.Radius.Given()
	}
	if n := s.at("outline"); n.shape == list && (len(corners) < 2 || len(corners) == 2 && !bent) {
		r.fault(n, "%s: %d corners bound nothing; it has three, or two with an arc between them", s.about("outline"), len(corners))
	}
	return corners
}

func (r *reader) corner(n node, what string) trade.Corner {
	s := r.fields(n, what, "at", "radius", "turn", "round", "say")
	s.need("at")
	if s.has("radius") {
		s.need("turn")
	} else {
		s.refuse(`it stands beside "radius"`, "turn")
	}
	corner := trade.Corner{
		Radius: s.measure("radius", positive),
		Turn:   trade.Turn(s.word("turn", words([]trade.Turn{trade.Anticlockwise, trade.Clockwise}))),
		Round:  s.measure("round", positive),
		Pos:    n.pos,
	}
	corner.X, corner.Y = s.place("at")
	return corner
}

// holeShapes reads the holes of a plate or a gib.
func (r *reader) holeShapes(s fields) []trade.HoleShape {
	var holes []trade.HoleShape
	for i, n := range s.list("holes") {
		holes = append(holes, r.holeShape(n, numbered("hole", i)))
	}
	return holes
}

// holeShape reads one hole, a circle of holes or those of a plan.
func (r *reader) holeShape(n node, what string) trade.HoleShape {
	h := r.fields(n, what, holeKeys...)
	hole := r.boredHole(h, n.pos)
	switch {
	case h.has("plan"):
		h.refuse("the plan says where its holes are", "at")
		hole.Plan, hole.Of = r.holesOfPlan(h)
	default:
		h.refuse(`it stands beside "plan"`, "of")
		if !h.has("circle") {
			h.need("at")
		}
	}
	r.readCircle(h, &hole)
	return hole
}

// readCircle reads a circle of holes, which goes round a place or round one
// hole of a plan.
func (r *reader) readCircle(h fields, hole *trade.HoleShape) {
	if !h.has("circle") {
		h.refuse(`it stands beside "circle"`, "count", "first")
		return
	}
	h.need("count")
	hole.Circle = h.measure("circle", positive)
	hole.Count = h.whole("count", 2, mostAround)
	hole.First = h.angle("first", unit.ParseAngle, anySign)
	if hole.Plan != "" && len(hole.Of) != 1 {
		r.fault(h.keys["circle"], `%s: a circle goes round one hole of the plan; write which, "of: [h1]"`, h.what)
	}
}

// boredHole reads what a hole is like and where one hole is.
func (r *reader) boredHole(h fields, pos trade.Pos) trade.HoleShape {
	h.oneOf("diameter", "thread")
	hole := trade.HoleShape{
		Diameter:     h.measure("diameter", positive),
		Thread:       h.threadMade("thread"),
		Depth:        h.measure("depth", positive),
		CountersinkD: h.measure("countersink", positive),
		Say:          h.text("say"),
		Pos:          pos,
	}
	hole.X, hole.Y = h.place("at")
	if h.has("counterbore") {
		c := r.fields(h.at("counterbore"), h.about("counterbore"), "diameter", "depth")
		c.need("diameter", "depth")
		hole.CounterboreD, hole.CounterboreH = c.measure("diameter", positive), c.measure("depth", positive)
	}
	return hole
}

// holesOfPlan reads the plan of holes, and which of them where not all are
// meant.
func (r *reader) holesOfPlan(h fields) (plan string, holes []string) {
	if h.text("plan") == "" {
		return "", nil
	}
	o, known := r.owner(h.at("plan"), h.about("plan"), aPlan)
	if !known {
		return "", nil
	}
	taken := map[string]bool{}
	for _, n := range h.list("of") {
		hole, known := r.owner(n, h.about("of"), aHole)
		switch {
		case !known:
		case hole.index != o.index:
			r.fault(n, "%s: %s is no hole of the plan %s", h.about("of"), quote(n.text), quote(h.text("plan")))
		case taken[n.text]:
			r.fault(n, "%s: %s stands here a second time", h.about("of"), quote(n.text))
		}
		taken[n.text] = true
		holes = append(holes, n.text)
	}
	return h.text("plan"), holes
}

func (r *reader) slot(n node, what string) trade.SlotShape {
	s := r.fields(n, what, "from", "to", "width", "depth")
	s.need("from", "to", "width")
	slot := trade.SlotShape{
		Width: s.measure("width", positive),
		Depth: s.measure("depth", positive),
		Pos:   n.pos,
	}
	slot.FromX, slot.FromY = s.place("from")
	slot.ToX, slot.ToY = s.place("to")
	return slot
}

func (r *reader) ledge(n node, what string) trade.Ledge {
	s := r.fields(n, what, "from", "to", "depth")
	s.need("from", "to", "depth")
	ledge := trade.Ledge{Depth: s.measure("depth", positive), Pos: n.pos}
	ledge.FromX, ledge.FromY = s.place("from")
	ledge.ToX, ledge.ToY = s.place("to")
	return ledge
}
