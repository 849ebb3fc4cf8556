package jobfile

import (
	"errors"
	"slices"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// readFormula reads the expression of a reading and finds what it measures.
func (r readingReader) readFormula(x *reading) {
	x.known = false
	if x.That = x.formulaOf("that"); !x.That.Given() {
		return
	}
	e := r.expression(x.fields, "that", x.scope, expr.Parse)
	if e == nil {
		return
	}
	x.reads, x.known = measured(e.Dimension())
	switch {
	case !x.known:
		r.fault(x.at("that"), "%s is %s; an instrument shows a length, an angle or a plain number", x.about("that"), e.Dimension())
	case !r.namesSize(e) && !speaksOfPart(e):
		r.fault(x.at("that"), "%s names no size, so the reading tells nothing", x.about("that"))
	}
}

// measured returns the dimension of a formula as that of a quantity, false for
// powers of lengths.
func measured(d expr.Dimension) (unit.Dimension, bool) {
	switch {
	case d.IsLength():
		return unit.Length, true
	case d.IsAngle():
		return unit.Angle, true
	}
	return unit.Number, d.IsNumber()
}

// namesSize reports whether one of the formulas names a size.
func (r *register) namesSize(formulas ...*expr.Expr) bool {
	for _, e := range formulas {
		if slices.ContainsFunc(e.Names(), func(id string) bool { return r.owners[id].thing == aSize }) {
			return true
		}
	}
	return false
}

// formulaParser is one of the ways to read a formula.
type formulaParser func(text string, env expr.Env) (*expr.Expr, error)

// rightSide returns the parser of what something of this dimension equals.
func rightSide(d expr.Dimension) formulaParser {
	return func(text string, env expr.Env) (*expr.Expr, error) { return expr.ParseRightSide(text, d, env) }
}

// expression reads the formula under a key; nil where there is none or it
// cannot be read.
func (r *values) expression(f fields, key string, s scope, parse formulaParser) *expr.Expr {
	if f.text(key) == "" {
		return nil
	}
	return r.formula(f.at(key), f.about(key), s, parse)
}

// formula reads the formula that a node is; nil where it cannot be read.
func (r *values) formula(n yamltree.Node, about string, s scope, parse formulaParser) *expr.Expr {
	unsure := false
	env := expr.Env{Bare: r.job.Units, Lookup: func(name string) (expr.Symbol, bool) {
		d, sure, known := r.named(name, s)
		unsure = unsure || known && !sure
		return expr.Symbol{Dimension: d}, known
	}}
	if r.guesses() {
		env.Names = r.names
		if s != ofTheJob {
			env.Names = r.partNames
		}
	}
	e, err := parse(n.Text, env)
	if err == nil {
		return e
	}
	var wrong *expr.Error
	if !errors.As(err, &wrong) {
		panic("jobfile: the formula reading returned an error that has no column")
	}
	// A size whose kind is wrong has a fault of its own; what follows from it is
	// none.
	if !unsure {
		r.faults.Add(n.Within(wrong.Column), "%s: %s", about, r.formulaFault(wrong, s))
	}
	return nil
}

// formulaFault says what is wrong without the column, which the place tells.
func (r *values) formulaFault(wrong *expr.Error, s scope) string {
	_, made := r.made[wrong.Text]
	switch {
	case wrong.Text == "":
		return wrong.Want
	case made && s != ofTheJob:
		return yamltree.Quote(wrong.Text) + ": a size of the part is written " + partPrefix + wrong.Text
	}
	return yamltree.Quote(wrong.Text) + ": " + wrong.Want
}

// relationReader reads what ties sizes together.
type relationReader struct{ *values }

// readRelations reads the list of what ties sizes together.
func (r relationReader) readRelations(f fields) {
	for _, n := range f.list("relations") {
		r.readRelation(f, n)
	}
}

func (r relationReader) readRelation(file fields, n yamltree.Node) {
	f := file.item("relations", n, itemName("relation", textUnder(n, "that")))
	relation := trade.Relation{
		That: f.formulaOf("that"),
		Is:   f.formulaOf("is"),
		Say:  f.text("say"),
		Pos:  n.Pos,
	}
	left := r.expression(f, "that", ofTheJob, expr.Parse)
	if left != nil && relation.Is.Given() {
		r.readEquality(f, &relation, left)
	}
	r.job.Relations = append(r.job.Relations, relation)
}

// readEquality reads what the left side is said to equal, and how closely.
func (r relationReader) readEquality(f fields, relation *trade.Relation, left *expr.Expr) {
	right := r.expression(f, "is", ofTheJob, rightSide(left.Dimension()))
	if right != nil && !r.namesSize(left, right) {
		r.fault(f.at("that"), "%s names no size, so it ties nothing", f.what)
	}
	d, ok := measured(left.Dimension())
	if !ok {
		f.refuse("there is no unit for "+left.Dimension().String(), "within", "u")
		return
	}
	relation.Within = f.quantityIn("within", r.measure(d))
	relation.U = f.quantityIn("u", r.measure(d))
}
