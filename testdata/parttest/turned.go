package parttest

import "codeberg.org/oddleg/oddleg/job/trade"

// turned draws a part that rises to its middle step and falls again, with what
// fits into and onto it.
func (m *maker) turned() *trade.TurnedShape {
	s := &trade.TurnedShape{}
	steps := m.between(1, 5)
	sizes, lengths := make([]int, steps), make([]int, steps)
	middle := m.IntN(steps)
	sizes[middle] = m.between(2000, 6000)
	for i := middle - 1; i >= 0; i-- {
		sizes[i] = sizes[i+1] * m.between(70, 90) / 100
	}
	for i := middle + 1; i < steps; i++ {
		sizes[i] = sizes[i-1] * m.between(70, 90) / 100
	}
	for i := range steps {
		lengths[i] = m.between(sizes[i]/2, sizes[i]*2)
		s.Steps = append(s.Steps, m.step(sizes[i], lengths[i], i != middle))
	}
	if middle == 0 || middle == steps-1 {
		m.head(&s.Steps[middle], sizes[middle])
	}
	m.onAndIn(s, sizes, lengths, middle)
	return s
}

// step draws one step; only those that meet a larger one have an undercut or a
// fillet.
func (m *maker) step(size, long int, meets bool) trade.Step {
	step := trade.Step{Section: trade.Round, Size: m.named(trade.Diameter, length(size)), Length: m.named(trade.Length, length(long))}
	if m.sometimes(2) {
		step.Chamfer = length(m.between(20, size/60))
	}
	switch {
	case meets && m.sometimes(3):
		step.Fillet = length(m.between(10, size/80))
	case meets && m.sometimes(3):
		step.Undercut = trade.Undercut{Width: length(m.between(100, long/6)), Depth: length(m.between(10, size/40))}
	}
	switch m.IntN(6) {
	case 0:
		step.To = length(size - m.between(1, size/40))
	case 1:
		step.Grooves = []trade.Groove{{At: length(long / 3), Width: length(m.between(50, long/6)), Diameter: length(size * 9 / 10)}}
	case 2:
		step.Knurled = true
	}
	return step
}

// head makes a hexagon or square of the largest step, now and then.
func (m *maker) head(s *trade.Step, size int) {
	if !m.sometimes(3) {
		return
	}
	section := []trade.CrossSection{trade.Hexagon, trade.Square}[m.IntN(2)]
	*s = trade.Step{Section: section, Size: length(size), Length: s.Length}
}

// onAndIn adds bores, flats, cross holes and centre holes. The smallest step is
// at an end: a third of it is bored at most.
func (m *maker) onAndIn(s *trade.TurnedShape, sizes, lengths []int, middle int) {
	least, total := min(sizes[0], sizes[len(sizes)-1]), 0
	for _, l := range lengths {
		total += l
	}
	bore := least / 3
	switch m.IntN(5) {
	case 0:
		s.LeftCentre, s.RightCentre = length(least/10), length(least/10)
		bore = 0
	case 1:
		s.Bore = []trade.Step{{Size: m.named(trade.Diameter, length(bore)), Chamfer: length(20)}}
	case 2:
		s.Bore = []trade.Step{{Size: length(bore), Length: length(total / 4)}, {Size: length(bore * 2 / 3), Length: length(total / 8)}}
		s.RightBore = []trade.Step{{Size: length(bore), To: length(bore * 9 / 10), Length: length(total / 4)}}
	case 3:
		s.Bore = []trade.Step{{Size: length(bore), Length: length(total / 4), Fillet: length(bore / 20)}, {Size: length(bore * 2 / 3)}}
		s.RightBore = []trade.Step{{Size: length(bore), Length: length(total / 3), Grooves: []trade.Groove{{At: length(total / 12), Width: length(total / 12), Diameter: length(bore * 11 / 10)}}}}
	default:
		bore = 0
	}
	m.across(s, sizes, lengths, middle, bore)
}

// across mills flats or drills a cross hole on the largest step.
func (m *maker) across(s *trade.TurnedShape, sizes, lengths []int, middle, bore int) {
	begin := 0
	for _, l := range lengths[:middle] {
		begin += l
	}
	size, long := sizes[middle], lengths[middle]
	if s.Steps[middle].To.Given() || s.Steps[middle].Grooves != nil || s.Steps[middle].Section != trade.Round {
		return
	}
	if s.RightBore != nil {
		return // its edges might lie under a cross hole, which solids cannot have
	}
	switch m.IntN(4) {
	case 0:
		s.Flats = []trade.Flat{{From: length(begin), Length: length(long * 2 / 5), Across: length(size * 17 / 20)}}
	case 1:
		s.Flats = []trade.Flat{{From: length(begin + long/4), Length: length(long / 2), Height: length(size * 2 / 5)}}
	case 2:
		h := trade.CrossHole{At: length(begin + long/2), Diameter: length(min(size/5, long/3))}
		if bore == 0 && m.sometimes(2) {
			h.Depth = length(size / 3)
		}
		s.CrossHoles = []trade.CrossHole{h}
	}
}
