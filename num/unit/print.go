package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// unknown is shown in the place of a number that is none.
const unknown = "?"

// ShowLength returns a length in mm to a thousandth, 12.700 mm, or, where in
// is Inch, as ThouText does.
func ShowLength(mm float64, in Unit) string {
	if in == Inch {
		return ThouText(mm)
	}
	return fixed(mm, 3) + " mm"
}

// ThouText returns a length given in mm in inches to a tenth of a thou,
// 2.5007 in.
func ThouText(mm float64) string { return fixed(mm/MillimetresPerInch, 4) + " in" }

// ShowAngle returns an angle given in radians in degrees, 5.007°.
func ShowAngle(rad float64) string { return fixed(rad*180/math.Pi, 3) + "°" }

// fixed returns x with this many decimals, and no minus before a zero.
func fixed(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return unknown
	}
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// The most decimals shown: of a value without uncertainty, and of any.
const (
	exactDecimals = 6
	mostDecimals  = 15
)

// WithUncertainty returns a value and its uncertainty U to the decimals at
// which U has two significant digits: 63.518 and 0.014 for U = 0.0137. From
// U = 10 up both are whole numbers. Where U is 0 the value has its own decimals,
// at most 6. What is not finite is shown as a question mark.
func WithUncertainty(value, U float64) (v, u string) {
	decimals := decimalsFor(U)
	if decimals < 0 {
		return trimmed(fixed(value, exactDecimals)), trimmed(fixed(U, 0))
	}
	return fixed(value, decimals), fixed(U, decimals)
}

// decimalsFor returns how many decimals show two significant digits of U, -1
// where nothing does.
func decimalsFor(U float64) int {
	if !(U > 0) || math.IsInf(U, 0) {
		return -1
	}
	// U is rounded before its digits are counted: 0.0996 is 0.10.
	_, exponent, _ := strings.Cut(strconv.FormatFloat(U, 'e', 1, 64), "e")
	power, err := strconv.Atoi(exponent)
	if err != nil {
		panic("unit: a formatted number has no exponent")
	}
	if power < 1-mostDecimals {
		return -1
	}
	return max(0, 1-power)
}

// trimmed returns a decimal without the zeros on its end.
func trimmed(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// InchWithUncertainty returns a length and its uncertainty, both given in mm,
// in inches: 2.5007 ± 0.0006 in. The decimals are those of WithUncertainty, but
// nothing finer than a tenth of a thou is shown unless the uncertainty would
// vanish.
func InchWithUncertainty(mm, Umm float64) string {
	inches, uncertainty := mm/MillimetresPerInch, Umm/MillimetresPerInch
	v, u := WithUncertainty(inches, uncertainty)
	const tenthOfThou = 1e-4
	if decimalsFor(uncertainty) > 4 && uncertainty >= tenthOfThou/2 {
		v, u = fixed(inches, 4), fixed(uncertainty, 4)
	}
	return v + " ± " + u + " in"
}

// NearestFraction returns the fraction of an inch nearest to a length in mm
// whose denominator divides den, and how far the length is above it, in mm. It
// returns a quantity not given and NaN where the length is not finite or has
// no such fraction. A den below 1 panics.
func NearestFraction(mm float64, den int64) (fraction Quantity, above float64) {
	if den < 1 {
		panic("unit: the denominator of a fraction is below 1")
	}
	parts := math.Round(mm / MillimetresPerInch * float64(den))
	if !(math.Abs(parts) < math.MaxInt64) {
		return Quantity{}, math.NaN()
	}
	fraction, err := New(int64(parts), den, Inch)
	if err != nil {
		panic("unit: a whole number over another is no fraction")
	}
	return fraction, mm - fraction.Inside()
}

// FractionText returns the fraction of an inch nearest to a length in mm whose
// denominator divides den, and what the length has over it in thou:
// 2 1/2 in +0.7 thou. Where there is none it returns nothing. It says nothing
// of what was meant: half of all lengths lie within 4 thou of some 64th.
func FractionText(mm float64, den int64) string {
	fraction, above := NearestFraction(mm, den)
	if !fraction.Given() {
		return ""
	}
	return fmt.Sprintf("%v %s thou", fraction, signedThou(above))
}

// signedThou returns a difference in mm as thou with its sign.
func signedThou(mm float64) string {
	text := fixed(mm/MillimetresPerInch*1000, 1)
	if strings.HasPrefix(text, "-") {
		return text
	}
	return "+" + text
}
