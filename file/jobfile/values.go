package jobfile

import (
	"slices"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// values reads single values of the file.
type values struct {
	*register
	asked     func(entry *keys.Entry, key string) // told of each key that is read, where it is there
	metals    map[string]bool                     // materials that the tables have
	names     []string                            // what a formula of the job may have meant
	partNames []string                            // and one of the part
}

// value reads what the description says enough of: nil for a mapping, a list, or a
// quantity whose dimension another key gives it, which are read by who knows more.
func (r *values) value(h keys.Holds, n yamltree.Node, about string) any {
	switch h.Kind {
	case keys.Text, keys.FormatVersion, keys.Formula, keys.ID, keys.Reference:
		return r.text(n, about)
	case keys.Word:
		return r.word(n, about, h.Of, h.Among)
	case keys.YesNo:
		word := r.word(n, about, "", []string{"true", "false", yes, no})
		return word == yes || word == "true"
	case keys.Whole:
		return r.whole(n, about, h.Least, h.Most)
	case keys.Date:
		return r.day(n, about)
	case keys.Chance:
		return r.chance(n, about)
	case keys.Ratio:
		return r.ratio(n, about)
	case keys.Thread:
		return r.designation(n, about)
	case keys.Material:
		return r.material(n, about)
	case keys.Fit:
		return r.namedFit(n, about)
	case keys.ToleranceClass:
		return r.text(n, about)
	case keys.LengthRange, keys.NumberRange, keys.FrictionRange:
		return r.span(h, n, about)
	}
	return r.placed(h, n, about)
}

// placed reads quantities, and those of a shape.
func (r *values) placed(h keys.Holds, n yamltree.Node, about string) any {
	limit := limitOf[h.Sign]
	switch h.Kind {
	case keys.Measure:
		return r.measureOf(n, about, unit.Length, r.length, limit)
	case keys.AngleMeasure:
		return r.measureOf(n, about, unit.Angle, unit.ParseAngle, limit)
	case keys.IncludedMeasure:
		return r.measureOf(n, about, unit.Angle, includedAngle, limit)
	case keys.Place:
		return r.placeOf(n, about)
	case keys.Pair:
		return r.pair(n, about, r.length, r.length)
	}
	if !h.IsQuantity() {
		return nil
	}
	q := r.quantity(n, about, r.readerOf(h.Kind), limit)
	if h.Top > 0 && q.Given() && q.Inside() > h.Top {
		r.fault(n, "%s is %s; %s", about, yamltree.Quote(n.Text), h.Why)
		return nil
	}
	if h.Kind == keys.Temperature {
		return r.believed(q, n, about)
	}
	return q
}

// readerOf returns what reads quantities of a kind.
func (r *values) readerOf(k keys.Kind) quantityReader {
	switch k {
	case keys.Length:
		return r.length
	case keys.Angle:
		return unit.ParseAngle
	case keys.IncludedAngle:
		return includedAngle
	case keys.PlainAngle, keys.Direction:
		return parseDirection
	case keys.Pitch:
		return r.pitch
	case keys.Force:
		return unit.ParseForce
	case keys.Torque:
		return unit.ParseTorque
	case keys.Temperature:
		return parseTemperature
	}
	return unit.ParseNumber
}

// span reads a range. Its lower end must keep the limit.
func (r *values) span(h keys.Holds, n yamltree.Node, about string) any {
	read := r.lengths
	if h.Kind != keys.LengthRange {
		read = unit.ParseNumberRange
	}
	var span unit.Range
	low := r.quantity(n, about, func(text string) (unit.Quantity, error) {
		var err error
		span, err = read(text)
		return span.Low, err
	}, limitOf[h.Sign])
	switch {
	case !low.Given():
		return nil
	case h.Top > 0 && span.High.Inside() > h.Top:
		r.fault(n, "%s is %s; %s", about, yamltree.Quote(n.Text), h.Why)
	}
	return span
}

// word reads one of some words of a sort, which is named by its key where it has no
// name of its own.
func (r *values) word(n yamltree.Node, about, sort string, among []string) string {
	text := r.text(n, about)
	if text == "" || slices.Contains(among, text) {
		return text
	}
	key, of, _ := strings.Cut(about, " in ")
	if sort == "" {
		sort = key
	}
	r.unknown(n, of, sort, among)
	return ""
}

// placeOf reads the two lengths [x, y] of a shape.
func (r *values) placeOf(n yamltree.Node, about string) [2]trade.Measure {
	if !n.IsPair() {
		r.fault(n, "%s: found %s where a pair [x, y] should be", about, n.Found())
		return [2]trade.Measure{}
	}
	return [2]trade.Measure{
		r.measureOf(n.Items[0], about, unit.Length, r.length, anySign),
		r.measureOf(n.Items[1], about, unit.Length, r.length, anySign),
	}
}

// day reads a date of the calendar.
func (r *values) day(n yamltree.Node, about string) any {
	text := r.text(n, about)
	if text == "" {
		return nil
	}
	day, err := time.Parse(time.DateOnly, text)
	switch {
	case err != nil:
		r.fault(n, "%s is %s; a date is written year-month-day: 2024-03-31", about, yamltree.Quote(text))
	case day.Year() < keys.FirstSurveyed || day.Year() > keys.LastSurveyed:
		r.fault(n, "%s is %s; a year from %d to %d is wanted", about, yamltree.Quote(text), keys.FirstSurveyed, keys.LastSurveyed)
	}
	return day
}

// The chances that can be promised.
const (
	leastChance = 0.5
	mostChance  = 0.9999
)

// chance reads a plain number or a percentage.
func (r *values) chance(n yamltree.Node, about string) any {
	value := r.quantity(n, about, parseChance, positive)
	if !value.Given() {
		return nil
	}
	chance := value.Inside()
	if strings.HasSuffix(n.Text, "%") {
		chance /= 100
	}
	if chance < leastChance || chance > mostChance {
		r.fault(n, "%s is %s; a chance is from %g to %g, or from 50 %% to 99.99 %%", about, yamltree.Quote(n.Text), leastChance, mostChance)
		return nil
	}
	return chance
}

// The temperatures that are believed of a piece or an instrument, °C.
const (
	coldest = -40
	hottest = 400
)

// believed returns a temperature in °C, nil where it is none that can be.
func (r *values) believed(q unit.Quantity, n yamltree.Node, about string) any {
	if q.Given() && (q.Inside() < coldest || q.Inside() > hottest) {
		r.fault(n, "%s is %s; a temperature is from %d to %d °C", about, yamltree.Quote(n.Text), coldest, hottest)
		return nil
	}
	return q
}

// ratio reads a ratio of whole numbers.
func (r *values) ratio(n yamltree.Node, about string) any {
	q := r.quantity(n, about, parseRatio, positive)
	if !q.Given() {
		return nil
	}
	exact := q.Exact()
	if !exact.Num().IsInt64() || !exact.Denom().IsInt64() || max(exact.Num().Int64(), exact.Denom().Int64()) > keys.MostRatio {
		r.fault(n, "%s is %s; a ratio is of whole numbers up to %d", about, yamltree.Quote(n.Text), keys.MostRatio)
		return nil
	}
	return trade.Ratio{Num: int(exact.Num().Int64()), Den: int(exact.Denom().Int64())}
}
