package mating

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// dovetail is a male dovetail in a female one with a parallel gib along its
// right flank. Widths are those that rollers find: of the male at its foot, where
// it is narrowest, and of the female in its corners, where it is widest; the two
// are the height of the flanks apart. The male stands on its wide flat at y = 0,
// y towards its foot, both shapes are symmetrical about x = 0 but for the gib,
// and the walls are as high as the male. Its place is midway between the flank
// and the gib.
type dovetail struct {
	male, female, angle, gib, height float64
}

func newDovetail(v []float64) (shapes, string) {
	d := &dovetail{v[0], v[1], v[2], v[3], v[4]}
	switch {
	case !(d.male > 0 && d.female > 0 && d.gib > 0 && d.height > 0):
		return nil, "the sizes of a dovetail and its gib must be more than nothing"
	case !(d.angle > 0 && d.angle < math.Pi/2):
		return nil, "the angle of the flanks to the flat must lie between 0 and 90°"
	}
	return d, ""
}

// lean returns how far a flank leans over its height.
func (d *dovetail) lean() float64 { return d.height / math.Tan(d.angle) }

// wide returns the width of the male over its sharp edges.
func (d *dovetail) wide() float64 { return d.male + 2*d.lean() }

// play returns how far the male moves sideways in all: F - (M + 2h·cot α) -
// t/sin α.
func (d *dovetail) play() float64 { return d.female - d.wide() - d.gib/math.Sin(d.angle) }

// gap is square to the flanks.
func (d *dovetail) gap() float64 { return d.play() / 2 * math.Sin(d.angle) }

func (d *dovetail) bears() []Bearing {
	return []Bearing{{Pressed: "sideways", On: OnFace}, {Pressed: "up", On: OnFlanks}}
}

// slides: lifted, it comes to both flanks at play/2·tan α.
func (d *dovetail) slides() []Slide {
	half := d.play() / 2
	return []Slide{{"sideways", half}, {"up", half * math.Tan(d.angle)}, {"along the slide", math.Inf(1)}}
}

// middle returns where the middle of the male is: the gib stands on the right.
func (d *dovetail) middle() float64 { return -d.gib / math.Sin(d.angle) / 2 }

func (d *dovetail) faces() []Face {
	foot := geom.Point{X: (d.male + d.lean()) / 2, Y: d.height / 2}
	place := geom.Point{X: d.middle()}
	return []Face{
		even("flank", d.gap(), place.Add(geom.Point{X: -foot.X, Y: foot.Y})),
		even("gib", d.gap(), place.Add(foot)),
	}
}

// outline has its middle on x = 0.
func (d *dovetail) outline() geom.Path {
	wide, narrow := d.wide()/2, d.male/2
	return geom.Polygon(geom.Point{X: -wide}, geom.Point{X: wide}, geom.Point{X: narrow, Y: d.height}, geom.Point{X: -narrow, Y: d.height})
}

func (d *dovetail) outlines() (part, mate []geom.Path) {
	wide, lean := d.female/2, d.lean()
	thick := d.gib / math.Sin(d.angle)
	female := geom.Polyline(geom.Point{X: lean - wide, Y: d.height}, geom.Point{X: -wide}, geom.Point{X: wide}, geom.Point{X: wide - lean, Y: d.height})
	gib := geom.Polygon(geom.Point{X: wide - thick}, geom.Point{X: wide}, geom.Point{X: wide - lean, Y: d.height}, geom.Point{X: wide - lean - thick, Y: d.height})
	return []geom.Path{d.outline().Moved(geom.Pose{Shift: geom.Point{X: d.middle()}})}, []geom.Path{female, gib}
}

func (d *dovetail) widened(k float64) shapes {
	drawn := *d
	drawn.female += (k - 1) * d.play()
	return &drawn
}

func (d *dovetail) twist() float64 {
	return turnsUntil(d.gapAt, math.Hypot(d.wide()/2, d.height))
}

// gapAt returns the smallest gap at best, where the male is turned and lies
// wherever it has most room between the flat and the flanks: these three have
// outward normals that balance, 2·cos α·n + n' + n" = 0, so that what is left to
// them, in these shares, is the same wherever it lies.
func (d *dovetail) gapAt(twist float64) float64 {
	turned := d.outline().Moved(geom.Pose{Angle: twist})
	sin, cos := math.Sincos(d.angle)
	left := func(normal geom.Point, wall float64) float64 { return wall - turned.Extreme(normal).Dot(normal) }
	flat := left(geom.Point{Y: -1}, 0)
	flank := left(geom.Point{X: -sin, Y: cos}, d.female/2*sin)
	gib := left(geom.Point{X: sin, Y: cos}, d.female/2*sin-d.gib)
	return (2*cos*flat + flank + gib) / (2 * (1 + cos))
}
