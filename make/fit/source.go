package fit

import (
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
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

// source works out what a size is taken from.
func (b *bench) source(size *trade.NewSize) *source {
	s := sourceOf(b.r, size.Of.Expr())
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
