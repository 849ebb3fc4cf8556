package strength

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// shearing is the source of what shears in one piece of metal.
const shearing = "pure shear at 1/√3 of the tensile strength (von Mises), as in any textbook of strength"

// bending is the source of the arms of a tee. Each bears half the load, in the middle
// of where it rests: a = (l + s)/4 - d/2 from the stud's side, with l the tee's
// length and s the slot. A bar of width w and height h bends for good all through at a
// moment of R·w·h²/4 and begins to at R·w·h²/6; what has no yield breaks there.
const bending = "bending of a bar, as in any textbook of strength"

// ledges is what is taken for granted of every tee that bends.
const ledges = "the tee's arms are taken to bear on the middle of each ledge; the ledges themselves are not worked out"

var headFailures = []*Failure{
	{
		Piece: Head, Mode: Shears, Fuse: trade.HeadFuse, Clamped: true,
		When:    "The stud is pulled out through its head.",
		Formula: "F = R/√3·π·d·h",
		Source:  shearing,
		By:      []Property{Tensile},
		Assumes: []string{"a head shears off round a cylinder of the thread's diameter, as high as the head"},
		Roles:   []Role{strength, {"thread's diameter", "d", "mm"}, {"height", "h", "mm"}},
		Take: func(l *Loaded) (least, most []float64) {
			return alike(l.screw.sheet.Thread.Major, l.Joint.Head.Height.Inside())
		},
		Model:     func(a Args) grad.Number { return a[0].Times(shearRatio * math.Pi).Mul(a[1]).Mul(a[2]) },
		MostRatio: shearRatioMost / shearRatio,
		How:       shearedHow,
		Example:   []float64{800, 10, 6},
	},
	{
		Piece: Tee, Mode: Shears, Fuse: trade.HeadFuse, Clamped: true,
		When:    "The arms of the tee shear off beside the stud.",
		Formula: "F = R/√3·2·w·h",
		Source:  shearing,
		By:      []Property{Tensile},
		Roles:   []Role{strength, {"width", "w", "mm"}, {"height", "h", "mm"}},
		Take: func(l *Loaded) (least, most []float64) {
			return alike(l.Joint.Head.Width.Inside(), l.Joint.Head.Height.Inside())
		},
		Model:     func(a Args) grad.Number { return a[0].Times(2 * shearRatio).Mul(a[1]).Mul(a[2]) },
		MostRatio: shearRatioMost / shearRatio,
		How:       shearedHow,
		Example:   []float64{410, 16, 8},
	},
	{
		Piece: Tee, Mode: Bends, Fuse: trade.HeadFuse, Clamped: true,
		When:    "The arms of the tee bend for good over the edges of the slot.",
		Formula: "F = R·w·h²/(2·a)",
		Source:  bending,
		By:      []Property{Yield},
		Assumes: []string{ledges},
		Roles:   []Role{{"yield", "R", "MPa"}, {"width", "w", "mm"}, {"height", "h", "mm"}, {"arm", "a", "mm"}},
		Take:    teeArms,
		// What the tables allow at most of a yield is not known; the tensile strength
		// bounds it.
		Model:  func(a Args) grad.Number { return a[0].Mul(a[1]).Mul(a[2].Sq()).Div(a[3].Times(2)) },
		Begins: 2. / 3,
		How: func(_ *Loaded, v []float64, _ float64) unit.Text {
			return teeHow("yield of %.0f MPa all through in bending", v)
		},
		Example: []float64{265, 16, 8, 3},
	},
	{
		Piece: Tee, Mode: Breaks, Fuse: trade.HeadFuse, Clamped: true,
		When:    "The arms of a tee of brittle metal break over the edges of the slot.",
		Formula: "F = R·w·h²/(3·a)",
		Source:  bending,
		By:      []Property{Tensile},
		Unless:  Yield,
		Assumes: []string{ledges},
		Roles:   []Role{strength, {"width", "w", "mm"}, {"height", "h", "mm"}, {"arm", "a", "mm"}},
		Take:    teeArms,
		Model:   func(a Args) grad.Number { return a[0].Mul(a[1]).Mul(a[2].Sq()).Div(a[3].Times(3)) },
		How:     func(_ *Loaded, v []float64, _ float64) unit.Text { return teeHow("%.0f MPa in bending", v) },
		Example: []float64{220, 16, 8, 3},
	},
}

// shearedHow says at what stress and on what area something shears.
func shearedHow(_ *Loaded, v []float64, load float64) unit.Text {
	return unit.Say("0.577 x %.0f MPa on %.1f mm²", v[0], load/(shearRatio*v[0]))
}

func teeArms(l *Loaded) (least, most []float64) {
	h := l.Joint.Head
	arm := (h.Across.Inside()+h.Slot.Inside())/4 - l.screw.sheet.Thread.Major/2
	return alike(h.Width.Inside(), h.Height.Inside(), arm)
}

func teeHow(stress string, v []float64) unit.Text {
	return unit.Say(stress+", arms of %s", v[0], tenths(v[3]))
}
