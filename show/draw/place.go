package draw

import (
	"cmp"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// proposal is one way to place a dimension, and what speaks against it before it
// is held against what is there.
type proposal struct {
	cost float64
	plan interface{ dimension() ink.Dimension }
}

// wish is a dimension to be placed, and the ways it can be.
type wish struct {
	proposals []proposal
	order     float64      // the small come first
	ends      []geom.Point // where its projection lines will start
	upright   bool         // these will run up and down
	side      float64      // to which they will most likely run: 1 up or to the left, -1 down or to the right
	placed    bool
	owner     int    // of what it takes on the canvas
	laid      []laid // the proposals as far as they were laid out
}

// laid is a proposal laid out, and the room it takes.
type laid struct {
	done      bool
	dimension ink.Dimension
	own       space
}

// lay lays out a proposal, once.
func (w *wish) lay(i int) *laid {
	l := &w.laid[i]
	if !l.done {
		l.done = true
		l.dimension = w.proposals[i].plan.dimension()
		l.own.take(l.dimension, w.owner)
	}
	return l
}

// What is held against a place where a dimension could stand: our choice, by
// eye.
const (
	costOfCrossing = 6.0 // a projection line across a dimension line
	costOfEdge     = 4.0 // a projection line or leader across a line of the part
	costOfHatching = 3.0 // a leader across a hatching line
	costOfBlocking = 5.0 // a text where a projection line will want to pass
)

// The clearances kept, in mm.
const (
	textClear = 0.6
	lineClear = 0.5
)

// place puts all wishes on the canvas, each where it costs least, and reports
// whether all found a place. A wish that finds none is served earlier in the
// next trial.
func (c *canvas) place(wishes []wish) bool {
	for i := range wishes {
		wishes[i].owner, wishes[i].laid = c.owners+i+1, make([]laid, len(wishes[i].proposals))
		slices.SortStableFunc(wishes[i].proposals, func(a, b proposal) int { return cmp.Compare(a.cost, b.cost) })
	}
	slices.SortStableFunc(wishes, func(a, b wish) int { return cmp.Compare(a.order, b.order) })
	const trials = 10
	for range trials {
		trial := *c
		trial.marks, trial.space = slices.Clone(c.marks), c.space.clone()
		failed := trial.placeInOrder(wishes)
		if failed < 0 {
			trial.owners += len(wishes)
			*c = trial
			return true
		}
		if failed == 0 {
			return false
		}
		first := wishes[failed]
		copy(wishes[1:failed+1], wishes[:failed])
		wishes[0] = first
	}
	return false
}

func (s *space) clone() space {
	return space{pieces: slices.Clone(s.pieces), plates: slices.Clone(s.plates)}
}

// placeInOrder returns the first wish that finds no place, -1 where all do.
func (c *canvas) placeInOrder(wishes []wish) int {
	for i := range wishes {
		wishes[i].placed = false
	}
	for i := range wishes {
		l := c.best(&wishes[i], wishes)
		if l == nil {
			return i
		}
		c.marks = append(c.marks, l.dimension)
		c.space.pieces = append(c.space.pieces, l.own.pieces...)
		c.space.plates = append(c.space.plates, l.own.plates...)
		wishes[i].placed = true
	}
	return -1
}

// best returns the cheapest free way to place a wish, nil where none is free.
// Proposals come cheapest first, and what is there can only add to that.
func (c *canvas) best(w *wish, wishes []wish) *laid {
	least := math.Inf(1)
	var found *laid
	for i, p := range w.proposals {
		if p.cost >= least {
			break
		}
		l := w.lay(i)
		more, free := c.space.cost(&l.own, least-p.cost)
		if !free {
			continue
		}
		if total := p.cost + more + l.own.blocks(w, wishes); total < least {
			least, found = total, l
		}
	}
	return found
}

// cost returns what speaks against new marks among those there, and whether
// they are free at all. Above the limit it stops counting.
func (s *space) cost(own *space, limit float64) (sum float64, free bool) {
	for i := range own.plates {
		if !s.freeFor(&own.plates[i]) {
			return 0, false
		}
	}
	for i := range own.plates {
		for j := range own.pieces {
			if p := &own.pieces[j]; own.plates[i].minds(p) && own.plates[i].holds(p, textClear/2) {
				return 0, false
			}
		}
	}
	for j := range own.pieces {
		p := &own.pieces[j]
		for i := range s.plates {
			if s.plates[i].minds(p) && s.plates[i].holds(p, textClear) {
				return 0, false
			}
		}
		more, ok := s.lineCost(p)
		if sum += more; !ok || sum > limit {
			return sum, ok
		}
	}
	return sum, true
}

// freeFor reports whether a text or an arrowhead may stand here.
func (s *space) freeFor(b *plate) bool {
	for i := range s.plates {
		other, gap := &s.plates[i], textClear
		if b.words == "" && other.words == "" {
			gap = 0
		}
		if b.meets(other, gap) {
			return false
		}
	}
	for i := range s.pieces {
		if p := &s.pieces[i]; b.minds(p) && b.holds(p, textClear) {
			return false
		}
	}
	return true
}

// lineCost returns what speaks against a new piece of line.
func (s *space) lineCost(p *piece) (sum float64, free bool) {
	for i := range s.pieces {
		q := &s.pieces[i]
		if separate(&p.box, &q.box, lineClear) {
			continue
		}
		if p.minds(q) && !p.clearOf(q, clearance(p, q)) {
			return 0, false
		}
		if weight := crossingWeight(p.trace, q.trace); weight > 0 && p.crosses(q) {
			sum += weight
		}
	}
	return sum, true
}

// clearance is the gap to keep between two pieces that may not cross.
func clearance(p, q *piece) float64 {
	if p.trace == dimensionTrace && q.trace == dimensionTrace {
		return 0.1
	}
	if p.runsAlong(q) {
		return lineClear
	}
	return 0.05
}

func crossingWeight(a, b trace) float64 {
	low, high := min(a, b), max(a, b)
	switch {
	case low == dimensionTrace && high == projectionTrace, low == projectionTrace && high == leaderTrace:
		return costOfCrossing
	case low == edgeTrace && (high == projectionTrace || high == leaderTrace):
		return costOfEdge
	case low == hatchTrace && high == leaderTrace:
		return costOfHatching
	}
	return 0
}

// blocks returns what speaks against texts that stand where projection lines of
// other wishes will want to pass.
func (s *space) blocks(w *wish, wishes []wish) float64 {
	sum := 0.0
	for i := range s.plates {
		b := &s.plates[i]
		for j := range wishes {
			other := &wishes[j]
			if other == w || other.placed {
				continue
			}
			for _, e := range other.ends {
				if other.passes(e, b) {
					sum += costOfBlocking
				}
			}
		}
	}
	return sum
}

// passes reports whether the projection line from an end will most likely want
// to run through a plate.
func (w *wish) passes(end geom.Point, b *plate) bool {
	if w.upright {
		return b.box.Low.X < end.X && end.X < b.box.High.X && (b.centre.Y-end.Y)*w.side >= 0
	}
	return b.box.Low.Y < end.Y && end.Y < b.box.High.Y && (end.X-b.centre.X)*w.side >= 0
}
