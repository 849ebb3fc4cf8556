package part

import "codeberg.org/oddleg/oddleg/job/trade"

// turnedKinds are the kinds that are turned about one axis.
var turnedKinds = []*Kind{
	{
		PartWord: trade.TurnedPart.Word(),
		Stated:   func(s *trade.Shape) bool { return s.Turned != nil },
		build:    func(b *builder, s *trade.Shape) { b.turned(s.Turned) },
		Sizes:    func(s *trade.Shape, take *Taking) { take.turned(s.Turned) },
		Stops:    func(s *trade.Shape, stops *Stops) { stops.turned(s.Turned) },
	},
	{
		PartWord: trade.NutPart.Word(),
		Stated:   func(s *trade.Shape) bool { return s.Nut != nil },
		build:    func(b *builder, s *trade.Shape) { b.nut(s.Nut) },
		Plain: &PlainShape{[]string{"hexagon", "height", "thread"}, func(called func(string) trade.Measure) trade.Shape {
			return trade.Shape{Nut: &trade.NutShape{Size: called("hexagon"), Height: called("height"), Thread: "thread"}}
		}},
		Sizes: func(s *trade.Shape, take *Taking) {
			take.Sizes(s.Nut.Size, s.Nut.Height)
			take.ID(s.Nut.Thread)
		},
	},
	{
		PartWord: trade.BushPart.Word(),
		Stated:   func(s *trade.Shape) bool { return s.Bush != nil },
		build:    func(b *builder, s *trade.Shape) { b.bush(s.Bush) },
		Plain: &PlainShape{[]string{"outside", "inside", "length"}, func(called func(string) trade.Measure) trade.Shape {
			return trade.Shape{Bush: &trade.BushShape{
				Outside: called("outside"), Inside: called("inside"), Length: called("length"),
			}}
		}},
		Sizes: func(s *trade.Shape, take *Taking) {
			take.Sizes(s.Bush.Outside, s.Bush.Flange, s.Bush.FlangeWidth, s.Bush.Inside, s.Bush.Length)
		},
		Stops: func(s *trade.Shape, stops *Stops) { stops.bush(s.Bush) },
	},
	{
		PartWord: trade.WasherPart.Word(),
		Stated:   func(s *trade.Shape) bool { return s.Washer != nil },
		build:    func(b *builder, s *trade.Shape) { b.washer(s.Washer) },
		Plain: &PlainShape{[]string{"outside", "inside", "thickness"}, func(called func(string) trade.Measure) trade.Shape {
			return trade.Shape{Washer: &trade.WasherShape{
				Outside: called("outside"), Inside: called("inside"), Thickness: called("thickness"),
			}}
		}},
		Sizes: func(s *trade.Shape, take *Taking) { take.Sizes(s.Washer.Outside, s.Washer.Inside, s.Washer.Thickness) },
	},
}
