package trade_test

import (
	"slices"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// walls is a job of two lengths, an angle and a gauge piece.
func walls() *trade.Job {
	return &trade.Job{
		Units:  unit.Inch,
		Sizes:  []trade.Size{{ID: "outer", Kind: trade.Diameter}, {ID: "inner", Kind: trade.Width}, {ID: "lean", Kind: trade.Angle}},
		Pieces: []trade.Piece{{ID: "pin"}},
	}
}

// TestFormula reads formulas over a job: a bare length is in the job's unit, and the
// right side measures what the left does.
func TestFormula(t *testing.T) {
	job := walls()
	that, err := job.Formula("outer - 2*pin - inner")
	if err != nil {
		t.Fatal(err)
	}
	if got := that.Names(); !slices.Equal(got, []string{"outer", "pin", "inner"}) {
		t.Errorf("it names %v", got)
	}
	is, err := job.Equal("1/2", that)
	if err != nil {
		t.Fatal(err)
	}
	if got := is.Expr().Eval(nil, nil); got != 12.7 {
		t.Errorf("half an inch is %g mm", got)
	}
	for _, text := range []string{"outer - lean", "bode", "outer -"} {
		if _, err := job.Formula(text); err == nil {
			t.Errorf("%q is read", text)
		}
	}
	if _, err := job.Equal("5 deg", that); err == nil {
		t.Error("a length equals an angle")
	}
}

// TestFormulaUnread: what nobody has read, or has been written anew since, is not
// worked with, and what says the same is left alone.
func TestFormulaUnread(t *testing.T) {
	panics := func(f trade.Formula) (did bool) {
		defer func() { did = recover() != nil }()
		f.Expr()
		return false
	}
	job := walls()
	that, err := job.Formula("outer")
	if err != nil {
		t.Fatal(err)
	}
	if panics(that) {
		t.Error("a formula that was read is refused")
	}
	first := that.Expr()
	again, _ := job.Formula("outer")
	if that.Resolve(again.Expr()); that.Expr() != first {
		t.Error("a formula that says the same was changed")
	}
	if that.Text = "inner"; !panics(that) {
		t.Error("a formula written anew is taken for what it was")
	}
	other, _ := job.Formula("inner")
	if that.Resolve(other.Expr()); panics(that) || that.Expr() != other.Expr() {
		t.Error("a formula read anew is not what it says")
	}
	if !panics(trade.Formula{Text: "outer"}) {
		t.Error("a formula that nobody has read is worked with")
	}
	if got := (trade.Formula{}).Names(); got != nil {
		t.Errorf("no formula names %v", got)
	}
}
