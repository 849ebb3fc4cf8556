package strength

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Loaded is a piece of a joint with what its ways of giving are worked out from.
type Loaded struct {
	Piece   Piece
	Joint   *trade.Joint
	Sheared *trade.Sheared // the key or pin, nil for other pieces

	metal  metal
	bears  metal  // of a key or pin: the softer of it and of what it bears on
	softer string // what that is, in words
	screw  *screwing
	press  *Press
	slides Span // friction of a press fit
}

// name is what the piece is called in an answer.
func (l *Loaded) name() string {
	if l.Sheared != nil {
		return l.Sheared.ID
	}
	return string(l.Piece)
}

// property returns what the tables have of a metal, NaN where they do not say.
func (m metal) property(p Property) float64 {
	switch p {
	case Tensile:
		return m.tensile
	case Yield:
		return m.yield
	case Proof:
		return m.proof
	case Stiffness:
		return m.e
	case Expansion:
		return m.expansion
	}
	panic("strength: a property that no metal has: " + string(p))
}

// lacks reports whether the tables do not say all of these properties.
func (m metal) lacks(list []Property) bool {
	return slices.ContainsFunc(list, func(p Property) bool { return math.IsNaN(m.property(p)) })
}

// gives adds every way in which a piece can give, and returns the least load of them,
// +Inf where there is none.
func (c *checker) gives(l Loaded) float64 {
	l.Joint = c.joint
	least := math.Inf(1)
	for _, f := range Failures() {
		if f.Piece != l.Piece {
			continue
		}
		if w, ok := f.way(&l); ok {
			c.answer.Ways = append(c.answer.Ways, w)
			least = min(least, w.Load)
			for _, text := range f.Assumes {
				c.note(text)
			}
		}
	}
	return least
}

// way works the entry out for a piece; ok is false where the piece does not give so.
func (f *Failure) way(l *Loaded) (w Way, ok bool) {
	m := l.metal
	if f.Softer {
		m = l.bears
	}
	by := slices.IndexFunc(f.By, func(p Property) bool { return !math.IsNaN(m.property(p)) })
	if by < 0 && len(f.By) > 0 || m.lacks(f.Needs) || f.Unless != "" && !m.lacks([]Property{f.Unless}) {
		return w, false
	}
	least, most := f.Take(l)
	if least == nil {
		return w, false
	}
	w = Way{Failure: f, Piece: l.name(), Mode: f.Mode, Yield: math.NaN(), Torque: math.NaN(), Sources: m.sources, fuse: f.Fuse}
	if w.fuse == "" {
		w.fuse = trade.Fuse(w.Piece)
	}
	if by < 0 {
		w.Args = least
		w.Load, w.Most = f.Load(least).X, f.Load(most).X
	} else {
		f.stressed(&w, m, m.property(f.By[by]), least, most)
	}
	f.finish(&w, l)
	return w, true
}

// stressed fills in what a way holds at the least stress, at the yield and at the
// greatest tensile strength.
func (f *Failure) stressed(w *Way, m metal, stress float64, least, most []float64) {
	at := func(stress float64, v []float64) float64 { return f.Load(with(stress, v)).X }
	w.Args = with(stress, least)
	w.Load, w.Most = at(stress, least), orOne(f.MostRatio)*at(m.most, most)
	if w.Yield = orOne(f.Begins) * at(m.yield, least); f.AtOnce {
		w.Yield = w.Load
	}
}

func (f *Failure) finish(w *Way, l *Loaded) {
	w.tight = w.Load
	if f.Turned != nil {
		w.tight = f.Turned(l, w.Args[0])
	}
	if l.Sheared != nil && l.Sheared.At.Given() {
		w.Torque = w.Load * l.Sheared.At.Inside()
	}
	w.How = f.How(l, w.Args, w.Load)
}

// with puts the stress before the other values.
func with(stress float64, v []float64) []float64 { return append([]float64{stress}, v...) }

// orOne returns a factor, 1 where none is stated.
func orOne(factor float64) float64 {
	if factor == 0 {
		return 1
	}
	return factor
}
