package draw

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// hatch draws the hatching of a region bounded by closed paths, given in mm of
// the part: lines at 45° from edge to edge, exactly.
func (c *canvas) hatch(region ...geom.Path) {
	area := 0.0
	var turned geom.Path
	for _, p := range region {
		p = p.Moved(c.pose).Scaled(c.scale)
		area += math.Abs(p.Area())
		turned = append(turned, p.Moved(geom.Pose{Angle: -math.Pi / 4})...)
	}
	if len(turned) == 0 {
		return
	}
	pitch := min(3, max(1.6, math.Sqrt(area)/12))
	box := turned.Bounds()
	for i := math.Ceil(box.Low.Y / pitch); i*pitch < box.High.Y; i++ {
		at := crossingsAt(turned, i*pitch)
		for j := 1; j < len(at); j += 2 {
			from, to := geom.Point{X: at[j-1], Y: i * pitch}, geom.Point{X: at[j], Y: i * pitch}
			const least = 0.2
			if at[j]-at[j-1] > least {
				c.add(ink.Stroke{Path: geom.Polyline(from.Turned(math.Pi/4), to.Turned(math.Pi/4)), Kind: ink.Hatching, Layer: ink.Hatches})
			}
		}
	}
}

// crossingsAt returns where a level line at y passes in and out of what closed
// paths bound, in order. Each edge counts where it leaves one side of the line
// for the other, its lower end with it: a corner on the line counts twice or not
// at all.
func crossingsAt(p geom.Path, y float64) []float64 {
	var list []float64
	for _, e := range p {
		if e.Turn == geom.Straight {
			if (e.From.Y <= y) != (e.To.Y <= y) {
				list = append(list, e.From.X+(e.To.X-e.From.X)*(y-e.From.Y)/(e.To.Y-e.From.Y))
			}
			continue
		}
		list = append(list, arcCrossings(e, y)...)
	}
	slices.Sort(list)
	return list
}

// arcCrossings does so for an arc, taken apart at its highest and lowest points.
func arcCrossings(e geom.Edge, y float64) []float64 {
	radius := e.Radius()
	cuts := []float64{0}
	for _, quarter := range []float64{-1, 1} {
		extreme := float64(e.Turn)*(quarter*math.Pi/2-e.From.Sub(e.Centre).Angle()) + 4*math.Pi
		if t := math.Mod(extreme, 2*math.Pi) / math.Abs(e.Sweep()); t > 0 && t < 1 {
			cuts = append(cuts, t)
		}
	}
	cuts = append(cuts, 1)
	slices.Sort(cuts)
	reach := math.Sqrt(max(0, radius*radius-(y-e.Centre.Y)*(y-e.Centre.Y)))
	var list []float64
	for i := 1; i < len(cuts); i++ {
		from, to := e.At(cuts[i-1]), e.At(cuts[i])
		if (from.Y <= y) == (to.Y <= y) {
			continue
		}
		side := e.At((cuts[i-1]+cuts[i])/2).X - e.Centre.X
		list = append(list, e.Centre.X+math.Copysign(reach, side))
	}
	return list
}
