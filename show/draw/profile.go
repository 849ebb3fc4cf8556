package draw

import (
	"math"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// same is how far two lengths of the part in mm may differ and be one.
const same = 1e-9

// profile is the outline of a turned part in the half plane (x, r): edges from
// left to right without the faces between them.
type profile []geom.Edge

// profileOf returns the profile of segments.
func profileOf(segments []part.Segment) profile {
	var list profile
	for _, s := range segments {
		list = append(list, s.Outline())
	}
	return list
}

// lowered returns the profile cut down to a radius between two places, where it
// is straight: by a flat, or by a hole across.
func (p profile) lowered(x0, x1, radius float64) profile {
	var list profile
	for _, e := range p {
		from, to := max(e.From.X, x0), min(e.To.X, x1)
		if e.Turn != geom.Straight || to-from < same || max(e.From.Y, e.To.Y) <= radius {
			list = append(list, e)
			continue
		}
		at := func(x float64) geom.Point { return e.At((x - e.From.X) / (e.To.X - e.From.X)) }
		if from > e.From.X {
			list = append(list, geom.Line(e.From, at(from)))
		}
		list = append(list, geom.Line(geom.Point{X: from, Y: min(radius, at(from).Y)}, geom.Point{X: to, Y: min(radius, at(to).Y)}))
		if to < e.To.X {
			list = append(list, geom.Line(at(to), e.To))
		}
	}
	return list
}

// path returns the profile with the faces between its edges.
func (p profile) path() geom.Path {
	var list geom.Path
	for i, e := range p {
		if i > 0 {
			list = connected(list, e.From)
		}
		if e.From != e.To {
			list = append(list, e)
		}
	}
	return list
}

// connected returns the path led on straight to a point.
func connected(p geom.Path, to geom.Point) geom.Path {
	if from := p[len(p)-1].To; from.Distance(to) > same {
		return append(p, geom.Line(from, to))
	}
	return p
}

// half returns the profile from the axis to the axis.
func (p profile) half() geom.Path {
	first, last := p[0].From, p[len(p)-1].To
	list := geom.Path{geom.Line(geom.Point{X: first.X}, first)}
	list = append(list, p.path()...)
	return append(list, geom.Line(last, geom.Point{X: last.X}))
}

// mirrored returns a path on the other side of the axis.
func mirrored(p geom.Path) geom.Path {
	flip := func(q geom.Point) geom.Point { return geom.Point{X: q.X, Y: -q.Y} }
	list := make(geom.Path, len(p))
	for i, e := range p {
		list[i] = geom.Edge{From: flip(e.From), To: flip(e.To), Turn: -e.Turn, Centre: flip(e.Centre)}
	}
	return list
}

// ring is an edge of a turned part that runs round it, seen as a line across.
type ring struct {
	x, radius float64
}

// rings returns the edges between segments that are seen: not those where one
// runs into the next without a corner.
func rings(segments []part.Segment) []ring {
	p := profileOf(segments)
	var list []ring
	for i := 1; i < len(p); i++ {
		before, after := p[i-1], p[i]
		if math.Abs(before.To.X-after.From.X) > same {
			continue
		}
		smooth := math.Abs(before.To.Y-after.From.Y) < same &&
			math.Abs(before.Direction(1).Cross(after.Direction(0))) < 1e-6
		if smooth && segments[i-1].Form == segments[i].Form && segments[i-1].Thread == segments[i].Thread {
			continue
		}
		if smooth && (segments[i-1].Form == part.Rounded || segments[i].Form == part.Rounded) {
			continue
		}
		list = append(list, ring{before.To.X, min(before.To.Y, after.From.Y)})
	}
	return list
}

// hollows returns the bores in runs without gaps.
func hollows(bores []part.Segment) [][]part.Segment {
	var runs [][]part.Segment
	for i, b := range bores {
		if i == 0 || b.X0 > bores[i-1].X1+same {
			runs = append(runs, nil)
		}
		runs[len(runs)-1] = append(runs[len(runs)-1], b)
	}
	return runs
}

// inside returns the path along the axis and the bores from one end of the part
// to the other, left to right.
func inside(t *part.Turned) geom.Path {
	at := geom.Point{}
	var list geom.Path
	lead := func(to geom.Point) {
		if at.Distance(to) > same {
			list = append(list, geom.Line(at, to))
		}
		at = to
	}
	for _, run := range hollows(t.Bores) {
		p := profileOf(run).path()
		if len(p) == 0 {
			continue
		}
		if start := p[0].From; start.X > same {
			lead(geom.Point{X: start.X})
			lead(start)
		} else {
			at = start
		}
		list = append(list, p...)
		if at = p[len(p)-1].To; at.X < t.Length-same {
			lead(geom.Point{X: at.X})
		}
	}
	if at.X < t.Length-same {
		lead(geom.Point{X: t.Length})
	}
	return list
}
