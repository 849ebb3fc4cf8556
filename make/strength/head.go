package strength

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
)

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
		c.tee(s, m)
		return
	}
	area := math.Pi * s.sheet.Thread.Major * h.Height.Inside()
	c.shears("head", "head", m, area)
	c.note("a head shears off round a cylinder of the thread's diameter, as high as the head")
}

// shears adds a way of giving in pure shear.
func (c *checker) shears(piece, part string, m metal, area float64) {
	c.add(Way{
		Piece: piece, part: part, Mode: Shears, Load: shearRatio * m.tensile * area, Yield: shearRatio * m.yield * area,
		Most: shearRatioMost * m.most * area, Sources: m.sources, How: fmt.Sprintf("0.577 x %.0f MPa on %.1f mm²", m.tensile, area),
	})
}

// tee works out a tee that bridges a slot: a bar across the stud, whose two arms
// bend over the slot's edges and shear beside the stud.
//
// Each arm bears half the load, in the middle of where it rests: a = (length +
// slot)/4 - d/2 from the stud's side. It bends for good all through at F =
// 2·Re·w·h²/(4a), and begins to at F = 2·Re·w·h²/(6a); what has no yield breaks at
// F = 2·Rm·w·h²/(6a). Source: bending of a bar, as in any textbook of strength.
func (c *checker) tee(s *screwing, m metal) {
	h, major := c.joint.Head, s.sheet.Thread.Major
	if !h.Across.Given() || !h.Width.Given() || !h.Slot.Given() {
		c.fault(h.Pos, "a tee needs across: its length over the slot, width: along the slot, and slot: the opening that it bridges")
		return
	}
	across, slot := h.Across.Inside(), h.Slot.Inside()
	width, height := h.Width.Inside(), h.Height.Inside()
	switch {
	case across <= slot:
		c.fault(h.Pos, "a tee of %.4g mm passes through a slot of %.4g mm: it holds nothing", across, slot)
		return
	case slot < major:
		c.fault(h.Pos, "a stud of %.4g mm does not go through a slot of %.4g mm", major, slot)
		return
	}
	c.shears("tee", "head", m, 2*width*height)
	c.teeBends(h, m, width*height*height, (across+slot)/4-major/2)
	c.note("the tee's arms are taken to bear on the middle of each ledge; the ledges themselves are not worked out")
}

func (c *checker) teeBends(h trade.Head, m metal, widthHeight2, arm float64) {
	w := Way{Piece: "tee", part: "head", Mode: Bends, Sources: m.sources}
	if w.Yield = m.yield * widthHeight2 / (3 * arm); math.IsNaN(m.yield) {
		w.Mode, w.Load, w.Most = Breaks, m.tensile*widthHeight2/(3*arm), m.most*widthHeight2/(3*arm)
		w.How = fmt.Sprintf("%.0f MPa in bending, arms of %.1f mm", m.tensile, arm)
	} else {
		// What the tables allow at most of a yield is not known; the tensile
		// strength bounds it.
		w.Load, w.Most = m.yield*widthHeight2/(2*arm), m.most*widthHeight2/(2*arm)
		w.How = fmt.Sprintf("yield of %.0f MPa all through in bending, arms of %.1f mm", m.yield, arm)
	}
	c.add(w)
}
