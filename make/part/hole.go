package part

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// drilled is a hole and the sizes it comes from.
type drilled struct {
	Hole
	size, depth, boreD, boreH, sinkD given
	x, y                             given
}

// radius is that of its mouth.
func (d drilled) radius() float64 {
	return max(d.Diameter, d.CounterboreD, d.CountersinkD) / 2
}

// mouth is the size of its mouth.
func (d drilled) mouth() given {
	switch {
	case d.boreD.stated():
		return d.boreD
	case d.sinkD.stated():
		return d.sinkD
	}
	return d.size
}

// holes drills holes; places are counted from an origin in the plan.
func (b *builder) holes(list []trade.HoleShape, origin geom.Point, thickness given) {
	var all []drilled
	for i := range list {
		h := &list[i]
		d := b.drilled(h)
		first := len(all)
		for _, at := range b.at(h, &d, origin) {
			d.At = at
			if d.Through {
				d.Depth = b.model.Prism.Floor(at)
			}
			b.holeFits(d, all, thickness)
			all = append(all, d)
			b.model.Prism.Holes = append(b.model.Prism.Holes, d.Hole)
		}
		b.circleDimensions(h, all[first:])
		b.said(d.size, h.Say)
	}
	b.holeDimensions(all)
}

// drilled reads what a hole is like, wherever it is.
func (b *builder) drilled(h *trade.HoleShape) drilled {
	var d drilled
	if h.Thread != "" {
		d.Thread, d.size = b.thread(h.Thread, true, h.Pos)
		d.Diameter = d.Thread.Minor
	} else {
		d.size = b.needed(h.Diameter, trade.Diameter, "hole")
		d.Diameter = d.size.Value
	}
	d.depth = b.size(h.Depth, trade.Depth, "depth of the hole")
	d.Through, d.Depth = !d.depth.stated(), d.depth.orZero()
	d.boreD = b.size(h.CounterboreD, trade.Diameter, "counterbore")
	d.boreH = b.size(h.CounterboreH, trade.Depth, "depth of the counterbore")
	d.sinkD = b.size(h.CountersinkD, trade.Diameter, "countersink")
	d.CounterboreD, d.CounterboreH, d.CountersinkD = d.boreD.orZero(), d.boreH.orZero(), d.sinkD.orZero()
	if d.boreD.stated() != d.boreH.stated() {
		b.refuse(places(d.boreD, d.boreH, given{pos: h.Pos}), "a counterbore needs both its diameter and its depth")
	}
	b.mouthFits(d)
	return d
}

// mouthFits refuses a counterbore or countersink that is none.
func (b *builder) mouthFits(d drilled) {
	switch {
	case d.boreD.stated() && d.sinkD.stated():
		b.clash(d.boreD, d.sinkD, "a hole has one or the other")
	case d.boreD.stated() && d.CounterboreD <= d.Diameter+level:
		b.clash(d.boreD, d.size, "the counterbore is not larger than its hole")
	case d.sinkD.stated() && d.CountersinkD <= d.Diameter+level:
		b.clash(d.sinkD, d.size, "the countersink is not larger than its hole")
	case d.depth.stated() && d.boreH.stated() && d.CounterboreH >= d.Depth-level:
		b.clash(d.boreH, d.depth, "the counterbore is as deep as its hole")
	case d.depth.stated() && d.sinkD.stated() && d.sink() >= d.Depth-level:
		b.clash(d.sinkD, d.depth, "the countersink is as deep as its hole")
	}
}

// sink is how deep its countersink goes, at 90°.
func (h Hole) sink() float64 { return max(0, h.CountersinkD-h.Diameter) / 2 }

// at returns the places of a hole, of a circle of holes or of the holes of a
// plan.
func (b *builder) at(h *trade.HoleShape, d *drilled, origin geom.Point) []geom.Point {
	middles := b.middles(h, d, origin)
	if !h.Circle.Given() {
		return middles
	}
	circle, first := b.size(h.Circle, trade.Diameter, "circle of holes"), b.size(h.First, trade.Angle, "angle of the first hole")
	if h.Count < 2 {
		b.refuse(places(circle, given{pos: h.Pos}), "%v needs its count, 2 or more", circle)
	}
	if len(middles) != 1 {
		b.refuse(places(circle, given{pos: h.Pos}), "%v goes round one hole of a plan: name it with of", circle)
		return nil
	}
	var list []geom.Point
	for i := range h.Count {
		list = append(list, middles[0].Add(geom.Polar(circle.Value/2, first.orZero()+2*math.Pi*float64(i)/float64(h.Count))))
	}
	return list
}

// middles returns the places of a hole or of the holes of a plan, or what a
// circle of holes goes round.
func (b *builder) middles(h *trade.HoleShape, d *drilled, origin geom.Point) []geom.Point {
	if h.Plan != "" {
		return b.planned(h, origin)
	}
	d.x, d.y = b.size(h.X, trade.Offset, "x of the hole"), b.size(h.Y, trade.Offset, "y of the hole")
	middle := origin.Add(geom.Point{X: d.x.orZero(), Y: d.y.orZero()})
	b.place(middle, d.x, d.y)
	return []geom.Point{middle}
}

// planned returns where the holes of a plan were found, and dimensions them.
func (b *builder) planned(h *trade.HoleShape, origin geom.Point) []geom.Point {
	var list []geom.Point
	for _, id := range b.holesOf(h) {
		x, y := b.coordinate(id, 0), b.coordinate(id, 1)
		if math.IsNaN(x.Value) || math.IsNaN(y.Value) {
			b.refuse(places(given{pos: h.Pos}), "where the hole %s of the plan %s is was not found by the readings", id, h.Plan)
			continue
		}
		at := origin.Add(geom.Point{X: x.Value, Y: y.Value})
		b.place(at, x, y)
		list = append(list, at)
	}
	return list
}

// holesOf returns the ids of the holes of a plan that are wanted.
func (b *builder) holesOf(h *trade.HoleShape) []string {
	if len(h.Of) > 0 {
		return h.Of
	}
	for _, p := range b.job.Plans {
		if p.ID == h.Plan {
			return p.Holes
		}
	}
	b.refuse(places(given{pos: h.Pos}), "there is no plan %q", h.Plan)
	return nil
}

// coordinate returns x (axis 0) or y (axis 1) of a hole as it was found.
func (b *builder) coordinate(id string, axis int) given {
	g := given{what: "place of the hole " + id, in: b.job.Units}
	g.Kind, g.Value, g.From, g.Why = trade.Offset, math.NaN(), Measured, "where "+id+" was found"
	if b.found == nil {
		return g
	}
	for _, p := range b.found.Places {
		if p.ID == id && p.Determined {
			g.Value, g.Low, g.High, g.U = p.At[axis], p.At[axis], p.At[axis], p.U[axis]
		}
	}
	return g
}

// holeFits refuses a hole that breaks an edge, runs into another or comes out
// below.
func (b *builder) holeFits(d drilled, others []drilled, thickness given) {
	p := b.model.Prism
	if !p.Outline.Contains(d.At) {
		b.refuse(b.holePlaces(d), "%v at %s is outside the outline", d.size, b.spot(d.At))
		return
	}
	if edge := p.Outline.DistanceTo(d.At); edge-d.radius()-p.Chamfer < level {
		b.refuse(b.holePlaces(d), "%v at %s breaks the edge of the part, which is %s from its middle%s", d.mouth(),
			b.spot(d.At), b.length(edge), b.lessChamfer())
	} else if room := edge - p.leaning(d.At); room-d.radius() < level {
		b.refuse(b.holePlaces(d), "%v at %s breaks the leaning side", d.mouth(), b.spot(d.At))
	}
	for _, o := range others {
		if apart := o.At.Distance(d.At); apart <= o.radius()+d.radius()+level {
			b.refuse(b.holePlaces(d), "%v at %s and %v at %s meet: their middles are %s apart", o.mouth(),
				b.spot(o.At), d.mouth(), b.spot(d.At), b.length(apart))
			return
		}
	}
	b.holeInFloor(d, thickness)
}

// leaning is how much further a leaning side stands in at the top than it does
// at the bottom, on the side where it does.
func (p *Prism) leaning(at geom.Point) float64 {
	return p.Height * math.Tan(p.Lean) * map[bool]float64{true: 1}[at.Y < p.Outline.Bounds().Low.Y+p.Outline.Bounds().Size().Y/2]
}

// holeInFloor refuses a hole that runs over the edge of what is milled round it,
// or is too deep for what is left there.
func (b *builder) holeInFloor(d drilled, thickness given) {
	p := b.model.Prism
	for _, path := range p.milled() {
		if path.DistanceTo(d.At) < d.radius()+level {
			b.refuse(b.holePlaces(d), "%v at %s runs over the edge of a slot or ledge", d.mouth(), b.spot(d.At))
			return
		}
	}
	floor := p.Floor(d.At)
	switch {
	case floor <= level:
		b.refuse(b.holePlaces(d), "%v at %s is in a slot right through", d.size, b.spot(d.At))
	case !d.Through && d.Depth+PointLength(d.Diameter) >= floor-level:
		b.clash(d.depth, thickness, "the hole with its drill point of "+b.length(PointLength(d.Diameter))+" comes out below; leave the depth away for a hole right through")
	case d.CounterboreH >= floor-level:
		b.clash(d.boreH, thickness, "the counterbore comes out below")
	case d.sink() >= floor-level:
		b.clash(d.sinkD, thickness, "the countersink comes out below")
	case p.Thin > 0 && d.radius() > d.Diameter/2:
		b.refuse(b.holePlaces(d), "%v is on the sloping face of a tapered gib, where only plain holes are drilled", d.mouth())
	}
}

// milled returns the edges of ledges and slots.
func (p *Prism) milled() []geom.Path {
	var list []geom.Path
	for _, l := range p.Ledges {
		list = append(list, l.Outline)
	}
	for _, s := range p.Slots {
		list = append(list, s.Outline())
	}
	return list
}

func (b *builder) holePlaces(d drilled) []trade.Pos { return places(d.size, d.x, d.y, d.mouth()) }

// circleDimensions dimensions a circle of holes.
func (b *builder) circleDimensions(h *trade.HoleShape, holes []drilled) {
	if !h.Circle.Given() || len(holes) < 2 {
		return
	}
	circle := b.size(h.Circle, trade.Diameter, "circle of holes")
	centre := geom.Middle(holes[0].At, holes[1].At)
	if n := len(holes); n > 2 {
		centre = geom.Point{}
		for _, hole := range holes {
			centre = centre.Add(hole.At.Times(1 / float64(n)))
		}
	}
	b.model.Prism.Circles = append(b.model.Prism.Circles, HoleCircle{centre, circle.Value})
	b.add(Dimension{View: Plan, Kind: Diameter, A: centre, B: holes[0].At, Measure: circle.Measure})
	if first := b.size(h.First, trade.Angle, "angle of the first hole"); first.orZero() != 0 {
		b.add(Dimension{View: Plan, Kind: Angle, A: centre.Add(geom.Point{X: circle.Value / 2}), B: holes[0].At, Vertex: centre, Measure: first.Measure})
	}
}

// alike is what makes holes one kind, called out once.
type alike struct {
	size, depth, boreD, boreH, sinkD Measure
	through                          bool
}

// holeDimensions calls out the holes, those of one kind together.
func (b *builder) holeDimensions(all []drilled) {
	counts := map[alike]int{}
	kind := func(d drilled) alike {
		return alike{d.size.Measure, d.depth.Measure, d.boreD.Measure, d.boreH.Measure, d.sinkD.Measure, d.Through}
	}
	for _, d := range all {
		counts[kind(d)]++
	}
	for _, d := range all {
		count := counts[kind(d)]
		if count == 0 {
			continue
		}
		delete(counts, kind(d))
		call := Dimension{Measure: d.size.Measure, Count: count, Thread: d.Thread}
		if !d.Through {
			call.After, call.Second = "deep #", d.depth.Measure
		}
		b.hole(d.At, call)
		if d.boreD.stated() {
			b.hole(d.At, Dimension{Measure: d.boreD.Measure, Count: count, After: "counterbore deep #", Second: d.boreH.Measure})
		}
		if d.sinkD.stated() {
			b.hole(d.At, Dimension{Measure: d.sinkD.Measure, Count: count, After: "countersink 90°"})
		}
	}
}

// hole dimensions the diameter of a hole in the plan.
func (b *builder) hole(at geom.Point, d Dimension) {
	d.View, d.Kind, d.A = Plan, Diameter, at
	d.B = at.Add(geom.Polar(d.Measure.Value/2, math.Pi/4))
	b.add(d)
}
