package part

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// plate builds a plate of one thickness.
func (b *builder) plate(s *trade.PlateShape) {
	thickness := b.needed(s.Thickness, trade.Height, "thickness")
	p := &Prism{Height: thickness.Value}
	b.model.Prism = p
	if !b.plateOutline(s) {
		return
	}
	b.chamferEdges(s.Chamfer, thickness)
	b.heightDimension(thickness)
	b.ledges(s.Ledges, thickness)
	b.slots(s.Slots, thickness)
	b.holes(s.Holes, geom.Point{}, thickness)
}

// plateOutline builds the outline and reports whether there is one to go on with.
func (b *builder) plateOutline(s *trade.PlateShape) bool {
	p := b.model.Prism
	switch {
	case s.Rectangle != nil:
		b.rectangle(s.Rectangle)
	case s.Disc.Given():
		size := b.size(s.Disc, trade.Diameter, "disc")
		p.Outline = geom.Circle(geom.Point{}, size.Value/2)
		b.add(Dimension{View: Plan, Kind: Diameter, B: geom.Point{X: size.Value / 2}, Measure: size.Measure})
	default:
		b.outline(s.Outline)
	}
	return len(p.Outline) > 0 && p.Outline.Area() > 0 // false of what is not a number
}

func (b *builder) rectangle(r *trade.RectangleShape) {
	length, width := b.needed(r.Length, trade.Length, "length"), b.needed(r.Width, trade.Width, "width")
	p := b.model.Prism
	p.Outline = geom.Rectangle(geom.Point{}, geom.Point{X: length.Value, Y: width.Value})
	if r.Centred {
		p.Outline = centred(length.Value, width.Value)
	} else {
		b.placed(false, length.Measure)
		b.placed(true, width.Measure)
	}
	b.rectangleDimensions(p.Outline.Bounds(), length, width)
	round := b.size(r.Corners, trade.Radius, "corner radius")
	if !round.stated() {
		return
	}
	least := length
	if width.Value < length.Value {
		least = width
	}
	if 2*round.Value > least.Value+level {
		b.clash(round, least, "the corners of one side run into each other")
		return
	}
	for i := 3; i >= 0; i-- {
		next, fits := p.Outline.Fillet(i, round.Value)
		if !fits { // one of its sizes is no number, which was refused before
			return
		}
		p.Outline = next
	}
	b.radius(round.Measure, p.Outline, 4)
}

// radius dimensions the first arc of this radius.
func (b *builder) radius(m Measure, path geom.Path, count int) {
	for _, e := range path {
		if d := e.Radius() - m.Value; e.Turn != geom.Straight && d < level && d > -level {
			b.add(Dimension{View: Plan, Kind: Radius, A: e.Centre, B: e.At(0.5), Measure: m, Count: count})
			return
		}
	}
}

// bend is one corner of an outline.
type bend struct {
	*trade.Corner
	x, y, radius, round given
	at                  geom.Point
}

// outline builds the outline through corners.
func (b *builder) outline(corners []trade.Corner) {
	if len(corners) < 2 {
		b.refuse(nil, "the shape of a plate needs its outline: rectangle, disc, or an outline of two corners or more")
		return
	}
	before := len(b.faults)
	bends := make([]bend, len(corners))
	for i := range corners {
		c := &corners[i]
		bends[i] = bend{
			Corner: c, x: b.size(c.X, trade.Offset, "x of a corner"), y: b.size(c.Y, trade.Offset, "y of a corner"),
			radius: b.size(c.Radius, trade.Radius, "arc radius"), round: b.size(c.Round, trade.Radius, "rounding"),
		}
		bends[i].at = geom.Point{X: bends[i].x.orZero(), Y: bends[i].y.orZero()}
	}
	var path geom.Path
	for i := range bends {
		path = append(path, b.edge(&bends[(i+len(bends)-1)%len(bends)], &bends[i]))
	}
	if len(b.faults) > before {
		return
	}
	if x, crosses := path.CrossesItself(); crosses {
		b.refuse(places(bends[x.Second].x, given{pos: bends[x.Second].Pos}), "the outline crosses itself: the edge to corner %d meets the edge to corner %d at %s",
			x.First+1, x.Second+1, b.spot(x.At))
		return
	}
	b.outlineDimensions(bends, path)
	path = b.rounded(path, bends)
	if path.Area() < 0 {
		path = path.Reversed()
	}
	b.model.Prism.Outline = path
}

// edge returns the edge from one corner to the next: straight, or an arc of less
// than half a turn.
func (b *builder) edge(from, to *bend) geom.Edge {
	straight := geom.Line(from.at, to.at)
	if straight.Length() < level {
		b.refuse(places(to.x, given{pos: to.Pos}), "two corners of the outline that follow each other are at one place, %s", b.spot(to.at))
	}
	if !to.radius.stated() {
		return straight
	}
	half, radius := straight.Length()/2, to.radius.Value
	if radius < half-level {
		b.refuse(places(to.radius), "%v does not reach between corners that are %s apart: it is at least half of that", to.radius, b.length(2*half))
		return straight
	}
	turn := geom.Anticlockwise
	if to.Turn == trade.Clockwise {
		turn = geom.Clockwise
	}
	return geom.Arc(arcCentre(straight, radius, turn), from.at, to.at, turn)
}

// arcCentre returns the centre of the arc over a chord that turns by no more
// than half a circle.
func arcCentre(chord geom.Edge, radius float64, turn geom.Turn) geom.Point {
	half := chord.Length() / 2
	aside := chord.To.Sub(chord.From).Unit().Left().Times(float64(turn) * root(radius*radius-half*half))
	return geom.Middle(chord.From, chord.To).Add(aside)
}

// rounded returns the outline with its corners rounded.
func (b *builder) rounded(path geom.Path, bends []bend) geom.Path {
	for i := range bends {
		round := bends[i].round
		if !round.stated() {
			continue
		}
		for k, e := range path {
			if e.To != bends[i].at {
				continue
			}
			next, fits := path.Fillet(k, round.Value)
			if !fits {
				b.refuse(places(round), "%v does not fit into corner %d, at %s: its edges are %s and %s long", round, i+1,
					b.spot(bends[i].at), b.length(e.Length()), b.length(path[(k+1)%len(path)].Length()))
				return path
			}
			path = next
			break
		}
	}
	return path
}

// outlineDimensions dimensions the corners from the origin, the arcs, and the
// roundings, those of one size together.
func (b *builder) outlineDimensions(bends []bend, path geom.Path) {
	counts := map[Measure]int{}
	var rounds []bend
	for i, c := range bends {
		b.place(c.at, c.x, c.y)
		if c.radius.stated() {
			b.add(Dimension{View: Plan, Kind: Radius, A: path[i].Centre, B: path[i].At(0.5), Measure: c.radius.Measure})
		}
		if c.round.stated() {
			if counts[c.round.Measure]++; counts[c.round.Measure] == 1 {
				rounds = append(rounds, c)
			}
		}
	}
	for _, c := range rounds {
		for i := range bends {
			if rounded, fits := path.Fillet(i, c.round.Value); fits && bends[i].at == c.at {
				b.radius(c.round.Measure, rounded, counts[c.round.Measure])
			}
		}
	}
}

// place dimensions a place in the plan from the origin, each coordinate that is
// not nothing and not there already.
func (b *builder) place(at geom.Point, x, y given) {
	if x.stated() && x.Value != 0 && b.placed(false, x.Measure) {
		b.add(Dimension{View: Plan, Kind: Across, A: geom.Point{Y: at.Y}, B: at, Measure: absolute(x.Measure)})
	}
	if y.stated() && y.Value != 0 && b.placed(true, y.Measure) {
		b.add(Dimension{View: Plan, Kind: Up, A: geom.Point{X: at.X}, B: at, Measure: absolute(y.Measure)})
	}
}

// coordinate is a distance from the origin that has its dimension.
type coordinate struct {
	up    bool
	name  string
	value float64
}

// placed notes a coordinate and reports whether it is new.
func (b *builder) placed(up bool, m Measure) bool {
	c := coordinate{up, m.Name, m.Value}
	if b.coordinates[c] {
		return false
	}
	b.coordinates[c] = true
	return true
}
