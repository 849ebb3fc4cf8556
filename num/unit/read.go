package unit

import (
	"math/big"
	"strings"
)

// What is expected of each sort of value.
const (
	wantLength = `a length is written 12.7, 2.35 mm, 0.4375 in, 7/32 in, 2 9/64 in or 2-9/64"`
	wantPitch  = "a pitch is written 1.5 mm, 1/14 in or 14 tpi"
	wantAngle  = "an angle is written 60 deg, 60, 1d 29m 27s, 0.02 rad, 0.602 in/ft or 1:20"
	wantNumber = "a plain number is written 1.25, 1e-5 or 1/2"
	wantRange  = "a range is written 0.05..0.20 mm"
	wantForce  = "a force is written with its unit: 2000 N, 2 kN or 450 lbf"
	wantTorque = "a torque is written with its unit: 25 N m, 25000 N mm, 18 lbf ft or 220 lbf in"
	wantSpan   = "a range of plain numbers is written 0.12..0.20"
)

// ParseLength reads a length: a decimal, a fraction or a mixed number (with a
// blank or a hyphen before its fraction) and mm, in or ". A number without a
// unit is in the unit bare, Millimetre or Inch, but a fraction without one is
// a length only where bare is Inch. An error is a *SyntaxError.
func ParseLength(text string, bare Unit) (Quantity, error) {
	return parseMeasure(text, bare, wantLength, Millimetre, Inch)
}

// ParsePitch reads a pitch: a length, or a number of threads per inch.
func ParsePitch(text string, bare Unit) (Quantity, error) {
	return parseMeasure(text, bare, wantPitch, Millimetre, Inch, ThreadsPerInch)
}

func parseMeasure(text string, bare Unit, want string, units ...Unit) (Quantity, error) {
	s := newScanner(text, want)
	start := s.at
	value, fraction := s.number()
	u, given := s.unit(units...)
	if !given {
		u = bare
		if fraction && bare != Inch {
			s.noBareFraction(start, s.writeInches())
		}
	}
	return s.quantity(value, u)
}

// noBareFraction fails at start, where a fraction without a unit begins, unless
// something else is wrong.
func (s *scanner) noBareFraction(start int, want string) {
	s.end()
	s.at = start
	s.fail(want)
}

// writeInches says what to write in the place of a bare fraction.
func (s *scanner) writeInches() string {
	return "a bare fraction is only a length in an inch file; write " + strings.TrimSpace(s.text) + " in"
}

// ParseAngle reads an angle: degrees, with deg or bare; degrees, minutes and
// seconds; radians; or a taper on the diameter, in/ft or 1:n, which is kept as
// written and stands for the half angle. An error is a *SyntaxError.
func ParseAngle(text string) (Quantity, error) {
	s := newScanner(text, wantAngle)
	start := s.at
	minus := s.sign()
	first := s.decimal()
	switch {
	case s.take(":"):
		return s.quantity(signed(minus, s.quotient(first)), TaperRatio)
	case s.sexagesimalNext():
		return s.quantity(signed(minus, s.sexagesimal(first)), Degree)
	}
	value, fraction := s.fraction(first)
	u, given := s.unit(Degree, Radian, InchPerFoot)
	if !given {
		u = Degree
		if fraction {
			s.noBareFraction(start, "a bare fraction is no angle; write 1/2 deg, or 1:20 for a taper")
		}
	}
	return s.quantity(signed(minus, value), u)
}

// sexagesimalNext passes the d of 1d 29m 27s, which is not that of deg.
func (s *scanner) sexagesimalNext() bool {
	return !strings.HasPrefix(s.text[s.at:], Degree.String()) && s.take("d")
}

// sexagesimal adds the minutes and seconds that follow to whole degrees. Only
// the last part may have decimals, and each is less than 60.
func (s *scanner) sexagesimal(degrees *big.Rat) *big.Rat {
	sum, last := new(big.Rat).Set(degrees), degrees
	for _, part := range []struct {
		mark   string
		number int64
	}{{"m", 60}, {"s", 3600}} {
		start := s.at
		if s.blanks(); !s.digitAt(0) {
			continue
		}
		value := s.decimal()
		if !s.take(part.mark) {
			s.at = start
			continue
		}
		if !last.IsInt() || value.Cmp(big.NewRat(60, 1)) >= 0 {
			s.at = start
			s.fail("minutes and seconds are less than 60, and only the last part has decimals: 1d 29m 27.5s")
		}
		sum.Add(sum, new(big.Rat).Quo(value, big.NewRat(part.number, 1)))
		last = value
	}
	return sum
}

// ParseNumber reads a plain number: a decimal or a fraction, without a unit.
// An error is a *SyntaxError.
func ParseNumber(text string) (Quantity, error) {
	s := newScanner(text, wantNumber)
	return s.quantity(s.plain(), One)
}

// plain reads a sign and a decimal or fraction.
func (s *scanner) plain() *big.Rat {
	minus := s.sign()
	value := s.decimal()
	if s.take("/") {
		value = s.quotient(value)
	}
	return signed(minus, value)
}

// ParseForce reads a force: a number and N, kN or lbf. An error is a
// *SyntaxError.
func ParseForce(text string) (Quantity, error) {
	return parseWithUnit(text, wantForce, Newton, Kilonewton, PoundForce)
}

// ParseTorque reads a torque: a number and N m, N mm, lbf ft or lbf in, the
// blank between them optional. An error is a *SyntaxError.
func ParseTorque(text string) (Quantity, error) {
	return parseWithUnit(text, wantTorque, NewtonMillimetre, NewtonMetre, PoundForceInch, PoundForceFoot)
}

// parseWithUnit reads a number that must have one of the units.
func parseWithUnit(text, want string, units ...Unit) (Quantity, error) {
	s := newScanner(text, want)
	value, _ := s.number()
	u, given := s.unit(units...)
	if !given {
		s.fail(want)
	}
	return s.quantity(value, u)
}

// Range is everything from Low to High, Low not above High: lengths or plain
// numbers.
type Range struct {
	Low, High Quantity
}

// ParseRange reads a range of lengths, written low..high. A unit on the end
// serves both; without any, both are in the unit bare. An error is a
// *SyntaxError.
func ParseRange(text string, bare Unit) (Range, error) {
	s := newScanner(text, wantRange)
	start := s.at
	low, lowFraction := s.number()
	lowUnit, lowGiven := s.unit(Millimetre, Inch)
	if s.blanks(); !s.take("..") {
		s.fail(wantRange)
	}
	s.blanks()
	high, highFraction := s.number()
	highUnit, highGiven := s.unit(Millimetre, Inch)
	switch {
	case highGiven && !lowGiven:
		lowUnit = highUnit
	case lowGiven && !highGiven:
		s.fail("the unit of a range stands on its end: 0.05..0.20 mm")
	case !highGiven:
		lowUnit, highUnit = bare, bare
		if (lowFraction || highFraction) && bare != Inch {
			s.noBareFraction(start, s.writeInches())
		}
	}
	return s.span(low, lowUnit, high, highUnit)
}

// ParseNumberRange reads a range of plain numbers, written low..high. An error
// is a *SyntaxError.
func ParseNumberRange(text string) (Range, error) {
	s := newScanner(text, wantSpan)
	low := s.plain()
	if s.blanks(); !s.take("..") {
		s.fail(wantSpan)
	}
	s.blanks()
	return s.span(low, One, s.plain(), One)
}

// Given reports whether there is a range at all.
func (r Range) Given() bool { return r.Low.Given() }

// span returns the range of the two values.
func (s *scanner) span(low *big.Rat, lowUnit Unit, high *big.Rat, highUnit Unit) (Range, error) {
	var r Range
	var err error
	if r.Low, err = s.quantity(low, lowUnit); err != nil {
		return Range{}, err
	}
	if r.High, err = s.quantity(high, highUnit); err != nil {
		return Range{}, err
	}
	if r.Low.exact().Cmp(r.High.exact()) > 0 {
		return Range{}, &SyntaxError{s.text, 1, "the smaller end of a range comes first: 0.05..0.20"}
	}
	return r, nil
}
