package geom

import (
	"math"
	"slices"
)

// Hull is the convex hull of a path, kept by what a straight edge rolled round
// it touches: corners, and arcs with their centre and radius.
type Hull struct {
	touches []touch // in the order of their directions, a whole turn together
}

// touch is what is touched from a range of directions: a corner, of radius 0,
// or an arc.
type touch struct {
	centre   Point
	radius   float64
	from, to float64 // directions of the outward normal, from < to
}

// support returns how far the touch reaches in a direction: c·u + R.
func (t touch) support(angle float64) float64 { return t.centre.Dot(Polar(1, angle)) + t.radius }

// Hull returns the convex hull of a path, exact with arcs. An empty path panics.
func (p Path) Hull() *Hull {
	if len(p) == 0 {
		panic("geom: an empty path has no hull")
	}
	f := p.features()
	turns := f.turningPoints()
	h := &Hull{}
	from := -math.Pi
	for _, to := range turns {
		const nothing = 1e-13
		if to-from < nothing {
			continue
		}
		h.add(f.touchedBetween(from, to))
		from = to
	}
	h.closeUp()
	return h
}

// features is what may be touched: all corners, and all arcs with the range of
// directions in which they face outwards.
type features []touch

func (p Path) features() features {
	var list features
	corner := func(q Point) {
		if !slices.ContainsFunc(list, func(t touch) bool { return t.radius == 0 && t.centre.Distance(q) <= same }) {
			list = append(list, touch{centre: q, from: -math.Pi, to: math.Pi})
		}
	}
	for _, e := range p {
		if e.Turn != Straight {
			start := e.From
			if e.Turn == Clockwise {
				start = e.To
			}
			from := start.Sub(e.Centre).Angle()
			list = append(list, touch{e.Centre, e.Radius(), from, from + math.Abs(e.Sweep())})
		}
		corner(e.From)
		corner(e.To)
	}
	return list
}

// turningPoints returns the directions, -π to π in order, at which what is
// touched can change: where two features reach equally far and where arcs end.
func (f features) turningPoints() []float64 {
	angles := []float64{math.Pi}
	for i, a := range f {
		angles = append(angles, folded(a.from), folded(a.to))
		for _, b := range f[:i] {
			angles = append(angles, level(b.centre.Sub(a.centre), a.radius-b.radius)...)
		}
	}
	slices.Sort(angles)
	return slices.Compact(angles)
}

// level returns the directions u, -π to π, in which v·u = k.
func level(v Point, k float64) []float64 {
	length := v.Length()
	if !(math.Abs(k) <= length) || length == 0 {
		return nil
	}
	off := math.Acos(k / length)
	return []float64{folded(v.Angle() - off), folded(v.Angle() + off)}
}

// folded returns an angle as one from -π to π.
func folded(angle float64) float64 { return math.Remainder(angle, 2*math.Pi) }

// touchedBetween returns the feature that reaches farthest between two
// directions.
func (f features) touchedBetween(from, to float64) touch {
	middle := (from + to) / 2
	var best touch
	reach := math.Inf(-1)
	for _, t := range f {
		if r := t.support(middle); r > reach && t.covers(middle) {
			best, reach = t, r
		}
	}
	best.from, best.to = from, to
	return best
}

// covers reports whether the touch faces in a direction.
func (t touch) covers(angle float64) bool {
	turned := math.Mod(angle-t.from, 2*math.Pi)
	if turned < 0 {
		turned += 2 * math.Pi
	}
	return turned <= t.to-t.from
}

// add appends a touch, or widens the last where it is the same feature.
func (h *Hull) add(t touch) {
	if n := len(h.touches); n > 0 && h.touches[n-1].centre == t.centre && h.touches[n-1].radius == t.radius {
		h.touches[n-1].to = t.to
		return
	}
	h.touches = append(h.touches, t)
}

// closeUp joins the last touch to the first, and makes one of them where they
// are the same feature, cut apart at -π.
func (h *Hull) closeUp() {
	n := len(h.touches)
	first, last := &h.touches[0], h.touches[n-1]
	first.from = last.to - 2*math.Pi
	if n > 1 && first.centre == last.centre && first.radius == last.radius {
		first.from = last.from - 2*math.Pi
		h.touches = h.touches[:n-1]
	}
}

// Path returns the hull as a closed path, anticlockwise. The hull of a straight
// line runs there and back.
func (h *Hull) Path() Path {
	var p Path
	for i, t := range h.touches {
		from, to := t.at(t.from), t.at(t.to)
		switch {
		case len(h.touches) == 1 && t.radius > 0:
			return Circle(t.centre, t.radius)
		case t.radius > 0:
			p = append(p, Arc(t.centre, from, to, Anticlockwise))
		}
		next := h.touches[(i+1)%len(h.touches)]
		if start := next.at(next.from); start.Distance(to) > same {
			p = append(p, Line(to, start))
		}
	}
	return p
}

func (t touch) at(angle float64) Point { return t.centre.Add(Polar(t.radius, angle)) }

// touched returns what is touched from a direction.
func (h *Hull) touched(angle float64) touch {
	for _, t := range h.touches {
		if t.covers(angle) {
			return t
		}
	}
	return h.touches[0] // missed by rounding only, at its beginning
}
