package part

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// ending is what is cut into one end of a step: one of a chamfer, a fillet and
// an undercut, or nothing.
type ending struct {
	*piece
	size  given // length of the chamfer, radius of the fillet, width of the undercut
	depth given // of an undercut
}

// width is how much of the step it takes.
func (e ending) width() float64 {
	if e.piece == nil {
		return 0
	}
	return e.X1 - e.X0
}

// corner is how a step ends.
type corner uint8

const (
	flush    corner = iota // the next step runs on at the same diameter
	free                   // an edge that stands out
	shoulder               // the next step stands higher
	blind                  // nothing but the end of a bore in the metal
)

// The ends of a step.
const (
	leftEnd  = 0
	rightEnd = 1
)

// neighbour returns the step next to an end, nil if there is none.
func (c *chain) neighbour(i, end int) *stretch {
	if i += 2*end - 1; i < 0 || i >= len(c.steps) {
		return nil
	}
	return c.steps[i]
}

// rise returns how much higher the metal of the neighbour stands, in diameter.
func (c *chain) rise(i, end int) float64 {
	s, n := c.steps[i], c.neighbour(i, end)
	if end == leftEnd {
		return c.sign() * (n.d1 - s.d0)
	}
	return c.sign() * (n.d0 - s.d1)
}

func (c *chain) corner(i, end int) corner {
	if c.neighbour(i, end) == nil {
		if end == leftEnd && c.openLeft || end == rightEnd && c.openRight {
			return free
		}
		return blind
	}
	switch rise := c.rise(i, end); {
	case rise > level:
		return shoulder
	case rise < -level:
		return free
	}
	return flush
}

// pieces returns the segments of a run of steps.
func (b *builder) pieces(c *chain) []piece {
	var list []piece
	for i, s := range c.steps {
		for end := range s.ends {
			s.ends[end] = b.ending(c, i, end)
		}
		list = append(list, b.along(c, s)...)
	}
	list = append(list, b.points(c)...)
	b.meet(c)
	return list
}

// ending makes what is cut into an end of a step.
func (b *builder) ending(c *chain, i, end int) ending {
	s := c.steps[i]
	switch kind := c.corner(i, end); {
	case kind == free && s.Chamfer.Given():
		return b.chamfer(c, i, end)
	case b.undercutHere(c, i, end):
		return b.undercut(c, i, end)
	case kind == shoulder && s.Fillet.Given():
		return b.fillet(c, i, end)
	}
	return ending{}
}

// span returns where along the axis something of this width lies at an end.
func (s *stretch) span(end int, width float64) (x0, x1 float64) {
	if end == leftEnd {
		return s.x0, s.x0 + width
	}
	return s.x1 - width, s.x1
}

// chamfer cuts a free edge off at 45°.
func (b *builder) chamfer(c *chain, i, end int) ending {
	s := c.steps[i]
	size := b.size(s.Chamfer, trade.Length, "chamfer")
	if s.form() != Plain {
		b.note("The corners of the " + s.size.what + " are chamfered " + size.written() + " × 45°, which is not drawn.")
		return ending{}
	}
	x0, x1 := s.span(end, size.Value)
	inner := s.diameter(map[int]float64{leftEnd: x1, rightEnd: x0}[end])
	edge := inner - 2*c.sign()*size.Value
	if edge <= level {
		b.clash(size, s.size, "nothing would be left at the end")
	}
	if n := c.neighbour(i, end); n != nil && c.sign()*(edge-inner) < c.rise(i, end)-level {
		b.clash(size, n.size, "the chamfer is larger than the shoulder it is on")
	}
	p := &piece{Segment{X0: x0, X1: x1, D0: edge, D1: inner, Role: Chamfer}, size}
	if end == rightEnd {
		p.D0, p.D1 = inner, edge
	}
	return ending{piece: p, size: size}
}

// fillet rounds the corner at a shoulder: an arc that touches the step, which
// may be a taper, and the shoulder's face.
func (b *builder) fillet(c *chain, i, end int) ending {
	s := c.steps[i]
	size := b.size(s.Fillet, trade.Radius, "fillet")
	radius, sign := size.Value, c.sign()
	corner, inwards := s.x0, 1.0
	if end == rightEnd {
		corner, inwards = s.x1, -1
	}
	slope := inwards * (s.d1 - s.d0) / 2 / max(level, s.x1-s.x0)
	sin, cos := math.Sincos(math.Atan(slope))
	centre := geom.Point{
		X: corner + inwards*radius,
		Y: s.diameter(corner)/2 + slope*radius + sign*radius/cos,
	}
	touch := geom.Point{X: centre.X + inwards*sign*radius*sin, Y: centre.Y - sign*radius*cos}
	p := &piece{Segment{
		Form: Rounded, Role: Fillet, X0: corner, X1: touch.X, D0: 2 * centre.Y, D1: 2 * touch.Y,
		Arc: Arc{Centre: centre, Radius: radius, Turn: geom.Anticlockwise},
	}, size}
	if c.inside {
		p.Arc.Turn = geom.Clockwise
	}
	if end == rightEnd {
		p.X0, p.X1, p.D0, p.D1 = p.X1, p.X0, p.D1, p.D0
	}
	if 2*sign*centre.Y > sign*s.diameter(corner)+c.rise(i, end)+level {
		b.clash(size, c.neighbour(i, end).size, "the fillet is larger than the shoulder it is in")
	}
	return ending{piece: p, size: size}
}

// undercutHere reports whether the undercut of a step belongs at this end: at
// each shoulder, and of a thread without one where it meets the next step.
func (b *builder) undercutHere(c *chain, i, end int) bool {
	s := c.steps[i]
	if !s.Undercut.Width.Given() {
		return false
	}
	left, right := c.corner(i, leftEnd), c.corner(i, rightEnd)
	if left == shoulder || right == shoulder {
		return c.corner(i, end) == shoulder
	}
	if s.thread == nil {
		if end == leftEnd {
			b.refuse(places(given{pos: s.Undercut.Width.Pos}, given{pos: s.Pos}), "an undercut is cut where a step meets a larger one, and this step meets none")
		}
		return false
	}
	if c.neighbour(i, rightEnd) == nil && c.neighbour(i, leftEnd) != nil {
		return end == leftEnd
	}
	return end == rightEnd
}

// undercut relieves an end of a step.
func (b *builder) undercut(c *chain, i, end int) ending {
	s := c.steps[i]
	width := b.size(s.Undercut.Width, trade.Width, "width of the undercut")
	depth := b.needed(s.Undercut.Depth, trade.Depth, "depth of the undercut")
	x0, x1 := s.span(end, width.Value)
	shallow := max(s.diameter(x0), s.diameter(x1))
	if !c.inside {
		shallow = min(s.diameter(x0), s.diameter(x1))
	}
	if !c.inside && depth.Value >= shallow/2 {
		b.clash(depth, s.size, "the undercut is deeper than the radius of the step")
	}
	if s.Fillet.Given() {
		b.clash(width, b.size(s.Fillet, trade.Radius, "fillet"), "one corner has either an undercut or a fillet")
	}
	d := shallow - 2*c.sign()*depth.Value
	return ending{piece: &piece{Segment{X0: x0, X1: x1, D0: d, D1: d, Role: Undercut}, depth}, size: width, depth: depth}
}

// along returns the segments of one step: its ends, its grooves and what is left
// between them.
func (b *builder) along(c *chain, s *stretch) []piece {
	from, to := s.x0+s.ends[leftEnd].width(), s.x1-s.ends[rightEnd].width()
	if from > to+level {
		b.clash(longer(s.ends[leftEnd], s.ends[rightEnd]).size, s.lengthOrSize(), "what is cut into the ends of the step leaves nothing of it")
		to = from
	}
	var list []piece
	if left := s.ends[leftEnd].piece; left != nil {
		list = append(list, *left)
	}
	x := from
	for _, g := range b.grooves(c, s, from, to) {
		list = append(list, s.body(x, g.X0)...)
		list = append(list, g)
		x = g.X1
	}
	list = append(list, s.body(x, to)...)
	if s.Knurled && !c.inside {
		b.model.Turned.Grain = append(b.model.Turned.Grain, Knurl{from, to})
	}
	if right := s.ends[rightEnd].piece; right != nil {
		list = append(list, *right)
	}
	return list
}

func longer(e, f ending) ending {
	if e.width() > f.width() {
		return e
	}
	return f
}

func (s *stretch) lengthOrSize() given {
	if s.length.stated() {
		return s.length
	}
	return s.size
}

// body returns the plain stretch between two places, nothing where there is none.
func (s *stretch) body(from, to float64) []piece {
	if to-from < level {
		return nil
	}
	return []piece{{Segment{Form: s.form(), X0: from, X1: to, D0: s.diameter(from), D1: s.diameter(to), Thread: s.thread}, s.size}}
}

// grooves returns the grooves of a step, from left to right.
func (b *builder) grooves(c *chain, s *stretch, from, to float64) []piece {
	for i := range s.Grooves {
		g := &s.Grooves[i]
		at := b.needed(g.At, trade.Distance, "place of a groove")
		width := b.needed(g.Width, trade.Width, "width of a groove")
		size := b.needed(g.Diameter, trade.Diameter, "diameter of a groove")
		p := piece{Segment{X0: s.x0 + at.Value, X1: s.x0 + at.Value + width.Value, D0: size.Value, D1: size.Value, Role: Groove}, size}
		if s.mirrored {
			p.X0, p.X1 = s.x1-at.Value-width.Value, s.x1-at.Value
		}
		b.grooveFits(c, s, p, at, width, from, to)
		s.grooves = append(s.grooves, p)
	}
	list := slices.Clone(s.grooves)
	slices.SortFunc(list, fromLeft)
	for i := 1; i < len(list); i++ {
		if list[i].X0 < list[i-1].X1-level {
			b.clash(list[i-1].by, list[i].by, "the grooves run into each other")
		}
	}
	return list
}

// grooveFits refuses a groove outside its step, or one that cuts nothing.
func (b *builder) grooveFits(c *chain, s *stretch, p piece, at, width given, from, to float64) {
	if p.X0 < from-level || p.X1 > to+level {
		b.refuse(places(at, width), "the groove with %v and %v does not lie on its step: %s long, with its ends clear from %s to %s",
			at, width, b.length(s.x1-s.x0), b.length(from-s.x0), b.length(to-s.x0))
	}
	for _, x := range []float64{p.X0, p.X1} {
		if c.sign()*(s.diameter(x)-p.D0) <= level {
			b.clash(p.by, s.size, "the groove would cut nothing")
			return
		}
	}
}

// points returns the drill points of bores that end blind.
func (b *builder) points(c *chain) []piece {
	if !c.inside {
		return nil
	}
	var list []piece
	if s := c.steps[0]; !c.openLeft {
		list = append(list, piece{Segment{X0: s.x0 - PointLength(s.d0), X1: s.x0, D1: s.d0, Role: DrillPoint}, s.size})
		if list[0].X0 <= level {
			b.refuse(places(s.length, s.size), "%v breaks through the far face with its drill point", s.size)
		}
	}
	if s := c.steps[len(c.steps)-1]; !c.openRight {
		list = append(list, piece{Segment{X0: s.x1, X1: s.x1 + PointLength(s.d1), D0: s.d1, Role: DrillPoint}, s.size})
		if s.x1+PointLength(s.d1) >= b.model.Turned.Length-level {
			b.refuse(places(s.length, s.size), "%v breaks through the far face with its drill point", s.size)
		}
	}
	return list
}

// PointLength returns how long the point of a drill of this diameter is, in mm:
// d/2 over the tangent of half of 118°.
func PointLength(diameter float64) float64 { return diameter / 2 / math.Tan(59*math.Pi/180) }

// meet refuses a fillet and the chamfer of the same shoulder that run into each
// other.
func (b *builder) meet(c *chain) {
	for i, s := range c.steps {
		for end, e := range s.ends {
			n := c.neighbour(i, end)
			if e.piece == nil || e.Role != Fillet || n == nil {
				continue
			}
			other := n.ends[1-end]
			if other.piece != nil && other.Role == Chamfer && e.size.Value+other.size.Value > c.rise(i, end)/2+level {
				b.clash(e.size, other.size, "they meet on one shoulder that is not high enough for both")
			}
		}
	}
}

// note says something in words.
func (b *builder) note(text string) {
	if !slices.Contains(b.model.Notes, text) {
		b.model.Notes = append(b.model.Notes, text)
	}
}
