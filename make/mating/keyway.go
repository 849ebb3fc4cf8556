package mating

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// keyway is a parallel key in the keyways of a shaft and a hub, seen along the
// shaft. The keyways face each other and have one centre line, y along it with
// the shaft below and the hub above 0; their roots are sharp and the shaft's
// curvature does not count. The key stands on the floor of the shaft's keyway,
// midway between its sides.
type keyway struct {
	width, height         float64
	shaftWidth, shaftDeep float64
	hubWidth, hubDeep     float64
}

func newKeyway(v []float64) (shapes, string) {
	for _, size := range v {
		if !(size > 0) {
			return nil, "the sizes of a key and its keyways must be more than nothing"
		}
	}
	return &keyway{v[0], v[1], v[2], v[3], v[4], v[5]}, ""
}

// inShaft, inHub and above return the gap on either side in the shaft's and in
// the hub's keyway, and that over the key.
func (k *keyway) inShaft() float64 { return (k.shaftWidth - k.width) / 2 }
func (k *keyway) inHub() float64   { return (k.hubWidth - k.width) / 2 }
func (k *keyway) above() float64   { return k.shaftDeep + k.hubDeep - k.height }

// taken says in which keyways the key stands at all.
func (k *keyway) taken() (shaft, hub bool) { return true, k.height > k.shaftDeep }

// beside returns the smaller gap on either side.
func (k *keyway) beside() float64 {
	if _, hub := k.taken(); !hub {
		return k.inShaft()
	}
	return min(k.inShaft(), k.inHub())
}

func (k *keyway) gap() float64 { return min(k.beside(), k.above()) }

func (k *keyway) bears() []Bearing {
	b := Bearing{Pressed: "sideways", On: OnBoth, StandsOff: math.Abs(k.inShaft() - k.inHub())}
	_, hub := k.taken()
	switch {
	case !hub || k.inShaft() < k.inHub() && b.StandsOff >= nothing:
		b.On = OnShaft
	case b.StandsOff >= nothing:
		b.On = OnHub
	}
	return []Bearing{b}
}

func (k *keyway) slides() []Slide {
	return []Slide{{"sideways", k.beside()}, {"up", k.above()}, {"along the shaft", math.Inf(1)}}
}

func (k *keyway) faces() []Face {
	side, top := k.width/2, k.height-k.shaftDeep
	faces := []Face{
		even("side in the shaft", k.inShaft(), geom.Point{X: side, Y: (min(0, top) - k.shaftDeep) / 2}),
	}
	if _, hub := k.taken(); hub {
		faces = append(faces, even("side in the hub", k.inHub(), geom.Point{X: side, Y: top / 2}))
	}
	return append(faces, even("top", k.above(), geom.Point{Y: top}))
}

// even is a face with the same gap all along.
func even(name string, gap float64, at geom.Point) Face {
	return Face{Name: name, Least: gap, Most: gap, LeastAt: at, MostAt: at}
}

func (k *keyway) outline() geom.Path {
	return geom.Rectangle(geom.Point{X: -k.width / 2, Y: -k.height / 2}, geom.Point{X: k.width / 2, Y: k.height / 2})
}

func (k *keyway) outlines() (part, mate []geom.Path) {
	key := k.outline().Moved(geom.Pose{Shift: geom.Point{Y: k.height/2 - k.shaftDeep}})
	shaft, hub := k.shaftWidth/2, k.hubWidth/2
	shoulder := max(shaft, hub) * 2
	below := geom.Polyline(geom.Point{X: -shoulder}, geom.Point{X: -shaft}, geom.Point{X: -shaft, Y: -k.shaftDeep},
		geom.Point{X: shaft, Y: -k.shaftDeep}, geom.Point{X: shaft}, geom.Point{X: shoulder})
	above := geom.Polyline(geom.Point{X: -shoulder}, geom.Point{X: -hub}, geom.Point{X: -hub, Y: k.hubDeep},
		geom.Point{X: hub, Y: k.hubDeep}, geom.Point{X: hub}, geom.Point{X: shoulder})
	return []geom.Path{key}, []geom.Path{below, above}
}

func (k *keyway) widened(times float64) shapes {
	drawn := *k
	drawn.shaftWidth += (times - 1) * 2 * k.inShaft()
	drawn.hubWidth += (times - 1) * 2 * k.inHub()
	drawn.hubDeep += (times - 1) * k.above()
	return &drawn
}

func (k *keyway) twist() float64 { return turnsUntil(k.gapAt, 2*math.Hypot(k.width, k.height)) }

// gapAt returns what is left at best, up and down or to either side, where the
// key is turned and lies wherever it has most room. What is left to the sides is
// counted along x: it is zero where the gap is.
func (k *keyway) gapAt(twist float64) float64 {
	turned := k.outline().Moved(geom.Pose{Angle: twist})
	half := turned.Extreme(geom.Point{Y: 1}).Y
	lowest, highest := half-k.shaftDeep, k.hubDeep-half
	if lowest > highest {
		return (highest - lowest) / 2
	}
	best := math.Inf(-1)
	for _, y := range k.heights(turned, lowest, highest) {
		best = max(best, k.room(turned, y).least())
	}
	return min(best, (highest-lowest)/2)
}

// room is what is left to the sides: in the shaft, in the hub, and between
// opposite sides of both.
type room [4]float64

func (r room) least() float64 { return min(r[0], r[1], r[2], r[3]) }

// room returns what is left with the key's middle at height y. The part of the
// key below 0 must be within the shaft's keyway, that above within the hub's.
func (k *keyway) room(turned geom.Path, y float64) room {
	shaft, hub := below(turned, -y, 1), below(turned, -y, -1)
	return room{
		(k.shaftWidth - shaft.right + shaft.left) / 2,
		(k.hubWidth - hub.right + hub.left) / 2,
		(k.shaftWidth/2 - shaft.right + k.hubWidth/2 + hub.left) / 2,
		(k.hubWidth/2 - hub.right + k.shaftWidth/2 + shaft.left) / 2,
	}
}

// reach is how far something goes to the left and to the right; nothing at all
// leaves any room.
type reach struct{ left, right float64 }

// below returns the reach of what of a polygon is below a level, or above it
// with sign -1.
func below(polygon geom.Path, level, sign float64) reach {
	r := reach{math.Inf(1), math.Inf(-1)}
	take := func(x float64) { r.left, r.right = min(r.left, x), max(r.right, x) }
	for _, e := range polygon {
		from, to := sign*(e.From.Y-level), sign*(e.To.Y-level)
		if from <= 0 {
			take(e.From.X)
		}
		if from*to < 0 {
			take(e.At(from / (from - to)).X)
		}
	}
	return r
}

// heights returns the heights of the key's middle at which it can have most room:
// where a corner passes between the keyways, and where two of what is left, which
// run straight in between, are equal.
func (k *keyway) heights(turned geom.Path, lowest, highest float64) []float64 {
	ends := []float64{lowest, highest}
	for _, e := range turned {
		if y := -e.From.Y; y > lowest && y < highest {
			ends = append(ends, y)
		}
	}
	slices.Sort(ends)
	list := slices.Clone(ends)
	for i := 1; i < len(ends); i++ {
		list = append(list, k.equal(turned, ends[i-1], ends[i])...)
	}
	return list
}

// equal returns where two of what is left are equal between two heights.
func (k *keyway) equal(turned geom.Path, low, high float64) []float64 {
	var list []float64
	inside := 1e-9 * (high - low)
	a, b := k.room(turned, low+inside), k.room(turned, high-inside)
	for i := range a {
		for j := range i {
			start, end := a[i]-a[j], b[i]-b[j]
			if t := start / (start - end); t > 0 && t < 1 {
				list = append(list, low+t*(high-low))
			}
		}
	}
	return list
}
