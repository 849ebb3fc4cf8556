package part

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// root is the square root of what is not less than nothing but for rounding.
func root(x float64) float64 { return math.Sqrt(max(0, x)) }

// Floor returns the height of the surface at a place in the plan before any hole
// is drilled: that of the top face, of a ledge or of the bottom of a blind slot;
// 0 in a slot right through.
func (p *Prism) Floor(at geom.Point) float64 {
	floor := p.top(at.X)
	for _, l := range p.Ledges {
		if l.Outline.Contains(at) {
			floor -= l.Depth
		}
	}
	for _, s := range p.Slots {
		if s.Outline().Contains(at) {
			floor = max(0, floor-s.Depth)
		}
	}
	return floor
}

// top returns the height of the top face at x.
func (p *Prism) top(x float64) float64 {
	if p.Thin == 0 {
		return p.Height
	}
	box := p.Outline.Bounds()
	return p.Height + (p.Thin-p.Height)*(x-box.Low.X)/box.Size().X
}

// Outline returns the outline of a slot, anticlockwise.
func (s Slot) Outline() geom.Path { return stadium(s.From, s.To, s.Width) }

// ledges mills ledges.
func (b *builder) ledges(list []trade.Ledge, thickness given) {
	p := b.model.Prism
	for i := range list {
		l := &list[i]
		low, high := b.box(l)
		depth := b.needed(l.Depth, trade.Depth, "depth of a ledge")
		ledge := Ledge{Outline: clipped(p.Outline, geom.Box{Low: low, High: high}), Depth: depth.Value}
		if depth.Value >= thickness.Value-level {
			b.clash(depth, thickness, "the ledge is as deep as the plate is thick")
		}
		if !b.ledgeFits(ledge, geom.Box{Low: low, High: high}, depth) {
			continue
		}
		p.Ledges = append(p.Ledges, ledge)
		x, y := ledge.Outline.Bounds().High.X, thickness.Value
		b.add(Dimension{View: Edge, Kind: Up, A: geom.Point{X: x, Y: y - depth.Value}, B: geom.Point{X: x, Y: y}, Measure: depth.Measure})
	}
	b.unchamfer()
}

// box returns the rectangle of a ledge and dimensions its sides where they are
// not those of the plate.
func (b *builder) box(l *trade.Ledge) (low, high geom.Point) {
	fromX, fromY := b.size(l.FromX, trade.Offset, "x of a ledge"), b.size(l.FromY, trade.Offset, "y of a ledge")
	toX, toY := b.size(l.ToX, trade.Offset, "x of a ledge"), b.size(l.ToY, trade.Offset, "y of a ledge")
	from, to := geom.Point{X: fromX.orZero(), Y: fromY.orZero()}, geom.Point{X: toX.orZero(), Y: toY.orZero()}
	edges := b.model.Prism.Outline.Bounds()
	for _, side := range []struct {
		up          bool
		g           given
		least, most float64
	}{
		{false, fromX, edges.Low.X, edges.High.X},
		{true, fromY, edges.Low.Y, edges.High.Y},
		{false, toX, edges.Low.X, edges.High.X},
		{true, toY, edges.Low.Y, edges.High.Y},
	} {
		switch {
		case math.Abs(side.g.Value-side.least) < level || math.Abs(side.g.Value-side.most) < level:
		case side.up:
			b.place(geom.Point{X: from.X, Y: side.g.Value}, given{}, side.g)
		default:
			b.place(geom.Point{X: side.g.Value, Y: from.Y}, side.g, given{})
		}
	}
	return geom.Point{X: min(from.X, to.X), Y: min(from.Y, to.Y)}, geom.Point{X: max(from.X, to.X), Y: max(from.Y, to.Y)}
}

// ledgeFits refuses a ledge that is off the plate, is all of it, or lies over
// another.
func (b *builder) ledgeFits(l Ledge, box geom.Box, depth given) bool {
	p := b.model.Prism
	edges := p.Outline.Bounds()
	from, to := b.spot(box.Low), b.spot(box.High)
	switch area := l.Outline.Area(); {
	case box.Low.X < edges.Low.X-level || box.Low.Y < edges.Low.Y-level || box.High.X > edges.High.X+level || box.High.Y > edges.High.Y+level:
		b.refuse(places(depth), "the ledge from %s to %s reaches beyond the plate, which lies from %s to %s", from, to, b.spot(edges.Low), b.spot(edges.High))
		return false
	case !(area > level): // nor a number
		b.refuse(places(depth), "the ledge from %s to %s takes nothing off the plate", from, to)
		return false
	case area > p.Outline.Area()-level:
		b.refuse(places(depth), "the ledge is the whole plate: make the plate thinner instead")
		return false
	}
	for i, o := range p.Ledges {
		if over := clipped(o.Outline, box); len(over) > 0 && over.Area() > level {
			b.refuse(places(depth), "ledge %d lies over ledge %d", len(p.Ledges)+1, i+1)
			return false
		}
	}
	return true
}

// unchamfer leaves the chamfer to words where a ledge or slot runs to the edge.
func (b *builder) unchamfer() {
	p := b.model.Prism
	if p.Chamfer == 0 {
		return
	}
	for _, l := range p.Ledges {
		near, edge := l.Outline.Closest(p.Outline)
		if near.Distance(edge) <= p.Chamfer {
			p.Chamfer = 0
			b.note("The chamfer of the edges is not drawn, because a ledge runs to them.")
			return
		}
	}
}

// clipped returns the part of a closed path inside a box, exact with arcs. Where
// the part falls into several they are joined along the sides of the box by
// edges that run both ways.
func clipped(path geom.Path, box geom.Box) geom.Path {
	for _, side := range []struct {
		normal geom.Point
		most   float64
	}{
		{geom.Point{X: 1}, box.High.X},
		{geom.Point{Y: 1}, box.High.Y},
		{geom.Point{X: -1}, -box.Low.X},
		{geom.Point{Y: -1}, -box.Low.Y},
	} {
		path = halved(path, side.normal, side.most)
	}
	return path
}

// halved returns the part of a closed path where normal·p ≤ most.
func halved(path geom.Path, normal geom.Point, most float64) geom.Path {
	var out trace
	inside := func(q geom.Point) bool { return q.Dot(normal) <= most+level }
	for _, e := range path {
		for _, part := range cutAt(e, normal, most) {
			if inside(part.At(0.5)) && inside(part.From) && inside(part.To) {
				out.along(part)
			}
		}
	}
	if len(out.path) == 0 {
		return nil
	}
	return out.closed()
}

// cutAt splits an edge where normal·p = most, normal a unit vector.
func cutAt(e geom.Edge, normal geom.Point, most float64) []geom.Edge {
	cuts := []float64{0}
	for _, t := range slices.Sorted(slices.Values(crossings(e, normal, most))) {
		if last := cuts[len(cuts)-1]; (t-last)*e.Length() > level && (1-t)*e.Length() > level {
			cuts = append(cuts, t)
		}
	}
	cuts = append(cuts, 1)
	var parts []geom.Edge
	for i := 1; i < len(cuts); i++ {
		parts = append(parts, e.Part(cuts[i-1], cuts[i]))
	}
	return parts
}

// crossings returns how far along an edge normal·p = most, as parts of it.
func crossings(e geom.Edge, normal geom.Point, most float64) []float64 {
	if e.Turn == geom.Straight {
		if run := e.To.Sub(e.From).Dot(normal); run != 0 {
			return []float64{(most - e.From.Dot(normal)) / run}
		}
		return nil
	}
	cos := (most - e.Centre.Dot(normal)) / e.Radius()
	if math.Abs(cos) > 1 {
		return nil
	}
	var list []float64
	for _, angle := range []float64{math.Acos(cos), -math.Acos(cos)} {
		turned := float64(e.Turn) * (normal.Angle() + angle - e.From.Sub(e.Centre).Angle())
		if turned = math.Mod(turned, 2*math.Pi); turned < 0 {
			turned += 2 * math.Pi
		}
		list = append(list, turned/math.Abs(e.Sweep()))
	}
	return list
}
