package part

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// sector returns the outline of a sector of a ring about the origin, symmetric
// about the y axis, anticlockwise from the lower right corner.
func sector(outer, inner, angle float64) geom.Path {
	right, left := math.Pi/2-angle/2, math.Pi/2+angle/2
	a, d := geom.Polar(inner, right), geom.Polar(inner, left)
	c, e := geom.Polar(outer, right), geom.Polar(outer, left)
	var origin geom.Point
	return geom.Path{geom.Line(a, c), geom.Arc(origin, c, e, geom.Anticlockwise), geom.Line(e, d), geom.Arc(origin, d, a, geom.Clockwise)}
}

// centred returns a rectangle about the origin.
func centred(length, width float64) geom.Path {
	high := geom.Point{X: length / 2, Y: width / 2}
	return geom.Rectangle(high.Times(-1), high)
}

// shoe builds a sector shoe. The centre of its groove is the origin and its
// middle lies on the y axis; one with straight sides is centred on the origin.
func (b *builder) shoe(s *trade.ShoeShape) {
	height := b.needed(s.Height, trade.Height, "height")
	p := &Prism{Height: height.Value}
	b.model.Prism = p
	var middle geom.Point
	if s.Width.Given() {
		width, length := b.size(s.Width, trade.Width, "width"), b.needed(s.Length, trade.Length, "length")
		p.Outline = centred(length.Value, width.Value)
		b.rectangleDimensions(p.Outline.Bounds(), length, width)
	} else {
		middle = b.sectorOutline(s, p)
	}
	b.chamferEdges(s.Chamfer, height)
	b.heightDimension(height)
	if s.Stem != nil {
		b.stem(s.Stem, middle)
	}
	if s.Hole != nil {
		b.holes([]trade.HoleShape{*s.Hole}, middle, height)
	}
}

// sectorOutline builds the outline of a shoe with round faces and returns its
// middle.
func (b *builder) sectorOutline(s *trade.ShoeShape, p *Prism) geom.Point {
	outer := b.needed(s.Outer, trade.Radius, "outer radius")
	inner := b.needed(s.Inner, trade.Radius, "inner radius")
	angle := b.needed(s.Angle, trade.Angle, "angle")
	if inner.Value >= outer.Value-level {
		b.clash(inner, outer, "the inner radius is not smaller than the outer one")
	}
	if angle.Value >= math.Pi {
		b.refuse(places(angle), "%v is no sector: it is less than half a ring, 180°", angle)
	}
	p.Outline = sector(outer.Value, inner.Value, angle.Value)
	b.add(Dimension{View: Plan, Kind: Radius, B: p.Outline[1].At(0.5), Measure: outer.Measure})
	b.add(Dimension{View: Plan, Kind: Radius, B: p.Outline[3].At(0.5), Measure: inner.Measure})
	b.add(Dimension{View: Plan, Kind: Angle, A: p.Outline[0].To, B: p.Outline[2].From, Measure: angle.Measure})
	return geom.Point{Y: (outer.Value + inner.Value) / 2}
}

// heightDimension dimensions a height at the left of the edge view.
func (b *builder) heightDimension(height given) {
	x := b.model.Prism.Outline.Bounds().Low.X
	b.add(Dimension{View: Edge, Kind: Up, A: geom.Point{X: x}, B: geom.Point{X: x, Y: height.Value}, Measure: height.Measure})
}

// rectangleDimensions dimensions length and width in the plan.
func (b *builder) rectangleDimensions(box geom.Box, length, width given) {
	corner := geom.Point{X: box.High.X, Y: box.Low.Y}
	b.add(Dimension{View: Plan, Kind: Across, A: box.Low, B: corner, Measure: length.Measure})
	b.add(Dimension{View: Plan, Kind: Up, A: corner, B: box.High, Measure: width.Measure})
}

// chamferEdges chamfers the upper and lower edges all round.
func (b *builder) chamferEdges(m trade.Measure, height given) {
	size := b.size(m, trade.Length, "chamfer")
	if !size.stated() {
		return
	}
	p := b.model.Prism
	if 2*size.Value >= height.Value-level {
		b.clash(size, height, "the chamfers of the upper and lower edge meet")
	}
	if box := p.Outline.Bounds().Size(); 2*size.Value >= min(box.X, box.Y) {
		b.refuse(places(size), "%v leaves nothing of a face only %s across", size, b.length(min(box.X, box.Y)))
	}
	if _, fits := inset(p.Outline, size.Value); !fits {
		b.refuse(places(size), "%v is too large for a rounding, a short edge or a sharp corner of the outline", size)
		return
	}
	p.Chamfer = size.Value
	corner := p.Outline.Bounds().High.X
	b.add(Dimension{View: Edge, Kind: Leader, A: geom.Point{X: corner - size.Value/2, Y: height.Value - size.Value/2}, Measure: size.Measure, After: "× 45° all round"})
}

// stem puts a stem or stud on the top face, so far outwards from the middle.
func (b *builder) stem(s *trade.StemShape, middle geom.Point) {
	p := b.model.Prism
	length := b.needed(s.Length, trade.Length, "length of the stem")
	var size given
	segment := Segment{X1: length.Value}
	if s.Thread != "" {
		segment.Thread, size = b.thread(s.Thread, false, s.Pos)
	} else {
		size = b.needed(s.Diameter, trade.Diameter, "stem")
	}
	segment.D0, segment.D1 = size.Value, size.Value
	offset := b.size(s.Offset, trade.Offset, "offset of the stem")
	at := middle.Add(geom.Point{Y: offset.orZero()})
	p.Stem = &Stem{At: at, Turned: Turned{Segments: []Segment{segment}, Length: length.Value}}
	if short := p.Outline.DistanceTo(at) - p.Chamfer - size.Value/2; !p.Outline.Contains(at) || short < -level {
		b.refuse(places(size, offset), "%v stands over the edge of the shoe: its middle is %s from the nearest edge%s", size,
			b.length(p.Outline.DistanceTo(at)), b.lessChamfer())
	}
	b.stemDimensions(at, middle, size, length, offset)
}

// lessChamfer says that the chamfer takes room on the face.
func (b *builder) lessChamfer() string {
	if c := b.model.Prism.Chamfer; c > 0 {
		return ", and the chamfer takes " + b.length(c)
	}
	return ""
}

func (b *builder) stemDimensions(at, middle geom.Point, size, length, offset given) {
	p := b.model.Prism
	z := p.Height + length.Value/2
	b.add(Dimension{
		View: Edge, Kind: Diameter, Measure: size.Measure, Thread: p.Stem.Turned.Segments[0].Thread,
		A: geom.Point{X: at.X - size.Value/2, Y: z}, B: geom.Point{X: at.X + size.Value/2, Y: z},
	})
	x := at.X + size.Value/2
	b.add(Dimension{View: Edge, Kind: Up, A: geom.Point{X: x, Y: p.Height}, B: geom.Point{X: x, Y: p.Height + length.Value}, Measure: length.Measure})
	if offset.orZero() != 0 {
		b.add(Dimension{View: Plan, Kind: Up, A: middle, B: at, Measure: absolute(offset.Measure)})
	}
}

// absolute returns the size of an offset, of whichever sign.
func absolute(m Measure) Measure {
	if m.Value < 0 {
		m.Value, m.Low, m.High = -m.Value, -m.High, -m.Low
	}
	return m
}

// key builds a parallel key, centred in the plan.
func (b *builder) key(s *trade.KeyShape) {
	width, height := b.needed(s.Width, trade.Width, "width"), b.needed(s.Height, trade.Height, "height")
	length := b.needed(s.Length, trade.Length, "length")
	p := &Prism{Height: height.Value, Outline: centred(length.Value, width.Value)}
	b.model.Prism = p
	if s.RoundEnds {
		if length.Value <= width.Value+level {
			b.clash(length, width, "a key with round ends is longer than it is wide")
		}
		p.Outline = stadium(geom.Point{X: (width.Value - length.Value) / 2}, geom.Point{X: (length.Value - width.Value) / 2}, width.Value)
		b.note("Both ends round.")
	}
	b.rectangleDimensions(geom.Box{Low: geom.Point{X: -length.Value / 2, Y: -width.Value / 2}, High: geom.Point{X: length.Value / 2, Y: width.Value / 2}}, length, width)
	b.chamferEdges(s.Chamfer, height)
	b.heightDimension(height)
}

// stadium returns the outline of a slot with round ends about two points,
// anticlockwise.
func stadium(from, to geom.Point, width float64) geom.Path {
	side := to.Sub(from).Unit().Left().Times(width / 2)
	a, c := from.Sub(side), to.Sub(side)
	d, e := to.Add(side), from.Add(side)
	return geom.Path{geom.Line(a, c), geom.Arc(to, c, d, geom.Anticlockwise), geom.Line(d, e), geom.Arc(from, e, a, geom.Anticlockwise)}
}

// gib builds a gib strip. Its flank lies in the plan: the length along x, the
// width along y; the thickness is its height, which a taper makes less towards
// the right end, and the edges lean so as to lie level in a dovetail.
func (b *builder) gib(s *trade.GibShape) {
	length, width := b.needed(s.Length, trade.Length, "length"), b.needed(s.Width, trade.Width, "width")
	thick, thin := b.needed(s.Thick, trade.Height, "thick end"), b.size(s.Thin, trade.Height, "thin end")
	angle := b.size(s.Angle, trade.Angle, "angle of the dovetail")
	p := &Prism{Height: thick.Value, Outline: geom.Rectangle(geom.Point{}, geom.Point{X: length.Value, Y: width.Value})}
	b.model.Prism = p
	b.rectangleDimensions(p.Outline.Bounds(), length, width)
	b.heightDimension(thick)
	if thin.stated() {
		if thin.Value >= thick.Value-level {
			b.clash(thin, thick, "the thin end of a tapered gib is thinner than the thick end")
		}
		p.Thin = thin.Value
		b.add(Dimension{View: Edge, Kind: Up, A: geom.Point{X: length.Value}, B: geom.Point{X: length.Value, Y: thin.Value}, Measure: thin.Measure})
	}
	if angle.stated() {
		b.lean(angle, width, thick)
	}
	least := thick
	if thin.stated() {
		least = thin
	}
	b.holes(s.Holes, geom.Point{}, least)
}

// lean makes the sides of a gib lie level in a dovetail of this angle: they lean
// by what it lacks of a right angle.
func (b *builder) lean(angle, width, thick given) {
	const least, most = 30 * math.Pi / 180, 90 * math.Pi / 180
	if angle.Value < least || angle.Value > most {
		b.refuse(places(angle), "%v is none of a dovetail: it lies between 30° and 90°", angle)
		return
	}
	p := b.model.Prism
	p.Lean = math.Pi/2 - angle.Value
	if shift := thick.Value * math.Tan(p.Lean); shift >= width.Value {
		b.clash(angle, width, "the sides lean past each other")
	}
	if p.Lean > level {
		b.add(Dimension{View: End, Kind: Angle, A: geom.Point{X: width.Value}, B: geom.Polar(thick.Value/math.Cos(p.Lean), angle.Value), Measure: angle.Measure})
	}
}
