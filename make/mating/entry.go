package mating

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// attitudes returns the ways of offering a part, an outline of some height, to
// an opening, that which leaves most room first. The part goes straight in. It
// is offered flat, so that its outline goes through; on end, so that only its
// narrowest width and its height do; and on its side, so that the width across
// that does. Each is turned about the way in to where it has most room. Without
// a height, 0, it is offered flat only.
//
// A round hole must take the smallest circle round what goes through, an open
// end its narrowest width, a slot with square ends some width and that square to
// it.
func attitudes(kind trade.PairKind, opening []float64, outline geom.Path, height float64) []Attitude {
	list := []Attitude{offered("flat", kind, opening, outline)}
	if height > 0 {
		hull := outline.Hull()
		narrow, angle := hull.Narrowest()
		for _, side := range []struct {
			name  string
			width float64
		}{{"on end", narrow}, {"on its side", hull.Width(angle + math.Pi/2)}} {
			list = append(list, offered(side.name, kind, opening, geom.Rectangle(geom.Point{}, geom.Point{X: side.width, Y: height})))
		}
	}
	slices.SortStableFunc(list, func(a, b Attitude) int {
		switch {
		case a.Spare > b.Spare:
			return -1
		case a.Spare < b.Spare:
			return 1
		}
		return 0
	})
	return list
}

// offered says what a silhouette needs of an opening.
func offered(name string, kind trade.PairKind, opening []float64, silhouette geom.Path) Attitude {
	switch kind {
	case roundHole:
		_, radius := silhouette.EnclosingCircle()
		return Attitude{name, []float64{2 * radius}, opening[0] - 2*radius}
	case slot:
		hull := silhouette.Hull()
		spare, angle := hull.Spare(opening[0], opening[1])
		return Attitude{name, []float64{hull.Width(angle), hull.Width(angle + math.Pi/2)}, spare}
	}
	narrow, _ := silhouette.Hull().Narrowest()
	return Attitude{name, []float64{narrow}, opening[0] - narrow}
}
