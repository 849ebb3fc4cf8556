package expr

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// makeup is the most telling thing that a part of a formula is made of.
type makeup uint8

const (
	bare      makeup = iota // numbers alone
	withPi                  // and pi
	withUnits               // and literals with units
	varying                 // and names
)

// node is a part of a formula. Whatever does not vary is a leaf: constants are
// worked out while reading.
type node struct {
	dimension   Dimension
	makeup      makeup
	value       float64 // of a constant
	name        int     // of a leaf that varies
	unary       func(grad.Number) grad.Number
	binary      func(a, b grad.Number) grad.Number
	left, right *node // right is nil under a unary
	need        int   // places on the stack
}

// isBare reports whether n is a plain number made of numbers alone.
func (n *node) isBare() bool { return n.makeup == bare && n.dimension.IsNumber() }

// count returns n if the formula may have one more part.
func (p *parser) count(t token, n *node) *node {
	if p.nodes++; p.nodes > mostNodes {
		return p.fail(t, "a formula has at most %d parts", mostNodes)
	}
	return n
}

func (p *parser) constant(t token, value float64, d Dimension, m makeup) *node {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return p.fail(t, "the constant here has no finite value")
	}
	return p.count(t, &node{dimension: d, makeup: m, value: value, need: 1})
}

func (p *parser) unary(t token, f func(grad.Number) grad.Number, arg *node, d Dimension) *node {
	if arg.makeup != varying {
		return p.constant(t, f(grad.Const(arg.value)).X, d, arg.makeup)
	}
	return p.count(t, &node{dimension: d, makeup: varying, unary: f, left: arg, need: arg.need})
}

func (p *parser) binary(t token, f func(a, b grad.Number) grad.Number, left, right *node, d Dimension) *node {
	m := max(left.makeup, right.makeup)
	if m != varying {
		return p.constant(t, f(grad.Const(left.value), grad.Const(right.value)).X, d, m)
	}
	need := max(left.need, right.need)
	if left.need == right.need {
		need++
	}
	return p.count(t, &node{dimension: d, makeup: m, binary: f, left: left, right: right, need: need})
}

// within returns a check that a product or quotient has a dimension.
func (p *parser) within(t token) func(Dimension, bool) Dimension {
	return func(d Dimension, ok bool) Dimension {
		if !ok {
			p.fail(t, "the power of length is out of all reason here")
		}
		return d
	}
}

// powerOf returns the dimension of base^exponent.
func (p *parser) powerOf(t token, base, exponent *node) Dimension {
	if !exponent.dimension.IsNumber() {
		p.fail(t, "an exponent is a plain number, not %v", exponent.dimension)
		return number
	}
	if base.dimension.halves == 0 {
		return number
	}
	if exponent.makeup == varying {
		p.fail(t, "the exponent of %v is constant", base.dimension)
	}
	d, ok := base.dimension.to(exponent.value)
	if !ok {
		p.fail(t, "this power of %v is no whole or half power of length", base.dimension)
	}
	return d
}

// alike checks that parts may be added or compared at t and returns what that
// gives. Bare constants beside a length take the file's unit.
func (p *parser) alike(t token, parts ...*node) Dimension {
	d := number
	for _, part := range parts {
		if d.IsNumber() {
			d = part.dimension
		}
	}
	result := d
	for _, part := range parts {
		switch {
		case part.dimension == d:
		case d.IsLength() && part.isBare():
			p.takeFileUnit(part)
		case d.IsAngle() && part.isBare():
			p.fail(t, "a number beside an angle needs its unit: 30 deg or 0.5 rad")
		case d.IsAngle() && part.dimension.IsNumber():
			if part.makeup != withPi {
				result = number
			}
		default:
			p.fail(t, "%v and %v do not go together here", d, part.dimension)
		}
	}
	return result
}

// takeFileUnit makes a length of a bare constant.
func (p *parser) takeFileUnit(n *node) {
	n.dimension = length
	if p.env.Bare == unit.Inch {
		n.value *= unit.MillimetresPerInch
	}
}
