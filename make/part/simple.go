package part

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// nut builds a nut with its thread right through, and cross holes at half its
// height where a bar is to turn it.
func (b *builder) nut(s *trade.NutShape) {
	step := trade.Step{Section: s.Section, Size: s.Size, Length: s.Height}
	if step.Section == "" {
		step.Section = trade.Hexagon
	}
	b.turned(&trade.TurnedShape{
		Steps: []trade.Step{step},
		Bore:  []trade.Step{{Thread: s.Thread, Chamfer: s.Chamfer}},
	})
	size := b.size(s.Tommies, trade.Diameter, "cross hole")
	if !size.stated() {
		return
	}
	height := b.needed(s.Height, trade.Height, "height")
	hole := CrossHole{X: height.Value / 2, Diameter: size.Value, Through: true}
	b.crossFits(hole, height, size, given{})
	b.model.Turned.Cross = append(b.model.Turned.Cross, hole)
	b.holeAcross(hole, Dimension{Measure: size.Measure, After: "through, at half the height"})
}

// bush builds a bush, perhaps with a flange at its left end. Its length is that
// over all.
func (b *builder) bush(s *trade.BushShape) {
	b.overall = b.needed(s.Length, trade.Length, "length")
	body := trade.Step{Section: trade.Round, Size: s.Outside, Chamfer: s.Chamfer}
	steps := []trade.Step{body}
	if s.Flange.Given() {
		steps = []trade.Step{{Section: trade.Round, Size: s.Flange, Length: s.FlangeWidth, Chamfer: s.Chamfer}, body}
	}
	b.turned(&trade.TurnedShape{Steps: steps, Bore: []trade.Step{{Size: s.Inside, Chamfer: s.Chamfer}}})
	if last := len(b.outside) - 1; last >= 0 {
		b.alongAxis(b.corner(), geom.Point{X: b.overall.Value, Y: b.outside[last].D1 / 2}, Dimension{Measure: b.overall.Measure})
	}
}

// washer builds a washer.
func (b *builder) washer(s *trade.WasherShape) {
	b.turned(&trade.TurnedShape{
		Steps: []trade.Step{{Section: trade.Round, Size: s.Outside, Length: s.Thickness, Chamfer: s.Chamfer}},
		Bore:  []trade.Step{{Size: s.Inside}},
	})
}

// guess returns the shape of a plain part whose sizes are called what they are.
// Where they are not, it says what to write.
func (b *builder) guess() (trade.Shape, bool) {
	kind, known := Find(b.part.Kind)
	if !known || kind.Plain == nil {
		b.refuse(nil, "a %s needs its shape: write under shape: which of its sizes is which", b.called())
		return trade.Shape{}, false
	}
	roles := kind.Plain.Sizes
	missing := slices.DeleteFunc(slices.Clone(roles), func(role string) bool { return b.part.Size(role) != nil })
	if len(missing) > 0 {
		b.refuse(nil, "a %s needs its shape: write it under shape:, or call its sizes %s; there is no %s",
			b.called(), strings.Join(roles, ", "), strings.Join(missing, ", "))
		return trade.Shape{}, false
	}
	return kind.Plain.Shape(func(id string) trade.Measure { return trade.Measure{ID: id, Pos: b.part.Size(id).Pos} }), true
}
