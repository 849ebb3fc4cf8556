package expr

import (
	"regexp"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// writtenValue matches a text that is one value as the job file writes them
// and not a formula: a decimal, fraction, mixed number or taper with or without
// a unit, or degrees with minutes and seconds.
var writtenValue = func() *regexp.Regexp {
	const decimal = `(\d+(\.\d+)?|\.\d+)([eE][-+]?\d+)?`
	const measure = decimal + `(\s+` + decimal + `)?([/:]` + decimal + `)?\s*(mm|in|deg|rad|tpi|in/ft)?`
	const sexagesimal = decimal + `d(\s*` + decimal + `m)?(\s*` + decimal + `s)?`
	return regexp.MustCompile(`^\s*[-+]?(` + measure + `|` + sexagesimal + `)\s*$`)
}()

// ParseRightSide reads what a formula of dimension left is said to equal. It
// is a formula too, and compared with the left side by the rules of Parse, but
// a single value beside a length or an angle is read as a value of its sort is
// written: 5 as degrees, 1:20 as a half angle, and in an inch file 2 9/64. An
// error is an *Error.
func ParseRightSide(text string, left Dimension, env Env) (*Expr, error) {
	if (left.IsLength() || left.IsAngle()) && writtenValue.MatchString(text) {
		return value(text, left, env.Bare)
	}
	p, root := parse(text, env)
	if p.err == nil {
		p.alike(p.tokens[0], &node{dimension: left, makeup: varying}, root)
	}
	return p.expr(root)
}

// value reads text as a single length, pitch or angle.
func value(text string, d Dimension, bareUnit unit.Unit) (*Expr, error) {
	trimmed := strings.TrimSpace(text)
	var q unit.Quantity
	var err error
	switch {
	case d.IsAngle():
		q, err = unit.ParseAngle(trimmed)
	case strings.HasSuffix(trimmed, "tpi"):
		q, err = unit.ParsePitch(trimmed, bareUnit)
	default:
		q, err = unit.ParseLength(trimmed, bareUnit)
	}
	if err != nil {
		return nil, &Error{Column: 1, Text: trimmed, Want: wanted(err)}
	}
	return &Expr{text: text, dimension: d, program: []instruction{{name: -1, value: q.Inside()}}}, nil
}
