package gauge

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// rule adds what it has to say about the values v of a method's roles.
type rule func(v []float64, r *remarks)

// rules makes a method's Valid from its rules.
func rules(list ...rule) func(v []float64) []Remark {
	return func(v []float64) []Remark {
		var r remarks
		for _, say := range list {
			say(v, &r)
		}
		return r.list
	}
}

// remarks collects what there is to say.
type remarks struct {
	list []Remark
}

// broken says that the set-up cannot be, or that the model does not hold.
func (r *remarks) broken(format string, args ...any) {
	r.list = append(r.list, Remark{Broken: true, Text: unit.Say(format, args...)})
}

// advise says what to take care of.
func (r *remarks) advise(format string, args ...any) {
	r.list = append(r.list, Remark{Text: unit.Say(format, args...)})
}

// factor writes how many times: three figures are more than enough.
func factor(x float64) string { return fmt.Sprintf("%.3g", x) }

type model func(a Args) grad.Number

// at evaluates the model at plain values.
func (f model) at(v []float64) float64 {
	a := make(Args, len(v))
	for i, x := range v {
		a[i] = grad.Const(x)
	}
	return f(a).X
}

// slope returns the derivative of the reading with respect to one role.
func (f model) slope(v []float64, role int) float64 {
	a := make(Args, len(v))
	for i, x := range v {
		a[i] = grad.Const(x)
	}
	a[role] = grad.Var(v[role], 0)
	return f(a).D[0]
}

// Between these the reading follows a size well enough to say nothing.
const (
	weakLeverage   = 0.1
	strongLeverage = 10
)

// leverage warns where the reading hardly moves with the size in a role, or so
// much that the size hangs on the other values. The size goes by what.
func leverage(f model, role int, what string) rule {
	return func(v []float64, r *remarks) {
		slope := math.Abs(f.slope(v, role))
		switch {
		case math.IsNaN(slope):
		case slope == 0:
			r.advise("the reading does not change with the %s here: it says nothing about it", what)
		case slope < weakLeverage:
			r.advise("the reading changes only %s times as much as the %s: an error in the reading counts %s times "+
				"in it",
				factor(slope), what, factor(1/slope))
		case slope > strongLeverage:
			r.advise("the reading changes %s times as much as the %s: the %s hangs on the pieces and the other "+
				"sizes more than on the reading",
				factor(slope), what, what)
		}
	}
}

// opens says that jaws cannot enter where the reading would not be positive.
// The room goes by what.
func opens(f model, what string) rule {
	return func(v []float64, r *remarks) {
		if m := f.at(v); m <= 0 {
			r.broken("%s would be %s: there is no room for the jaws", what, unit.LengthOf(m))
		}
	}
}

// belowTheLip holds the middle of a pin or ball under the lip of its wall.
func belowTheLip(piece, height int, what string) rule {
	return func(v []float64, r *remarks) {
		if d, h := v[piece], v[height]; d/2 >= h {
			r.broken("the %s touches the wall %s up, but the wall is only %s high: use one under %s",
				what, unit.LengthOf(d/2), unit.LengthOf(h), unit.LengthOf(2*h))
		}
	}
}

// between holds an angle within open limits.
func between(angle int, low, high float64, what string) rule {
	return func(v []float64, r *remarks) {
		if a := v[angle]; !(low < a && a < high) {
			r.broken("the %s is %s; it must lie between %s and %s",
				what, unit.AngleOf(a), unit.AngleOf(low), unit.AngleOf(high))
		}
	}
}

// wholeNumbers holds the roles that count things to whole numbers from 1 up.
func wholeNumbers(what string, roles ...int) rule {
	return func(v []float64, r *remarks) {
		for _, i := range roles {
			if n := v[i]; n < 1 || n != math.Trunc(n) {
				r.broken("%s are counted in whole numbers from 1 up, not %s", what, factor(n))
			}
		}
	}
}

// eitherSide holds a role to 1 (convex, outside) or -1 (concave, inside).
func eitherSide(side int, plus, minus string) rule {
	return func(v []float64, r *remarks) {
		if s := v[side]; s != 1 && s != -1 {
			r.broken("side is 1 (%s) or -1 (%s), not %s", plus, minus, factor(s))
		}
	}
}
