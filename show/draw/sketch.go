package draw

import (
	"errors"
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Sizes of a sketch in mm: the room its shapes should fit, the length that the
// least of its spans should have if that takes no more than twice the room, and
// the margin round all.
const (
	sketchLength = 80.0
	sketchHeight = 55.0
	leastSpan    = 7.0
	sketchMargin = 3.0
)

// sketchKinds says how shapes of a sketch are drawn, and how dark they are
// inside.
var sketchKinds = map[gauge.ShapeKind]struct {
	kind ink.LineKind
	tone float64
}{
	gauge.WorkShape:  {ink.Visible, 0.12},
	gauge.PieceShape: {ink.Visible, 0.28},
	gauge.JawShape:   {ink.Thin, 0},
	gauge.AxisShape:  {ink.CentreLine, 0},
	gauge.TraceShape: {ink.Phantom, 0},
}

// Sketch lays out the sketch of a gauging method, to scale, on a sheet just
// large enough. Words returns what is printed for a role or, at
// gauge.ReadingRole, for the reading. It fails where there is no room for the
// dimensions however large the sketch.
func Sketch(s gauge.Sketch, title string, words func(role int) string) (*ink.Sheet, error) {
	const trials, larger = 6, 1.25
	scale := sketchScale(s)
	for range trials {
		if c, ok := sketched(s, scale, words); ok {
			return c.alone(title), nil
		}
		scale *= larger
	}
	return nil, errors.New("the sketch has no room for its dimensions")
}

// sketchScale fits the shapes into their room.
func sketchScale(s gauge.Sketch) float64 {
	c := canvas{scale: 1}
	for _, shape := range s.Shapes {
		c.draw(shape.Path, ink.Visible, ink.Outlines)
	}
	size := c.outline.Size()
	scale := math.Min(sketchLength/size.X, sketchHeight/size.Y)
	least := math.Inf(1)
	for _, span := range s.Spans {
		if !span.Angle {
			least = math.Min(least, span.Measures())
		}
	}
	return scale * math.Max(1, math.Min(2, leastSpan/(scale*least)))
}

// sketched draws shapes and dimensions, false where these find no place.
func sketched(s gauge.Sketch, scale float64, words func(role int) string) (*canvas, bool) {
	c := &canvas{scale: scale}
	for _, shape := range s.Shapes {
		look := sketchKinds[shape.Kind]
		if look.tone > 0 {
			c.add(ink.Area{Path: shape.Path.Scaled(scale), Tone: look.tone, Layer: ink.Hatches})
		}
		c.draw(shape.Path, look.kind, ink.Outlines)
	}
	wishes := make([]wish, len(s.Spans))
	for i, span := range s.Spans {
		wishes[i] = c.sketchWish(span, words(span.Role))
	}
	return c, c.place(wishes)
}

// sketchWish proposes places for what a span measures.
func (c *canvas) sketchWish(s gauge.Span, words string) wish {
	f := &figure{}
	f.add(words)
	a, b := c.on(s.A), c.on(s.B)
	if s.Angle {
		return c.sketchAngle(angular{vertex: c.on(s.Vertex), a: a, b: b, figure: f, measures: s.Measures() * 180 / math.Pi})
	}
	l := linear{a: a, b: b, direction: readable(b.Sub(a).Angle()), figure: f, measures: s.Measures()}
	_, across := l.axes()
	side := 1.0
	if s.Away.Dot(across) < 0 {
		side = -1
	}
	w := c.rows(l, side)
	l.v = a.Dot(across)
	if s.Away == (geom.Point{}) {
		w.proposals = append(w.proposals, l.texts(0)...)
	}
	w.upright = math.Abs(across.X) < math.Abs(across.Y)
	return w
}

// sketchAngle proposes arcs within the legs and beyond them.
func (c *canvas) sketchAngle(g angular) wish {
	legs := math.Min(g.a.Distance(g.vertex), g.b.Distance(g.vertex))
	w := wish{order: legs}
	const steps = 24
	for i := range steps {
		g.radius = legs*0.5 + float64(i)*4
		for beyond := -1; beyond <= 1; beyond++ {
			plan := g
			plan.beyond = beyond
			w.proposals = append(w.proposals, proposal{float64(i)*2 + costOfOutside*math.Abs(float64(beyond)), &plan})
		}
	}
	return w
}

// alone returns a sheet that holds just what is on the canvas.
func (c *canvas) alone(title string) *ink.Sheet {
	box := c.bounds()
	margin := geom.Point{X: sketchMargin, Y: sketchMargin}
	size := box.Size().Add(margin.Times(2))
	s := &ink.Sheet{Title: title, Width: size.X, Height: size.Y, Scale: c.scale}
	for _, m := range c.marks {
		s.Add(ink.Moved(m, margin.Sub(box.Low)))
	}
	return s
}
