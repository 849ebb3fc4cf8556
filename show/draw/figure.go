package draw

import (
	"math"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The heights of the capitals in dimensions, in mm: of figures, and of the two
// lines of deviations.
const (
	figureHeight    = 3.0
	deviationHeight = 2.0
	deviationPitch  = 2.7
	bracketHeight   = 3.8
	wordGap         = 1.0
)

// run is a piece of text in a figure, from its lower left.
type run struct {
	words  string
	height float64
	at     geom.Point
}

// figure is the text of a dimension laid out about a base line.
type figure struct {
	runs      []run
	width     float64
	low, high float64 // reach below and above the base line
	words     string  // in one line
}

// add sets words behind what is there.
func (f *figure) add(words string) {
	if words == "" {
		return
	}
	f.space()
	f.runs = append(f.runs, run{words, figureHeight, geom.Point{X: f.width}})
	f.width += ink.Width(words, figureHeight, false)
	f.high = math.Max(f.high, (1+ascent)*figureHeight)
	if strings.ContainsAny(words, "gjpqyQ()[],;/") {
		f.low = math.Min(f.low, -descent*figureHeight)
	}
	f.words += words
}

// addPair sets two small lines one over the other, behind the code of a fit in
// brackets.
func (f *figure) addPair(upper, lower string, bracketed bool) {
	f.space()
	below := (figureHeight - deviationPitch - deviationHeight) / 2
	inner := f.width
	bracket := func(sign string) {
		if bracketed {
			f.runs = append(f.runs, run{sign, bracketHeight, geom.Point{X: f.width, Y: below + descent*bracketHeight/2}})
			f.width += ink.Width(sign, bracketHeight, false)
			inner = f.width
			f.words += sign
		}
	}
	bracket("(")
	f.runs = append(f.runs,
		run{upper, deviationHeight, geom.Point{X: inner, Y: below + deviationPitch}},
		run{lower, deviationHeight, geom.Point{X: inner, Y: below}})
	f.width += math.Max(ink.Width(upper, deviationHeight, false), ink.Width(lower, deviationHeight, false))
	f.low = math.Min(f.low, below-descent*deviationHeight)
	f.high = math.Max(f.high, below+deviationPitch+(1+ascent)*deviationHeight)
	f.words += upper + "/" + lower
	bracket(")")
}

// space sets a gap between words.
func (f *figure) space() {
	if len(f.runs) > 0 {
		f.width += wordGap
		f.words += " "
	}
}

// marks returns the texts with the left end of the base line at a place.
func (f *figure) marks(at geom.Point, angle float64) []ink.Mark {
	list := make([]ink.Mark, len(f.runs))
	for i, r := range f.runs {
		list[i] = ink.Text{At: at.Add(r.at.Turned(angle)), Words: r.words, Height: r.height, Angle: angle, Layer: ink.Dimensions}
	}
	return list
}

// lettering is how numbers are written on a sheet.
type lettering struct {
	units unit.Unit
	dual  bool // millimetres, and inches in brackets
}

// figure returns what is written at a dimension.
func (l lettering) figure(d *part.Dimension) figure {
	var f figure
	if d.Count > 1 {
		f.add(strconv.Itoa(d.Count) + " ×")
	}
	switch {
	case d.Thread != nil:
		f.add(threadCall(d.Thread))
	case d.Kind == part.Leader && d.Measure == (part.Measure{}):
	default:
		l.size(&f, d)
	}
	f.add(strings.ReplaceAll(d.After, "#", l.second(d.Second)))
	return f
}

// second writes the length that is called out with another.
func (l lettering) second(m part.Measure) string {
	if m == (part.Measure{}) {
		return ""
	}
	words := l.scaleOf(trade.Depth).of(m).inline()
	if l.dual {
		words += " [" + inchScale.of(m).inline() + "]"
	}
	return words
}

// threadCall is the call-out of a thread.
func threadCall(t *part.Thread) string {
	words := t.Designation
	if t.Class != "" {
		words += " " + t.Class
	}
	if t.Left {
		words += " LH"
	}
	return words
}

// size writes the value, the code of its fit and its limits.
func (l lettering) size(f *figure, d *part.Dimension) {
	sign := map[part.DimensionKind]string{part.Diameter: "⌀", part.Radius: "R"}[d.Kind]
	kind := d.Measure.Kind
	if d.Kind == part.Angle {
		kind = trade.Angle
	}
	toleranced(f, sign, l.scaleOf(kind).of(d.Measure), d.Measure)
	if l.dual && kind.Dimension() == unit.Length {
		f.add("[" + inchScale.of(d.Measure).inline() + "]")
	}
}

// toleranced writes a stated size: deviations that are equal as ±, others as
// two small lines.
func toleranced(f *figure, sign string, s stated, m part.Measure) {
	f.add(sign + s.nominal)
	f.add(m.Code)
	switch {
	case s.equal != "":
		f.add("±" + s.equal)
	case s.upper != "":
		f.addPair(s.upper, s.lower, m.Code != "")
	}
}

// stated is a measure as it is written: equal deviations, or an upper and a
// lower one, or none.
type stated struct {
	nominal, equal, upper, lower string
}

// inline writes all in one line.
func (s stated) inline() string {
	switch {
	case s.equal != "":
		return s.nominal + " ±" + s.equal
	case s.upper != "":
		return s.nominal + " " + s.upper + "/" + s.lower
	}
	return s.nominal
}

// scale is how sizes are written in a unit.
type scale struct {
	inside float64 // one of the unit, in mm or rad
	fine   float64 // a range between limits below this is written to the most decimals
	most   int     // decimals
	suffix string
}

// Ranges below a tenth of a millimetre are worked to in microns: common
// practice, no source.
var (
	millimetreScale = scale{inside: 1, fine: 0.1, most: 3}
	inchScale       = scale{inside: unit.MillimetresPerInch, fine: 0.004, most: 4}
	degreeScale     = scale{inside: math.Pi / 180, fine: 0.2, most: 3, suffix: "°"}
)

// of states a measure. With limits its value and deviations have so many
// decimals that the limits are kept to the last of them; without, the fewest
// that keep what was written.
func (s scale) of(m part.Measure) stated {
	value := m.Value / s.inside
	if !m.Limited() {
		return stated{nominal: s.plain(value) + s.suffix}
	}
	decimals := s.most
	if (m.High-m.Low)/s.inside >= s.fine {
		decimals--
	}
	nominal := math.Round(value*math.Pow10(decimals)) / math.Pow10(decimals)
	out := stated{nominal: shortened(decimal(nominal, decimals), 0) + s.suffix}
	upper, lower := deviation(m.High/s.inside-nominal, decimals), deviation(m.Low/s.inside-nominal, decimals)
	if size, same := strings.CutPrefix(upper, "+"); same && lower == "−"+size {
		out.equal = shortened(size, 0) + s.suffix
		return out
	}
	out.upper, out.lower = upper+s.suffix, lower+s.suffix
	return out
}

// plain writes a value without limits: to the most decimals where they write it
// exactly, else one fewer, without zeros on the end.
func (s scale) plain(value float64) string {
	const exact = 1e-6
	decimals := s.most
	if rounded := value * math.Pow10(decimals); math.Abs(rounded-math.Round(rounded)) > exact {
		decimals--
	}
	return shortened(decimal(value, decimals), 0)
}

// shortened takes zeros off the end of a decimal, but leaves this many decimals.
func shortened(text string, least int) string {
	point := strings.IndexByte(text, '.')
	if point < 0 {
		return text
	}
	for len(text)-point-1 > least && strings.HasSuffix(text, "0") {
		text = text[:len(text)-1]
	}
	return strings.TrimSuffix(text, ".")
}

// deviation writes a deviation with its sign, zero without.
func deviation(x float64, decimals int) string {
	text := decimal(math.Abs(x), decimals)
	switch {
	case strings.Trim(text, "0.") == "":
		return "0"
	case x < 0:
		return "−" + text
	}
	return "+" + text
}

// decimal writes a number with this many decimals, with a true minus.
func decimal(x float64, decimals int) string {
	text := strconv.FormatFloat(x, 'f', max(0, decimals), 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return strings.Replace(text, "-", "−", 1)
}
