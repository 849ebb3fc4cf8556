package draw

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Overlaps lists what lies over what on a sheet and should not: a text over
// another text or over any line; a dimension line over an outline, a leader or
// another dimension line; a leader over a leader; an arrowhead over a text or
// over a dimension line or leader that is not its own; a mark beyond the paper.
// Projection lines may cross what is no text (ISO 129-1 asks to avoid crossing
// dimension lines, not more), leaders may cross outlines and centre lines.
func Overlaps(s *ink.Sheet) []string {
	var all space
	for i, m := range s.Marks {
		owner := 0
		if _, ok := m.(ink.Dimension); ok {
			owner = i + 1
		}
		all.take(m, owner)
	}
	list := all.platesOver()
	list = append(list, all.linesOver()...)
	return append(list, all.beyond(geom.Point{X: s.Width, Y: s.Height})...)
}

// overlap is how far marks may lie into each other, in mm, before it is one:
// rounding.
const overlap = 1e-3

func (s *space) platesOver() []string {
	var list []string
	for i := range s.plates {
		b := &s.plates[i]
		for j := i + 1; j < len(s.plates); j++ {
			if c := &s.plates[j]; (b.owner == 0 || b.owner != c.owner) && b.meets(c, -overlap) {
				list = append(list, fmt.Sprintf("%v lies over %v", b, c))
			}
		}
		for j := range s.pieces {
			if p := &s.pieces[j]; b.minds(p) && b.holds(p, -overlap) {
				list = append(list, fmt.Sprintf("%v lies over a %v at %.1f, %.1f", b, p.trace, p.a.X, p.a.Y))
			}
		}
	}
	return list
}

func (s *space) linesOver() []string {
	var list []string
	for i := range s.pieces {
		p := &s.pieces[i]
		for j := i + 1; j < len(s.pieces); j++ {
			if q := &s.pieces[j]; p.minds(q) && !p.clearOf(q, overlap) {
				list = append(list, fmt.Sprintf("a %v lies over a %v at %.1f, %.1f", p.trace, q.trace, q.a.X, q.a.Y))
			}
		}
	}
	return list
}

func (s *space) beyond(corner geom.Point) []string {
	out := func(p geom.Point) bool { return p.X < 0 || p.Y < 0 || p.X > corner.X || p.Y > corner.Y }
	var list []string
	for i := range s.pieces {
		if p := &s.pieces[i]; out(p.a) || out(p.b) {
			list = append(list, fmt.Sprintf("a %v runs beyond the paper at %.1f, %.1f", p.trace, p.a.X, p.a.Y))
		}
	}
	for i := range s.plates {
		if b := &s.plates[i]; out(b.box.Low) || out(b.box.High) {
			list = append(list, fmt.Sprintf("%v runs beyond the paper", b))
		}
	}
	return list
}

// minds reports whether a text or an arrowhead may not lie over a piece.
func (b *plate) minds(p *piece) bool {
	switch {
	case b.owner != 0 && b.owner == p.owner:
		return b.words != "" && p.trace == projectionTrace
	case b.words != "":
		return true
	}
	return p.trace == dimensionTrace || p.trace == leaderTrace || p.trace == tableTrace
}

// minds reports whether two pieces may not cross.
func (p *piece) minds(q *piece) bool {
	if p.owner == q.owner {
		return false
	}
	return p.trace.forbids(q.trace) || q.trace.forbids(p.trace) || p.runsAlong(q)
}

// runsAlong reports whether two pieces have one direction that may cross, but
// must not lie on each other: a dimension line and a projection line, or a leader
// and what it points into.
func (p *piece) runsAlong(q *piece) bool {
	low, high := min(p.trace, q.trace), max(p.trace, q.trace)
	if low == hatchTrace || !(low == dimensionTrace && high == projectionTrace) && !(low < dimensionTrace && high == leaderTrace) {
		return false
	}
	const nearly = 0.1
	return math.Abs(p.b.Sub(p.a).Unit().Cross(q.b.Sub(q.a).Unit())) < nearly
}

func (t trace) forbids(u trace) bool {
	switch t {
	case dimensionTrace:
		return u == edgeTrace || u == dimensionTrace || u == leaderTrace || u == tableTrace
	case projectionTrace:
		return u == tableTrace
	case leaderTrace:
		return u == leaderTrace || u == tableTrace
	}
	return false
}

// String names the kind of line for people.
func (t trace) String() string {
	return [...]string{
		"line of the part", "hatching line", "centre line", "line of a table", "dimension line", "projection line", "leader",
	}[t]
}

// String names what takes the room.
func (b *plate) String() string {
	if b.words == "" {
		return fmt.Sprintf("an arrowhead at %.1f, %.1f", b.centre.X, b.centre.Y)
	}
	return fmt.Sprintf("%q at %.1f, %.1f", b.words, b.centre.X, b.centre.Y)
}
