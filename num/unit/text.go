package unit

import (
	"fmt"
	"math/big"
)

// The limits of readable text: a finer inch fraction, or a decimal or seconds
// with more places, is written in another way.
const (
	finestFraction = 128
	mostPlaces     = 18
)

// String returns the quantity as text from which the reader of its dimension
// makes an equal quantity of the same unit: an inch fraction as far as 1/128,
// else a decimal of up to 18 places, else degrees, minutes and seconds if that
// is exact, else a fraction. A quantity that is not given is empty text.
func (q Quantity) String() string {
	if !q.Given() {
		return ""
	}
	switch q.unit {
	case One:
		return plain(q.rat())
	case Inch:
		return q.inches() + " in"
	case Degree:
		return degrees(q.rat())
	case TaperRatio:
		return q.ratio()
	}
	return plain(q.rat()) + " " + q.unit.String()
}

// plain returns r as a decimal if that ends, else as a fraction.
func plain(r *big.Rat) string {
	if places, ends := r.FloatPrec(); ends && places <= mostPlaces {
		return r.FloatString(places)
	}
	return r.RatString()
}

// inches returns the number of inches as a mixed number where the denominator
// is one found on a rule.
func (q Quantity) inches() string {
	if q.den > finestFraction || q.den&(q.den-1) != 0 {
		return plain(q.rat())
	}
	whole, numerator := q.num/q.den, q.num%q.den
	if whole == 0 || numerator == 0 {
		return q.rat().RatString()
	}
	return fmt.Sprintf("%d %d/%d", whole, max(numerator, -numerator), q.den)
}

// degrees returns r degrees as a decimal, else with minutes and seconds, else
// as a fraction.
func degrees(r *big.Rat) string {
	if text, ok := sexagesimal(r); ok {
		return text
	}
	return plain(r) + " deg"
}

// sexagesimal returns r degrees as 1d 29m 27s, false where a decimal says the
// same or where the seconds would not end.
func sexagesimal(r *big.Rat) (string, bool) {
	seconds := new(big.Rat).Abs(r)
	seconds.Mul(seconds, big.NewRat(3600, 1))
	_, isDecimal := r.FloatPrec()
	places, ends := seconds.FloatPrec()
	if isDecimal || !ends || places > mostPlaces {
		return "", false
	}
	sixty := big.NewInt(60)
	minutes := new(big.Int).Quo(seconds.Num(), seconds.Denom())
	minutes.Quo(minutes, sixty)
	seconds.Sub(seconds, new(big.Rat).SetInt(new(big.Int).Mul(minutes, sixty)))
	whole, rest := new(big.Int).QuoRem(minutes, sixty, new(big.Int))
	sign := ""
	if r.Sign() < 0 {
		sign = "-"
	}
	return fmt.Sprintf("%s%dd %dm %ss", sign, whole, rest, seconds.FloatString(places)), true
}

// ratio returns a taper as 1:n, else as a ratio of whole numbers.
func (q Quantity) ratio() string {
	if q.num == 0 {
		return "0:1"
	}
	sign := ""
	if q.num < 0 {
		sign = "-"
	}
	n := big.NewRat(q.den, max(q.num, -q.num))
	if places, ends := n.FloatPrec(); ends && places <= mostPlaces {
		return sign + "1:" + n.FloatString(places)
	}
	return fmt.Sprintf("%d:%d", q.num, q.den)
}
