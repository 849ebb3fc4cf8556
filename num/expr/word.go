package expr

import (
	"errors"
	"math"
	"slices"
	"strconv"

	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/near"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// units are those of literals.
var units = map[string]bool{"mm": true, "in": true, "deg": true, "rad": true, "tpi": true}

const pi = "pi"

// Reserved reports whether a word has a meaning of its own in formulas, as a
// unit, a function or a constant, so that nothing else can have it as its name.
func Reserved(word string) bool {
	_, isFunction := functions[word]
	return isFunction || units[word] || word == pi
}

// function is one of the functions of formulas. It has either a unary or, taking
// two arguments or more, a binary form.
type function struct {
	unary  func(grad.Number) grad.Number
	binary func(a, b grad.Number) grad.Number
	takes  func(arg *node) (result Dimension, want string) // of a unary
}

var functions = map[string]function{
	"sqrt": {unary: grad.Number.Sqrt, takes: anyForRoot},
	"exp":  {unary: grad.Number.Exp, takes: numberFor(number)},
	"ln":   {unary: grad.Number.Ln, takes: numberFor(number)},
	"sin":  {unary: grad.Number.Sin, takes: angleForNumber},
	"cos":  {unary: grad.Number.Cos, takes: angleForNumber},
	"tan":  {unary: grad.Number.Tan, takes: angleForNumber},
	"asin": {unary: grad.Number.Asin, takes: numberFor(angle)},
	"acos": {unary: grad.Number.Acos, takes: numberFor(angle)},
	"atan": {unary: grad.Number.Atan, takes: numberFor(angle)},
	"abs":  {unary: grad.Number.Abs, takes: func(arg *node) (Dimension, string) { return arg.dimension, "" }},
	"min":  {binary: grad.Min},
	"max":  {binary: grad.Max},
}

func anyForRoot(arg *node) (Dimension, string) {
	d, ok := arg.dimension.to(0.5)
	if !ok {
		return number, "a root of " + arg.dimension.String() + " is no whole or half power of length"
	}
	return d, ""
}

// numberFor is the rule of functions that take a plain number.
func numberFor(result Dimension) func(*node) (Dimension, string) {
	return func(arg *node) (Dimension, string) {
		if !arg.dimension.IsNumber() {
			return number, "this function takes a plain number, not " + arg.dimension.String()
		}
		return result, ""
	}
}

func angleForNumber(arg *node) (Dimension, string) {
	switch {
	case arg.isBare():
		return number, "the angle needs its unit: 30 deg or 30 rad"
	case !arg.dimension.IsAngle() && !arg.dimension.IsNumber():
		return number, "this function takes an angle, not " + arg.dimension.String()
	}
	return number, ""
}

// word reads what begins with the word t: a call, pi or a name.
func (p *parser) word(t token) *node {
	if f, ok := functions[t.text]; ok {
		return p.call(t, f)
	}
	if t.text == pi {
		return p.constant(t, math.Pi, number, withPi)
	}
	symbol, known := p.env.Lookup(t.text)
	if !known {
		return p.unknown(t)
	}
	name := slices.Index(p.names, t.text)
	if name < 0 {
		name = len(p.names)
		p.names = append(p.names, t.text)
	}
	p.uses = append(p.uses, use{t.start, t.end, name})
	return p.count(t, &node{dimension: DimensionOf(symbol.Dimension), makeup: varying, name: name, need: 1})
}

// unknown fails at a word that has no meaning.
func (p *parser) unknown(t token) *node {
	want, among := "there is no size or gauge piece of this name", p.env.Names
	if p.peek(0).text == "(" {
		want, among = "there is no such function", nil
		for name := range functions {
			among = append(among, name)
		}
		slices.Sort(among)
	}
	if meant, ok := near.Word(t.text, among); ok {
		want += "; did you mean " + meant + "?"
	}
	return p.fail(t, "%s", want)
}

// call reads the arguments of the function t and applies it.
func (p *parser) call(t token, f function) *node {
	args := p.brackets()
	if f.binary != nil {
		return p.fold(t, f, args)
	}
	if len(args) != 1 {
		return p.fail(t, "this function takes one argument, not %d", len(args))
	}
	d, want := f.takes(args[0])
	if want != "" {
		return p.fail(t, "%s", want)
	}
	return p.unary(t, f.unary, args[0], d)
}

// fold applies a function of two to all arguments one after the other.
func (p *parser) fold(t token, f function, args []*node) *node {
	if len(args) < 2 {
		return p.fail(t, "this function takes two arguments or more")
	}
	d := p.alike(t, args...)
	result := args[0]
	for _, arg := range args[1:] {
		result = p.binary(t, f.binary, result, arg, d)
	}
	return result
}

// literal reads the number that begins with the token first, and its unit if
// it has one.
func (p *parser) literal(first token) *node {
	isUnit := func(ahead int) bool { return units[p.peek(ahead).text] }
	slashed := func(ahead int) bool {
		return p.peek(ahead).text == "/" && p.peek(ahead+1).kind == numberToken
	}
	switch {
	case isUnit(0):
		return p.measured(first, first.text, 0)
	case slashed(0) && isUnit(2):
		return p.measured(first, first.text+"/"+p.peek(1).text, 2)
	case p.peek(0).kind == numberToken && slashed(1):
		text := first.text + " " + p.peek(0).text + "/" + p.peek(2).text
		if !isUnit(3) {
			first.text = text
			return p.fail(first, "a mixed number needs its unit: 2 9/64 in")
		}
		return p.measured(first, text, 3)
	}
	value, err := strconv.ParseFloat(first.text, 64)
	if err != nil {
		return p.fail(first, "this number is too large")
	}
	return p.constant(first, value, number, bare)
}

// measured returns the literal of this number and the unit some tokens ahead.
func (p *parser) measured(first token, digits string, ahead int) *node {
	mark := p.peek(ahead).text
	p.at += ahead + 1
	first.text = digits + " " + mark
	var q unit.Quantity
	var err error
	if mark == "deg" || mark == "rad" {
		q, err = unit.ParseAngle(first.text)
	} else {
		q, err = unit.ParsePitch(first.text, p.env.Bare)
	}
	if err != nil {
		return p.fail(first, "%s", wanted(err))
	}
	return p.constant(first, q.Inside(), DimensionOf(q.Dimension()), withUnits)
}

// wanted returns what the reader of a value expected.
func wanted(err error) string {
	var syntax *unit.SyntaxError
	if !errors.As(err, &syntax) {
		panic("expr: a reader of values returned an error that is not about syntax")
	}
	return syntax.Want
}
