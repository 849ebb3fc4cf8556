package solid

import (
	"fmt"
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
)

// A turned part is a row of rings: along the outside to the right and back along
// the bores to the left. All rings have their points in the same directions,
// and one of no size stands for a point on the axis, so that the faces between
// each ring and the next, and between the last and the first, close the body.

// ring is a section across the axis: how far out its points are.
type ring struct {
	x    float64
	r    []float64
	hole *drilling // in the faces up to the next ring; nil for none
}

// turner meshes one turned part.
type turner struct {
	*Mesh
	part   *part.Turned
	angles []float64 // directions of the points, from y towards z
	holes  []*drilling
}

// least is how near, in mm, two places along the axis are one.
const least = 1e-9

func (m *Mesh) turned(p *part.Turned) trade.Faults {
	t := &turner{Mesh: m, part: p}
	faults := t.drillings()
	if len(faults) > 0 {
		return faults
	}
	t.angles = t.directions()
	var rings []ring
	for _, s := range p.Segments {
		rings = append(rings, t.rings(s, false)...)
	}
	axis := make([]float64, len(t.angles))
	if n := len(p.Bores); n == 0 || p.Bores[n-1].X1 < p.Length-least {
		rings = append(rings, ring{x: p.Length, r: axis})
	}
	for i := len(p.Bores) - 1; i >= 0; i-- {
		rings = append(rings, t.rings(p.Bores[i], true)...)
	}
	if len(p.Bores) == 0 || p.Bores[0].X0 > least {
		rings = append(rings, ring{x: 0, r: axis})
	}
	for i, r := range rings {
		t.band(r, rings[(i+1)%len(rings)])
	}
	for _, d := range t.holes {
		t.wall(d)
	}
	return nil
}

// directions returns evenly spread directions, with corners of hexagons and
// squares among them, and those of the edges of flats and cross holes, which
// take the place of others close by.
func (t *turner) directions() []float64 {
	largest := 0.0
	for _, s := range t.part.Segments {
		largest = max(largest, s.D0, s.D1)
	}
	var exact []float64
	for _, f := range t.part.Flats {
		for _, s := range t.part.Segments {
			if half := s.D0 / 2; s.X1 > f.X0 && s.X0 < f.X1 && f.Height < half && s.Form == part.Plain {
				exact = append(exact, f.Around+math.Acos(f.Height/half), f.Around-math.Acos(f.Height/half))
			}
		}
	}
	for _, d := range t.holes {
		exact = append(exact, d.directions(t.part)...)
	}
	return spread(turns(largest/2, t.chord), exact)
}

// turns returns into how many chords a circle is divided: a multiple of 24.
func turns(radius, chord float64) int {
	n := math.Pi / math.Acos(1-min(0.5, chord/radius))
	return 24 * int(math.Ceil(n/24))
}

// spread returns n directions evenly spread and the exact ones, in order.
func spread(n int, exact []float64) []float64 {
	const close = 1e-3
	full := 2 * math.Pi
	for i, a := range exact {
		exact[i] = math.Mod(math.Mod(a, full)+full, full)
	}
	slices.Sort(exact)
	exact = slices.CompactFunc(exact, within(1e-9))
	list := slices.Clone(exact)
	for i := range n {
		angle := full * float64(i) / float64(n)
		near := func(e float64) bool { return math.Abs(math.Remainder(e-angle, full)) < close }
		corner := i%(n/24) == 0 // of a hexagon or square
		if k := slices.IndexFunc(exact, near); k < 0 || corner && math.Abs(math.Remainder(exact[k]-angle, full)) > 1e-9 {
			list = append(list, angle)
		}
	}
	slices.Sort(list)
	return list
}

// rings returns the rings of a segment, from left to right; of a bore from right
// to left. Where a flat begins or ends there are two at one place.
func (t *turner) rings(s part.Segment, bore bool) []ring {
	places := t.places(s, bore)
	var list []ring
	for i := 1; i < len(places); i++ {
		from, to := places[i-1], places[i]
		middle := (from + to) / 2
		first, last := ring{x: from, r: t.section(s, from, middle, bore)}, ring{x: to, r: t.section(s, to, middle, bore)}
		hole := t.holeIn(from, to, bore)
		if bore {
			last.hole = hole
			list = append([]ring{last, first}, list...)
			continue
		}
		first.hole = hole
		list = append(list, first, last)
	}
	return list
}

// places returns where along a segment there is a ring: at its ends, in between
// along an arc and along a cone with a flat, at the ends of flats and between
// two cross holes.
func (t *turner) places(s part.Segment, bore bool) []float64 {
	list := []float64{s.X0, s.X1}
	n := 1
	if s.Form == part.Rounded {
		arc := s.Outline()
		n = int(math.Ceil(math.Abs(arc.Sweep()) / math.Acos(1-min(0.5, t.chord/arc.Radius())) / 2))
		for i := 1; i < n; i++ {
			list = append(list, arc.At(float64(i)/float64(n)).X)
		}
	}
	if !bore {
		for _, f := range t.part.Flats {
			list = append(list, f.X0, f.X1)
			if f.X0 < s.X1 && f.X1 > s.X0 && s.Form == part.Plain && s.D0 != s.D1 {
				for i := 1; i < 16; i++ {
					list = append(list, s.X0+(s.X1-s.X0)*float64(i)/16)
				}
			}
		}
	}
	for i := 1; i < len(t.holes); i++ {
		list = append(list, (t.holes[i-1].X+t.holes[i].X)/2)
	}
	list = slices.DeleteFunc(list, func(x float64) bool { return x < s.X0 || x > s.X1 })
	slices.Sort(list)
	return slices.CompactFunc(list, within(least))
}

// section returns how far out the points are at x, with the flats that there
// are at a place close by.
func (t *turner) section(s part.Segment, x, beside float64, bore bool) []float64 {
	half := s.Diameter(x) / 2
	r := make([]float64, len(t.angles))
	for k, angle := range t.angles {
		r[k] = out(s.Form, half, angle)
		for _, f := range t.part.Flats {
			if cos := math.Cos(angle - f.Around); !bore && f.X0 < beside && beside < f.X1 && cos > 0 {
				r[k] = min(r[k], f.Height/cos)
			}
		}
	}
	return r
}

// out returns how far from the axis a section is in a direction.
func out(form part.SegmentForm, half, angle float64) float64 {
	switch form {
	case part.Hexagonal:
		return half / math.Cos(math.Remainder(angle, math.Pi/3))
	case part.Squared:
		return half / math.Cos(math.Remainder(angle, math.Pi/2))
	}
	return half
}

// point returns the k-th point of a ring, counted round and round.
func (t *turner) point(r ring, k int) point {
	y, z := t.across(r, k)
	return at(r.x, y, z)
}

// across returns where the k-th point is in the section.
func (t *turner) across(r ring, k int) (y, z float64) {
	k %= len(t.angles)
	sin, cos := math.Sincos(t.angles[k])
	return r.r[k] * cos, r.r[k] * sin
}

// band adds the faces between two rings, with a cross hole left open.
func (t *turner) band(a, b ring) {
	for k := range t.angles {
		if a.hole != nil && t.opens(a.hole, a, k) {
			t.round(a.hole, a, b, k)
			continue
		}
		t.strip(t.between(a, b, k), t.between(a, b, k+1))
	}
}

// between returns the points from one ring to the next: with one more where the
// edge of a hole just comes as far.
func (t *turner) between(a, b ring, k int) chain {
	c := chain{{t.point(a, k), 0}, {t.point(b, k), 1}}
	if a.hole != nil && t.opens(a.hole, a, k) != t.opens(a.hole, a, k+len(t.angles)-1) {
		middle := ring{x: a.hole.X, r: a.r}
		c = slices.Insert(c, 1, link{t.point(middle, k), 0.5})
	}
	return c
}

// within returns the test whether two numbers are one but for a tolerance.
func within(tolerance float64) func(a, b float64) bool {
	return func(a, b float64) bool { return math.Abs(b-a) < tolerance }
}

// refused says that a mesh or body cannot be made, and why.
func refused(format string, args ...any) trade.Faults {
	return trade.Faults{{Text: fmt.Sprintf(format, args...)}}
}
