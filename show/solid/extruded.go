package solid

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// upwards is the direction in which prisms are extruded.
var upwards = vec{0, 0, 1}

// run is an edge as a loop runs along it.
type run struct {
	edge     ref
	forwards bool
}

// loop returns the loop along edges.
func (b *brep) loop(runs []run) []ref {
	var refs []ref
	for _, r := range runs {
		refs = append(refs, b.oriented(r.edge, r.forwards))
	}
	return refs
}

// back returns the loop along edges the other way.
func (b *brep) back(runs []run) []ref {
	var refs []ref
	for _, r := range slices.Backward(runs) {
		refs = append(refs, b.oriented(r.edge, !r.forwards))
	}
	return refs
}

// floor is a level face that looks up: the top face, or the bottom of a slot.
type floor struct {
	z     float64
	loops [][]ref
	path  geom.Path // of a slot
}

// extruded adds the faces of a prism with upright sides.
func (b *brep) extruded(p *part.Prism) {
	low, high := b.sides(outline(p)...)
	floors := []floor{{z: p.Height, loops: [][]ref{b.loop(high)}}}
	under := [][]ref{b.back(low)}
	for _, s := range p.Slots {
		bottom := p.Height - s.Depth
		path := s.Outline().Reversed()
		if s.Through {
			bottom = 0
		}
		low, high := b.sides(stage{path: path, z: bottom}, stage{path: path, z: p.Height})
		floors[0].loops = append(floors[0].loops, b.loop(high))
		if s.Through {
			under = append(under, b.back(low))
			continue
		}
		floors = append(floors, floor{bottom, [][]ref{b.back(low)}, s.Outline()})
	}
	for _, h := range p.Holes {
		i := max(0, slices.IndexFunc(floors, func(f floor) bool { return f.path != nil && f.path.Contains(h.At) }))
		mouth, foot := b.drilled(p, h)
		floors[i].loops = append(floors[i].loops, mouth)
		if foot != nil {
			under = append(under, foot)
		}
	}
	if p.Stem != nil {
		floors[0].loops = append(floors[0].loops, b.stem(p))
	}
	for _, f := range floors {
		b.face(b.add("PLANE('',%v)", b.frame(vec{0, 0, f.z}, upwards, vec{1, 0, 0})), true, f.loops...)
	}
	b.face(b.add("PLANE('',%v)", b.frame(vec{}, vec{0, 0, -1}, vec{1, 0, 0})), true, under...)
}

// lift returns a point of the plan in space.
func lift(p geom.Point, z float64) vec { return vec{p.X, p.Y, z} }

// stage is a closed path at a height.
type stage struct {
	path  geom.Path
	z     float64
	edges []run
}

// outline returns the stages of the outside of a prism, upwards.
func outline(p *part.Prism) []stage {
	if p.Chamfer == 0 {
		return []stage{{path: p.Outline}, {path: p.Outline, z: p.Height}}
	}
	face := p.Face()
	return []stage{{path: face}, {path: p.Outline, z: p.Chamfer}, {path: p.Outline, z: p.Height - p.Chamfer}, {path: face, z: p.Height}}
}

// sharpArc reports whether an arc of a closed path ends in a sharp corner: its
// chamfer would meet the next in a curve that is no circle.
func sharpArc(path geom.Path) bool {
	for i, e := range path {
		next := path[(i+1)%len(path)]
		bent := math.Abs(e.Direction(1).Cross(next.Direction(0))) > 1e-6
		if bent && (e.Turn != geom.Straight || next.Turn != geom.Straight) {
			return true
		}
	}
	return false
}

// sides adds the faces between paths that lie above each other edge for edge,
// with the metal to their left, and returns the edges of the lowest and of the
// highest, as the paths run.
func (b *brep) sides(stages ...stage) (lower, upper []run) {
	for k := range stages {
		s := &stages[k]
		for i, e := range s.path {
			s.edges = append(s.edges, run{b.level(s.path, i, s.z), e.Turn != geom.Clockwise}) // circles run anticlockwise
		}
	}
	for k := 1; k < len(stages); k++ {
		b.rise(stages[k-1], stages[k])
	}
	return stages[0].edges, stages[len(stages)-1].edges
}

// rise adds the faces between two stages.
func (b *brep) rise(low, high stage) {
	posts := make([]ref, len(low.path))
	for i := range low.path {
		posts[i] = b.straight(lift(low.path[i].From, low.z), lift(high.path[i].From, high.z))
	}
	for i, e := range low.path {
		above := high.edges[i]
		above.forwards = !above.forwards
		loop := b.loop([]run{low.edges[i], {posts[(i+1)%len(posts)], true}, above, {posts[i], false}})
		if e.Turn == geom.Straight {
			along, up := lift(e.To.Sub(e.From).Unit(), 0), lift(high.path[i].From, high.z).plus(-1, lift(e.From, low.z))
			b.face(b.add("PLANE('',%v)", b.frame(lift(e.From, low.z), along.cross(up).unit(), along)), true, loop)
			continue
		}
		b.face(b.roundSide(e, low.z, high.path[i].Radius()-e.Radius(), high.z-low.z), e.Turn == geom.Anticlockwise, loop)
	}
}

// roundSide adds the cylinder or cone that rises from an arc, whose radius grows
// by so much over a height.
func (b *brep) roundSide(e geom.Edge, z, grows, height float64) ref {
	up := upwards
	if grows < 0 {
		up = vec{0, 0, -1}
	}
	frame := b.frame(lift(e.Centre, z), up, vec{1, 0, 0})
	if math.Abs(grows) < onAxis {
		return b.add("CYLINDRICAL_SURFACE('',%v,%v)", frame, e.Radius())
	}
	return b.add("CONICAL_SURFACE('',%v,%v,%v)", frame, e.Radius(), math.Atan(math.Abs(grows)/height))
}

// level adds the edge of a path at a height, to where the next begins. A
// clockwise arc is an edge that runs the other way.
func (b *brep) level(path geom.Path, i int, z float64) ref {
	e := path[i]
	from, to := lift(e.From, z), lift(path[(i+1)%len(path)].From, z)
	switch e.Turn {
	case geom.Anticlockwise:
		return b.circular(lift(e.Centre, z), upwards, vec{1, 0, 0}, e.Radius(), from, to)
	case geom.Clockwise:
		return b.circular(lift(e.Centre, z), upwards, vec{1, 0, 0}, e.Radius(), to, from)
	}
	return b.straight(from, to)
}

// drilled adds the faces of a hole, and returns the loops that it leaves in the
// face above and, where it goes through, in the one below.
func (b *brep) drilled(p *part.Prism, h part.Hole) (mouth, foot []ref) {
	a := axis{lift(h.At, 0), upwards, vec{1, 0, 0}}
	floor, radius := p.Floor(h.At), h.Diameter/2
	points := []geom.Point{{X: 0, Y: radius}}
	if !h.Through {
		bottom := floor - h.Depth
		points = []geom.Point{{X: bottom - part.PointLength(h.Diameter)}, {X: bottom, Y: radius}}
	} else {
		foot = b.loop([]run{{b.circle(a, points[0]), true}})
	}
	switch {
	case h.CounterboreD > 0:
		step := floor - h.CounterboreH
		points = append(points, geom.Point{X: step, Y: radius}, geom.Point{X: step, Y: h.CounterboreD / 2}, geom.Point{X: floor, Y: h.CounterboreD / 2})
	case h.CountersinkD > 0:
		points = append(points, geom.Point{X: floor - (h.CountersinkD-h.Diameter)/2, Y: radius}, geom.Point{X: floor, Y: h.CountersinkD / 2})
	default:
		points = append(points, geom.Point{X: floor, Y: radius})
	}
	b.profile(a, geom.Polyline(points...))
	return b.loop([]run{{b.circle(a, points[len(points)-1]), false}}), foot
}

// stem adds the faces of the stem, and returns the loop that it leaves in the
// face it stands on.
func (b *brep) stem(p *part.Prism) []ref {
	a := axis{lift(p.Stem.At, p.Height), upwards, vec{1, 0, 0}}
	t := p.Stem.Turned
	profile := geom.Path{geom.Line(geom.Point{X: t.Length}, geom.Point{X: t.Length, Y: t.Segments[len(t.Segments)-1].D1 / 2})}
	for _, s := range slices.Backward(t.Segments) {
		profile = append(profile, s.Outline().Reversed())
	}
	b.profile(a, profile)
	return b.loop([]run{{b.circle(a, profile[len(profile)-1].To), false}})
}
