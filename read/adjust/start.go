package adjust

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// attempt says how to choose start values: which of several possible values
// to take first, and which reading not to believe.
type attempt struct {
	choice int
	doubt  *trade.Reading
}

// starter finds start values: from direct readings first, then by solving
// methods and relations that have one size left open, then by a guess for the
// kind of size. Several candidates for a size are settled by their median, so
// that one wrong reading among three does no harm.
type starter struct {
	*attempt
	m       *model
	x       []float64
	settled []bool // by column
	guessed bool   // a size had to be guessed, or there was a choice

	lengths []int               // columns of the lengths that are settled, the first of them first
	fresh   []int               // columns settled since what they stand in was looked at
	begun   bool                // all that was read and related was looked at once
	asked   []bool              // by reading, then by relation: it has told what it can
	barren  []int               // those that leave one size open, and tell nothing of it yet
	found   map[int][]candidate // what they tell of a column that is not settled
	direct  map[int]bool        // the columns that a reading tells of by itself
}

func (m *model) starter(a attempt) *starter {
	return &starter{
		attempt: &a, m: m, x: make([]float64, len(m.unknowns)), settled: make([]bool, len(m.unknowns)),
		asked: make([]bool, len(m.forwards)+len(m.relations)), found: map[int][]candidate{}, direct: map[int]bool{},
	}
}

// start returns start values for all unknowns, and whether other attempts
// could give others.
func (m *model) start(a attempt) (x []float64, more bool) {
	s := m.starter(a)
	s.fixPriors()
	s.settleAll()
	return s.x, s.guessed
}

// settleAll gives everything that is not settled a value.
func (s *starter) settleAll() {
	s.settle()
	for s.guessOne() {
		s.settle()
	}
	s.layPlans()
	s.layPlaces()
	s.settle()
}

// fixPriors takes what is known beforehand: pieces, zeros, known sizes and the
// user's own guesses.
func (s *starter) fixPriors() {
	for column, u := range s.m.unknowns {
		switch u.kind {
		case sizeUnknown:
			size := s.m.size(u.id)
			if size.Known.Given() {
				s.set(column, size.Known.Value.Inside())
			} else if size.Guess.Given() {
				s.set(column, size.Guess.Inside())
			}
		case pieceUnknown:
			s.set(column, s.m.job.Piece(u.id).Size.Inside())
		case zeroUnknown, formUnknown, feelUnknown:
			s.set(column, 0)
		}
	}
}

func (s *starter) set(column int, value float64) {
	s.x[column] = value
	if s.settled[column] {
		return
	}
	s.settled[column] = true
	s.fresh = append(s.fresh, column)
	if s.isLength(column) {
		s.lengths = append(s.lengths, column)
	}
}

// candidate is a possible value of a size. Direct ones come from readings of
// that size alone.
type candidate struct {
	value  float64
	direct bool
}

// settle gives every size that one reading or relation leaves open its value,
// until nothing more can be settled.
func (s *starter) settle() {
	again := s.barren
	s.barren = nil
	for _, e := range again {
		s.ask(e)
	}
	for s.look(); len(s.found) > 0; s.look() {
		s.takeBest()
	}
}

// look asks what newly settled columns stand in, and everything at first.
func (s *starter) look() {
	if !s.begun {
		s.begun, s.fresh = true, nil
		for e := range s.asked {
			s.ask(e)
		}
	}
	for _, column := range s.fresh {
		for _, e := range s.m.touching[column] {
			s.ask(e)
		}
	}
	s.fresh = nil
}

// ask has a reading or relation say what it can of the one size that it leaves
// open.
func (s *starter) ask(e int) {
	if s.asked[e] {
		return
	}
	var column int
	var list []candidate
	if readings := len(s.m.forwards); e < readings {
		column, list = s.fromReading(s.m.forwards[e])
	} else {
		column, list = s.fromRelation(s.m.relations[e-readings])
	}
	if column < 0 {
		return
	}
	if len(list) == 0 {
		s.barren = append(s.barren, e)
		return
	}
	s.asked[e] = true
	s.found[column] = append(s.found[column], list...)
	if list[0].direct {
		s.direct[column] = true
	}
}

// takeBest settles the sizes that have direct candidates, or, where there are
// none, all that have any.
func (s *starter) takeBest() {
	direct := len(s.direct) > 0
	take := func(column int) {
		s.set(column, s.pick(s.found[column], direct))
		delete(s.found, column)
	}
	if !direct {
		for column := range s.found {
			take(column)
		}
		return
	}
	for column := range s.direct {
		take(column)
	}
	clear(s.direct)
}

// pick chooses among the candidates, direct ones only if asked: the median at
// the first attempt, one after the other at later ones.
func (s *starter) pick(list []candidate, direct bool) float64 {
	var values []float64
	for _, c := range list {
		if c.direct || !direct {
			values = append(values, c.value)
		}
	}
	slices.Sort(values)
	if values[len(values)-1]-values[0] > 1e-3*math.Abs(values[0]) {
		s.guessed = true
	}
	middle := (len(values) - 1) / 2
	return values[(middle+s.choice)%len(values)]
}

// fromReading returns the candidates that one reading gives for the one size it
// leaves open; -1 where it leaves none or several open, or is not believed.
func (s *starter) fromReading(f *forward) (column int, list []candidate) {
	if !finite(f.middle) || f.reading == s.doubt {
		return -1, nil
	}
	open, others := s.open(f.slots)
	if open < 0 {
		return -1, nil
	}
	for _, value := range s.solve(f, open, f.middle) {
		list = append(list, candidate{value: value, direct: others == 0})
	}
	return f.slots[open].column, list
}

// open returns the one slot that is not settled (-1 where there is none or
// more than one), and how many other sizes there are.
func (s *starter) open(slots []slot) (open, others int) {
	open = -1
	for i, slot := range slots {
		switch {
		case slot.column < 0:
		case s.settled[slot.column]:
			if s.m.unknowns[slot.column].kind == sizeUnknown {
				others++
			}
		case open >= 0 || s.m.unknowns[slot.column].kind != sizeUnknown:
			return -1, 0
		default:
			open = i
		}
	}
	return open, others
}

// solve returns the values of one slot at which the reading shows saw.
func (s *starter) solve(f *forward, open int, saw float64) []float64 {
	if role := f.soleRole(open); role >= 0 {
		values := f.roles(s.x)
		roots := f.method.Invert(values, role, saw)
		for i := range roots {
			roots[i] /= f.arguments[role].factor
		}
		return roots
	}
	return s.roots(f.slots[open].column, f.slots, func(row *lsq.Row) float64 { return f.predict(s.x, row) - saw })
}

// soleRole returns the role that the slot alone stands in, -1 where the model
// is a formula or the slot stands in several.
func (f *forward) soleRole(slot int) int {
	role := -1
	for i, a := range f.arguments {
		if a.distance || a.slot != slot {
			continue
		}
		if role >= 0 {
			return -1
		}
		role = i
	}
	return role
}

// fromRelation is fromReading for a relation.
func (s *starter) fromRelation(r *relation) (column int, list []candidate) {
	slots := distinct(slices.Concat(r.left.slots, r.right.slots))
	open, _ := s.open(slots)
	if open < 0 {
		return -1, nil
	}
	column = slots[open].column
	for _, value := range s.roots(column, slots, func(row *lsq.Row) float64 { return r.Eval(s.x, row) }) {
		list = append(list, candidate{value: value})
	}
	return column, list
}

// distinct returns the slots without those that repeat a column.
func distinct(slots []slot) []slot {
	var out []slot
	for _, s := range slots {
		if s.column >= 0 && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// roots returns the values of an unknown at which an equation over some slots
// holds.
func (s *starter) roots(column int, slots []slot, f func(row *lsq.Row) float64) []float64 {
	before := s.x[column]
	defer func() { s.x[column] = before }()
	var row lsq.Row
	kind := s.m.size(s.m.unknowns[column].id).Kind
	return gauge.Roots(kind, s.near(slots), func(x float64) (value, slope float64) {
		s.x[column] = x
		row.Reset()
		return f(&row), row.At(column)
	})
}

// mostNear is how many lengths are looked among for a root. The search looks
// between every two of them.
const mostNear = 16

// near returns lengths that are known so far: those in some slots first.
func (s *starter) near(slots []slot) []float64 {
	list := []float64{s.m.scale}
	for _, slot := range slots {
		if s.isLength(slot.column) {
			list = append(list, s.x[slot.column])
		}
	}
	for _, column := range s.lengths[:min(len(s.lengths), mostNear)] {
		if len(list) < mostNear {
			list = append(list, s.x[column])
		}
	}
	return list
}

// isLength reports whether a column is a length that is settled.
func (s *starter) isLength(column int) bool {
	if column < 0 || !s.settled[column] || s.x[column] <= 0 {
		return false
	}
	u := s.m.unknowns[column]
	return u.kind == sizeUnknown && s.m.size(u.id).Kind.Dimension() == unit.Length
}

// typicalLength returns the middle one of the job's lengths.
func (m *model) typicalLength() float64 {
	var lengths []float64
	for _, f := range m.forwards {
		if f.dimension == unit.Length && f.middle > 0 {
			lengths = append(lengths, f.middle)
		}
	}
	if len(lengths) == 0 {
		return 10
	}
	slices.Sort(lengths)
	return lengths[len(lengths)/2]
}

// middle returns the middle one of the values of a reading that are not set
// aside, or the middle of a go / no-go pair; NaN where there is none.
func (m *model) middle(r *trade.Reading) float64 {
	if r.GoNoGo() {
		return (m.bound(r.Goes).nominal + m.bound(r.Stops).nominal) / 2
	}
	var values []float64
	for _, seen := range r.Saw {
		if !seen.SetAside && !seen.Y.Given() {
			values = append(values, seen.X.Inside())
		}
	}
	if len(values) == 0 {
		return math.NaN()
	}
	slices.Sort(values)
	return values[len(values)/2]
}

// guessOne settles one size that nothing else settles by a guess for its kind,
// angles first since they vary least from job to job. It returns false where
// no size is left open.
func (s *starter) guessOne() bool {
	best, rank := -1, len(guessOrder)
	for column, u := range s.m.unknowns {
		if u.kind != sizeUnknown || s.settled[column] {
			continue
		}
		if r := slices.Index(guessOrder, s.m.size(u.id).Kind); r < rank {
			best, rank = column, r
		}
	}
	if best < 0 {
		return false
	}
	s.guessed = true
	s.set(best, guess(s.m.size(s.m.unknowns[best].id).Kind, s.m.scale, s.choice))
	return true
}

// guessOrder is the order in which sizes are guessed.
var guessOrder = []trade.SizeKind{
	trade.Number, trade.HalfAngle, trade.Angle, trade.Pitch, trade.Module, trade.Offset,
	trade.Depth, trade.Height, trade.Width, trade.Length, trade.Distance, trade.Radius, trade.Diameter,
}

// guess returns a start value for a kind of size in a job of lengths about
// scale; later choices go further afield.
func guess(kind trade.SizeKind, scale float64, choice int) float64 {
	factors := []float64{1, 0.5, 2, 0.25, 4, 0.1}
	factor := factors[choice%len(factors)]
	switch kind {
	case trade.Number:
		return 0.1 * float64(choice)
	case trade.HalfAngle:
		return 5 * factor * math.Pi / 180
	case trade.Angle:
		return 60 * min(factor, 1.5) * math.Pi / 180
	case trade.Pitch, trade.Module:
		return 1.5 * factor
	case trade.Offset:
		return 0.01 * scale * factor
	case trade.Diameter:
		return scale * factor
	}
	return scale * factor / 2
}
