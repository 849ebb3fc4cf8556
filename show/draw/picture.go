package draw

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Picture is a small picture of labelled geometry, in mm of its own: how parts
// lie to each other, how something is measured.
type Picture struct {
	Title         string
	Width, Height float64 // the most it may take, in mm on the paper
	Shapes        []Shape
	Labels        []Label
	Dims          []PictureDim
}

// Shape is a path as a line of some kind, filled where Fill, 0 to 1, is more
// than 0: up to 0.3 words can be read on it.
type Shape struct {
	Path geom.Path
	Kind ink.LineKind
	Fill float64
}

// Label says what is at a place. The words stand there or beside it, or where
// Points is set or there is no room at the end of a leader.
type Label struct {
	At     geom.Point
	Words  string
	Points bool
}

// PictureDim is a dimension in a picture. A Linear one runs along the line from
// A to B. Away is where its line stands, as a direction; the zero Point leaves
// it open.
type PictureDim struct {
	Kind         ink.DimensionKind
	A, B, Vertex geom.Point
	Away         geom.Point
	Words        string
}

// Scene lays a picture out, to the largest scale at which it fits with all that
// is written in it. The error says that it does not.
func Scene(p Picture) (*ink.Sheet, error) {
	const trials, smaller = 14, 0.88
	scale := p.fitting()
	for range trials {
		if c, ok := p.drawn(scale); ok {
			box := c.bounds()
			room := geom.Box{High: geom.Point{X: p.Width - 2*pictureMargin, Y: p.Height - 2*pictureMargin}}
			if (block{box}).fits(room) {
				return p.sheet(c, box), nil
			}
		}
		scale *= smaller
	}
	return nil, fmt.Errorf("the picture %q has no room in %s by %s mm: make it larger, or write less in it", p.Title, shortened(decimal(p.Width, 1), 0), shortened(decimal(p.Height, 1), 0))
}

// pictureMargin is left free round a picture, in mm.
const pictureMargin = 2.0

// fitting is the scale at which the shapes by themselves fill the room.
func (p *Picture) fitting() float64 {
	c := canvas{scale: 1}
	for _, s := range p.Shapes {
		c.draw(s.Path, s.Kind, ink.Outlines)
	}
	size := c.outline.Size()
	return min((p.Width-2*pictureMargin)/max(size.X, same), (p.Height-2*pictureMargin)/max(size.Y, same))
}

// drawn draws the picture at a scale, false where something finds no place.
func (p *Picture) drawn(scale float64) (*canvas, bool) {
	c := &canvas{scale: scale}
	for _, s := range p.Shapes {
		if s.Fill > 0 {
			c.add(ink.Area{Path: s.Path.Scaled(scale), Tone: s.Fill, Layer: ink.Hatches})
		}
		c.draw(s.Path, s.Kind, ink.Outlines)
	}
	var wishes []wish
	for i := range p.Dims {
		wishes = append(wishes, c.pictureDim(&p.Dims[i]))
	}
	for _, l := range p.Labels {
		wishes = append(wishes, c.label(l))
	}
	return c, c.place(wishes)
}

// sheet returns the page with the picture in its middle.
func (p *Picture) sheet(c *canvas, box geom.Box) *ink.Sheet {
	s := &ink.Sheet{Title: p.Title, Width: p.Width, Height: p.Height, Scale: c.scale}
	by := geom.Point{X: p.Width / 2, Y: p.Height / 2}.Sub(geom.Middle(box.Low, box.High))
	for _, m := range c.marks {
		s.Add(ink.Moved(m, by))
	}
	return s
}

// pictureDim proposes places for a dimension.
func (c *canvas) pictureDim(d *PictureDim) wish {
	f := &figure{}
	f.add(d.Words)
	a, b, vertex := c.on(d.A), c.on(d.B), c.on(d.Vertex)
	out := b.Sub(a)
	p := pointer{kind: d.Kind, a: a, b: b, tip: b, away: out.Angle(), figure: f, measures: d.A.Distance(d.B)}
	switch d.Kind {
	case ink.Angular:
		measures := angleAt(d.Vertex, d.A, d.B) * 180 / math.Pi
		return c.arcs(angular{vertex: vertex, a: a, b: b, figure: f, measures: measures})
	case ink.Radial, ink.Diametral:
		w := wish{order: -1, proposals: c.pointers(p, 0)}
		p.away += math.Pi
		w.proposals = append(w.proposals, c.pointers(p, 1)...)
		return w
	case ink.Leader:
		return c.notes(a, f)
	}
	return c.pictureLinear(linear{a: a, b: b, direction: readable(out.Angle()), figure: f, measures: d.A.Distance(d.B)}, d.Away)
}

// pictureLinear proposes rows beside the picture, on the line itself, and near
// it.
func (c *canvas) pictureLinear(l linear, away geom.Point) wish {
	_, across := l.axes()
	side := 1.0
	if away.Dot(across) < 0 {
		side = -1
	}
	w := c.rows(l, side)
	at := l.a.Dot(across)
	for _, off := range []float64{0, firstRow, -firstRow} {
		l.v = at + off
		w.proposals = append(w.proposals, l.texts(costOfOutside+math.Abs(off)/2)...)
	}
	w.upright = math.Abs(across.X) < math.Abs(across.Y)
	return w
}

// angleAt returns the angle at a vertex from a to b, anticlockwise, 0 to 2π.
func angleAt(vertex, a, b geom.Point) float64 {
	g := angular{vertex: vertex, a: a, b: b}
	_, sweep := g.span()
	return sweep
}

// caption is a plan for words without a leader.
type caption struct {
	at     geom.Point // left end of the base line
	figure *figure
}

func (k *caption) dimension() ink.Dimension {
	return ink.Dimension{Kind: ink.Leader, A: k.at, B: k.at, LineAt: k.at, Words: k.figure.words, Parts: k.figure.marks(k.at, 0)}
}

// label proposes places for words: on the spot, round it, and at the end of a
// leader.
func (c *canvas) label(l Label) wish {
	f := &figure{}
	f.add(l.Words)
	at := c.on(l.At)
	const leaderInstead = 8.0
	if l.Points {
		return c.notes(at, f)
	}
	w := c.notes(at, f)
	for i := range w.proposals {
		w.proposals[i].cost += leaderInstead
	}
	half := geom.Point{X: f.width / 2, Y: (f.high - f.low) / 2}
	for step := range 3 {
		for i := range 8 {
			out := geom.Polar(1, float64(i)*math.Pi/4)
			far := float64(step) * 2
			middle := at.Add(geom.Point{X: out.X * (half.X + far), Y: out.Y * (half.Y + far)})
			if step == 0 {
				middle = at.Add(geom.Point{X: out.X, Y: out.Y}.Times(float64(i) / 4))
			}
			plan := &caption{middle.Sub(geom.Point{X: half.X, Y: half.Y + f.low}), f}
			w.proposals = append(w.proposals, proposal{far + float64(i)/10, plan})
		}
	}
	return w
}
