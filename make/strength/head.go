package strength

import "codeberg.org/oddleg/oddleg/job/trade"

// head works out what the stud pulls by.
func (c *checker) head(s *screwing) {
	h := c.joint.Head
	if h.Kind == "" {
		return
	}
	m := s.stud
	if h.Material != "" {
		section, stated := 0.0, h.Across.Given()
		if stated {
			section = h.Across.Inside()
		}
		var ok bool
		if m, ok = c.of(h.Pos, h.Material, section, false); !ok {
			return
		}
	}
	if h.Kind == trade.TeeHead {
		if c.tee(s) {
			c.gives(Loaded{Piece: Tee, metal: m, screw: s})
		}
		return
	}
	c.gives(Loaded{Piece: Head, metal: m, screw: s})
}

// tee refuses a tee that bridges no slot.
func (c *checker) tee(s *screwing) bool {
	h, major := c.joint.Head, s.sheet.Thread.Major
	if !h.Across.Given() || !h.Width.Given() || !h.Slot.Given() {
		return c.fault(h.Pos, "a tee needs across: its length over the slot, width: along the slot, and slot: the opening that it bridges")
	}
	switch across, slot := h.Across.Inside(), h.Slot.Inside(); {
	case across <= slot:
		return c.fault(h.Pos, "a tee of %.4g mm passes through a slot of %.4g mm: it holds nothing", across, slot)
	case slot < major:
		return c.fault(h.Pos, "a stud of %.4g mm does not go through a slot of %.4g mm", major, slot)
	}
	return true
}
