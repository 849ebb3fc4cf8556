package part

import (
	"math"
)

// Mass returns the mass in kg, 0 where the density is not known.
func (m *Model) Mass() float64 {
	const cubicMetre = 1e9
	return m.Density * m.Volume() / cubicMetre
}

// Volume returns the volume in mm³. Threads count as cylinders of their major
// diameter outside and of the minor one inside.
func (m *Model) Volume() float64 {
	if m.Turned != nil {
		return m.Turned.Volume()
	}
	return m.Prism.Volume()
}

// Volume returns the volume in mm³, by closed formulas but for cross holes, and
// for flats across a fillet: those are integrated to about ten digits where a
// cross hole keeps to a cylinder and clear of edges, else to about four. Flats
// and cross holes must not run into each other.
func (t *Turned) Volume() float64 {
	sum := 0.0
	for _, s := range t.Segments {
		sum += s.volume()
	}
	for _, s := range t.Bores {
		sum -= s.volume()
	}
	for _, f := range t.Flats {
		for _, s := range t.Segments {
			sum -= f.cut(s)
		}
	}
	for _, h := range t.Cross {
		sum -= t.drilled(h)
	}
	return sum
}

// volume returns the volume inside a segment: of a frustum, of a hexagon or
// square √3/2·s² and s² times the length, and about the axis of an arc
// π∫(m - k√(ρ² - u²))² du.
func (s Segment) volume() float64 {
	square := (s.X1 - s.X0) * (s.D0*s.D0 + s.D0*s.D1 + s.D1*s.D1) / 3 // ∫ D² dx
	switch s.Form {
	case Hexagonal:
		return math.Sqrt(3) / 2 * square
	case Squared:
		return square
	case Rounded:
		m, k := s.Arc.Centre.Y, float64(s.Arc.Turn)
		antiderivative := func(x float64) float64 {
			u, rho := x-s.Arc.Centre.X, s.Arc.Radius
			half := (u*math.Sqrt(max(0, rho*rho-u*u)) + rho*rho*math.Asin(max(-1, min(1, u/rho)))) / 2 // ∫√(ρ² - u²) du
			return (m*m+rho*rho)*u - u*u*u/3 - 2*m*k*half
		}
		return math.Pi * (antiderivative(s.X1) - antiderivative(s.X0))
	}
	return math.Pi / 4 * square
}

// cut returns what a flat takes off a segment.
func (f Flat) cut(s Segment) float64 {
	from, to := max(f.X0, s.X0), min(f.X1, s.X1)
	if to <= from {
		return 0
	}
	switch {
	case s.Form == Hexagonal || s.Form == Squared:
		return (to - from) * polygonCap(s, f.Height)
	case s.Form == Plain:
		return f.cutCone(s.Diameter(from)/2, s.Diameter(to)/2, to-from)
	}
	return integral(from, to, func(x float64) float64 { return circleCap(s.Diameter(x)/2, f.Height) })
}

// circleCap returns the area of a circle beyond a chord at height h.
func circleCap(r, h float64) float64 {
	if h >= r {
		return 0
	}
	return r*r*math.Acos(h/r) - h*math.Sqrt(r*r-h*h)
}

// polygonCap returns the area of a hexagon or square, flats at top and bottom,
// beyond a chord at height h.
func polygonCap(s Segment, h float64) float64 {
	r := s.D0 / 2
	if h >= r {
		return 0
	}
	if s.Form == Squared {
		return (r - h) * 2 * r
	}
	top, chord := 2*r/math.Sqrt(3), 2*(2*r-max(h, 0))/math.Sqrt(3)
	return (r - h) * (top + chord) / 2
}

// cutCone returns what a flat at height h takes off a cone from radius r to s of
// this length: the integral of the cap over the radii, times length over s - r.
func (f Flat) cutCone(r, s, length float64) float64 {
	if math.Abs(s-r) < 1e-6*max(r, s) {
		return length * (circleCap(r, f.Height) + 4*circleCap((r+s)/2, f.Height) + circleCap(s, f.Height)) / 6
	}
	return length * (f.capSum(s) - f.capSum(r)) / (s - r)
}

// capSum is ∫ (R² acos(h/R) - h√(R² - h²)) dR from h to r.
func (f Flat) capSum(r float64) float64 {
	h := f.Height
	if r <= h {
		return 0
	}
	root := math.Sqrt(r*r - h*h)
	log := h * h * h * math.Log((r+root)/h)
	return r*r*r/3*math.Acos(h/r) - (h*r*root+log)/6 - (h*r*root-log)/2
}

// integral is Simpson's rule over equal steps of t where x runs from one end to
// the other as (1 - cos t)/2, which takes the edge off square roots at the ends.
func integral(from, to float64, f func(float64) float64) float64 {
	const steps = 512
	sum := 0.0
	for i := range steps + 1 {
		weight := 4.0
		if i%2 == 0 {
			weight = 2
		}
		if i == 0 || i == steps {
			weight = 1
		}
		t := math.Pi * float64(i) / steps
		sum += weight * f(from+(to-from)*(1-math.Cos(t))/2) * math.Sin(t)
	}
	return sum * math.Pi / steps / 3 * (to - from) / 2
}

// drilled returns what a cross hole takes out.
func (t *Turned) drilled(h CrossHole) float64 {
	radius := h.Diameter / 2
	strip := func(z float64) float64 { // the metal over the hole's chord at z
		half := math.Sqrt(max(0, radius*radius-z*z))
		return 2 * half * integral(0, 1, func(u float64) float64 { return t.through(h, h.X+half*(2*u-1), z) })
	}
	if t.level(h) {
		strip = func(z float64) float64 {
			return 2 * math.Sqrt(max(0, radius*radius-z*z)) * t.through(h, h.X, z)
		}
	}
	edges := []float64{-radius, radius}
	if b := t.boreAt(h.X) / 2; b > 0 && b < radius {
		edges = []float64{-radius, -b, b, radius}
	}
	sum := 0.0
	for i := 1; i < len(edges); i++ {
		sum += integral(edges[i-1], edges[i], strip)
	}
	if !h.Through && !h.IntoBore {
		sum += math.Pi * radius * radius * PointLength(h.Diameter) / 3
	}
	return sum
}

// through returns how much metal a cross hole takes out at one place of it,
// without its drill point.
func (t *Turned) through(h CrossHole, x, z float64) float64 {
	near, bore := t.Surface(x, z, 0), math.Sqrt(max(0, sq(t.boreAt(x)/2)-z*z))
	switch {
	case h.Through:
		return near + t.Surface(x, z, math.Pi) - 2*bore
	case h.IntoBore:
		return near - bore
	}
	return near - t.Bottom(h)
}

// level reports whether all is parallel to the axis where a hole goes through.
func (t *Turned) level(h CrossHole) bool {
	for _, list := range [][]Segment{t.Segments, t.Bores} {
		for _, s := range list {
			inTheWay := s.X1 > h.X-h.Diameter/2+level && s.X0 < h.X+h.Diameter/2-level
			whole := s.X0 <= h.X-h.Diameter/2+level && s.X1 >= h.X+h.Diameter/2-level
			if inTheWay && !(whole && s.Form != Rounded && s.D0 == s.D1) {
				return false
			}
		}
	}
	return true
}

func sq(x float64) float64 { return x * x }

// Volume returns the volume in mm³, by closed formulas.
func (p *Prism) Volume() float64 {
	sum := p.Outline.Area() * p.top(p.Outline.Centroid().X)
	sum -= p.chamfered()
	for _, l := range p.Ledges {
		sum -= l.Outline.Area() * l.Depth
	}
	for _, s := range p.Slots {
		sum -= s.Outline().Area() * s.Depth
	}
	for _, h := range p.Holes {
		sum -= h.volume()
	}
	if p.Stem != nil {
		sum += p.Stem.Turned.Volume()
	}
	return sum
}

// chamfered returns what the chamfers of both edges take off: by Simpson's rule
// over the area inside, which is exact between straight edges and smooth arcs
// and misses only fourth powers where an arc ends in a sharp corner.
func (p *Prism) chamfered() float64 {
	half, fits := inset(p.Outline, p.Chamfer/2)
	if !fits {
		panic("part: half a chamfer leaves no face")
	}
	whole := p.Outline.Area()
	lost := 4*(whole-half.Area()) + whole - p.Face().Area()
	return 2 * p.Chamfer * lost / 6
}

// volume returns what a hole takes out. On a sloping face its depths are those
// at its middle, which is exact for a round hole.
func (h Hole) volume() float64 {
	r := h.Diameter / 2
	sum := math.Pi * r * r * h.Depth
	if !h.Through {
		sum += math.Pi * r * r * PointLength(h.Diameter) / 3
	}
	if h.CounterboreD > 0 {
		sum += math.Pi * (sq(h.CounterboreD/2) - r*r) * h.CounterboreH
	}
	if h.CountersinkD > 0 {
		R := h.CountersinkD / 2
		sum += math.Pi * (R - r) * ((R*R+R*r+r*r)/3 - r*r)
	}
	return sum
}
