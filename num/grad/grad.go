// Package grad computes values together with their exact first derivatives.
//
// A Number carries a value and its gradient with respect to at most Width
// variables. Arithmetic applies the rules of differentiation as it goes
// (forward mode), so a formula written once gives its value and its gradient,
// with no differences and no step size. Numbers are plain values: nothing is
// allocated, and they may be copied and shared freely.
//
// Outside its domain a function returns NaN, as package math does; the caller
// decides what that means. At a kink (Abs at 0, Min of equals) the derivative
// is that of one side.
package grad

import "math"

// Width is the largest number of variables a gradient can have. It holds the
// roles of every gauging method; a formula with more variables is evaluated
// once for every Width of them.
const Width = 8

// Number is a value X and its partial derivatives D.
type Number struct {
	X float64
	D [Width]float64
}

// Const returns a number that depends on no variable.
func Const(x float64) Number { return Number{X: x} }

// Var returns variable number i with value x: its own derivative is 1.
func Var(x float64, i int) Number {
	n := Number{X: x}
	n.D[i] = 1
	return n
}

// chain returns f(a), given its value and its derivative at a.
func (a Number) chain(value, slope float64) Number {
	r := Number{X: value}
	for i, d := range a.D {
		if d != 0 {
			r.D[i] = slope * d
		}
	}
	return r
}

// combine returns f(a, b), given its value and its two partial derivatives.
func combine(a, b Number, value, byA, byB float64) Number {
	r := a.chain(value, byA)
	for i, d := range b.D {
		if d != 0 {
			r.D[i] += byB * d
		}
	}
	return r
}

// Add returns a + b.
func (a Number) Add(b Number) Number { return combine(a, b, a.X+b.X, 1, 1) }

// Sub returns a - b.
func (a Number) Sub(b Number) Number { return combine(a, b, a.X-b.X, 1, -1) }

// Mul returns a·b.
func (a Number) Mul(b Number) Number { return combine(a, b, a.X*b.X, b.X, a.X) }

// Div returns a/b.
func (a Number) Div(b Number) Number {
	q := a.X / b.X
	return combine(a, b, q, 1/b.X, -q/b.X)
}

// Plus returns a + c for a constant c.
func (a Number) Plus(c float64) Number {
	a.X += c
	return a
}

// Times returns c·a for a constant c.
func (a Number) Times(c float64) Number { return a.chain(c*a.X, c) }

// Neg returns -a.
func (a Number) Neg() Number { return a.Times(-1) }

// Half returns a/2: diameters become radii all over the catalogue.
func (a Number) Half() Number { return a.Times(0.5) }

// Sq returns a².
func (a Number) Sq() Number { return a.chain(a.X*a.X, 2*a.X) }

// Sqrt returns √a, NaN for a < 0.
func (a Number) Sqrt() Number {
	r := math.Sqrt(a.X)
	return a.chain(r, 0.5/r)
}

// Exp returns e to the power a.
func (a Number) Exp() Number {
	e := math.Exp(a.X)
	return a.chain(e, e)
}

// Ln returns the natural logarithm of a, NaN for a < 0.
func (a Number) Ln() Number { return a.chain(math.Log(a.X), 1/a.X) }

// Sin returns the sine of a in radians.
func (a Number) Sin() Number { return a.chain(math.Sin(a.X), math.Cos(a.X)) }

// Cos returns the cosine of a in radians.
func (a Number) Cos() Number { return a.chain(math.Cos(a.X), -math.Sin(a.X)) }

// Tan returns the tangent of a in radians.
func (a Number) Tan() Number {
	t := math.Tan(a.X)
	return a.chain(t, 1+t*t)
}

// Asin returns the angle whose sine is a, in radians.
func (a Number) Asin() Number { return a.chain(math.Asin(a.X), 1/math.Sqrt(1-a.X*a.X)) }

// Acos returns the angle whose cosine is a, in radians.
func (a Number) Acos() Number { return a.chain(math.Acos(a.X), -1/math.Sqrt(1-a.X*a.X)) }

// Atan returns the angle whose tangent is a, in radians.
func (a Number) Atan() Number { return a.chain(math.Atan(a.X), 1/(1+a.X*a.X)) }

// Abs returns |a|.
func (a Number) Abs() Number {
	if a.X < 0 {
		return a.Neg()
	}
	return a
}

// Min returns the smaller of a and b, a where they are equal.
func Min(a, b Number) Number {
	if b.X < a.X {
		return b
	}
	return a
}

// Max returns the larger of a and b, a where they are equal.
func Max(a, b Number) Number {
	if b.X > a.X {
		return b
	}
	return a
}

// Pow returns a to the power b. A whole constant exponent allows any a; any
// other exponent needs a > 0.
func Pow(a, b Number) Number {
	value := math.Pow(a.X, b.X)
	byA, byB := 0.0, 0.0
	if b.X != 0 {
		byA = b.X * math.Pow(a.X, b.X-1)
	}
	if b.D != [Width]float64{} {
		byB = value * math.Log(a.X)
	}
	return combine(a, b, value, byA, byB)
}
