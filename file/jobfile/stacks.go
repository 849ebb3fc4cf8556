package jobfile

import (
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
)

// readStacks reads the chains of sizes whose sum matters.
func (r partReader) readStacks(p fields) {
	for _, entry := range p.entries("stacks") {
		r.checkID(entry.key, aStack)
		s := p.item("stacks", entry.value, describe("stack", entry.key))
		r.job.Part.Stacks = append(r.job.Part.Stacks, trade.Stack{
			ID:     entry.key.text,
			That:   s.formulaOf("that"),
			Wanted: s.span("wanted"),
			Say:    s.text("say"),
			Pos:    entry.key.pos,
		})
		e := r.expression(s, "that", ofThePart, expr.Parse)
		switch {
		case e == nil:
		case !e.Dimension().IsLength():
			r.fault(s.at("that"), "%s is %s where a length should be", s.about("that"), e.Dimension())
		case len(e.Names()) == 0:
			r.fault(s.at("that"), "%s names no size, so nothing adds up", s.about("that"))
		}
	}
}

// readMates reads the pairs of shapes that go together.
func (r partReader) readMates(p fields) {
	for _, entry := range p.entries("mates") {
		r.checkID(entry.key, aMate)
		m := p.item("mates", entry.value, describe("mate", entry.key))
		mate := trade.Mate{ID: entry.key.text, Say: m.text("say"), Pos: entry.key.pos}
		mate.Pair, mate.Of = r.readPair(m, "pair", trade.Pairs)
		mate.Entry = r.readEntry(m)
		r.job.Part.Mates = append(r.job.Part.Mates, mate)
	}
}

// readEntry reads the opening that the part must pass, nil if there is none.
func (r partReader) readEntry(m fields) *trade.Entry {
	if !m.has("entry") {
		return nil
	}
	e := m.item("entry", m.at("entry"), "entry of "+m.what)
	entry := &trade.Entry{Pos: m.at("entry").pos}
	entry.Kind, entry.Of = r.readPair(e, "kind", trade.Openings)
	return entry
}

// readPair reads which of the pairs it is, written under the key, and what
// stands in its roles.
func (r partReader) readPair(f fields, key string, among []trade.Pair) (word trade.PairKind, args []trade.MateArg) {
	word = trade.PairKind(f.text(key))
	i := slices.IndexFunc(among, func(p trade.Pair) bool { return p.ID == word })
	if i < 0 || !f.has("of") {
		return word, nil
	}
	of := f.item("of", f.at("of"), "the roles of "+f.what)
	for _, p := range f.at("of").pairs {
		if role, known := among[i].Role(p.key.text); known {
			of.holds(p.key.text)
			args = append(args, r.mateArg(role, p, of))
		}
	}
	return word, args
}

// mateArg reads the expression, or the id of a plan, in one role.
func (r partReader) mateArg(role trade.PairRole, p pair, of fields) trade.MateArg {
	n, about := p.value, of.about(p.key.text)
	arg := trade.MateArg{Role: role.Name, Pos: n.pos}
	switch {
	case of.text(role.Name) == "":
	case role.Plan:
		arg.Plan = n.text
		r.owner(n, about, aPlan)
	default:
		arg.Value = trade.Formula{Text: n.text, Pos: n.pos}
		e := r.formula(n, about, ofThePart, rightSide(expr.DimensionOf(role.Dimension)))
		if e != nil && len(e.Names()) == 0 && e.Eval(nil, nil) <= 0 && role.Kind.MustBePositive() {
			r.fault(n, "%s is %s; it must %s", about, quote(n.text), positive)
		}
	}
	return arg
}
