package sound

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
)

func (c *check) shoe(s *trade.ShoeShape, pos trade.Pos) {
	m := c.tellShape(trade.SectorShoe, pos, told{"outer", s.Outer}, told{"inner", s.Inner}, told{"angle", s.Angle},
		told{"width", s.Width}, told{"length", s.Length}, told{"height", s.Height}, told{"stem", one(s.Stem != nil)},
		told{"hole", one(s.Hole != nil)}, told{"chamfer", s.Chamfer})
	if !m.hasAny([]string{"outer", "inner", "angle", "width", "length"}) {
		c.fault(pos, "%s: write outer, inner and angle of a sector, or width and length of straight sides", m.what)
	}
	if t := s.Stem; t != nil {
		c.tell(shapeSection(trade.SectorShoe)+".stem", "stem of the shoe", t.Pos,
			told{"diameter", t.Diameter}, told{"thread", t.Thread}, told{"length", t.Length},
			told{"offset", t.Offset})
	}
	if s.Hole != nil {
		c.bored(shapeSection(trade.SectorShoe)+".hole", "hole of the shoe", s.Hole)
	}
}

func (c *check) nut(s *trade.NutShape, pos trade.Pos) {
	c.tellShape(trade.NutPart, pos, told{c.section(s.Section, "nut", pos), s.Size}, told{"height", s.Height},
		told{"thread", s.Thread}, told{"chamfer", s.Chamfer}, told{"tommies", s.Tommies})
}

// section returns the key under which a nut of a section has its size.
func (c *check) section(s trade.CrossSection, what string, pos trade.Pos) string {
	switch s {
	case trade.Round, trade.Hexagon, trade.Square:
		return string(s)
	}
	c.unknown(string(s), what, "section", pos, words([]trade.CrossSection{trade.Round, trade.Hexagon, trade.Square}))
	return string(trade.Round)
}

func (c *check) bush(s *trade.BushShape, pos trade.Pos) {
	c.tellShape(trade.BushPart, pos, told{"outside", s.Outside}, told{"inside", s.Inside}, told{"length", s.Length},
		told{"flange", s.Flange}, told{"flange-width", s.FlangeWidth}, told{"chamfer", s.Chamfer})
}

func (c *check) key(s *trade.KeyShape, pos trade.Pos) {
	c.tellShape(trade.KeyPart, pos, told{"width", s.Width}, told{"height", s.Height}, told{"length", s.Length},
		told{"chamfer", s.Chamfer})
}

func (c *check) gib(s *trade.GibShape, pos trade.Pos) {
	c.tellShape(trade.GibPart, pos, told{"length", s.Length}, told{"width", s.Width}, told{"thick", s.Thick},
		told{"thin", s.Thin}, told{"angle", s.Angle}, told{"holes", several(len(s.Holes))})
	c.holeShapes(s.Holes)
}

func (c *check) washer(s *trade.WasherShape, pos trade.Pos) {
	c.tellShape(trade.WasherPart, pos, told{"outside", s.Outside}, told{"inside", s.Inside},
		told{"thickness", s.Thickness}, told{"chamfer", s.Chamfer})
}

func (c *check) turned(s *trade.TurnedShape, pos trade.Pos) {
	c.tellShape(trade.TurnedPart, pos, told{"steps", several(len(s.Steps))}, told{"bore", several(len(s.Bore))},
		told{"right-bore", several(len(s.RightBore))}, told{"cross-holes", several(len(s.CrossHoles))},
		told{"flats", several(len(s.Flats))}, told{"left-centre", s.LeftCentre}, told{"right-centre", s.RightCentre})
	c.steps(s.Steps, ".steps", "step %d")
	c.steps(s.Bore, ".bore", "step %d of the bore")
	c.steps(s.RightBore, ".bore", "step %d of the right bore")
	for i, h := range s.CrossHoles {
		c.tell(shapeSection(trade.TurnedPart)+".cross-holes", numbered("cross hole", i), h.Pos,
			told{"at", h.At}, told{"diameter", h.Diameter}, told{"depth", h.Depth}, told{"thread", h.Thread})
	}
	for i, f := range s.Flats {
		c.tell(shapeSection(trade.TurnedPart)+".flats", numbered("flat", i), f.Pos,
			told{"from", f.From}, told{"length", f.Length}, told{"across", f.Across}, told{"height", f.Height})
	}
}

// steps checks the steps of a turned part, outside or in a bore, of which the last
// may go right through.
func (c *check) steps(list []trade.Step, section, what string) {
	const steps = ".steps"
	turned := shapeSection(trade.TurnedPart)
	for i := range list {
		s, name := &list[i], fmt.Sprintf(what, i+1)
		m := c.tell(turned+section, name, s.Pos, append(c.stepSize(s, name), told{"to", s.To},
			told{"thread", s.Thread}, told{"length", s.Length}, told{"chamfer", s.Chamfer}, told{"fillet", s.Fillet},
			told{"undercut", one(s.Undercut != trade.Undercut{})}, told{"grooves", several(len(s.Grooves))},
			told{"ra", float64(s.Surface)}, told{"say", s.Say})...)
		if i < len(list)-1 || section == steps {
			m.need("length")
		}
		if s.Undercut != (trade.Undercut{}) {
			c.tell(turned+steps+".undercut", "undercut in "+name, s.Pos, told{"width", s.Undercut.Width},
				told{"depth", s.Undercut.Depth})
		}
		for k, g := range s.Grooves {
			c.tell(turned+steps+".grooves", numbered("groove", k)+" of "+name, g.Pos, told{"at", g.At},
				told{"width", g.Width}, told{"diameter", g.Diameter})
		}
	}
}

// stepSize tells the size of a step under the key of its section.
func (c *check) stepSize(s *trade.Step, what string) []told {
	key := c.section(s.Section, what, s.Pos)
	if key == string(trade.Round) {
		key = "diameter"
	}
	return []told{{key, s.Size}}
}

func (c *check) plate(s *trade.PlateShape, pos trade.Pos) {
	c.tellShape(trade.PlatePart, pos, told{"thickness", s.Thickness}, told{"rectangle", one(s.Rectangle != nil)},
		told{"disc", s.Disc}, told{"outline", several(len(s.Outline))}, told{"holes", several(len(s.Holes))},
		told{"slots", several(len(s.Slots))}, told{"ledges", several(len(s.Ledges))}, told{"chamfer", s.Chamfer})
	if r := s.Rectangle; r != nil {
		c.tell(shapeSection(trade.PlatePart)+".rectangle", "rectangle", pos, told{"length", r.Length},
			told{"width", r.Width}, told{"corners", r.Corners})
	}
	c.outline(s.Outline, pos)
	c.holeShapes(s.Holes)
	for i, t := range s.Slots {
		c.tell(shapeSection(trade.PlatePart)+".slots", numbered("slot", i), t.Pos,
			told{"from", place{t.FromX, t.FromY}}, told{"to", place{t.ToX, t.ToY}}, told{"width", t.Width},
			told{"depth", t.Depth})
	}
	for i, l := range s.Ledges {
		c.tell(shapeSection(trade.PlatePart)+".ledges", numbered("ledge", i), l.Pos,
			told{"from", place{l.FromX, l.FromY}}, told{"to", place{l.ToX, l.ToY}}, told{"depth", l.Depth})
	}
}

// outline checks the corners of an outline: three at least, or two that are joined
// by an arc.
func (c *check) outline(corners []trade.Corner, pos trade.Pos) {
	bent := false
	for i, k := range corners {
		bent = bent || k.Radius.Given()
		c.tell(shapeSection(trade.PlatePart)+".outline", numbered("corner", i), k.Pos, told{"at", place{k.X, k.Y}},
			told{"radius", k.Radius}, told{"turn", string(k.Turn)}, told{"round", k.Round})
	}
	if n := len(corners); n == 1 || n == 2 && !bent {
		c.fault(pos, "outline in %s: %d corners bound nothing; it has three, or two with an arc between them",
			shapeOf(trade.PlatePart), n)
	}
}

// holeShapes checks the holes of a plate or a gib.
func (c *check) holeShapes(holes []trade.HoleShape) {
	for i := range holes {
		h, what := &holes[i], numbered("hole", i)
		c.bored("part.shape.holes", what, h)
		o := c.owners[h.Plan]
		taken := map[string]bool{}
		for _, id := range h.Of {
			hole, known := c.owner(id, "of in "+what, h.Pos, aHole)
			switch {
			case !known || o.thing != aPlan:
			case hole.index != o.index:
				c.fault(h.Pos, "of in %s: %s is no hole of the plan %s", what, quote(id), quote(h.Plan))
			case taken[id]:
				c.fault(h.Pos, "of in %s: %s stands here a second time", what, quote(id))
			}
			taken[id] = true
		}
		if h.Circle.Given() && h.Plan != "" && len(h.Of) != 1 {
			c.fault(h.Pos, `%s: a circle goes round one hole of the plan; write which, "of: [h1]"`, what)
		}
	}
}

// bored checks what a hole is like, and where it is.
func (c *check) bored(section, what string, h *trade.HoleShape) {
	counterbore := h.CounterboreD.Given() || h.CounterboreH.Given()
	c.tell(section, what, h.Pos, told{"plan", h.Plan}, told{"of", several(len(h.Of))}, told{"circle", h.Circle},
		told{"count", h.Count}, told{"first", h.First}, told{"at", place{h.X, h.Y}}, told{"diameter", h.Diameter},
		told{"thread", h.Thread}, told{"depth", h.Depth}, told{"counterbore", one(counterbore)},
		told{"countersink", h.CountersinkD}, told{"say", h.Say})
	if counterbore {
		c.tell("part.shape.holes.counterbore", "counterbore in "+what, h.Pos, told{"diameter", h.CounterboreD},
			told{"depth", h.CounterboreH})
	}
}
