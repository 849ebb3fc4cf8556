package part

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// slots mills slots with round ends.
func (b *builder) slots(list []trade.SlotShape, thickness given) {
	p := b.model.Prism
	for i := range list {
		s := &list[i]
		fromX, fromY := b.size(s.FromX, trade.Offset, "x of the slot"), b.size(s.FromY, trade.Offset, "y of the slot")
		toX, toY := b.size(s.ToX, trade.Offset, "x of the slot"), b.size(s.ToY, trade.Offset, "y of the slot")
		width, depth := b.needed(s.Width, trade.Width, "slot"), b.size(s.Depth, trade.Depth, "depth of the slot")
		slot := Slot{
			From: geom.Point{X: fromX.orZero(), Y: fromY.orZero()}, To: geom.Point{X: toX.orZero(), Y: toY.orZero()},
			Width: width.Value, Depth: depth.orZero(), Through: !depth.stated(),
		}
		floor := p.Floor(geom.Middle(slot.From, slot.To))
		if slot.Through {
			slot.Depth = floor
		}
		if !b.slotFits(slot, width, depth, thickness, floor) {
			continue
		}
		p.Slots = append(p.Slots, slot)
		b.place(slot.From, fromX, fromY)
		b.place(slot.To, toX, toY)
		b.slotDimensions(slot, width, depth)
	}
}

// slotFits refuses a slot that breaks an edge, is too deep or meets another.
func (b *builder) slotFits(s Slot, width, depth, thickness given, floor float64) bool {
	p := b.model.Prism
	middle := geom.Middle(s.From, s.To)
	if s.From.Distance(s.To) < level {
		b.refuse(places(width), "%v runs from one point to itself: that is a hole", width)
		return false
	}
	outline := s.Outline()
	on, edge := outline.Closest(p.Outline)
	if !p.Outline.Contains(middle) || on.Distance(edge)-p.Chamfer < level {
		b.refuse(places(width), "%v from %s to %s breaks the edge of the part: a slot that is open at the edge belongs in the outline", width,
			b.spot(s.From), b.spot(s.To))
		return false
	}
	for _, path := range p.milled() {
		if on, other := outline.Closest(path); on.Distance(other) < level {
			b.refuse(places(width), "%v from %s to %s runs into another slot or over the edge of a ledge", width,
				b.spot(s.From), b.spot(s.To))
			return false
		}
	}
	if depth.stated() && s.Depth >= floor-level {
		b.clash(depth, thickness, "the slot comes out below; leave the depth away for a slot right through")
		return false
	}
	return true
}

func (b *builder) slotDimensions(s Slot, width, depth given) {
	side := s.To.Sub(s.From).Unit().Left().Times(s.Width / 2)
	middle := geom.Middle(s.From, s.To)
	b.add(depth.deep(Dimension{View: Plan, Kind: Aligned, A: middle.Sub(side), B: middle.Add(side), Measure: width.Measure}))
}
