package adjust

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// prior is the equation x_column - value.
type prior struct {
	column int
	value  float64
}

func (p prior) Eval(x []float64, row *lsq.Row) float64 {
	row.Add(p.column, 1)
	return x[p.column] - p.value
}

// misclosure is what a reading should show less what it showed.
type misclosure struct {
	*forward
	saw float64
}

func (e *misclosure) Eval(x []float64, row *lsq.Row) float64 {
	return e.predict(x, row) - e.saw
}

// touched is the distance of a touch from the path of the stylus. The sign is
// turned so that, as for every other observation, it is predicted less seen.
type touched struct {
	*forward
	x, y float64
}

func (e *touched) Eval(x []float64, row *lsq.Row) float64 {
	miss := e.touch(x, e.x, e.y, row)
	for i := range row.Values {
		row.Values[i] = -row.Values[i]
	}
	return -miss
}

// misclosure returns the equation of one value that was seen.
func (f *forward) misclosure(seen trade.Seen) lsq.Equation {
	if seen.Y.Given() {
		return &touched{f, seen.X.Inside(), seen.Y.Inside()}
	}
	return &misclosure{f, seen.X.Inside()}
}

// limit is one end of a go / no-go pair: exact, or a gauge piece.
type limit struct {
	column  int // -1: exact
	nominal float64
}

func (m *model) bound(b trade.Bound) limit {
	if b.ID == "" {
		return limit{column: -1, nominal: b.Value.Inside()}
	}
	nominal := m.job.Piece(b.ID).Size.Inside()
	if column, ok := m.pieces[b.ID]; ok {
		return limit{column: column, nominal: nominal}
	}
	return limit{column: -1, nominal: nominal}
}

func (l limit) at(x []float64) float64 {
	if l.column < 0 {
		return l.nominal
	}
	return x[l.column]
}

// between is what a reading should show less the middle of a go / no-go pair.
type between struct {
	*forward
	goes, stops limit
}

func (e *between) Eval(x []float64, row *lsq.Row) float64 {
	for _, l := range []limit{e.goes, e.stops} {
		if l.column >= 0 {
			row.Add(l.column, -0.5)
		}
	}
	return e.predict(x, row) - (e.goes.at(x)+e.stops.at(x))/2
}

// relation is the left side of a relation less the right.
type relation struct {
	source    *trade.Relation
	left      side
	right     side
	dimension unit.Dimension
}

// side is one expression of a relation and the slots of its names.
type side struct {
	formula *expr.Expr
	slots   []slot
}

func (m *model) newRelation(r *trade.Relation) *relation {
	left := r.That.Expr()
	return &relation{
		source:    r,
		left:      m.side(left),
		right:     m.side(r.Is.Expr()),
		dimension: dimensionOf(left),
	}
}

func (m *model) side(formula *expr.Expr) side {
	s := side{formula: formula}
	for _, name := range formula.Names() {
		if value, ok := m.exact[name]; ok {
			s.slots = append(s.slots, slot{column: -1, form: -1, value: value})
			continue
		}
		column, isSize := m.sizes[name]
		if !isSize {
			column = m.pieces[name]
		}
		s.slots = append(s.slots, slot{column: column, form: -1})
	}
	return s
}

// at returns the value of the side at x and adds sign times its gradient.
func (s *side) at(x []float64, row *lsq.Row, sign float64) float64 {
	values := make([]float64, len(s.slots), 16)
	gradient := make([]float64, len(s.slots), 16)
	for i, slot := range s.slots {
		values[i] = slot.at(x)
	}
	value := s.formula.Eval(values, gradient)
	for i, slot := range s.slots {
		slot.spread(row, sign*gradient[i])
	}
	return value
}

func (r *relation) Eval(x []float64, row *lsq.Row) float64 {
	return r.left.at(x, row, 1) - r.right.at(x, row, -1)
}

// dimensionOf returns what a formula of a checked job measures.
func dimensionOf(e *expr.Expr) unit.Dimension {
	switch d := e.Dimension(); {
	case d.IsAngle():
		return unit.Angle
	case d.IsNumber():
		return unit.Number
	}
	return unit.Length
}

// finite reports whether x is a number.
func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
