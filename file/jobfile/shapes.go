package jobfile

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// readShape reads which size of the part is which, by the kind of part.
func (r *reader) readShape(p fields) {
	part := r.job.Part
	n := p.at("shape")
	if !p.has("shape") || part.Kind == "" || n.shape == mapping && len(n.pairs) == 0 {
		return
	}
	part.Shape.Pos = n.pos
	switch shape := &part.Shape; part.Kind {
	case trade.TurnedPart:
		shape.Turned = r.turnedShape(n)
	case trade.SectorShoe:
		shape.Shoe = r.shoeShape(n)
	case trade.PlatePart:
		shape.Plate = r.plateShape(n)
	case trade.NutPart:
		shape.Nut = r.nutShape(n)
	case trade.BushPart:
		shape.Bush = r.bushShape(n)
	case trade.KeyPart:
		shape.Key = r.keyShape(n)
	case trade.GibPart:
		shape.Gib = r.gibShape(n)
	case trade.WasherPart:
		shape.Washer = r.washerShape(n)
	}
}

// shapeOf names the shape of a kind of part for faults.
func shapeOf(kind trade.PartKind) string {
	if kind == trade.TurnedPart {
		return "shape of a turned part"
	}
	return "shape of a " + string(kind)
}

func (r *reader) shoeShape(n node) *trade.ShoeShape {
	s := r.fields(n, shapeOf(trade.SectorShoe), "outer", "inner", "angle", "width", "length", "height", "stem", "hole", "chamfer")
	round, straight := []string{"outer", "inner", "angle"}, []string{"width", "length"}
	switch {
	case s.hasAny(round):
		s.need(round...)
		s.refuse("it is of straight sides, which have no radii", straight...)
	case s.hasAny(straight):
		s.need(straight...)
	default:
		r.faults.add(s.pos, "%s: write outer, inner and angle of a sector, or width and length of straight sides", s.what)
	}
	s.need("height")
	shoe := &trade.ShoeShape{
		Outer:   s.measure("outer", positive),
		Inner:   s.measure("inner", positive),
		Angle:   s.angle("angle", includedAngle, positive),
		Width:   s.measure("width", positive),
		Length:  s.measure("length", positive),
		Height:  s.measure("height", positive),
		Chamfer: s.measure("chamfer", positive),
	}
	if s.has("stem") {
		shoe.Stem = r.stemShape(s.at("stem"))
	}
	if s.has("hole") {
		h := r.fields(s.at("hole"), "hole of the shoe", boredKeys...)
		hole := r.boredHole(h, s.at("hole").pos)
		shoe.Hole = &hole
	}
	return shoe
}

func (r *reader) stemShape(n node) *trade.StemShape {
	s := r.fields(n, "stem of the shoe", "diameter", "thread", "length", "offset")
	s.oneOf("diameter", "thread")
	s.need("length")
	return &trade.StemShape{
		Diameter: s.measure("diameter", positive),
		Thread:   s.threadMade("thread"),
		Length:   s.measure("length", positive),
		Offset:   s.measure("offset", anySign),
		Pos:      n.pos,
	}
}

func (r *reader) nutShape(n node) *trade.NutShape {
	s := r.fields(n, shapeOf(trade.NutPart), "hexagon", "square", "round", "height", "thread", "chamfer", "tommies")
	s.need("height", "thread")
	nut := &trade.NutShape{
		Height:  s.measure("height", positive),
		Thread:  s.threadMade("thread"),
		Chamfer: s.measure("chamfer", positive),
		Tommies: s.measure("tommies", positive),
	}
	if section := s.oneOf(words([]trade.CrossSection{trade.Hexagon, trade.Square, trade.Round})...); section != "" {
		nut.Section, nut.Size = trade.CrossSection(section), s.measure(section, positive)
	}
	return nut
}

func (r *reader) bushShape(n node) *trade.BushShape {
	s := r.fields(n, shapeOf(trade.BushPart), "outside", "inside", "length", "flange", "flange-width", "chamfer")
	s.need("outside", "inside", "length")
	if flange := []string{"flange", "flange-width"}; s.hasAny(flange) {
		s.need(flange...)
	}
	return &trade.BushShape{
		Outside:     s.measure("outside", positive),
		Inside:      s.measure("inside", positive),
		Length:      s.measure("length", positive),
		Flange:      s.measure("flange", positive),
		FlangeWidth: s.measure("flange-width", positive),
		Chamfer:     s.measure("chamfer", positive),
	}
}

func (r *reader) keyShape(n node) *trade.KeyShape {
	s := r.fields(n, shapeOf(trade.KeyPart), "width", "height", "length", "ends", "chamfer")
	s.need("width", "height", "length")
	return &trade.KeyShape{
		Width:     s.measure("width", positive),
		Height:    s.measure("height", positive),
		Length:    s.measure("length", positive),
		RoundEnds: s.word("ends", []string{"round", "square"}) == "round",
		Chamfer:   s.measure("chamfer", positive),
	}
}

func (r *reader) gibShape(n node) *trade.GibShape {
	s := r.fields(n, shapeOf(trade.GibPart), "length", "width", "thick", "thin", "angle", "holes")
	s.need("length", "width", "thick")
	return &trade.GibShape{
		Length: s.measure("length", positive),
		Width:  s.measure("width", positive),
		Thick:  s.measure("thick", positive),
		Thin:   s.measure("thin", positive),
		Angle:  s.angle("angle", unit.ParseAngle, positive),
		Holes:  r.holeShapes(s),
	}
}

func (r *reader) washerShape(n node) *trade.WasherShape {
	s := r.fields(n, shapeOf(trade.WasherPart), "outside", "inside", "thickness", "chamfer")
	s.need("outside", "inside", "thickness")
	return &trade.WasherShape{
		Outside:   s.measure("outside", positive),
		Inside:    s.measure("inside", positive),
		Thickness: s.measure("thickness", positive),
		Chamfer:   s.measure("chamfer", positive),
	}
}
