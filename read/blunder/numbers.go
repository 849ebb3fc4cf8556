package blunder

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// The parts of an inch by which a rule is misread, in mm.
const (
	inch         = unit.MillimetresPerInch
	sixtyFourth  = inch / 64
	thirtySecond = inch / 32
)

// misreading is one way in which a number may have been read or written wrong:
// what it should have been, ok being false where that is no number.
type misreading struct {
	kind    Kind
	text    string
	part    float64 // of the prior of its kind
	correct func(q unit.Quantity) (right unit.Quantity, ok bool)
}

// written says how a number came about.
type written struct {
	by         *trade.Instrument // nil of a size that was stated
	number     unit.Quantity
	scale      unit.Unit // of the instrument
	round      bool      // a radius or a diameter has to do with it
	resolution unit.Quantity
}

// misreadings lists what may be wrong with a number.
func (w written) misreadings() []misreading {
	list := w.swappedDigits()
	if w.number.Dimension() != unit.Length {
		return list
	}
	list = append(list, w.steps()...)
	list = append(list,
		misreading{InchForMM, "inches written as millimetres", 1, times(inch)},
		misreading{MMForInch, "millimetres written as inches", 1, times(1 / inch)})
	if w.round {
		list = append(list,
			misreading{RadiusForDiameter, "the radius written for the diameter", 1, times(2)},
			misreading{DiameterForRadius, "the diameter written for the radius", 1, times(0.5)})
	}
	return list
}

// steps lists the divisions that may have been miscounted.
func (w written) steps() []misreading {
	var list []misreading
	step := func(kind Kind, part, by float64, text string) {
		list = append(list, misreading{kind, text, part / 2, plus(by)}, misreading{kind, text, part / 2, plus(-by)})
	}
	if w.isFraction() {
		step(FractionDivision, 0.5, sixtyFourth, "1/64 in miscounted")
		step(FractionDivision, 0.5, thirtySecond, "1/32 in miscounted")
	}
	if w.by == nil {
		return list
	}
	kind, _ := gauge.InstrumentOf(w.by.Kind)
	for _, d := range kind.Divisions {
		if d.Inches == (w.scale == unit.Inch) {
			step(miscounted[d.Scale], d.Part, d.By, d.Text)
		}
	}
	return list
}

// miscounted are the kinds of slip by the scale on which they are made.
var miscounted = map[gauge.Scale]Kind{gauge.Thimble: ThimbleTurn, gauge.Beam: BeamDivision}

// isFraction reports whether the number was read in parts of an inch as a rule
// has them.
func (w written) isFraction() bool {
	if w.number.Unit() != unit.Inch {
		return false
	}
	decimal := w.resolution.Given() && !strings.Contains(w.resolution.String(), "/")
	if w.by != nil {
		if kind, _ := gauge.InstrumentOf(w.by.Kind); kind.Fractions {
			return true
		}
	}
	return !decimal && strings.Contains(w.number.String(), "/")
}

func plus(mm float64) func(unit.Quantity) (unit.Quantity, bool) {
	return func(q unit.Quantity) (unit.Quantity, bool) { return number(q.Inside()+mm, q.Dimension()) }
}

func times(factor float64) func(unit.Quantity) (unit.Quantity, bool) {
	return func(q unit.Quantity) (unit.Quantity, bool) { return number(q.Inside()*factor, q.Dimension()) }
}

// number returns a value as a quantity, to a billionth.
func number(x float64, d unit.Dimension) (unit.Quantity, bool) {
	const billion = 1e9
	if !(math.Abs(x) < billion) {
		return unit.Quantity{}, false
	}
	inside := map[unit.Dimension]unit.Unit{unit.Length: unit.Millimetre, unit.Angle: unit.Radian, unit.Number: unit.One}
	q, err := unit.New(int64(math.Round(x*billion)), billion, inside[d])
	return q, err == nil
}

// quantity returns a value that is known to fit.
func quantity(x float64, d unit.Dimension) unit.Quantity {
	q, ok := number(x, d)
	if !ok {
		panic("blunder: a value of our own is no quantity")
	}
	return q
}

// swappedDigits lists the numbers that two neighbouring digits written the
// wrong way round would come from. A nought may have come to stand before all.
func (w written) swappedDigits() []misreading {
	n := len(digits(w.text(w.number)))
	var list []misreading
	for i := range n {
		list = append(list, misreading{DigitsSwapped, "two digits swapped", 1 / float64(n), func(q unit.Quantity) (unit.Quantity, bool) {
			text, ok := swapped("0"+w.text(q), i)
			if !ok {
				return q, false
			}
			return w.read(text)
		}})
	}
	return list
}

// digits returns where the digits of a text stand.
func digits(text string) []int {
	var list []int
	for i := range len(text) {
		if '0' <= text[i] && text[i] <= '9' {
			list = append(list, i)
		}
	}
	return list
}

// swapped exchanges the i-th digit of a text and the next, false where they
// are alike or not there.
func swapped(text string, i int) (string, bool) {
	at := digits(text)
	if i+1 >= len(at) || text[at[i]] == text[at[i+1]] {
		return "", false
	}
	b := []byte(text)
	b[at[i]], b[at[i+1]] = b[at[i+1]], b[at[i]]
	return string(b), true
}

// text returns a number as it was probably written: a decimal with as many
// places as the scale has, an inch fraction, degrees and minutes.
func (w written) text(q unit.Quantity) string {
	if w.isFraction() && strings.Contains(q.String(), "/") {
		return q.String()
	}
	value, suffix := q.Inside(), ""
	switch q.Unit() {
	case unit.Inch:
		value, suffix = value/inch, " in"
	case unit.Millimetre:
		suffix = " mm"
	case unit.Degree:
		value, suffix = value*180/math.Pi, " deg"
	case unit.One:
	default:
		return ""
	}
	for places := w.places(q); places <= mostPlaces; places++ {
		text := strconv.FormatFloat(value, 'f', places, 64) + suffix
		if again, ok := w.read(text); ok && again.Equal(q) {
			return text
		}
	}
	return minutes(q)
}

const mostPlaces = 6

// places returns how many decimal places the scale shows, or as many as such
// numbers are mostly written with.
func (w written) places(q unit.Quantity) int {
	if w.resolution.Given() && w.resolution.Unit() == q.Unit() {
		_, decimals, _ := strings.Cut(w.resolution.String(), ".")
		return len(digits(decimals))
	}
	return map[unit.Unit]int{unit.Millimetre: 2, unit.Inch: 3}[q.Unit()]
}

// minutes returns an angle as degrees and whole minutes, nothing where it is
// none.
func minutes(q unit.Quantity) string {
	all := q.Inside() * 180 / math.Pi * 60
	if q.Unit() != unit.Degree || math.Abs(all-math.Round(all)) > 1e-6 || all < 0 {
		return ""
	}
	n := int(math.Round(all))
	return fmt.Sprintf("%dd %02dm", n/60, n%60)
}

// read reads what text writes.
func (w written) read(text string) (unit.Quantity, bool) {
	var q unit.Quantity
	var err error
	switch w.number.Dimension() {
	case unit.Length:
		q, err = unit.ParseLength(text, unit.Millimetre)
	case unit.Angle:
		q, err = unit.ParseAngle(text)
	default:
		q, err = unit.ParseNumber(text)
	}
	return q, err == nil
}
