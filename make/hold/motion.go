package hold

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/geom"
)

// wrench is a force and its moment about the centre of the places touched, over
// their reach; or a velocity and the turning there, times the reach. The product
// of one of each is the power.
type wrench [3]float64

func (w wrench) dot(o wrench) float64 { return w[0]*o[0] + w[1]*o[1] + w[2]*o[2] }

func (w wrench) cross(o wrench) wrench {
	return wrench{w[1]*o[2] - w[2]*o[1], w[2]*o[0] - w[0]*o[2], w[0]*o[1] - w[1]*o[0]}
}

func (w wrench) plus(o wrench) wrench { return wrench{w[0] + o[0], w[1] + o[1], w[2] + o[2]} }

func (w wrench) times(k float64) wrench { return wrench{k * w[0], k * w[1], k * w[2]} }

func (w wrench) length() float64 { return math.Sqrt(w.dot(w)) }

// onto returns the part of w that lies along a direction.
func (w wrench) onto(d wrench) wrench { return d.times(w.dot(d) / d.dot(d)) }

// wrenchOf returns the wrench of a force at a place.
func (h *holder) wrenchOf(at, force geom.Point) wrench {
	return wrench{force.X, force.Y, at.Sub(h.centre).Cross(force) / h.reach}
}

// tiny is how near to nothing a wrench of length 1 is nothing.
const tiny = 1e-9

// walls returns the directions in which the work may not move against: unit
// vectors, none twice. Contacts that press may yield where only what stands fast
// is asked for.
func (h *holder) walls(pressing bool) []wrench {
	var list []wrench
	for _, t := range h.touches {
		if !t.blocks() || moves(t.contact) && !pressing {
			continue
		}
		w := h.wrenchOf(t.at, t.push)
		list = addDirection(list, w.times(1/w.length()))
	}
	return list
}

// addDirection adds a unit vector that is not in the list yet.
func addDirection(list []wrench, w wrench) []wrench {
	if slices.ContainsFunc(list, func(o wrench) bool { return w.plus(o.times(-1)).length() < tiny }) {
		return list
	}
	return append(list, w)
}

// allows reports whether a motion runs against none of the walls.
func allows(walls []wrench, v wrench) bool {
	return !slices.ContainsFunc(walls, func(w wrench) bool { return w.dot(v) < -tiny*v.length() })
}

// motions returns what the contacts leave free: the edges of the cone of all free
// motions, of which any others are sums.
func (h *holder) motions() []Motion {
	walls := h.walls(true)
	lines := freeLines(walls)
	var free []Motion
	for _, v := range lines {
		free = append(free, h.motion(v, true))
	}
	for _, v := range freeRays(walls, lines) {
		free = append(free, h.motion(v, false))
	}
	return free
}

// freeLines returns a basis of the motions that are free both ways, slides first.
func freeLines(walls []wrench) []wrench {
	if len(walls) == 0 {
		return []wrench{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	}
	first := walls[0]
	normal := otherDirection(walls, first)
	if normal == (wrench{}) {
		slide := wrench{-first[1], first[0], 0}
		return []wrench{slide, first.cross(slide)}
	}
	if slices.ContainsFunc(walls, func(w wrench) bool { return math.Abs(w.dot(normal)) > tiny }) {
		return nil
	}
	return []wrench{normal}
}

// otherDirection returns the unit vector square to the first wall and to another
// that is not parallel to it, zero where there is none.
func otherDirection(walls []wrench, first wrench) wrench {
	for _, w := range walls {
		if normal := first.cross(w); normal.length() > tiny {
			return normal.times(1 / normal.length())
		}
	}
	return wrench{}
}

// freeRays returns the edges of the cone of free motions, beside the lines in it.
func freeRays(walls, lines []wrench) []wrench {
	var rays []wrench
	try := func(v wrench) {
		if v.length() < tiny {
			return
		}
		for _, sign := range []float64{1, -1} {
			if ray := v.times(sign / v.length()); allows(walls, ray) {
				rays = addDirection(rays, ray)
			}
		}
	}
	switch len(lines) {
	case 0:
		for i, w := range walls {
			for _, o := range walls[i+1:] {
				try(w.cross(o))
			}
		}
	case 1:
		for _, w := range walls {
			try(w.cross(lines[0]))
		}
	case 2:
		try(walls[0])
	}
	return rays
}

// motion puts a velocity into words.
func (h *holder) motion(v wrench, bothWays bool) Motion {
	turning := v[2] / h.reach
	if math.Abs(v[2]) < tiny*v.length() {
		return Motion{Towards: geom.Point{X: v[0], Y: v[1]}.Angle(), BothWays: bothWays}
	}
	m := Motion{Turn: geom.Anticlockwise, BothWays: bothWays, About: h.centre.Add(geom.Point{X: -v[1] / turning, Y: v[0] / turning})}
	if turning < 0 {
		m.Turn = geom.Clockwise
	}
	return m
}

// creep returns how the work begins to move under a force where nothing rubs, nil
// where it cannot: the nearest to the force of all motions that are free. The work
// is taken to weigh as if it were spread over the places touched, which decides what
// it turns about and not which way.
func (h *holder) creep(force wrench, pressing bool) *Motion {
	walls := h.walls(pressing)
	nearest := wrench{}
	try := func(v wrench) {
		if allows(walls, v) && v.length() > nearest.length() {
			nearest = v
		}
	}
	// On each face of the cone of free motions the nearest is the force's part along
	// it; of those that are free the longest is nearest to the force.
	try(force)
	for i, w := range walls {
		try(force.plus(force.onto(w).times(-1)))
		for _, o := range walls[i+1:] {
			if edge := w.cross(o); edge.length() > tiny {
				try(force.onto(edge))
			}
		}
	}
	if nearest.length() <= tiny*force.length() {
		return nil
	}
	m := h.motion(nearest, false)
	return &m
}

// clamping returns what all clamping forces come to, over the scale.
func (h *holder) clamping() wrench {
	var sum wrench
	for _, t := range h.touches {
		if t.blocks() && moves(t.contact) {
			sum = sum.plus(h.wrenchOf(t.at, t.push).times(t.contact.Clamping.InsideOr(0) / h.scale / float64(ends(t.contact))))
		}
	}
	return sum
}
