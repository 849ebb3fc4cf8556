package jobfile

import (
	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// plateReader reads the shape of a plate.
type plateReader struct{ holeReader }

func (r plateReader) plateShape(s fields) *trade.PlateShape {
	plate := &trade.PlateShape{
		Thickness: s.measure("thickness"),
		Disc:      s.measure("disc"),
		Holes:     r.holeShapes(s),
		Chamfer:   s.measure("chamfer"),
	}
	switch s.which("rectangle", "disc", "outline") {
	case "rectangle":
		plate.Rectangle = rectangle(s.item("rectangle", s.at("rectangle"), "rectangle"))
	case "outline":
		plate.Outline = r.outline(s)
	}
	for i, n := range s.list("slots") {
		plate.Slots = append(plate.Slots, slotShape(s.item("slots", n, numbered("slot", i))))
	}
	for i, n := range s.list("ledges") {
		plate.Ledges = append(plate.Ledges, ledge(s.item("ledges", n, numbered("ledge", i))))
	}
	return plate
}

func rectangle(s fields) *trade.RectangleShape {
	return &trade.RectangleShape{
		Length:  s.measure("length"),
		Width:   s.measure("width"),
		Corners: s.measure("corners"),
		Centred: s.text("centred") == yes,
	}
}

// outline reads the corners of an outline: three at least, or two that are
// joined by an arc.
func (r plateReader) outline(s fields) []trade.Corner {
	var corners []trade.Corner
	bent := false
	for i, n := range s.list("outline") {
		corner := corner(s.item("outline", n, numbered("corner", i)))
		corners, bent = append(corners, corner), bent || corner.Radius.Given()
	}
	if n := s.at("outline"); n.Shape == yamltree.List && (len(corners) < 2 || len(corners) == 2 && !bent) {
		r.fault(n, "%s: %d corners bound nothing; it has three, or two with an arc between them", s.about("outline"), len(corners))
	}
	return corners
}

func corner(s fields) trade.Corner {
	corner := trade.Corner{
		Radius: s.measure("radius"),
		Turn:   trade.Turn(s.text("turn")),
		Round:  s.measure("round"),
		Say:    s.text("say"),
		Pos:    s.pos,
	}
	corner.X, corner.Y = s.place("at")
	return corner
}

// holeReader reads the holes of a plate, a gib or a shoe.
type holeReader struct{ *values }

// holeShapes reads the holes of a plate or a gib.
func (r holeReader) holeShapes(s fields) []trade.HoleShape {
	var holes []trade.HoleShape
	for i, n := range s.list("holes") {
		holes = append(holes, r.holeShape(s.item("holes", n, numbered("hole", i))))
	}
	return holes
}

// holeShape reads one hole, a circle of holes or those of a plan.
func (r holeReader) holeShape(h fields) trade.HoleShape {
	hole := boredHole(h)
	if h.has("plan") {
		hole.Plan, hole.Of = r.holesOfPlan(h)
	}
	r.readCircle(h, &hole)
	return hole
}

// readCircle reads a circle of holes, which goes round a place or round one
// hole of a plan.
func (r holeReader) readCircle(h fields, hole *trade.HoleShape) {
	if !h.has("circle") {
		return
	}
	hole.Circle = h.measure("circle")
	hole.Count = h.whole("count")
	hole.First = h.measure("first")
	if hole.Plan != "" && len(hole.Of) != 1 {
		r.fault(h.keys["circle"], `%s: a circle goes round one hole of the plan; write which, "of: [h1]"`, h.what)
	}
}

// boredHole reads what a hole is like and where one hole is.
func boredHole(h fields) trade.HoleShape {
	hole := trade.HoleShape{
		Diameter:     h.measure("diameter"),
		Thread:       h.threadMade("thread"),
		Depth:        h.measure("depth"),
		CountersinkD: h.measure("countersink"),
		Say:          h.text("say"),
		Pos:          h.pos,
	}
	hole.X, hole.Y = h.place("at")
	if h.has("counterbore") {
		c := h.inner("counterbore")
		hole.CounterboreD, hole.CounterboreH = c.measure("diameter"), c.measure("depth")
	}
	return hole
}

// holesOfPlan reads the plan of holes, and which of them where not all are
// meant.
func (r holeReader) holesOfPlan(h fields) (plan string, holes []string) {
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
			r.fault(n, "%s: %s is no hole of the plan %s", h.about("of"), yamltree.Quote(n.Text), yamltree.Quote(h.text("plan")))
		case taken[n.Text]:
			r.fault(n, "%s: %s stands here a second time", h.about("of"), yamltree.Quote(n.Text))
		}
		taken[n.Text] = true
		holes = append(holes, n.Text)
	}
	return h.text("plan"), holes
}

func slotShape(s fields) trade.SlotShape {
	slot := trade.SlotShape{
		Width: s.measure("width"),
		Depth: s.measure("depth"),
		Pos:   s.pos,
	}
	slot.FromX, slot.FromY = s.place("from")
	slot.ToX, slot.ToY = s.place("to")
	return slot
}

func ledge(s fields) trade.Ledge {
	ledge := trade.Ledge{Depth: s.measure("depth"), Pos: s.pos}
	ledge.FromX, ledge.FromY = s.place("from")
	ledge.ToX, ledge.ToY = s.place("to")
	return ledge
}
