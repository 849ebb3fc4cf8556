package part

import (
	"slices"
	"strings"

	"oddleg"
	"oddleg/geom"
)

// nut builds a nut with its thread right through, and cross holes at half its
// height where a bar is to turn it.
func (b *builder) nut(s *oddleg.NutShape) {
	step := oddleg.Step{Section: s.Section, Size: s.Size, Length: s.Height}
	if step.Section == "" {
		step.Section = oddleg.Hexagon
	}
	b.turned(&oddleg.TurnedShape{
		Steps: []oddleg.Step{step},
		Bore:  []oddleg.Step{{Thread: s.Thread, Chamfer: s.Chamfer}},
	})
	size := b.size(s.Tommies, oddleg.Diameter, "cross hole")
	if !size.stated() {
		return
	}
	height := b.needed(s.Height, oddleg.Height, "height")
	hole := CrossHole{X: height.Value / 2, Diameter: size.Value, Through: true}
	b.crossFits(hole, height, size, given{})
	b.model.Turned.Cross = append(b.model.Turned.Cross, hole)
	b.holeAcross(hole, Dimension{Measure: size.Measure, After: "through, at half the height"})
}

// bush builds a bush, perhaps with a flange at its left end. Its length is that
// over all.
func (b *builder) bush(s *oddleg.BushShape) {
	b.overall = b.needed(s.Length, oddleg.Length, "length")
	body := oddleg.Step{Section: oddleg.Round, Size: s.Outside, Chamfer: s.Chamfer}
	steps := []oddleg.Step{body}
	if s.Flange.Given() {
		steps = []oddleg.Step{{Section: oddleg.Round, Size: s.Flange, Length: s.FlangeWidth, Chamfer: s.Chamfer}, body}
	}
	b.turned(&oddleg.TurnedShape{Steps: steps, Bore: []oddleg.Step{{Size: s.Inside, Chamfer: s.Chamfer}}})
	if last := len(b.outside) - 1; last >= 0 {
		b.alongAxis(b.corner(), geom.Point{X: b.overall.Value, Y: b.outside[last].D1 / 2}, Dimension{Measure: b.overall.Measure})
	}
}

// washer builds a washer.
func (b *builder) washer(s *oddleg.WasherShape) {
	b.turned(&oddleg.TurnedShape{
		Steps: []oddleg.Step{{Section: oddleg.Round, Size: s.Outside, Length: s.Thickness, Chamfer: s.Chamfer}},
		Bore:  []oddleg.Step{{Size: s.Inside}},
	})
}

// plainShapes says what the sizes of a plain kind are called in its shape.
var plainShapes = map[oddleg.PartKind][]string{
	oddleg.BushPart:   {"outside", "inside", "length"},
	oddleg.WasherPart: {"outside", "inside", "thickness"},
	oddleg.KeyPart:    {"width", "height", "length"},
	oddleg.NutPart:    {"hexagon", "height", "thread"},
}

// guess returns the shape of a plain part whose sizes are called what they are.
// Where they are not, it says what to write.
func (b *builder) guess() (oddleg.Shape, bool) {
	roles, known := plainShapes[b.part.Kind]
	if !known {
		b.refuse(nil, "a %s needs its shape: write under shape: which of its sizes is which", b.kind())
		return oddleg.Shape{}, false
	}
	missing := slices.DeleteFunc(slices.Clone(roles), func(role string) bool { return b.part.Size(role) != nil })
	if len(missing) > 0 {
		b.refuse(nil, "a %s needs its shape: write it under shape:, or call its sizes %s; there is no %s",
			b.kind(), strings.Join(roles, ", "), strings.Join(missing, ", "))
		return oddleg.Shape{}, false
	}
	return b.plainShape(), true
}

func (b *builder) plainShape() oddleg.Shape {
	called := func(id string) oddleg.Measure { return oddleg.Measure{ID: id, Pos: b.part.Size(id).Pos} }
	switch b.part.Kind {
	case oddleg.BushPart:
		return oddleg.Shape{Bush: &oddleg.BushShape{Outside: called("outside"), Inside: called("inside"), Length: called("length")}}
	case oddleg.WasherPart:
		return oddleg.Shape{Washer: &oddleg.WasherShape{Outside: called("outside"), Inside: called("inside"), Thickness: called("thickness")}}
	case oddleg.KeyPart:
		return oddleg.Shape{Key: &oddleg.KeyShape{Width: called("width"), Height: called("height"), Length: called("length")}}
	}
	return oddleg.Shape{Nut: &oddleg.NutShape{Size: called("hexagon"), Height: called("height"), Thread: "thread"}}
}
