package mating

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// bolts are bolts or studs where they stand, in clearance holes drilled where
// they were meant to be: both with straight sides, square to the plate.
type bolts struct {
	stand      []geom.Point
	drilled    []geom.Point
	hole, bolt float64
	names      []string
}

func newBolts(stand, drilled []geom.Point, hole, bolt float64, names []string) (shapes, string) {
	if !(hole > 0 && bolt > 0) {
		return nil, "the diameters of holes and bolts must be more than nothing"
	}
	return &bolts{stand, drilled, hole, bolt, names}, ""
}

// clear returns how far each bolt may be out of the middle of its hole.
func (b *bolts) clear() float64 { return (b.hole - b.bolt) / 2 }

// gap returns the smallest gap with the plate laid where the worst bolt is best
// off.
func (b *bolts) gap() float64 {
	shift := 0.0
	for i, p := range b.stand {
		shift = max(shift, p.Distance(b.drilled[i]))
	}
	if shift == 0 {
		return b.clear()
	}
	// A twist that moves the holes by more than twice what they are off by does no
	// good; about their middle, it is the least that the farthest of them moves by.
	turn := min(math.Pi/2, 4*shift/b.reach())
	return b.clear() - least(-turn, turn, b.out)
}

// reach returns how far the farthest hole is from the middle of all, never
// nothing.
func (b *bolts) reach() float64 {
	return max(radiusRound(b.drilled), touching)
}

// radiusRound returns the radius of the smallest circle round points.
func radiusRound(points []geom.Point) float64 {
	_, radius := geom.Polygon(points...).EnclosingCircle()
	return radius
}

// out returns how far the worst bolt is from the middle of its hole where the
// plate is turned and then laid at best: the radius of the smallest circle round
// the places of the bolts, each seen from its hole. For a small twist these move
// straight on, so that there is one valley.
func (b *bolts) out(twist float64) float64 {
	seen := make([]geom.Point, len(b.stand))
	for i, p := range b.stand {
		seen[i] = p.Sub(b.drilled[i].Turned(twist))
	}
	return radiusRound(seen)
}

func (b *bolts) twist() float64 {
	return turnsUntil(func(twist float64) float64 { return b.clear() - b.out(twist) }, b.reach())
}

func (b *bolts) bears() []Bearing { return []Bearing{{Pressed: "any way", On: OnBolts}} }

func (b *bolts) slides() []Slide { return []Slide{{"any way", b.gap()}} }

func (b *bolts) faces() []Face {
	faces := make([]Face, len(b.stand))
	for i, p := range b.stand {
		faces[i] = even(b.names[i], b.clear()-p.Distance(b.drilled[i]), p.Add(geom.Point{X: b.bolt / 2}))
	}
	return faces
}

func (b *bolts) outline() geom.Path { return nil }

func (b *bolts) outlines() (part, mate []geom.Path) {
	for i, p := range b.stand {
		part = append(part, geom.Circle(b.drilled[i], b.hole/2))
		mate = append(mate, geom.Circle(p, b.bolt/2))
	}
	return part, mate
}

func (b *bolts) widened(k float64) shapes {
	drawn := *b
	drawn.hole = b.bolt + k*(b.hole-b.bolt)
	return &drawn
}
