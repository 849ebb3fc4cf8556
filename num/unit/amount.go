package unit

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
)

// View is how somebody wants amounts shown. In is the unit of lengths,
// Millimetre or Inch; the zero View shows millimetres. Second says that an
// amount is written beside its first writing: lengths in the other unit, angles
// in degrees and minutes.
type View struct {
	In     Unit
	Second bool
}

// Unit returns the unit in which lengths are shown.
func (v View) Unit() Unit {
	if v.In == Inch {
		return Inch
	}
	return Millimetre
}

// Beside returns the view of what is written beside the first.
func (v View) Beside() View {
	if v.In == Inch {
		return View{In: Millimetre, Second: true}
	}
	return View{In: Inch, Second: true}
}

// Amount is something that is written one way in millimetres and another in
// inches: which, is for whoever shows it to say, and not for whoever found it.
type Amount interface {
	Shown(v View) string
}

// Told is a value in mm, radians or as a plain number, shown to a thousandth of a
// millimetre, a tenth of a thou or a thousandth of a degree. Bare leaves out the
// name of a length's unit.
type Told struct {
	Value     float64
	Dimension Dimension
	Bare      bool
}

// Shown writes the amount: 12.700 mm, 0.5000 in, 5.007°.
func (a Told) Shown(v View) string {
	switch a.Dimension {
	case Angle:
		return ShowAngle(a.Value)
	case Number:
		text, _ := WithUncertainty(a.Value, 0)
		return text
	}
	text := ShowLength(a.Value, v.Unit())
	if a.Bare {
		return strings.TrimSuffix(text, " "+v.Unit().String())
	}
	return text
}

// MarshalJSON writes the amount in mm or degrees, never rounded.
func (a Told) MarshalJSON() ([]byte, error) { return amountJSON(a.Value, math.NaN(), a.Dimension) }

// LengthOf is a length in mm, to be shown.
func LengthOf(mm float64) Told { return Told{Value: mm, Dimension: Length} }

// AngleOf is an angle in radians, to be shown.
func AngleOf(rad float64) Told { return Told{Value: rad, Dimension: Angle} }

// Between is two limits of one dimension, in mm, radians or as plain numbers.
// Bare leaves out the name of a length's unit.
type Between struct {
	Low, High float64
	Dimension Dimension
	Bare      bool
}

// Shown writes the limits with the unit behind the second only.
func (a Between) Shown(v View) string {
	return Told{a.Low, a.Dimension, true}.Shown(v) + " to " + Told{a.High, a.Dimension, a.Bare}.Shown(v)
}

// MarshalJSON writes the limits in mm or degrees, never rounded.
func (a Between) MarshalJSON() ([]byte, error) {
	scale, name := natural(a.Dimension)
	return json.Marshal(struct {
		Low  *float64 `json:"low"`
		High *float64 `json:"high"`
		Unit string   `json:"unit"`
	}{finite(a.Low * scale), finite(a.High * scale), name})
}

// Measured is a value with its uncertainty, half the 95 % interval, in mm,
// radians or as a plain number. A length has no unit behind it: the head of its
// column names it.
type Measured struct {
	Value, U  float64
	Dimension Dimension
}

// Shown writes the value to two significant digits of the uncertainty: 12.705 ±
// 0.011, 5.007° ± 0.016°; beside that degrees and minutes, 5° 0.4' ± 1.0'. What
// has no uncertainty is written without.
func (a Measured) Shown(v View) string {
	switch {
	case a.Dimension == Angle && v.Second:
		return inMinutes(a.Value, a.U)
	case a.Dimension == Angle:
		return inDegrees(a.Value, a.U)
	case a.Dimension == Number && v.Second:
		return ""
	case a.Dimension == Length && v.Unit() == Inch && a.U == 0:
		return strings.TrimSuffix(ThouText(a.Value), " in")
	case a.Dimension == Length && v.Unit() == Inch:
		return strings.TrimSuffix(InchWithUncertainty(a.Value, a.U), " in")
	}
	value, U := WithUncertainty(a.Value, a.U)
	if a.U == 0 && a.Dimension == Length {
		return value
	}
	return value + plusMinus + U
}

// plusMinus stands between a value and its uncertainty.
const plusMinus = " ± "

// Parts writes value and uncertainty apart; what has none has none.
func (a Measured) Parts(v View) (value, within string) {
	value, within, _ = strings.Cut(a.Shown(v), plusMinus)
	return value, within
}

// MarshalJSON writes value and uncertainty in mm or degrees, never rounded.
func (a Measured) MarshalJSON() ([]byte, error) { return amountJSON(a.Value, a.U, a.Dimension) }

func inDegrees(value, U float64) string {
	v, u := WithUncertainty(value*180/math.Pi, U*180/math.Pi)
	if U == 0 {
		return v + "°"
	}
	return v + "°" + plusMinus + u + "°"
}

// inMinutes writes an angle as degrees and minutes, 5° 0.4' ± 1.0'.
func inMinutes(value, U float64) string {
	all := math.Abs(value) * 180 / math.Pi * 60
	whole := math.Floor(all / 60)
	v, u := WithUncertainty(all-60*whole, U*180/math.Pi*60)
	sign := ""
	if value < 0 {
		sign = "-"
	}
	if U == 0 {
		return fmt.Sprintf("%s%.0f° %s'", sign, whole, v)
	}
	return fmt.Sprintf("%s%.0f° %s' ± %s'", sign, whole, v, u)
}

// Resolved is a value shown to two significant digits of an uncertainty that is not
// written, half the 95 % interval, in mm, radians or as a plain number.
type Resolved struct {
	Value, U  float64
	Dimension Dimension
}

// Shown writes the value with its unit: 12.705 mm, 0.50020 in, 5.007°.
func (a Resolved) Shown(v View) string {
	scale, name := shownIn(a.Dimension, v)
	text, _ := WithUncertainty(a.Value*scale, a.U*scale)
	return text + name
}

// MarshalJSON writes the value in mm or degrees, never rounded.
func (a Resolved) MarshalJSON() ([]byte, error) {
	return amountJSON(a.Value, math.NaN(), a.Dimension)
}

// HalfWidth is an uncertainty by itself, shown to two significant digits.
type HalfWidth struct {
	U         float64
	Dimension Dimension
}

// Shown writes it with its unit: 0.011 mm, 0.00043 in, 0.016°.
func (a HalfWidth) Shown(v View) string {
	scale, name := shownIn(a.Dimension, v)
	_, text := WithUncertainty(a.U*scale, a.U*scale)
	return text + name
}

// MarshalJSON writes the uncertainty in mm or degrees, never rounded.
func (a HalfWidth) MarshalJSON() ([]byte, error) { return amountJSON(math.NaN(), a.U, a.Dimension) }

// Rounded is a length in mm shown with so many decimals of a millimetre, or one
// more of an inch. Bare leaves out the name of the unit.
type Rounded struct {
	MM       float64
	Decimals int
	Bare     bool
}

// Shown writes the length.
func (a Rounded) Shown(v View) string {
	length, decimals := a.MM, a.Decimals
	if v.Unit() == Inch {
		length, decimals = length/MillimetresPerInch, decimals+1
	}
	text := fixed(length, decimals)
	if a.Bare {
		return text
	}
	return text + " " + v.Unit().String()
}

// MarshalJSON writes the length in mm, never rounded.
func (a Rounded) MarshalJSON() ([]byte, error) { return amountJSON(a.MM, math.NaN(), Length) }

// Twice is a length in mm that is written in both units, that of the view first.
type Twice float64

// Shown writes the length: 12.700 mm  0.5000 in.
func (a Twice) Shown(v View) string {
	first := LengthOf(float64(a))
	return first.Shown(v) + "  " + first.Shown(v.Beside())
}

// MarshalJSON writes the length in mm, never rounded.
func (a Twice) MarshalJSON() ([]byte, error) { return amountJSON(float64(a), math.NaN(), Length) }

// Name is the name of the unit in which lengths are shown.
type Name struct{}

// Shown writes the name: mm or in.
func (Name) Shown(v View) string { return v.Unit().String() }

// natural returns what a value in mm or radians is multiplied by in JSON, and the
// name of the unit it then has.
func natural(d Dimension) (scale float64, name string) {
	switch d {
	case Length:
		return 1, "mm"
	case Angle:
		return 180 / math.Pi, "deg"
	}
	return 1, ""
}

// shownIn returns what a value in mm or radians is multiplied by when it is shown,
// and what is written behind it.
func shownIn(d Dimension, v View) (scale float64, name string) {
	switch {
	case d == Angle:
		return 180 / math.Pi, "°"
	case d == Length && v.Unit() == Inch:
		return 1 / MillimetresPerInch, " in"
	case d == Length:
		return 1, " mm"
	}
	return 1, ""
}

func amountJSON(value, U float64, d Dimension) ([]byte, error) {
	scale, name := natural(d)
	return json.Marshal(struct {
		Value *float64 `json:"value,omitempty"`
		U     *float64 `json:"half_width,omitempty"`
		Unit  string   `json:"unit"`
	}{finite(value * scale), finite(U * scale), name})
}

// finite returns a number that JSON can write, nil for one that it cannot.
func finite(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}

// Fine is a value shown to one place more than Told, so that somebody can follow
// what is reckoned with it. Bare leaves out the name of a length's unit, Signed
// puts a plus before what is not negative.
type Fine struct {
	Value        float64
	Dimension    Dimension
	Bare, Signed bool
}

// Shown writes the amount: 12.7000 mm, 0.50000 in, 5.0066°.
func (a Fine) Shown(v View) string {
	text := ""
	switch {
	case a.Dimension == Angle:
		text = fixed(a.Value*180/math.Pi, 4) + "°"
	case a.Dimension == Number:
		text, _ = WithUncertainty(a.Value, 0)
	case v.Unit() == Inch:
		text = fixed(a.Value/MillimetresPerInch, 5)
	default:
		text = fixed(a.Value, 4)
	}
	if a.Dimension == Length && !a.Bare {
		text += " " + v.Unit().String()
	}
	if a.Signed && !strings.HasPrefix(text, "-") {
		return "+" + text
	}
	return text
}

// MarshalJSON writes the amount in mm or degrees, never rounded.
func (a Fine) MarshalJSON() ([]byte, error) { return amountJSON(a.Value, math.NaN(), a.Dimension) }

// Written is an amount that is written by a function of its own.
type Written func(v View) string

// Shown writes the amount.
func (w Written) Shown(v View) string { return w(v) }
