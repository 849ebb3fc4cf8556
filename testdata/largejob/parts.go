package largejob

import (
	"fmt"
	"math"
	"strings"
)

// taper adds a taper that is read over rollers on blocks: its small end and its
// half angle, which no reading tells apart by itself.
func (m *maker) taper(part int) {
	nose := m.size(fmt.Sprint("nose", part), "kind: diameter", 20+3*m.Float64())
	half := m.size(fmt.Sprint("taper", part), "kind: half-angle", (4+2*m.Float64())*math.Pi/180)
	roller := pick(m, m.rollers)
	for i := range 3 + m.IntN(6) {
		height, of := 0.0, ""
		if i > 0 { // one at the foot, the others higher: so the angle shows
			block := m.blocks[i%len(m.blocks)]
			height, of = block.size, ", block: "+block.id
		}
		shows := nose + (2*height+roller.size)*math.Tan(half) + roller.size/math.Cos(half) + roller.size
		m.take(pick(m, m.outside), shows, fmt.Sprintf("by: taper-over-rollers, of: {small-end: nose%d, half-angle: taper%d, roller: %s%s}",
			part, part, roller.id, of))
	}
}

// round adds a diameter that is read again and again, at times known beforehand.
func (m *maker) round(part int) {
	keys, tools, by := "kind: diameter, surface: outside", m.outside, "outside"
	if m.IntN(2) == 0 {
		keys, tools, by = "kind: diameter, surface: inside", m.inside, "inside"
	}
	id, truth := fmt.Sprint("round", part), 10+40*m.Float64()
	if m.IntN(5) == 0 {
		keys += fmt.Sprintf(", known: %.3f, within: 0.01", truth+0.004*m.NormFloat64())
	}
	m.size(id, keys, truth)
	for range 1 + m.IntN(5) {
		m.take(pick(m, tools), truth, fmt.Sprintf("by: %s, of: {size: %s}", by, id))
	}
}

// flight adds steps in a row, read one by one and in spans, at times with a
// relation that ties two of them, exactly or nearly.
func (m *maker) flight(part int) {
	steps := make([]float64, 3+m.IntN(12))
	name := func(i int) string { return fmt.Sprintf("step%d_%d", part, i) }
	for i := range steps {
		steps[i] = 3 + 9*m.Float64()
		if i == 2 && part%3 == 0 {
			steps[2] = steps[0] + steps[1]
		}
		m.size(name(i), "kind: depth", steps[i])
	}
	for i, truth := range steps {
		if i%4 != 3 { // the others are found from spans alone
			m.take(pick(m, m.deep), truth, fmt.Sprintf("by: depth, of: {size: %s}", name(i)))
		}
	}
	for i := range steps {
		m.span(name, steps, i, min(len(steps), i+2+m.IntN(3)))
	}
	m.span(name, steps, 0, len(steps))
	switch part % 3 {
	case 0:
		fmt.Fprintf(&m.tied, "  - {that: %s + %s, is: %s}\n", name(0), name(1), name(2))
	case 1:
		fmt.Fprintf(&m.tied, "  - {that: %s - %s, is: %.3f mm, within: 0.02 mm}\n", name(0), name(1), steps[0]-steps[1])
	}
}

// span reads the steps from one up to another together.
func (m *maker) span(name func(i int) string, steps []float64, from, to int) {
	var names []string
	sum := 0.0
	for i := from; i < to; i++ {
		names = append(names, name(i))
		sum += steps[i]
	}
	m.take(pick(m, m.deep), sum, fmt.Sprintf("by: formula, that: %q", strings.Join(names, " + ")))
}

// plate adds holes in a plane, each hanging on three or more others by the
// distances over plugs.
func (m *maker) plate(part int) {
	at := make([][2]float64, 4+m.IntN(7))
	names, guesses := make([]string, len(at)), []string{}
	for i := range at {
		at[i] = [2]float64{30*float64(i%3) + 4*m.Float64(), 35*float64(i/3) + 4*m.Float64()}
		names[i] = fmt.Sprintf("h%d_%d", part, i)
	}
	intoAxes(at)
	for i := 1; i < len(at); i++ {
		guesses = append(guesses, fmt.Sprintf("%s: [%.0f, %.0f]", names[i], at[i][0], at[i][1]))
	}
	fmt.Fprintf(&m.plans, "  plate%d: {holes: [%s], guess: {%s}}\n", part, strings.Join(names, ", "), strings.Join(guesses, ", "))
	plug := pick(m, m.plugs)
	for i := 1; i < len(at); i++ {
		for j := range i {
			if i-j <= 3 {
				shows := math.Hypot(at[i][0]-at[j][0], at[i][1]-at[j][1]) + plug.size
				m.take(pick(m, m.outside), shows, fmt.Sprintf("by: over-plugs, of: {from: %s, to: %s, plug-1: %s, plug-2: %s}",
					names[j], names[i], plug.id, plug.id))
			}
		}
	}
}

// intoAxes moves points so that the first is the origin and the second lies on
// the x axis.
func intoAxes(at [][2]float64) {
	origin := at[0]
	sin, cos := math.Sincos(math.Atan2(at[1][1]-origin[1], at[1][0]-origin[0]))
	for i, p := range at {
		x, y := p[0]-origin[0], p[1]-origin[1]
		at[i] = [2]float64{x*cos + y*sin, y*cos - x*sin}
	}
}
