package fit

import (
	"errors"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
)

// ofThePart stands before the id of a size of the part in a formula.
const ofThePart = "part."

// source is what a size is taken from: an expression over what was found.
type source struct {
	adjust.Combined
	e      *expr.Expr
	u      float64
	names  []string
	single *trade.Size // where it is one size and nothing else
}

// source works out what a size is taken from; nil, with a fault, where that
// cannot be read.
func (b *bench) source(size *trade.NewSize) *source {
	e := b.read(size.Of, size.Kind.Dimension())
	if e == nil {
		return nil
	}
	s := sourceOf(b.r, e)
	b.taken[size.ID] = s
	return s
}

// sourceOf evaluates an expression at what was found. It counts as not
// determined where it has no value there.
func sourceOf(r *adjust.Result, e *expr.Expr) *source {
	s := &source{Combined: r.Combine(e, nil), e: e, names: e.Names()}
	s.Determined = s.Determined && finite(s.Value)
	if s.u = math.NaN(); s.Determined {
		s.u = r.UOf(s.Combined)
	}
	if len(s.names) == 1 && s.names[0] == strings.TrimSpace(e.String()) {
		s.single = r.Job.Size(s.names[0])
	}
	return s
}

// read reads a formula of this dimension, nil with a fault where it is none.
func (b *bench) read(f trade.Formula, d unit.Dimension) *expr.Expr {
	e, err := expr.ParseRightSide(f.Text, expr.DimensionOf(d), b.env(false))
	if err != nil {
		b.misread(f, err)
		return nil
	}
	return e
}

// readSum reads the formula of a chain, which may name sizes of the part too.
func (b *bench) readSum(f trade.Formula) *expr.Expr {
	e, err := expr.Parse(f.Text, b.env(true))
	if err != nil {
		b.misread(f, err)
		return nil
	}
	return e
}

func (b *bench) misread(f trade.Formula, err error) {
	var wrong *expr.Error
	if !errors.As(err, &wrong) {
		panic("fit: the formula reading returned an error that has no column")
	}
	at := f.Pos
	if at.Line > 0 {
		at.Column += wrong.Column - 1
	}
	b.faults.Add(at, "%s", wrong.Error())
}

// env says what a formula may speak of: sizes and gauge pieces, and sizes of
// the part.
func (b *bench) env(part bool) expr.Env {
	env := expr.Env{Bare: unitsOf(b.r.Job)}
	env.Lookup = func(name string) (expr.Symbol, bool) {
		if id, ok := strings.CutPrefix(name, ofThePart); ok && part {
			size := b.part.Size(id)
			if size == nil {
				return expr.Symbol{}, false
			}
			return expr.Symbol{Dimension: size.Kind.Dimension()}, true
		}
		d, known := b.r.DimensionOf(name)
		return expr.Symbol{Dimension: d}, known
	}
	for i := range b.r.Job.Sizes {
		env.Names = append(env.Names, b.r.Job.Sizes[i].ID)
	}
	return env
}

// meaning is what was probably meant by a size.
type meaning struct {
	value   float64
	text    string
	p       float64
	decided bool
}

// probable is from which chance on what was meant is spoken of.
const probable = 0.5

// meaning returns what was meant by a single size, false where nothing is
// probable.
func (b *bench) meaning(s *source) (meaning, bool) {
	if s.single == nil {
		return meaning{}, false
	}
	size := b.m.Of(s.single.ID)
	if size == nil || len(size.Candidates) == 0 {
		return meaning{}, false
	}
	c := size.Candidates[0]
	return meaning{value: c.Value, text: c.Text, p: c.P, decided: size.Decided}, size.Decided || c.P >= probable
}
