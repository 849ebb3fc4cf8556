package expr

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/num/grad"
)

// The limits of a formula.
const (
	longestText     = 2000 // bytes; bounds the recursion of the parser too
	deepestBrackets = 100
	mostNodes       = 1000
)

// Parse reads a formula. An error is an *Error.
//
// ^ binds tightest and to the right, then the minus sign, then * and /, then +
// and -: -a^2 is -(a^2). A number, a fraction or a mixed number (with a blank)
// followed by a unit mm, in, deg, rad or tpi is one literal and binds tighter
// still: x/1/8 in is x over an eighth. A minus never joins a mixed number.
//
// Added or compared (min, max) are only like things, with these exceptions. A
// bare constant, made of numbers alone, is in the file's unit beside a length
// and an error beside an angle; pi beside an angle is radians; any other plain
// number beside an angle, tan(a) - a, is too and makes a plain number.
//
// Products and quotients add and subtract powers of length. An angle times or
// over a plain number is an angle, a length times an angle a length (the arc);
// elsewhere an angle counts as a plain number. A power of a length has a
// constant exponent and leaves whole or half powers. sqrt halves the power;
// sin, cos and tan take an angle or a plain number in radians, but no bare
// constant; asin, acos and atan make an angle of a plain number; exp and ln
// take and make plain numbers; abs, min and max keep what they are given.
func Parse(text string, env Env) (*Expr, error) {
	p, root := parse(text, env)
	return p.expr(root)
}

// parser reads a formula by recursive descent, checking dimensions and working
// out constants as it goes. After the first fault it stands at the end of the
// text, and what it returns is worthless.
type parser struct {
	env    Env
	text   string
	tokens []token
	at     int
	err    *Error
	names  []string
	uses   []use
	depth  int // of open brackets
	nodes  int
}

// parse reads all of text.
func parse(text string, env Env) (*parser, *node) {
	if len(text) > longestText {
		want := fmt.Sprintf("a formula has at most %d bytes", longestText)
		return &parser{err: &Error{Column: 1, Want: want}}, &node{}
	}
	p := &parser{env: env, text: text, tokens: tokens(text)}
	root := p.sum()
	if t := p.peek(0); t.kind != endToken {
		p.unexpected(t, "one of + - * / ^ is expected here")
	}
	return p, root
}

// expr returns the formula that root is, or the fault.
func (p *parser) expr(root *node) (*Expr, error) {
	if p.err != nil {
		return nil, p.err
	}
	return &Expr{
		text:      p.text,
		dimension: root.dimension,
		names:     p.names,
		uses:      p.uses,
		program:   root.compile(nil),
	}, nil
}

// fail notes a fault at t, if it is the first, and goes to the end.
func (p *parser) fail(t token, format string, args ...any) *node {
	if p.err == nil {
		p.err = &Error{Column: column(p.text, t.start), Text: t.text, Want: fmt.Sprintf(format, args...)}
	}
	p.at = len(p.tokens) - 1
	return &node{}
}

// unexpected fails at a token that cannot stand where it does.
func (p *parser) unexpected(t token, want string) *node {
	switch {
	case t.text == `"`:
		want = "in a formula inches are written in: 2 9/64 in"
	case t.kind == wrongToken:
		want = "this character has no place in a formula"
	case t.text == ")":
		want = "this bracket closes nothing, or closes too early"
	case units[t.text]:
		want = "a unit stands only after a number"
	}
	return p.fail(t, "%s", want)
}

// peek returns the token some places ahead.
func (p *parser) peek(ahead int) token { return p.tokens[min(p.at+ahead, len(p.tokens)-1)] }

// take passes the next token if it is one of these signs.
func (p *parser) take(signs ...string) (token, bool) {
	t := p.peek(0)
	for _, sign := range signs {
		if t.text == sign {
			p.at++
			return t, true
		}
	}
	return t, false
}

func (p *parser) sum() *node {
	left := p.product()
	for {
		t, ok := p.take("+", "-")
		if !ok {
			return left
		}
		right := p.product()
		d := p.alike(t, left, right)
		if t.text == "+" {
			left = p.binary(t, grad.Number.Add, left, right, d)
		} else {
			left = p.binary(t, grad.Number.Sub, left, right, d)
		}
	}
}

func (p *parser) product() *node {
	left := p.signed()
	for {
		t, ok := p.take("*", "/")
		if !ok {
			return left
		}
		right := p.signed()
		if t.text == "*" {
			d := p.within(t)(left.dimension.times(right.dimension))
			left = p.binary(t, grad.Number.Mul, left, right, d)
		} else {
			d := p.within(t)(left.dimension.over(right.dimension))
			left = p.binary(t, grad.Number.Div, left, right, d)
		}
	}
}

func (p *parser) signed() *node {
	t, ok := p.take("-", "+")
	if !ok {
		return p.power()
	}
	arg := p.signed()
	if t.text == "+" {
		return arg
	}
	return p.unary(t, grad.Number.Neg, arg, arg.dimension)
}

func (p *parser) power() *node {
	base := p.primary()
	t, ok := p.take("^")
	if !ok {
		return base
	}
	exponent := p.signed()
	return p.binary(t, grad.Pow, base, exponent, p.powerOf(t, base, exponent))
}

func (p *parser) primary() *node {
	t := p.peek(0)
	switch {
	case t.kind == numberToken:
		p.at++
		return p.literal(t)
	case t.kind == nameToken && !units[t.text]:
		p.at++
		return p.word(t)
	case t.text == "(":
		inside := p.brackets()
		if len(inside) > 1 {
			return p.fail(t, "only the bracket of a function has commas in it")
		}
		return inside[0]
	}
	return p.unexpected(t, "a number, a name, a function or a bracket is expected here")
}

// brackets reads one formula or more between brackets.
func (p *parser) brackets() []*node {
	open, ok := p.take("(")
	if !ok {
		return []*node{p.fail(open, "the bracket of the function is expected here")}
	}
	if p.depth++; p.depth > deepestBrackets {
		return []*node{p.fail(open, "brackets are at most %d deep", deepestBrackets)}
	}
	defer func() { p.depth-- }()
	list := []*node{p.sum()}
	for _, more := p.take(","); more; _, more = p.take(",") {
		list = append(list, p.sum())
	}
	if t, closed := p.take(")"); !closed {
		p.unexpected(t, "a closing bracket or one of + - * / ^ is expected here")
	}
	return list
}
