package draw

import (
	"math"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Axis is what a graph counts in along one side.
type Axis struct {
	Name   string
	Unit   string  // behind the name
	Inside float64 // one of the unit, in the measure of the points
	Zero   bool    // it reaches to nothing, and shows it
	Ticks  []Tick  // what is written beside it; nil: round numbers of the unit
}

// Tick is a place on an axis and what is written there.
type Tick struct {
	At    float64
	Words string
}

// title is what the axis shows, and in what.
func (a *Axis) title() string {
	if a.Unit == "" {
		return a.Name
	}
	return a.Name + ", " + a.Unit
}

// ruler is an axis laid on the paper from one place to another.
type ruler struct {
	reach
	from, to float64
	ticks    []Tick
}

func (r ruler) on(value float64) float64 {
	return r.from + (value-r.low)/(r.high-r.low)*(r.to-r.from)
}

// widest is the width of the longest of its words.
func (r ruler) widest() float64 {
	most := 0.0
	for _, t := range r.ticks {
		most = max(most, ink.Width(t.Words, graphWords, false))
	}
	return most
}

// Round numbers stand so far apart at least, in mm, and there are so many at
// most.
const (
	tickApart = 7.0
	mostTicks = 10
)

// ruler lays an upright axis out, from one round number to another.
func (a *Axis) ruler(from, to float64, r reach) ruler {
	step := roundStep((r.high-r.low)/a.Inside, min(mostTicks, (to-from)/tickApart)) * a.Inside
	r = reach{math.Floor(r.low/step+rounding) * step, math.Ceil(r.high/step-rounding) * step}
	return ruler{r, from, to, a.round(r, step)}
}

// level lays a level axis out, its words clear of each other.
func (a *Axis) level(from, to float64, r reach) ruler {
	l := ruler{reach: r, from: from, to: to, ticks: a.Ticks}
	if a.Ticks != nil {
		for every := 1; every <= len(a.Ticks) && l.crowded(); every++ {
			l.ticks = everyOther(a.Ticks, every)
		}
		return l
	}
	for most := mostTicks; most > 0; most-- {
		l.ticks = a.round(r, roundStep((r.high-r.low)/a.Inside, float64(most))*a.Inside)
		if !l.crowded() {
			break
		}
	}
	return l
}

func everyOther(ticks []Tick, n int) []Tick {
	var list []Tick
	for i := 0; i < len(ticks); i += n {
		list = append(list, ticks[i])
	}
	return list
}

// crowded reports whether words come too near to each other.
func (r ruler) crowded() bool {
	const apart = 2.0
	for i := 1; i < len(r.ticks); i++ {
		a, b := r.ticks[i-1], r.ticks[i]
		room := r.on(b.At) - r.on(a.At)
		if room < (ink.Width(a.Words, graphWords, false)+ink.Width(b.Words, graphWords, false))/2+apart {
			return true
		}
	}
	return false
}

// rounding is how far a quotient may be from a whole number that it stands for.
const rounding = 1e-6

// roundStep returns the least of 1, 2 and 5 times powers of ten of which no more
// than so many go into a span.
func roundStep(span, most float64) float64 {
	least := span / most
	ten := math.Pow(10, math.Floor(math.Log10(least)))
	for _, k := range []float64{1, 2, 5} {
		if k*ten >= least*(1-rounding) {
			return k * ten
		}
	}
	return 10 * ten
}

// round returns the multiples of a step within a reach, written in the unit with
// the decimals that the step asks for.
func (a *Axis) round(r reach, step float64) []Tick {
	decimals := int(math.Ceil(-math.Log10(step/a.Inside) - rounding))
	var list []Tick
	for i := math.Ceil(r.low/step - rounding); i <= r.high/step+rounding; i++ {
		list = append(list, Tick{i * step, decimal(i*step/a.Inside, decimals)})
	}
	return list
}

// rightMargin is left free beside the frame: for half of the last number.
func (p *plotting) rightMargin() float64 {
	r := p.xReach()
	most := ruler{ticks: p.X.Ticks}.widest()
	if p.X.Ticks == nil {
		most = ruler{ticks: p.X.round(r, roundStep((r.high-r.low)/p.X.Inside, mostTicks)*p.X.Inside)}.widest()
	}
	return most/2 + graphGap
}

// frame draws the frame, and a line at nothing.
func (p *plotting) frame() {
	low, high := geom.Point{X: p.x.from, Y: p.y.from}, geom.Point{X: p.x.to, Y: p.y.to}
	for _, t := range p.x.ticks {
		p.sheet.Add(ghost(geom.Point{X: p.x.on(t.At), Y: low.Y}, geom.Point{X: p.x.on(t.At), Y: high.Y}))
	}
	for _, t := range p.y.ticks {
		p.sheet.Add(ghost(geom.Point{X: low.X, Y: p.y.on(t.At)}, geom.Point{X: high.X, Y: p.y.on(t.At)}))
	}
	if p.Y.Zero && p.y.low < 0 && p.y.high > 0 {
		p.sheet.Add(ink.Stroke{Path: geom.Polyline(geom.Point{X: low.X, Y: p.y.on(0)}, geom.Point{X: high.X, Y: p.y.on(0)}), Kind: ink.Rule, Layer: ink.Border})
	}
	p.sheet.Add(box(low, high, ink.Rule))
}

func ghost(a, b geom.Point) ink.Stroke {
	return ink.Stroke{Path: geom.Polyline(a, b), Kind: ink.Ghost, Layer: ink.Border}
}

// axes writes the numbers and what they are of.
func (p *plotting) axes() {
	words := func(at geom.Point, words string, align ink.Align, bold bool) {
		p.sheet.Add(ink.Text{At: at, Words: words, Height: graphWords, Align: align, Bold: bold, Layer: ink.Notes})
	}
	under := p.y.from - 1.5*graphGap - graphWords // clear of the lowest number beside it
	for _, t := range p.x.ticks {
		words(geom.Point{X: p.x.on(t.At), Y: under}, t.Words, ink.Centred, false)
	}
	for _, t := range p.y.ticks {
		words(geom.Point{X: p.x.from - graphGap, Y: p.y.on(t.At) - graphWords/2}, t.Words, ink.RightAligned, false)
	}
	words(geom.Point{X: (p.x.from + p.x.to) / 2, Y: under - graphPitch}, cutTo(p.X.title(), graphWords, p.Width/2, true), ink.Centred, true)
	words(geom.Point{Y: p.y.to + graphGap + 0.6}, cutTo(p.Y.title(), graphWords, p.Width, true), ink.LeftAligned, true)
}
