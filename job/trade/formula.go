package trade

import (
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// Formula is an expression as it was written. The ids in it are those of sizes
// and gauge pieces of the job, and part.ID of the sizes of the part. What it says
// is read once, when the job is found sound, and kept with it.
type Formula struct {
	Text string
	Pos  Pos

	read *expr.Expr
}

// Given reports whether there is one.
func (f Formula) Given() bool { return f.Text != "" }

// Resolve keeps what the formula was read as. A formula that was read before and
// says the same stays untouched, so that a sound job may be judged again while
// others work with it.
func (f *Formula) Resolve(e *expr.Expr) {
	if f.read == nil || f.read.String() != f.Text {
		f.read = e
	}
}

// Expr returns what the formula was read as. It panics where the job was not found
// sound before, or the text was changed after that.
func (f Formula) Expr() *expr.Expr {
	if f.read == nil || f.read.String() != f.Text {
		panic("trade: the job was not checked: the expression " + f.Text + " was not read")
	}
	return f.read
}

// Names returns the distinct names in the formula, in the order in which they are
// first used; none where no formula is given. The list is not to be changed.
func (f Formula) Names() []string {
	if !f.Given() {
		return nil
	}
	return f.Expr().Names()
}

// Formula reads text as a formula over the sizes and gauge pieces of the job: for
// a stage that tries another than the one that was written.
func (j *Job) Formula(text string) (Formula, error) {
	e, err := expr.Parse(text, j.names())
	return Formula{Text: text, read: e}, err
}

// Equal reads text as what a formula is said to equal.
func (j *Job) Equal(text string, left Formula) (Formula, error) {
	e, err := expr.ParseRightSide(text, left.Expr().Dimension(), j.names())
	return Formula{Text: text, read: e}, err
}

// names tells the formula reading what the names of the job mean.
func (j *Job) names() expr.Env {
	return expr.Env{Bare: j.Units, Lookup: func(name string) (expr.Symbol, bool) {
		if size := j.Size(name); size != nil {
			return expr.Symbol{Dimension: size.Kind.Dimension()}, true
		}
		return expr.Symbol{Dimension: unit.Length}, j.Piece(name) != nil
	}}
}
