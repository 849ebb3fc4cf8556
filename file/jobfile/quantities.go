package jobfile

import (
	"errors"
	"math"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// limit is what sign a quantity may have.
type limit string

const (
	anySign     limit = ""
	notNegative limit = "not be negative"
	positive    limit = "be more than 0"
)

// limitOf are the limits of the signs of the description.
var limitOf = map[keys.Sign]limit{keys.AnySign: anySign, keys.NotNegative: notNegative, keys.Positive: positive}

// allows reports whether the quantity keeps the limit.
func (l limit) allows(q unit.Quantity) bool {
	switch l {
	case notNegative:
		return q.Sign() >= 0
	case positive:
		return q.Sign() > 0
	}
	return true
}

// quantityReader makes a quantity of its text; an error is a *unit.SyntaxError.
type quantityReader func(text string) (unit.Quantity, error)

// quantity reads one value, which must keep the limit.
func (r *values) quantity(n yamltree.Node, about string, read quantityReader, l limit) unit.Quantity {
	if n.Shape != yamltree.Scalar {
		r.fault(n, "%s: found %s where one value should be", about, n.Found())
		return unit.Quantity{}
	}
	q, err := read(n.Text)
	if err != nil {
		r.syntax(n, about, err)
		return unit.Quantity{}
	}
	if !l.allows(q) {
		r.fault(n, "%s is %s; it must %s", about, yamltree.Quote(n.Text), l)
		return unit.Quantity{}
	}
	return q
}

// lengths reads a range of lengths; bare numbers are in the units of the file.
func (r *values) lengths(text string) (unit.Range, error) {
	return unit.ParseRange(text, r.job.Units)
}

// length reads a length; a bare number is in the units of the file.
func (r *values) length(text string) (unit.Quantity, error) {
	return unit.ParseLength(text, r.job.Units)
}

// pitch reads a length or a number of threads per inch.
func (r *values) pitch(text string) (unit.Quantity, error) {
	return unit.ParsePitch(text, r.job.Units)
}

// measure returns the reader of quantities of a dimension.
func (r *values) measure(d unit.Dimension) quantityReader {
	switch d {
	case unit.Length:
		return r.length
	case unit.Angle:
		return unit.ParseAngle
	}
	return unit.ParseNumber
}

// syntax adds a fault in the text of a value, at the place within the text.
func (r *values) syntax(n yamltree.Node, about string, err error) {
	column := 1
	var wrong *unit.SyntaxError
	if errors.As(err, &wrong) {
		column = wrong.Column
	}
	r.faults.Add(n.Within(column), "%s: %s", about, err)
}

// includedAngle reads an angle that is measured from flank to flank. A taper
// stands for its half angle and counts double; it is then kept in radians, to
// the seventeenth decimal place.
func includedAngle(text string) (unit.Quantity, error) {
	q, err := unit.ParseAngle(text)
	if err != nil || !q.IsTaper() {
		return q, err
	}
	const place = 1e17
	return unit.New(int64(math.Round(2*q.Inside()*place)), place, unit.Radian)
}
