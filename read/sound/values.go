package sound

import (
	"math"
	"slices"
	"strings"
	"time"
	"unicode"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
	"codeberg.org/oddleg/oddleg/tables/limits"
)

// value faults a value that cannot stand under its key.
func (m *mapping) value(k keys.Key, value any) {
	switch v := value.(type) {
	case string:
		m.text(k, v)
	case int:
		if v < k.Holds.Least || v > k.Holds.Most {
			m.wrong(k.Name, " is %d; it is a whole number from %d to %d", v, k.Holds.Least, k.Holds.Most)
		}
	case float64:
		m.number(k, v)
	case several:
		m.extent(k, int(v))
	case time.Time:
		m.year(k.Name, v)
	case unit.Quantity:
		m.quantity(k, v)
	case [2]unit.Quantity:
		m.pair(k, v)
	case unit.Range:
		m.span(k, v)
	case trade.Ratio:
		m.ratio(k.Name, v)
	case trade.Bound:
		m.bound(k, v)
	case trade.Measure:
		m.measure(k, v)
	case place:
		m.measure(k, v.x)
		m.measure(k, v.y)
		if !v.x.Given() || !v.y.Given() {
			m.wrong(k.Name, ": it is a pair [x, y], and one of them is missing")
		}
	}
}

// text checks a text by what it is: a word, a row of a table, an id, or free.
func (m *mapping) text(k keys.Key, text string) {
	holds := chosen(k.Holds, func(h keys.Holds) bool { return !h.IsQuantity() && h.Kind != keys.OfKind })
	var err error
	switch holds.Kind {
	case keys.Word:
		if !slices.Contains(holds.Among, text) {
			m.unknown(text, m.what, k.Name, m.pos, holds.Among)
		}
	case keys.Material:
		err = material(text)
	case keys.Fit:
		_, err = limits.ParseFit(text)
	case keys.ToleranceClass:
		_, err = limits.ParseCode(text)
	case keys.Thread:
		if _, known := facts.FindThread(text); !known {
			m.unknown(text, m.what, "thread", m.pos, nil)
		}
	case keys.Reference:
		m.reference(k.Name, holds.Of, text)
	default:
		if strings.ContainsFunc(text, func(r rune) bool { return r != '\n' && unicode.IsControl(r) }) {
			m.wrong(k.Name, ": %s has a control character", quote(text))
		}
	}
	if err != nil {
		m.wrong(k.Name, ": %s", err)
	}
}

// chosen returns which of several things that may stand under a key a value is.
func chosen(holds keys.Holds, fits func(keys.Holds) bool) keys.Holds {
	if i := slices.IndexFunc(holds.Others, fits); i >= 0 {
		return holds.Others[i]
	}
	return holds
}

// longestMaterial is the most characters a material may have.
const longestMaterial = 80

func material(text string) error {
	if len(text) > longestMaterial {
		return trade.Fault{Text: "a material of the tables has a shorter name"}
	}
	_, err := facts.FindMaterial(text)
	return err
}

// reference checks the id of what kit, sizes, plans and places hold. What has its
// id among its like is for the section that knows them.
func (m *mapping) reference(key, of, id string) {
	things := map[string][]thing{
		"an instrument": {anInstrument}, "a size": {aSize}, "a piece": {aPiece}, "a plan": {aPlan}, "a hole": {aHole},
		"a place": {aPlace},
	}[of]
	switch {
	case things != nil:
		m.owner(id, m.about(key), m.pos, things...)
	case of == "a thread of the part":
		m.threadMade(id, m.about(key), m.pos)
	}
}

// The chances that can be promised.
const (
	leastChance = 0.5
	mostChance  = 0.9999
)

// number checks a plain number that is kept as such.
func (m *mapping) number(k keys.Key, v float64) {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		m.wrong(k.Name, " is no number")
	case k.Holds.Kind == keys.Chance && (v < leastChance || v > mostChance):
		m.wrong(k.Name, " is %g; a chance is from %g to %g", v, leastChance, mostChance)
	case k.Holds.Sign == keys.Positive && v <= 0:
		m.wrong(k.Name, " is %g; it must be more than 0", v)
	case k.Holds.Top > 0 && v > k.Holds.Top:
		m.wrong(k.Name, " is %g; %s", v, k.Holds.Why)
	}
}

// extent checks how many entries a list has.
func (m *mapping) extent(k keys.Key, count int) {
	switch h := k.Holds; {
	case h.Kind != keys.List && h.Kind != keys.Map:
	case h.Most > 0 && count > h.Most:
		m.wrong(k.Name, ": there are %d of them; at most %d are taken", count, h.Most)
	case count < h.Least:
		m.wrong(k.Name, ": %d of them; %d at least are wanted", count, h.Least)
	}
}

// The years in which a survey can have been made.
func (m *mapping) year(key string, day time.Time) {
	if day.Year() < keys.FirstSurveyed || day.Year() > keys.LastSurveyed {
		m.wrong(key, " is %s; a year from %d to %d is wanted", day.Format(time.DateOnly), keys.FirstSurveyed,
			keys.LastSurveyed)
	}
}

// quantity checks what a value measures, its sign and how large it is.
func (m *mapping) quantity(k keys.Key, q unit.Quantity) {
	h := chosen(k.Holds, func(h keys.Holds) bool { return h.IsQuantity() || h.Kind == keys.OfKind })
	switch {
	case !m.measures(m.about(k.Name), m.pos, q, m.dimension(h.Kind)):
	case q.IsTaper() && (h.Kind == keys.PlainAngle || h.Kind == keys.Direction || h.Kind == keys.IncludedAngle):
		m.wrong(k.Name, ": the taper %s stands for a half angle; write the angle in degrees", q)
	case h.Kind == keys.Temperature && (q.Inside() < coldest || q.Inside() > hottest):
		m.wrong(k.Name, " is %s; a temperature is from %d to %d °C", q, coldest, hottest)
	case h.Sign == keys.Positive && q.Sign() <= 0:
		m.wrong(k.Name, " is %s; it must be more than 0", q)
	case h.Sign == keys.NotNegative && q.Sign() < 0:
		m.wrong(k.Name, " is %s; it must not be negative", q)
	case h.Top > 0 && q.Inside() > h.Top:
		m.wrong(k.Name, " is %s; %s", q, h.Why)
	}
}

// The temperatures that are believed of a piece or an instrument, °C.
const (
	coldest = -40
	hottest = 400
)

var dimensionNames = map[unit.Dimension]string{
	unit.Length: "a length", unit.Angle: "an angle", unit.Number: "a plain number", unit.Force: "a force",
	unit.Torque: "a torque",
}

// measures reports whether a quantity is given, measures d and can be believed, with
// a fault if not.
func (c *check) measures(about string, pos trade.Pos, q unit.Quantity, d unit.Dimension) bool {
	switch {
	case !q.Given():
		c.fault(pos, "%s: a value is missing", about)
	case q.Dimension() != d:
		c.fault(pos, "%s is %s, %s where %s should be", about, q, dimensionNames[q.Dimension()], dimensionNames[d])
	case math.Abs(q.Inside()) > largest[d]:
		c.fault(pos, "%s is %s; nothing in a workshop is as large", about, q)
	case q.Sign() != 0 && math.Abs(q.Inside()) < smallest:
		c.fault(pos, "%s is %s; write 0, or what can be measured", about, q)
	default:
		return true
	}
	return false
}

// The largest figures that are believed, and the smallest that is not 0, each as the
// program works with it: millimetres, radians, newtons, newton millimetres. Beyond
// them squares leave what a floating-point number holds to full precision.
var largest = map[unit.Dimension]float64{
	unit.Length: 1e7, unit.Angle: 1e3, unit.Number: 1e9, unit.Force: 1e12,
	unit.Torque: 1e15,
}

const smallest = 1e-12

// dimension returns what a quantity of a kind measures.
func (m *mapping) dimension(k keys.Kind) unit.Dimension {
	switch k {
	case keys.OfKind:
		return m.kind
	case keys.Angle, keys.PlainAngle, keys.IncludedAngle, keys.Direction, keys.AngleMeasure, keys.IncludedMeasure:
		return unit.Angle
	case keys.Number, keys.Temperature, keys.NumberRange, keys.FrictionRange, keys.Friction:
		return unit.Number
	case keys.Force:
		return unit.Force
	case keys.Torque:
		return unit.Torque
	}
	return unit.Length
}

// pair checks two lengths, or two values of which the first is as the kind says.
func (m *mapping) pair(k keys.Key, pair [2]unit.Quantity) {
	kinds := [2]unit.Dimension{unit.Length, unit.Length}
	if k.Holds.Kind == keys.PairOfKind {
		kinds[0] = m.kind
	}
	for i, q := range pair {
		m.measures(m.about(k.Name), m.pos, q, kinds[i])
	}
}

// span checks a range from its lower end to its upper.
func (m *mapping) span(k keys.Key, span unit.Range) {
	low, high := span.Low, span.High
	switch d, about := m.dimension(k.Holds.Kind), m.about(k.Name); {
	case !m.measures(about, m.pos, low, d) || !m.measures(about, m.pos, high, d):
	case low.Inside() > high.Inside():
		m.wrong(k.Name, " is from %s to %s; the smaller end comes first", low, high)
	case k.Holds.Sign == keys.Positive && low.Sign() <= 0:
		m.wrong(k.Name, " begins at %s; it must be more than 0", low)
	case k.Holds.Sign == keys.NotNegative && low.Sign() < 0:
		m.wrong(k.Name, " begins at %s; it must not be negative", low)
	case k.Holds.Top > 0 && high.Inside() > k.Holds.Top:
		m.wrong(k.Name, " goes up to %s; %s", high, k.Holds.Why)
	}
}

func (m *mapping) ratio(key string, r trade.Ratio) {
	if r.Num < 1 || r.Den < 1 || r.Num > keys.MostRatio || r.Den > keys.MostRatio {
		m.wrong(key, " is %d/%d; a ratio is of whole numbers from 1 to %d", r.Num, r.Den, keys.MostRatio)
	}
}

// bound checks the id of a gauge piece or size, or a length above 0.
func (m *mapping) bound(k keys.Key, b trade.Bound) {
	switch {
	case b.ID != "" && b.Value.Given():
		m.wrong(k.Name, ": the id %s and the value %s exclude each other", quote(b.ID), b.Value)
	case b.ID == "":
		m.quantity(keys.Key{Name: k.Name, Holds: keys.Holds{Kind: keys.Length, Sign: keys.Positive}}, b.Value)
	case k.Holds.Of == "a piece":
		m.owner(b.ID, m.about(k.Name), m.pos, aPiece)
	default:
		o, ok := m.owner(b.ID, m.about(k.Name), m.pos, aSize)
		if d, sure := m.dimensionOf(o); ok && sure && d != unit.Length {
			m.wrong(k.Name, ": %s is %s where a length should be", quote(b.ID), dimensionNames[d])
		}
	}
}

// measure checks the id of a size of the part, or a value.
func (m *mapping) measure(k keys.Key, v trade.Measure) {
	d := m.dimension(k.Holds.Kind)
	switch {
	case !v.Given():
	case v.ID != "" && v.Value.Given():
		m.wrong(k.Name, ": the id %s and the value %s exclude each other", quote(v.ID), v.Value)
	case v.ID != "":
		m.sizeMade(v.ID, m.about(k.Name), v.Pos, d)
	default:
		plain := map[unit.Dimension]keys.Kind{unit.Length: keys.Length, unit.Angle: keys.Angle}[d]
		if k.Holds.Kind == keys.IncludedMeasure {
			plain = keys.IncludedAngle
		}
		m.quantity(keys.Key{Name: k.Name, Holds: keys.Holds{Kind: plain, Sign: k.Holds.Sign}}, v.Value)
	}
}
