package expr

import "codeberg.org/oddleg/oddleg/num/grad"

// instruction is one step of the program of a formula: it puts a name's value
// or a constant on the stack, or takes one or two values off and puts on the
// result.
type instruction struct {
	name    int // -1 for none
	value   float64
	unary   func(grad.Number) grad.Number
	binary  func(a, b grad.Number) grad.Number
	swapped bool // the right operand was worked out first
}

// deepestStack is enough for every formula. Of two operands that which needs
// more places is worked out first, so that a formula that needs n has at least
// 2ⁿ - 1 parts (R. Sethi, J. D. Ullman, J. ACM 17 (1970) 715, from memory), and
// none has more than mostNodes.
const deepestStack = 9

// compile appends the program of n.
func (n *node) compile(program []instruction) []instruction {
	switch {
	case n.unary != nil:
		return append(n.left.compile(program), instruction{name: -1, unary: n.unary})
	case n.binary == nil && n.makeup == varying:
		return append(program, instruction{name: n.name})
	case n.binary == nil:
		return append(program, instruction{name: -1, value: n.value})
	case n.right.need > n.left.need:
		program = n.left.compile(n.right.compile(program))
		return append(program, instruction{name: -1, binary: n.binary, swapped: true})
	}
	program = n.right.compile(n.left.compile(program))
	return append(program, instruction{name: -1, binary: n.binary})
}

// Eval returns the value of the formula, in mm to the power of its dimension,
// radians or as a plain number, for the values of its names in the order of
// Names. Where gradient is not nil it is filled with the derivatives with
// respect to them. Outside the domain of a function the value is NaN. Lists of
// another length than Names panic.
func (e *Expr) Eval(values []float64, gradient []float64) float64 {
	if len(values) != len(e.names) || gradient != nil && len(gradient) != len(e.names) {
		panic("expr: a formula was given values or a gradient of another number than its names")
	}
	if len(gradient) == 0 {
		return e.run(values, len(values)).X
	}
	var value float64
	for first := 0; first < len(gradient); first += grad.Width {
		n := e.run(values, first)
		copy(gradient[first:], n.D[:])
		value = n.X
	}
	return value
}

// run works the program through with the derivatives of the names from first
// on, as many as a gradient holds.
func (e *Expr) run(values []float64, first int) grad.Number {
	var stack [deepestStack]grad.Number
	top := -1
	for i := range e.program {
		switch step := &e.program[i]; {
		case step.unary != nil:
			stack[top] = step.unary(stack[top])
		case step.binary != nil:
			top--
			a, b := stack[top], stack[top+1]
			if step.swapped {
				a, b = b, a
			}
			stack[top] = step.binary(a, b)
		case step.name >= 0:
			top++
			stack[top] = variable(values[step.name], step.name-first)
		default:
			top++
			stack[top] = grad.Const(step.value)
		}
	}
	return stack[0]
}

// variable returns the number whose derivative has place i, if there is one.
func variable(value float64, i int) grad.Number {
	if 0 <= i && i < grad.Width {
		return grad.Var(value, i)
	}
	return grad.Const(value)
}
