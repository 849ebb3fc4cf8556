package gauge

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// gear is a spur gear about the origin. Its flanks are drawn as chords of
// involutes; what is measured on them is worked out from the involutes.
type gear struct {
	teeth           float64
	base, tip, root float64 // radii
	half            float64 // half the angle of a tooth on the base circle
	turned          float64 // direction of the middle of one tooth
}

// usualPressure is the pressure angle of a gear for which none is stated.
const usualPressure = 20 * degree

func newGear(module, shift, teeth, pressure, addendum float64) gear {
	return gear{
		teeth:  teeth,
		base:   module * teeth / 2 * math.Cos(pressure),
		tip:    module * (teeth/2 + addendum + shift),
		root:   module * (teeth/2 - 1.25*addendum + shift),
		half:   math.Pi/(2*teeth) + 2*shift*math.Tan(pressure)/teeth + math.Tan(pressure) - pressure,
		turned: math.Pi / 2,
	}
}

// spaceUp turns the gear so that a space is at the top.
func (g gear) spaceUp() gear {
	g.turned += math.Pi / g.teeth
	return g
}

// flankSteps is how many chords a flank has.
const flankSteps = 6

// halfAt returns half the angle of a tooth at a radius; inside the base circle
// the flank is drawn straight inward.
func (g gear) halfAt(radius float64) float64 {
	if radius <= g.base {
		return g.half
	}
	phi := math.Acos(g.base / radius)
	return max(0, g.half-math.Tan(phi)+phi)
}

// outline is the whole gear, with a bore, 0 for none.
func (g gear) outline(bore float64) geom.Path {
	var points []geom.Point
	radius := func(i int) float64 { return g.root + (g.tip-g.root)*float64(i)/flankSteps }
	for tooth := range int(g.teeth) {
		middle := g.turned + 2*math.Pi*float64(tooth)/g.teeth
		for i := range flankSteps + 1 {
			points = append(points, geom.Polar(radius(i), middle-g.halfAt(radius(i))))
		}
		for i := flankSteps; i >= 0; i-- {
			points = append(points, geom.Polar(radius(i), middle+g.halfAt(radius(i))))
		}
	}
	path := geom.Polygon(points...)
	if bore > 0 {
		path = append(path, geom.Circle(here, bore/2).Reversed()...)
	}
	return path
}

// gear puts the gear with its tip circle.
func (s *Sketch) gear(g gear, bore float64) {
	s.add(WorkShape, g.outline(bore))
	s.round(AxisShape, here, 2*g.tip)
	s.cross(here, 0.4*g.tip)
}

// sketchGearSpan unwinds the outer flanks of the teeth spanned from the base
// circle: the jaws meet them on the tangent at its top.
func sketchGearSpan(v []float64, s *Sketch) {
	teeth, spanned := v[2], v[4]
	g := newGear(v[0], v[1], teeth, v[3], v[5])
	if math.Mod(spanned, 2) == 0 {
		g = g.spaceUp()
	}
	s.gear(g, 0)
	s.round(TraceShape, here, 2*g.base)
	unwound := g.base * ((spanned-1)*math.Pi/teeth + g.half)
	s.jaws(Closing, xy(-unwound, g.base), xy(unwound, g.base), 1.6*(g.tip-g.root), up)
}

func sketchGearTips(v []float64, s *Sketch) {
	g := newGear(v[0], v[1], v[2], usualPressure, v[3])
	s.gear(g, 0)
	s.jaws(Closing, xy(0, -g.tip), xy(0, g.tip), 0.4*g.tip, right)
}

func sketchGearTipToBore(v []float64, s *Sketch) {
	bore := v[3]
	g := newGear(v[0], v[1], v[2], usualPressure, v[4])
	s.gear(g, bore)
	s.jaws(Closing, xy(0, bore/2), xy(0, g.tip), 0.3*g.tip, right)
	s.size(3, here, bore, down)
}

// sketchGearOverPins seats the pins where the normals of both flanks of a space
// meet, in opposite or nearly opposite spaces.
func sketchGearOverPins(v []float64, s *Sketch) {
	teeth, pin := v[2], v[4]
	g := newGear(v[0], v[1], teeth, v[3], v[5]).spaceUp()
	s.gear(g, 0)
	opening := math.Pi/teeth - g.half // of a space on the base circle, half of it
	out := g.base / math.Cos(invertInvolute(pin/2/g.base-opening))
	opposite := math.Floor(teeth/2) * 2 * math.Pi / teeth
	a, b := geom.Polar(out, math.Pi/2+opposite), geom.Polar(out, math.Pi/2)
	s.round(PieceShape, a, pin)
	s.ball(4, b, pin, left)
	along := b.Sub(a).Unit().Times(pin / 2)
	s.jaws(Closing, a.Sub(along), b.Add(along), 2*pin, right)
}
