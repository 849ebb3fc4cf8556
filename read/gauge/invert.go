package gauge

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Invert returns every value of one role for which the model gives the reading,
// the other roles held at values: first those that break no rule of the
// method, each part rising. It serves start values.
//
// It looks among positive lengths and numbers some decades round the other
// ones, angles up to a right angle (included ones up to two), and their
// negatives where the role is signed. A reading that no value gives, a role
// that counts things, and one that the model does not use have none.
func (m *Method) Invert(values []float64, role int, reading float64) []float64 {
	if m.Model == nil || !m.Roles[role].Kind.varies() {
		return nil
	}
	args := make(Args, len(values))
	for i, x := range values {
		args[i] = grad.Const(x)
	}
	s := search{
		misclosure: func(x float64) (value, slope float64) {
			args[role] = grad.Var(x, 0)
			n := m.Model(args)
			return n.X - reading, n.D[0]
		},
		small: smallBeside(reading, values, role),
	}
	if x, ok := s.straight(reading); ok && (x > 0 || m.Roles[role].Signed) {
		return m.soundFirst(values, role, []float64{x})
	}
	return m.soundFirst(values, role, s.over(domain(m, values, role, reading)))
}

// Roots returns every value of a size of some kind at which a misclosure, given
// with its slope, is zero, rising. It looks where Invert does: among lengths
// near those given, angles, and small and large numbers.
func Roots(kind trade.SizeKind, near []float64, misclosure func(x float64) (value, slope float64)) []float64 {
	s := search{misclosure: misclosure, small: smallBeside(0, near, -1)}
	if x, ok := s.straight(1); ok && (x > 0 || !kind.MustBePositive()) {
		return []float64{x}
	}
	var list []float64
	switch kind.Dimension() {
	case unit.Length:
		list = lengthsToTry(near)
	case unit.Angle:
		list = anglesToTry(math.Pi)
	case unit.Number:
		list = logSteps(1e-4, 1e4)
	}
	if !kind.MustBePositive() {
		list = mirrored(list)
	}
	return s.over(list)
}

// smallBeside returns what is nothing beside a reading and the values of the
// other roles; beside 1 where all of them are 0.
func smallBeside(reading float64, values []float64, role int) float64 {
	most := math.Abs(reading)
	for i, x := range values {
		if i != role && x > most {
			most = x
		}
	}
	if most == 0 {
		most = 1
	}
	return 1e-7 * most
}

// soundFirst sorts values of a role into those that break no rule and those
// that do.
func (m *Method) soundFirst(values []float64, role int, roots []float64) []float64 {
	if m.Valid == nil {
		return roots
	}
	v := slices.Clone(values)
	var sound, broken []float64
	for _, x := range roots {
		v[role] = x
		if slices.ContainsFunc(m.Valid(v), func(r Remark) bool { return r.Broken }) {
			broken = append(broken, x)
		} else {
			sound = append(sound, x)
		}
	}
	return append(sound, broken...)
}

// distinct sorts the roots and drops those found twice.
func distinct(roots []float64) []float64 {
	slices.Sort(roots)
	return slices.CompactFunc(roots, func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Abs(b) })
}

// search is a misclosure over the one value that is free.
type search struct {
	misclosure func(x float64) (value, slope float64)
	small      float64 // a misclosure below this is none
}

// straight returns the root of a misclosure that is linear in its value, as many
// are: two Newton steps from far apart meet in it.
func (s *search) straight(near float64) (x float64, ok bool) {
	var ends [2]point
	for i, x := range []float64{near, 2*near + 1} {
		p := s.at(x)
		ends[i] = s.at(p.x - p.miss/p.slope)
	}
	exact := 1e-13 * math.Max(math.Abs(near), math.Abs(ends[0].x))
	return ends[0].x, ends[0].exists() && math.Abs(ends[0].x-ends[1].x) <= exact && math.Abs(ends[0].miss) <= s.small
}

// over returns the roots along a rising list of values, none where the
// misclosure does not depend on them.
func (s *search) over(list []float64) []float64 {
	var roots []float64
	var before point
	depends := false
	for i, x := range list {
		here := s.at(x)
		depends = depends || here.exists() && here.slope != 0
		if i > 0 {
			roots = s.within(roots, before, here)
		}
		before = here
	}
	if !depends {
		return nil
	}
	return distinct(roots)
}

// point is the misclosure and its slope at one value of the free role.
type point struct {
	x, miss, slope float64
}

func (p point) exists() bool { return !math.IsNaN(p.miss) && !math.IsInf(p.miss, 0) }

func (s *search) at(x float64) point {
	value, slope := s.misclosure(x)
	return point{x, value, slope}
}

// within adds the roots between two neighbouring points, a.x < b.x: where the
// misclosure crosses zero, and where it only touches it, at a turn or at the
// edge of where the model exists.
func (s *search) within(roots []float64, a, b point) []float64 {
	switch {
	case a.exists() && b.exists():
	case a.exists():
		b = s.edge(a, b)
		roots = s.touching(roots, b)
	case b.exists():
		a = s.edge(b, a)
		roots = s.touching(roots, a)
	default:
		return roots
	}
	if a.miss*b.miss > 0 && a.miss*a.slope < 0 && b.miss*b.slope > 0 {
		turn := s.turn(a, b)
		if turn.miss*a.miss > 0 {
			return s.touching(roots, turn)
		}
		return s.crossing(s.crossing(roots, a, turn), turn, b)
	}
	return s.crossing(roots, a, b)
}

func (s *search) touching(roots []float64, p point) []float64 {
	if math.Abs(p.miss) <= s.small {
		return append(roots, p.x)
	}
	return roots
}

// halvings of a bracket use up the digits of a float64.
const halvings = 52

// edge returns the last point, going from in to out, where the model exists.
func (s *search) edge(in, out point) point {
	for range halvings {
		if middle := s.at((in.x + out.x) / 2); middle.exists() {
			in = middle
		} else {
			out = middle
		}
	}
	return in
}

// turn returns the point between a and b where the slope changes its sign.
func (s *search) turn(a, b point) point {
	for range halvings {
		middle := s.at((a.x + b.x) / 2)
		if middle.slope*a.slope > 0 {
			a = middle
		} else {
			b = middle
		}
	}
	return b
}

// crossing adds the root between a and b if the misclosure changes its sign
// there without a pole.
func (s *search) crossing(roots []float64, a, b point) []float64 {
	switch {
	case a.miss == 0:
		return append(roots, a.x)
	case b.miss == 0:
		return append(roots, b.x)
	case a.miss*b.miss > 0:
		return roots
	}
	return s.touching(roots, s.root(a, b))
}

// root is Newton's iteration kept between a and b; every third step halves the
// bracket, so that it ends whatever the function.
func (s *search) root(a, b point) point {
	p := a
	for step := range 3 * halvings {
		x := p.x - p.miss/p.slope
		if step%3 == 2 || !(a.x < x && x < b.x) {
			x = (a.x + b.x) / 2
		}
		moved := math.Abs(x - p.x)
		p = s.at(x)
		if p.miss == 0 || moved <= 1e-15*math.Abs(x) {
			break
		}
		if p.miss*a.miss > 0 {
			a = p
		} else {
			b = p
		}
	}
	return p
}
