package draw

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Lengths in dimensions, in mm (ISO 129-1 gives the forms, the lengths are our
// choice).
const (
	headLength = 3.0
	headWidth  = 1.0
	stub       = 6.0 // of a dimension line outside, behind the arrowhead's tip
	projectGap = 1.0 // between the part and a projection line
	overshoot  = 1.5 // of a projection line past the dimension line
	textGap    = 0.9 // between a line and the text on it
	textPad    = 1.0 // between a text and what bounds the line it stands on
)

// head returns an arrowhead with its tip at a place, pointing in a direction.
func head(tip, towards geom.Point) ink.Area {
	back := tip.Sub(towards.Times(headLength))
	side := towards.Left().Times(headWidth / 2)
	return ink.Area{Path: geom.Polygon(tip, back.Add(side), back.Sub(side)), Tone: 1, Layer: ink.Dimensions}
}

func thinLine(points ...geom.Point) ink.Stroke {
	return ink.Stroke{Path: geom.Polyline(points...), Kind: ink.Thin, Layer: ink.Dimensions}
}

// linear is a plan for a dimension along a direction. Places along the
// direction are counted by u, across it (to its left) by v.
type linear struct {
	a, b      geom.Point
	direction float64     // -π/2 < direction ≤ π/2, so that the text can be read
	v         float64     // of the dimension line
	textFrom  float64     // u of the left end of the text
	outside   bool        // arrowheads point inwards from outside
	open      bool        // no line between the arrowheads
	inside    bool        // of a bore
	mirrored  bool        // the part has the same ends on the other side of the axis
	stretch   *[2]float64 // least and largest v at which the part has these ends; nil where they are at one place
	half      bool        // of a half section: only the end at a is seen
	end       float64     // u where the line of a half dimension ends
	figure    *figure
	measures  float64
}

// axes returns the directions along and across.
func (l *linear) axes() (u, v geom.Point) {
	u = geom.Polar(1, l.direction)
	return u, u.Left()
}

// at returns the point with these coordinates.
func (l *linear) at(u, v float64) geom.Point {
	along, across := l.axes()
	return along.Times(u).Add(across.Times(v))
}

// dimension returns the mark.
func (l *linear) dimension() ink.Dimension {
	along, _ := l.axes()
	from, to := l.a.Dot(along), l.b.Dot(along)
	if l.half {
		to = l.end
	}
	d := ink.Dimension{
		Kind: ink.Linear, A: l.a, B: l.b, Direction: l.direction, LineAt: l.at(from, l.v),
		Measures: l.measures, Words: l.figure.words,
	}
	d.Parts = append(d.Parts, l.projection(l.a)...)
	if !l.half {
		d.Parts = append(d.Parts, l.projection(l.b)...)
	}
	d.Parts = append(d.Parts, l.lines(from, to)...)
	d.Parts = append(d.Parts, l.heads(from, to)...)
	d.Parts = append(d.Parts, l.figure.marks(l.at(l.textFrom, l.v+textGap-l.figure.low), l.direction)...)
	return d
}

// projection returns the line from the part to the dimension line.
func (l *linear) projection(p geom.Point) []ink.Mark {
	along, across := l.axes()
	u, v := p.Dot(along), p.Dot(across)
	away := math.Copysign(1, l.v-v)
	if math.Abs(l.v-v) <= projectGap {
		return nil
	}
	return []ink.Mark{thinLine(l.at(u, v+away*projectGap), l.at(u, l.v+away*overshoot))}
}

// lines returns the dimension line, as long as its text and arrowheads ask.
func (l *linear) lines(from, to float64) []ink.Mark {
	low, high := min(from, to), max(from, to)
	left, right := low, high
	if l.outside {
		left, right = low-stub, high+stub
	}
	left, right = min(left, l.textFrom), max(right, l.textFrom+l.figure.width)
	if !l.open {
		return []ink.Mark{thinLine(l.at(left, l.v), l.at(right, l.v))}
	}
	return []ink.Mark{thinLine(l.at(left, l.v), l.at(low, l.v)), thinLine(l.at(high, l.v), l.at(right, l.v))}
}

func (l *linear) heads(from, to float64) []ink.Mark {
	along, _ := l.axes()
	out := along.Times(math.Copysign(1, from-to))
	if l.outside {
		out = out.Times(-1)
	}
	list := []ink.Mark{head(l.at(from, l.v), out)}
	if !l.half {
		list = append(list, head(l.at(to, l.v), out.Times(-1)))
	}
	return list
}

// pointer is a plan for a dimension or note with an arrow from a landing: the
// arrow's tip, the direction from it to the landing, and the length.
type pointer struct {
	kind     ink.DimensionKind
	a, b     geom.Point // as in Dimension
	tip      geom.Point
	away     float64
	length   float64
	leftward bool // the landing runs to the left
	figure   *figure
	measures float64
}

func (p *pointer) dimension() ink.Dimension {
	out := geom.Polar(1, p.away)
	elbow := p.tip.Add(out.Times(p.length))
	run, text := p.figure.width+textPad, elbow.X+textPad
	if p.leftward {
		run, text = -run, elbow.X-textPad-p.figure.width
	}
	end := elbow.Add(geom.Point{X: run})
	d := ink.Dimension{
		Kind: p.kind, A: p.a, B: p.b, Direction: p.away, LineAt: elbow, Measures: p.measures, Words: p.figure.words,
		Parts: []ink.Mark{thinLine(p.tip, elbow, end), head(p.tip, out.Times(-1))},
	}
	d.Parts = append(d.Parts, p.figure.marks(geom.Point{X: text, Y: elbow.Y + textGap - p.figure.low}, 0)...)
	return d
}

// angular is a plan for the dimension of an angle at a vertex from a to b,
// anticlockwise.
type angular struct {
	vertex, a, b geom.Point
	radius       float64
	beyond       int // the text stands between the arrows, or past b (1) or a (-1)
	figure       *figure
	measures     float64
}

func (g *angular) dimension() ink.Dimension {
	from, sweep := g.span()
	d := ink.Dimension{
		Kind: ink.Angular, A: g.a, B: g.b, Vertex: g.vertex, LineAt: g.on(from + sweep/2),
		Measures: g.measures, Words: g.figure.words,
	}
	d.Parts = append(d.Parts, g.projection(g.a)...)
	d.Parts = append(d.Parts, g.projection(g.b)...)
	d.Parts = append(d.Parts, g.arcs(from, sweep)...)
	d.Parts = append(d.Parts, g.figure.marks(g.textAt(from, sweep), 0)...)
	return d
}

// span returns the direction of a and the angle from there to b.
func (g *angular) span() (from, sweep float64) {
	from = g.a.Sub(g.vertex).Angle()
	sweep = math.Mod(g.b.Sub(g.vertex).Angle()-from, 2*math.Pi)
	if sweep <= 0 {
		sweep += 2 * math.Pi
	}
	return from, sweep
}

func (g *angular) on(direction float64) geom.Point {
	return g.vertex.Add(geom.Polar(g.radius, direction))
}

// inside reports whether the arrowheads have room between the legs.
func (g *angular) inside(sweep float64) bool { return g.radius*sweep >= 2*headLength+2 }

// projection returns the line from the part to the arc.
func (g *angular) projection(p geom.Point) []ink.Mark {
	leg := p.Sub(g.vertex)
	if leg.Length()+projectGap >= g.radius {
		return nil
	}
	out := leg.Unit()
	return []ink.Mark{thinLine(p.Add(out.Times(projectGap)), g.vertex.Add(out.Times(g.radius+overshoot)))}
}

func (g *angular) arcs(from, sweep float64) []ink.Mark {
	start, end := g.on(from), g.on(from+sweep)
	lean := headLength / 2 / g.radius // an arrowhead lies along the chord
	if g.inside(sweep) {
		return []ink.Mark{
			g.arc(from, from+sweep),
			head(start, geom.Polar(1, from-math.Pi/2+lean)), head(end, geom.Polar(1, from+sweep+math.Pi/2-lean)),
		}
	}
	tail := stub / g.radius
	return []ink.Mark{
		g.arc(from-tail, from), g.arc(from+sweep, from+sweep+tail),
		head(start, geom.Polar(1, from+math.Pi/2-lean)), head(end, geom.Polar(1, from+sweep-math.Pi/2+lean)),
	}
}

func (g *angular) arc(from, to float64) ink.Stroke {
	return ink.Stroke{Path: geom.Path{geom.Arc(g.vertex, g.on(from), g.on(to), geom.Anticlockwise)}, Kind: ink.Thin, Layer: ink.Dimensions}
}

// textAt returns where the level text starts: it stands outside the arc, clear
// of it.
func (g *angular) textAt(from, sweep float64) geom.Point {
	direction := from + sweep/2
	if g.beyond != 0 {
		past := (stub + g.figure.width/2) / g.radius
		direction = from + sweep/2 + float64(g.beyond)*(sweep/2+past)
	}
	half := geom.Point{X: g.figure.width / 2, Y: (g.figure.high - g.figure.low) / 2}
	out := geom.Polar(1, direction)
	reach := g.radius + textGap + math.Abs(out.X)*half.X + math.Abs(out.Y)*half.Y
	centre := g.vertex.Add(out.Times(reach))
	return geom.Point{X: centre.X - half.X, Y: centre.Y - half.Y - g.figure.low}
}
