package gauge

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

var keys = []*Method{
	{
		ID:      "keyway-floor",
		When:    "A keyway's depth from the top of the round: over its floor and the far side of the shaft.",
		SetUp:   "Read over the keyway's floor ({depth}) and the far side of {shaft}",
		For:     []Purpose{{Slot, 1}},
		Words:   []string{"key seat", "slot"},
		Plainer: []Plainer{{"shaft", "outside", "size"}},
		Roles:   []Role{role("shaft", "D", Diameter), role("depth", "t", AnyLength).sought(trade.Depth)},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = D - t",
		Traps:   []string{"A worn keyway is hollow along the middle: lay a key in it and read over that.", trapUnworn},
		Source:  "geometry: the floor is t below the top of the round",
		Example: []float64{50, 6.5},
		Model:   keywayFloor,
		Sketch:  sketchKeywayFloor,
		Valid:   rules(floorInsideTheShaft(keywayFloor)),
	},
	{
		ID:      "keyway-floor-edge",
		When:    "A keyway's depth from its corner: over its floor and the far side of the shaft.",
		SetUp:   "Read over the keyway's floor ({depth} from its edge) and the far side of {shaft}",
		For:     []Purpose{{Slot, 2}},
		Words:   []string{"key seat", "slot"},
		Plainer: []Plainer{{"shaft", "outside", "size"}, {"width", "inside", "size"}},
		Roles: []Role{
			role("shaft", "D", Diameter),
			role("width", "b", AnyLength).sought(trade.Width),
			role("depth", "t", AnyLength).sought(trade.Depth),
		},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = D/2 + sqrt(D² - b²)/2 - t",
		Traps:   []string{"Burred or rounded corners make the depth at the corner read short.", trapUnworn},
		Source:  "geometry: a keyway's corner is sqrt(D² - b²)/2 from the axis; the handbook's s is D/2 less that",
		Example: []float64{50, 14, 5.5},
		Model:   keywayFloorEdge,
		Sketch:  sketchKeywayFloorEdge,
		Valid: rules(cutFitsTheRound("keyway"), floorInsideTheShaft(keywayFloorEdge),
			leverage(keywayFloorEdge, 0, "shaft")),
	},
	{
		ID:      "flat-on-round",
		When:    "A flat on a round: over the flat and the far side.",
		SetUp:   "Read over the flat {width} and the far side of {round}",
		For:     []Purpose{{Slot, 5}},
		Words:   []string{"D-shaft", "grub screw", "seat"},
		Plainer: []Plainer{{"round", "outside", "size"}},
		Roles:   []Role{role("round", "D", Diameter), role("width", "b", AnyLength).sought(trade.Width)},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = D/2 + sqrt(D² - b²)/2",
		Traps: []string{"More than half of the round must be left.", "The edges of the flat must be sharp where " +
			"its width counts."},
		Source:  "geometry: the flat is a chord b wide, sqrt(D² - b²)/2 from the axis",
		Example: []float64{30, 10},
		Model:   flatOnRound,
		Sketch:  sketchFlatOnRound,
		Valid:   rules(cutFitsTheRound("flat"), leverage(flatOnRound, 0, "round"), leverage(flatOnRound, 1, "width")),
	},
	{
		ID:      "hex-corners",
		When:    "A hexagon over its corners, where the flats cannot be reached.",
		SetUp:   "Read {flats} over the corners",
		For:     []Purpose{{Slot, 6}},
		Words:   []string{"nut", "bolt head", "spanner", "across flats"},
		Plainer: []Plainer{{"flats", "outside", "size"}},
		Roles:   []Role{role("flats", "s", AnyLength).sought(trade.Width)},
		Reads:   unit.Length,
		Jaw:     Closing,
		Formula: "m = 2·s/sqrt(3)",
		Traps:   []string{"Worn corners, and the chamfer of a nut, read low."},
		Source:  "geometry: the corners of a regular hexagon are 2/√3 of its flats apart",
		Example: []float64{22},
		Model:   hexCorners,
		Sketch:  sketchHexCorners,
	},
}

func keywayFloor(a Args) grad.Number {
	shaft, depth := a[0], a[1]
	return shaft.Sub(depth)
}

// overChord is the distance from a chord of this width to the far side of the
// round.
func overChord(round, width grad.Number) grad.Number {
	return round.Half().Add(round.Sq().Sub(width.Sq()).Sqrt().Half())
}

func keywayFloorEdge(a Args) grad.Number {
	shaft, width, depth := a[0], a[1], a[2]
	return overChord(shaft, width).Sub(depth)
}

func flatOnRound(a Args) grad.Number {
	round, width := a[0], a[1]
	return overChord(round, width)
}

func hexCorners(a Args) grad.Number {
	flats := a[0]
	return flats.Times(2).Div(grad.Const(3).Sqrt())
}

func cutFitsTheRound(what string) rule {
	return func(v []float64, r *remarks) {
		if round, width := v[0], v[1]; width >= round {
			r.broken("a %s %s wide does not go on a round of %s", what, unit.LengthOf(width), unit.LengthOf(round))
		}
	}
}

func floorInsideTheShaft(f model) rule {
	return func(v []float64, r *remarks) {
		if m := f.at(v); m <= 0 {
			r.broken("a keyway %s deep would go through the shaft of %s", unit.LengthOf(v[len(v)-1]), unit.LengthOf(v[0]))
		}
	}
}
