package unit

import (
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"
)

// SyntaxError says why a text is not the value it should be.
type SyntaxError struct {
	Text   string // all that was to be read
	Column int    // where it goes wrong, in runes of Text from 1
	Want   string // what was expected
}

// longestQuoted is how much of a wrong text an error shows, in bytes.
const longestQuoted = 40

// Error returns the text, cut if it is long, and what was expected.
func (e *SyntaxError) Error() string {
	text := e.Text
	if len(text) > longestQuoted {
		cut := longestQuoted
		for cut > 0 && !utf8.RuneStart(text[cut]) {
			cut--
		}
		text = text[:cut] + "…"
	}
	return fmt.Sprintf("%q: %s", text, e.Want)
}

// longestText is the most bytes a written value may have.
const longestText = 64

// scanner reads the parts of a value from left to right. The first fault stays
// and makes all that is read afterwards worthless.
type scanner struct {
	text string
	at   int
	want string // what the whole text should be
	err  *SyntaxError
}

func newScanner(text, want string) *scanner {
	s := &scanner{text: text, want: want}
	if len(text) > longestText {
		s.fail(fmt.Sprintf("a value has at most %d characters", longestText))
		s.at = len(text)
	}
	s.blanks()
	return s
}

// fail notes a fault at the present place, if it is the first.
func (s *scanner) fail(want string) {
	if s.err == nil {
		s.err = &SyntaxError{s.text, utf8.RuneCountInString(s.text[:s.at]) + 1, want}
	}
}

// quantity returns r as the quantity that the whole text stands for.
func (s *scanner) quantity(r *big.Rat, u Unit) (Quantity, error) {
	s.end()
	if s.err != nil {
		return Quantity{}, s.err
	}
	q, err := fromRat(r, u)
	if err != nil {
		return Quantity{}, &SyntaxError{s.text, 1, err.Error()}
	}
	return q, nil
}

// end passes blanks and fails if anything else is left.
func (s *scanner) end() {
	s.blanks()
	if s.at < len(s.text) {
		s.fail(s.want)
	}
}

func (s *scanner) blanks() {
	for s.at < len(s.text) && (s.text[s.at] == ' ' || s.text[s.at] == '\t') {
		s.at++
	}
}

// take passes token if it comes next.
func (s *scanner) take(token string) bool {
	if !strings.HasPrefix(s.text[s.at:], token) {
		return false
	}
	s.at += len(token)
	return true
}

// digitAt reports whether the byte ahead by some bytes is a digit.
func (s *scanner) digitAt(ahead int) bool {
	i := s.at + ahead
	return i < len(s.text) && '0' <= s.text[i] && s.text[i] <= '9'
}

func (s *scanner) digits() string {
	start := s.at
	for s.digitAt(0) {
		s.at++
	}
	return s.text[start:s.at]
}

// sign passes a sign and reports whether it was a minus.
func (s *scanner) sign() (minus bool) {
	if s.take("-") {
		return true
	}
	s.take("+")
	return false
}

// decimal reads digits with or without a point and an exponent.
func (s *scanner) decimal() *big.Rat {
	start := s.at
	s.digits()
	if s.digitAt(1) && s.take(".") {
		s.digits()
	}
	if s.at == start {
		s.fail(s.want)
		return new(big.Rat)
	}
	s.exponent()
	r, ok := new(big.Rat).SetString(s.text[start:s.at])
	if !ok {
		panic("unit: the scanner passed something that is no decimal")
	}
	return r
}

// exponent passes one, if it comes next. Three digits are more than can be
// kept, and are refused before anything so large is worked out.
func (s *scanner) exponent() {
	start := s.at
	if !s.take("e") && !s.take("E") {
		return
	}
	s.sign()
	digits := s.digits()
	if digits == "" || len(digits) > 2 {
		s.at = start
	}
	if len(digits) > 2 {
		s.fail(errOverflow.Error())
	}
}

// fraction reads what may follow the decimal just read: a slash and another,
// or, after a blank or hyphen, the fraction of a mixed number. It reports
// whether there was any of these.
func (s *scanner) fraction(first *big.Rat) (value *big.Rat, fraction bool) {
	if s.take("/") {
		return s.quotient(first), true
	}
	start := s.at
	if !s.take("-") {
		s.blanks()
	}
	if s.at == start || !s.digitAt(0) {
		s.at = start
		return first, false
	}
	numerator := s.decimal()
	if !s.take("/") {
		s.fail(s.want)
		return first, false
	}
	part := s.quotient(numerator)
	if !first.IsInt() || part.Cmp(big.NewRat(1, 1)) >= 0 {
		s.at = start
		s.fail("a mixed number is a whole number and a fraction less than 1, such as 2 9/64 in")
	}
	return part.Add(first, part), true
}

// quotient reads a divisor and returns numerator over it.
func (s *scanner) quotient(numerator *big.Rat) *big.Rat {
	start := s.at
	divisor := s.decimal()
	if divisor.Sign() == 0 {
		s.at = start
		s.fail(errOverZero.Error())
		return divisor
	}
	return divisor.Quo(numerator, divisor)
}

// number reads a sign and a decimal, fraction or mixed number.
func (s *scanner) number() (value *big.Rat, fraction bool) {
	minus := s.sign()
	value, fraction = s.fraction(s.decimal())
	return signed(minus, value), fraction
}

func signed(minus bool, value *big.Rat) *big.Rat {
	if minus {
		return value.Neg(value)
	}
	return value
}

// otherMarks are the units that are written in a second way.
var otherMarks = map[Unit]string{Inch: `"`, NewtonMillimetre: "Nmm", NewtonMetre: "Nm"}

// unit reads one of the units, if one comes next. Of two that begin alike the
// longer stands first among them.
func (s *scanner) unit(among ...Unit) (u Unit, given bool) {
	s.blanks()
	for _, u := range among {
		other, two := otherMarks[u]
		if s.take(u.String()) || two && s.take(other) {
			return u, true
		}
	}
	return One, false
}
