package part

import "codeberg.org/oddleg/oddleg/job/trade"

// prismKinds are the kinds that have an outline and a height.
var prismKinds = []*Kind{
	{
		PartWord: trade.SectorShoe.Word(),
		Stated:   func(s *trade.Shape) bool { return s.Shoe != nil },
		build:    func(b *builder, s *trade.Shape) { b.shoe(s.Shoe) },
		Sizes:    func(s *trade.Shape, take *Taking) { take.shoe(s.Shoe) },
		Stops:    func(s *trade.Shape, stops *Stops) { stops.shoe(s.Shoe) },

		FromTheRight: true,
		Arcs:         true,
	},
	{
		PartWord: trade.PlatePart.Word(),
		Stated:   func(s *trade.Shape) bool { return s.Plate != nil },
		build:    func(b *builder, s *trade.Shape) { b.plate(s.Plate) },
		Sizes:    func(s *trade.Shape, take *Taking) { take.plate(s.Plate) },
	},
	{
		PartWord: trade.KeyPart.Word(),
		Stated:   func(s *trade.Shape) bool { return s.Key != nil },
		build:    func(b *builder, s *trade.Shape) { b.key(s.Key) },
		Plain: &PlainShape{[]string{"width", "height", "length"}, func(called func(string) trade.Measure) trade.Shape {
			return trade.Shape{Key: &trade.KeyShape{Width: called("width"), Height: called("height"), Length: called("length")}}
		}},
		Sizes: func(s *trade.Shape, take *Taking) { take.Sizes(s.Key.Width, s.Key.Height, s.Key.Length) },
	},
	{
		PartWord: trade.GibPart.Word(),
		Stated:   func(s *trade.Shape) bool { return s.Gib != nil },
		build:    func(b *builder, s *trade.Shape) { b.gib(s.Gib) },
		Sizes: func(s *trade.Shape, take *Taking) {
			take.Sizes(s.Gib.Thick, s.Gib.Thin, s.Gib.Width, s.Gib.Length, s.Gib.Angle)
		},
		Stops: func(s *trade.Shape, stops *Stops) {
			if s.Gib.Angle.Given() {
				stops.Before(s.Gib.Width, "before the edges are planed to the angle: a sharp edge turns over and reads long")
			}
		},
	},
}
