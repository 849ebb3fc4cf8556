package jobfile

import (
	"slices"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
)

// readStacks reads the chains of sizes whose sum matters.
func (r partReader) readStacks(p fields) {
	for _, entry := range p.entries("stacks") {
		r.checkID(entry.Key, aStack)
		s := p.item("stacks", entry.Value, describe("stack", entry.Key))
		r.job.Part.Stacks = append(r.job.Part.Stacks, trade.Stack{
			ID:     entry.Key.Text,
			That:   s.formulaOf("that"),
			Wanted: s.span("wanted"),
			Say:    s.text("say"),
			Pos:    entry.Key.Pos,
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
		r.checkID(entry.Key, aMate)
		m := p.item("mates", entry.Value, describe("mate", entry.Key))
		mate := trade.Mate{ID: entry.Key.Text, Say: m.text("say"), Pos: entry.Key.Pos}
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
	entry := &trade.Entry{Pos: m.at("entry").Pos}
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
	for _, p := range f.at("of").Pairs {
		if role, known := among[i].Role(p.Key.Text); known {
			of.holds(p.Key.Text)
			args = append(args, r.mateArg(role, p, of))
		}
	}
	return word, args
}

// mateArg reads the expression, or the id of a plan, in one role.
func (r partReader) mateArg(role trade.PairRole, p yamltree.Pair, of fields) trade.MateArg {
	n, about := p.Value, of.about(p.Key.Text)
	arg := trade.MateArg{Role: role.Name, Pos: n.Pos}
	switch {
	case of.text(role.Name) == "":
	case role.Plan:
		arg.Plan = n.Text
		r.owner(n, about, aPlan)
	default:
		arg.Value = trade.Formula{Text: n.Text, Pos: n.Pos}
		e := r.formula(n, about, ofThePart, rightSide(expr.DimensionOf(role.Dimension)))
		if e != nil && len(e.Names()) == 0 && e.Eval(nil, nil) <= 0 && role.Kind.MustBePositive() {
			r.fault(n, "%s is %s; it must %s", about, yamltree.Quote(n.Text), positive)
		}
	}
	return arg
}
