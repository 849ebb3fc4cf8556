package survey

import "codeberg.org/oddleg/oddleg/num/geom"

// Plot is what was found over places, to be drawn. What both axes show is in mm.
type Plot struct {
	X, Y   string // what the axes show; both empty: nothing to draw
	Series []Series
	Limits []Limit // one that must not be passed, or two between which it is right; none without a tolerance
}

// Series is one row of points of a plot, each with its standard uncertainty.
type Series struct {
	Name   string
	Points []geom.Point
	U      []float64
	Line   bool // a straight line that was worked out, by its ends
}

// Limit is a straight line that bounds what is right.
type Limit struct{ From, To geom.Point }

func (s *Series) add(x float64, f Found) {
	s.Points = append(s.Points, geom.Point{X: x, Y: f.Value})
	s.U = append(s.U, f.U)
}

// straight adds a line that was worked out, by what it is at both ends.
func (p *Plot) straight(name string, low, high float64, atLow, atHigh Found) {
	line := Series{Name: name, Line: true}
	line.add(low, atLow)
	line.add(high, atHigh)
	p.Series = append(p.Series, line)
}

// limit adds a line that bounds what is right.
func (p *Plot) limit(low, high, atLow, atHigh float64) {
	p.Limits = append(p.Limits, Limit{geom.Point{X: low, Y: atLow}, geom.Point{X: high, Y: atHigh}})
}

// fan adds two limits that spread from one place to what is allowed at another.
func (p *Plot) fan(low, high, from, allowed float64) {
	p.limit(low, high, from, from-allowed)
	p.limit(low, high, from, from+allowed)
}

// off is a series of how far something is off at one place, being right at another.
func off(name string, right, wrong float64, f Found) Series {
	s := Series{Name: name}
	s.add(right, Found{})
	s.add(wrong, f)
	return s
}
