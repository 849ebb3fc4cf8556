package part

import (
	"cmp"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// level is how far two lengths in mm may differ and still be one: sums of step
// lengths meet only so well.
const level = 1e-9

// turned builds a part turned about one axis.
func (b *builder) turned(s *trade.TurnedShape) {
	t := &Turned{}
	b.model.Turned = t
	outside := chain{steps: b.stretches(s.Steps, false), openLeft: true, openRight: true}
	if len(outside.steps) == 0 {
		b.refuse(nil, "the shape of a turned part needs its steps, from its left end to its right")
		return
	}
	t.Length = outside.end()
	for _, s := range outside.steps {
		b.shoulders = append(b.shoulders, s.x0, s.x1)
	}
	hollow := b.bores(s, t.Length)
	b.outside, b.inside = b.pieces(&outside), nil
	for i := range hollow {
		b.inside = append(b.inside, b.pieces(&hollow[i])...)
	}
	b.inside = append(b.inside, b.centres(s, t.Length)...)
	slices.SortStableFunc(b.inside, fromLeft)
	t.Segments, t.Bores = segmentsOf(b.outside), segmentsOf(b.inside)
	b.walls()
	b.flats(s.Flats)
	b.crossHoles(s.CrossHoles)
	b.turnedDimensions(s, &outside, hollow)
}

// piece is a segment and the size that it comes from.
type piece struct {
	Segment
	by given
}

// fromLeft orders pieces along the axis.
func fromLeft(p, q piece) int { return cmp.Compare(p.X0, q.X0) }

func segmentsOf(pieces []piece) []Segment {
	list := make([]Segment, len(pieces))
	for i, p := range pieces {
		list[i] = p.Segment
	}
	return list
}

// stretch is one step where it stands along the axis. Of a step that is written
// from the right end, begin is its right end.
type stretch struct {
	*trade.Step
	size, to, length given // to is the same as size where the step has no taper
	thread           *Thread
	x0, x1, d0, d1   float64
	mirrored         bool
	fills            bool // its length is what the others leave
	ends             [2]ending
	grooves          []piece
}

// diameter returns what the step would be at x without anything cut into it.
func (s *stretch) diameter(x float64) float64 {
	if s.x1-s.x0 < level {
		return s.d0
	}
	return s.d0 + (s.d1-s.d0)*(x-s.x0)/(s.x1-s.x0)
}

// form is that of its body.
func (s *stretch) form() SegmentForm {
	switch s.Section {
	case trade.Hexagon:
		return Hexagonal
	case trade.Square:
		return Squared
	}
	return Plain
}

// chain is a run of steps, from left to right, each where the one before ends.
type chain struct {
	steps               []*stretch
	inside              bool
	openLeft, openRight bool // it ends at a face, or blind
}

func (c *chain) end() float64 { return c.steps[len(c.steps)-1].x1 }

// sign is 1 outside and -1 inside: where more diameter is more metal.
func (c *chain) sign() float64 {
	if c.inside {
		return -1
	}
	return 1
}

// stretches places steps one after the other from x = 0.
func (b *builder) stretches(steps []trade.Step, inside bool) []*stretch {
	var list []*stretch
	x := 0.0
	for i := range steps {
		s := &stretch{Step: &steps[i]}
		b.section(s, inside)
		s.x0 = x
		switch s.fills = i == len(steps)-1 && !s.Length.Given() && (inside || b.overall.stated()); {
		case !s.fills:
			s.length = b.needed(s.Length, trade.Length, "length of each step")
			s.length.what = "length"
			x += s.length.Value
		case !inside:
			x = b.overall.Value
			b.bodyLeft(s)
		}
		s.x1 = x
		list = append(list, s)
	}
	return list
}

// bodyLeft refuses a step to which the ones before leave nothing of the length
// over all.
func (b *builder) bodyLeft(s *stretch) {
	if b.overall.Value <= s.x0+level {
		b.refuse(places(b.overall), "%v is not longer than the flange of %s", b.overall, b.length(s.x0))
	}
}

// section says what a step looks like along the axis.
func (b *builder) section(s *stretch, inside bool) {
	what := map[bool]string{false: "diameter", true: "bore"}[inside]
	switch {
	case s.Thread != "":
		s.thread, s.size = b.thread(s.Thread, inside, s.Pos)
		s.d0 = s.thread.Major
		if inside {
			s.d0 = s.thread.Minor
		}
		s.d1 = s.d0
		return
	case s.Section == trade.Hexagon:
		what = "hexagon"
	case s.Section == trade.Square:
		what = "square"
	}
	if inside && s.form() != Plain {
		b.refuse(places(given{pos: s.Pos}), "a bore is round: a %s cannot be bored", what)
	}
	s.size = b.needed(s.Size, trade.Diameter, what)
	s.d0, s.d1 = s.size.Value, s.size.Value
	if s.to = b.size(s.To, trade.Diameter, what); s.to.stated() {
		s.d1 = s.to.Value
	}
}

// mirror turns steps that are written from the right end into steps from the
// left.
func mirror(steps []*stretch, length float64) {
	slices.Reverse(steps)
	for _, s := range steps {
		s.x0, s.x1 = length-s.x1, length-s.x0
		s.d0, s.d1 = s.d1, s.d0
		s.mirrored = true
	}
}

// bores returns what is bored from both ends: one run where they meet, else two
// that end blind.
func (b *builder) bores(s *trade.TurnedShape, length float64) []chain {
	left, right := b.stretches(s.Bore, true), b.stretches(s.RightBore, true)
	b.fill(left, right, length)
	mirror(right, length)
	switch {
	case len(left) == 0 && len(right) == 0:
		return nil
	case reach(left, right, length) > -level:
		return []chain{{steps: append(left, right...), inside: true, openLeft: true, openRight: true}}
	}
	var list []chain
	if len(left) > 0 {
		list = append(list, chain{steps: left, inside: true, openLeft: true})
	}
	if len(right) > 0 {
		list = append(list, chain{steps: right, inside: true, openRight: true})
	}
	return list
}

// reach returns how far the bores run past each other; less than 0 where metal
// is left between them.
func reach(left, right []*stretch, length float64) float64 {
	sum := -length
	for _, s := range append(slices.Clone(left), right...) {
		sum += s.x1 - s.x0
	}
	return sum
}

// fill gives the last step of a bore the length that is left, where it states
// none, and refuses bores that run past each other.
func (b *builder) fill(left, right []*stretch, length float64) {
	over := reach(left, right, length)
	last := append(slices.Clone(left), right...)
	for _, s := range last {
		if !s.fills {
			continue
		}
		if s.x1 -= over; over >= -level {
			b.refuse(places(s.size), "%v has no length of its own, and nothing of the part's %s is left for it", s.size, b.length(length))
		}
		return
	}
	if over <= level || len(last) == 0 {
		return
	}
	s := last[len(last)-1]
	b.refuse(places(s.length, s.size), "the bores are %s deep together, longer than the part of %s: %v is %s too long",
		b.length(length+over), b.length(length), s.length, b.length(over))
}

// walls refuses a part whose bore comes through its outside.
func (b *builder) walls() {
	inside := b.inside
	for _, in := range inside {
		for _, out := range b.outside {
			from, to := max(in.X0, out.X0), min(in.X1, out.X1)
			if to-from < level {
				continue
			}
			if thinnest(in.Segment, out.Segment, from, to) <= level {
				b.clash(in.by, out.by, "the one comes through the other and no wall is left")
				return
			}
		}
	}
	for i := 1; i < len(inside); i++ {
		if inside[i].X0 < inside[i-1].X1-level {
			b.clash(inside[i-1].by, inside[i].by, "one runs into the other from the other end")
			return
		}
	}
}

// thinnest returns the least wall between two segments over a stretch that both
// have. Straight ones are thinnest at an end; an arc is looked at in between too.
func thinnest(in, out Segment, from, to float64) float64 {
	const parts = 16
	least := math.Inf(1)
	for i := range parts + 1 {
		x := from + (to-from)*float64(i)/parts
		least = min(least, (out.Diameter(x)-in.Diameter(x))/2)
	}
	return least
}
