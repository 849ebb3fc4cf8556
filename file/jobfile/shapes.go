package jobfile

import (
	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// shapeReader reads which size of the part is which.
type shapeReader struct{ holeReader }

// readShape reads which size of the part is which, by the kind of part.
func (r shapeReader) readShape(p fields) {
	part := r.job.Part
	n := p.at("shape")
	if !p.has("shape") || part.Kind == "" || n.Shape == yamltree.Mapping && len(n.Pairs) == 0 {
		return
	}
	part.Shape.Pos = n.Pos
	s := p.item("shape", n, shapeOf(part.Kind))
	switch shape := &part.Shape; part.Kind {
	case trade.TurnedPart:
		shape.Turned = turnedReader{r.values}.turnedShape(s)
	case trade.SectorShoe:
		shape.Shoe = shoeShape(s)
	case trade.PlatePart:
		shape.Plate = plateReader(r).plateShape(s)
	case trade.NutPart:
		shape.Nut = nutShape(s)
	case trade.BushPart:
		shape.Bush = bushShape(s)
	case trade.KeyPart:
		shape.Key = keyShape(s)
	case trade.GibPart:
		shape.Gib = r.gibShape(s)
	case trade.WasherPart:
		shape.Washer = washerShape(s)
	}
}

// shapeOf names the shape of a kind of part for faults.
func shapeOf(kind trade.PartKind) string { return "shape of a " + kind.Word().Called }

func shoeShape(s fields) *trade.ShoeShape {
	shoe := &trade.ShoeShape{
		Outer:   s.measure("outer"),
		Inner:   s.measure("inner"),
		Angle:   s.measure("angle"),
		Width:   s.measure("width"),
		Length:  s.measure("length"),
		Height:  s.measure("height"),
		Chamfer: s.measure("chamfer"),
	}
	if s.has("stem") {
		shoe.Stem = stemShape(s.item("stem", s.at("stem"), "stem of the shoe"))
	}
	if s.has("hole") {
		hole := boredHole(s.item("hole", s.at("hole"), "hole of the shoe"))
		shoe.Hole = &hole
	}
	return shoe
}

func stemShape(s fields) *trade.StemShape {
	return &trade.StemShape{
		Diameter: s.measure("diameter"),
		Thread:   s.threadMade("thread"),
		Length:   s.measure("length"),
		Offset:   s.measure("offset"),
		Pos:      s.pos,
	}
}

func nutShape(s fields) *trade.NutShape {
	nut := &trade.NutShape{
		Height:  s.measure("height"),
		Thread:  s.threadMade("thread"),
		Chamfer: s.measure("chamfer"),
		Tommies: s.measure("tommies"),
	}
	if section := s.which(words([]trade.CrossSection{trade.Hexagon, trade.Square, trade.Round})...); section != "" {
		nut.Section, nut.Size = trade.CrossSection(section), s.measure(section)
	}
	return nut
}

func bushShape(s fields) *trade.BushShape {
	return &trade.BushShape{
		Outside:     s.measure("outside"),
		Inside:      s.measure("inside"),
		Length:      s.measure("length"),
		Flange:      s.measure("flange"),
		FlangeWidth: s.measure("flange-width"),
		Chamfer:     s.measure("chamfer"),
	}
}

func keyShape(s fields) *trade.KeyShape {
	return &trade.KeyShape{
		Width:     s.measure("width"),
		Height:    s.measure("height"),
		Length:    s.measure("length"),
		RoundEnds: s.text("ends") == "round",
		Chamfer:   s.measure("chamfer"),
	}
}

func (r shapeReader) gibShape(s fields) *trade.GibShape {
	return &trade.GibShape{
		Length: s.measure("length"),
		Width:  s.measure("width"),
		Thick:  s.measure("thick"),
		Thin:   s.measure("thin"),
		Angle:  s.measure("angle"),
		Holes:  r.holeShapes(s),
	}
}

func washerShape(s fields) *trade.WasherShape {
	return &trade.WasherShape{
		Outside:   s.measure("outside"),
		Inside:    s.measure("inside"),
		Thickness: s.measure("thickness"),
		Chamfer:   s.measure("chamfer"),
	}
}
