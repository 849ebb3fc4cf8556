package geom

import "math"

// Width returns how wide the hull is in a direction: between two straight edges
// square to it.
func (h *Hull) Width(angle float64) float64 {
	return h.touched(angle).support(angle) + h.touched(angle+math.Pi).support(angle+math.Pi)
}

// wave is the width over a range of directions u in which the same two features
// are touched: along·u + level.
type wave struct {
	along Point
	level float64
	from  float64
}

// waves returns the width piece by piece over half a turn and more.
func (h *Hull) waves() []wave {
	var list []wave
	for _, t := range h.touches {
		for _, from := range []float64{t.from, t.from + math.Pi} {
			inside := from + 1e-12
			a, b := h.touched(inside), h.touched(inside+math.Pi)
			list = append(list, wave{a.centre.Sub(b.centre), a.radius + b.radius, from})
		}
	}
	return list
}

// turns returns the directions in which the width can be least or most.
func (h *Hull) turns() []float64 {
	var list []float64
	for _, w := range h.waves() {
		list = append(list, w.from)
		if w.along != (Point{}) {
			list = append(list, w.along.Angle(), w.along.Angle()+math.Pi)
		}
	}
	return list
}

// Narrowest returns the smallest width of the hull over all directions, and a
// direction in which it is found.
func (h *Hull) Narrowest() (width, angle float64) {
	width = math.Inf(1)
	for _, turn := range h.turns() {
		if w := h.Width(turn); w < width {
			width, angle = w, turn
		}
	}
	return width, angle
}

// Spare returns how much room a rectangular window leaves the hull at best: the
// most, over all directions, of the lesser of what is left of the width, with
// the hull's width in that direction in it, and of the height, with its width
// square to that. It is negative where the hull does not go through. With it
// comes the direction in which the window's width lies.
func (h *Hull) Spare(width, height float64) (spare, angle float64) {
	left := func(a float64) float64 {
		return min(width-h.Width(a), height-h.Width(a+math.Pi/2))
	}
	spare = math.Inf(-1)
	for _, turn := range h.windowTurns(width, height) {
		if s := left(turn); s > spare {
			spare, angle = s, turn
		}
	}
	return spare, angle
}

// windowTurns returns the directions in which a window can leave the most: those
// at which either width turns, and those at which both leave the same.
func (h *Hull) windowTurns(width, height float64) []float64 {
	var list []float64
	for _, turn := range h.turns() {
		list = append(list, turn, turn-math.Pi/2)
	}
	waves := h.waves()
	for _, a := range waves {
		for _, b := range waves {
			list = append(list, level(a.along.Add(b.along.Left()), width-height-a.level+b.level)...)
		}
	}
	return list
}
