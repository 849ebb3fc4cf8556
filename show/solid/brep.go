package solid

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// vec is a point or a direction in space.
type vec [3]float64

func (v vec) plus(k float64, w vec) vec { return vec{v[0] + k*w[0], v[1] + k*w[1], v[2] + k*w[2]} }

func (v vec) cross(w vec) vec {
	return vec{v[1]*w[2] - v[2]*w[1], v[2]*w[0] - v[0]*w[2], v[0]*w[1] - v[1]*w[0]}
}

func (v vec) unit() vec {
	return vec{}.plus(1/math.Sqrt(v[0]*v[0]+v[1]*v[1]+v[2]*v[2]), v)
}

// axis is what a profile is turned about: the seams of its faces lie in the
// direction out.
type axis struct{ origin, along, out vec }

// at returns where a point of the (x, r) half plane is at the seam.
func (a axis) at(p geom.Point) vec { return a.origin.plus(p.X, a.along).plus(p.Y, a.out) }

// round is a whole circle about an axis.
type round struct {
	axis
	at, radius float64
}

// onAxis is how near the axis a point is on it.
const onAxis = 1e-9

func (b *brep) point(v vec) ref {
	if r, known := b.points[v]; known {
		return r
	}
	r := b.add("CARTESIAN_POINT('',(%v,%v,%v))", v[0], v[1], v[2])
	b.points[v] = r
	return r
}

func (b *brep) direction(v vec) ref {
	if r, known := b.directions[v]; known {
		return r
	}
	r := b.add("DIRECTION('',(%v,%v,%v))", v[0], v[1], v[2])
	b.directions[v] = r
	return r
}

func (b *brep) vertex(v vec) ref {
	if r, known := b.vertices[v]; known {
		return r
	}
	r := b.add("VERTEX_POINT('',%v)", b.point(v))
	b.vertices[v] = r
	return r
}

func (b *brep) frame(origin, axis, first vec) ref {
	return b.add("AXIS2_PLACEMENT_3D('',%v,%v,%v)", b.point(origin), b.direction(axis), b.direction(first))
}

// straight adds an edge along a line.
func (b *brep) straight(from, to vec) ref {
	along := b.add("VECTOR('',%v,1.)", b.direction(to.plus(-1, from).unit()))
	line := b.add("LINE('',%v,%v)", b.point(from), along)
	return b.add("EDGE_CURVE('',%v,%v,%v,.T.)", b.vertex(from), b.vertex(to), line)
}

// circular adds an edge along a circle, anticlockwise about its axis.
func (b *brep) circular(centre, axis, first vec, radius float64, from, to vec) ref {
	circle := b.add("CIRCLE('',%v,%v)", b.frame(centre, axis, first), radius)
	return b.add("EDGE_CURVE('',%v,%v,%v,.T.)", b.vertex(from), b.vertex(to), circle)
}

// circle returns the edge right round an axis at a point of a profile.
func (b *brep) circle(a axis, p geom.Point) ref {
	key := round{a, p.X, p.Y}
	if r, known := b.rounds[key]; known {
		return r
	}
	start := a.at(p)
	r := b.circular(a.origin.plus(p.X, a.along), a.along, a.out, p.Y, start, start)
	b.rounds[key] = r
	return r
}

// oriented is an edge as a loop runs along it.
func (b *brep) oriented(edge ref, forwards bool) ref {
	return b.add("ORIENTED_EDGE('',*,*,%v,%v)", edge, forwards)
}

// face adds a face on a surface. The first loop is its outer bound; all run
// anticlockwise round it seen from outside. Along says whether the surface's own
// normal points outwards.
func (b *brep) face(surface ref, along bool, loops ...[]ref) {
	var bounds []ref
	for i, loop := range loops {
		kind := "FACE_OUTER_BOUND"
		if i > 0 {
			kind = "FACE_BOUND"
		}
		bounds = append(bounds, b.add(kind+"('',%v,.T.)", b.add("EDGE_LOOP('',%v)", loop)))
	}
	b.faces = append(b.faces, b.add("ADVANCED_FACE('',%v,%v,%v)", bounds, surface, along))
}

// profile adds the faces that a profile makes about an axis. The metal is to the
// left of the profile. What lies on the axis makes none.
func (b *brep) profile(a axis, profile geom.Path) {
	for _, e := range profile {
		switch {
		case e.From.Y < onAxis && e.To.Y < onAxis:
		case e.Turn != geom.Straight:
			b.torus(a, e)
		case math.Abs(e.From.X-e.To.X) < onAxis:
			b.flat(a, e)
		default:
			b.cone(a, e)
		}
	}
}

// flat adds the plane face of an edge of a profile that stands across the axis.
func (b *brep) flat(a axis, e geom.Edge) {
	outwards := e.To.Y > e.From.Y // along the axis: what is outside is to the right
	normal, outer, inner := a.along, e.To, e.From
	if !outwards {
		normal, outer, inner = vec{}.plus(-1, a.along), e.From, e.To
	}
	surface := b.add("PLANE('',%v)", b.frame(a.origin.plus(e.From.X, a.along), normal, a.out))
	loops := [][]ref{{b.oriented(b.circle(a, outer), outwards)}}
	if inner.Y > onAxis {
		loops = append(loops, []ref{b.oriented(b.circle(a, inner), !outwards)})
	}
	b.face(surface, true, loops...)
}

// cone adds a cylinder or cone.
func (b *brep) cone(a axis, e geom.Edge) {
	centre := a.origin.plus(e.From.X, a.along)
	along, radius, rise := a.along, e.From.Y, (e.To.Y-e.From.Y)/(e.To.X-e.From.X)
	if radius < onAxis {
		centre, radius = a.origin.plus(e.To.X, a.along), e.To.Y
	}
	if rise < 0 {
		along = vec{}.plus(-1, along)
	}
	var surface ref
	if math.Abs(e.From.Y-e.To.Y) < onAxis {
		surface = b.add("CYLINDRICAL_SURFACE('',%v,%v)", b.frame(centre, a.along, a.out), radius)
	} else {
		surface = b.add("CONICAL_SURFACE('',%v,%v,%v)", b.frame(centre, along, a.out), radius, math.Atan(math.Abs(rise)))
	}
	b.seamed(a, e, surface, e.To.X < e.From.X, b.straight(a.at(e.From), a.at(e.To)))
}

// torus adds the face of a fillet.
func (b *brep) torus(a axis, e geom.Edge) {
	surface := b.add("TOROIDAL_SURFACE('',%v,%v,%v)", b.frame(a.origin.plus(e.Centre.X, a.along), a.along, a.out), e.Centre.Y, e.Radius())
	normal := a.along.cross(a.out)
	if e.Turn == geom.Clockwise {
		normal = vec{}.plus(-1, normal)
	}
	seam := b.circular(a.at(e.Centre), normal, a.out, e.Radius(), a.at(e.From), a.at(e.To))
	b.seamed(a, e, surface, e.Turn == geom.Anticlockwise, seam)
}

// seamed adds a face that runs right round, open along a seam from the beginning
// of an edge of the profile to its end.
func (b *brep) seamed(a axis, e geom.Edge, surface ref, along bool, seam ref) {
	var loop []ref
	if e.To.Y > onAxis {
		loop = append(loop, b.oriented(b.circle(a, e.To), true))
	}
	loop = append(loop, b.oriented(seam, false))
	if e.From.Y > onAxis {
		loop = append(loop, b.oriented(b.circle(a, e.From), false))
	}
	b.face(surface, along, append(loop, b.oriented(seam, true)))
}
