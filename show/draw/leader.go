package draw

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The directions and lengths that leaders are tried in.
const leaderDirections = 24

var leaderLengths = []float64{5, 7, 10, 14, 19, 25, 33, 43, 55, 70, 90}

// pointers proposes leaders in one direction.
func (c *canvas) pointers(p pointer, cost float64) []proposal {
	out := geom.Polar(1, p.away)
	slope := math.Abs(math.Abs(out.X) - math.Abs(out.Y))
	cost += costOfLevel * slope
	if out.Y < 0 {
		cost += 1
	}
	var list []proposal
	for _, length := range leaderLengths {
		p.length = length
		elbow := p.tip.Add(out.Times(length))
		more := costOfLength * length
		if c.within(elbow) {
			more += costWithinPart
		}
		for _, leftward := range []bool{false, true} {
			if math.Abs(out.X) > 0.05 && leftward != (out.X < 0) {
				continue
			}
			plan := p
			plan.leftward = leftward
			list = append(list, proposal{cost + more, &plan})
		}
	}
	return list
}

// within reports whether a point lies in the box round the part's outline.
func (c *canvas) within(p geom.Point) bool {
	return p.X > c.outline.Low.X && p.X < c.outline.High.X && p.Y > c.outline.Low.Y && p.Y < c.outline.High.Y
}

// wishCircle proposes leaders all round a circle, and for one that is the
// outline itself rows beside it too.
func (c *canvas) wishCircle(s spot) wish {
	radius := s.a.Distance(s.b)
	w := wish{order: 2 * radius}
	side := geom.Point{X: radius}
	if size := c.outline.Size(); 2*radius > 0.45*max(size.X, size.Y) {
		for _, direction := range []float64{0, math.Pi / 2} {
			reach := side.Turned(direction)
			l := linear{a: s.a.Sub(reach), b: s.a.Add(reach), direction: direction, figure: s.figure, measures: s.Measure.Value}
			w.proposals = append(w.proposals, c.rows(l, 1).proposals...)
		}
	}
	for i := range leaderDirections {
		out := geom.Polar(1, (float64(i)+0.5)*2*math.Pi/leaderDirections)
		p := pointer{
			kind: ink.Diametral, a: s.a.Add(out.Times(radius)), b: s.a.Sub(out.Times(radius)), tip: s.a.Add(out.Times(radius)),
			away: out.Angle(), figure: s.figure, measures: s.Measure.Value,
		}
		w.proposals = append(w.proposals, c.pointers(p, 0)...)
	}
	return w
}

// wishRadius proposes leaders along the radii of an arc, from outside it and
// from its centre's side.
func (c *canvas) wishRadius(s spot) wish {
	radius := s.a.Distance(s.b)
	w := wish{order: -1} // first: it has the fewest ways
	for _, direction := range c.arcDirections(s.a, radius, s.b.Sub(s.a).Angle()) {
		tip := s.a.Add(geom.Polar(radius, direction))
		p := pointer{kind: ink.Radial, a: s.a, b: tip, tip: tip, away: direction, figure: s.figure, measures: s.Measure.Value}
		w.proposals = append(w.proposals, c.pointers(p, 0)...)
		p.away = direction + math.Pi
		w.proposals = append(w.proposals, c.pointers(p, 2)...)
	}
	return w
}

// arcDirections returns the directions from its centre in which a drawn arc can
// be pointed at; the given one where no such arc is drawn.
func (c *canvas) arcDirections(centre geom.Point, radius, given float64) []float64 {
	list := []float64{given}
	parts := []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95}
	const near = 1e-3
	for _, m := range c.marks {
		s, ok := m.(ink.Stroke)
		if !ok || s.Kind != ink.Visible {
			continue
		}
		for _, e := range s.Path {
			if e.Turn == geom.Straight || e.Centre.Distance(centre) > near || math.Abs(e.Radius()-radius) > near {
				continue
			}
			for _, t := range parts {
				list = append(list, e.At(t).Sub(centre).Angle())
			}
		}
	}
	return list
}

// notes proposes leaders in all directions.
func (c *canvas) notes(tip geom.Point, f *figure) wish {
	var w wish
	for i := range leaderDirections {
		p := pointer{kind: ink.Leader, a: tip, b: tip, tip: tip, away: (float64(i) + 0.5) * 2 * math.Pi / leaderDirections, figure: f}
		w.proposals = append(w.proposals, c.pointers(p, 0)...)
	}
	return w
}
