package parttest

import "codeberg.org/oddleg/oddleg/job/trade"

// plate draws a plate with an outline of any sort, and a grid of places on it
// each of which may have a hole, slot or ledge.
func (m *maker) plate() *trade.PlateShape {
	thickness := m.between(600, 2000)
	p := &trade.PlateShape{Thickness: m.named(trade.Height, length(thickness))}
	if m.sometimes(3) {
		p.Chamfer = length(m.between(20, 80))
	}
	switch m.IntN(3) {
	case 0:
		m.rectangle(p, thickness)
	case 1:
		m.disc(p)
	default:
		m.outline(p)
	}
	return p
}

// rectangle draws a rectangle of cells 3 cm wide, each with something on it.
func (m *maker) rectangle(p *trade.PlateShape, thickness int) {
	const cell = 3000
	columns, rows := m.between(1, 4), m.between(1, 2)
	p.Rectangle = &trade.RectangleShape{Length: m.named(trade.Length, length(columns*cell)), Width: m.named(trade.Width, length(rows*cell))}
	if m.sometimes(2) {
		p.Rectangle.Corners = length(m.between(100, 400))
	}
	for i := range columns {
		for j := range rows {
			x, y := i*cell, j*cell
			switch m.IntN(5) {
			case 0:
				p.Slots = append(p.Slots, m.slot(x+cell/2, y+cell/2, thickness))
			case 1:
				p.Ledges = append(p.Ledges, trade.Ledge{
					FromX: length(x), FromY: length(y), ToX: length(x + cell*3/4), ToY: length(y + cell*3/4), Depth: length(m.between(100, thickness/3)),
				})
			case 2, 3:
				h := m.hole(thickness)
				h.X, h.Y = length(x+cell/2), length(y+cell/2)
				p.Holes = append(p.Holes, h)
			}
		}
	}
}

// hole draws a hole that fits a cell, with no place yet.
func (m *maker) hole(thickness int) trade.HoleShape {
	size := m.between(300, 800)
	switch m.IntN(5) {
	case 0:
		return trade.HoleShape{Diameter: length(size), Depth: length(thickness / 3)}
	case 1:
		return trade.HoleShape{Diameter: length(size), CounterboreD: length(size * 8 / 5), CounterboreH: length(thickness / 3)}
	case 2:
		return trade.HoleShape{Diameter: length(size), CountersinkD: length(size + m.between(100, thickness/2))}
	case 3:
		return trade.HoleShape{Thread: m.thread(screws[m.IntN(3)])}
	}
	return trade.HoleShape{Diameter: m.named(trade.Diameter, length(size))}
}

// slot draws a slot about the middle of a cell.
func (m *maker) slot(x, y, thickness int) trade.SlotShape {
	reach := m.between(200, 600)
	s := trade.SlotShape{FromX: length(x - reach), FromY: length(y), ToX: length(x + reach), ToY: length(y), Width: length(m.between(400, 900))}
	if m.sometimes(2) {
		s.FromX, s.FromY, s.ToX, s.ToY = length(x), length(y-reach), length(x), length(y+reach)
	}
	if m.sometimes(2) {
		s.Depth = length(thickness / 2)
	}
	return s
}

// disc draws a disc with a circle of holes.
func (m *maker) disc(p *trade.PlateShape) {
	size := m.between(6000, 15000)
	p.Disc = m.named(trade.Diameter, length(size))
	p.Holes = []trade.HoleShape{
		{X: length(0), Y: length(0), Diameter: length(size / 5)},
		{X: length(0), Y: length(0), Circle: length(size * 7 / 10), Count: m.between(2, 8), First: degrees(m.between(0, 45)), Diameter: length(size / 20)},
	}
}

// outline draws an L with an arc at one end and rounded corners.
func (m *maker) outline(p *trade.PlateShape) {
	long, wide, leg := m.between(6000, 12000), m.between(4000, 6000), m.between(1500, 2500)
	corner := func(x, y int) trade.Corner { return trade.Corner{X: length(x), Y: length(y)} }
	p.Outline = []trade.Corner{corner(0, 0), corner(long, 0), corner(long, leg), corner(leg, leg), corner(leg, wide), corner(0, wide)}
	p.Outline[2].Radius, p.Outline[2].Turn = length(leg*6/10), trade.Anticlockwise
	if m.sometimes(2) {
		p.Outline[2].Turn = trade.Clockwise
	}
	p.Outline[3].Round = length(m.between(200, 600))
	p.Outline[4].Round = length(m.between(200, 600))
	p.Holes = []trade.HoleShape{{X: length(leg / 2), Y: length(wide - leg/2), Diameter: length(leg / 4)}}
}
